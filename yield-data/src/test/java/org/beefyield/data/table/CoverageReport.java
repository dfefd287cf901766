package org.beefyield.data.table;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.ToDoubleBiFunction;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.YieldTable;
import org.jspecify.annotations.Nullable;

/**
 * What intervals hold of truths that the model knows and of some that it doesn't: the table in GUIDE.md, which
 * {@code main} prints. Everything has fixed seeds.
 */
final class CoverageReport {
    static final int LOT_SIZE = 40;
    static final int DAYS_BEFORE = 30;

    static final ModelTruth.World HEAVY_TAILS = new ModelTruth.World("heavier tails (t, 4 df)", true, 0);
    static final ModelTruth.World A_TWENTIETH =
            new ModelTruth.World("a twentieth of the variance common to the day", false, 0.05);
    static final ModelTruth.World A_TENTH = new ModelTruth.World("a tenth", false, 0.1);
    static final ModelTruth.World A_QUARTER = new ModelTruth.World("a quarter", false, 0.25);

    private static final double[] PROBABILITIES = {0.5, 0.8, 0.9, 0.95};
    private static final int CARCASSES = 20_000;
    private static final int LOTS = 3_000;
    private static final int SEASONS = 400;
    private static final int DAYS = 40;

    private final Coverage coverage;
    private final Map<ModelTruth.World, Map<String, Coverage.Result>> carcasses = new HashMap<>();
    private final Map<ModelTruth.World, Map<String, Coverage.Result>> lots = new HashMap<>();
    private final List<String> lines = new ArrayList<>();
    private Coverage.@Nullable Seasons seasons;

    CoverageReport(YieldTable table) {
        this.coverage = Coverage.ofCutsAndKinds(table, "steaks");
    }

    private static Carcass steer(String conformation, String fatClass) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fatClass), 340);
    }

    Map<String, Coverage.Result> carcass(ModelTruth.World world) {
        return carcasses.computeIfAbsent(world, w -> coverage.ofCarcass(steer("R=", "3="), w, CARCASSES, 1));
    }

    Map<String, Coverage.Result> leanCarcass() {
        return coverage.ofCarcass(steer("E=", "1+"), ModelTruth.World.AS_MODELLED, CARCASSES, 1);
    }

    Map<String, Coverage.Result> leanLots() {
        return coverage.ofLot(
                Collections.nCopies(LOT_SIZE, steer("E=", "1+")), ModelTruth.World.AS_MODELLED, LOTS / 2, 3);
    }

    Map<String, Coverage.Result> lots(ModelTruth.World world) {
        return lots.computeIfAbsent(world, w -> coverage.ofLot(Coverage.lot(LOT_SIZE, 0, 5), w, LOTS, 2));
    }

    /** Forty days of twenty carcasses, with one table and one scale, whose errors all lots of a season share. */
    Coverage.Seasons seasons() {
        Coverage.Seasons known = seasons;
        if (known == null) {
            List<List<Carcass>> days = new ArrayList<>();
            for (int day = 0; day < DAYS; day++) {
                days.add(Coverage.lot(LOT_SIZE / 2, day % 2, 100 + day));
            }
            known = coverage.seasons(days, SEASONS, 7);
            seasons = known;
        }
        return known;
    }

    /** The part of seasons that an interval would hold if their lots were independent, which they are not. */
    static double heldIfIndependent(Coverage.Result total, List<Coverage.Result> lots, double probability) {
        return total.heldWithin(total.half(probability) * sdIfIndependent(lots) / total.sd());
    }

    static double sdIfIndependent(List<Coverage.Result> lots) {
        return Math.sqrt(lots.stream().mapToDouble(lot -> lot.sd() * lot.sd()).sum());
    }

    /** Mean over figures. */
    static double mean(
            Collection<Coverage.Result> results, double p, ToDoubleBiFunction<Coverage.Result, Double> held) {
        return results.stream()
                .mapToDouble(result -> held.applyAsDouble(result, p))
                .average()
                .orElseThrow();
    }

    private void line(String what, Map<String, Coverage.Result> results) {
        line(what, results.values(), Coverage.Result::held);
    }

    private void line(
            String what, Collection<Coverage.Result> results, ToDoubleBiFunction<Coverage.Result, Double> held) {
        StringBuilder line = new StringBuilder("| ").append(what);
        for (double probability : PROBABILITIES) {
            line.append(String.format(Locale.ROOT, " | %.0f", 100 * mean(results, probability, held)));
        }
        lines.add(line.append(" |\n").toString());
    }

    /** The table, in Markdown: per cent of the true kilograms that the intervals held. */
    String table() {
        lines.clear();
        lines.add("| per cent held by intervals of | 50 % | 80 % | 90 % | 95 % |\n|---|---|---|---|---|\n");
        line("one carcass, as the model says", carcass(ModelTruth.World.AS_MODELLED));
        line("one very lean carcass (E= 1+), shares below 0 drawn again", leanCarcass());
        line("one carcass, " + HEAVY_TAILS.name(), carcass(HEAVY_TAILS));
        line("a lot of 40, as the model says", lots(ModelTruth.World.AS_MODELLED));
        line("a lot of 40, nothing but such lean carcasses", leanLots());
        line("a lot of 40, " + HEAVY_TAILS.name(), lots(HEAVY_TAILS));
        line("a lot of 40, " + A_TWENTIETH.name(), lots(A_TWENTIETH));
        Map<String, Coverage.Result> tenth = lots(A_TENTH);
        line("a lot of 40, " + A_TENTH.name(), tenth);
        line(
                "the same, widened by what " + DAYS_BEFORE + " days before showed",
                tenth.values(),
                (result, p) -> result.heldAfterWidening(p, DAYS_BEFORE));
        line("a lot of 40, " + A_QUARTER.name(), lots(A_QUARTER));
        Map<Coverage.Result, List<Coverage.Result>> lotsOf = seasons().lotsByTotal();
        line("a season of 40 lots of 20, added with `plus`", lotsOf.keySet(), Coverage.Result::held);
        line(
                "the same, SDs of the lots added as squares",
                lotsOf.keySet(),
                (total, p) -> heldIfIndependent(total, lotsOf.getOrDefault(total, List.of()), p));
        return String.join("", lines);
    }

    /**
     * Prints the table.
     *
     * @param arguments none
     */
    public static void main(String[] arguments) {
        System.out.print(new CoverageReport(ShippedTables.boneless2026()).table());
    }
}
