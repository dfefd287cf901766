package org.beefyield.reconcile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.beefyield.boning.BatchExcess;
import org.beefyield.boning.RunBalance;
import org.beefyield.frame.Frame;
import org.beefyield.stats.Bounds;
import org.beefyield.stats.ControlBoard;
import org.beefyield.stats.ControlChart;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A season in words. */
final class SeasonText {
    private static final int KG_DECIMALS = 1;
    private static final double G_PER_KG = 1000;

    private final Season season;

    SeasonText(Season season) {
        this.season = season;
    }

    String sentence() {
        List<Reconciliation> runs = season.runs();
        int alarms = season.alarms().size();
        return (season.hall().isEmpty() ? "" : season.hall() + ": ") + Numbers.counted(runs.size(), "run", "runs")
                + ", " + day(runs.get(0).run()) + " to "
                + day(runs.get(runs.size() - 1).run()) + "; "
                + Numbers.counted(alarms, "alarm", "alarms");
    }

    /** A run without the name of its hall, which is that of all. */
    private String day(String run) {
        return season.hall().isEmpty() ? run : run.substring(season.hall().length() + 1);
    }

    Blocks blocks() {
        Blocks blocks = new Blocks()
                .sentence(sentence())
                .sentences(rates())
                .sentences(season.unbalanced().stream()
                        .map(RunBalance::toString)
                        .map(words -> words + ", so it is neither judged nor learnt from")
                        .toList());
        if (season.isWithoutRest()) {
            blocks.sentence("No bone, fat or other rest was weighed in any run; without it none balances");
        }
        addLastRun(blocks);
        if (!season.alarms().isEmpty()) {
            blocks.add(alarmTable());
            if (season.runs().get(0).none().isPresent()
                    && season.alarms().stream().anyMatch(alarm -> alarm.group().equals(Reconciliation.LOSSES))) {
                blocks.sentence("A kg of losses takes away what a kg of the intake brings; in the table of a run it is"
                        + " worth nothing");
            }
        }
        List<BatchExcess> excess = season.excess();
        blocks.sentences(excess.stream().map(BatchExcess::toString).toList());
        if (!excess.isEmpty()) {
            blocks.sentence(
                    "One season in " + Season.SEASONS_PER_FALSE_NAME + " at most has a batch that is named by chance");
        }
        if (!season.effects().isEmpty()) {
            blocks.add(effectTable())
                    .sentence(
                            "How runs differ is learnt from runs in no alarm; what carcasses and lots make in a run is"
                                    + " taken off before. An SD from 0 to 0: runs differ less than that");
        }
        return blocks;
    }

    private List<String> rates() {
        if (season.groups().isEmpty()) {
            return List.of();
        }
        ControlBoard board = season.board();
        return List.of(
                Numbers.exact(board.runsPerFalseAlarm()) + " runs of the "
                        + Numbers.counted(season.groups().size(), "group", "groups")
                        + " together hold one false alarm on average at most, if runs differ by chance; the first "
                        + board.baseline() + " runs are learnt from and not judged",
                "Where nothing is wrong, a group is called out in one run of twenty at most");
    }

    private void addLastRun(Blocks blocks) {
        int judged = season.judged().size();
        if (judged <= season.board().baseline()) {
            blocks.sentence(Numbers.counted(judged, "run that balances is", "runs that balance are")
                    + " too few to judge one; it takes more than "
                    + season.board().baseline());
            return;
        }
        Reconciliation last = season.judged().get(judged - 1);
        boolean isLast = last.equals(season.runs().get(season.runs().size() - 1));
        List<String> calledOut = season.calledOut(judged - 1);
        blocks.sentence((isLast ? "Last run, " : "Last run that balances, ") + day(last.run())
                        + ", against what the hall's runs return: "
                        + (calledOut.isEmpty()
                                ? "no group is called out"
                                : "called out: " + String.join(", ", calledOut)))
                .add(runTable(judged - 1));
    }

    TextTable alarmTable() {
        boolean priced = season.runs().get(0).none().isPresent();
        List<String> header =
                new ArrayList<>(List.of("group", "since", "noticed", "until", "runs", "g per kg of intake", "kg"));
        season.runs().get(0).none().ifPresent(none -> header.add(none.currency()));
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (SeasonAlarm alarm : season.alarms()) {
            List<String> row = new ArrayList<>(List.of(
                    alarm.group(),
                    day(alarm.since()),
                    day(alarm.noticed()),
                    day(alarm.until()),
                    Integer.toString(alarm.runs()),
                    Headers.g(alarm.gPerKg()),
                    kg(alarm.kg())));
            if (priced) {
                row.add(alarm.money().orElseThrow().amountText());
            }
            table.row(row);
        }
        return table;
    }

    TextTable runTable(int run) {
        Reconciliation judged = season.judged().get(run);
        TextTable table = new TextTable(
                "group", "weighed, kg", "usual for this intake", "90 % interval, kg: low", "high", "SDs off", "alarm");
        for (String group : season.groups()) {
            GroupLine line = judged.line(group);
            double intakeT = judged.intakeKg() / G_PER_KG;
            Optional<Bounds> bounds = season.bounds(group, run);
            table.row(
                    group,
                    kg(line.weighedKg()),
                    bounds.map(of -> kg(line.scaledKg() + (of.low() + of.high()) / 2 * intakeT))
                            .orElse(""),
                    bounds.map(of -> kg(Math.max(0, line.scaledKg() + of.low() * intakeT)))
                            .orElse(""),
                    bounds.map(of -> kg(Math.max(0, line.scaledKg() + of.high() * intakeT)))
                            .orElse(""),
                    season.point(group, run)
                            .map(point -> Numbers.fixed(point.score(), 1))
                            .orElse(""),
                    alarm(run, group));
        }
        return table;
    }

    private static String kg(double kg) {
        return Numbers.fixed(kg, KG_DECIMALS);
    }

    TextTable effectTable() {
        TextTable table = new TextTable(
                "g per kg of intake",
                "runs",
                "weighed less expected",
                "90 % interval: low",
                "high",
                "SD from run to run",
                "low",
                "high");
        for (RunEffect effect : season.effects()) {
            table.row(
                    effect.group(),
                    Integer.toString(effect.runs()),
                    Headers.g(effect.mean()),
                    Headers.g(effect.meanBounds().low()),
                    Headers.g(effect.meanBounds().high()),
                    Headers.g(effect.sd()),
                    Headers.g(effect.sdBounds().low()),
                    Headers.g(effect.sdBounds().high()));
        }
        return table;
    }

    /**
     * A row of the frame.
     *
     * @param run run
     * @param judged number of the run among the judged ones; below 0 if it doesn't balance
     * @param group name of the group
     * @param bounds its bounds, if it has any
     */
    private record Row(Reconciliation run, int judged, String group, Optional<Bounds> bounds) {
        GroupLine line() {
            return run.line(group);
        }
    }

    Frame frame() {
        List<Row> rows = new ArrayList<>();
        for (Reconciliation run : season.runs()) {
            int judged = season.judged().indexOf(run);
            run.lines().forEach(line -> rows.add(new Row(run, judged, line.group(), bounds(judged, line.group()))));
        }
        Frame.Builder<Row> frame = Frame.ofEach(rows)
                .text("run", row -> row.run().run())
                .text("group", Row::group)
                .text("balances", row -> row.judged() < 0 ? "no" : "yes")
                .number(Headers.plain("intake, kg"), row -> row.run().intakeKg())
                .number(Headers.adding("scaled, kg"), row -> row.line().scaledKg())
                .number(Headers.adding("weighed, kg"), row -> row.line().weighedKg())
                .number(Headers.plain("difference, g per kg"), row -> Season.gPerKg(row.run(), row.group()))
                .number(Headers.plain("SD within the run, g per kg"), row -> Season.withinSd(row.run(), row.group()))
                .number(
                        Headers.plain("90 % interval low, g per kg"),
                        row -> row.bounds().map(Bounds::low).orElse(Double.NaN))
                .number(
                        Headers.plain("90 % interval high, g per kg"),
                        row -> row.bounds().map(Bounds::high).orElse(Double.NaN))
                .number(Headers.plain("score"), row -> point(row, ControlChart.Point::score))
                .number(Headers.plain("sum high"), row -> point(row, ControlChart.Point::high))
                .number(Headers.plain("sum low"), row -> point(row, ControlChart.Point::low))
                .text("alarm", row -> alarm(row.judged(), row.group()));
        season.runs()
                .get(0)
                .none()
                .ifPresent(none -> frame.number(
                        Headers.adding("difference worth, " + none.currency()),
                        row -> row.line().amountFor(Cause.CUTTING)));
        return frame.frame();
    }

    private boolean isWatched(int judged, String group) {
        return judged >= 0 && season.groups().contains(group);
    }

    private Optional<Bounds> bounds(int judged, String group) {
        return isWatched(judged, group) ? season.bounds(group, judged) : Optional.empty();
    }

    private double point(Row row, ToDoubleFunction<ControlChart.Point> figure) {
        return isWatched(row.judged(), row.group())
                ? season.point(row.group(), row.judged()).stream()
                        .mapToDouble(figure)
                        .findFirst()
                        .orElse(Double.NaN)
                : Double.NaN;
    }

    private String alarm(int run, String group) {
        return isWatched(run, group)
                ? season.chart(group).alarms().stream()
                        .filter(alarm -> alarm.since() <= run && run <= alarm.until())
                        .map(alarm -> alarm.high() ? "high" : "low")
                        .findFirst()
                        .orElse("")
                : "";
    }
}
