package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.PlainFormula;
import org.beefyield.table.RandomTables;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;

/** What weights rest on against every path of rows by itself, and lots against their carcasses one by one. */
class SupportProperties {
    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    /** The table of a shape with a source of any kind for each row. */
    private static TableDefinition cited(RandomTables.Shape shape, Random random) {
        List<String> sources =
                Arrays.stream(SourceKind.values()).map(SourceKind::code).toList();
        TableDefinition.Builder builder =
                TestTables.cite(shape.table(), row -> sources.get(random.nextInt(sources.size())));
        for (SourceKind kind : SourceKind.values()) {
            builder.source(new SourceRow(kind.code(), kind, "a citation", ""));
        }
        return builder.build();
    }

    private static YieldEstimator estimator(TableDefinition definition, Map<String, String> ways) {
        return YieldEstimator.of(
                YieldTable.of(definition),
                ways.isEmpty() ? CuttingSpecification.NONE : CuttingSpecification.of("mix", ways));
    }

    /** What one carcass rests on, added up path by path at each of the whole grades around its own. */
    private static final class ByPath {
        private final TableDefinition table;
        private final Map<SourceKind, Double> kg = new EnumMap<>(SourceKind.class);
        private final Map<String, Double> assumedKg = new HashMap<>();
        private final Set<BreakdownRow> used = new HashSet<>();

        ByPath(TableDefinition table, Map<String, String> ways, Carcass carcass) {
            this.table = table;
            double c = carcass.conformation().position();
            double f = carcass.fatClass().position();
            double w = carcass.coldWeightKg();
            for (double cornerC : new double[] {Math.floor(c), Math.floor(c) + 1}) {
                for (double cornerF : new double[] {Math.floor(f), Math.floor(f) + 1}) {
                    double weight = (1 - Math.abs(c - cornerC)) * (1 - Math.abs(f - cornerF));
                    if (weight > 0) {
                        PlainFormula.paths(
                                table,
                                carcass.category(),
                                ways,
                                cornerC,
                                cornerF,
                                w,
                                (path, fraction) -> take(path, weight * w * fraction));
                    }
                }
            }
        }

        private void take(List<BreakdownRow> path, double weighs) {
            used.addAll(path);
            String last = path.get(path.size() - 1).cut();
            CutKind kind = cut(last).kind();
            if (kind == CutKind.FAT_TRIM || kind == CutKind.BONE || kind == CutKind.LOSS) {
                return;
            }
            SourceKind weakest =
                    path.stream().map(this::kind).max(Enum::compareTo).orElseThrow();
            kg.merge(weakest, weighs, Double::sum);
            for (BreakdownRow row : path) {
                if (kind(row) == SourceKind.ASSUMPTION) {
                    assumedKg.merge(level(row), weighs, Double::sum);
                }
            }
        }

        private Cut cut(String code) {
            return table.cuts().stream()
                    .filter(cut -> cut.code().equals(code))
                    .findFirst()
                    .orElseThrow();
        }

        private SourceKind kind(BreakdownRow row) {
            return source(row).kind();
        }

        private SourceRow source(BreakdownRow row) {
            return table.sources().stream()
                    .filter(source -> source.source().equals(row.source()))
                    .findFirst()
                    .orElseThrow();
        }

        private String level(BreakdownRow row) {
            int above = row.parent().equals(BreakdownRow.ROOT)
                    ? -1
                    : table.levels().indexOf(cut(row.parent()).level());
            return table.levels().get(above + 1);
        }

        List<Support.CategoryRows> categories(Carcass carcass) {
            Map<String, Map<SourceRow, List<Cut>>> own = new LinkedHashMap<>();
            for (BreakdownRow row : table.breakdown()) {
                if (used.contains(row) && !row.category().equals("*")) {
                    own.computeIfAbsent(row.parent(), parent -> new LinkedHashMap<>())
                            .computeIfAbsent(source(row), source -> new ArrayList<>())
                            .add(cut(row.cut()));
                }
            }
            List<Support.CategoryRows> categories = new ArrayList<>();
            own.forEach((parent, bySource) -> bySource.forEach((source, cuts) ->
                    categories.add(new Support.CategoryRows(carcass.category(), parent, cuts, source))));
            return categories;
        }
    }

    @Property(tries = 150)
    void everyKilogramIsAsSolidAsTheWeakestRowOnItsPath(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Random random = new Random(seed);
        TableDefinition definition = cited(shape, random);
        Map<String, String> ways = RandomTables.mix(definition, random);
        YieldEstimator estimator = estimator(definition, ways);
        for (int i = 0; i < 5; i++) {
            Carcass carcass = RandomTables.carcass(definition, random);
            YieldEstimate estimate = estimator.estimate(carcass);
            Support support = estimate.support();
            ByPath expected = new ByPath(definition, ways, carcass);

            for (SourceKind kind : SourceKind.values()) {
                assertThat(support.kg(kind))
                        .as(kind.code())
                        .isCloseTo(expected.kg.getOrDefault(kind, 0.0), within(1e-9));
            }
            for (String level : definition.levels()) {
                assertThat(support.assumedKg(level))
                        .as(level)
                        .isCloseTo(expected.assumedKg.getOrDefault(level, 0.0), within(1e-9));
            }
            assertThat(support.saleableKg()).isCloseTo(estimate.saleableKg(), within(1e-9));
            assertThat(support.categories()).isEqualTo(expected.categories(carcass));
        }
    }

    private static void restsOnTheSame(Support lot, List<Support> ofEach, List<String> levels) {
        for (SourceKind kind : SourceKind.values()) {
            assertThat(lot.kg(kind))
                    .as(kind.code())
                    .isCloseTo(
                            ofEach.stream().mapToDouble(each -> each.kg(kind)).sum(), within(1e-8));
        }
        for (String level : levels) {
            assertThat(lot.assumedKg(level))
                    .as(level)
                    .isCloseTo(
                            ofEach.stream()
                                    .mapToDouble(each -> each.assumedKg(level))
                                    .sum(),
                            within(1e-8));
        }
        Set<Support.CategoryRows> categories = new LinkedHashSet<>();
        ofEach.forEach(each -> categories.addAll(each.categories()));
        assertThat(lot.categories()).containsExactlyInAnyOrderElementsOf(categories);
    }

    @Property(tries = 60)
    void aLotRestsOnWhatItsCarcassesRestOn(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Random random = new Random(seed);
        TableDefinition definition = cited(shape, random);
        YieldEstimator estimator = estimator(definition, RandomTables.mix(definition, random));
        Map<String, String> otherWays = RandomTables.mix(definition, random);
        YieldEstimator other = estimator(definition, otherWays);
        List<Carcass> carcasses = new ArrayList<>();
        for (int i = 0; i < 30; i++) {
            carcasses.add(RandomTables.carcass(definition, random).withLot("lot " + random.nextInt(3)));
        }
        List<Support> ofEach = carcasses.stream()
                .map(carcass -> estimator.estimate(carcass).support())
                .toList();
        LotEstimate lot = estimator.estimateLot(carcasses);
        Collections.shuffle(carcasses, random);
        LotEstimate shuffled = estimator
                .estimateLot(carcasses.subList(0, 11))
                .plus(estimator.estimateLot(carcasses.subList(11, carcasses.size())));

        restsOnTheSame(lot.support(), ofEach, definition.levels());
        restsOnTheSame(shuffled.support(), ofEach, definition.levels());
        assertThat(shuffled.support().categories()).isEqualTo(lot.support().categories());
        restsOnTheSame(columns(estimator, carcasses).support(), ofEach, definition.levels());
        if (!otherWays.isEmpty()) {
            restsOnTheSame(
                    lot.under(CuttingSpecification.of("other", otherWays)).support(),
                    carcasses.stream()
                            .map(carcass -> other.estimate(carcass).support())
                            .toList(),
                    definition.levels());
        }
    }

    private static LotEstimate columns(YieldEstimator estimator, List<Carcass> carcasses) {
        int size = carcasses.size();
        byte[] categories = new byte[size];
        double[] conformations = new double[size];
        double[] fats = new double[size];
        double[] kg = new double[size];
        for (int i = 0; i < size; i++) {
            Carcass carcass = carcasses.get(i);
            categories[i] = (byte) carcass.category().letter().charAt(0);
            conformations[i] = carcass.conformation().position();
            fats[i] = carcass.fatClass().position();
            kg[i] = carcass.coldWeightKg();
        }
        LotEstimate.Collector collector = estimator.collector();
        assertThat(collector.add(
                        CarcassColumns.positions(categories, conformations, 1, fats, 1, kg), 0, size, new byte[size]))
                .isZero();
        return collector.lot();
    }

    @Property(tries = 30)
    void widerGradesRestOnTheSame(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Random random = new Random(seed);
        TableDefinition definition = cited(shape, random);
        YieldEstimator estimator = estimator(definition, RandomTables.mix(definition, random));
        Carcass third = RandomTables.carcass(definition, random);
        Carcass whole = Carcass.of(
                third.category(),
                Conformation.ofPosition(third.conformation().position(), 3),
                FatClass.ofPosition(third.fatClass().position(), 3),
                third.coldWeightKg());

        assertThat(estimator.estimate(whole).support())
                .isEqualTo(estimator.estimate(third).support());
        restsOnTheSame(
                estimator.estimateLot(List.of(third, whole)).support(),
                List.of(
                        estimator.estimate(whole).support(),
                        estimator.estimate(third).support()),
                definition.levels());
    }
}
