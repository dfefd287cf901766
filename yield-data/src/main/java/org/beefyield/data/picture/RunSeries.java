package org.beefyield.data.picture;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.beefyield.reconcile.GroupLine;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.stats.Bounds;
import org.beefyield.stats.ControlChart;
import org.beefyield.text.Names;

/** What runs weighed of a group in % of what was expected, each with the interval in which it lies if nothing is wrong. */
final class RunSeries {
    private static final double PER_CENT = 100;
    private static final double G_PER_KG = 1000;

    private RunSeries() {}

    static Picture draw(Season season, String group) {
        Set<Integer> alarmed = new HashSet<>();
        for (ControlChart.Alarm alarm : season.chart(group).alarms()) {
            for (int run = alarm.since(); run <= alarm.until(); run++) {
                alarmed.add(run);
            }
        }
        int count = season.judged().size();
        List<ControlPoint> points = new ArrayList<>();
        for (int run = Math.max(0, count - Pictures.SEASON_RUNS); run < count; run++) {
            points.add(point(season, group, run, alarmed.contains(run)));
        }
        String hall = season.hall().isEmpty() ? "" : season.hall() + ": ";
        return Series.draw(
                new Series.Words(
                        Names.capital(group) + ", run by run",
                        List.of(hall + group + ", % of expected"),
                        "Weighed, % of what the intake should return",
                        "90 % interval",
                        "run in an alarm",
                        "runs in an alarm"),
                points);
    }

    private static ControlPoint point(Season season, String group, int run, boolean alarm) {
        Reconciliation one = season.judged().get(run);
        GroupLine line = one.line(group);
        LocalDate day = day(season, one);
        double scaled = line.scaledKg();
        if (!(scaled > 0)) {
            return new ControlPoint(day, Double.NaN, Double.NaN, Double.NaN, false);
        }
        double perKg = PER_CENT * one.intakeKg() / G_PER_KG / scaled;
        // of losses less than nothing can be left: more came out than went in then
        double least = group.equals(Reconciliation.LOSSES) ? Double.NEGATIVE_INFINITY : 0;
        Bounds bounds = season.bounds(group, run).orElse(null);
        return new ControlPoint(
                day,
                PER_CENT * line.weighedKg() / scaled,
                bounds == null ? Double.NaN : Math.max(least, PER_CENT + perKg * bounds.low()),
                bounds == null ? Double.NaN : Math.max(least, PER_CENT + perKg * bounds.high()),
                alarm);
    }

    /** The day of a run, whose name is that of its hall, if that has one, and the day. */
    private static LocalDate day(Season season, Reconciliation run) {
        String day = season.hall().isEmpty()
                ? run.run()
                : run.run().substring(season.hall().length() + 1);
        try {
            return LocalDate.parse(day);
        } catch (DateTimeException e) {
            throw new IllegalArgumentException(
                    run.run() + ": its day is no date such as 2026-11-03, which a picture over time needs", e);
        }
    }
}
