package org.beefyield.data.testkit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.data.defects.Draft;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/**
 * Look-up tables by class, made from the shipped table's own figures: the breakdowns of the carcass and of the meat, by
 * thirds and by whole classes, at the reference weight.
 *
 * <p>How far they may differ from it at that weight:
 *
 * <ul>
 *   <li>Thirds have a value at every node of the grid, and both tables are bilinear between nodes: not at all.
 *   <li>Whole classes have values at the class middles, three points apart, and a share that is linear in each grade is met
 *       everywhere, over the outer half classes too. What is not linear is a hinge. Let its knot lie d points from the
 *       left of the two middles around it (0 to 3). Between the middles the hinge is 0 up to the knot and rises by 1 a
 *       point from there (or the mirror image), the interpolation is its chord, and the two are furthest apart at the
 *       knot, by d (3 - d) / 3. Both knots of the shipped table, fat 3 and conformation 15, lie one point from a middle:
 *       2/3 of the coefficient, or 5.3 g/kg of meat for fat and 2.9 g/kg for conformation. Over the outer half class
 *       beside the knot's class the chord is carried on by one point, where the hinge's slope is 1 and the chord's d/3 or
 *       (3 - d)/3: again no more than 2/3, and less on the other side.
 *   <li>So a tissue's share errs by no more than 2/3 of the sum of its coefficients' sizes at any node; a cut of a later
 *       level by the sum over its parents of the parent's bound times the cut's share of the parent, which both tables
 *       have in common, for the meat's breakdown has no hinge and the primals' are the same rows. Between nodes both are
 *       bilinear, so the bound at the four nodes around holds there.
 * </ul>
 */
class LookUpTableTest {
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final YieldGrid STEAKS =
            Engine.grid(SHIPPED, Category.STEER, SHIPPED.specifications().get(0));
    private static final double W0 = SHIPPED.definition().reference().weightKg();
    private static final double F0 = SHIPPED.definition().reference().fat();
    private static final double EXACT = 1e-12;
    /** What closing takes off the slopes with fat of a primal's children, which the bound doesn't know. */
    private static final double ROUNDED = 1e-9;

    private static final List<Integer> CONFORMATION_MIDDLES = List.of(2, 5, 8, 11, 14, 17);
    private static final List<Integer> FAT_MIDDLES = List.of(2, 5, 8, 11, 14);

    private static TableDefinition byClass(boolean thirds) {
        TableDefinition shipped = SHIPPED.definition();
        Draft draft = new Draft(shipped);
        draft.name = thirds ? "by-thirds" : "by-whole-classes";
        draft.expectations.clear();
        draft.notes.clear();
        draft.covariances.clear();
        draft.breakdown.removeIf(row -> List.of("carcass", "meat").contains(row.parent()));
        for (String parent : List.of("carcass", "meat")) {
            for (int c = thirds ? 1 : 2; c <= 18; c += thirds ? 1 : 3) {
                for (int f = thirds ? 1 : 2; f <= 15; f += thirds ? 1 : 3) {
                    cells(draft, parent, shares(parent, c, f), thirds, c, f);
                }
            }
        }
        return draft.build();
    }

    /** Shares of the carcass's or the meat's children at the reference weight, closed as the table closes them. */
    private static Map<String, Double> shares(String parent, double c, double f) {
        TableLayout layout = Engine.layout(SHIPPED);
        double[] at = STEAKS.shares(c, f, W0);
        int level = parent.equals(BreakdownRow.ROOT) ? 0 : 1;
        Map<String, Double> shares = new LinkedHashMap<>();
        SHIPPED.definition().breakdown().stream()
                .filter(row -> row.parent().equals(parent))
                .map(BreakdownRow::cut)
                .forEach(cut ->
                        shares.put(cut, at[layout.slot(level, cut)] / (level == 0 ? 1 : at[layout.slot(0, "meat")])));
        return shares;
    }

    private static void cells(Draft draft, String parent, Map<String, Double> children, boolean thirds, int c, int f) {
        String conformation = Conformation.third(c).toString();
        String fat = FatClass.third(f).toString();
        children.forEach((cut, share) -> draft.byClass.add(new ClassRow(
                BreakdownRow.ANY,
                BreakdownRow.ANY,
                parent,
                thirds ? conformation : conformation.substring(0, 1),
                thirds ? fat : fat.substring(0, 1),
                cut,
                1000 * share,
                1,
                SharedSds.of(1, 1, 1),
                "assumption")));
    }

    private static double largestDifference(YieldTable table, List<Integer> conformations, List<Integer> fats) {
        double largest = 0;
        for (CuttingSpecification specification : SHIPPED.specifications()) {
            YieldGrid own = Engine.grid(table, Category.STEER, specification);
            YieldGrid shipped = Engine.grid(SHIPPED, Category.STEER, specification);
            for (int c : conformations) {
                for (int f : fats) {
                    double[] a = own.shares(c, f, W0);
                    double[] b = shipped.shares(c, f, W0);
                    for (int slot = 0; slot < a.length; slot++) {
                        largest = Math.max(largest, Math.abs(a[slot] - b[slot]));
                    }
                }
            }
        }
        return largest;
    }

    @Test
    void wholeClassesReproduceTheTableAtClassMiddles() {
        assertThat(largestDifference(YieldTable.of(byClass(false)), CONFORMATION_MIDDLES, FAT_MIDDLES))
                .isLessThan(EXACT);
    }

    @Test
    void thirdsReproduceTheTableEverywhereAtTheReferenceWeight() {
        YieldTable thirds = YieldTable.of(byClass(true));
        for (CuttingSpecification specification : SHIPPED.specifications()) {
            YieldGrid own = Engine.grid(thirds, Category.STEER, specification);
            YieldGrid shipped = Engine.grid(SHIPPED, Category.STEER, specification);
            for (double c = 1; c <= 18; c += 0.5) {
                for (double f = 1; f <= 15; f += 0.5) {
                    assertThat(own.shares(c, f, W0)).containsExactly(shipped.shares(c, f, W0), within(EXACT));
                }
            }
        }
    }

    @Test
    void wholeClassesErrWithinTheBoundOfTheHingesBetweenMiddles() {
        YieldTable whole = YieldTable.of(byClass(false));
        Map<String, Double> largest = new LinkedHashMap<>();
        for (CuttingSpecification specification : SHIPPED.specifications()) {
            YieldGrid own = Engine.grid(whole, Category.STEER, specification);
            YieldGrid shipped = Engine.grid(SHIPPED, Category.STEER, specification);
            for (double c = 1; c <= 18; c += 0.5) {
                for (double f = 1; f <= 15; f += 0.5) {
                    double[] a = own.shares(c, f, W0);
                    double[] b = shipped.shares(c, f, W0);
                    double[] bound = bound(c, f, specification);
                    for (int slot = 0; slot < bound.length; slot++) {
                        double error = Math.abs(a[slot] - b[slot]);
                        assertThat(error).isLessThanOrEqualTo(bound[slot] + ROUNDED);
                    }
                    largest.merge("meat", Math.abs(a[0] - b[0]), Math::max);
                }
            }
        }
        // at E+ 1+ both knots pull the same way: 2/3 x (7.952 + 4.3736) g/kg, so the bound can't be narrower
        assertThat(1000 * largest.get("meat")).isCloseTo(2.0 / 3 * (7.952 + 4.3736), within(1e-9));
    }

    /** The bound of the class comment by slot, at the four nodes around a grade. */
    private static double[] bound(double c, double f, CuttingSpecification specification) {
        double[] bound = new double[Engine.layout(SHIPPED).size()];
        for (double nodeC : new double[] {Math.floor(c), Math.ceil(c)}) {
            for (double nodeF : new double[] {Math.floor(f), Math.ceil(f)}) {
                Map<String, Double> standing = new LinkedHashMap<>();
                hinges().forEach((cut, sum) -> standing.put(cut, 2.0 / 3 * sum / 1000));
                raise(bound, 0, standing);
                Map<String, Double> primals = broken(standing, nodeC, nodeF, specification);
                raise(bound, 1, primals);
                raise(bound, 2, broken(primals, nodeC, nodeF, specification));
            }
        }
        return bound;
    }

    /** Sizes of the coefficients of both hinges, by tissue. */
    private static Map<String, Double> hinges() {
        Map<String, Double> hinges = new LinkedHashMap<>();
        SHIPPED.definition().breakdown().stream()
                .filter(row ->
                        row.parent().equals(BreakdownRow.ROOT) && row.category().equals(BreakdownRow.ANY))
                .forEach(row -> hinges.put(
                        row.cut(),
                        Math.abs(row.coefficients().get(4))
                                + Math.abs(row.coefficients().get(5))));
        return hinges;
    }

    /** Bounds one level on: a child takes its share of its parents' bounds. */
    private static Map<String, Double> broken(
            Map<String, Double> parents, double c, double f, CuttingSpecification specification) {
        Map<String, Double> standing = new LinkedHashMap<>();
        parents.forEach((parent, bound) -> {
            String way = specification.ways().get(parent);
            if (parent.equals("meat")) {
                shares(parent, c, f).forEach((cut, share) -> standing.merge(cut, bound * share, Double::sum));
            } else if (way == null) {
                standing.merge(parent, bound, Double::sum);
            } else {
                // the primals' rows have levels and slopes with fat
                SHIPPED.definition().breakdown().stream()
                        .filter(row -> row.parent().equals(parent) && row.way().equals(way))
                        .forEach(row -> standing.merge(
                                row.cut(),
                                bound
                                        * (row.coefficients().get(0)
                                                + row.coefficients().get(2) * (f - F0))
                                        / 1000,
                                Double::sum));
            }
        });
        return standing;
    }

    private static void raise(double[] bound, int level, Map<String, Double> standing) {
        for (Cut cut : Engine.layout(SHIPPED).cutsAt(level)) {
            int slot = Engine.layout(SHIPPED).slot(level, cut.code());
            bound[slot] = Math.max(bound[slot], standing.getOrDefault(cut.code(), 0.0));
        }
    }
}
