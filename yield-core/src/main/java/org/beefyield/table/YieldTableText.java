package org.beefyield.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.Metadata;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableKey;
import org.beefyield.table.definition.TableSchema;

/** What a table says of itself in words. */
final class YieldTableText {
    private YieldTableText() {}

    static List<String> sharedNotes(YieldTable table) {
        List<SharedBy> stated =
                Arrays.stream(SharedBy.values()).filter(table::states).toList();
        List<SharedBy> silent =
                Arrays.stream(SharedBy.values()).filter(by -> !table.states(by)).toList();
        List<String> notes = new ArrayList<>();
        if (stated.isEmpty()) {
            notes.add("The table doesn't state the errors that carcasses of " + all(silent)
                    + " have in common: they aren't in its intervals");
        } else {
            notes.add("The table states the errors that carcasses of " + all(stated) + " have in common"
                    + (silent.isEmpty()
                            ? ""
                            : "; it doesn't state those of " + all(silent) + ", which aren't in its intervals"));
        }
        List<String> own = table.states(SharedBy.HALL) ? ofTheHall(table.definition()) : List.of();
        if (!own.isEmpty()) {
            notes.add("Its SDs between halls are 0 in the breakdown" + (own.size() == 1 ? "" : "s") + " of "
                    + String.join("; ", own) + ": good for the hall that they come from alone");
        }
        return notes;
    }

    static List<String> notes(TableDefinition definition) {
        List<String> notes = new ArrayList<>();
        for (Metadata entry : definition.metadata()) {
            if (entry.place().equals(Metadata.TABLE) && !entry.key().equals(TableKey.FORMAT.code())) {
                notes.add("The table is written in a newer format: its key \"" + entry.key()
                        + "\" is kept and not read; by the format's rule it changes no figure");
            }
        }
        String stated = definition.basis().quartering();
        List<String> quarterings = definition.quartering().stream()
                .map(QuarteringRow::quartering)
                .distinct()
                .toList();
        if (stated != null && !quarterings.isEmpty() && !quarterings.contains(stated)) {
            notes.add("The basis names the quartering \"" + stated + "\", which " + TableSchema.QUARTERING
                    + " doesn't have; it has " + String.join(", ", quarterings));
        }
        return notes;
    }

    /** Such as {@code a lot, a run and a hall}. */
    private static String all(List<SharedBy> shared) {
        List<String> words = shared.stream()
                .map(by -> switch (by) {
                    case LOT -> "a lot";
                    case RUN -> "a run";
                    case HALL -> "a hall";
                })
                .toList();
        int last = words.size() - 1;
        return (last == 0 ? "" : String.join(", ", words.subList(0, last)) + " and ") + words.get(last);
    }

    /** Breakdowns whose shares vary between carcasses and not between halls. */
    private static List<String> ofTheHall(TableDefinition definition) {
        Map<String, Boolean> vary = new LinkedHashMap<>();
        Map<String, Boolean> varyByHall = new LinkedHashMap<>();
        for (BreakdownRow row : definition.breakdown()) {
            note(vary, varyByHall, row.parent(), row.way(), row.sdGPerKg(), row.shared());
        }
        for (ClassRow row : definition.breakdownByClass()) {
            note(vary, varyByHall, row.parent(), row.way(), row.sdGPerKg(), row.shared());
        }
        return vary.keySet().stream()
                .filter(name -> vary.getOrDefault(name, false) && !varyByHall.getOrDefault(name, false))
                .toList();
    }

    private static void note(
            Map<String, Boolean> vary,
            Map<String, Boolean> varyByHall,
            String parent,
            String way,
            double sd,
            SharedSds shared) {
        String name = parent + (way.equals(BreakdownRow.ANY) ? "" : ", " + way);
        Double ofHall = shared.of(SharedBy.HALL);
        vary.merge(name, sd > 0, Boolean::logicalOr);
        varyByHall.merge(name, ofHall != null && ofHall > 0, Boolean::logicalOr);
    }
}
