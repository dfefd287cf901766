package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableDefinition;

class YieldGridProperties {
    private static final TableDefinition THREE_LEVELS = TestTables.threeLevels();
    private static final YieldTable THREE = YieldTable.of(THREE_LEVELS);

    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    @Provide
    Arbitrary<Category> categories() {
        return Arbitraries.of(THREE_LEVELS.categories());
    }

    @Property(tries = 100)
    void everyLevelOfAnyTableClosesForAnyCarcassAndAnyMixOfWays(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        TableDefinition definition = shape.table();
        YieldTable table = YieldTable.of(definition);
        Random random = new Random(seed);
        for (int i = 0; i < 20; i++) {
            Carcass carcass = RandomTables.carcass(definition, random);
            CuttingSpecification mix = CuttingSpecification.of("mix", RandomTables.mix(definition, random));
            double[] shares = Engine.grid(table, carcass.category(), mix)
                    .shares(
                            carcass.conformation().position(),
                            carcass.fatClass().position(),
                            carcass.coldWeightKg());
            for (int level = 0; level < table.levels().size(); level++) {
                double sum = 0;
                for (Cut cut : Engine.layout(table).cutsAt(level)) {
                    double share = shares[Engine.layout(table).slot(level, cut.code())];
                    assertThat(share).isGreaterThanOrEqualTo(0);
                    sum += share;
                }
                assertThat(sum).as("level " + (level + 1)).isCloseTo(1, within(1e-12));
            }
        }
    }

    @Property(tries = 100)
    void atANodeAnyTableGivesItsFormula(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        TableDefinition definition = shape.table();
        YieldTable table = YieldTable.of(definition);
        Random random = new Random(seed);
        for (int i = 0; i < 20; i++) {
            Carcass carcass = RandomTables.carcass(definition, random);
            double c = Math.rint(carcass.conformation().position());
            double f = Math.rint(carcass.fatClass().position());
            Map<String, String> mix = RandomTables.mix(definition, random);
            double[] shares = Engine.grid(table, carcass.category(), CuttingSpecification.of("mix", mix))
                    .shares(c, f, carcass.coldWeightKg());
            YieldGridTest.compare(
                    table,
                    shares,
                    PlainFormula.shares(definition, carcass.category(), mix, c, f, carcass.coldWeightKg()),
                    1e-12);
        }
    }

    @Property(tries = 100)
    void betweenNodesAnyTableIsBilinearInItsNodes(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        TableDefinition definition = shape.table();
        YieldTable table = YieldTable.of(definition);
        Random random = new Random(seed);
        CuttingSpecification mix = CuttingSpecification.of("mix", RandomTables.mix(definition, random));
        Carcass carcass = RandomTables.carcass(definition, random);
        YieldGrid grid = Engine.grid(table, carcass.category(), mix);
        double c = carcass.conformation().position();
        double f = carcass.fatClass().position();
        double w = carcass.coldWeightKg();
        double[] shares = grid.shares(c, f, w);
        double[] expected = new double[shares.length];
        for (double nodeC : new double[] {Math.floor(c), Math.floor(c) + 1}) {
            for (double nodeF : new double[] {Math.floor(f), Math.floor(f) + 1}) {
                double weight = (1 - Math.abs(c - nodeC)) * (1 - Math.abs(f - nodeF));
                if (weight > 0) {
                    double[] node = grid.shares(nodeC, nodeF, w);
                    for (int slot = 0; slot < expected.length; slot++) {
                        expected[slot] += weight * node[slot];
                    }
                }
            }
        }
        assertThat(shares).containsExactly(expected, within(1e-14));
    }

    /**
     * Inside a cell of the grid the formula is smooth (a hinge bends at a node only), and interpolating it bilinearly is
     * off by at most (largest second derivative in conformation + largest in fat) / 8. The second derivative of a product
     * of two linear factors is twice the product of their slopes. For a primal that is 2 x 12.0e-3 x 1.6e-3 in
     * conformation and 2 x 11.2e-3 x 3.5e-3 in fat at most (the product terms included), which makes 0.015 g/kg. The one
     * slope at retail level, 4e-3 in fat of a brisket that moves by 2e-3, adds 2 x 2e-3 x 4e-3 / 8 = 0.002 g/kg.
     */
    @Property(tries = 500)
    void betweenNodesSlopesOfThePublishedSizeStayWithinTwoHundredthsOfAGramPerKilogramOfTheFormula(
            @ForAll @DoubleRange(min = 1, max = 18) double c,
            @ForAll @DoubleRange(min = 1, max = 15) double f,
            @ForAll @DoubleRange(min = 150, max = 600) double w,
            @ForAll("categories") Category category,
            @ForAll long seed) {
        Map<String, String> mix = RandomTables.mix(THREE_LEVELS, new Random(seed));
        double[] shares = Engine.grid(THREE, category, CuttingSpecification.of("mix", mix))
                .shares(c, f, w);
        YieldGridTest.compare(THREE, shares, PlainFormula.shares(THREE_LEVELS, category, mix, c, f, w), 0.02e-3);
    }

    @Property(tries = 100)
    void theOrderOfTheRowsOfBreakdownsDoesNotMatter(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        List<BreakdownRow> rows = new ArrayList<>(definition.breakdown());
        Collections.shuffle(rows, random);
        TableDefinition.Builder shuffled = definition.toBuilder().clearBreakdown();
        rows.forEach(shuffled::row);
        YieldTable one = YieldTable.of(definition);
        YieldTable other = YieldTable.of(shuffled.build());
        assertThat(other).isEqualTo(one);
        for (int i = 0; i < 10; i++) {
            Carcass carcass = RandomTables.carcass(definition, random);
            CuttingSpecification mix = CuttingSpecification.of("mix", RandomTables.mix(definition, random));
            double c = carcass.conformation().position();
            double f = carcass.fatClass().position();
            assertThat(Engine.grid(other, carcass.category(), mix).shares(c, f, carcass.coldWeightKg()))
                    .containsExactly(
                            Engine.grid(one, carcass.category(), mix).shares(c, f, carcass.coldWeightKg()),
                            within(1e-12));
        }
    }

    @Property(tries = 100)
    void aTableRoundedByDeclarationClosesAllTheSame(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll @IntRange(min = 2, max = 4) int places) {
        TableDefinition definition = shape.table();
        double unit = Math.pow(10, -places);
        TableDefinition.Builder rounded = definition.toBuilder().clearBreakdown();
        for (BreakdownRow row : definition.breakdown()) {
            rounded.row(new BreakdownRow(
                    row.category(),
                    row.way(),
                    row.parent(),
                    row.cut(),
                    row.coefficients().stream()
                            .map(k -> Math.rint(k / unit) * unit)
                            .toList(),
                    row.sdGPerKg(),
                    row.source()));
        }
        definition.coefficientColumns().forEach(column -> rounded.decimals(column, places));
        YieldTable table = YieldTable.of(rounded.build());
        int mostChildren = 8;
        assertThat(table.closingCorrections())
                .allSatisfy(correction -> assertThat(Math.abs(correction.excess()))
                        .isBetween(0.9 * unit, mostChildren * unit / 2 + 1e-9));
        Random random = new Random(places);
        Carcass carcass = RandomTables.carcass(definition, random);
        double[] shares = Engine.grid(
                        table, carcass.category(), CuttingSpecification.of("mix", RandomTables.mix(definition, random)))
                .shares(carcass.conformation().position(), carcass.fatClass().position(), carcass.coldWeightKg());
        for (int level = 0; level < table.levels().size(); level++) {
            double sum = 0;
            for (int i = 0; i < Engine.layout(table).cutsAt(level).size(); i++) {
                sum += shares[Engine.layout(table).start(level) + i];
            }
            assertThat(sum).isCloseTo(1, within(1e-12));
        }
    }
}
