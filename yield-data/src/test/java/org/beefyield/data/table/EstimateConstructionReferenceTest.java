package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Mince;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/**
 * One carcass, a steer R= 3= of 340 kg, worked through every level from the published figures that the shipped table is made
 * of, apart from the table's derivation: tissues from grange and the boning loss, primals from judge2019, retail cuts from
 * dryaging2016, retailaus, voges2006, chuckround and assumptions, as each row of the table says.
 */
class EstimateConstructionReferenceTest {
    private static final double ONE_GRAM = 0.001;
    private static final String QUARTERING = "10-rib forequarter";

    private final Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);

    /** A piece is half of the primal, before left-right differences; mince by Pearson's square with fat trim of 72 % fat. */
    @ParameterizedTest
    @CsvFileSource(resources = "/reference/worked-carcass.csv", numLinesToSkip = 1)
    void workedCarcassComesOutToOneGram(String level, @Nullable String specification, String cut, double kg) {
        YieldEstimator estimator = under(specification);
        YieldEstimate estimate = estimator.estimate(carcass);

        double found = switch (level) {
            case "tissue", "primal", "retail" -> estimate.kg(level, cut);
            case "piece" -> estimate.pieceKg(cut).orElseThrow();
            case "kind" -> estimate.kg(CutKind.parse(cut));
            case "mince at 15 % fat" -> minced(estimator).kg(cut);
            default -> throw new IllegalArgumentException(level);
        };
        assertThat(found).isCloseTo(kg, within(ONE_GRAM));
    }

    /** Quarters: charles1986 for fat trim and bone, for the rest where a cut lies. */
    @ParameterizedTest
    @CsvFileSource(resources = "/reference/worked-totals.csv", numLinesToSkip = 1)
    void totalOfTheWorkedCarcassComesOut(
            String quantity, @Nullable String specification, double value, String unit, double tolerance) {
        YieldEstimate estimate = under(specification).estimate(carcass);
        YieldEstimate minced = minced(under(specification));

        double found = switch (quantity) {
            case "forequarter" -> estimate.quarters(QUARTERING).foreKg();
            case "hindquarter" -> estimate.quarters(QUARTERING).hindKg();
            case "fat trim cut off the primals" -> estimate.fatTrimKg() - estimate.kg("tissue", "fat-trim");
            case "loss in cutting the primals" -> estimate.lossKg() - estimate.kg("tissue", "loss");
            case "fat content of the lean trim" -> 100 * fatOfLeanTrim(minced);
            case "fat trim that mince at 15 % fat takes up" ->
                minced.mince().map(Mince::fatTrimKg).orElseThrow();
            case "dice and mince at 15 % fat" -> {
                double kg = minced.kg(CutKind.DICE) + minced.kg(CutKind.MINCE);
                yield unit.equals("kg") ? kg : 100 * kg / minced.meatKg();
            }
            default -> throw new IllegalArgumentException(quantity);
        };
        assertThat(found).isCloseTo(value, within(tolerance));
    }

    private YieldEstimate minced(YieldEstimator estimator) {
        return estimator.with(MinceTarget.fatPercent(15)).estimate(carcass);
    }

    /** What is left of the fat of the mince without that of the fat trim, which is 72 % fat, per kg of lean trim. */
    private static double fatOfLeanTrim(YieldEstimate minced) {
        Mince mince = minced.mince().orElseThrow();
        return (mince.fat() * mince.kg() - 0.72 * mince.fatTrimKg()) / mince.leanTrimKg();
    }

    private static YieldEstimator under(@Nullable String specification) {
        return specification == null ? Shipped.ESTIMATOR : Shipped.ESTIMATOR.withSpecification(specification);
    }
}
