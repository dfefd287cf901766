package org.beefyield.reconcile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.beefyield.boning.BatchExcess;
import org.beefyield.boning.RunBalance;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.stats.Bounds;
import org.beefyield.stats.ControlBoard;
import org.beefyield.stats.ControlChart;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A season in words. */
final class SeasonText {
    private static final int G_DECIMALS = 2;
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
        ControlBoard board = season.board();
        Blocks blocks = new Blocks()
                .sentence(sentence())
                .sentence(Numbers.exact(board.runsPerFalseAlarm()) + " runs of the "
                        + Numbers.counted(season.groups().size(), "group", "groups")
                        + " together hold one false alarm on average at most, if runs differ by chance; the first "
                        + board.baseline() + " runs are learnt from and not judged")
                .sentence("Where nothing is wrong, a group is called out in one run of twenty at most")
                .sentences(season.unbalanced().stream()
                        .map(RunBalance::toString)
                        .map(words -> words + ", so it is neither judged nor learnt from")
                        .toList());
        int last = season.judged().size() - 1;
        if (last < board.baseline()) {
            blocks.sentence(
                    Numbers.counted(season.judged().size(), "run", "runs") + " that balance are too few to judge one");
        } else {
            List<String> calledOut = season.calledOut(last);
            blocks.sentence("Last run, " + day(season.judged().get(last).run())
                            + ", against what the hall's runs return: "
                            + (calledOut.isEmpty()
                                    ? "no group is called out"
                                    : "called out: " + String.join(", ", calledOut)))
                    .add(runTable(last));
        }
        if (!season.alarms().isEmpty()) {
            blocks.add(alarmTable());
            if (season.runs().get(0).none().isPresent()
                    && season.alarms().stream().anyMatch(alarm -> alarm.group().equals(Reconciliation.LOSSES))) {
                blocks.sentence("A kg of losses takes away what a kg of the intake brings");
            }
        }
        List<BatchExcess> excess = season.excess();
        blocks.sentences(excess.stream().map(BatchExcess::toString).toList());
        if (!excess.isEmpty()) {
            blocks.sentence("One season in " + Season.SEASONS_PER_FALSE_NAME + " at most has a batch that is named by chance");
        }
        if (!season.effects().isEmpty()) {
            blocks.add(effectTable())
                    .sentence(
                            "How runs differ is learnt from runs in no alarm; what carcasses and lots make in a run is"
                                    + " taken off before. An SD from 0 to 0: runs differ less than that");
        }
        return blocks;
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
                    Numbers.fixed(alarm.gPerKg(), G_DECIMALS),
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
                    alarm(new Row(run, group)));
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
                    g(effect.mean()),
                    g(effect.meanBounds().low()),
                    g(effect.meanBounds().high()),
                    g(effect.sd()),
                    g(effect.sdBounds().low()),
                    g(effect.sdBounds().high()));
        }
        return table;
    }

    private static String g(double gPerKg) {
        return Numbers.fixed(gPerKg, G_DECIMALS);
    }

    /**
     * A row of the frame.
     *
     * @param run number of the run
     * @param group name of the group
     */
    private record Row(int run, String group) {}

    Frame frame() {
        List<Row> rows = new ArrayList<>();
        for (int run = 0; run < season.judged().size(); run++) {
            for (String group : season.groups()) {
                rows.add(new Row(run, group));
            }
        }
        return Frame.ofEach(rows)
                .text("run", row -> run(row).run())
                .text("group", Row::group)
                .number(plain("intake, kg"), row -> run(row).intakeKg())
                .number(adding("scaled, kg"), row -> run(row).line(row.group()).scaledKg())
                .number(adding("weighed, kg"), row -> run(row).line(row.group()).weighedKg())
                .number(plain("difference, g per kg"), row -> Season.gPerKg(run(row), row.group()))
                .number(plain("SD within the run, g per kg"), row -> Season.withinSd(run(row), row.group()))
                .number(plain("score"), row -> point(row, ControlChart.Point::score))
                .number(plain("sum high"), row -> point(row, ControlChart.Point::high))
                .number(plain("sum low"), row -> point(row, ControlChart.Point::low))
                .text("alarm", this::alarm)
                .frame();
    }

    private Reconciliation run(Row row) {
        return season.judged().get(row.run());
    }

    private double point(Row row, ToDoubleFunction<ControlChart.Point> figure) {
        return season.point(row.group(), row.run()).stream()
                .mapToDouble(figure)
                .findFirst()
                .orElse(Double.NaN);
    }

    private String alarm(Row row) {
        return season.chart(row.group()).alarms().stream()
                .filter(alarm -> alarm.since() <= row.run() && row.run() <= alarm.until())
                .map(alarm -> alarm.high() ? "high" : "low")
                .findFirst()
                .orElse("");
    }

    private static Column adding(String header) {
        return Column.number(header).totalling(Total.SUM);
    }

    private static Column plain(String header) {
        return Column.number(header).totalling(Total.NONE);
    }
}
