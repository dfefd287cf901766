package org.beefyield.benchmarks.calibrate;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.beefyield.benchmarks.coverage.Nature;
import org.beefyield.benchmarks.coverage.World;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.ScaleError;
import org.beefyield.table.definition.TableDefinition;

/**
 * Halls that are drawn and calibrated.
 *
 * @param name what it is called
 * @param trials carcasses that are boned
 * @param days days that they are boned on
 * @param categories their categories, one in turn with the other
 * @param truth what halls are drawn from
 * @param declared what the table that is calibrated says
 * @param nature whether halls differ
 */
record Scenario(
        String name,
        int trials,
        int days,
        List<Category> categories,
        TableDefinition truth,
        TableDefinition declared,
        Nature nature) {
    private static final List<Category> STEERS = List.of(Category.STEER);
    /** Halls that cut as the table does, if it is right. */
    static final Nature ONE_HALL = new Nature(1, 1, 1, 1, 0, 0, 1, 1, false);

    /** Halls that differ, if the table's coefficients are right. */
    static final Nature ONE_TABLE = new Nature(1, 1, 1, 1, 1, 0, 1, 1, false);

    private static final double USUAL = 0.1;
    private static final double MUCH = 0.25;

    static List<Scenario> all() {
        List<Scenario> all = new ArrayList<>();
        for (double share : new double[] {0, USUAL, MUCH}) {
            TableDefinition table = TissueTable.withRunShare(share);
            String name = "run share " + share;
            all.add(new Scenario(name, 20, 5, STEERS, table, table, Nature.AS_DECLARED));
            all.add(new Scenario(name, 60, 12, STEERS, table, table, Nature.AS_DECLARED));
            all.add(new Scenario(name, 150, 15, STEERS, table, table, Nature.AS_DECLARED));
            all.add(new Scenario(name, 300, 25, STEERS, table, table, Nature.AS_DECLARED));
            all.add(new Scenario(
                    name, 600, 40, List.of(Category.STEER, Category.HEIFER), table, table, Nature.AS_DECLARED));
        }
        TableDefinition usual = TissueTable.withRunShare(USUAL);
        all.add(new Scenario("hall as the table", 150, 15, STEERS, usual, usual, ONE_HALL));
        all.add(new Scenario(
                "run share 0.25 declared as 0.05",
                150,
                15,
                STEERS,
                TissueTable.withRunShare(MUCH),
                TissueTable.withRunShare(0.05),
                Nature.AS_DECLARED));
        for (double share : new double[] {0, USUAL}) {
            all.add(new Scenario(
                    "run share " + share + " and a table that declares nothing",
                    150,
                    15,
                    STEERS,
                    TissueTable.withRunShare(share),
                    TissueTable.silent(),
                    Nature.AS_DECLARED));
        }
        return all;
    }

    World world() {
        return new World(truth, ScaleError.NONE, nature, List.of(Map.of()));
    }
}
