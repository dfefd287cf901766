package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.Engine;
import org.beefyield.table.PlainFormula;
import org.beefyield.table.RandomTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableDefinition;

class OutturnProperties {
    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    private static YieldEstimator estimator(TableDefinition definition, Map<String, String> mix) {
        TableDefinition.Builder builder = definition.toBuilder();
        mix.forEach((parent, way) -> builder.specification("mix", parent, way));
        return YieldEstimator.of(YieldTable.of(builder.build()));
    }

    private static void everyLevelAddsUp(Outturn outturn) {
        for (String level : outturn.table().levels()) {
            List<CutLine> lines = outturn.lines(level);
            assertThat(lines).allSatisfy(line -> assertThat(line.kg()).isGreaterThanOrEqualTo(-1e-12));
            assertThat(lines.stream().mapToDouble(CutLine::kg).sum())
                    .as(level)
                    .isCloseTo(outturn.coldWeightKg(), within(1e-9));
            assertThat(lines.stream().mapToDouble(CutLine::share).sum()).isCloseTo(1, within(1e-12));
            double byKind = 0;
            for (CutKind kind : CutKind.values()) {
                byKind += outturn.kg(level, kind);
            }
            assertThat(byKind).as("by kind at " + level).isCloseTo(outturn.coldWeightKg(), within(1e-9));
        }
    }

    @Property(tries = 100)
    void everyLevelAddsUpToTheColdWeightWithAndWithoutMince(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = 1, max = 59) int fatPercent) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        YieldEstimator estimator = estimator(definition, RandomTables.mix(definition, random));
        List<YieldEstimator> estimators = new ArrayList<>(List.of(estimator));
        List<Cut> last =
                Engine.layout(estimator.table()).cutsAt(definition.levels().size() - 1);
        if (last.stream().anyMatch(cut -> cut.kind() == CutKind.LEAN_TRIM)) {
            estimators.add(estimator.with(MinceTarget.fatPercent(fatPercent)));
        }
        for (YieldEstimator each : estimators) {
            LotEstimate.Collector collector = each.collector();
            for (int i = 0; i < 10; i++) {
                Carcass carcass = RandomTables.carcass(definition, random);
                collector.add(carcass);
                everyLevelAddsUp(each.estimate(carcass));
            }
            everyLevelAddsUp(collector.lot());
        }
    }

    /** Fat that goes into the mince comes out of it. */
    @Property(tries = 100)
    void minceHoldsTheFatOfItsTrims(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = 1, max = 59) int fatPercent) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        Map<String, String> mix = RandomTables.mix(definition, random);
        YieldEstimator estimator = estimator(definition, mix);
        List<Cut> last =
                Engine.layout(estimator.table()).cutsAt(definition.levels().size() - 1);
        if (last.stream().noneMatch(cut -> cut.kind() == CutKind.LEAN_TRIM)) {
            return;
        }
        Carcass carcass = RandomTables.carcass(definition, random);
        Carcass atNode = Carcass.of(
                carcass.category(),
                Conformation.third((int) Math.rint(carcass.conformation().position())),
                FatClass.third((int) Math.rint(carcass.fatClass().position())),
                carcass.coldWeightKg());
        YieldEstimate plain = estimator.estimate(atNode);
        YieldEstimate minced =
                estimator.with(MinceTarget.fatPercent(fatPercent)).estimate(atNode);
        Mince mince = minced.mince().orElseThrow();
        double leanFatKg = atNode.coldWeightKg()
                * PlainFormula.shares(
                                definition,
                                atNode.category(),
                                mix,
                                atNode.conformation().position(),
                                atNode.fatClass().position(),
                                atNode.coldWeightKg())
                        .get(definition.levels().get(definition.levels().size() - 1))
                        .get(PlainFormula.FAT_IN_LEAN_TRIM);
        double takenUpFatKg = 0;
        for (Cut cut : last) {
            if (cut.kind() == CutKind.FAT_TRIM) {
                double takenUp = plain.kg(cut.code()) - minced.kg(cut.code());
                assertThat(takenUp).isGreaterThanOrEqualTo(-1e-12);
                takenUpFatKg += takenUp * cut.fatPct() / 100;
            }
        }
        assertThat(mince.leanTrimKg()).isCloseTo(plain.kg(CutKind.LEAN_TRIM), within(1e-9));
        assertThat(mince.fatTrimKg()).isCloseTo(plain.fatTrimKg() - minced.fatTrimKg(), within(1e-9));
        assertThat(mince.fat() * mince.kg()).isCloseTo(leanFatKg + takenUpFatKg, within(1e-9));
    }

    @Property(tries = 100)
    void printedKilogramsAndPerCentsAddUpToTheirPrintedTotals(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = 0, max = 4) int decimals) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        YieldEstimate estimate = estimator(definition, RandomTables.mix(definition, random))
                .estimate(RandomTables.carcass(definition, random));
        for (String level : definition.levels()) {
            BigDecimal kg = BigDecimal.ZERO;
            BigDecimal percent = BigDecimal.ZERO;
            for (String line : estimate.levelTable(level, decimals)
                    .toText()
                    .lines()
                    .skip(2)
                    .toList()) {
                String[] words = line.split(" +", -1);
                if (line.startsWith("Total")) {
                    assertThat(kg).isEqualByComparingTo(words[1]);
                    assertThat(percent).isEqualByComparingTo("100.0");
                    assertThat(Double.parseDouble(words[1]))
                            .isCloseTo(estimate.coldWeightKg(), within(0.501 * Math.pow(10, -decimals)));
                } else if (!line.startsWith("--")) {
                    double exact = estimate.kg(level, words[1]);
                    assertThat(Double.parseDouble(words[2])).isCloseTo(exact, within(1.001 * Math.pow(10, -decimals)));
                    kg = kg.add(new BigDecimal(words[2]));
                    percent = percent.add(new BigDecimal(words[3]));
                }
            }
        }
    }

    @Property(tries = 50)
    void theOrderOfCarcassesInALotDoesNotMatter(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        YieldEstimator estimator = estimator(definition, RandomTables.mix(definition, random));
        List<Carcass> carcasses = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            carcasses.add(RandomTables.carcass(definition, random));
        }
        LotEstimate one = estimator.estimateLot(carcasses);
        Collections.reverse(carcasses);
        LotEstimate other = estimator.estimateLot(carcasses);
        for (Cut cut : estimator.table().catalogue().cuts()) {
            assertThat(other.kg(cut.code())).isCloseTo(one.kg(cut.code()), within(1e-9));
        }
    }

    @Property(tries = 50)
    void aMixOfWaysIsTheSameHoweverItIsChosen(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        YieldEstimator estimator = estimator(definition, RandomTables.mix(definition, random));
        Map<String, String> mix = RandomTables.mix(definition, random);
        Carcass carcass = RandomTables.carcass(definition, random);
        YieldEstimator oneByOne = estimator;
        for (Map.Entry<String, String> entry : mix.entrySet()) {
            oneByOne = oneByOne.with(entry.getKey(), entry.getValue());
        }
        YieldEstimate atOnce =
                estimator.with(CuttingSpecification.of("mix", mix)).estimate(carcass);
        for (Cut cut : estimator.table().catalogue().cuts()) {
            assertThat(oneByOne.estimate(carcass).kg(cut.code())).isEqualTo(atOnce.kg(cut.code()));
        }
    }
}
