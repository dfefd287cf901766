package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.grid.CompiledTable;
import org.beefyield.price.TestPrices;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

/** Going to and fro between cutting specifications costs the multiplying once. */
class KeptGridsTest {
    private static final Carcass CARCASS = TestPrices.steer("R=", "3=", 340);

    @Test
    void aChoiceOfWaysIsMultipliedThroughOnce() {
        YieldTable table = YieldTable.of(TestTables.threeLevels());
        CompiledTable compiled = table.unwrap(CompiledTable.class);
        YieldEstimator joints = YieldEstimator.of(table).withSpecification("joints");

        assertThat(joints.withSpecification("steaks")
                        .withSpecification("joints")
                        .estimate(CARCASS))
                .isEqualTo(joints.estimate(CARCASS));
        assertThat(compiled.in(table.specification("joints").ways()))
                .isSameAs(compiled.in(table.specification("joints").ways()));
        assertThat(compiled.in(table.specification("steaks").ways()))
                .isNotSameAs(compiled.in(table.specification("joints").ways()));
    }

    @Test
    void noMoreThanEightAreKept() {
        YieldTable table = YieldTable.of(TestTables.threeLevels());
        CompiledTable compiled = table.unwrap(CompiledTable.class);
        CuttingSpecification first = table.specifications().get(0);
        CompiledTable.InWays kept = compiled.in(first.ways());
        keepOthers(compiled, 7);
        assertThat(compiled.in(first.ways())).isSameAs(kept);
        keepOthers(compiled, 8);
        assertThat(compiled.in(first.ways())).isNotSameAs(kept);
    }

    /** Under names of their own, which the table takes for no choice at all. */
    private static void keepOthers(CompiledTable compiled, int choices) {
        for (int i = 0; i < choices; i++) {
            compiled.in(Map.of("no cut", "way " + i));
        }
    }
}
