package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

/**
 * What estimators say from the shipped table, against published figures. Short names of sources, as in
 * {@code reference/sources.csv}, stand beside each check.
 */
class ShippedTableReferenceTest {
    private static final double KG_PER_LB = 0.45359237;

    private static final String MEAN_STEER =
            "steer 333 kg, conformation 6.8, fat 8.5, as shares of meat + fat + bone (the dissection had no cutting"
                    + " loss)";
    private static final String CONFORMATION_POINT =
            "one conformation point at fixed fat, conformation 2 to 15, as shares of meat + fat + bone";
    private static final String FAT_POINT =
            "one fat point at fixed conformation, fat 3 to 15, as shares of meat + fat + bone";
    private static final String MERIT =
            "very low to very high merit at equal carcass weight, as one point of fat down for each point of"
                    + " conformation up, symmetric about R= 3= at 340 kg, solved from the total";
    private static final String FREEZER_BEEF = "retail beef from a 600 / 700 / 800 lb carcass";
    private static final String QUARTERS = "forequarter and hindquarter meat of a 246 kg carcass";
    private static final String HINDQUARTER = "hindquarter's part of muscle, 10-rib forequarter";
    private static final String STRIPLOIN_WINDOW =
            "untrimmed striploin primal, one piece of a pair, window up to 10 kg, left-right SD 3 % (assumption)";
    private static final String HOT = "hot 350 kg";
    private static final String DICE_AND_MINCE = "dice and mince under the steaks specification, R= 3=";

    private static final YieldTable TABLE = ShippedTables.boneless2026();
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE);

    @Test
    void everyPublishedCheckHasItsTest() {
        assertThat(ReferenceRows.of("checks.csv"))
                .extracting(row -> row.get("case"))
                .containsExactlyInAnyOrder(
                        MEAN_STEER,
                        CONFORMATION_POINT,
                        FAT_POINT,
                        MERIT,
                        FREEZER_BEEF,
                        QUARTERS,
                        HINDQUARTER,
                        STRIPLOIN_WINDOW,
                        HOT,
                        DICE_AND_MINCE);
    }

    /** mcgee2016: means of 507 dissected steers. */
    @Test
    void meanSteerHasThePublishedComposition() {
        List<Double> expected = ReferenceRows.numbers(check(MEAN_STEER).get("expected"));
        double tolerance = tolerances(MEAN_STEER).get(0);

        Map<String, Double> parts = dissected(steer(6.8, 8.5, 333));

        assertThat(expected).containsExactly(679.0, 123.0, 197.0);
        assertThat(parts.get("meat")).isCloseTo(expected.get(0), within(tolerance));
        assertThat(parts.get("fat-trim")).isCloseTo(expected.get(1), within(tolerance));
        assertThat(parts.get("bone")).isCloseTo(expected.get(2), within(tolerance));
    }

    /** grange, and conroy2009 as the second estimate. */
    @Test
    void pointOfConformationIsWorthThePublishedMeat() {
        List<Double> expected = ReferenceRows.numbers(check(CONFORMATION_POINT).get("expected"));
        List<Double> tolerance = tolerances(CONFORMATION_POINT);

        assertThat(expected).containsExactly(11.8, 11.2);
        for (int fat = 3; fat <= 15; fat++) {
            for (int conformation = 2; conformation < 15; conformation++) {
                double meat = change(conformation, fat, conformation + 1, fat).get("meat");
                assertThat(meat)
                        .as("conformation %d, fat %d", conformation, fat)
                        .isCloseTo(expected.get(0), within(tolerance.get(0)))
                        .isCloseTo(expected.get(1), within(tolerance.get(1)));
            }
        }
    }

    /** grange. */
    @Test
    void pointOfFatIsWorthThePublishedFatTrimAndMeatAndBone() {
        List<Double> expected = ReferenceRows.numbers(check(FAT_POINT).get("expected"));
        double tolerance = tolerances(FAT_POINT).get(0);

        assertThat(expected).containsExactly(12.0, -9.6, -2.4);
        for (int conformation = 2; conformation <= 15; conformation++) {
            for (int fat = 3; fat < 15; fat++) {
                Map<String, Double> change = change(conformation, fat, conformation, fat + 1);
                assertThat(change.get("fat-trim")).isCloseTo(expected.get(0), within(tolerance));
                assertThat(change.get("meat")).isCloseTo(expected.get(1), within(tolerance));
                assertThat(change.get("bone")).isCloseTo(expected.get(2), within(tolerance));
            }
        }
    }

    /** grange, composition.csv: levels at R= 3= as published, which add to 1001; slopes all over the fitted range. */
    @Test
    void tissueLevelsAndSlopesAreThePublishedOnesInsideTheFittedRange() {
        Map<String, String> published = Map.of("meat", "meat", "fat-trim", "fat", "bone", "bone");
        Map<String, Double> reference = dissected(steer(8, 8, 340));
        published.forEach((cut, name) -> {
            double perConformationPoint = composition(name + " per conformation point");
            double perFatPoint = composition(name + " per fat point");
            assertThat(reference.get(cut))
                    .as(name)
                    .isCloseTo(composition(name + " level") * 1000 / 1001, within(0.005));
            for (int c = 2; c < 14; c++) {
                for (int f = 3; f < 13; f++) {
                    assertThat(change(c, f, c + 1, f).get(cut)).as(name).isCloseTo(perConformationPoint, within(0.005));
                    assertThat(change(c, f, c, f + 1).get(cut)).as(name).isCloseTo(perFatPoint, within(0.005));
                }
            }
        });
    }

    /**
     * strata2019, an independent check of the cuts: cattle of very high against very low merit at equal carcass weight.
     * How far they lie apart in grade is solved from the total of the cuts; the ratio of each cut is then compared.
     */
    @Test
    void cutsOfHighAndLowMeritDifferAsPublished() {
        Map<String, Double> ratios = new LinkedHashMap<>();
        double low = 0;
        double high = 0;
        for (Map<String, String> row : ReferenceRows.of("strata.csv")) {
            double veryLow = Double.parseDouble(row.get("very_low_merit_kg"));
            double veryHigh = Double.parseDouble(row.get("very_high_merit_kg"));
            ratios.put(cut(row.get("cut")), veryHigh / veryLow);
            low += veryLow;
            high += veryHigh;
        }
        double total = high / low;
        double points = solve(k -> merit(k, "meat"), total);
        List<Double> bounds = tolerances(MERIT);
        double squares = 0;
        double squaresIfAlike = 0;
        int near = 0;
        for (Map.Entry<String, Double> ratio : ratios.entrySet()) {
            double model = merit(points, ratio.getKey());
            double off = 100 * (model / ratio.getValue() - 1);
            squares += off * off;
            squaresIfAlike += Math.pow(100 * (total / ratio.getValue() - 1), 2);
            near += Math.abs(off) <= bounds.get(2) ? 1 : 0;
            report(
                    "merit, " + ratio.getKey(),
                    text("published %.3f, here %.3f, off by %.1f %%", ratio.getValue(), model, off));
            assertThat(Math.abs(off)).as(ratio.getKey()).isLessThanOrEqualTo(bounds.get(3));
        }
        double rms = Math.sqrt(squares / ratios.size());
        double rmsIfAlike = Math.sqrt(squaresIfAlike / ratios.size());
        report(
                "merit",
                text(
                        "%.2f points of conformation up and of fat down each way; within %.0f %%: %d of %d cuts; rms"
                                + " %.2f %%, %.2f %% if every cut had changed alike",
                        points, bounds.get(2), near, ratios.size(), rms, rmsIfAlike));

        assertThat(bounds).containsExactly(12.0, 14.0, 4.0, 6.0, 2.6, 5.9);
        assertThat(ratios).hasSize(14);
        assertThat(near).isGreaterThanOrEqualTo(12);
        assertThat(rms).isLessThanOrEqualTo(2.6);
        assertThat(rmsIfAlike).isCloseTo(5.9, within(0.05));
    }

    /** michigan: retail beef that a carcass gives, here against meat, for the source trims and cuts in its own way. */
    @Test
    void meatIsNearThePublishedRetailBeefOfAWholeCarcass() {
        List<Double> carcassLb = ReferenceRows.numbers(FREEZER_BEEF);
        List<Double> beefLb = ReferenceRows.numbers(check(FREEZER_BEEF).get("expected"));
        double percent = tolerances(FREEZER_BEEF).get(0);

        assertThat(carcassLb).hasSize(3);
        for (int i = 0; i < 3; i++) {
            double kg = ESTIMATOR
                    .estimate(steer(8, 8, carcassLb.get(i) * KG_PER_LB))
                    .meatKg();
            assertThat(100 * (kg / (beefLb.get(i) * KG_PER_LB) - 1)).isCloseTo(0, within(percent));
        }
    }

    /** washington: meat of fore- and hindquarters, one side of a 246 kg carcass. */
    @Test
    void meatIsNearThePublishedMeatOfQuarters() {
        List<Double> lb = ReferenceRows.numbers(check(QUARTERS).get("expected"));
        double points = tolerances(QUARTERS).get(0);
        double published = (lb.get(0) + lb.get(2)) / (lb.get(1) + lb.get(3));

        assertThat(lb).containsExactly(97.0, 140.0, 89.0, 131.0);
        // both quarters are one side: the publication's carcass of 246 kg
        assertThat(2 * (lb.get(1) + lb.get(3)) * KG_PER_LB).isCloseTo(246, within(0.5));
        assertThat(100 * ESTIMATOR.estimate(steer(8, 8, 246)).meatKg() / 246)
                .isCloseTo(100 * published, within(points));
    }

    /** charles1986: the hindquarter's part of muscle, which the table isn't tied to, and of fat and bone, which it is. */
    @Test
    void hindquarterHoldsThePublishedPartOfTheTissues() {
        double expected =
                ReferenceRows.numbers(check(HINDQUARTER).get("expected")).get(0);
        double tolerance = tolerances(HINDQUARTER).get(0);
        Map<String, Double> fore = TABLE.foreShares("10-rib forequarter");
        YieldEstimate estimate = ESTIMATOR.estimate(steer(8, 8, 340));
        double hindMeat = 0;
        for (Cut cut : TABLE.catalogue().cuts()) {
            if (cut.kind() == CutKind.PRIMAL) {
                hindMeat += estimate.kg(cut.code()) * (1 - fore.get(cut.code()));
            }
        }
        double hindPart = 1000 * hindMeat / estimate.meatKg();
        report("hindquarter's part of the meat", text("published 530, here %.0f g/kg", hindPart));

        assertThat(expected).isEqualTo(530);
        assertThat(hindPart).isCloseTo(expected, within(tolerance));
        assertThat(1 - fore.get("fat-trim")).isCloseTo(0.570, within(1e-9));
        assertThat(1 - fore.get("bone")).isCloseTo(0.450, within(1e-9));
    }

    /**
     * Common practice, no source. A probability of 0.9 or more inside the window needs a mean below its end, one of 0.05
     * or less a mean above it.
     */
    @Test
    void meanStriploinOfOneSideFitsTheWindowAtACommonWeightAndNotAtAHeavyOne() {
        double window = 10;

        assertThat(ESTIMATOR
                        .estimate(steer("R=", "3=", 360))
                        .pieceKg("striploin")
                        .orElseThrow())
                .isLessThan(window);
        assertThat(ESTIMATOR
                        .estimate(steer("U=", "4=", 495))
                        .pieceKg("striploin")
                        .orElseThrow())
                .isGreaterThan(window);
    }

    /** eu1182, Art. 14(3). */
    @Test
    void coldWeightIsTheHotWeightLessTwoPercent() {
        List<Double> hot = ReferenceRows.numbers(HOT);
        List<Double> cold = ReferenceRows.numbers(check(HOT).get("expected"));

        assertThat(check(HOT).get("tolerance")).isEqualTo("exact");
        assertThat(CarcassWeights.coldFromHot(hot.get(0))).isEqualTo(cold.get(0));
    }

    /** judge2019: 43.9 % of the meat lay in its group of primals for mincing; the band around it is ours. */
    @Test
    void diceAndMinceUnderSteaksAreInTheBandAroundThePublishedGroup() {
        List<Double> band = ReferenceRows.numbers(check(DICE_AND_MINCE).get("expected"));
        YieldEstimator steaks = ESTIMATOR.withSpecification("steaks");
        Carcass reference = steer("R=", "3=", 340);
        YieldEstimate unminced = steaks.estimate(reference);
        YieldEstimate minced = steaks.with(MinceTarget.fatPercent(15)).estimate(reference);

        assertThat(band).containsExactly(40.0, 60.0);
        assertThat(100 * (unminced.shareOfMeat(CutKind.DICE) + unminced.minceShare()))
                .isBetween(band.get(0), band.get(1));
        assertThat(100 * (minced.shareOfMeat(CutKind.DICE) + minced.minceShare()))
                .isBetween(band.get(0), band.get(1));
    }

    /**
     * cubon2000, heifers. Their level isn't comparable (lightly trimmed), and their classes differ in fatness and weight
     * too, so the order is the check; the steps are reported.
     */
    @Test
    void meatFallsOverTheConformationClassesInThePublishedOrder() {
        List<Double> published = ReferenceRows.numbers(
                ReferenceRows.row("composition.csv", "quantity", "meat % of heifers by conformation class E U R O P")
                        .get("value"));
        List<Double> here = new ArrayList<>();
        for (String letter : List.of("E", "U", "R", "O", "P")) {
            YieldEstimate estimate = ESTIMATOR.estimate(
                    Carcass.of(Category.HEIFER, Conformation.parse(letter), FatClass.parse("3"), 300));
            here.add(100 * estimate.meatKg() / 300);
        }
        report("meat % of heifers, E U R O P", "published " + published + ", here " + rounded(here));

        assertThat(published).hasSize(5).isSortedAccordingTo((a, b) -> Double.compare(b, a));
        assertThat(here).isSortedAccordingTo((a, b) -> Double.compare(b, a)).doesNotHaveDuplicates();
    }

    /** cubon2000: separable fat from fat class 1 to 5, heifers and bulls. */
    @Test
    void separableFatRisesOverTheFatClassesAsPublished() {
        List<Double> published = ReferenceRows.numbers(
                ReferenceRows.row("composition.csv", "quantity", "separable fat % from fat class 1 to 5")
                        .get("value"));
        assertThat(published).containsExactly(2.61, 11.99, 2.78, 8.69);
        for (Category category : List.of(Category.HEIFER, Category.BULL)) {
            List<Double> here = new ArrayList<>();
            for (int fat = 1; fat <= 5; fat++) {
                YieldEstimate estimate = ESTIMATOR.estimate(
                        Carcass.of(category, Conformation.parse("R"), FatClass.parse("" + fat), 300));
                here.add(100 * estimate.kg("tissue", "fat-trim") / 300);
            }
            report(
                    "separable fat % over fat classes 1 to 5, category " + category,
                    "published "
                            + published.subList(
                                    category == Category.HEIFER ? 0 : 2, category == Category.HEIFER ? 2 : 4)
                            + " (first and last class), here " + rounded(here));
            assertThat(here).isSorted().doesNotHaveDuplicates();
        }
    }

    /**
     * nzallometry: exponents over a population, whose grade rises with weight. Here weight changes at a fixed grade, so
     * each exponent must lie between 1 (grade carries all of the change) and what the population's exponents give (grade
     * carries none). For bone and fat that end is the published exponent itself. Meat takes the rest: kg of the parts add
     * up to the weight, so their exponents, weighted by share, average to 1; with bone at its published exponent and fat
     * at 1, which is where fat class carries all of it, meat is highest.
     */
    @Test
    void exponentsOnWeightLieBetweenOneAndThePublishedOnes() {
        double bone = exponent("bone");
        double fat = exponent("fat-trim");
        double meat = exponent("meat");
        double publishedBone = composition("exponent of bone on carcass weight");
        double publishedFat = composition("exponent of trimmed fat on carcass weight");
        double publishedMeat = composition("exponent of saleable meat on carcass weight");
        report("exponent of bone on weight", text("published %.3f, here %.3f", publishedBone, bone));
        report("exponent of fat trim on weight", text("published %.3f, here %.3f", publishedFat, fat));
        report("exponent of meat on weight", text("published %.3f (saleable), here %.3f", publishedMeat, meat));
        YieldEstimate reference = ESTIMATOR.estimate(steer(8, 8, 340));
        double highestMeat = 1 + reference.kg("tissue", "bone") * (1 - publishedBone) / reference.meatKg();

        assertThat(List.of(publishedBone, publishedFat, publishedMeat)).containsExactly(0.779, 1.265, 1.002);
        assertThat(bone).isStrictlyBetween(publishedBone, 1.0);
        assertThat(fat).isBetween(1 - 1e-9, publishedFat);
        assertThat(meat).isBetween(1.0, highestMeat);
        // half of the effect on bone, which is what the table assumes
        assertThat(bone).isCloseTo((1 + publishedBone) / 2, within(0.01));
    }

    /** unece2007, edition 2007, not checked against the original. */
    @Test
    void everyPrimalHasItemsOfTheOpenListOfCuts() {
        Set<String> listed = new HashSet<>();
        ReferenceRows.of("unece.csv").forEach(row -> listed.add(row.get("item")));
        int primals = 0;
        for (Cut cut : TABLE.catalogue().cuts()) {
            if (cut.kind() == CutKind.PRIMAL) {
                primals++;
                assertThat(listed)
                        .as(cut.code())
                        .containsAll(List.of(cut.unece().split(" ", -1)));
                assertThat(cut.note()).contains("not checked against the original");
            } else {
                assertThat(cut.unece()).as(cut.code()).isEmpty();
            }
        }
        assertThat(primals).isEqualTo(14);
        assertThat(TABLE.catalogue().cut("striploin").unece()).isEqualTo("2140");
        assertThat(TABLE.catalogue().cut("fillet").unece()).isEqualTo("2150");
        assertThat(TABLE.catalogue().cut("cube-roll").unece()).isEqualTo("2240");
    }

    private static Map<String, String> check(String name) {
        return ReferenceRows.row("checks.csv", "case", name);
    }

    private static List<Double> tolerances(String name) {
        return ReferenceRows.numbers(check(name).get("tolerance"));
    }

    private static double composition(String quantity) {
        return ReferenceRows.numbers(ReferenceRows.row("composition.csv", "quantity", quantity)
                        .get("value"))
                .get(0);
    }

    /** Code of a cut by its name in the published tables. */
    private static String cut(String referenceName) {
        return ReferenceRows.row("table-cuts.csv", "reference_name", referenceName)
                .get("cut");
    }

    private static Carcass steer(double conformation, double fat, double kg) {
        return Carcass.of(Category.STEER, Conformation.ofPosition(conformation, 1), FatClass.ofPosition(fat, 1), kg);
    }

    private static Carcass steer(String conformation, String fat, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fat), kg);
    }

    /** g of meat, fat trim and bone per kg of the three together: dissections have no boning loss. */
    private Map<String, Double> dissected(Carcass carcass) {
        YieldEstimate estimate = ESTIMATOR.estimate(carcass);
        Map<String, Double> parts = new LinkedHashMap<>();
        double sum = 0;
        for (String cut : List.of("meat", "fat-trim", "bone")) {
            parts.put(cut, estimate.kg("tissue", cut));
            sum += estimate.kg("tissue", cut);
        }
        double all = sum;
        parts.replaceAll((cut, kg) -> 1000 * kg / all);
        return parts;
    }

    private Map<String, Double> change(double c, double f, double nextC, double nextF) {
        Map<String, Double> change = dissected(steer(nextC, nextF, 340));
        dissected(steer(c, f, 340)).forEach((cut, share) -> change.merge(cut, -share, Double::sum));
        return change;
    }

    /** A cut of a 340 kg carcass so many points better than R= 3= in both grades, per kg of one so many worse. */
    private double merit(double points, String cut) {
        return ESTIMATOR.estimate(steer(8 + points, 8 - points, 340)).kg(cut)
                / ESTIMATOR.estimate(steer(8 - points, 8 + points, 340)).kg(cut);
    }

    /** Where a rising function of 0 to 6 takes a value. */
    private static double solve(ToDoubleFunction<Double> rising, double value) {
        double low = 0;
        double high = 6;
        assertThat(value).isBetween(rising.applyAsDouble(low), rising.applyAsDouble(high));
        for (int i = 0; i < 60; i++) {
            double middle = (low + high) / 2;
            if (rising.applyAsDouble(middle) < value) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }

    /** Slope of ln kg of a tissue on ln weight at R= 3=, least squares over the fitted weights. */
    private double exponent(String tissue) {
        double n = 0;
        double sumX = 0;
        double sumY = 0;
        double sumXx = 0;
        double sumXy = 0;
        for (double kg = 234; kg <= 501; kg++) {
            double x = Math.log(kg);
            double y = Math.log(ESTIMATOR.estimate(steer(8, 8, kg)).kg("tissue", tissue));
            n++;
            sumX += x;
            sumY += y;
            sumXx += x * x;
            sumXy += x * y;
        }
        return (n * sumXy - sumX * sumY) / (n * sumXx - sumX * sumX);
    }

    private static List<String> rounded(List<Double> percents) {
        return percents.stream().map(percent -> text("%.2f", percent)).toList();
    }

    /** Into the test's report, which keeps what is printed. */
    private static void report(String what, String figures) {
        System.out.println(what + ": " + figures);
    }

    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
