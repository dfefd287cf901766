package org.beefyield.data.command;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.beefyield.boning.BatchExcess;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Product;
import org.beefyield.boning.RecallList;
import org.beefyield.data.picture.Picture;
import org.beefyield.data.picture.Pictures;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Frame;
import org.beefyield.price.Valuer;
import org.beefyield.reconcile.GroupLine;
import org.beefyield.reconcile.Halls;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.stats.Bounds;
import org.beefyield.stats.ControlChart;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/** What is printed of boning runs; on a page with pictures. */
final class RunsReport {
    private static final int MOST_PICTURES = 6;
    private static final double G_PER_KG = 1000;

    private final Blocks text = new Blocks();
    private final StringBuilder html = new StringBuilder();
    private final List<Frame> frames = new ArrayList<>();

    /** Adds the lists that answer a question; the frame is of the boxes of the last one. */
    void answer(List<RecallList> lists) {
        lists.forEach(this::add);
        frames.add(lists.get(lists.size() - 1).toFrame());
    }

    /**
     * Adds what runs weighed against what they should, hall by hall: of several runs the season first, then the run asked for.
     *
     * @param day day of the run that is shown, or null for the last of each hall
     * @param leftOut why runs are left out
     */
    void judge(
            List<BoningRun> runs,
            YieldEstimator estimator,
            @Nullable Valuer valuer,
            List<Product> known,
            @Nullable String day,
            List<String> leftOut) {
        Map<String, List<BoningRun>> byHall = new LinkedHashMap<>();
        runs.forEach(run ->
                byHall.computeIfAbsent(run.hall(), hall -> new ArrayList<>()).add(run));
        if (day != null && runs.stream().noneMatch(run -> run.day().equals(day))) {
            throw new Options.UsageException("--day \"" + day + "\": " + noSuchRun(day, byHall, leftOut));
        }
        List<Season> seasonOf = new ArrayList<>();
        boolean seasons = byHall.values().stream().anyMatch(hall -> hall.size() > 1);
        byHall.values().forEach(hall -> {
            Season season = valuer == null ? Season.of(hall, estimator, known) : Season.of(hall, valuer, known);
            seasonOf.add(season);
            int shown = shown(hall, day);
            if (hall.size() > 1 || shown < 0) {
                add(season);
                groups(season).forEach(group -> add(Pictures.series(season, group)));
            }
            if (shown >= 0) {
                Reconciliation one = season.runs().get(shown);
                add(one);
                if (valuer != null) {
                    add(Pictures.causes(one));
                }
                if (hall.size() == 1) {
                    found(season.excess().stream().map(BatchExcess::toString).toList());
                }
            }
            frames.add(seasons ? season.toFrame() : season.runs().get(0).toFrame());
        });
        if (seasonOf.size() > 1) {
            Halls halls = Halls.of(seasonOf);
            if (!halls.effects().isEmpty()) {
                add(halls);
            }
        }
        found(runs.isEmpty() ? List.of("There is no run to judge") : List.of());
    }

    private static String noSuchRun(String day, Map<String, List<BoningRun>> byHall, List<String> leftOut) {
        // a name ends with the day
        List<String> reasons = leftOut.stream()
                .filter(reason -> (" " + reason).contains(" " + day + " is left out: "))
                .toList();
        if (!reasons.isEmpty()) {
            return String.join("; ", reasons);
        }
        return "there is no such run; there are "
                + byHall.values().stream().map(RunsReport::range).collect(Collectors.joining(", "));
    }

    private static List<BoningRun> byDay(List<BoningRun> hall) {
        return hall.stream().sorted(Comparator.comparing(BoningRun::day)).toList();
    }

    private static String range(List<BoningRun> hall) {
        List<BoningRun> inOrder = byDay(hall);
        String first = inOrder.get(0).name();
        return hall.size() == 1
                ? first
                : first + " to " + inOrder.get(hall.size() - 1).name();
    }

    /** Number of the run that is shown, in the order of days, or -1 if the hall had none that day. */
    private static int shown(List<BoningRun> hall, @Nullable String day) {
        return day == null
                ? hall.size() - 1
                : byDay(hall).stream().map(BoningRun::day).toList().indexOf(day);
    }

    /** Groups that are drawn: those in an alarm that still shows, newest first, or else the one farthest off in the last run. */
    private static List<String> groups(Season season) {
        int firstDrawn = season.judged().size() - Pictures.SEASON_RUNS;
        Map<String, Integer> noticed = new LinkedHashMap<>();
        for (String group : season.groups()) {
            season.chart(group).alarms().stream()
                    .filter(alarm -> alarm.until() >= firstDrawn)
                    .map(ControlChart.Alarm::noticed)
                    .max(Comparator.naturalOrder())
                    .ifPresent(last -> noticed.put(group, last));
        }
        if (noticed.isEmpty()) {
            return farthest(season).stream().toList();
        }
        return noticed.entrySet().stream()
                .sorted(Collections.reverseOrder(Map.Entry.comparingByValue()))
                .limit(MOST_PICTURES)
                .map(Map.Entry::getKey)
                .toList();
    }

    private static Optional<String> farthest(Season season) {
        int last = season.judged().size() - 1;
        return season.groups().stream()
                .filter(group -> season.bounds(group, last).isPresent())
                .max(Comparator.comparingDouble(group -> halfWidthsOff(season, group, last)));
    }

    /** How far a run lies off the middle of its bounds, 1 being at their end. */
    private static double halfWidthsOff(Season season, String group, int run) {
        Bounds bounds = season.bounds(group, run).orElseThrow();
        Reconciliation one = season.judged().get(run);
        GroupLine line = one.line(group);
        double middle = (bounds.low() + bounds.high()) / 2;
        return Math.abs(G_PER_KG * line.differenceKg() / one.intakeKg() - middle) / (bounds.high() - middle);
    }

    private void add(ShownInBlocks shown) {
        // a season looks through all of its batches for them
        Blocks blocks = shown.blocks();
        text.add(blocks);
        html.append(blocks.toHtml());
    }

    private void add(Picture picture) {
        html.append("<p>").append(picture.toSvg()).append("</p>\n");
    }

    /** Adds sentences. */
    void found(List<String> sentences) {
        text.sentences(sentences);
        html.append(new Blocks().sentences(sentences).toHtml());
    }

    /** The figures behind it: of runs or seasons, hall by hall, or of boxes; none if there is no run. */
    Optional<Frame> frame() {
        return frames.stream().reduce(Frame::plus);
    }

    String toText() {
        return text.toText();
    }

    String toHtml() {
        return html.toString();
    }
}
