package org.beefyield.estimate;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Names;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/** An outturn in words. */
final class OutturnText {
    /** Weights closer than this are one. */
    private static final double SAME_KG = 1e-9;

    private OutturnText() {}

    static Blocks blocks(Outturn outturn) {
        Blocks blocks = new Blocks().sentence(outturn.title());
        blocks.sentence("Table " + outturn.table().identity()
                + (outturn.specification().name().isEmpty()
                        ? ""
                        : ", cutting specification " + outturn.specification()));
        List<LevelText> levels = levels(outturn);
        Place place = place(levels);
        List<List<BigDecimal>> printed = printed(outturn, levels, place);
        for (int i = 0; i < levels.size(); i++) {
            LevelText text = levels.get(i);
            blocks.add(text.table(printed.get(i), place, text::placeOfInterval, Cut::name));
            // what one level says need not be said again of the next
            if (i == 0 || !text.sentences().equals(levels.get(i - 1).sentences())) {
                blocks.sentences(text.sentences());
            }
        }
        for (String name : outturn.showsQuarters() ? outturn.table().quarterings() : Set.<String>of()) {
            Quarters quarters = outturn.quarters(name);
            List<String> kg = place.adding(new double[] {quarters.foreKg(), quarters.hindKg()}, outturn.coldWeightKg());
            blocks.sentence("Quarters (" + name + "): forequarters " + Numbers.grouped(kg.get(0)) + " kg, hindquarters "
                    + Numbers.grouped(kg.get(1)) + " kg");
        }
        outturn.notes().forEach(note -> blocks.sentence("Note: " + note));
        return blocks.sentences(outturn.supportWords()).sentences(Cautions.of(outturn.table()));
    }

    static TextTable levelTable(Outturn outturn, String level, int decimals, Function<Cut, String> name) {
        Place place = Place.decimals(decimals);
        List<LevelText> levels = levels(outturn);
        int index = outturn.table().levels().indexOf(level);
        LevelText text = index < 0 ? new LevelText(outturn, level) : levels.get(index);
        return text.table(printed(outturn, levels, place).get(index), place, line -> place, name);
    }

    static List<BigDecimal> printedKg(Outturn outturn, String level, int decimals) {
        List<List<CutLine>> lines = new ArrayList<>();
        for (String each : outturn.table().levels()) {
            lines.add(LevelText.withKg(outturn, each));
        }
        LevelText.withKg(outturn, level); // refuses a level that there isn't
        return printedKg(outturn, lines, Place.decimals(decimals))
                .get(outturn.table().levels().indexOf(level));
    }

    private static List<LevelText> levels(Outturn outturn) {
        return outturn.table().levels().stream()
                .map(level -> new LevelText(outturn, level))
                .toList();
    }

    /** One place for all levels, so that a cut that stands at several has one weight: the finest that any justifies. */
    private static Place place(List<LevelText> levels) {
        return levels.stream().map(LevelText::place).reduce(Place::finer).orElse(Place.decimals(0));
    }

    /**
     * Printed kg by level and line. They add up to the printed cold weight, and a cut that goes on to the next level as it is has the
     * same figure there.
     */
    private static List<List<BigDecimal>> printed(Outturn outturn, List<LevelText> levels, Place place) {
        return printedKg(outturn, levels.stream().map(level -> level.lines).toList(), place);
    }

    private static List<List<BigDecimal>> printedKg(Outturn outturn, List<List<CutLine>> levels, Place place) {
        BigDecimal whole = new BigDecimal(place.text(outturn.coldWeightKg()));
        List<List<BigDecimal>> printed = new ArrayList<>();
        Map<String, CutLine> before = Map.of();
        Map<String, BigDecimal> figures = Map.of();
        for (List<CutLine> lines : levels) {
            List<CutLine> open = new ArrayList<>();
            BigDecimal left = whole;
            for (CutLine line : lines) {
                CutLine same = before.get(line.code());
                BigDecimal figure = figures.get(line.code());
                if (same != null && figure != null && Math.abs(same.kg() - line.kg()) < SAME_KG) {
                    left = left.subtract(figure);
                } else {
                    open.add(line);
                }
            }
            List<BigDecimal> rest =
                    place.adding(open.stream().mapToDouble(CutLine::kg).toArray(), left);
            Map<String, BigDecimal> now = new HashMap<>();
            for (int i = 0; i < open.size(); i++) {
                now.put(open.get(i).code(), rest.get(i));
            }
            List<BigDecimal> row = new ArrayList<>();
            for (CutLine line : lines) {
                BigDecimal figure = now.get(line.code());
                row.add(figure == null ? Objects.requireNonNull(figures.get(line.code())) : figure);
            }
            printed.add(row);
            before = lines.stream().collect(Collectors.toMap(CutLine::code, line -> line));
            figures = new HashMap<>();
            for (int i = 0; i < row.size(); i++) {
                figures.put(lines.get(i).code(), row.get(i));
            }
        }
        return printed;
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

        TextTable table(
                List<BigDecimal> kg,
                Place place,
                Function<Outcome, Place> placeOfInterval,
                Function<Cut, String> name) {
            List<String> percent = Rounding.adding(
                    lines.stream().mapToDouble(line -> 100 * line.share()).toArray(), 100, 1);
            List<List<Outcome>> intervals = new ArrayList<>();
            List<String> header = new ArrayList<>(List.of(level + " level", "kg", "% of cold weight"));
            List<String> total =
                    new ArrayList<>(List.of("Total", Numbers.grouped(place.text(outturn.coldWeightKg())), "100.0"));
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
                        new ArrayList<>(List.of(name.apply(lines.get(i).cut()), grouped(kg.get(i)), percent.get(i)));
                for (List<Outcome> any : intervals) {
                    Interval interval = any.get(i).interval(Interval.SHOWN_PROBABILITY);
                    Place justified = placeOfInterval.apply(any.get(i));
                    row.add(Numbers.grouped(justified.text(interval.low())));
                    row.add(Numbers.grouped(justified.text(interval.high())));
                }
                text.row(row);
            }
            return text.rule().row(total);
        }

        List<String> sentences() {
            return inOwnHall.isEmpty() ? parts.sentences(PartsText.Of.OUTCOME) : List.of(parts.sentenceOfBothHalls());
        }
    }

    private static String grouped(BigDecimal figure) {
        return Numbers.grouped(figure.toPlainString());
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
        List<LevelText> levels = levels(outturn);
        LevelText last = levels.get(levels.size() - 1);
        List<BigDecimal> kg = printed(outturn, levels, place(levels)).get(levels.size() - 1);
        TextTable text = new TextTable(last.level + " level", "expected, kg", "promise, kg", "largest doubt");
        for (int i = 0; i < last.lines.size(); i++) {
            CutLine line = last.lines.get(i);
            Figure figure = Figure.cut(last.level, line.code());
            text.row(
                    line.name(),
                    grouped(kg.get(i)),
                    Numbers.grouped(place(outturn, figure).atMost(outturn.promise(figure, probability))),
                    outturn.largestPart(figure).map(PartsText::words).orElse(""));
        }
        return text;
    }

    /** Kinds side by side, as the figures of their cuts are printed. */
    static TextTable kindTable(List<? extends Outturn> outturns) {
        return kindTable(outturns, null);
    }

    /** Printed kg of each kind at the last level: the sums of what is printed of their cuts. */
    private static Map<CutKind, BigDecimal> byKind(Outturn outturn, @Nullable Place given) {
        List<LevelText> levels = levels(outturn);
        LevelText last = levels.get(levels.size() - 1);
        List<BigDecimal> kg =
                printed(outturn, levels, given == null ? place(levels) : given).get(levels.size() - 1);
        Map<CutKind, BigDecimal> sums = new EnumMap<>(CutKind.class);
        for (int i = 0; i < kg.size(); i++) {
            sums.merge(last.lines.get(i).kind(), kg.get(i), BigDecimal::add);
        }
        return sums;
    }

    static TextTable kindTable(List<? extends Outturn> outturns, @Nullable Place place) {
        List<Map<CutKind, BigDecimal>> columns =
                outturns.stream().map(outturn -> byKind(outturn, place)).toList();
        List<String> header = new ArrayList<>(List.of("kind"));
        outturns.forEach(outturn -> header.add(outturn.specification() + ", kg"));
        TextTable text = new TextTable(header.toArray(String[]::new));
        for (CutKind kind : CutKind.values()) {
            if (columns.stream().anyMatch(column -> column.containsKey(kind))) {
                List<String> row =
                        new ArrayList<>(List.of(Names.capital(kind.code().replace('-', ' '))));
                columns.forEach(column -> row.add(grouped(column.getOrDefault(kind, BigDecimal.ZERO))));
                text.row(row);
            }
        }
        List<String> totals = new ArrayList<>(List.of("Total"));
        columns.forEach(
                column -> totals.add(grouped(column.values().stream().reduce(BigDecimal.ZERO, BigDecimal::add))));
        return text.rule().row(totals);
    }
}
