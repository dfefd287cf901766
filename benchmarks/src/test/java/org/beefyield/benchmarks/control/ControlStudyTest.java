package org.beefyield.benchmarks.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The committed results are complete and as demanded, and a sample drawn here agrees with them. */
class ControlStudyTest {
    /** Of samples: another one than that of the results. */
    private static final long SEED = 77;

    private static final Results RESULTS = Results.of("control.csv");

    @Test
    void theSdFromRunToRunIsFoundAndItsBoundsHold() {
        for (int runs : ControlStudy.RUNS) {
            double low = RESULTS.of("run SD 5.0", runs, "run SD: 5 % below").value();
            double median = RESULTS.of("run SD 5.0", runs, "run SD: median").value();
            double high = RESULTS.of("run SD 5.0", runs, "run SD: 95 % below").value();
            // never by more than a tenth too low in the middle, and the range narrows as one over the root of the runs
            assertThat(median).as("%d runs", runs).isBetween(4.4, 5.05);
            assertThat((high - low) * Math.sqrt(runs)).as("%d runs", runs).isBetween(13., 17.);
            for (double runSd : ControlStudy.RUN_SDS) {
                Finding bounds = RESULTS.of("run SD " + runSd, runs, "run SD within its bounds");
                assertThat(bounds.value()).as(bounds.toString()).isCloseTo(.9, within(.01));
            }
            for (String figure : List.of("mean within its bounds", "next run within its bounds")) {
                Finding held = RESULTS.of("run SD 5.0", runs, figure);
                assertThat(held.value()).as(held.toString()).isCloseTo(.9, within(.01));
                // where the SD from run to run is often found to be 0, bounds are rather too wide
                Finding small = RESULTS.of("run SD 2.0", runs, figure);
                assertThat(small.value()).as(small.toString()).isBetween(.89, .95);
            }
        }
    }

    /** A board errs on the safe side only, and taking the baseline for the truth would not do. */
    @Test
    void boardsRaiseNoMoreFalseAlarmsThanStated() {
        for (int runs : List.of(10, 20, 40)) {
            for (double runSd : ControlStudy.RUN_SDS) {
                String situation = "no fault and run SD " + runSd;
                for (String figure : List.of("seasons with a false alarm", "false alarms in a run of the board")) {
                    Finding finding = RESULTS.of(situation, runs, figure);
                    assertThat(finding.draws()).isGreaterThanOrEqualTo(1500);
                    assertThat(finding.value())
                            .as(finding.toString())
                            .isBetween(finding.stated() * .6, finding.stated() + 2.5 * finding.standardError());
                }
            }
            Finding known = RESULTS.of(
                    "no fault and run SD 5.0 with the baseline taken as known", runs, "seasons with a false alarm");
            assertThat(known.value()).as(known.toString()).isGreaterThan(2 * known.stated());
        }
    }

    @Test
    void theLargerTheShiftTheSoonerItIsNoticed() {
        for (int runs : List.of(10, 20, 40)) {
            double before = 0;
            for (double shift : ControlStudy.SHIFTS) {
                Finding noticed = RESULTS.of(shift + " SD too low for 40 runs", runs, "noticed within 5 runs");
                assertThat(noticed.value()).as(noticed.toString()).isGreaterThan(before);
                before = noticed.value();
                Finding falsely = RESULTS.of(noticed.situation(), runs, "false alarms in a run of the product before");
                // of one product in ten at one in 200 runs; four standard errors of some twenty in 40,000 runs
                assertThat(falsely.value())
                        .as(falsely.toString())
                        .isLessThan(1 / 2000. + 4 * Math.sqrt(1 / 2000. / 20 / noticed.draws()));
            }
            assertThat(before).isGreaterThan(.9);
        }
    }

    @Test
    void aSampleAgreesWithTheResults() {
        for (int runs : ControlStudy.RUNS) {
            for (Finding sampled : ControlStudy.estimates(5, runs, 1000, SEED)) {
                if (Double.isNaN(sampled.standardError())) {
                    double result = RESULTS.of(sampled.situation(), runs, sampled.figure())
                            .value();
                    // an outer twentieth of 1000 draws has a standard error of about 2.1 SDs of one by their root
                    assertThat(sampled.value()).as(sampled.toString()).isCloseTo(result, within(4 * 2.1 * 2.2 / 31.6));
                } else if (sampled.value() > 0 && sampled.value() < 1) {
                    RESULTS.agree(sampled);
                }
            }
        }
        RESULTS.agree(ControlStudy.falseAlarms(5, 20, 50, SEED).get(0));
        RESULTS.agree(ControlStudy.takenAsKnown(5, 20, 500, SEED).get(0));
        for (Finding sampled : ControlStudy.shifts(2, 40, 20, 200, SEED)) {
            if (sampled.figure().startsWith("noticed")) {
                RESULTS.agree(sampled);
            }
        }
    }

    @Test
    void figuresAreWrittenAsTheyAreRead() throws IOException {
        assertThat(Files.readString(Path.of("control.csv"))).isEqualTo(Finding.csv("runs", RESULTS.all()));
        assertThat(RESULTS.all()).allSatisfy(one -> assertThat(one.seed()).isEqualTo(ControlStudy.SEED));
    }
}
