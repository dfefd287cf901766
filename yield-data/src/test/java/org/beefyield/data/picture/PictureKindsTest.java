package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.calibrate.BreakdownFit;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.frame.Frame;
import org.beefyield.market.SizeWindow;
import org.beefyield.pack.PieceWeight;
import org.beefyield.price.Attribution;
import org.beefyield.price.Factor;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;

/** Every kind of picture, of one carcass, of 200 and of 5,000. */
class PictureKindsTest {
    private static final int BYTES_AT_MOST = 200_000;

    private static final Map<Integer, Map<String, Picture>> KINDS = Kinds.SIZES.stream()
            .collect(Collectors.toMap(Function.identity(), Kinds::of, (a, b) -> a, LinkedHashMap::new));

    private interface Check {
        void of(String name, Picture picture, Drawn drawn) throws Exception;
    }

    private static void forAll(Check check) throws Exception {
        for (Map.Entry<Integer, Map<String, Picture>> size : KINDS.entrySet()) {
            for (Map.Entry<String, Picture> each : size.getValue().entrySet()) {
                check.of(each.getKey() + " of " + size.getKey(), each.getValue(), Drawn.of(each.getValue()));
            }
        }
    }

    private static Picture picture(int size, String kind) {
        return KINDS.get(size).get(kind);
    }

    @Test
    void noTextStandsOnAnotherOrLeavesThePicture() throws Exception {
        forAll((name, picture, drawn) -> {
            for (int i = 0; i < drawn.texts.size(); i++) {
                Drawn.Text text = drawn.texts.get(i);
                assertThat(drawn.texts.subList(0, i)).as(name + text).noneMatch(text::isOn);
                assertThat(text.left()).as(name + text).isGreaterThan(-2);
                assertThat(text.right()).as(name + text).isLessThan(picture.widthPx() + 2);
                assertThat(text.y()).as(name + text).isBetween(10.0, picture.heightPx() - 2.0);
            }
        });
    }

    /** The grid reaches as far as the area; a legend's marks stand above it. */
    @Test
    void everyMarkLineAndAreaLiesInThePlotOrInTheLegendAboveIt() throws Exception {
        forAll((name, picture, drawn) -> {
            assertThat(picture.widthPx()).as(name).isBetween(480, 500);
            if (drawn.grid.isEmpty()) {
                return;
            }
            double left =
                    drawn.grid.stream().mapToDouble(Drawn.Line::left).min().orElseThrow();
            double lastGrid =
                    drawn.grid.stream().mapToDouble(Drawn.Line::right).max().orElseThrow();
            // beside rows the area ends before their figures
            double right = drawn.texts.stream()
                    .filter(text -> text.anchor().equals("end") && text.left() > lastGrid)
                    .mapToDouble(Drawn.Text::left)
                    .min()
                    .orElse(lastGrid);
            double top = drawn.grid.stream()
                    .mapToDouble(line -> Math.min(line.y1(), line.y2()))
                    .min()
                    .orElseThrow();
            double bottom = drawn.grid.stream()
                    .mapToDouble(line -> Math.max(line.y1(), line.y2()))
                    .max()
                    .orElseThrow();
            for (Drawn.Point mark : drawn.marks) {
                if (mark.y() >= top - 1) {
                    assertThat(mark.x()).as(name).isBetween(left - 1, right + 1);
                    assertThat(mark.y()).as(name).isLessThan(bottom + 1);
                }
            }
            for (Drawn.Line line : drawn.lines) {
                if (Math.min(line.y1(), line.y2()) >= top - 1) {
                    assertThat(line.left()).as(name + line).isGreaterThan(left - 1);
                    assertThat(line.right()).as(name + line).isLessThan(right + 1);
                    assertThat(Math.max(line.y1(), line.y2())).as(name + line).isLessThan(bottom + 1);
                }
            }
        });
    }

    @Test
    void daysOfSaleSayNetIntervalAndChance() throws Exception {
        Picture animal = picture(1, "sale of an animal");
        assertThat(Drawn.of(animal).words())
                .contains(
                        "net",
                        "90 % interval",
                        "best day",
                        "chance in specification",
                        "0 %",
                        "100 %",
                        "Days from today");
        assertThat(animal.altText())
                .contains(
                        "Day of sale of animal TM-2201. TM-2201 C R= 3- 604 kg live, 0 is today. Net, EUR a head; below it the"
                                + " chance to be in specification. Best day ")
                .containsPattern("Day 0: [0-9.,]+ \\([0-9.,]+ to [0-9.,]+\\), [0-9]+ % in specification\\.")
                .containsPattern("Day 60: ");
        assertThat(picture(200, "sale of a pen").altText())
                .contains(
                        "Day of sale of a pen. 3 animals if all go on one day, 0 is today. Net of the pen, EUR; below it");
    }

    @Test
    void theGridIsDrawnBelowAllElse() throws Exception {
        forAll((name, picture, drawn) -> {
            String svg = picture.toSvg();
            int lastGrid = svg.lastIndexOf("class=\"s-grid\"");
            for (String shape : List.of("<circle", "<polygon", "<polyline")) {
                int first = svg.indexOf(shape);
                assertThat(first < 0 || first > lastGrid).as(name + shape).isTrue();
            }
        });
    }

    @Test
    void allTicksThatAPictureOfHasAreWritten() throws Exception {
        assertThat(Drawn.of(picture(5_000, "breakdown")).words()).contains("0", "1,000,000");
        assertThat(Drawn.of(picture(200, "breakdown")).words()).contains("0", "20,000", "40,000", "60,000");
        assertThat(Drawn.of(picture(5_000, "intervals")).words()).contains("-50", "0", "+50");
        assertThat(Drawn.of(picture(5_000, "fan")).words()).contains("2026", "2028", "2038", "Date");
        assertThat(Drawn.of(picture(200, "series")).words()).contains("Jan 2026", "Mar 2026", "May 2026", "Date");
        assertThat(Drawn.of(picture(1, "series")).words()).contains("3 Nov", "Date");
    }

    /** As a browser reads them: colours by day, others by night on screens alone, for each class that is used. */
    @Test
    void everyColourHasOneByDayAndOneByNightOnAScreen() throws Exception {
        Pattern property = Pattern.compile("--([a-z0-9-]+):(#[0-9A-F]{6});");
        forAll((name, picture, drawn) -> {
            String id = drawn.root.getAttribute("id");
            Element style = (Element) drawn.root.getElementsByTagName("style").item(0);
            String css = style.getTextContent();
            String night = "@media screen and (prefers-color-scheme:dark){#" + id + "{";
            assertThat(css).as(name).startsWith("#" + id + "{").containsOnlyOnce(night);
            Map<String, String> byDay = new LinkedHashMap<>();
            property.matcher(css.substring(0, css.indexOf(night)))
                    .results()
                    .forEach(m -> byDay.put(m.group(1), m.group(2)));
            Map<String, String> byNight = new LinkedHashMap<>();
            property.matcher(css.substring(css.indexOf(night)))
                    .results()
                    .forEach(m -> byNight.put(m.group(1), m.group(2)));
            assertThat(byNight.keySet()).as(name).isEqualTo(byDay.keySet());
            assertThat(byNight).as(name).containsEntry("ground", "#16181D").containsEntry("text", "#D6D9DE");
            Set<String> used = new HashSet<>();
            Pattern.compile(" class=\"([^\"]+)\"([^>]*)")
                    .matcher(picture.toSvg())
                    .results()
                    .forEach(match -> {
                        for (String one : match.group(1).split(" ", -1)) {
                            String what = one.startsWith("f-") ? "fill" : "stroke";
                            assertThat(match.group(2))
                                    .as(name)
                                    .contains(what + "=\"" + byDay.get(one.substring(2)) + "\"");
                            assertThat(css)
                                    .contains("#" + id + " ." + one + "{" + what + ":var(--" + one.substring(2) + ")}");
                            used.add(one.substring(2));
                        }
                    });
            assertThat(used).as(name).isEqualTo(byDay.keySet());
        });
    }

    @Test
    void noTwoPicturesOfAPageHaveAnIdInCommonAndTheSameInputGivesTheSameBytes() {
        Set<String> ids = new TreeSet<>();
        Set<String> pictures = new HashSet<>();
        int count = 0;
        for (Map<String, Picture> kinds : KINDS.values()) {
            for (Picture picture : kinds.values()) {
                // those of the shipped table against the hall's, of its calibration and of orders are the same for each
                // size
                if (pictures.add(picture.toSvg())) {
                    Pattern.compile(" id=\"([^\"]+)\"")
                            .matcher(picture.toSvg())
                            .results()
                            .forEach(match -> assertThat(ids.add(match.group(1)))
                                    .as(match.group(1))
                                    .isTrue());
                    count++;
                }
                assertThat(picture.toSvg().getBytes(StandardCharsets.UTF_8)).hasSizeLessThan(BYTES_AT_MOST);
            }
        }
        assertThat(ids).hasSize(3 * count);
        assertThat(count).isGreaterThan(40);
        Kinds.of(200)
                .forEach((name, again) -> assertThat(again.toSvg())
                        .as(name)
                        .isEqualTo(picture(200, name).toSvg()));
    }

    @Test
    void titlesSayWhatAPictureIsOf() {
        assertThat(KINDS.get(5_000).values().stream().map(Picture::title))
                .containsExactly(
                        "Saleable meat by grade",
                        "Value by grade",
                        "What a lot becomes",
                        "Retail level of a lot with 90 % intervals",
                        "Primal level of a lot with 90 % intervals",
                        "Value by grade against the base, EUR per kg cold",
                        "Value less payment by grade, EUR per kg cold",
                        "Largest change of each cut",
                        "What another table changes for a lot",
                        "Why one is worth more, EUR a head",
                        "Striploin steak by cold weight",
                        "Piece weights of striploin",
                        "Grades of 5,000 carcasses",
                        "Yours beside the hall's average",
                        "Striploin of each run",
                        "Fillet steak, run by run",
                        "Losses, unweighed, run by run",
                        "From expected to weighed, EUR",
                        "Value by day",
                        "Day of sale of animal TM-2201",
                        "Day of sale of a pen",
                        "What orders get",
                        "Before and after calibration: meat",
                        "Residuals of bone");
    }

    @Test
    void aFigureInMoneyIsDrawnInItsOwnUnit() throws Exception {
        Carcass base = Kinds.herd(1, 1).get(0);
        Picture picture = picture(1, "money by grade");
        assertThat(Drawn.of(picture).words())
                .contains("Value, EUR a head", "2,200")
                .noneMatch(words -> words.contains("%") && words.contains("cold weight"));
        double value = Kinds.ESTIMATOR
                .estimate(base)
                .kg(Kinds.VALUER.value(Kinds.ESTIMATOR.estimate(base)).figure());
        assertThat(picture.altText()).contains(" Fat class 3: ").contains(" R " + Figures.fixed(value, 0) + ",");
    }

    @Test
    void barsOfTwoTablesOnALotAreItsKilogramsAndAddUpToNothing() throws Exception {
        List<Carcass> herd = Kinds.herd(200, 200);
        LotEstimate before = Kinds.ESTIMATOR.estimateLot(herd);
        LotEstimate after = Kinds.HALL.estimateLot(herd);
        Drawn drawn = Drawn.of(picture(200, "two tables on a lot"));
        CutLine striploin = line(after, "striploin");
        double kg = striploin.kg() - line(before, "striploin").kg();
        Drawn.Text name = drawn.text("Striploin");
        List<String> row = drawn.texts.stream()
                .filter(text -> text.y() == name.y())
                .map(Drawn.Text::words)
                .toList();
        assertThat(row)
                .containsExactlyInAnyOrder(
                        "Striploin", Figures.signed(1000 * kg / after.coldWeightKg(), 2), Figures.signed(kg, 0));
        Drawn.Line bar = drawn.level(name.y() - 4, Rows.BAR_PX, 0).get(0);
        assertThat(drawn.readX(kg < 0 ? bar.left() : bar.right(), "0", "+10"))
                .isCloseTo(1000 * kg / after.coldWeightKg(), within(0.05));
        double sum = 0;
        for (CutLine line : after.lines("primal")) {
            sum += line.kg() - line(before, line.code()).kg();
        }
        assertThat(sum).isCloseTo(0, within(1e-6));
        assertThat(picture(200, "two tables on a lot").altText())
                .startsWith(
                        "What another table changes for a lot. More or less than before in g per kg of cold weight and "
                                + "in kg of the lot. Tissue level: Meat -");
        assertThatThrownBy(() -> Pictures.comparison(before, Kinds.HALL.estimateLot(herd.subList(0, 199))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "the lots differ: 200 carcasses of 66,442.8 kg before, 199 carcasses of 66,148.7 kg after; a"
                                + " comparison is over the same carcasses");
    }

    private static CutLine line(LotEstimate lot, String cut) {
        return lot.lines("primal").stream()
                .filter(line -> line.code().equals(cut))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void eachBarOfAWaterfallBeginsWhereTheOneAboveEndsAndItEndsAtTheFirstValue() throws Exception {
        for (int size : Kinds.SIZES) {
            Attribution attribution = Kinds.attribution(size);
            Drawn drawn = Drawn.of(Pictures.attribution(attribution));
            List<Drawn.Point> values = drawn.marks.stream()
                    .filter(mark -> mark.y() > drawn.text("EUR").y())
                    .toList();
            assertThat(values).hasSize(2);
            List<Drawn.Line> bars = drawn.lines.stream()
                    .filter(line -> line.isLevel()
                            && line.width() == Rows.BAR_PX
                            && line.y1() > values.get(0).y())
                    .sorted(Comparator.comparingDouble(Drawn.Line::y1))
                    .toList();
            List<Factor> factors = Arrays.stream(Factor.values())
                    .filter(factor -> attribution.money(factor).signum() != 0)
                    .sorted(Comparator.comparing((Factor factor) ->
                            attribution.money(factor).amount().abs().negate()))
                    .toList();
            assertThat(bars).hasSize(factors.size());
            double at = values.get(0).x();
            for (int i = 0; i < bars.size(); i++) {
                boolean adds = attribution.money(factors.get(i)).signum() > 0;
                assertThat(adds ? bars.get(i).left() : bars.get(i).right()).isCloseTo(at, within(0.02));
                at = adds ? bars.get(i).right() : bars.get(i).left();
            }
            assertThat(at).isCloseTo(values.get(1).x(), within(0.02));
        }
        assertThat(picture(1, "attribution").altText())
                .startsWith(
                        "Why one is worth more, EUR a head. In EUR a head. The second, E O+ 4=, 301 kg: 1,760.52. Weight +233.07. ")
                .contains("T1, C R= 3=, 340 kg: ", " more a head; 90 % interval of the difference, prices as given: ");
    }

    /** y = 2 + 3 x with residuals 1, -2, 1: intercept and slope by hand, s² = 6 / 1, t(0.95; 1) = 6.3138. */
    @Test
    void aScatterHasItsLineAndTheBandOfTheLine() throws Exception {
        Map<String, double[]> columns = new LinkedHashMap<>();
        columns.put("cold weight, kg", new double[] {1, 2, 3, Double.NaN, 5});
        columns.put("fillet, kg", new double[] {6, 6, 12, 1, Double.NaN});
        Picture picture = Pictures.scatter("Fillet by weight", Frame.of(columns), "cold weight", "fillet, kg");
        Drawn drawn = Drawn.of(picture);
        assertThat(drawn.words())
                .contains(
                        "Cold weight, kg",
                        "Fillet, kg",
                        "3 rows, 2 more without both figures",
                        "fit",
                        "90 % confidence band of the line");
        // slope 6 / 2, at the mean 2 the level 8; SD of the slope sqrt(6 / 2)
        assertThat(picture.altText())
                .isEqualTo("Fillet by weight. Fillet, kg against Cold weight, kg, 3 rows, 2 more without both figures."
                        + " Cold weight, kg from 1 to 3, Fillet, kg from 6 to 12. Line: 8 kg at 2 kg, slope 3 kg per kg"
                        + " (90 % interval -7.94 to 13.9), SD around it 2.45 kg, R² 0.75.");
        Drawn.Line line = drawn.lines.stream()
                .filter(one -> one.width() == 2 && one.y1() != one.y2())
                .findFirst()
                .orElseThrow();
        assertThat(drawn.readX(line.x1(), "1.0", "2.0")).isCloseTo(1, within(0.01));
        assertThat(drawn.readX(line.x2(), "1.0", "2.0")).isCloseTo(3, within(0.01));
        assertThat(drawn.marks.stream().filter(mark -> mark.rgb() == Ink.BLUE.rgb()))
                .hasSize(3);
    }

    @Test
    void aScatterOfThousandsCountsEveryRowInASquare() throws Exception {
        Map<String, double[]> columns = new LinkedHashMap<>();
        columns.put("x", IntStream.range(0, 1_001).mapToDouble(i -> i).toArray());
        columns.put(
                "y", IntStream.range(0, 1_001).mapToDouble(i -> i < 900 ? 5 : 9).toArray());
        Drawn drawn = Drawn.of(Pictures.scatter("Steps", Frame.of(columns), "x", "y"));
        assertThat(drawn.words()).anyMatch(words -> words.startsWith("the larger the square, the more rows, up to 19"));
        // those of two levels, to hundredths of a pixel, and one in the legend
        assertThat(drawn.marks.stream()
                        .filter(mark -> mark.rgb() == Ink.BLUE.rgb())
                        .map(mark -> Math.round(10 * mark.y() + 0.2))
                        .distinct())
                .hasSize(3);
        assertThat(Drawn.of(picture(5_000, "scatter")).marks.size()).isBetween(100, 1_000);
        assertThat(Drawn.of(picture(200, "scatter")).marks)
                .filteredOn(mark -> mark.rgb() == Ink.BLUE.rgb())
                .hasSize(200);
    }

    @Test
    void aScatterWithoutTwoFiguresAcrossHasNoLineAndSaysSo() throws Exception {
        Frame one = Frame.of(Map.of("x", new double[] {4, 4, 4, 4}, "y", new double[] {1, 2, 3, 4}));
        assertThat(Drawn.of(Pictures.scatter("Same", one, "x", "y")).words())
                .contains("No line: that needs 3 rows or more with different figures across");
        Frame none = Frame.of(Map.of("x", new double[] {4, Double.NaN}, "y", new double[] {Double.NaN, 2}));
        assertThatThrownBy(() -> Pictures.scatter("None", none, "x", "y"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no row has a number both in \"x\" and in \"y\"; a scatter needs one or more");
        assertThatThrownBy(() -> Pictures.scatter("None", none, "z", "y")).isInstanceOf(IllegalArgumentException.class);
    }

    /** Two pieces of mean 6 and SD 1, window 5 to 7: 0.682689 of them inside (standard normal tables). */
    @Test
    void barsOfPieceWeightsHoldTheExpectedPiecesAndAreCutAtTheWindow() throws Exception {
        SizeWindow window = new SizeWindow("striploin", "steaks", 5, 7, "joints");
        Picture picture = Pictures.pieceWeights(window, List.of(new PieceWeight(200, 6, 1)));
        Drawn drawn = Drawn.of(picture);
        assertThat(drawn.words())
                .contains(
                        "Piece weights of striploin",
                        "200 pieces of 1 carcass",
                        "Window: striploin as steaks, pieces of 5 to 7 kg",
                        "fit 137 (68.3 %)",
                        "too light 32 (15.9 %)",
                        "too heavy 32 (15.9 %)",
                        "Weight of a piece, kg",
                        "Expected numbers: each piece counts with its chance of each");
        double bottom = drawn.grid.stream()
                .mapToDouble(line -> Math.max(line.y1(), line.y2()))
                .max()
                .orElseThrow();
        double perPx = 20 / (drawn.text("0").y() - drawn.text("20").y());
        double binPx = drawn.text("6").x() - drawn.text("5").x();
        double sum = 0;
        List<Drawn.Line> bars = drawn.lines.stream()
                .filter(line -> line.rgb() == 0 && line.x1() == line.x2() && !line.isDashed() && line.y1() == bottom)
                .toList();
        double width = bars.get(0).width();
        for (Drawn.Line bar : bars) {
            assertThat(bar.width()).isCloseTo(width, within(0.02));
            sum += (bar.y1() - bar.y2()) * perPx;
        }
        assertThat(bars.size()).isBetween(10, 30);
        assertThat(sum).isCloseTo(200, within(1.0));
        assertThat(binPx % width).isCloseTo(0, within(0.5));
        assertThatThrownBy(() -> Pictures.pieceWeights(window, List.of(new PieceWeight(0, 0, 0))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no pieces of striploin to draw; a histogram needs one or more, see PieceWeight.of");
    }

    @Test
    void piecesThatAreSureAndAWindowWithoutAnEndAreDrawnToo() throws Exception {
        SizeWindow from = new SizeWindow("fillet", "*", 2.13, Double.POSITIVE_INFINITY, "");
        Drawn drawn = Drawn.of(Pictures.pieceWeights(from, List.of(new PieceWeight(2, 2.2, 0))));
        assertThat(drawn.words())
                .contains("fit 2.0 (100.0 %)", "too light 0.0 (0.0 %)")
                .noneMatch(words -> words.startsWith("too heavy"));
        // an edge between round weights cuts a bar in two
        Picture cut = Pictures.pieceWeights(
                new SizeWindow("fillet", "*", 0, 2.13, ""), List.of(new PieceWeight(2, 2.2, 0.2)));
        assertThat(cut.altText()).containsPattern("to 2\\.13 kg [0-9.]+, 2\\.13 to ");
    }

    @Test
    void countsOfGradesGoFromStoPAndFromOneToFiveAndAddUp() throws Exception {
        Drawn drawn = Drawn.of(picture(5_000, "grade counts"));
        double above = 0;
        for (String letter : List.of("S", "E", "U", "R", "O", "P", "all")) {
            double y = drawn.texts.stream()
                    .filter(text -> text.words().equals(letter) && text.anchor().equals("end"))
                    .findFirst()
                    .orElseThrow()
                    .y();
            assertThat(y).isGreaterThan(above);
            above = y;
            List<Integer> row = drawn.texts.stream()
                    .filter(text -> text.y() == y && text.anchor().equals("middle"))
                    .sorted(Comparator.comparingDouble(Drawn.Text::x))
                    .map(text -> (int) Drawn.figure(text.words()))
                    .toList();
            assertThat(row).hasSize(6);
            assertThat(row.subList(0, 5).stream().mapToInt(Integer::intValue).sum())
                    .isEqualTo(row.get(5));
        }
        long counted = Kinds.herd(5_000, 5_000).stream()
                .filter(carcass -> carcass.conformation().classLetter().equals("R")
                        && carcass.fatClass().classNumber() == 3)
                .count();
        assertThat(drawn.words()).contains(Figures.count(counted, "", "").strip(), "5,000");
        assertThat(picture(1, "grade counts").altText())
                .isEqualTo(
                        "Grades of 1 carcass. Carcasses by conformation, best first, and fat class, leanest first; those"
                                + " that are not said have none. Conformation R: fat 3 1.");
    }

    @Test
    void aSeriesBreaksOffWithoutAValueAndItsAlarmsStandOut() throws Exception {
        LocalDate day = LocalDate.of(2026, 11, 2);
        List<ControlPoint> points = List.of(
                new ControlPoint(day, 12.5, 11.5, 13.5, false),
                new ControlPoint(day.plusDays(1), 12.8, 11.5, 13.5, false),
                new ControlPoint(day.plusDays(2), Double.NaN, 11.5, 13.5, false),
                new ControlPoint(day.plusDays(3), 14.1, 11.5, 13.5, true));
        Picture picture = Pictures.series("Striploin", "Striploin, kg a head", points);
        Drawn drawn = Drawn.of(picture);
        assertThat(picture.altText())
                .isEqualTo(
                        "Striploin. Striploin, kg a head, 2026-11-02 to 2026-11-05, 3 values, 1 alarm. Values:"
                                + " 2026-11-02 12.50, 2026-11-03 12.80, 2026-11-04 none, 2026-11-05 14.10. Alarm: 2026-11-05 14.10.");
        assertThat(drawn.words())
                .contains("value", "control limits", "alarm", "2 Nov", "5 Nov", "Alarm: 2026-11-05 14.10");
        double legend = drawn.text("Striploin, kg a head").y();
        assertThat(drawn.marks.stream().filter(mark -> mark.y() > legend && mark.rgb() == Ink.BLUE.rgb()))
                .hasSize(2);
        List<Drawn.Point> alarm = drawn.marks.stream()
                .filter(mark -> mark.y() > legend && mark.rgb() == Ink.VERMILLION.rgb())
                .toList();
        assertThat(alarm).hasSize(2).extracting(Drawn.Point::isHollow).containsExactly(true, false);
        assertThat(drawn.readY(alarm.get(0).y(), "12.0", "13.0")).isCloseTo(14.1, within(0.01));
        assertThat(drawn.lines.stream()
                        .filter(line -> line.y1() > legend && line.rgb() == Ink.BLUE.rgb() && line.x1() != line.x2()))
                .hasSize(1);
    }

    @Test
    void aLongSeriesIsThinnedOutToWhatShowsAndKeepsItsPeaks() throws Exception {
        List<ControlPoint> points = new ArrayList<>(Kinds.series(5_000));
        points.set(2_500, new ControlPoint(points.get(2_500).date(), 15.9, 11.5, 13.5, false));
        Drawn drawn = Drawn.of(Pictures.series("Striploin", "kg", points));
        double highest = drawn.lines.stream()
                .filter(line -> line.rgb() == Ink.BLUE.rgb())
                .mapToDouble(line -> Math.min(line.y1(), line.y2()))
                .filter(y -> y > drawn.text("kg").y())
                .min()
                .orElseThrow();
        assertThat(drawn.readY(highest, "12", "13")).isCloseTo(15.9, within(0.01));
        assertThat(drawn.lines.stream()
                        .filter(line -> line.rgb() == Ink.BLUE.rgb())
                        .count())
                .isLessThan(2_000);
    }

    @Test
    void whatASeriesCantShowIsRefusedInWords() {
        LocalDate day = LocalDate.of(2026, 11, 2);
        assertThatThrownBy(() -> Pictures.series("Empty", "kg", List.of()))
                .hasMessage("no days to draw; a picture over time needs one or more");
        assertThatThrownBy(() -> Pictures.series("None", "kg", List.of(new ControlPoint(day, Double.NaN, 1, 2, false))))
                .hasMessage("no point of \"None\" has a value; a series needs one or more");
        assertThatThrownBy(() -> Pictures.series(
                        "Back",
                        "kg",
                        List.of(
                                new ControlPoint(day, 1, 0, 2, false),
                                new ControlPoint(day.minusDays(1), 1, 0, 2, false))))
                .hasMessage("day 2 is 2026-11-01 and stands behind 2026-11-02; days go in order");
        assertThatThrownBy(() -> new ControlPoint(day, 1, 3, 2, false))
                .hasMessage("limits 3.0 and 2.0 of 2026-11-02: the lower one goes first");
        assertThatThrownBy(() -> new ControlPoint(day, Double.NaN, 1, 2, true))
                .hasMessage("alarm of 2026-11-02 without a value; an alarm is about a figure");
        assertThatThrownBy(() -> new ControlPoint(day, Double.POSITIVE_INFINITY, 1, 2, false))
                .hasMessage(
                        "value Infinity, limits 1.0 and 2.0 of 2026-11-02: each is a finite number, or NaN for none");
    }

    @Test
    void aFanHasABandForEachPairOfQuantilesAndALineForTheMedian() throws Exception {
        LocalDate day = LocalDate.of(2026, 11, 2);
        List<FanDay> days = List.of(
                new FanDay(day, List.of(1000.0, 2000.0, 3000.0, 4000.0, 5000.0)),
                new FanDay(day.plusDays(7), List.of(1500.0, 2500.0, 3500.0, 4500.0, 5500.0)));
        Picture picture = Pictures.fan("Value", "Value, EUR a head", Kinds.PARTS, days);
        Drawn drawn = Drawn.of(picture);
        assertThat(picture.altText())
                .isEqualTo(
                        "Value. Value, EUR a head, 2026-11-02 to 2026-11-09, 2 days, quantiles 5 %, 25 %, 50 %, 75 %, 95 %."
                                + " 2026-11-02: 1,000, 2,000, 3,000, 4,000, 5,000. 2026-11-09: 1,500, 2,500, 3,500, 4,500, 5,500.");
        assertThat(drawn.words()).contains("5 % to 95 %", "25 % to 75 %", "50 %", "1,000", "5,000");
        List<Drawn.Line> lines = drawn.lines.stream()
                .filter(line -> line.y1() > drawn.text("Value, EUR a head").y() && line.x1() != line.x2())
                .toList();
        assertThat(lines.stream().map(line -> Math.round(drawn.readY(line.y1(), "1,000", "2,000"))))
                .containsExactlyInAnyOrder(1000L, 2000L, 3000L, 4000L, 5000L);
        assertThat(drawn.root.getElementsByTagName("polygon").getLength()).isEqualTo(2);
    }

    @Test
    void whatAFanCantShowIsRefusedInWords() {
        LocalDate day = LocalDate.of(2026, 11, 2);
        List<FanDay> one = List.of(new FanDay(day, List.of(1.0, 2.0)));
        assertThatThrownBy(() -> Pictures.fan("Fan", "kg", List.of(0.1, 0.9), List.of()))
                .hasMessage("no days to draw; a picture over time needs one or more");
        assertThatThrownBy(() -> Pictures.fan("Fan", "kg", List.of(0.5), one))
                .hasMessage("a fan of 1 quantiles; it has 2 to 7");
        assertThatThrownBy(() -> Pictures.fan("Fan", "kg", List.of(0.9, 0.1), one))
                .hasMessage("parts [0.9, 0.1] of a fan: each lies between 0 and 1, above the one before it");
        assertThatThrownBy(() -> Pictures.fan("Fan", "kg", Kinds.PARTS, one))
                .hasMessage("2026-11-02 has 2 quantiles, the fan 5 parts; a day has one for each part");
        assertThatThrownBy(() -> new FanDay(day, List.of(2.0, 1.0)))
                .hasMessage("quantiles [2.0, 1.0] of 2026-11-02 don't ascend");
        assertThatThrownBy(() -> new FanDay(day, List.of(Double.NaN)))
                .hasMessage("quantile NaN of 2026-11-02 is not a finite number; leave out a day that has none");
    }

    @Test
    void aCalibrationShowsSharesBeforeAndAfterWithTheirErrors() throws Exception {
        BreakdownFit fit = Kinds.CALIBRATED.fit("meat");
        Drawn drawn = Drawn.of(picture(1, "calibration"));
        assertThat(drawn.words()).contains("before", "after", "SE", "its 90 % interval", "after less before, g per kg");
        double zero = drawn.text("0").x();
        assertThat(drawn.lines).anyMatch(line -> line.x1() == zero && line.x2() == zero && line.rgb() == 0);
        for (String cut : List.of("chuck-neck", "cube-roll", "topside")) {
            double before = fit.priorCoefficient(cut, fit.terms().get(0));
            double after = fit.coefficient(cut, fit.terms().get(0));
            double y = drawn.text(cut.replace('-', ' ')).y();
            assertThat(drawn.texts.stream().filter(text -> text.y() == y).map(Drawn.Text::words))
                    .containsExactlyInAnyOrder(
                            cut.replace('-', ' '),
                            Figures.fixed(before, 1),
                            Figures.fixed(after, 1),
                            Figures.fixed(fit.standardError(cut, fit.terms().get(0)), 1));
            Drawn.Point mark = drawn.marks.stream()
                    .filter(point -> Math.abs(point.y() - (y - 4)) < 0.1)
                    .findFirst()
                    .orElseThrow();
            assertThat(drawn.readX(mark.x(), "0", "+10")).isCloseTo(after - before, within(0.05));
        }
    }

    /** Pages of all kinds, for the accessibility check of the build. */
    @Test
    void everyKindGoesIntoAPage() throws Exception {
        Path folder = Files.createDirectories(Path.of("target/pictures"));
        for (Map.Entry<Integer, Map<String, Picture>> size : KINDS.entrySet()) {
            StringBuilder page =
                    new StringBuilder("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                            + "<meta name=\"viewport\" content=\"width=device-width\">\n<title>Pictures of "
                            + size.getKey()
                            + "</title>\n</head>\n<body>\n<main>\n<h1>Pictures of " + size.getKey() + "</h1>\n");
            size.getValue()
                    .forEach((name, picture) ->
                            page.append("<h2>").append(name).append("</h2>\n").append(picture.toSvg()));
            page.append("</main>\n</body>\n</html>\n");
            Files.writeString(folder.resolve("kinds-" + size.getKey() + ".html"), page);
            assertThat(page).contains("role=\"img\"").doesNotContain("NaN");
        }
    }
}
