package org.beefyield.data.killsheet;

import java.math.BigDecimal;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.DressingCorrection;
import org.beefyield.data.killsheet.KillSheetFormat.Column;
import org.beefyield.report.TrimmedParts;
import org.jspecify.annotations.Nullable;

/** Finds the two rows of a carcass in a sheet that has one for each side, and makes one of them. */
final class Sides {
    /** What a carcass is known by. */
    private record Key(String day, String lot, String id) {
        static Key of(KillSheetRow row) {
            return new Key(row.day(), row.text(Column.LOT), row.text(Column.CARCASS));
        }
    }

    /** A row that was read: an entry or a condemned carcass, or neither if it is refused. */
    record Side(
            KillSheetRow row, @Nullable KillSheetEntry entry, KillSheet.@Nullable Condemned condemned, long elsewhere) {
        static Side of(KillSheetRow row, long elsewhere) {
            return row.isCondemned()
                    ? new Side(row, null, row.condemned(), elsewhere)
                    : new Side(row, row.entry(), null, elsewhere);
        }

        boolean isRefused() {
            return entry == null && condemned == null;
        }
    }

    private final Map<Key, Side> waiting = new LinkedHashMap<>();

    /** Puts a first side down to wait for the other one. */
    void wait(Side side) {
        waiting.put(Key.of(side.row()), side);
    }

    /** Takes the side that waits for this one, null if none does. */
    @Nullable
    Side take(KillSheetRow row) {
        return waiting.remove(Key.of(row));
    }

    /** Those whose other side never came, in the order of the sheet. */
    List<Side> alone() {
        return waiting.values().stream().filter(side -> !side.isRefused()).toList();
    }

    /** The carcass of two sides, null after both rows are refused because they don't agree. */
    static @Nullable Side joined(Side one, Side other) {
        compare(one, other, Column.STATUS, one.row().isCondemned(), other.row().isCondemned());
        KillSheetEntry first = one.entry();
        KillSheetEntry second = other.entry();
        if (first == null || second == null) {
            return refusesIfBad(one, other) ? null : new Side(one.row(), null, one.condemned(), 0);
        }
        Carcass a = first.carcass();
        Carcass b = second.carcass();
        compare(one, other, Column.CATEGORY, a.category(), b.category());
        compare(one, other, given(one.row(), Column.CONFORMATION), a.conformation(), b.conformation());
        compare(one, other, given(one.row(), Column.FAT_CLASS), a.fatClass(), b.fatClass());
        compare(one, other, Column.AGE_MONTHS, a.ageMonths(), b.ageMonths());
        compare(one, other, Column.SUPPLIER, a.supplier(), b.supplier());
        compare(one, other, Column.HALL, a.hall(), b.hall());
        compare(one, other, Column.ASSURED, a.assured(), b.assured());
        compare(one, other, Column.DRESSING, first.dressing(), second.dressing());
        compareIfBoth(one, other, Column.LEFT_KG, first.leftKg(), second.leftKg());
        compareIfBoth(one, other, Column.RIGHT_KG, first.rightKg(), second.rightKg());
        double kg = sum(first.dressedColdWeightKg(), second.dressedColdWeightKg());
        Carcass carcass = refusesIfBad(one, other) ? null : carcass(one, other, a, kg, first.dressing());
        if (carcass == null) {
            return null;
        }
        one.row()
                .noteApart(
                        weight(one.row()),
                        "sides of " + one.row().shown(weight(one.row())) + " kg and "
                                + other.row().shown(weight(other.row())) + " kg in line "
                                + other.row().line(),
                        first.dressedColdWeightKg(),
                        second.dressedColdWeightKg());
        if (first.dressedColdWeightKg() == second.dressedColdWeightKg()) {
            one.row()
                    .note(
                            weight(one.row()),
                            "both rows weigh " + one.row().shown(weight(one.row())) + " kg, the other in line "
                                    + other.row().line()
                                    + "; if each is the whole carcass, it counts twice here");
        }
        one.row().addNotes(other.row());
        KillSheetEntry both = new KillSheetEntry(
                first.line(),
                carcass,
                first.killDate(),
                kg,
                sum(first.hotWeightKg(), second.hotWeightKg()),
                first.dressing(),
                either(first.leftKg(), second.leftKg()),
                either(first.rightKg(), second.rightKg()),
                first.trimmedKg().isEmpty() && second.trimmedKg().isEmpty()
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(sum(
                                first.trimmedKg().orElse(0), second.trimmedKg().orElse(0))),
                byRegion(first, second),
                others(first, second));
        return new Side(one.row(), both, null, one.elsewhere());
    }

    private static Map<TrimmedParts.Region, Double> byRegion(KillSheetEntry first, KillSheetEntry second) {
        Map<TrimmedParts.Region, Double> both = new HashMap<>(first.trimmedKgByRegion());
        second.trimmedKgByRegion().forEach((region, kg) -> both.merge(region, kg, Double::sum));
        return both;
    }

    private static boolean refusesIfBad(Side one, Side other) {
        if (other.row().problems().isEmpty()) {
            return false;
        }
        one.row()
                .refuse(
                        Column.CARCASS,
                        "the other side, in line " + other.row().line() + ", doesn't agree with this one");
        return true;
    }

    private static void compare(Side one, Side other, Column column, Object a, Object b) {
        if (!Objects.equals(a, b)) {
            other.row()
                    .refuse(
                            column,
                            "the other side, in line " + one.row().line() + ", has "
                                    + words(one.row().text(column))
                                    + ", this one " + words(other.row().text(column))
                                    + "; the sides of a carcass agree");
        }
    }

    private static String words(String cell) {
        return cell.isEmpty() ? "nothing" : "\"" + cell + "\"";
    }

    private static Column given(KillSheetRow row, Column grade) {
        Column points = grade == Column.CONFORMATION ? Column.CONFORMATION_POINTS : Column.FAT_POINTS;
        return row.text(grade).isEmpty() ? points : grade;
    }

    private static Column weight(KillSheetRow row) {
        return row.text(Column.COLD_WEIGHT_KG).isEmpty() ? Column.HOT_WEIGHT_KG : Column.COLD_WEIGHT_KG;
    }

    private static @Nullable Carcass carcass(
            Side one, Side other, Carcass like, double dressedKg, Set<DressingCorrection> dressing) {
        try {
            double kg = dressing.isEmpty()
                    ? dressedKg
                    : DressingCorrection.toReference(dressedKg, EnumSet.copyOf(dressing), like.fatClass());
            return like.withColdWeightKg(kg);
        } catch (IllegalArgumentException e) {
            other.row().refuse(weight(other.row()), "both sides together, " + e.getMessage());
            one.row().refuse(weight(one.row()), "both sides together, " + e.getMessage());
            return null;
        }
    }

    /** As decimals: 170.1 and 170.2 kg are 340.3 kg to the last bit, as a row of 340.3 kg is. */
    private static double sum(double one, double other) {
        return BigDecimal.valueOf(one).add(BigDecimal.valueOf(other)).doubleValue();
    }

    private static OptionalDouble sum(OptionalDouble one, OptionalDouble other) {
        return one.isPresent() && other.isPresent()
                ? OptionalDouble.of(sum(one.getAsDouble(), other.getAsDouble()))
                : OptionalDouble.empty();
    }

    /** Two left sides of different weight are no carcass. */
    private static void compareIfBoth(Side one, Side other, Column column, OptionalDouble a, OptionalDouble b) {
        if (a.isPresent() && b.isPresent()) {
            compare(one, other, column, a, b);
        }
    }

    private static OptionalDouble either(OptionalDouble one, OptionalDouble other) {
        return one.isPresent() ? one : other;
    }

    private static Map<String, String> others(KillSheetEntry one, KillSheetEntry other) {
        Map<String, String> others = new LinkedHashMap<>(one.otherColumns());
        other.otherColumns().forEach((column, text) -> {
            String first = others.getOrDefault(column, "");
            others.put(column, first.equals(text) ? text : first + "; " + text);
        });
        return others;
    }
}
