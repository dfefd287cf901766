package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.beefyield.carcass.Category;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.SharedSds;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/** SDs and standard errors of the shipped table: do they follow from the figures and assumptions they were made of? */
class UncertaintyConstructionReferenceTest {
    private static final List<String> DEAR =
            List.of("topside", "silverside", "eye-of-round", "knuckle", "rump", "striploin", "fillet", "cube-roll");

    /** Of an SD over lots, what is left within lots: lots have 0.3 of it. */
    private static final double WITHIN_LOTS = Math.sqrt(1 - 0.09);

    /**
     * grange with kempster1986, composition.csv: 24, 24 and 12 g/kg over lots, less in quadrature what lots differ by; that, the
     * runs' and the halls' are assumptions but for the lots' of meat and fat trim (kempster1986). The loss is ours.
     */
    @ParameterizedTest
    @CsvSource({
        "meat, 24, 22.2, 9, 5, 15",
        "fat-trim, 24, 22.2, 9, 5, 15",
        "bone, 12, 10.9, 5, 2, 6",
        "loss, 1, 1, 0, 2, 4"
    })
    void sdsOfATissueAreTheCitedOnes(
            String cut, double overLots, double withinLots, double lots, double runs, double halls) {
        assertThat(ReferenceRows.of("composition.csv"))
                .extracting(row -> row.get("quantity"))
                .contains("residual SD to use: meat 24 / fat 24 / bone 12");
        for (BreakdownRow row :
                rows(row -> row.parent().equals("carcass") && row.cut().equals(cut))) {
            assertThat(row.sdGPerKg()).as("%s", row).isEqualTo(withinLots);
            assertThat(Math.hypot(row.sdGPerKg(), lots)).as("%s", row).isCloseTo(overLots, within(0.05));
            assertThat(row.shared()).as("%s", row).isEqualTo(SharedSds.of(lots, runs, halls));
        }
    }

    /**
     * judge2019, worked-primal-sd.csv: SD at equal weight, less what both grades explain and what the SD of meat gives, g per
     * kg of meat over lots. The table parts it into what lots differ by and what is left, each to 0.01.
     */
    @ParameterizedTest
    @CsvFileSource(resources = "/reference/worked-primal-sd.csv", numLinesToSkip = 1)
    void sdOfAPrimalIsTheOneWorkedOut(String cut, double sd) {
        assertThat(Math.hypot(Shipped.row(cut).sdGPerKg(), lot(Shipped.row(cut))))
                .isCloseTo(sd, within(0.0075));
    }

    /**
     * judge2019: what is left of a cut's SD at equal weight behind both grades. Errors of two levels, within lots and of lots,
     * come together to that again in an estimate.
     */
    @Test
    void sdsOfPrimalsInAnEstimateAreWhatGradesLeaveOfThoseAtEqualWeight() {
        YieldEstimate steer = Shipped.steer("R=", "3=", Shipped.KG);
        for (String cut : Shipped.primals()) {
            Figure primal = Figure.cut("primal", cut);
            double overLots = Math.hypot(
                    steer.sd(primal, UncertaintyPart.BETWEEN_CARCASSES), steer.sd(primal, UncertaintyPart.LOT));
            double left = Math.sqrt(1 - PrimalConstructionReferenceTest.explainedByGrades(cut));
            assertThat(1000 * overLots / Shipped.KG / PrimalConstructionReferenceTest.sdAtWeight(cut))
                    .as(cut)
                    .isCloseTo(left, within(0.005));
        }
    }

    /** An assumption: below the tissue level lots and runs have 0.3 of the SD over lots, so 0.954 of it is within lots. */
    @Test
    void belowTheTissueLevelLotsAndRunsVaryInProportionToTheSd() {
        List<BreakdownRow> below = rows(row -> !row.parent().equals("carcass"));
        assertThat(below).hasSizeGreaterThan(150).allSatisfy(row -> {
            assertThat(lot(row)).isEqualTo(run(row)).isCloseTo(row.sdGPerKg() * 0.3 / WITHIN_LOTS, within(0.0075));
        });
    }

    /**
     * Ours: independent errors of 0.3 of the level, at most 20, and 25 g/kg of the largest child, conditioned on adding to 0.
     * What one then has is its own variance times the part of all variance that the others have. By hand, topside as joints:
     * 885, 42, 42, 23 and 8 g/kg have 625, 159, 159, 48 and 6, so the joint's SD is the root of 625 × 371 / 996 = 15.26.
     */
    @Test
    void sdsOfRetailCutsFollowFromTheirLevels() {
        BreakdownRow joint = ways().get("topside joints").get(0);
        assertThat(joint.cut()).isEqualTo("topside-joint");
        assertThat(Math.hypot(joint.sdGPerKg(), lot(joint))).isCloseTo(15.26, within(0.01));
        ways().forEach((name, way) -> {
            BreakdownRow largest = largest(way);
            Map<BreakdownRow, Double> variances = new HashMap<>();
            for (BreakdownRow row : way) {
                double sd = row.equals(largest)
                        ? 25
                        : Math.min(20, 0.3 * row.coefficients().get(0));
                variances.put(row, sd * sd);
            }
            double all =
                    variances.values().stream().mapToDouble(Double::doubleValue).sum();
            variances.forEach((row, own) -> assertThat(Math.hypot(row.sdGPerKg(), lot(row)))
                    .as("%s", row)
                    .isCloseTo(Math.sqrt(own * (all - own) / all), within(0.0075)));
        });
    }

    /**
     * ausguide, per cent of the carcass: topside 6.2, outside 5.7, knuckle 3.3, striploin with three ribs 4.4, tenderloin 1.6,
     * cube roll with eight ribs 2.8; the outside is silverside with eye of round. They are 18.5 % off this table's, of which
     * part is another cut of the same name: so 15 % of the level.
     */
    @Test
    void hallSdsOfPrimalsAreFifteenPercentAsATradeGuideIsOffByALittleMore() {
        YieldEstimate steer = Shipped.steer("R=", "3=", Shipped.KG);
        Map<List<String>, Double> guide = Map.of(
                List.of("topside"), 6.2,
                List.of("silverside", "eye-of-round"), 5.7,
                List.of("knuckle"), 3.3,
                List.of("striploin"), 4.4,
                List.of("fillet"), 1.6,
                List.of("cube-roll"), 2.8);
        double squares = 0;
        for (Map.Entry<List<String>, Double> cuts : guide.entrySet()) {
            double kg = cuts.getKey().stream()
                    .mapToDouble(cut -> steer.kg("primal", cut))
                    .sum();
            squares += Math.pow(cuts.getValue() / (100 * kg / Shipped.KG) - 1, 2);
        }
        assertThat(100 * Math.sqrt(squares / guide.size())).isCloseTo(18.5, within(0.05));
        for (BreakdownRow row :
                rows(row -> row.parent().equals("meat") && row.category().equals("*"))) {
            assertThat(hall(row))
                    .as("%s", row)
                    .isCloseTo(0.15 * row.coefficients().get(0), within(0.0055));
        }
    }

    /** An assumption: 15 % of the level where a cutting test is published, else 30 %; the largest child takes the opposite. */
    @Test
    void hallSdsOfRetailCutsAreACommonErrorThatTheLargestTakesTheOppositeOf() {
        assertThat(ways()).hasSize(33);
        int tested = 0;
        for (List<BreakdownRow> way : ways().values()) {
            double part = way.get(0).source().equals("retail-derived") ? 0.15 : 0.3;
            tested += part == 0.15 ? 1 : 0;
            BreakdownRow largest = largest(way);
            BigDecimal others = BigDecimal.ZERO;
            for (BreakdownRow row : way) {
                if (!row.equals(largest)) {
                    assertThat(hall(row))
                            .as("%s", row)
                            .isCloseTo(part * row.coefficients().get(0), within(0.005));
                    others = others.add(BigDecimal.valueOf(hall(row)));
                }
            }
            assertThat(BigDecimal.valueOf(hall(largest))).as("%s", largest).isEqualByComparingTo(others);
        }
        assertThat(tested).isEqualTo(3);
    }

    /** An assumption: half of every slope that isn't published; the largest of a column is at most the sum of the others. */
    @Test
    void everySlopeThatIsNotPublishedHasHalfOfItselfAsItsStandardError() {
        List<String> terms = Shipped.TABLE.definition().coefficientColumns();
        Map<String, Double> errors = new HashMap<>();
        for (CoefficientNote note : Shipped.TABLE.definition().coefficientNotes()) {
            if (note.standardError() != null && note.errorId().isEmpty()) {
                errors.put(
                        key(note.category(), note.way(), note.parent(), note.cut(), note.term()), note.standardError());
            }
        }
        int hinges = 0;
        int ofPrimals = 0;
        int ofRetail = 0;
        for (BreakdownRow row : rows(row -> true)) {
            for (int i = 1; i < terms.size(); i++) {
                double slope = row.coefficients().get(i);
                boolean published = row.parent().equals("carcass") && i < 3;
                if (published || slope == 0) {
                    continue;
                }
                hinges += row.parent().equals("carcass") ? 1 : 0;
                ofPrimals += row.parent().equals("meat") ? 1 : 0;
                ofRetail += row.way().equals("*") ? 0 : 1;
                String key = key(row.category(), row.way(), row.parent(), row.cut(), terms.get(i));
                assertThat(errors).containsKey(key);
                // the largest of a way is cut to what the others add up to as rounded
                assertThat(errors.get(key)).as(key).isCloseTo(Math.abs(slope) / 2, within(0.000251));
            }
        }
        // meat and fat trim of 4 groups of categories at two hinges; steers' 14 primals, 10 of heifers and of bulls
        assertThat(hinges).isEqualTo(16);
        assertThat(ofPrimals).isEqualTo(3 * (14 + 10 + 10));
        assertThat(ofRetail).isEqualTo(rows(row -> !row.way().equals("*")).size());
    }

    /** Assumptions: what the level of a category may be off, and for heifers and bulls half of their slope on fat besides. */
    @Test
    void levelsAndFatSlopesOfOtherCategoriesHaveErrorsOfTheirOwn() {
        Map<String, String> errors = new TreeMap<>();
        for (CoefficientNote note : Shipped.TABLE.definition().coefficientNotes()) {
            if (!note.errorId().isEmpty()) {
                assertThat(note.parent()).isEqualTo("carcass");
                errors.put(
                        note.category() + " " + note.cut() + " " + note.term(),
                        note.standardError() + " " + note.errorId());
            }
        }
        Map<String, String> expected = new TreeMap<>();
        for (String cut : List.of("meat", "fat-trim")) {
            expected.put("E " + cut + " level_g_per_kg", "10.0 level-E");
            expected.put("AB " + cut + " level_g_per_kg", "10.0 level-AB");
            expected.put("D " + cut + " level_g_per_kg", "15.0 level-D");
            expected.put("E " + cut + " per_fat_point", "0.7 fat-slope-E");
            expected.put("AB " + cut + " per_fat_point", "0.7 fat-slope-AB");
        }
        assertThat(errors).isEqualTo(expected);
    }

    /**
     * At R= 3= a category's level alone may be off, in percentage points of the cold weight; six points fatter the slopes
     * are in it too, by hand for heifers the root of 10² + (6 × 0.7)² + (6 × 0.4672)² g/kg.
     */
    @ParameterizedTest
    @CsvSource({"C, 0, 0.2803", "E, 1, 1.1202", "A, 1, 1.1202", "B, 1, 1.1202", "D, 1.5, 1.5260"})
    void meatOfACategoryMayBeOffByItsLevelAndSlopes(String letter, double atReference, double sixPointsFatter) {
        Category category = Category.parse(letter);
        Figure meat = Figure.cut("tissue", "meat");

        assertThat(points(Shipped.estimate(category, "R=", "3=", Shipped.KG), meat, UncertaintyPart.COEFFICIENTS))
                .isCloseTo(atReference, within(1e-9));
        assertThat(points(Shipped.estimate(category, "R=", "5=", Shipped.KG), meat, UncertaintyPart.COEFFICIENTS))
                .isCloseTo(sixPointsFatter, within(0.0001));
    }

    /**
     * grange: the slopes of meat, 11.8 and -9.6 g/kg a point, of which 0.994 after the boning loss. A class of three
     * points instead of one adds (9 - 1)/12 of their squares.
     */
    @Test
    void aCarcassGradedOnlyRIsWiderThanOneGradedInThirds() {
        YieldEstimate whole = Shipped.steer("R", "3", Shipped.KG);
        YieldEstimate third = Shipped.steer("R=", "3=", Shipped.KG);
        Figure meat = Figure.cut("tissue", "meat");
        double slopes = 0.994 * Math.hypot(11.8, 9.6);

        assertThat(points(third, meat, UncertaintyPart.GRADE_RESOLUTION)).isZero();
        assertThat(points(whole, meat, UncertaintyPart.GRADE_RESOLUTION))
                .isCloseTo(slopes * Math.sqrt(8.0 / 12) / 10, within(0.0005));
        for (CutKind kind : List.of(CutKind.STEAK, CutKind.JOINT, CutKind.DICE, CutKind.FAT_TRIM, CutKind.BONE)) {
            assertThat(whole.sd(kind)).as(kind.code()).isGreaterThan(third.sd(kind));
        }
    }

    /** residual-covariance.csv: between carcasses of a lot the primals' errors add up to 0, and each has the SD of its row. */
    @Test
    void residualCovariancesOfThePrimalsCloseAndTheirRootsAreTheSds() {
        List<CovarianceRow> rows = Shipped.TABLE.definition().covariances();
        assertThat(rows)
                .hasSize(14 * 15 / 2)
                .allMatch(row -> row.isResidual() && row.parent().equals("meat"));
        Map<String, Double> sums = new LinkedHashMap<>();
        for (CovarianceRow row : rows) {
            sums.merge(row.cut(), row.value(), Double::sum);
            if (row.cut().equals(row.otherCut())) {
                assertThat(Math.sqrt(row.value()))
                        .as(row.cut())
                        .isCloseTo(Shipped.row(row.cut()).sdGPerKg(), within(0.0051));
            } else {
                sums.merge(row.otherCut(), row.value(), Double::sum);
            }
        }
        assertThat(sums).hasSize(14).allSatisfy((cut, sum) -> assertThat(sum).isCloseTo(0, within(14 * 0.0000005)));
    }

    /**
     * kempster1986: SD of 1.06 to 1.12 points of lean in higher-priced joints, at equal lean. One error that the eight dear
     * primals have in common makes it so, over lots; closing alone leaves 0.79.
     */
    @Test
    void shareOfTheDearPrimalsInMeatHasThePublishedSdAndWithoutTheirCommonErrorLess() {
        YieldTable closedAlone = TableOverride.of(Shipped.TABLE, "closed-alone", "1")
                .covariances("meat", List.of())
                .build();
        assertThat(closedAlone.definition().covariances()).isEmpty();

        assertThat(dearSd(Shipped.ESTIMATOR)).isCloseTo(1.06, within(0.005));
        assertThat(dearSd(YieldEstimator.of(closedAlone))).isCloseTo(0.79, within(0.005));
    }

    /** Percentage points of the meat by which the eight dear primals differ over lots, at fixed meat. */
    private static double dearSd(YieldEstimator estimator) {
        YieldEstimate steer =
                estimator.estimate(Shipped.steer("R=", "3=", Shipped.KG).carcass());
        double share = DEAR.stream().mapToDouble(cut -> steer.kg("primal", cut)).sum() / steer.meatKg();
        Figure off = Figure.cut("tissue", "meat").times(-share);
        for (String cut : DEAR) {
            off = off.plus(Figure.cut("primal", cut));
        }
        return 100 * steer.sd(off, UncertaintyPart.BETWEEN_CARCASSES) / steer.meatKg() / WITHIN_LOTS;
    }

    /** Half widths at 90 %, % of the figure, of steers R= 3= of 340 kg: one, 200 in one lot, those inside one hall. */
    @ParameterizedTest
    @CsvSource({
        "one, meat, 6.8", "one, striploin, 28.4",
        "lot, meat, 4.3", "lot, striploin, 25.5",
        "own hall, meat, 2.5", "own hall, striploin, 5.6"
    })
    void intervalIsAsWideAsWorkedOut(String what, String cut, double percent) {
        YieldEstimate one = Shipped.steer("R=", "3=", Shipped.KG);
        LotEstimate.Collector lot = Shipped.ESTIMATOR.collector().asOneLot();
        for (int i = 0; i < 200; i++) {
            lot.add(one.carcass());
        }
        Outturn outturn = switch (what) {
            case "one" -> one;
            case "lot" -> lot.lot();
            default -> lot.lot().inOwnHall();
        };
        Figure figure = Figure.cut(cut.equals("meat") ? "tissue" : "primal", cut);

        assertThat(100
                        * (outturn.interval(figure, 0.9).high()
                                - outturn.interval(figure, 0.9).low())
                        / 2
                        / outturn.kg(figure))
                .isCloseTo(percent, within(0.05));
    }

    private static double points(YieldEstimate estimate, Figure figure, UncertaintyPart part) {
        return 100 * estimate.sd(figure, part) / estimate.coldWeightKg();
    }

    private static List<BreakdownRow> rows(Predicate<BreakdownRow> wanted) {
        return Shipped.TABLE.definition().breakdown().stream().filter(wanted).toList();
    }

    /** Rows of each way of each primal, by primal and way. */
    private static Map<String, List<BreakdownRow>> ways() {
        Map<String, List<BreakdownRow>> ways = new LinkedHashMap<>();
        rows(row -> !row.way().equals("*"))
                .forEach(row -> ways.computeIfAbsent(row.parent() + " " + row.way(), name -> new ArrayList<>())
                        .add(row));
        return ways;
    }

    private static BreakdownRow largest(List<BreakdownRow> way) {
        BreakdownRow largest = way.get(0);
        for (BreakdownRow row : way) {
            largest = row.coefficients().get(0) > largest.coefficients().get(0) ? row : largest;
        }
        return largest;
    }

    private static String key(String category, String way, String parent, String cut, String term) {
        return String.join(" ", category, way, parent, cut, term);
    }

    private static double lot(BreakdownRow row) {
        return stated(row.shared().lotGPerKg());
    }

    private static double run(BreakdownRow row) {
        return stated(row.shared().runGPerKg());
    }

    private static double hall(BreakdownRow row) {
        return stated(row.shared().hallGPerKg());
    }

    private static double stated(@Nullable Double sd) {
        return Objects.requireNonNull(sd, "the shipped table states all SDs");
    }
}
