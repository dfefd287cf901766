package org.beefyield.price;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.Engine;
import org.beefyield.table.RandomTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableDefinition;

/** Attribution of any two carcasses or lots of any table, cut and priced in any way. */
class AttributionProperties {
    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    /** A table with random ways, prices and carcasses. */
    private static final class Scene {
        private final Random random;
        private final TableDefinition definition;
        private final List<Valuer> valuers = new ArrayList<>();

        Scene(RandomTables.Shape shape, long seed) {
            random = new Random(seed);
            definition = shape.table();
            TableDefinition.Builder builder = definition.toBuilder();
            RandomTables.mix(definition, random).forEach((parent, way) -> builder.specification("one", parent, way));
            RandomTables.mix(definition, random).forEach((parent, way) -> builder.specification("two", parent, way));
            YieldTable table = YieldTable.of(builder.build());
            for (int i = 0; i < 2; i++) {
                YieldEstimator estimator = table.specifications().isEmpty()
                        ? YieldEstimator.of(table)
                        : YieldEstimator.of(table, table.specifications().get(i));
                boolean lean = Engine.layout(table).cutsAt(table.levels().size() - 1).stream()
                        .anyMatch(cut -> cut.kind() == CutKind.LEAN_TRIM);
                if (lean && random.nextBoolean()) {
                    estimator = estimator.with(MinceTarget.fatPercent(1 + random.nextInt(59)));
                }
                valuers.add(Valuer.of(prices(table), estimator));
            }
        }

        private PriceList prices(YieldTable table) {
            PriceList.Builder prices = PriceList.builder("EUR").mince(random.nextDouble(10));
            for (Cut cut : Engine.layout(table).cutsAt(table.levels().size() - 1)) {
                prices.cut(cut.code(), random.nextDouble(20) - 1);
            }
            return prices.otherPerHead("Hide", random.nextDouble(40))
                    .otherPerKg("Boning", -random.nextDouble(1))
                    .build();
        }

        Valuer valuer() {
            return valuers.get(random.nextInt(2));
        }

        Carcass carcass() {
            return RandomTables.carcass(definition, random);
        }

        Value carcassValue() {
            return valuer().value(carcass());
        }

        Value lotValue() {
            Valuer valuer = valuer();
            List<Carcass> carcasses = new ArrayList<>();
            for (int i = 0; i <= random.nextInt(9); i++) {
                carcasses.add(carcass());
            }
            return valuer.value(valuer.estimator().estimateLot(carcasses));
        }
    }

    private static void closes(Attribution why, double scale) {
        double all = Arrays.stream(Factor.values()).mapToDouble(why::amount).sum();
        assertThat(all).isCloseTo(why.difference(), within(1e-9 * scale));
        assertThat(why.lines().stream().mapToDouble(Attribution.Line::amount).sum())
                .isCloseTo(why.difference(), within(1e-9 * scale));
        double kg = 0;
        for (Attribution.Line line : why.lines()) {
            String name = line.code().isEmpty() ? line.name() : line.code();
            assertThat(Arrays.stream(Factor.values())
                            .mapToDouble(factor -> why.amount(factor, name))
                            .sum())
                    .as(name)
                    .isCloseTo(line.amount(), within(1e-9 * scale));
            assertThat(Arrays.stream(Factor.values())
                            .mapToDouble(factor -> why.kg(factor, name))
                            .sum())
                    .as(name)
                    .isCloseTo(line.kg(), within(1e-9 * scale));
            kg += line.kg();
        }
        assertThat(kg)
                .isCloseTo(
                        why.first().outturn().coldWeightKg() / why.first().head()
                                - why.second().outturn().coldWeightKg()
                                        / why.second().head(),
                        within(1e-9 * scale));
    }

    private static double scale(Value first, Value second) {
        return 1 + Math.abs(first.perHead()) + Math.abs(second.perHead());
    }

    @Property(tries = 100)
    void thePartsOfTwoCarcassesAddUpByFactorByCutAndInTotal(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Scene scene = new Scene(shape, seed);
        Value first = scene.carcassValue();
        Value second = scene.carcassValue();
        Attribution why = Attribution.of(first, second);

        closes(why, scale(first, second));
        assertThat(why.amount(Factor.MIX)).isCloseTo(0, within(1e-9 * scale(first, second)));
    }

    @Property(tries = 60)
    void thePartsOfTwoLotsAddUpByFactorByCutAndInTotal(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Scene scene = new Scene(shape, seed);
        Value first = scene.lotValue();
        Value second = scene.lotValue();

        closes(Attribution.of(first, second), scale(first, second));
    }

    @Property(tries = 60)
    void everyPartChangesItsSignWhenTheTwoChangePlaces(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Scene scene = new Scene(shape, seed);
        Value first = scene.lotValue();
        Value second = scene.lotValue();
        Attribution there = Attribution.of(first, second);
        Attribution back = Attribution.of(second, first);

        assertThat(back.money()).isEqualTo(there.money().negate());
        for (Factor factor : Factor.values()) {
            assertThat(back.amount(factor))
                    .as(factor.words())
                    .isCloseTo(-there.amount(factor), within(1e-9 * scale(first, second)));
        }
    }

    @Property(tries = 40)
    void equalsDifferInNothing(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Scene scene = new Scene(shape, seed);
        for (Value value : List.of(scene.carcassValue(), scene.lotValue())) {
            Attribution why = Attribution.of(value, value);
            for (Factor factor : Factor.values()) {
                assertThat(why.amount(factor)).as(factor.words()).isZero();
            }
        }
    }

    @Property(tries = 60)
    void aFactorThatIsEqualGetsNothing(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Scene scene = new Scene(shape, seed);
        Valuer valuer = scene.valuer();
        Carcass one = scene.carcass();
        Carcass two = scene.carcass();
        Carcass alike = Carcass.of(two.category(), one.conformation(), two.fatClass(), one.coldWeightKg());
        Attribution why = Attribution.of(valuer.value(one), valuer.value(alike));

        for (Factor factor : List.of(Factor.CONFORMATION, Factor.WEIGHT, Factor.CUTTING, Factor.PRICE)) {
            assertThat(why.amount(factor)).as(factor.words()).isZero();
        }
    }

    /** The parts of two price lists are those of each, added. */
    @Property(tries = 40)
    void partsAreLinearInPrices(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = -3, max = 9) int factor) {
        Scene scene = new Scene(shape, seed);
        Valuer valuer = scene.valuer();
        Valuer times = Valuer.of(valuer.prices().times(factor), valuer.estimator());
        Carcass one = scene.carcass();
        Carcass two = scene.carcass();
        Attribution why = Attribution.of(valuer.value(one), valuer.value(two));
        Attribution scaled = Attribution.of(times.value(one), times.value(two));

        for (Factor each : Factor.values()) {
            assertThat(scaled.amount(each))
                    .isCloseTo(factor * why.amount(each), within(1e-8 * (1 + Math.abs(why.amount(each)))));
        }
    }
}
