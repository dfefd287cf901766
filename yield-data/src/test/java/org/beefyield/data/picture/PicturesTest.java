package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.beefyield.boning.TrialSet;
import org.beefyield.calibrate.BreakdownFit;
import org.beefyield.calibrate.Calibrated;
import org.beefyield.calibrate.Calibration;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.boning.TrialReader;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.trade.PaymentGridReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.RangePolicy;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.pay.GradeDifferentials;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.Valuer;
import org.beefyield.table.TableComparison;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Names;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import org.w3c.dom.Element;

@Isolated("changes the default locale")
class PicturesTest {
    private static final int BYTES_AT_MOST = 200_000;
    private static final YieldTable TABLE = ShippedTables.boneless2026();
    private static final YieldEstimator ESTIMATOR =
            YieldEstimator.of(TABLE).withSpecification("steaks").with(MinceTarget.fatPercent(15));
    private static final Carcass CARCASS =
            Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);
    private static final YieldEstimate ESTIMATE = ESTIMATOR.estimate(CARCASS);
    private static final Valuer VALUER =
            Valuer.of(PriceListReader.read(Path.of("examples/tarrowmere-prices.csv")), ESTIMATOR);
    private static final PaymentGrid GRID = PaymentGridReader.read(Path.of("examples/tarrowmere-grid.csv"));
    private static final GradeDifferentials CLASSES = GradeDifferentials.classes(VALUER, CARCASS);
    private static final Calibrated CALIBRATED = Calibration.of(TrialSet.of(
                    TABLE,
                    TrialReader.read(Path.of("examples/tarrowmere-trials.csv"), TABLE)
                            .trials()))
            .fit();
    private static final TableComparison COMPARISON = TableComparison.of(TABLE, CALIBRATED.table("hall", "1"));
    private static final LotEstimate LOT = ESTIMATOR.estimateLot(
            KillSheetReader.read(Path.of("examples/tarrowmere-2026-11.csv")).carcasses());

    /** One of each kind, and those that are largest. */
    private static Map<String, Picture> pictures() {
        Map<String, Picture> pictures = new LinkedHashMap<>();
        pictures.put("yield by grade", Pictures.yieldByGrade(ESTIMATOR, CARCASS));
        pictures.put("breakdown", Pictures.breakdown(ESTIMATE));
        pictures.put("breakdown of a lot", Pictures.breakdown(LOT));
        pictures.put("intervals", Pictures.intervals(ESTIMATE));
        pictures.put("intervals of primals", Pictures.intervals(ESTIMATE, "primal"));
        pictures.put("intervals of a lot", Pictures.intervals(LOT));
        pictures.put("value by grade", Pictures.valueByGrade(CLASSES));
        pictures.put("value by thirds", Pictures.valueByGrade(GradeDifferentials.thirds(VALUER, CARCASS)));
        pictures.put("payment gap", Pictures.paymentGap(CLASSES.beside(GRID)));
        pictures.put("comparison", Pictures.comparison(COMPARISON));
        pictures.put("comparison with a budget", Pictures.comparison(COMPARISON, 5));
        pictures.put("comparison of equals", Pictures.comparison(TableComparison.of(TABLE, TABLE)));
        pictures.put("residuals", Pictures.residuals(CALIBRATED.fit("carcass"), "bone"));
        return pictures;
    }

    /** Long names and words, large figures. */
    private static Map<String, Picture> extremes() {
        LotEstimate huge = LOT;
        for (int i = 0; i < 24; i++) {
            huge = huge.plus(huge);
        }
        String endless = "W".repeat(90);
        YieldEstimate capitals = YieldEstimator.of(
                        named("WIDE MEAT OF MANY MAMMOTHS, BONELESS AND WRAPPED IN FILM " + endless, 5))
                .estimate(CARCASS.withId(endless));
        Valuer dear = Valuer.of(
                PriceListReader.read(Path.of("examples/tarrowmere-prices.csv")).times(12_345), ESTIMATOR);
        Map<String, Picture> extremes = new LinkedHashMap<>();
        extremes.put("breakdown of a huge lot", Pictures.breakdown(huge));
        extremes.put("intervals of a huge lot", Pictures.intervals(huge));
        extremes.put("breakdown of capitals", Pictures.breakdown(capitals));
        extremes.put("intervals of capitals", Pictures.intervals(capitals));
        extremes.put("value at high prices", Pictures.valueByGrade(GradeDifferentials.thirds(dear, CARCASS)));
        extremes.put(
                "yield of a long name",
                Pictures.yieldByGrade(ESTIMATOR, CARCASS, Figure.cut("fillet"), "Fillet of " + endless + " and more"));
        extremes.put("residuals of a small cut", Pictures.residuals(CALIBRATED.fit("meat"), "fillet"));
        return extremes;
    }

    @Test
    void everyPictureIsOneImageWithATitleAndADescription() throws Exception {
        for (Map.Entry<String, Picture> each : pictures().entrySet()) {
            Picture picture = each.getValue();
            Element root = Drawn.of(picture).root;
            assertThat(root.getNamespaceURI()).isEqualTo("http://www.w3.org/2000/svg");
            assertThat(root.getAttribute("role")).isEqualTo("img");
            assertThat(root.getAttribute("viewBox")).isEqualTo("0 0 " + picture.widthPx() + " " + picture.heightPx());
            assertThat(root.getAttribute("style")).contains("max-width:100%");
            Element title = (Element) root.getElementsByTagName("title").item(0);
            Element description = (Element) root.getElementsByTagName("desc").item(0);
            assertThat(root.getAttribute("aria-labelledby"))
                    .isEqualTo(title.getAttribute("id") + " " + description.getAttribute("id"));
            assertThat(title.getTextContent()).as(each.getKey()).isEqualTo(picture.title());
            assertThat(title.getTextContent() + ". " + description.getTextContent())
                    .as(each.getKey())
                    .isEqualTo(picture.altText());
        }
    }

    @Test
    void differentPicturesShareNoIdAndTheSameOneTakesAPrefix() {
        Set<String> ids = new HashSet<>();
        List<Picture> pictures = List.copyOf(pictures().values());
        for (Picture picture : pictures) {
            List<String> its = Pattern.compile(" id=\"([^\"]+)\"")
                    .matcher(picture.toSvg())
                    .results()
                    .map(match -> match.group(1))
                    .toList();
            assertThat(its).hasSize(3);
            assertThat(ids.addAll(its)).isTrue();
        }
        assertThat(ids).hasSize(3 * pictures.size());

        String twice = pictures.get(0).toSvg("left");
        assertThat(twice).contains("id=\"left-title\"", "id=\"left-desc\"", "aria-labelledby=\"left-title left-desc\"");
        assertThatThrownBy(() -> pictures.get(0).toSvg("a b"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("id prefix \"a b\" is not a letter and then letters, digits, _ or -");
    }

    @Test
    void everyPictureNamesItsUnits() throws Exception {
        Map<String, Picture> pictures = pictures();
        assertUnits(pictures.get("yield by grade"), "Saleable meat, % of cold weight", "Conformation class");
        assertUnits(pictures.get("breakdown"), "kg, each bar beginning where the one above ends", "kg");
        assertUnits(
                pictures.get("intervals"),
                "kg",
                "low",
                "high",
                "90 % interval, kg: low, high",
                "% more or less than expected");
        assertUnits(
                pictures.get("value by grade"),
                "Conformation",
                "Fat class",
                "+ worth more than the base",
                "- worth less");
        assertUnits(
                pictures.get("payment gap"),
                "Conformation",
                "Fat class",
                "+ paid too little beside the base",
                "- paid too much");
        assertUnits(pictures.get("comparison"), "g per kg of carcass", "g/kg");
        assertUnits(
                pictures.get("residuals"), "Weighed less fitted, g per kg of carcass", "Fitted, g per kg of carcass");
        assertThat(pictures.get("breakdown").altText()).contains("Kilograms", "Striploin 16.3");
        assertThat(pictures.get("comparison").altText()).containsPattern("striploin [-+]1\\.[0-9]{2} g/kg");
    }

    private static void assertUnits(Picture picture, String... labels) throws Exception {
        assertThat(Drawn.of(picture).words()).as(picture.title()).contains(labels);
    }

    @Test
    void nothingLiesOutsideThePictureOrOnAnotherTextAndNoPictureIsLarge() throws Exception {
        Map<String, Picture> pictures = pictures();
        pictures.putAll(extremes());
        for (Map.Entry<String, Picture> each : pictures.entrySet()) {
            Picture picture = each.getValue();
            Drawn drawn = Drawn.of(picture);
            for (int i = 0; i < drawn.texts.size(); i++) {
                Drawn.Text text = drawn.texts.get(i);
                assertThat(drawn.texts.subList(0, i)).as(each.getKey() + text).noneMatch(text::isOn);
            }
            assertThat(picture.toSvg().getBytes(StandardCharsets.UTF_8))
                    .as(each.getKey())
                    .hasSizeLessThan(BYTES_AT_MOST);
            for (Drawn.Text text : drawn.texts) {
                assertThat(text.left()).as(each.getKey() + text).isGreaterThan(-2);
                assertThat(text.right()).as(each.getKey() + text).isLessThan(picture.widthPx() + 2);
                assertThat(text.y()).as(each.getKey() + text).isBetween(10.0, picture.heightPx() - 2.0);
            }
            for (Drawn.Line line : drawn.lines) {
                assertThat(line.left()).as(each.getKey()).isGreaterThanOrEqualTo(0);
                assertThat(line.right()).as(each.getKey()).isLessThanOrEqualTo(picture.widthPx());
                assertThat(Math.min(line.y1(), line.y2())).as(each.getKey()).isGreaterThanOrEqualTo(0);
                assertThat(Math.max(line.y1(), line.y2())).as(each.getKey()).isLessThanOrEqualTo(picture.heightPx());
            }
        }
    }

    @Test
    void textIsTextInTheReadersOwnFont() throws Exception {
        for (Picture picture : pictures().values()) {
            String svg = picture.toSvg();
            assertThat(svg)
                    .contains("font-family=\"sans-serif\"")
                    .doesNotContain("@font", "@import", "<image", "<path", "href");
        }
        assertThat(Drawn.of(Pictures.intervals(ESTIMATE, "primal")).words())
                .contains("Shoulder and", "forequarter trim", "Striploin");
    }

    @Test
    void theSameResultsGiveTheSameBytesUnderAnyLocale() {
        Map<String, String> before = new LinkedHashMap<>();
        pictures().forEach((name, picture) -> before.put(name, picture.toSvg()));
        Locale locale = Locale.getDefault();
        try {
            for (String language : List.of("de-DE", "ar-EG-u-nu-arab")) {
                Locale.setDefault(Locale.forLanguageTag(language));
                pictures()
                        .forEach((name, picture) -> assertThat(picture.toSvg())
                                .as(name + " in " + language)
                                .isEqualTo(before.get(name)));
            }
        } finally {
            Locale.setDefault(locale);
        }
    }

    @Test
    void namesAreEscapedWhereverTheyStand() throws Exception {
        String odd = "A <b> & \"B\" 'C'";
        YieldTable table = named(odd, 5);
        YieldEstimate estimate = YieldEstimator.of(table).estimate(CARCASS.withId("<steer & \"one\">"));
        for (Picture picture : List.of(
                Pictures.breakdown(estimate),
                Pictures.intervals(estimate),
                Pictures.yieldByGrade(ESTIMATOR, CARCASS, Figure.cut("fillet"), odd))) {
            Drawn drawn = Drawn.of(picture);
            assertThat(String.join(" ", drawn.words())).contains(odd);
            assertThat(picture.altText()).contains(odd);
            assertThat(drawn.root.getElementsByTagName("desc").item(0).getTextContent())
                    .contains(odd);
        }
        assertThat(Drawn.of(Pictures.breakdown(estimate)).words())
                .contains("<steer & \"one\">: category C, R= 3=, 340.0 kg cold");
    }

    @Test
    void charactersThatXmlForbidsBecomeBlanks() throws Exception {
        Picture picture = Pictures.yieldByGrade(ESTIMATOR, CARCASS, Figure.cut("rump"), "Rump\u0007of\u0000beef");
        assertThat(Drawn.of(picture).words()).contains("Rump of beef by grade");
    }

    private static YieldTable named(String name, double sd) {
        return YieldTable.of(TableDefinition.builder("tarrowmere-names", "1")
                .levels("tissue")
                .reference(8, 8, 340)
                .ranges(
                        new TableRange(new Range(1, 18), new Range(1, 15), new Range(150, 600)),
                        new TableRange(new Range(1, 18), new Range(1, 15), new Range(150, 600)))
                .categories(Category.STEER)
                .source(new SourceRow("guess", SourceKind.ASSUMPTION, "Invented", ""))
                .cut(Cut.of("meat", name, "tissue", CutKind.MEAT))
                .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                .row("carcass", "meat", sd, "guess", 800)
                .row("carcass", "bone", sd, "guess", 200)
                .build());
    }

    @Test
    void aMarkStandsAtTheShareOfItsGradeAndIsHollowWithAThinLineWhereNoDataStand() throws Exception {
        Drawn drawn = Drawn.of(Pictures.yieldByGrade(ESTIMATOR, CARCASS));
        // one more in the legend
        assertThat(drawn.marks).hasSize(31);
        int found = 0;
        int hollow = 0;
        for (String conformation : List.of("P", "O", "R", "U", "E", "S")) {
            for (int fat = 1; fat <= 5; fat++) {
                Carcass carcass = Carcass.of(
                        Category.STEER, Conformation.parse(conformation), FatClass.parse(Integer.toString(fat)), 340);
                YieldEstimate estimate = ESTIMATOR.estimate(carcass);
                boolean isFitted = estimate.rangeNotes().isEmpty();
                double percent = 100 * estimate.saleableKg() / 340;
                double x = drawn.text(conformation).x();
                // of a triangle the middle is not its point
                found += (int) drawn.marks.stream()
                        .filter(mark -> Math.abs(mark.x() - x) < 0.1
                                && mark.isHollow() != isFitted
                                && Math.abs(drawn.readY(mark.y(), "50", "80") - percent) < 0.3)
                        .count();
                hollow += isFitted ? 0 : 1;
                assertThat(drawn.lines)
                        .as(conformation + fat)
                        .anyMatch(line -> line.width() == (isFitted ? 2 : 0.75)
                                && (Math.abs(line.x1() - x) < 0.1 || Math.abs(line.x2() - x) < 0.1)
                                && (Math.abs(drawn.readY(line.y1(), "50", "80") - percent) < 0.01
                                        || Math.abs(drawn.readY(line.y2(), "50", "80") - percent) < 0.01));
            }
        }
        assertThat(found).isEqualTo(30);
        assertThat(hollow).isBetween(5, 25);
        assertThat(drawn.words())
                .contains("fat 1", "fat 2", "fat 3", "fat 4", "fat 5", "thin and hollow: no data behind the table");
    }

    @Test
    void gradesThatTheEstimatorRefusesAreLeftOut() throws Exception {
        Range fat = TABLE.definition().fitted().fat();
        YieldEstimator strict = ESTIMATOR.with(RangePolicy.REFUSE_OUTSIDE_FITTED);
        Drawn drawn = Drawn.of(Pictures.yieldByGrade(strict, CARCASS));

        assertThat(drawn.marks).hasSizeBetween(1, 29);
        assertThat(fat.contains(14)).isFalse();
        assertThat(drawn.words()).contains("fat 3").doesNotContain("fat 5");
        assertThat(drawn.words()).noneMatch(words -> words.contains("no data"));
        assertThatThrownBy(() -> Pictures.yieldByGrade(
                        strict, Carcass.of(Category.STEER, Conformation.parse("S+"), FatClass.parse("5+"), 340)))
                .isInstanceOf(RefusedCarcassException.class);
    }

    @Test
    void barsOfALevelFillTheColdWeightAndPrintedKilogramsAddUpToIt() throws Exception {
        Drawn drawn = Drawn.of(Pictures.breakdown(ESTIMATE));
        int at = 0;
        for (String level : TABLE.levels()) {
            List<CutLine> lines = ESTIMATE.lines(level).stream()
                    .filter(line -> line.kg() != 0)
                    .toList();
            String heading = Names.capital(level) + " level";
            double fromY = drawn.text(heading).y();
            List<Drawn.Text> figures = drawn.texts.stream()
                    .filter(text -> text.anchor().equals("end")
                            && text.x() == Plot.WIDTH_PX - Plot.MARGIN_PX
                            && text.y() > fromY
                            && text.words().matches("[0-9.,]+"))
                    .sorted(Comparator.comparingDouble(Drawn.Text::y))
                    .limit(lines.size())
                    .toList();
            assertThat(figures.stream()
                            .map(text -> new BigDecimal(text.words()))
                            .reduce(BigDecimal.ZERO, BigDecimal::add))
                    .isEqualByComparingTo("340.0");
            double from = 0;
            for (int i = 0; i < lines.size(); i++) {
                double y = figures.get(i).y() - 4;
                Drawn.Line bar = drawn.level(y, Rows.BAR_PX, 0).get(0);
                double kg = lines.get(i).kg();
                assertThat(Double.parseDouble(figures.get(i).words())).isCloseTo(kg, within(0.1));
                assertThat(drawn.readX(bar.left(), "0", "300")).isCloseTo(from, within(0.05));
                assertThat(drawn.readX(bar.right(), "0", "300")).isCloseTo(from + kg, within(0.05));
                from += kg;
                at++;
            }
            assertThat(from).isCloseTo(340, within(1e-9));
        }
        assertThat(at).isEqualTo(35);
    }

    @Test
    void anIntervalReachesFromEndToEndWithTheEstimateOnIt() throws Exception {
        Drawn drawn = Drawn.of(Pictures.intervals(ESTIMATE, "primal"));
        List<CutLine> lines = ESTIMATE.lines("primal").stream()
                .sorted(Comparator.comparingDouble((CutLine line) -> -line.kg()))
                .toList();
        double above = 0;
        for (CutLine line : lines) {
            Interval interval = line.interval(Interval.SHOWN_PROBABILITY);
            List<String> figures = List.of(
                    String.format(Locale.ROOT, "%.1f", line.kg()),
                    String.format(Locale.ROOT, "%.1f", interval.low()),
                    String.format(Locale.ROOT, "%.1f", interval.high()));
            Drawn.Text figure = drawn.texts.stream()
                    .filter(text -> text.words().equals(figures.get(0)))
                    .filter(text -> drawn.texts.stream()
                            .filter(other -> other.y() == text.y())
                            .map(Drawn.Text::words)
                            .toList()
                            .containsAll(figures))
                    .findFirst()
                    .orElseThrow();
            assertThat(figure.y()).isGreaterThan(above);
            above = figure.y();
            double y = figure.y() - 4;
            Drawn.Line bar = drawn.level(y, 8, Ink.SKY_BLUE.rgb()).get(0);
            double low = 100 * (interval.low() / line.kg() - 1);
            double high = 100 * (interval.high() / line.kg() - 1);
            if (high <= 50) {
                assertThat(drawn.readX(bar.left(), "0", "+50")).isCloseTo(low, within(0.1));
                assertThat(drawn.readX(bar.right(), "0", "+50")).isCloseTo(high, within(0.1));
            } else {
                // an arrow at the edge says that it goes on
                assertThat(drawn.readX(bar.right(), "0", "+50")).isCloseTo(50, within(0.1));
                assertThat(drawn.marks).anyMatch(mark -> mark.y() == bar.y1() && Math.abs(mark.x() - bar.right()) < 8);
            }
            assertThat(drawn.lines)
                    .filteredOn(tick -> tick.rgb() == 0
                            && tick.width() == 2
                            && tick.x1() == tick.x2()
                            && Math.abs((tick.y1() + tick.y2()) / 2 - y) < 1)
                    .singleElement()
                    .satisfies(tick ->
                            assertThat(drawn.readX(tick.x1(), "0", "+50")).isCloseTo(0, within(0.1)));
        }
    }

    @Test
    void aTableWithoutSdsHasNoIntervalsToDraw() {
        YieldEstimate estimate = YieldEstimator.of(named("Meat", 0)).estimate(CARCASS);
        assertThatThrownBy(() -> Pictures.intervals(estimate))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageMatching(
                        "table tarrowmere-names@1#[0-9a-f]+ states no SDs, so there are no intervals to draw; "
                                + "a picture of what a carcass becomes needs none");
        assertThat(Pictures.breakdown(estimate).altText()).contains("Meat 272.0, Bone 68.0");
        assertThatThrownBy(() -> Pictures.intervals(ESTIMATE, "primals"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("no level \"primals\"");
    }

    @Test
    void aCellPrintsItsDifferenceAndIsTheDarkerTheFartherThatIsFromZeroInAHueForEachSide() throws Exception {
        Drawn drawn = Drawn.of(Pictures.valueByGrade(CLASSES));
        double[][] perKg = CLASSES.perKg();
        List<double[]> shades = new ArrayList<>();
        for (int i = 0; i < perKg.length; i++) {
            double y = drawn.text(CLASSES.conformations().get(i).toString()).y();
            for (int j = 0; j < perKg[i].length; j++) {
                double x = drawn.text(CLASSES.fatClasses().get(j).toString()).x();
                Drawn.Text figure = drawn.texts.stream()
                        .filter(text -> Math.abs(text.x() - x) < 0.2 && Math.abs(text.y() - y) < 0.2)
                        .findFirst()
                        .orElseThrow();
                assertThat(Double.parseDouble(figure.words())).isCloseTo(perKg[i][j], within(0.005001));
                Drawn.Box cell = drawn.boxes.stream()
                        .filter(box -> box.left() < x && box.right() > x && box.top() < y && box.bottom() > y)
                        .reduce((below, above) -> above)
                        .orElseThrow();
                shades.add(new double[] {perKg[i][j], Ink.luminance(cell.rgb())});
                int blueLessRed = (cell.rgb() & 0xFF) - (cell.rgb() >> 16);
                assertThat(figure.words().equals("0.00") ? 0 : Math.signum(perKg[i][j]))
                        .as(figure.words())
                        .isEqualTo(Math.signum(blueLessRed));
            }
        }
        for (double sign : new double[] {1, -1}) {
            List<double[]> side = shades.stream()
                    .filter(shade -> sign * shade[0] >= 0)
                    .sorted(Comparator.comparingDouble(shade -> sign * shade[0]))
                    .toList();
            for (int i = 1; i < side.size(); i++) {
                assertThat(side.get(i)[1]).isLessThanOrEqualTo(side.get(i - 1)[1]);
            }
            assertThat(side.get(0)[1]).isEqualTo(1);
        }
        assertThat(drawn.text("0.00").y()).isEqualTo(drawn.text("R").y());
    }

    @Test
    void aHeavyLineStandsBetweenCellsAboveAndBelowZeroAndCellsWithoutDataAreDashed() throws Exception {
        Drawn drawn = Drawn.of(Pictures.valueByGrade(CLASSES));
        List<Drawn.Line> heavy =
                drawn.lines.stream().filter(line -> line.width() == 3).toList();
        double[][] perKg = CLASSES.perKg();
        int between = 0;
        int withoutData = 0;
        for (int i = 0; i < perKg.length; i++) {
            double y = drawn.text(CLASSES.conformations().get(i).toString()).y() - 4;
            for (int j = 0; j < perKg[i].length; j++) {
                double x = drawn.text(CLASSES.fatClasses().get(j).toString()).x();
                boolean isBelow = perKg[i][j] < -0.005;
                if (j > 0 && isBelow != perKg[i][j - 1] < -0.005) {
                    between++;
                    assertThat(heavy)
                            .anyMatch(line -> line.x1() == line.x2()
                                    && line.y1() < y
                                    && line.y2() > y
                                    && line.x1() < x
                                    && line.x1() > x - 87);
                }
                if (i > 0 && isBelow != perKg[i - 1][j] < -0.005) {
                    between++;
                    assertThat(heavy)
                            .anyMatch(line -> line.isLevel()
                                    && line.left() < x
                                    && line.right() > x
                                    && line.y1() < y
                                    && line.y1() > y - 36);
                }
                Carcass carcass = Carcass.of(
                        Category.STEER,
                        CLASSES.conformations().get(i),
                        CLASSES.fatClasses().get(j),
                        340);
                boolean isFitted = ESTIMATOR.estimate(carcass).rangeNotes().isEmpty();
                withoutData += isFitted ? 0 : 1;
                assertThat(drawn.lines.stream()
                                .filter(line -> line.isDashed()
                                        && line.isLevel()
                                        && line.left() < x
                                        && line.right() > x
                                        && Math.abs(line.y1() - y) < 18))
                        .hasSize(isFitted ? 0 : 2);
            }
        }
        // and one in the legend
        assertThat(heavy).hasSize(between + 1);
        assertThat(withoutData).isBetween(1, 29);
        assertThat(drawn.words()).contains("zero, where more turns into less", "dashed: no data behind the table");
    }

    @Test
    void thePaymentGapNeedsAGridAndLeavesBlankWhatThatDoesNotPay(@TempDir Path folder) throws Exception {
        assertThatThrownBy(() -> Pictures.paymentGap(CLASSES))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the differentials are beside no payment grid; add one with beside(grid)");
        PaymentGrid onlyR = PaymentGridReader.read(Files.writeString(folder.resolve("grid.csv"), """
                line,category,conformation,fat_class,from_kg,to_kg,per_kg,currency
                base,*,,,,,6.00,EUR
                grade,*,R,,,,0.00,EUR
                """));
        Picture picture = Pictures.paymentGap(CLASSES.beside(onlyR));
        assertThat(Drawn.of(picture).words().stream().filter("–"::equals)).hasSize(25);
        assertThat(picture.altText())
                .contains("Conformation R: fat 1 (+0.56), fat 2 +0.32, ", "Conformation E: fat 1 (not paid), ");
    }

    @Test
    void barsGoAsFarAsEachCutMovesAndTheBudgetStandsAtBothSides() throws Exception {
        Drawn drawn = Drawn.of(Pictures.comparison(COMPARISON, 5));
        List<Drawn.Text> figures = drawn.texts.stream()
                .filter(text -> text.words().matches("[+-][0-9]+\\.[0-9]{2}"))
                .sorted(Comparator.comparingDouble(Drawn.Text::y))
                .toList();
        List<TableComparison.Difference> moved = COMPARISON.differences().stream()
                .filter(difference -> Math.abs(difference.differenceGPerKg()) >= 0.005)
                .toList();
        assertThat(figures).hasSameSizeAs(moved).hasSizeGreaterThan(30);
        for (int i = 0; i < moved.size(); i++) {
            double gPerKg = moved.get(i).differenceGPerKg();
            Drawn.Line bar = drawn.level(figures.get(i).y() - 4, Rows.BAR_PX, 0).get(0);
            assertThat(Double.parseDouble(figures.get(i).words())).isCloseTo(gPerKg, within(0.005001));
            assertThat(drawn.readX(gPerKg > 0 ? bar.right() : bar.left(), "0", "+20"))
                    .isCloseTo(gPerKg, within(0.05));
            assertThat(drawn.readX(gPerKg > 0 ? bar.left() : bar.right(), "0", "+20"))
                    .isCloseTo(0, within(0.05));
        }
        assertThat(drawn.lines.stream()
                        .filter(line -> line.isDashed() && line.x1() == line.x2())
                        .map(line -> Math.round(drawn.readX(line.x1(), "0", "+20") * 10) / 10.0))
                .containsExactlyInAnyOrder(5.0, -5.0);
        assertThat(String.join(" ", drawn.words()))
                .contains("the budget of 5 g/kg either way; "
                        + COMPARISON.beyond(5).size() + " figures go beyond it");
        assertThat(COMPARISON.beyond(5)).isNotEmpty();
        assertThatThrownBy(() -> Pictures.comparison(COMPARISON, -1)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aChangeOfOneRowShowsAndEqualTablesSaySo() throws Exception {
        YieldTable ours = TableOverride.of(TABLE, "hall-2", "1")
                .source(new SourceRow("hall", SourceKind.ASSUMPTION, "Invented", ""))
                .row(new BreakdownRow("*", "*", "carcass", "loss", List.of(8.0, 0.0, 0.0, 0.0, 0.0, 0.0), 1, "hall"))
                .row(new BreakdownRow(
                        "*", "*", "carcass", "bone", List.of(186.671, -7.3556, -2.3856, 0.0, 0.0, 0.0), 12, "hall"))
                .row(new BreakdownRow(
                        "D", "*", "carcass", "bone", List.of(201.671, -7.3556, -2.3856, 0.0, 0.0, 0.0), 12, "hall"))
                .build();
        assertThat(Pictures.comparison(TableComparison.of(TABLE, ours)).altText())
                .contains(
                        "Tissue level: bone -2.00 g/kg, loss +2.00 g/kg. Primal level: ",
                        "more move by less than 0.01 g/kg");
        assertThat(Drawn.of(Pictures.comparison(TableComparison.of(TABLE, TABLE)))
                        .words())
                .contains("No cut moves by 0.01 g/kg or more");
    }

    @Test
    void everyCarcassOfTheTrialIsAMarkAtItsResidual() throws Exception {
        BreakdownFit fit = CALIBRATED.fit("carcass");
        List<BreakdownFit.Residual> residuals = fit.residuals("bone");
        Drawn drawn = Drawn.of(Pictures.residuals(fit, "bone"));
        assertThat(drawn.marks).hasSize(residuals.size()).hasSize(fit.carcassCount());
        for (int i = 0; i < residuals.size(); i++) {
            Drawn.Point mark = drawn.marks.get(i);
            assertThat(drawn.readX(mark.x(), "140", "220"))
                    .isCloseTo(residuals.get(i).fittedGPerKg(), within(0.1));
            assertThat(drawn.readY(mark.y(), "-20", "+20"))
                    .isCloseTo(residuals.get(i).residualGPerKg(), within(0.1));
        }
        double squares = residuals.stream()
                .mapToDouble(residual -> residual.residualGPerKg() * residual.residualGPerKg())
                .sum();
        assertThat(Math.sqrt(squares / residuals.size())).isCloseTo(fit.rmse("bone"), within(1e-9));
        assertThat(drawn.lines.stream()
                        .filter(Drawn.Line::isDashed)
                        .map(line -> Math.round(10 * drawn.readY(line.y1(), "-20", "+20")) / 10.0))
                .containsExactlyInAnyOrder(
                        Math.round(20 * fit.rmse("bone")) / 10.0, -Math.round(20 * fit.rmse("bone")) / 10.0);
        assertThatThrownBy(() -> Pictures.residuals(fit, "rump"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("no cut \"rump\" in the breakdown of carcass");
    }

    @Test
    void aPictureIsAValueAndSaysWhatItIs() {
        Picture picture = Pictures.breakdown(ESTIMATE);
        assertThat(picture)
                .isEqualTo(Pictures.breakdown(ESTIMATE))
                .hasSameHashCodeAs(Pictures.breakdown(ESTIMATE))
                .isNotEqualTo(Pictures.intervals(ESTIMATE))
                .hasToString("What a carcass becomes (480 by " + picture.heightPx() + " pixels)");
        assertThat(picture.widthPx()).isEqualTo(480);
    }
}
