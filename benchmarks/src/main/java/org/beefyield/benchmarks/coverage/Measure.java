package org.beefyield.benchmarks.coverage;

import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;

/** A figure that the library is asked for, and the same of what was drawn. */
abstract class Measure {
    /** Sells everything: invented. */
    private static final Map<CutKind, Double> PRICES = Map.of(
            CutKind.STEAK, 19.0,
            CutKind.JOINT, 11.0,
            CutKind.DICE, 8.5,
            CutKind.MINCE, 6.0,
            CutKind.FAT_TRIM, 0.4,
            CutKind.BONE, 0.1,
            CutKind.LOSS, 0.0);

    private final String name;

    private Measure(String name) {
        this.name = name;
    }

    String name() {
        return name;
    }

    abstract Figure figure(Outturn outturn, YieldEstimator estimator);

    Interval interval(Outturn outturn, YieldEstimator estimator, double probability) {
        return outturn.interval(figure(outturn, estimator), probability);
    }

    /** What came out. */
    abstract double of(Outcome outcome);

    /** What should be far from 0 for errors of first order to do. */
    List<ToDoubleFunction<Outcome>> apart() {
        return List.of(this::of);
    }

    static Measure cut(String level, int number, String cut) {
        return new Measure(level + " " + cut) {
            @Override
            Figure figure(Outturn outturn, YieldEstimator estimator) {
                return Figure.cut(level, cut);
            }

            @Override
            double of(Outcome outcome) {
                return outcome.kg(number, cut);
            }
        };
    }

    /** All of a kind that mince has nothing to do with. */
    static Measure kind(CutKind kind) {
        return new Measure(kind.code()) {
            @Override
            Figure figure(Outturn outturn, YieldEstimator estimator) {
                return Figure.kind(kind);
            }

            @Override
            double of(Outcome outcome) {
                return outcome.kg(kind);
            }
        };
    }

    /**
     * Mince, or the fat trim that it leaves.
     *
     * @param fat fat content asked for, a fraction
     */
    static Measure mince(CutKind kind, double fat) {
        return new Measure(kind.code()) {
            @Override
            Figure figure(Outturn outturn, YieldEstimator estimator) {
                return Figure.kind(kind);
            }

            @Override
            double of(Outcome outcome) {
                return minced(outcome, kind, fat);
            }

            @Override
            List<ToDoubleFunction<Outcome>> apart() {
                return minceApart(this::of, fat);
            }
        };
    }

    private static double minced(Outcome outcome, CutKind kind, double fat) {
        double taken = outcome.fatIntoMince(fat);
        return switch (kind) {
            case MINCE -> outcome.kg(CutKind.LEAN_TRIM) + taken;
            case FAT_TRIM -> outcome.kg(CutKind.FAT_TRIM) - taken;
            default -> outcome.kg(kind);
        };
    }

    private static List<ToDoubleFunction<Outcome>> minceApart(ToDoubleFunction<Outcome> itself, double fat) {
        return List.of(
                itself,
                outcome -> outcome.fatWanted(fat),
                outcome -> outcome.kg(CutKind.FAT_TRIM) - outcome.fatWanted(fat));
    }

    /**
     * Money for everything.
     *
     * @param fat fat content of the mince, a fraction
     */
    static Measure value(double fat) {
        PriceList.Builder builder = PriceList.builder("EUR");
        PRICES.forEach(builder::kind);
        PriceList prices = builder.build();
        return new Measure("value") {
            @Override
            Figure figure(Outturn outturn, YieldEstimator estimator) {
                return Valuer.of(prices, estimator).value(outturn).figure();
            }

            @Override
            Interval interval(Outturn outturn, YieldEstimator estimator, double probability) {
                return Valuer.of(prices, estimator).value(outturn).interval(probability);
            }

            @Override
            double of(Outcome outcome) {
                return PRICES.entrySet().stream()
                        .mapToDouble(price -> price.getValue() * minced(outcome, price.getKey(), fat))
                        .sum();
            }

            @Override
            List<ToDoubleFunction<Outcome>> apart() {
                return minceApart(this::of, fat);
            }
        };
    }
}
