package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Place;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** An outturn in words. */
final class OutturnText {
    private OutturnText() {}

    static Blocks blocks(Outturn outturn) {
        Blocks blocks = new Blocks().sentence(outturn.title());
        blocks.sentence("Table " + outturn.table().identity()
                + (outturn.specification().name().isEmpty()
                        ? ""
                        : ", cutting specification " + outturn.specification()));
        outturn.table().levels().forEach(level -> {
            LevelText text = new LevelText(outturn, level);
            blocks.add(text.table(text.place(), text::placeOfInterval, Cut::name))
                    .sentences(text.sentences());
        });
        for (String name : outturn.showsQuarters() ? outturn.table().quarterings() : Set.<String>of()) {
            Quarters quarters = outturn.quarters(name);
            Place place = new LevelText(
                            outturn,
                            outturn.table().levels().get(outturn.table().quarteredLevel(name)))
                    .place();
            List<String> kg = place.adding(new double[] {quarters.foreKg(), quarters.hindKg()}, outturn.coldWeightKg());
            blocks.sentence(
                    "Quarters (" + name + "): forequarters " + kg.get(0) + " kg, hindquarters " + kg.get(1) + " kg");
        }
        outturn.notes().forEach(note -> blocks.sentence("Note: " + note));
        return blocks.sentences(outturn.supportWords()).sentences(Cautions.of(outturn.table()));
    }

    static TextTable levelTable(Outturn outturn, String level, int decimals, Function<Cut, String> name) {
        Place place = Place.decimals(decimals);
        return new LevelText(outturn, level).table(place, line -> place, name);
    }

    /**
     * To which place figures of an outturn that add up are printed. Of a carcass always the same, for prices are multiplied
     * with them. Of a lot a tenth of the first digit of the largest SD, but such that none is rounded away.
     */
    private static Place place(Outturn outturn, DoubleStream sds, DoubleStream kg) {
        Place finest = Place.decimals(outturn.decimals());
        double largest = outturn.isOneCarcass() ? 0 : sds.max().orElse(0);
        if (largest == 0) {
            return finest;
        }
        Place justified = Place.tenthOf(largest);
        OptionalDouble least = kg.map(Math::abs).filter(one -> one > 0).min();
        return finest.coarser(least.isEmpty() ? justified : justified.finer(Place.of(least.getAsDouble())));
    }

    /** To which place one figure of an outturn is printed. */
    static Place place(Outturn outturn, Figure figure) {
        return place(outturn, DoubleStream.of(outturn.sd(figure)), DoubleStream.of(outturn.kg(figure)));
    }

    /** A level of an outturn, in any hall and in one that cuts as the table does. */
    private static final class LevelText {
        private final Outturn outturn;
        private final String level;
        private final List<CutLine> lines;
        /** By line, how it may come out, worked out once. */
        private final List<Outcome> outcomes = new ArrayList<>();
        /** The same in a hall that cuts as the table does; empty where that isn't shown beside. */
        private final List<Outcome> inOwnHall = new ArrayList<>();

        private final PartsText parts;

        LevelText(Outturn outturn, String level) {
            this.outturn = outturn;
            this.level = level;
            lines = withKg(outturn, level);
            List<Map<UncertaintyPart, Double>> variances = outturn.showsIntervals()
                    ? lines.stream()
                            .map(line -> outturn.variances(figure(line)))
                            .toList()
                    : List.of();
            parts = PartsText.of(outturn.counted(), variances);
            boolean both = outturn.showsBothHalls() && parts.has(UncertaintyPart.HALL);
            for (int i = 0; i < variances.size(); i++) {
                Figure figure = figure(lines.get(i));
                outcomes.add(outturn.outcome(figure, variances.get(i)));
                if (both) {
                    Map<UncertaintyPart, Double> own = new EnumMap<>(variances.get(i));
                    own.remove(UncertaintyPart.HALL);
                    inOwnHall.add(outturn.outcome(figure, own));
                }
            }
        }

        private Figure figure(CutLine line) {
            return Figure.cut(level, line.code());
        }

        private static List<CutLine> withKg(Outturn outturn, String level) {
            return outturn.lines(level).stream().filter(line -> line.kg() != 0).toList();
        }

        /** By the narrower of the intervals beside them. */
        Place place() {
            return OutturnText.place(
                    outturn,
                    (inOwnHall.isEmpty() ? outcomes : inOwnHall).stream().mapToDouble(Outcome::sd),
                    lines.stream().mapToDouble(CutLine::kg));
        }

        /** Intervals need not add up, so each has the place that its own SD justifies. */
        Place placeOfInterval(Outcome outcome) {
            return OutturnText.place(outturn, DoubleStream.of(outcome.sd()), DoubleStream.empty());
        }

        TextTable table(Place place, Function<Outcome, Place> placeOfInterval, Function<Cut, String> name) {
            List<String> kg =
                    place.adding(lines.stream().mapToDouble(CutLine::kg).toArray(), outturn.coldWeightKg());
            List<String> percent = Rounding.adding(
                    lines.stream().mapToDouble(line -> 100 * line.share()).toArray(), 100, 1);
            List<List<Outcome>> intervals = new ArrayList<>();
            List<String> header = new ArrayList<>(List.of(level + " level", "kg", "% of cold weight"));
            List<String> total = new ArrayList<>(List.of("Total", place.text(outturn.coldWeightKg()), "100.0"));
            if (outturn.showsIntervals()) {
                intervals.add(outcomes);
                header.addAll(List.of(inOwnHall.isEmpty() ? "90 % interval, kg: low" : "any hall, kg: low", "high"));
                if (!inOwnHall.isEmpty()) {
                    intervals.add(inOwnHall);
                    header.addAll(List.of("as the table cuts, kg: low", "high"));
                }
            }
            intervals.forEach(any -> total.addAll(List.of("", "")));
            TextTable text = new TextTable(header.toArray(String[]::new));
            for (int i = 0; i < lines.size(); i++) {
                List<String> row =
                        new ArrayList<>(List.of(name.apply(lines.get(i).cut()), kg.get(i), percent.get(i)));
                for (List<Outcome> any : intervals) {
                    Interval interval = any.get(i).interval(Interval.SHOWN_PROBABILITY);
                    Place justified = placeOfInterval.apply(any.get(i));
                    row.add(justified.text(interval.low()));
                    row.add(justified.text(interval.high()));
                }
                text.row(row);
            }
            return text.rule().row(total);
        }

        List<String> sentences() {
            return inOwnHall.isEmpty() ? parts.sentences(PartsText.Of.OUTCOME) : List.of(parts.sentenceOfBothHalls());
        }
    }

    /** A cut of a level; its outcome only where intervals are asked for and the table states SDs. */
    record FrameRow(String level, CutLine line, Optional<Outcome> outcome) {}

    static List<FrameRow> frameRows(Outturn outturn, String level, boolean intervals) {
        return outturn.lines(level).stream()
                .filter(line -> line.kg() != 0)
                .map(line -> new FrameRow(
                        level,
                        line,
                        intervals && outturn.showsIntervals()
                                ? Optional.of(outturn.outcome(Figure.cut(level, line.code())))
                                : Optional.empty()))
                .toList();
    }

    /** The columns of cuts; those of lots and carcasses are the same. */
    static <T> Frame.Builder<T> addCuts(Frame.Builder<T> rows, Function<T, FrameRow> cut, boolean intervals) {
        rows.text("level", row -> cut.apply(row).level())
                .text("cut", row -> cut.apply(row).line().code())
                .text("kind", row -> cut.apply(row).line().cut().kind().code())
                .number("weight, kg", row -> cut.apply(row).line().kg())
                .number(
                        "share, % of cold weight",
                        row -> 100 * cut.apply(row).line().share());
        if (intervals) {
            addOutcome(rows, "SD", row -> cut.apply(row).outcome(), Outcome::sd);
            addOutcome(
                    rows,
                    Interval.SHOWN_LOW,
                    row -> cut.apply(row).outcome(),
                    outcome -> shown(outcome).low());
            addOutcome(
                    rows,
                    Interval.SHOWN_HIGH,
                    row -> cut.apply(row).outcome(),
                    outcome -> shown(outcome).high());
        }
        return rows;
    }

    private static Interval shown(Outcome outcome) {
        return outcome.interval(Interval.SHOWN_PROBABILITY);
    }

    private static <T> void addOutcome(
            Frame.Builder<T> rows,
            String name,
            Function<T, Optional<Outcome>> outcome,
            ToDoubleFunction<Outcome> figure) {
        rows.number(
                Column.number(name + ", kg").totalling(Total.NONE),
                row -> outcome.apply(row).stream()
                        .mapToDouble(figure)
                        .findFirst()
                        .orElse(Double.NaN));
    }

    static Frame frame(Outturn outturn, String level) {
        Frame.Builder<FrameRow> rows = outturn.addHeads(Frame.ofEach(frameRows(outturn, level, true)));
        return addCuts(rows, row -> row, true).frame();
    }

    static TextTable promiseTable(Outturn outturn, double probability) {
        List<String> levels = outturn.table().levels();
        String level = levels.get(levels.size() - 1);
        TextTable text = new TextTable(level + " level", "expected, kg", "promise, kg", "largest doubt");
        for (CutLine line : outturn.lines(level)) {
            if (line.kg() != 0) {
                Figure figure = Figure.cut(level, line.code());
                Place place = place(outturn, figure);
                text.row(
                        line.name(),
                        place.text(line.kg()),
                        place.atMost(outturn.promise(figure, probability)),
                        outturn.largestPart(figure).map(PartsText::words).orElse(""));
            }
        }
        return text;
    }

    /** Kinds side by side, to the place that the least sure of them justifies in a hall that cuts as the table does. */
    static TextTable kindTable(List<? extends Outturn> outturns) {
        Place place = outturns.stream()
                .map(outturn -> place(
                        outturn,
                        Arrays.stream(CutKind.values()).mapToDouble(kind -> sdInOwnHall(outturn, Figure.kind(kind))),
                        Arrays.stream(CutKind.values()).mapToDouble(outturn::kg)))
                .reduce(Place::coarser)
                .orElse(Place.decimals(0));
        return kindTable(outturns, place);
    }

    private static double sdInOwnHall(Outturn outturn, Figure figure) {
        Map<UncertaintyPart, Double> variances = outturn.variances(figure);
        variances.remove(UncertaintyPart.HALL);
        return Math.sqrt(variances.values().stream().mapToDouble(one -> one).sum());
    }

    static TextTable kindTable(List<? extends Outturn> outturns, Place place) {
        List<CutKind> kinds = Arrays.stream(CutKind.values())
                .filter(kind -> outturns.stream().anyMatch(outturn -> outturn.kg(kind) != 0))
                .toList();
        List<String> header = new ArrayList<>(List.of("kind"));
        List<List<String>> columns = new ArrayList<>();
        List<String> totals = new ArrayList<>(List.of("Total"));
        for (Outturn outturn : outturns) {
            header.add(outturn.specification() + " kg");
            columns.add(place.adding(kinds.stream().mapToDouble(outturn::kg).toArray(), outturn.coldWeightKg()));
            totals.add(place.text(outturn.coldWeightKg()));
        }
        TextTable text = new TextTable(header.toArray(String[]::new));
        for (int i = 0; i < kinds.size(); i++) {
            List<String> row = new ArrayList<>(List.of(kinds.get(i).code()));
            for (List<String> column : columns) {
                row.add(column.get(i));
            }
            text.row(row);
        }
        return text.rule().row(totals);
    }
}
