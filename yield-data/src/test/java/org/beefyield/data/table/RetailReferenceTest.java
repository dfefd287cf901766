package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.junit.jupiter.api.Test;

/** The retail level of the shipped table against what the trade knows and what others published of whole carcasses. */
class RetailReferenceTest {
    private static final List<String> SPECIFICATIONS = List.of("steaks", "joints", "trim");

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(ShippedTables.boneless2026());

    /** Common practice, no source. */
    @Test
    void betterConformationGivesMoreSteaksAndJointsAndWorseMoreMinceAndDice() {
        for (String specification : List.of("steaks", "joints")) {
            YieldEstimator under = ESTIMATOR.withSpecification(specification);
            YieldEstimate good = under.estimate(steer("U=", "3="));
            YieldEstimate fair = under.estimate(steer("O=", "3="));
            report("% of meat, U= 3= under " + specification, shares(good));
            report("% of meat, O= 3= under " + specification, shares(fair));

            assertThat(good.shareOfMeat(CutKind.STEAK) + good.shareOfMeat(CutKind.JOINT))
                    .as(specification)
                    .isGreaterThan(fair.shareOfMeat(CutKind.STEAK) + fair.shareOfMeat(CutKind.JOINT));
            assertThat(fair.minceShare()).as(specification).isGreaterThan(good.minceShare());
            assertThat(fair.shareOfMeat(CutKind.DICE)).as(specification).isGreaterThan(good.shareOfMeat(CutKind.DICE));
        }
    }

    /** The same in mince brought to 15 % fat: the fat it takes up doesn't turn the order round. */
    @Test
    void worseConformationGivesMoreMinceToo() {
        YieldEstimator minced = ESTIMATOR.with(MinceTarget.fatPercent(15));

        assertThat(minced.estimate(steer("O=", "3=")).minceShare())
                .isGreaterThan(minced.estimate(steer("U=", "3=")).minceShare());
    }

    /** Common practice, no source. */
    @Test
    void fatClassFourHighGivesMoreFatTrimThanThree() {
        for (String specification : SPECIFICATIONS) {
            YieldEstimator under = ESTIMATOR.withSpecification(specification);
            YieldEstimate three = under.estimate(steer("R=", "3"));
            YieldEstimate fourHigh = under.estimate(steer("R=", "4H"));
            report(
                    "fat trim under " + specification,
                    text("fat class 3: %.1f kg, 4H: %.1f kg of 340 kg", three.fatTrimKg(), fourHigh.fatTrimKg()));

            // 3.75 points at 11.928 g/kg; lighter primals then lose a little less, at most a tenth of what they lack
            double separable = 3.75 * 11.928 * 0.340;
            assertThat(fourHigh.kg("tissue", "fat-trim") - three.kg("tissue", "fat-trim"))
                    .isCloseTo(separable, within(0.01));
            assertThat(fourHigh.fatTrimKg() - three.fatTrimKg())
                    .isBetween(separable - 0.1 * (three.meatKg() - fourHigh.meatKg()), separable);
            assertThat(fourHigh.saleableKg()).isLessThan(three.saleableKg());
        }
    }

    /**
     * michigan and washington: packed meat of a whole carcass or side. Neither figure says how close the meat was
     * trimmed, so this is a plausibility band. Ours lies below, for it is trimmed: what is cut off the primals and
     * doesn't go into mince, about 4 % of the carcass, counts as packed meat there (our reading, an assumption). So the
     * published share should lie between ours and the meat before it is cut to retail, and 1.5 points of carcass weight
     * beyond: the fatness of those carcasses isn't stated either, and half a fat class is worth 1.4.
     */
    @Test
    void saleableShareIsBelowThePublishedOnesByAtMostWhatIsCutOffThePrimals() {
        for (PublishedYield published : published()) {
            for (String specification : SPECIFICATIONS) {
                YieldEstimate estimate = ESTIMATOR
                        .withSpecification(specification)
                        .with(MinceTarget.fatPercent(15))
                        .estimate(Carcass.of(
                                Category.STEER, Conformation.parse("R="), FatClass.parse("3="), published.carcassKg()));
                double saleable = 100 * estimate.saleableKg() / estimate.coldWeightKg();
                double meat = 100 * estimate.meatKg() / estimate.coldWeightKg();
                report(
                        "saleable, % of " + text("%.0f kg", published.carcassKg()) + " under " + specification,
                        text(
                                "%s %.1f, here %.1f; meat before it is cut to retail %.1f",
                                published.source(), published.percent(), saleable, meat));

                assertThat(saleable).isLessThan(published.percent());
                assertThat(published.percent()).isLessThan(meat + 1.5);
            }
        }
    }

    /** The saleable cuts are all that is neither fat trim, bone nor loss. */
    @Test
    void saleableMeatIsSteaksJointsDiceAndMince() {
        for (String specification : SPECIFICATIONS) {
            YieldEstimate estimate = ESTIMATOR
                    .withSpecification(specification)
                    .with(MinceTarget.fatPercent(15))
                    .estimate(steer("R=", "3="));

            assertThat(estimate.kg(CutKind.STEAK)
                            + estimate.kg(CutKind.JOINT)
                            + estimate.kg(CutKind.DICE)
                            + estimate.kg(CutKind.MINCE))
                    .isCloseTo(estimate.saleableKg(), within(1e-9));
        }
    }

    /** Common practice, no source: an oversized striploin is cut as joints. */
    @Test
    void oversizedStriploinCutAsJointsGivesJointsAndNoSteaks() {
        YieldEstimate steaks = ESTIMATOR.withSpecification("steaks").estimate(steer("U=", "4="));
        YieldEstimate mixed = ESTIMATOR
                .withSpecification("steaks")
                .with("striploin", "joints")
                .estimate(steer("U=", "4="));

        assertThat(mixed.kg("striploin-steak")).isZero();
        assertThat(mixed.kg("striploin-joint")).isGreaterThan(steaks.kg("striploin-steak"));
        assertThat(mixed.kg("rump-steak")).isEqualTo(steaks.kg("rump-steak"));
        assertThat(mixed.kg("primal", "striploin")).isEqualTo(steaks.kg("primal", "striploin"));
    }

    /** A carcass and the part of it that came out as packed meat, in checks.csv. */
    record PublishedYield(String source, double carcassKg, double percent) {}

    private static List<PublishedYield> published() {
        double kgPerLb = 0.45359237;
        List<PublishedYield> published = new ArrayList<>();
        ReferenceRows.of("checks.csv").forEach(row -> {
            List<Double> expected = ReferenceRows.numbers(row.get("expected"));
            if (row.get("source").equals("michigan")) {
                List<Double> carcassLb = ReferenceRows.numbers(row.get("case"));
                for (int i = 0; i < carcassLb.size(); i++) {
                    published.add(new PublishedYield(
                            "michigan", carcassLb.get(i) * kgPerLb, 100 * expected.get(i) / carcassLb.get(i)));
                }
            } else if (row.get("source").equals("washington")) {
                double lb = expected.get(1) + expected.get(3);
                published.add(new PublishedYield(
                        "washington", 2 * lb * kgPerLb, 100 * (expected.get(0) + expected.get(2)) / lb));
            }
        });
        assertThat(published).hasSize(4);
        return published;
    }

    private static Carcass steer(String conformation, String fat) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fat), 340);
    }

    private static String shares(YieldEstimate estimate) {
        return text(
                "steaks %.2f, joints %.2f, dice %.2f, lean trim for mince %.2f",
                100 * estimate.shareOfMeat(CutKind.STEAK),
                100 * estimate.shareOfMeat(CutKind.JOINT),
                100 * estimate.shareOfMeat(CutKind.DICE),
                100 * estimate.minceShare());
    }

    /** Into the test's report, which keeps what is printed. */
    private static void report(String what, String figures) {
        System.out.println(what + ": " + figures);
    }

    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
