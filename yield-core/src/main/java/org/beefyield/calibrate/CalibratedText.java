package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.boning.RefusedTrial;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Category;
import org.beefyield.stats.Regression;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/** The report of a calibration, put together once for text and HTML. */
final class CalibratedText {
    /** A heading with lines or a table under it. */
    private record Block(
            String heading, List<String> lines, @Nullable TextTable table) {}

    private final List<Block> blocks = new ArrayList<>();

    private CalibratedText() {}

    static CalibratedText of(Calibrated calibrated) {
        CalibratedText report = new CalibratedText();
        TrialSet trials = calibrated.trials();
        long whole = trials.refused().stream()
                .filter(refusal -> refusal.parent().isEmpty())
                .map(RefusedTrial::carcass)
                .distinct()
                .count();
        report.lines(
                "Calibration of " + trials.table().identity(),
                List.of(trials.accepted().size() + " trials accepted, " + whole + " refused"));
        List<String> leftOut = new ArrayList<>(
                trials.refused().stream().map(RefusedTrial::toString).toList());
        leftOut.addAll(trials.refusedDays());
        report.lines("Left out", leftOut);
        report.lines("Closing", trials.closingSummary());
        report.lines(
                "Findings",
                calibrated.findings().stream().map(Finding::toString).toList());
        List<String> kept = trials.breakdowns().stream()
                .filter(breakdown -> calibrated.fits().stream().noneMatch(fit -> fit.breakdown.equals(breakdown)))
                .map(WeighedBreakdown::name)
                .toList();
        report.lines("As in the prior table", kept.isEmpty() ? List.of() : List.of(String.join("; ", kept)));
        report.lines("Errors in common", inCommon(trials.table()));
        calibrated
                .fits()
                .forEach(fit -> report.fit(fit, trials.table().definition().categories()));
        return report;
    }

    private static List<String> inCommon(YieldTable prior) {
        Map<Boolean, List<String>> words = Stream.of(SharedBy.LOT, SharedBy.RUN)
                .collect(Collectors.partitioningBy(
                        prior::states,
                        Collectors.mapping(by -> by == SharedBy.LOT ? "lots" : "runs", Collectors.toList())));
        List<String> stated = words.getOrDefault(true, List.of());
        List<String> silent = new ArrayList<>(words.getOrDefault(false, List.of()));
        List<String> lines = new ArrayList<>();
        if (!stated.isEmpty()) {
            lines.add("of " + String.join(" and ", stated) + ": as in the prior table");
        }
        if (prior.states(SharedBy.HALL)) {
            lines.add("of halls: 0 in what was fitted, for the trials are the hall's own; as in the prior table in the"
                    + " rest");
        } else {
            silent.add("halls");
        }
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
        TextTable errors = new TextTable(
                "Cut",
                "Mean, g/kg",
                "SD between carcasses, g/kg",
                "R²",
                "RMSE, g/kg",
                "Leave one out, g/kg",
                "Tenfold, g/kg");
        Regression regression = fit.regression;
        for (int part = 0; part < fit.breakdown.parts().size(); part++) {
            int at = part;
            double mean = IntStream.range(0, regression.rows())
                            .mapToDouble(row -> regression.response(at, row))
                            .sum()
                    / regression.rows();
            String cut =
                    fit.cuts().get(fit.breakdown.parts().get(part).members().get(0));
            errors.row(
                    fit.breakdown.parts().get(part).name(),
                    Numbers.fixed(mean, 1),
                    Numbers.fixed(regression.sd(part), 2),
                    Numbers.fixed(fit.r2(cut), 3),
                    Numbers.fixed(fit.rmse(cut), 2),
                    ifKnown(fit.leaveOneOut(cut)),
                    ifKnown(fit.tenfold(cut)));
        }
        List<String> facts = new ArrayList<>();
        facts.add(fit.carcassCount() + " carcasses, " + fit.terms().size() + " terms, the prior table counts for "
                + fit.strengthWords() + ", " + Numbers.fixed(fit.degreesOfFreedom(), 1)
                + " degrees of freedom; g per kg of " + fit.parent());
        if (!fit.termsOfPrior().isEmpty()) {
            facts.add("as in the prior table: " + String.join(", ", fit.termsOfPrior()));
        }
        String unseen = categories.stream()
                .filter(category -> fit.category().equals(BreakdownRow.ANY)
                        && fit.trials.stream()
                                .noneMatch(trial -> trial.carcass().category() == category))
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
        residuals(fit, "category", trial -> trial.carcass().category().letter());
        residuals(fit, "day", Trial::day);
        residuals(
                fit,
                "grade",
                trial -> trial.carcass().conformation().classLetter() + " "
                        + trial.carcass().fatClass().classNumber());
    }

    private void residuals(BreakdownFit fit, String by, Function<Trial, String> key) {
        Map<String, List<Integer>> groups = new TreeMap<>();
        for (int i = 0; i < fit.trials.size(); i++) {
            groups.computeIfAbsent(key.apply(fit.trials.get(i)), group -> new ArrayList<>())
                    .add(i);
        }
        groups.remove("");
        if (groups.isEmpty()) {
            return;
        }
        List<String> header =
                new ArrayList<>(List.of(Character.toUpperCase(by.charAt(0)) + by.substring(1), "Carcasses"));
        fit.breakdown.parts().forEach(part -> header.add(part.name()));
        TextTable table = new TextTable(header.toArray(String[]::new));
        groups.forEach((group, rows) -> {
            List<String> cells = new ArrayList<>(List.of(group, Integer.toString(rows.size())));
            for (int k = 0; k < fit.regression.responses(); k++) {
                double mean = 0;
                for (int i : rows) {
                    mean += fit.regression.residual(k, i) / rows.size();
                }
                cells.add(Numbers.fixed(mean, 1));
            }
            table.row(cells);
        });
        table("Mean residual of " + fit.name() + " by " + by + ", g/kg", table);
    }

    private static String ifKnown(double error) {
        return Double.isNaN(error) ? "" : Numbers.fixed(error, 2);
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
