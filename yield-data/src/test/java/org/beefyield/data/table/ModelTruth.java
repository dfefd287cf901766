package org.beefyield.data.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.CutKind;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/**
 * Carcasses as a table's rows say that they are, drawn by other ways than the library's: the shares of each breakdown
 * straight from its rows, errors that add up to 0 put on them, and the shares multiplied down the tree. For tables whose
 * breakdowns are all given by coefficients with hinges as their only terms, and where three children of a breakdown have
 * standard errors or none.
 */
final class ModelTruth {
    private static final int PLAIN = BreakdownRow.PLAIN_COLUMNS.size();

    private final TableDefinition definition;
    private final Map<String, Integer> indexes = new HashMap<>();
    private final Map<Category, List<Split>> splits = new EnumMap<>(Category.class);
    /** Of the first category; the others break down alike, with the same standard errors. */
    private final List<Split> anySplits;

    private final Map<Place, List<double[][]>> known = new HashMap<>();

    /**
     * How carcasses really differ, which the table does not know.
     *
     * @param heavyTails whether errors are Student's t with 4 degrees of freedom, of the same SD
     * @param commonToTheDay part of the variance between carcasses that all carcasses of a day share
     */
    record World(String name, boolean heavyTails, double commonToTheDay) {
        /** As the model says: normal, and every carcass for itself. */
        static final World AS_MODELLED = new World("as the model says", false, 0);
    }

    /** One breakdown: the shares of its children, and how they err. */
    private static final class Split {
        private final int parent;
        private final int level;
        private final List<BreakdownRow> rows;
        private final int[] children;
        private final List<ColumnErrors> columns;
        /** Root of the variances of independent errors, and their parts of the sum. */
        private final double[] spread;

        private final double[] part;

        Split(int parent, int level, List<BreakdownRow> rows, int[] children, List<ColumnErrors> columns) {
            this.parent = parent;
            this.level = level;
            this.rows = rows;
            this.children = children;
            this.columns = columns;
            double[] v = variances(rows);
            double sum = Arrays.stream(v).sum();
            this.spread = Arrays.stream(v).map(Math::sqrt).toArray();
            this.part = Arrays.stream(v).map(one -> one / sum).toArray();
        }

        /** Independent errors, less what they add up to in proportion to the variances. */
        double[] closed(double[] deviates) {
            double total = 0;
            for (int k = 0; k < deviates.length; k++) {
                deviates[k] *= spread[k];
                total += deviates[k];
            }
            for (int k = 0; k < deviates.length; k++) {
                deviates[k] -= part[k] * total;
            }
            return deviates;
        }
    }

    /** Standard errors of the children in one column. */
    private record ColumnErrors(int column, List<Double> sds) {}

    private record Place(Category category, double conformation, double fat) {}

    /** What carcasses have in common: the table's coefficients and the scale, and for one day the hall. */
    final class Common {
        private final World world;
        private final double[][][] coefficients;
        private final double biasKg;
        /** By breakdown: a deviate for each child. */
        private final double[][] day;

        /** Another table, scale and day each time. */
        Common(World world, double biasSdKg, Random random) {
            this.world = world;
            this.biasKg = biasSdKg * random.nextGaussian();
            this.coefficients = new double[anySplits.size()][][];
            for (int i = 0; i < coefficients.length; i++) {
                coefficients[i] = anySplits.get(i).columns.stream()
                        .map(column -> adding(column.sds(), random))
                        .toArray(double[][]::new);
            }
            this.day = day(random);
        }

        /** Another day of the same hall, with the same table and scale. */
        Common(Common before, Random random) {
            this.world = before.world;
            this.biasKg = before.biasKg;
            this.coefficients = before.coefficients;
            this.day = day(random);
        }

        private double[][] day(Random random) {
            double[][] deviates = new double[anySplits.size()][];
            for (int i = 0; i < deviates.length && world.commonToTheDay() > 0; i++) {
                deviates[i] = gaussians(anySplits.get(i).children.length, random);
            }
            return deviates;
        }

        /** Deviates of one carcass: its own, and the hall's on that day. */
        private double[] deviates(int split, int children, double tail, Random random) {
            double[] z = gaussians(children, random);
            if (world.heavyTails() || world.commonToTheDay() > 0) {
                double own = tail * Math.sqrt(1 - world.commonToTheDay());
                double common = Math.sqrt(world.commonToTheDay());
                for (int k = 0; k < children; k++) {
                    z[k] = own * z[k] + (common > 0 ? common * day[split][k] : 0);
                }
            }
            return z;
        }
    }

    /** kg of every cut at every level, of one carcass or added up over a lot. */
    final class Kilograms {
        private final double[][] kg =
                new double[definition.levels().size()][definition.cuts().size()];
        private double fatInLeanTrim;

        void add(Kilograms other) {
            for (int level = 0; level < kg.length; level++) {
                for (int i = 0; i < kg[level].length; i++) {
                    kg[level][i] += other.kg[level][i];
                }
            }
            fatInLeanTrim += other.fatInLeanTrim;
        }

        double kg(String level, String cut) {
            return kg[definition.levels().indexOf(level)][index(cut)];
        }

        /** Of the last level. */
        double kg(CutKind kind) {
            double sum = 0;
            for (int i = 0; i < definition.cuts().size(); i++) {
                sum += definition.cuts().get(i).kind() == kind ? kg[kg.length - 1][i] : 0;
            }
            return sum;
        }

        /** Fat trim that lean trim takes up to come to a fat content, where all fat trim has another: Pearson's square. */
        double takenUp(double target, double fatOfFatTrim) {
            double wanted = (target * kg(CutKind.LEAN_TRIM) - fatInLeanTrim) / (fatOfFatTrim - target);
            return Math.min(Math.max(0, wanted), kg(CutKind.FAT_TRIM));
        }
    }

    ModelTruth(TableDefinition definition, CuttingSpecification specification) {
        this.definition = definition;
        for (int i = 0; i < definition.cuts().size(); i++) {
            indexes.put(definition.cuts().get(i).code(), i);
        }
        for (Category category : definition.categories()) {
            splits.put(category, splits(category, specification));
        }
        this.anySplits = splits.getOrDefault(definition.categories().get(0), List.of());
        for (List<Split> its : splits.values()) {
            for (int i = 0; i < its.size(); i++) {
                if (!its.get(i).columns.equals(anySplits.get(i).columns)) {
                    throw new IllegalArgumentException("categories have standard errors of their own");
                }
            }
        }
    }

    private int index(String cut) {
        return indexes.getOrDefault(cut, -1);
    }

    /** The most specific rows of every parent, parents of earlier levels first. */
    private List<Split> splits(Category category, CuttingSpecification specification) {
        Map<String, Map<String, BreakdownRow>> byParent = new LinkedHashMap<>();
        definition.breakdown().stream()
                .filter(row -> row.way().equals(BreakdownRow.ANY)
                        || row.way().equals(specification.ways().get(row.parent())))
                .filter(row -> row.category().equals(BreakdownRow.ANY)
                        || row.category().contains(category.letter()))
                .sorted(Comparator.comparing(row -> !row.category().equals(BreakdownRow.ANY)))
                .forEach(row -> byParent.computeIfAbsent(row.parent(), parent -> new LinkedHashMap<>())
                        .put(row.cut(), row));
        List<Split> its = new ArrayList<>();
        byParent.forEach((parent, byCut) -> {
            int index = index(parent);
            int level = index < 0
                    ? 0
                    : 1
                            + definition
                                    .levels()
                                    .indexOf(definition.cuts().get(index).level());
            List<BreakdownRow> rows = List.copyOf(byCut.values());
            int[] children = rows.stream().mapToInt(row -> index(row.cut())).toArray();
            its.add(new Split(index, level, rows, children, errors(rows)));
        });
        its.sort(Comparator.comparingInt(split -> split.level));
        return its;
    }

    private List<ColumnErrors> errors(List<BreakdownRow> rows) {
        List<ColumnErrors> errors = new ArrayList<>();
        for (String column : definition.coefficientColumns()) {
            List<Double> sds = rows.stream()
                    .map(row -> definition.coefficientNotes().stream()
                            .filter(note -> note.term().equals(column) && of(note, row))
                            .mapToDouble(note -> note.standardError() == null ? 0 : note.standardError() / 1000)
                            .sum())
                    .toList();
            if (sds.stream().anyMatch(sd -> sd > 0)) {
                errors.add(new ColumnErrors(definition.coefficientColumns().indexOf(column), sds));
            }
        }
        return errors;
    }

    private static boolean of(CoefficientNote note, BreakdownRow row) {
        return List.of(note.category(), note.way(), note.parent(), note.cut())
                .equals(List.of(row.category(), row.way(), row.parent(), row.cut()));
    }

    /**
     * Variances v of independent errors that have the SDs of the rows once they add up to 0, by the parts p = v/sum:
     * sum p (1 - p) is the variance of a row. The largest has what the others leave of 1, by bisection on the sum.
     */
    private static double[] variances(List<BreakdownRow> rows) {
        double[] sd = rows.stream().mapToDouble(row -> row.sdGPerKg() / 1000).toArray();
        int largest = 0;
        for (int k = 1; k < sd.length; k++) {
            largest = sd[k] > sd[largest] ? k : largest;
        }
        double second = 0;
        for (int k = 0; k < sd.length; k++) {
            second = k == largest ? second : Math.max(second, sd[k]);
        }
        double low = 4 * second * second;
        double high = 1e9 * low;
        double[] part = new double[sd.length];
        for (int i = 0; i < 400; i++) {
            double sum = (low + high) / 2;
            part[largest] = 1;
            for (int k = 0; k < sd.length; k++) {
                if (k != largest) {
                    part[k] = (1 - Math.sqrt(Math.max(0, 1 - 4 * sd[k] * sd[k] / sum))) / 2;
                    part[largest] -= part[k];
                }
            }
            if (sum * part[largest] * (1 - part[largest]) < sd[largest] * sd[largest]) {
                low = sum;
            } else {
                high = sum;
            }
        }
        double sum = (low + high) / 2;
        for (int k = 0; k < sd.length; k++) {
            double itsSd = Math.sqrt(sum * part[k] * (1 - part[k]));
            if (Math.abs(itsSd - sd[k]) > 1e-6 * sd[k]) {
                throw new IllegalStateException("SDs " + Arrays.toString(sd) + " came out as " + itsSd);
            }
        }
        return Arrays.stream(part).map(p -> sum * p).toArray();
    }

    private static double[] gaussians(int size, Random random) {
        double[] all = new double[size];
        for (int k = 0; k < size; k++) {
            all[k] = random.nextGaussian();
        }
        return all;
    }

    /** Errors of three children that add up to 0; their SDs leave no choice but of chance. */
    private static double[] adding(List<Double> sds, Random random) {
        int[] three = IntStream.range(0, sds.size()).filter(k -> sds.get(k) > 0).toArray();
        if (three.length != 3) {
            throw new IllegalArgumentException("standard errors " + sds + " are not those of three children");
        }
        double a = sds.get(three[0]);
        double b = sds.get(three[1]);
        double c = sds.get(three[2]);
        double correlation = (c * c - a * a - b * b) / (2 * a * b);
        double z = random.nextGaussian();
        double other = correlation * z + Math.sqrt(1 - correlation * correlation) * random.nextGaussian();
        double[] errors = new double[sds.size()];
        errors[three[0]] = a * z;
        errors[three[1]] = b * other;
        errors[three[2]] = -errors[three[0]] - errors[three[1]];
        return errors;
    }

    /** By breakdown and child: the share at the reference weight, and what 100 kg change. */
    private List<double[][]> shares(Place place) {
        List<double[][]> all = new ArrayList<>();
        for (Split split : splits.getOrDefault(place.category(), List.of())) {
            double[] x = columns(place.conformation(), place.fat(), 0);
            double[][] shares = new double[split.rows.size()][2];
            for (int k = 0; k < shares.length; k++) {
                List<Double> coefficients = split.rows.get(k).coefficients();
                for (int j = 0; j < x.length; j++) {
                    shares[k][0] += coefficients.get(j) * x[j] / 1000;
                }
                shares[k][1] = coefficients.get(3) / 1000;
            }
            all.add(shares);
        }
        return all;
    }

    /** What the coefficients are multiplied by. */
    private double[] columns(double conformation, double fat, double t) {
        double[] x = new double[PLAIN + definition.terms().size()];
        x[0] = 1;
        x[1] = conformation - definition.reference().conformation();
        x[2] = fat - definition.reference().fat();
        x[3] = t;
        for (int j = 0; j < definition.terms().size(); j++) {
            if (!(definition.terms().get(j) instanceof Term.Hinge hinge)) {
                throw new IllegalArgumentException(definition.terms().get(j) + " is not a hinge");
            }
            double at = hinge.variable() == Variable.FAT ? fat : conformation;
            x[PLAIN + j] = Math.max(0, hinge.side() == Term.Side.BELOW ? hinge.knot() - at : at - hinge.knot());
        }
        return x;
    }

    /** A whole class is one of its three thirds; a position on the scale stays. */
    private static double third(double position, double width, Random random) {
        return width == 3 ? position + random.nextInt(3) - 1 : position;
    }

    /**
     * One carcass of those that are graded and weighed so. Shares below 0 are drawn again, but with heavy tails: there
     * they stay, for without them the SD would no longer be the same.
     */
    Kilograms draw(Carcass carcass, Common common, double repeatabilityKg, Random random) {
        Place place = new Place(
                carcass.category(),
                third(carcass.conformation().position(), carcass.conformation().width(), random),
                third(carcass.fatClass().position(), carcass.fatClass().width(), random));
        double weight = carcass.coldWeightKg() + common.biasKg + repeatabilityKg * random.nextGaussian();
        double t = (weight - definition.reference().weightKg()) / 100;
        List<double[][]> mean = known.computeIfAbsent(place, this::shares);
        double[] x = columns(place.conformation(), place.fat(), t);
        List<Split> its = splits.getOrDefault(place.category(), List.of());
        // Student's t with 4 degrees of freedom has the variance 2; an odd carcass is odd in all its cuts
        double tail = common.world.heavyTails() ? Math.sqrt(2 / chiSquaredOfFour(random)) : 1;
        List<double[]> drawn = new ArrayList<>();
        while (drawn.size() < its.size()) {
            int i = drawn.size();
            Split split = its.get(i);
            double[] shares = split.closed(common.deviates(i, split.children.length, tail, random));
            boolean below = false;
            for (int k = 0; k < shares.length; k++) {
                shares[k] += mean.get(i)[k][0] + t * mean.get(i)[k][1];
                for (int j = 0; j < split.columns.size(); j++) {
                    shares[k] += common.coefficients[i][j][k]
                            * x[split.columns.get(j).column()];
                }
                below |= shares[k] < 0;
            }
            if (!below || common.world.heavyTails()) {
                drawn.add(shares);
            }
        }
        return multiplied(its, drawn, weight);
    }

    private static double chiSquaredOfFour(Random random) {
        double sum = 0;
        for (double z : gaussians(4, random)) {
            sum += z * z;
        }
        return sum;
    }

    private Kilograms multiplied(List<Split> its, List<double[]> shares, double weight) {
        Kilograms result = new Kilograms();
        int at = 0;
        for (int level = 0; level < result.kg.length; level++) {
            double[] kg = result.kg[level];
            double[] before = level == 0 ? kg.clone() : result.kg[level - 1];
            System.arraycopy(before, 0, kg, 0, kg.length);
            for (; at < its.size() && its.get(at).level == level; at++) {
                Split split = its.get(at);
                double parentKg = split.parent < 0 ? weight : before[split.parent];
                if (split.parent >= 0) {
                    kg[split.parent] -= parentKg;
                }
                for (int k = 0; k < split.children.length; k++) {
                    double childKg = parentKg * shares.get(at)[k];
                    kg[split.children[k]] += childKg;
                    if (definition.cuts().get(split.children[k]).kind() == CutKind.LEAN_TRIM) {
                        // lean trim of a primal is as fat as the primal's row says
                        Double fatPct = definition.cuts().get(split.parent).fatPct();
                        result.fatInLeanTrim += fatPct == null ? 0 : childKg * fatPct / 100;
                    }
                }
            }
        }
        return result;
    }
}
