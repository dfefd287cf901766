package org.beefyield.calibrate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.carcass.Carcass;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableRange;

class CalibrationProperties {
    private static final YieldTable PRIOR = Halls.prior();
    private static final TableRange NARROW = TestTables.range(3, 13, 3, 13, 250, 430);

    private static BreakdownFit fit(Calibration calibration) {
        return calibration.fit().fit("carcass");
    }

    /** Fractions of the parent, so that 1e-12 is 1e-9 g/kg. */
    @Property(tries = 200)
    void coefficientsAddUpByThemselves(
            @ForAll @IntRange(min = 12, max = 80) int count,
            @ForAll long seed,
            @ForAll @DoubleRange(min = 0, max = 1e6) double strength) {
        BreakdownFit fit = fit(
                Calibration.of(TrialSet.of(PRIOR, Halls.trials(seed, count))).withStrength(strength));

        for (String term : fit.terms()) {
            double sum = 0;
            for (String cut : fit.cuts()) {
                sum += fit.coefficient(cut, term) / 1000;
            }
            assertThat(sum).as(term).isCloseTo(term.equals("level_g_per_kg") ? 1 : 0, within(1e-12));
        }
        for (String cut : fit.cuts()) {
            double sum = 0;
            for (String other : fit.cuts()) {
                sum += fit.residualCovariance(cut, other);
            }
            assertThat(sum).isCloseTo(0, within(1e-9 * Math.max(1, fit.residualCovariance(cut, cut))));
        }
    }

    @Property(tries = 50)
    void theOrderOfTheTrialsDoesNotMatterToTheLastDigit(
            @ForAll long seed, @ForAll @DoubleRange(min = 0, max = 100) double strength) {
        List<Trial> trials = Halls.trials(seed, 40);
        List<Trial> shuffled = new ArrayList<>(trials);
        Collections.shuffle(shuffled, new Random(seed));

        YieldTable table = table(trials, strength);

        assertThat(table(shuffled, strength).digest()).isEqualTo(table.digest());
        assertThat(table(Halls.trials(seed + 1, 40), strength).digest()).isNotEqualTo(table.digest());
    }

    private static YieldTable table(List<Trial> trials, double strength) {
        return Calibration.of(TrialSet.of(PRIOR, trials))
                .withStrength(strength)
                .fit()
                .withAllowedRange(NARROW)
                .table("hall", "1");
    }

    @Property(tries = 50)
    void unlimitedStrengthIsThePriorAndAnyStrengthLiesBetweenInItsFit(@ForAll long seed) {
        Calibration calibration = Calibration.of(TrialSet.of(PRIOR, Halls.trials(seed, 40)));

        BreakdownFit prior = fit(calibration.withStrength(1e12));
        BreakdownFit free = fit(calibration);
        BreakdownFit between = fit(calibration.withStrength(40));

        for (String cut : prior.cuts()) {
            for (String term : prior.terms()) {
                assertThat(prior.coefficient(cut, term)).isCloseTo(prior.priorCoefficient(cut, term), within(1e-6));
                // with moments of the trials and as many carcasses on each side it is half way
                assertThat(between.coefficient(cut, term))
                        .isCloseTo((prior.priorCoefficient(cut, term) + free.coefficient(cut, term)) / 2, within(1e-8));
            }
            assertThat(between.rmse(cut)).isBetween(free.rmse(cut) - 1e-9, prior.rmse(cut) + 1e-9);
        }
        assertThat(prior.degreesOfFreedom()).isCloseTo(40, within(1e-6));
        assertThat(free.degreesOfFreedom()).isEqualTo(36);
        // each of 4 directions counts half: 40 - 2 x 4/2 + 4/4
        assertThat(between.degreesOfFreedom()).isCloseTo(37, within(1e-9));
        assertThat(Math.pow(between.standardError("bone", "per_fat_point") / between.residualSd("bone"), 2))
                .isCloseTo(
                        Math.pow(free.standardError("bone", "per_fat_point") / free.residualSd("bone"), 2) / 2,
                        within(1e-12));
    }

    /** A table made of some trials stands for them: with their number for a strength and their moments. */
    @Property(tries = 50)
    void halfTheTrialsAsThePriorOfTheOtherHalfGiveWhatAllGive(
            @ForAll long seed, @ForAll @IntRange(min = 15, max = 45) int first) {
        List<Trial> all = Halls.trials(seed, 60);
        BreakdownFit union = fit(Calibration.of(TrialSet.of(PRIOR, all)));
        Calibrated half =
                Calibration.of(TrialSet.of(PRIOR, all.subList(0, first))).fit();
        YieldTable ofHalf = half.withAllowedRange(NARROW).table("half", "1");
        List<Carcass> carcasses =
                all.subList(0, first).stream().map(Trial::carcass).toList();

        Calibration other =
                Calibration.of(TrialSet.of(ofHalf, all.subList(first, 60))).withStrength(first);

        for (TermMoments moments : List.of(half.fit("carcass").moments(), TermMoments.of(PRIOR, carcasses))) {
            BreakdownFit merged = fit(other.withMoments(moments));
            for (String cut : union.cuts()) {
                for (String term : union.terms()) {
                    assertThat(merged.coefficient(cut, term)).isCloseTo(union.coefficient(cut, term), within(1e-8));
                }
            }
        }
    }

    /** What a fit from which a carcass is left out expects of it, without and with shrinkage. */
    @Property(tries = 20)
    void leaveOneOutIsTheFitWithoutEachCarcass(
            @ForAll long seed, @ForAll @DoubleRange(min = 0, max = 100) double strength) {
        List<Trial> all = Halls.trials(seed, 20);
        TermMoments moments = TermMoments.over(PRIOR, PRIOR.definition().fitted());
        Calibration calibration =
                Calibration.of(TrialSet.of(PRIOR, all)).withMoments(moments).withStrength(strength);
        double squares = 0;
        for (int i = 0; i < all.size(); i++) {
            List<Trial> without = new ArrayList<>(all);
            Trial out = without.remove(i);
            BreakdownFit fit = fit(Calibration.of(TrialSet.of(PRIOR, without))
                    .withMoments(moments)
                    .withStrength(strength));
            double expected = 0;
            double[] terms = new Terms(PRIOR.definition()).of(out.carcass());
            for (int j = 0; j < terms.length; j++) {
                expected += terms[j] * fit.coefficient("meat", fit.terms().get(j));
            }
            double share = 1000 * out.kg().get("meat") / out.carcass().coldWeightKg();
            squares += (share - expected) * (share - expected);
        }

        assertThat(fit(calibration).leaveOneOut("meat")).isCloseTo(Math.sqrt(squares / all.size()), within(1e-8));
    }
}
