package org.beefyield.calibrate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
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
    @Property(tries = 50)
    void coefficientsAddUpByThemselves(@ForAll @IntRange(min = 12, max = 80) int count, @ForAll long seed) {
        BreakdownFit fit = fit(Calibration.of(TrialSet.of(PRIOR, Halls.trials(seed, count))));

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

    @Property(tries = 15)
    void theOrderOfTheTrialsDoesNotMatterToTheLastDigit(@ForAll long seed) {
        List<Trial> trials = Halls.trials(seed, 40);
        List<Trial> shuffled = new ArrayList<>(trials);
        Collections.shuffle(shuffled, new Random(seed));

        YieldTable table = table(trials);

        assertThat(table(shuffled).digest()).isEqualTo(table.digest());
        assertThat(table(Halls.trials(seed + 1, 40)).digest()).isNotEqualTo(table.digest());
    }

    private static YieldTable table(List<Trial> trials) {
        return Calibration.of(TrialSet.of(PRIOR, trials))
                .fit()
                .withAllowedRange(NARROW)
                .table("hall", "1");
    }
}
