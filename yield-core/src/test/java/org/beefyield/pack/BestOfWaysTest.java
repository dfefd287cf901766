package org.beefyield.pack;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Mince;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.SizeWindow;
import org.beefyield.price.MissingPriceException;
import org.beefyield.price.PriceList;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/** The best ways beside all ways there are, each valued by itself. */
class BestOfWaysTest {
    /** Lean trim of 4 to 45 % fat and fat trims of 55 and 80 %, of four cuts of two or three ways. */
    private static final YieldTable TABLE = YieldTable.of(TableDefinition.builder("trims", "1")
            .levels("primal", "retail")
            .categories(Category.STEER)
            .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made for a test", ""))
            .cut(primal("round", 4))
            .cut(primal("loin", 8).withPiecesPerSide(1.0).withSideSplitSdPct(3.0))
            .cut(primal("flank", 30))
            .cut(primal("plate", 45))
            .cut(Cut.of("rest", "Rest", "primal", CutKind.LOSS))
            .cut(Cut.of("steak", "Steak", "retail", CutKind.STEAK))
            .cut(Cut.of("joint", "Joint", "retail", CutKind.JOINT))
            .cut(Cut.of("roll", "Roll", "retail", CutKind.JOINT))
            .cut(Cut.of("dice", "Dice", "retail", CutKind.DICE))
            .cut(Cut.of("trim", "Trim", "retail", CutKind.LEAN_TRIM))
            .cut(Cut.of("soft", "Soft fat", "retail", CutKind.FAT_TRIM).withFatPct(55.0))
            .cut(Cut.of("hard", "Hard fat", "retail", CutKind.FAT_TRIM).withFatPct(80.0))
            .row("carcass", "round", 4, "made", 200)
            .row("carcass", "loin", 4, "made", 100)
            .row("carcass", "flank", 4, "made", 60)
            .row("carcass", "plate", 4, "made", 90)
            .row("carcass", "rest", 4, "made", 550)
            .row("*", "joints", "round", "joint", 0, "made", 850)
            .row("*", "joints", "round", "trim", 0, "made", 100)
            .row("*", "joints", "round", "hard", 0, "made", 50)
            .row("*", "dice", "round", "dice", 0, "made", 700)
            .row("*", "dice", "round", "trim", 0, "made", 250)
            .row("*", "dice", "round", "soft", 0, "made", 50)
            .row("*", "trim", "round", "trim", 0, "made", 930)
            .row("*", "trim", "round", "hard", 0, "made", 70)
            .row("*", "steaks", "loin", "steak", 0, "made", 700)
            .row("*", "steaks", "loin", "trim", 0, "made", 180)
            .row("*", "steaks", "loin", "soft", 0, "made", 120)
            .row("*", "joints", "loin", "joint", 0, "made", 900)
            .row("*", "joints", "loin", "trim", 0, "made", 40)
            .row("*", "joints", "loin", "soft", 0, "made", 60)
            .row("*", "trim", "loin", "trim", 0, "made", 880)
            .row("*", "trim", "loin", "soft", 0, "made", 120)
            .row("*", "joints", "flank", "roll", 0, "made", 700)
            .row("*", "joints", "flank", "trim", 0, "made", 200)
            .row("*", "joints", "flank", "soft", 0, "made", 100)
            .row("*", "trim", "flank", "trim", 0, "made", 950)
            .row("*", "trim", "flank", "hard", 0, "made", 50)
            .row("*", "joints", "plate", "roll", 0, "made", 600)
            .row("*", "joints", "plate", "trim", 0, "made", 300)
            .row("*", "joints", "plate", "hard", 0, "made", 100)
            .row("*", "dice", "plate", "dice", 0, "made", 500)
            .row("*", "dice", "plate", "trim", 0, "made", 400)
            .row("*", "dice", "plate", "soft", 0, "made", 100)
            .row("*", "trim", "plate", "trim", 0, "made", 1000)
            .specification("usual", "round", "joints")
            .specification("usual", "loin", "steaks")
            .specification("usual", "flank", "trim")
            .specification("usual", "plate", "joints")
            .build());

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE);

    private static Cut primal(String code, double fatPct) {
        return Cut.of(code, code, "primal", CutKind.PRIMAL).withFatPct(fatPct);
    }

    /** Estimators in every mix of ways. */
    private static List<YieldEstimator> mixes() {
        List<YieldEstimator> mixes = List.of(ESTIMATOR);
        for (String cut : ESTIMATOR.specification().ways().keySet()) {
            mixes = mixes.stream()
                    .flatMap(mix -> TABLE.ways(cut).stream().map(way -> with(mix, cut, way)))
                    .toList();
        }
        return mixes;
    }

    private static YieldEstimator with(YieldEstimator estimator, String cut, String way) {
        return estimator.specification().ways().get(cut).equals(way) ? estimator : estimator.with(cut, way);
    }

    private static PriceList prices(Random random) {
        PriceList.Builder prices = PriceList.builder("EUR")
                .kind(CutKind.LOSS, 0)
                .cut("steak", 4 + random.nextDouble(8))
                .cut("joint", 4 + random.nextDouble(4))
                .cut("roll", 3 + random.nextDouble(4))
                .cut("dice", 4 + random.nextDouble(4))
                .cut("soft", -0.2 + random.nextDouble(random.nextBoolean() ? 1 : 8))
                .cut("hard", -0.2 + random.nextDouble(random.nextBoolean() ? 1 : 8))
                .otherPerHead("Hide", 30);
        double lean = 5 + random.nextDouble(3);
        for (int step = random.nextInt(4); step > 0; step--) {
            double fat = 5 + random.nextInt(25);
            prices.mince(fat, lean - random.nextDouble(0.1) * fat + (random.nextInt(4) == 0 ? 1 : 0));
        }
        return random.nextInt(5) == 0
                ? prices.mince(30, lean - 2).build()
                : prices.mince(lean - random.nextDouble(3)).build();
    }

    private static Optional<Value> value(PriceList prices, YieldEstimator estimator, Carcass carcass) {
        try {
            return Optional.of(Valuer.of(prices, estimator).value(carcass));
        } catch (MissingPriceException e) {
            return Optional.empty();
        }
    }

    /** What misfits cost, by way of the loin: none in another way than that of the window. */
    private static double cost(SizeWindow window, String way, Map<String, Optional<Value>> single, Carcass carcass) {
        Optional<Value> own = single.get("loin" + way);
        if (!window.isFor(way) || own.isEmpty()) {
            return 0;
        }
        PieceWeight piece = PieceWeight.of(ESTIMATOR.estimate(carcass), "loin");
        double loss = own.get().amount()
                - single.get("loin" + window.otherwise()).orElseThrow().amount();
        return piece.pieces() * piece.kgOutside(window) * loss / carcass.coldWeightKg() / 0.1;
    }

    @Test
    void whereAWayIsBetterByNoiseTheFixedOneStaysBesideAChangeOfAnotherCut() {
        PriceList prices = PriceList.builder("EUR")
                .kind(CutKind.PRIMAL, 1)
                .kind(CutKind.LOSS, 0)
                .build();
        MinceWorth worth = MinceWorth.of(Valuer.of(prices, ESTIMATOR, "primal"));
        MinceWorth.Trims better = MinceWorth.Trims.NONE.plus(10, MinceWorth.Trims.OTHER);
        MinceWorth.Trims noise = MinceWorth.Trims.NONE.plus(1e-12, MinceWorth.Trims.OTHER);

        assertThat(BestOfWays.choice(
                        worth,
                        MinceWorth.Trims.NONE,
                        List.of(List.of(MinceWorth.Trims.NONE, better), List.of(MinceWorth.Trims.NONE, noise))))
                .containsExactly(1, 0);
    }

    private enum Became {
        AS_ASKED,
        SHORT_OF_FAT_TRIM,
        FATTER
    }

    private static Became became(Mince mince) {
        if (mince.isShortOfFatTrim()) {
            return Became.SHORT_OF_FAT_TRIM;
        }
        return mince.note().isEmpty() ? Became.AS_ASKED : Became.FATTER;
    }

    @Test
    void theBestWaysAreTheBestOfAllMixesWhateverBecomesOfTheMince() {
        List<YieldEstimator> mixes = mixes();
        Map<Became, Integer> seen = new EnumMap<>(Became.class);
        Random random = new Random(3);
        for (int run = 0; run < 150; run++) {
            MinceTarget target = MinceTarget.fatPercent(5 + random.nextInt(25));
            PriceList prices = prices(random);
            Carcass carcass = Carcass.of(
                    Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 250 + random.nextDouble(200));
            SizeWindow window = new SizeWindow("loin", "steaks", 0, 18, "joints");
            YieldEstimator fixed = mixes.get(random.nextInt(mixes.size())).with(target);
            if (value(prices, fixed, carcass).isEmpty()) {
                continue;
            }
            Map<String, Optional<Value>> single = new HashMap<>();
            fixed.specification()
                    .ways()
                    .keySet()
                    .forEach(cut -> TABLE.ways(cut)
                            .forEach(way -> single.put(cut + way, value(prices, with(fixed, cut, way), carcass))));
            if (single.get("loinjoints").isEmpty()) {
                continue;
            }
            Value most = null;
            double atMost = Double.NEGATIVE_INFINITY;
            for (YieldEstimator mix : mixes) {
                Map<String, String> ways = mix.specification().ways();
                // ways of which one alone has no price are looked at only in the table's own specifications
                if (ways.equals(ESTIMATOR.specification().ways())
                        || ways.entrySet().stream()
                                .allMatch(way -> single.get(way.getKey() + way.getValue())
                                        .isPresent())) {
                    Optional<Value> value = value(prices, mix.with(target), carcass);
                    double expected = value.map(Value::amount).orElse(Double.NEGATIVE_INFINITY)
                            - cost(window, ways.get("loin"), single, carcass);
                    if (expected > atMost) {
                        atMost = expected;
                        most = value.orElseThrow();
                    }
                }
            }

            BestWays best =
                    PackFit.of(Valuer.of(prices, fixed), List.of(window)).best(carcass);

            assertThat(best.best().expected())
                    .as("%s %s, %s in place of %s", target, prices.mince(), best.changed(), fixed.specification())
                    .isCloseTo(atMost, within(1e-6));
            seen.merge(became(most.outturn().mince().orElseThrow()), 1, Integer::sum);
        }
        assertThat(seen)
                .hasSize(3)
                .allSatisfy((became, times) -> assertThat(times).isGreaterThan(10));
    }
}
