package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.IntUnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.boning.RefusedTrial;
import org.beefyield.boning.TrialSet;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/** The report of a calibration, put together once for text and HTML. */
final class CalibratedText {
    /** A heading with lines or a table under it. */
    private record Block(
            String heading, List<String> lines, @Nullable TextTable table) {}

    /** Standard errors on either side of what holds in 90 of 100. */
    private static final double NINETY = 1.6449;

    /** Carcasses below which what stands is the prior table rather than what they tell. */
    private static final int FEW = 5;

    /** Findings that say that all of the table may be wrong. */
    private static final Set<Finding.Kind> FIRST =
            Set.of(Finding.Kind.FAR, Finding.Kind.SWAPPED, Finding.Kind.SELECTED, Finding.Kind.CONTRADICTED);

    private final List<Block> blocks = new ArrayList<>();

    private CalibratedText() {}

    static CalibratedText of(Calibrated calibrated) {
        CalibratedText report = new CalibratedText();
        TrialSet trials = calibrated.trials();
        report.lines("Calibration of " + trials.table().identity(), answer(calibrated));
        if (!calibrated.fits().isEmpty()) {
            report.table("What the hall returns of the reference carcass", learnt(calibrated));
        }
        report.lines(
                "Findings",
                calibrated.findings().stream().map(Finding::toString).toList());
        List<String> leftOut = new ArrayList<>(
                trials.refused().stream().map(RefusedTrial::toString).toList());
        leftOut.addAll(trials.refusedDays());
        report.lines("Left out", leftOut);
        report.lines("Closing", trials.closingSummary());
        List<String> kept = trials.breakdowns().stream()
                .filter(breakdown -> calibrated.fits().stream()
                        .noneMatch(fit -> fit.breakdown().equals(breakdown)))
                .map(WeighedBreakdown::name)
                .toList();
        report.lines("As in the prior table", kept.isEmpty() ? List.of() : List.of(String.join("; ", kept)));
        report.lines("Errors in common", inCommon(calibrated));
        calibrated
                .fits()
                .forEach(fit -> report.fit(fit, trials.table().definition().categories()));
        return report;
    }

    /** Written? How far from the table in use? How sure? */
    private static List<String> answer(Calibrated calibrated) {
        TrialSet trials = calibrated.trials();
        long whole = trials.refused().stream()
                .filter(refusal -> refusal.parent().isEmpty())
                .map(RefusedTrial::carcass)
                .distinct()
                .count();
        List<String> lines = new ArrayList<>();
        String counted =
                Numbers.counted(trials.accepted().size(), "trial", "trials") + " accepted, " + whole + " refused";
        List<BreakdownFit> fits = calibrated.fits();
        if (fits.isEmpty()) {
            lines.add("There is a table, and it is the prior table unchanged: nothing could be learnt. " + counted);
            return lines;
        }
        lines.add("There is a table, and it keeps all its promises. " + counted);
        calibrated.findings().stream()
                .filter(finding -> FIRST.contains(finding.kind()))
                .forEach(finding -> lines.add("Look at this before it is used: " + finding));
        BreakdownFit first = fits.get(0);
        if (first.carcassCount() < FEW) {
            lines.add("So few carcasses tell little: what stands is for the most part the table in use");
        }
        lines.add(furthest(fits));
        lines.add(speaks(calibrated));
        String main = first.cuts().get(0);
        first.toHalve(main)
                .ifPresent(needed -> lines.add("What is not known of " + main + " would be halved by "
                        + Numbers.counted(needed.carcasses(), "more carcass", "more carcasses") + " over at least "
                        + Numbers.counted(needed.days(), "more day", "more days")));
        lines.add(
                "Grades as the grader sees them: where he errs, slopes on grades come out flatter than they are, and right"
                        + " for his grades");
        return lines;
    }

    private static String furthest(List<BreakdownFit> fits) {
        String level = BreakdownRow.PLAIN_COLUMNS.get(0);
        String words = "";
        double most = -1;
        for (BreakdownFit fit : fits) {
            for (String cut : fit.cuts()) {
                double moved = fit.coefficient(cut, level) - fit.priorCoefficient(cut, level);
                double before = fit.priorStandardError(cut, level);
                if (Math.abs(moved) > most) {
                    most = Math.abs(moved);
                    words = "Furthest from the table in use, of the " + fit.name() + ": " + cut + " "
                            + Numbers.fixed(fit.coefficient(cut, level), 1) + " g/kg, " + Numbers.signed(moved, 1)
                            + ", sure (90 %) to " + Numbers.fixed(NINETY * fit.standardError(cut, level), 1) + " g/kg"
                            + (before > 0 ? " where the table in use was to " + Numbers.fixed(NINETY * before, 1) : "");
                }
            }
        }
        return words;
    }

    private static String speaks(Calibrated calibrated) {
        TableRange range = calibrated.trialRange();
        return "The trials speak of conformation " + range.conformation() + ", fat " + range.fat() + " and "
                + range.weightKg() + " kg; beyond that "
                + (calibrated.fits().stream().anyMatch(BreakdownFit::withPrior)
                        ? "the table in use speaks, moved with them"
                        : "their lines go on");
    }

    private static TextTable learnt(Calibrated calibrated) {
        TextTable table = new TextTable(
                "Breakdown",
                "Cut",
                "Before, g/kg",
                "90 %, ±",
                "Now, g/kg",
                "90 %, ±",
                "Run SD",
                "95 % below",
                "Learnt");
        String level = BreakdownRow.PLAIN_COLUMNS.get(0);
        for (BreakdownFit fit : calibrated.fits()) {
            for (String cut : fit.cuts()) {
                OptionalDouble bound = fit.runSdBound(cut, 0.95);
                table.row(
                        fit.name(),
                        cut,
                        Numbers.fixed(fit.priorCoefficient(cut, level), 1),
                        fit.withPrior() ? Numbers.fixed(NINETY * fit.priorStandardError(cut, level), 1) : "",
                        Numbers.fixed(fit.coefficient(cut, level), 1),
                        Numbers.fixed(NINETY * fit.standardError(cut, level), 1),
                        Numbers.fixed(fit.runSd(cut), 2),
                        bound.isPresent() ? Numbers.fixed(bound.getAsDouble(), 2) : "",
                        fit.fitted());
            }
            table.rule();
        }
        return table;
    }

    private static List<String> inCommon(Calibrated calibrated) {
        YieldTable prior = calibrated.trials().table();
        boolean tellsRuns = FittedBreakdowns.statesRuns(prior, calibrated.fits());
        List<String> lines = new ArrayList<>();
        if (prior.states(SharedBy.LOT)) {
            lines.add("of lots: as in the prior table");
        }
        if (prior.states(SharedBy.RUN)) {
            lines.add("of runs: in what was learnt as the days differ, the prior table's counting for "
                    + Numbers.exact(BreakdownModel.PRIOR_DEGREES)
                    + " degrees of freedom; as in the prior table in the rest");
        } else if (tellsRuns) {
            lines.add("of runs: as the days differ; the prior table states nothing of them");
        } else if (calibrated.fits().stream()
                .anyMatch(fit -> fit.runSd(fit.cuts().get(0)) > 0)) {
            lines.add(
                    "of runs: the days differ, but the prior table states no SD of runs, so that there is no place for it:"
                            + " state one in all rows of the prior table, 0 where nothing is known");
        }
        if (prior.states(SharedBy.HALL) && calibrated.isOfOthers()) {
            lines.add("of halls: as in the prior table, for the trials are of other halls");
        } else if (prior.states(SharedBy.HALL)) {
            lines.add(
                    "of halls: 0 in what was learnt, for what is not known of the hall is in the errors of its coefficients;"
                            + " as in the prior table in the rest");
        }
        List<String> silent = Stream.of(SharedBy.values())
                .filter(by -> !prior.states(by))
                .filter(by -> by != SharedBy.RUN || !tellsRuns)
                .map(by -> switch (by) {
                    case LOT -> "lots";
                    case RUN -> "runs";
                    case HALL -> "halls";
                })
                .toList();
        if (!silent.isEmpty()) {
            lines.add("of " + String.join(", ", silent) + ": not stated, as in the prior table");
        }
        return lines;
    }

    private void lines(String heading, List<String> lines) {
        blocks.add(new Block(heading, lines.isEmpty() ? List.of("none") : lines, null));
    }

    private void table(String heading, TextTable table) {
        blocks.add(new Block(heading, List.of(), table));
    }

    private void fit(BreakdownFit fit, List<Category> categories) {
        TextTable errors =
                new TextTable("Cut", "Mean, g/kg", "SD between carcasses, g/kg", "before", "R²", "RMSE, g/kg");
        List<WeighedBreakdown.Part> parts = fit.breakdown().parts();
        double[] means = fit.model.means().weighed();
        for (int part = 0; part < parts.size(); part++) {
            double mean = means[part];
            String cut = fit.cuts().get(parts.get(part).members().get(0));
            errors.row(
                    parts.get(part).name(),
                    Double.isNaN(mean) ? "" : Numbers.fixed(mean, 1),
                    Numbers.fixed(Math.sqrt(fit.regression.within()[part][part]), 2),
                    Numbers.fixed(fit.priorResidualSd(cut), 2),
                    Double.isNaN(mean) ? "" : Numbers.fixed(fit.r2(cut), 3),
                    Double.isNaN(mean) ? "" : Numbers.fixed(fit.rmse(cut), 2));
        }
        List<String> facts = new ArrayList<>();
        facts.add(Numbers.counted(fit.carcassCount(), "carcass", "carcasses") + " on "
                + Numbers.counted(fit.dayCount(), "day", "days") + ", learnt: "
                + fit.fitted() + ", " + Numbers.fixed(fit.degreesOfFreedom(), 1)
                + " degrees of freedom; g per kg of " + fit.parent());
        facts.add("squares left of " + fit.model.others() + ", in variances between carcasses: "
                + Numbers.fixed(fit.leftOut(), 3) + ", by the prior table " + Numbers.fixed(fit.leftByPrior(), 3));
        String unseen = categories.stream()
                .filter(category -> fit.category().equals(BreakdownRow.ANY) && fit.model.count(category) == 0)
                .map(Category::letter)
                .collect(Collectors.joining(" "));
        if (!unseen.isEmpty()) {
            facts.add("no trial of category " + unseen + ": moved like the others");
        }
        lines("Breakdown of " + fit.name(), facts);
        table("Errors of " + fit.name(), errors);
        TextTable coefficients = new TextTable(
                "Cut",
                "Term",
                "Prior, g/kg",
                "Fitted, g/kg",
                "Standard error, g/kg",
                "Difference, g/kg",
                "In standard errors");
        for (String cut : fit.cuts()) {
            for (String term : fit.terms()) {
                double prior = fit.priorCoefficient(cut, term);
                double difference = fit.coefficient(cut, term) - prior;
                double error = fit.standardError(cut, term);
                coefficients.row(
                        cut,
                        term,
                        Numbers.fixed(prior, 3),
                        Numbers.fixed(fit.coefficient(cut, term), 3),
                        Numbers.fixed(error, 3),
                        Numbers.fixed(difference, 3),
                        error > 0 ? Numbers.fixed(difference / error, 1) : "");
            }
            coefficients.rule();
        }
        table("Coefficients of " + fit.name(), coefficients);
        residuals(
                fit,
                "category",
                fit.model.categories.stream().map(Category::letter).toList(),
                fit.model::kindOf);
        residuals(fit, "day", fit.model.days, fit.model::dayOf);
        List<String> grades = new ArrayList<>();
        Map<String, Map<Integer, Integer>> places = new HashMap<>();
        residuals(fit, "grade", grades, row -> {
            Carcass carcass = fit.model.rows.get(row).trial().carcass();
            String conformation = carcass.conformation().classLetter();
            return places.computeIfAbsent(conformation, letter -> new HashMap<>())
                    .computeIfAbsent(carcass.fatClass().classNumber(), fat -> {
                        grades.add(conformation + " " + fat);
                        return grades.size() - 1;
                    });
        });
    }

    /**
     * @param groups names of the groups, that of an unknown one empty; all there once all rows are looked at
     * @param groupOf the group of a row
     */
    private void residuals(BreakdownFit fit, String by, List<String> groups, IntUnaryOperator groupOf) {
        int[] ofRows = IntStream.range(0, fit.model.rows.size()).map(groupOf).toArray();
        List<WeighedBreakdown.Part> parts = fit.breakdown().parts();
        int[] carcasses = new int[groups.size()];
        int[][] counts = new int[groups.size()][parts.size()];
        double[][] sums = new double[groups.size()][parts.size()];
        for (int row = 0; row < ofRows.length; row++) {
            int group = ofRows[row];
            carcasses[group]++;
            for (int part = 0; part < parts.size(); part++) {
                double left = fit.residual(part, row);
                if (!Double.isNaN(left)) {
                    sums[group][part] += left;
                    counts[group][part]++;
                }
            }
        }
        List<Integer> shown = IntStream.range(0, carcasses.length)
                .filter(group -> carcasses[group] > 0 && !groups.get(group).isEmpty())
                .boxed()
                .sorted(Comparator.comparing(groups::get))
                .toList();
        if (shown.isEmpty()) {
            return;
        }
        List<String> header =
                new ArrayList<>(List.of(Character.toUpperCase(by.charAt(0)) + by.substring(1), "Carcasses"));
        parts.forEach(part -> header.add(part.name()));
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (int group : shown) {
            List<String> cells = new ArrayList<>(List.of(groups.get(group), Integer.toString(carcasses[group])));
            for (int part = 0; part < parts.size(); part++) {
                int count = counts[group][part];
                cells.add(count > 0 ? Numbers.fixed(sums[group][part] / count, 1) : "");
            }
            table.row(cells);
        }
        table("Mean residual of " + fit.name() + " by " + by + ", g/kg", table);
    }

    String toText() {
        StringBuilder text = new StringBuilder();
        for (Block block : blocks) {
            text.append(text.isEmpty() ? "" : "\n").append(block.heading()).append('\n');
            block.lines().forEach(line -> text.append("  ").append(line).append('\n'));
            TextTable table = block.table();
            if (table != null) {
                text.append(table.toText());
            }
        }
        return text.toString();
    }

    String toHtml() {
        StringBuilder html = new StringBuilder();
        for (Block block : blocks) {
            html.append("<h3>").append(TextTable.escape(block.heading())).append("</h3>\n");
            block.lines()
                    .forEach(line ->
                            html.append("<p>").append(TextTable.escape(line)).append("</p>\n"));
            TextTable table = block.table();
            if (table != null) {
                html.append(table.toHtml());
            }
        }
        return html.toString();
    }
}
