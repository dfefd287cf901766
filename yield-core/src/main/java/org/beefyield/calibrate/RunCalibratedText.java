package org.beefyield.calibrate;

import java.util.Comparator;
import java.util.List;
import org.beefyield.boning.RunBalance;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A calibration from runs in words. */
final class RunCalibratedText {
    /** Standard errors on either side of what holds in 90 of 100. */
    private static final double NINETY = 1.6449;

    private RunCalibratedText() {}

    static String sentence(RunCalibrated of) {
        List<String> runs = of.runs();
        String taught = Numbers.counted(runs.size(), "run", "runs")
                + (runs.isEmpty() ? "" : ", " + runs.get(0) + " to " + runs.get(runs.size() - 1));
        return of.isMoved()
                ? "There is a table, learnt from " + taught + " with what "
                        + of.tableInUse().identity() + " knows, and it keeps all its promises"
                : "There is a table, and it is " + of.tableInUse().identity()
                        + " unchanged: nothing could be learnt from " + taught;
    }

    static Blocks blocks(RunCalibrated of) {
        Blocks blocks = new Blocks().sentence(sentence(of));
        of.groups().stream()
                .max(Comparator.comparingDouble(group -> Math.abs(group.afterGPerKg() - group.beforeGPerKg())))
                .filter(group -> of.isMoved())
                .ifPresent(group -> blocks.sentence("Furthest from the table in use: " + group.name() + ", "
                        + Numbers.fixed(group.afterGPerKg(), 1) + " g per kg of intake, "
                        + Numbers.signed(group.afterGPerKg() - group.beforeGPerKg(), 1) + ", sure (90 %) to "
                        + Numbers.fixed(NINETY * group.afterSd(), 1) + " where the table in use was to "
                        + Numbers.fixed(NINETY * group.beforeSd(), 1)));
        blocks.sentences(of.unbalanced().stream()
                .map(RunBalance::toString)
                .map(words -> words + ", so it taught nothing")
                .toList());
        if (of.from() != null) {
            blocks.sentence(Numbers.counted(of.earlier().size(), "run", "runs") + " before the change on " + of.from()
                    + " taught nothing");
        }
        of.groups().stream()
                .filter(group -> group.products() > 1)
                .forEach(group -> blocks.sentence("Can't be told apart: " + group.name()));
        if (!of.neverWeighed().isEmpty()) {
            blocks.sentence(
                    "Expected and never weighed, so nothing was learnt of it: " + String.join("; ", of.neverWeighed()));
        }
        blocks.sentences(of.heldBack().stream().map(HeldBack::toString).toList());
        if (!of.silent().isEmpty()) {
            blocks.sentence("The table in use doesn't say how sure it is of the breakdown of "
                    + String.join("; ", of.silent()) + ", so that stays");
        }
        if (!of.groups().isEmpty()) {
            blocks.add(table(of))
                    .sentence("g per kg of intake, the mean of the carcasses boned. A run is worth so many boned trial"
                            + " carcasses for the share of that product");
        }
        if (of.runSdFactor() != 1) {
            blocks.sentence(
                    "Runs differ otherwise than the table in use states: its SDs between runs are multiplied by "
                            + Numbers.fixed(of.runSdFactor(), 2));
        }
        if (of.isMoved()) {
            blocks.sentence(
                    "What runs tell of two breakdowns together has no place in a table: for what was weighed its"
                            + " intervals are wider than those here, on the safe side");
        }
        if (!of.drifts().isEmpty()) {
            blocks.sentence("Since " + of.from()
                            + ", against what the runs before it returned; of groups that didn't change one in ten is called"
                            + " out by chance:")
                    .sentences(of.drifts().stream().map(Drift::toString).toList());
        }
        return blocks;
    }

    private static TextTable table(RunCalibrated of) {
        TextTable table = new TextTable(
                "Product",
                "Runs",
                "Expected before",
                "90 %, ±",
                "Weighed",
                "Expected now",
                "90 %, ±",
                "SD from run to run",
                "A run is worth, carcasses");
        for (LearntGroup group : of.groups()) {
            table.row(
                    group.name(),
                    Integer.toString(group.runs()),
                    Numbers.fixed(group.beforeGPerKg(), 1),
                    Numbers.fixed(NINETY * group.beforeSd(), 1),
                    Numbers.fixed(group.weighedGPerKg(), 1),
                    Numbers.fixed(group.afterGPerKg(), 1),
                    Numbers.fixed(NINETY * group.afterSd(), 1),
                    Numbers.fixed(group.runSd(), 2),
                    Numbers.fixed(group.carcassesWorth(), 1));
        }
        return table;
    }
}
