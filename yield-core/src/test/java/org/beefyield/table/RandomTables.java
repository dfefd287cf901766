package org.beefyield.table;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/**
 * Random closed tables: 1 to 4 levels, 2 to 8 children of each parent, several parents of one cut, cuts that pass
 * through, ways, categories with rows of their own, hinges and products. Every share stays above 0 over the allowed range.
 */
public final class RandomTables {
    private static final double MOST_TIMES = 100;
    private static final double MOST_OF_ITS_LEVEL = 0.9;

    private final Random random;
    private final int levels;
    private final int mostChildren;
    private final TableRange range;
    private final TableDefinition.Builder builder;
    private final List<Term> terms = new ArrayList<>();
    private final Map<String, CutKind> kinds = new HashMap<>();
    /** Cuts of earlier levels that are broken down no further: they pass through, and come out of others again. */
    private final List<String> whole = new ArrayList<>();

    private final double referenceKg;
    private final int levelWithoutWeight;

    private RandomTables(long seed, int levels, int mostChildren) {
        this.random = new Random(seed);
        this.levels = levels;
        this.mostChildren = mostChildren;
        int lowC = 1 + random.nextInt(12);
        int lowF = 1 + random.nextInt(10);
        double lowKg = 100 + random.nextInt(150);
        this.range = TestTables.range(
                lowC, lowC + random.nextInt(7), lowF, lowF + random.nextInt(6), lowKg, lowKg + 1 + random.nextInt(400));
        this.referenceKg = lowKg + random.nextDouble() * (range.weightKg().high() - lowKg);
        this.levelWithoutWeight = random.nextInt(4);
        this.builder = TableDefinition.builder("random", "1");
    }

    /**
     * The shape of a random table; the seed settles the rest.
     *
     * @param levels number of levels
     * @param mostChildren most children that one breakdown has
     */
    public record Shape(long seed, int levels, int mostChildren) {
        /**
         * The table.
         *
         * @return a definition that holds
         */
        public TableDefinition table() {
            return new RandomTables(seed, levels, mostChildren).build();
        }
    }

    /**
     * Shapes of random tables.
     *
     * @return shapes
     */
    public static Arbitrary<Shape> shapes() {
        return Combinators.combine(
                        Arbitraries.longs(),
                        Arbitraries.integers().between(1, 4),
                        Arbitraries.integers().between(2, 8))
                .as(Shape::new);
    }

    /**
     * A random way for each parent that has ways: any mix.
     *
     * @return way by parent
     */
    public static Map<String, String> mix(TableDefinition table, Random random) {
        Map<String, Set<String>> ways = new TreeMap<>();
        for (BreakdownRow row : table.breakdown()) {
            if (!row.way().equals("*")) {
                ways.computeIfAbsent(row.parent(), parent -> new TreeSet<>()).add(row.way());
            }
        }
        Map<String, String> mix = new LinkedHashMap<>();
        ways.forEach((parent, its) -> mix.put(parent, List.copyOf(its).get(random.nextInt(its.size()))));
        return mix;
    }

    /**
     * A random carcass that a table allows; half of them stand at a whole position.
     *
     * @return the carcass
     */
    public static Carcass carcass(TableDefinition table, Random random) {
        TableRange allowed = table.allowed();
        boolean whole = random.nextBoolean();
        return Carcass.of(
                table.categories().get(random.nextInt(table.categories().size())),
                Conformation.ofPosition(position(allowed.conformation(), whole, random), 1),
                FatClass.ofPosition(position(allowed.fat(), whole, random), 1),
                allowed.weightKg().low()
                        + random.nextDouble()
                                * (allowed.weightKg().high()
                                        - allowed.weightKg().low()));
    }

    private static double position(Range range, boolean whole, Random random) {
        double position = range.low() + random.nextDouble() * (range.high() - range.low());
        return whole ? Math.rint(position) : position;
    }

    private TableDefinition build() {
        String[] names = new String[levels];
        for (int i = 0; i < levels; i++) {
            names[i] = "level-" + (i + 1);
        }
        builder.levels(names)
                .categories(Category.STEER, Category.HEIFER, Category.COW)
                .ranges(range, range)
                .reference(within(range.conformation()), within(range.fat()), referenceKg)
                .source(TestTables.source(TestTables.SOURCE));
        for (Term term : List.of(
                new Term.Product("conformation_by_fat", Variable.CONFORMATION, Variable.FAT),
                new Term.Product("weight_by_conformation", Variable.WEIGHT, Variable.CONFORMATION),
                new Term.Product("fat_by_weight", Variable.FAT, Variable.WEIGHT),
                new Term.Hinge(
                        "conformation_above", Variable.CONFORMATION, Term.Side.ABOVE, knot(range.conformation())),
                new Term.Hinge("fat_below", Variable.FAT, Term.Side.BELOW, knot(range.fat())))) {
            if (random.nextInt(3) == 0) {
                builder.term(term);
                terms.add(term);
            }
        }
        List<String> standing = List.copyOf(new LinkedHashSet<>(children("carcass", -1, List.of())));
        for (int level = 0; level < levels - 1; level++) {
            List<String> ofNextLevel = new ArrayList<>();
            for (String parent : standing) {
                if (kinds.get(parent) == CutKind.MEAT && random.nextInt(4) > 0) {
                    ofNextLevel.addAll(children(parent, level, ofNextLevel));
                }
            }
            standing.stream().filter(cut -> kinds.get(cut) != CutKind.MEAT).forEach(whole::add);
            standing = List.copyOf(new LinkedHashSet<>(ofNextLevel));
        }
        return builder.build();
    }

    private int knot(Range whole) {
        return (int) whole.low() + random.nextInt((int) (whole.high() - whole.low()) + 1);
    }

    private double within(Range whole) {
        return whole.low() + random.nextInt((int) (whole.high() - whole.low()) + 1);
    }

    /** Breaks a parent down, in one to three ways; the cuts of the next level that come out of it. */
    private List<String> children(String parent, int level, List<String> siblings) {
        List<String> children = new ArrayList<>();
        int numberOfWays = random.nextInt(3) == 0 ? 2 + random.nextInt(2) : 1;
        for (int way = 1; way <= numberOfWays; way++) {
            String name = numberOfWays == 1 ? "*" : "way-" + way;
            Set<String> its = new LinkedHashSet<>();
            int count = 2 + random.nextInt(mostChildren - 1);
            for (int k = 0; k < count; k++) {
                // now and then a cut that comes out of another parent or another way too
                List<String> known = new ArrayList<>(siblings);
                known.addAll(children);
                known.addAll(whole);
                its.add(
                        !known.isEmpty() && random.nextInt(4) == 0
                                ? known.get(random.nextInt(known.size()))
                                : newCut(parent + "-" + way + k, level + 1));
            }
            children.addAll(its);
            rows("*", name, parent, level + 1, its);
            if (random.nextInt(3) == 0) {
                rows("E", name, parent, level + 1, its);
            }
        }
        return children;
    }

    private String newCut(String code, int level) {
        String own = code.replace("carcass-", "x");
        CutKind[] all = {
            CutKind.MEAT, CutKind.STEAK, CutKind.JOINT, CutKind.LEAN_TRIM, CutKind.FAT_TRIM, CutKind.BONE, CutKind.LOSS
        };
        // only meat is broken down further, so that lean trim stays as it came out
        CutKind kind = level < levels - 1 && random.nextInt(3) > 0 ? CutKind.MEAT : all[random.nextInt(all.length)];
        kinds.put(own, kind);
        double fatPct = kind == CutKind.FAT_TRIM ? 60 + random.nextInt(21) : random.nextInt(31);
        builder.cut(Cut.of(own, "Cut " + own, "level-" + (level + 1), kind).withFatPct(fatPct));
        return own;
    }

    /** Levels that add up to 1000, and slopes that add up to 0 and together never take more than most of a level. */
    private void rows(String category, String way, String parent, int level, Set<String> cuts) {
        int n = cuts.size();
        int columns = 4 + terms.size();
        double[][] grams = new double[n][columns];
        double sum = 0;
        for (double[] child : grams) {
            child[0] = 0.05 + random.nextDouble();
            sum += child[0];
        }
        for (double[] child : grams) {
            child[0] *= 1000 / sum;
        }
        for (int j = 1; j < columns; j++) {
            boolean used = random.nextInt(4) > 0 && !(usesWeight(j) && level == levelWithoutWeight);
            double mean = 0;
            for (double[] child : grams) {
                child[j] = used ? random.nextGaussian() : 0;
                mean += child[j] / n;
            }
            for (double[] child : grams) {
                child[j] -= mean;
            }
        }
        // where grades or weights hardly vary nothing else would bound slopes, and large ones don't add up to 0 to the
        // last digit
        double scale = MOST_TIMES;
        for (double[] child : grams) {
            double most = 0;
            for (int j = 1; j < columns; j++) {
                most += Math.abs(child[j]) * largest(j);
            }
            scale = Math.min(scale, most == 0 ? 1 : MOST_OF_ITS_LEVEL * child[0] / most);
        }
        int k = 0;
        for (String cut : cuts) {
            for (int j = 1; j < columns; j++) {
                grams[k][j] *= scale;
            }
            builder.row(category, way, parent, cut, grams.length > 1 ? 1 : 0, TestTables.SOURCE, grams[k++]);
        }
    }

    private boolean usesWeight(int column) {
        if (column <= 3) {
            return column == 3;
        }
        return terms.get(column - 4) instanceof Term.Product product
                && (product.first() == Variable.WEIGHT || product.second() == Variable.WEIGHT);
    }

    /** A bound on what a column's variable can be. */
    private double largest(int column) {
        double c = range.conformation().high() - range.conformation().low();
        double f = range.fat().high() - range.fat().low();
        double w = (range.weightKg().high() - range.weightKg().low()) / 100;
        if (column <= 3) {
            return List.of(c, f, w).get(column - 1);
        }
        return terms.get(column - 4) instanceof Term.Product product
                ? of(product.first(), c, f, w) * of(product.second(), c, f, w)
                : Math.max(c, f);
    }

    private static double of(Variable variable, double c, double f, double w) {
        return switch (variable) {
            case CONFORMATION -> c;
            case FAT -> f;
            case WEIGHT -> w;
        };
    }
}
