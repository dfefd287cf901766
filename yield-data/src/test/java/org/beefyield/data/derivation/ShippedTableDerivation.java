package org.beefyield.data.derivation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;

/**
 * How the shipped table, edition boneless-2026, follows from the published figures: one method for each step, figures
 * and factors from the CSVs under {@code reference} in the test resources.
 *
 * <p>All shares are g per kg of the parent, all slopes per point, per point and per 100 kg, about the reference
 * carcass.
 */
final class ShippedTableDerivation {
    /** Where the edition stands on the class path. */
    static final String CLASS_PATH_FOLDER = "/org/beefyield/data/tables/boneless-2026/";

    static final String MEAT = "meat";
    static final String FAT_TRIM = "fat-trim";
    static final String BONE = "bone";
    static final String LOSS = "loss";
    static final String ANY = "*";
    static final String CARCASS = "carcass";

    /** Tissues of the carcass with their names in composition.csv; the loss isn't among the dissected tissues. */
    private static final Map<String, String> DISSECTED = dissected();

    static final String HEIFERS = "E";
    static final String BULLS = "AB";
    static final String COWS = "D";

    /** Where bulls are heavier than steers, and at whose cost. */
    private static final List<String> FOREQUARTER = List.of("blade", "shoulder", "chuck-neck");

    private static final List<String> LEG_AND_LOIN =
            List.of("topside", "silverside", "eye-of-round", "knuckle", "rump", "striploin", "fillet");

    /** The joints of leg, loin and rib that the trade pays most for. */
    static final List<String> DEAR =
            Stream.concat(LEG_AND_LOIN.stream(), Stream.of("cube-roll")).toList();

    private static final List<String> STRATA = List.of("very_low", "low", "high", "very_high");

    private final ReferenceFigures figures = new ReferenceFigures();
    private final List<Map<String, String>> cuts = ReferenceFigures.rows("table-cuts.csv");
    private final List<BreakdownRow> breakdown;

    ShippedTableDerivation() {
        List<BreakdownRow> rows = new ArrayList<>(tissueRows());
        rows.addAll(otherCategoryRows());
        rows.addAll(primalRows());
        rows.addAll(primalRowsOfOtherSexes());
        rows.addAll(retailRows());
        breakdown = rows.stream().map(BreakdownRow::rounded).toList();
    }

    /** Every file of the edition by name. */
    Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>(new ShippedTableFiles(this).files());
        files.put("README.md", new ShippedTableReadme(this).text());
        return files;
    }

    ReferenceFigures figures() {
        return figures;
    }

    /** Rows of table-cuts.csv: codes, names, kinds and order of the cuts. */
    List<Map<String, String>> cuts() {
        return cuts;
    }

    /** All rows of breakdown.csv, as rounded there. */
    List<BreakdownRow> breakdown() {
        return breakdown;
    }

    // Tissue level

    /** Carcass to meat, fat trim, bone and loss, for steers; what other categories don't state is theirs too. */
    List<BreakdownRow> tissueRows() {
        List<BreakdownRow> rows = new ArrayList<>();
        for (String tissue : List.of(MEAT, FAT_TRIM, BONE, LOSS)) {
            rows.add(new BreakdownRow(
                    ANY,
                    ANY,
                    CARCASS,
                    tissue,
                    tissueLevel(tissue),
                    tissueSlope(tissue, "conformation"),
                    tissueSlope(tissue, "fat"),
                    0,
                    belowFatKnot(tissue),
                    aboveConformationKnot(tissue),
                    tissueSdWithinLots(tissue),
                    figures.factor("tissue_lot_sd", tissue),
                    figures.factor("tissue_run_sd", tissue),
                    figures.factor("tissue_hall_sd", tissue),
                    tissue.equals(LOSS) ? "boning-loss" : "grange-derived"));
        }
        return rows;
    }

    /** The SD of the published cattle, of many lots, less in quadrature what lots differ by; to a tenth, for it is rough. */
    double tissueSdWithinLots(String tissue) {
        double sd = figures.factor("tissue_sd", tissue);
        double ofLots = figures.factor("tissue_lot_sd", tissue);
        return BreakdownRow.round(Math.sqrt(sd * sd - ofLots * ofLots), 1);
    }

    /** The part of each tissue that is left after the boning loss. */
    double yieldAfterLoss() {
        return 1 - figures.factor("loss") / 1000;
    }

    /** Published levels add to 1001 by rounding: they are closed to 1000, then the boning loss is taken off. */
    double tissueLevel(String tissue) {
        if (tissue.equals(LOSS)) {
            return figures.factor("loss");
        }
        double sum = DISSECTED.values().stream()
                .mapToDouble(name -> figures.composition(name + " level"))
                .sum();
        return figures.composition(dissectedName(tissue) + " level") / sum * 1000 * yieldAfterLoss();
    }

    /** Published slope, less the boning loss; the published ones add to 0 as they are. */
    double tissueSlope(String tissue, String variable) {
        return tissue.equals(LOSS)
                ? 0
                : figures.composition(dissectedName(tissue) + " per " + variable + " point") * yieldAfterLoss();
    }

    /** Standard error of that slope. */
    double tissueSlopeStandardError(String tissue, String variable) {
        return figures.standardError(dissectedName(tissue) + " per " + variable + " point") * yieldAfterLoss();
    }

    /** Below the fat knot the slope of fat trim is a part of its value; the hinge runs against the slope. */
    private double belowFatKnot(String tissue) {
        double taken = tissueSlope(FAT_TRIM, "fat") * (1 - 1 / figures.factor("fat_slope_divisor_below_knot"));
        return fatTrimAgainstMeat(tissue, taken);
    }

    /** Above the conformation knot fat trim keeps a part of its slope, none as shipped. */
    private double aboveConformationKnot(String tissue) {
        double added =
                tissueSlope(FAT_TRIM, "conformation") * (figures.factor("conformation_slope_kept_above_knot") - 1);
        return fatTrimAgainstMeat(tissue, added);
    }

    private static double fatTrimAgainstMeat(String tissue, double ofFatTrim) {
        return switch (tissue) {
            case FAT_TRIM -> ofFatTrim;
            case MEAT -> -ofFatTrim;
            default -> 0;
        };
    }

    /** What other categories state for themselves; the rest is the steers'. */
    List<BreakdownRow> otherCategoryRows() {
        List<BreakdownRow> rows = new ArrayList<>();
        rows.addAll(sexRows(HEIFERS, 1));
        rows.addAll(sexRows(BULLS, -1));
        for (BreakdownRow steers : tissueRows().subList(0, 3)) {
            rows.add(steers.forCategory(COWS, figures.factor("cow_level", steers.cut()), 0, "cows"));
        }
        return rows;
    }

    /** At one grade the sexes differ in fat: heifers have more and less meat, bulls the reverse, steers stand midway. */
    private List<BreakdownRow> sexRows(String letters, int sign) {
        List<BreakdownRow> rows = new ArrayList<>();
        for (BreakdownRow steers : tissueRows().subList(0, 2)) {
            double moreFat = sign * (steers.cut().equals(FAT_TRIM) ? 1 : -1);
            rows.add(steers.forCategory(
                    letters,
                    moreFat * figures.factor("category_fat_level"),
                    moreFat * figures.factor("category_fat_slope"),
                    "sex-derived"));
        }
        return rows;
    }

    /** Standard error of the level of meat and of fat trim in a category that isn't the steers'. */
    double levelStandardError(String letters) {
        return figures.factor("level_error", letters);
    }

    /**
     * Standard errors of a column of one breakdown: half of what each slope is, as rounded. The largest is at most the sum of
     * the others, which is what they close by.
     */
    List<Double> slopeStandardErrors(List<Double> slopes) {
        List<Double> errors = slopes.stream()
                .map(slope -> BreakdownRow.round(
                        figures.factor("slope_error_part") * Math.abs(slope), BreakdownRow.SLOPE_DECIMALS))
                .toList();
        double largest = errors.stream().mapToDouble(Double::doubleValue).max().orElse(0);
        double others = BreakdownRow.round(
                errors.stream().mapToDouble(Double::doubleValue).sum() - largest, BreakdownRow.SLOPE_DECIMALS);
        return errors.stream().map(error -> Math.min(error, others)).toList();
    }

    // SDs below the tissue level

    /** What each carcass has for itself, of an SD over lots: with the lots' part it makes up the whole. */
    private double withinLots(double sd) {
        double part = figures.factor("lot_sd_part");
        return sd * Math.sqrt(1 - part * part);
    }

    private double ofLots(double sd) {
        return sd * figures.factor("lot_sd_part");
    }

    private double ofRuns(double sd) {
        return sd * figures.factor("run_sd_part");
    }

    /**
     * What halls differ by in a way of cutting: each child but the largest a part of its level, all in one direction, the
     * largest in the other. So its SD is the sum of the others', as rounded.
     */
    List<Double> retailHallSds(List<Double> levels, String source) {
        double part = figures.factor("hall_sd_of_level", source.equals("retail-derived") ? "tested" : "ours");
        int largest = levels.indexOf(
                levels.stream().mapToDouble(Double::doubleValue).max().orElseThrow());
        List<Double> sds = new ArrayList<>();
        double others = 0;
        for (int k = 0; k < levels.size(); k++) {
            double sd = k == largest ? 0 : BreakdownRow.round(part * levels.get(k), BreakdownRow.SD_DECIMALS);
            sds.add(sd);
            others += sd;
        }
        sds.set(largest, BreakdownRow.round(others, BreakdownRow.SD_DECIMALS));
        return sds;
    }

    // Primal level

    /** Meat to primals. */
    List<BreakdownRow> primalRows() {
        List<Double> levels = primals().stream()
                .map(cut -> BreakdownRow.round(1000 * primalShare(cut), BreakdownRow.LEVEL_DECIMALS))
                .toList();
        List<Double> conformation = closedSlopes(this::primalConformationSlope, levels);
        List<Double> fat = closedSlopes(this::primalFatSlope, levels);
        List<Double> weight = closedSlopes(this::primalWeightSlope, levels);
        List<BreakdownRow> rows = new ArrayList<>();
        for (Map<String, String> cut : primals()) {
            rows.add(new BreakdownRow(
                    ANY,
                    ANY,
                    MEAT,
                    cut.get("cut"),
                    levels.get(rows.size()),
                    conformation.get(rows.size()),
                    fat.get(rows.size()),
                    weight.get(rows.size()),
                    0,
                    0,
                    withinLots(primalSd(cut)),
                    ofLots(primalSd(cut)),
                    ofRuns(primalSd(cut)),
                    figures.factor("hall_sd_of_level", "primal") * 1000 * primalShare(cut),
                    "primal-derived"));
        }
        return rows;
    }

    /** Rows of table-cuts.csv of kind primal. */
    List<Map<String, String>> primals() {
        return cuts.stream().filter(cut -> cut.get("kind").equals("primal")).toList();
    }

    /** Bulls have a heavier forequarter than steers at the cost of leg and loin, heifers a lighter one. */
    List<BreakdownRow> primalRowsOfOtherSexes() {
        List<BreakdownRow> rows =
                new ArrayList<>(primalRowsOf(HEIFERS, figures.factor("primal_sex", "heifers"), "heifer-primals"));
        rows.addAll(primalRowsOf(BULLS, figures.factor("primal_sex", "bulls"), "bull-primals"));
        return rows;
    }

    private List<BreakdownRow> primalRowsOf(String letters, double toForequarter, String source) {
        List<BreakdownRow> steers = primalRows();
        List<Double> levels = steers.stream().map(BreakdownRow::level).toList();
        List<Double> changes = closed(
                steers.stream().map(row -> toForequarter * partOfTheMove(row)).toList(),
                levels,
                BreakdownRow.LEVEL_DECIMALS);
        List<BreakdownRow> rows = new ArrayList<>();
        for (int i = 0; i < changes.size(); i++) {
            if (changes.get(i) != 0) {
                rows.add(steers.get(i).forCategory(letters, changes.get(i), 0, source));
            }
        }
        return rows;
    }

    /** What a cut takes or gives, in proportion to its level, of what moves from leg and loin to the forequarter. */
    private double partOfTheMove(BreakdownRow row) {
        if (FOREQUARTER.contains(row.cut())) {
            return row.level() / levels(FOREQUARTER);
        }
        return LEG_AND_LOIN.contains(row.cut()) ? -row.level() / levels(LEG_AND_LOIN) : 0;
    }

    private double levels(Collection<String> codes) {
        return primals().stream()
                .filter(cut -> codes.contains(cut.get("cut")))
                .mapToDouble(cut -> 1000 * primalShare(cut))
                .sum();
    }

    /** The cut's mean weight as a fraction of the sum of all. */
    double primalShare(Map<String, String> cut) {
        return published(cut, "mean_kg") / sumOfMeanWeights();
    }

    /** kg: the mean cattle's meat. */
    double sumOfMeanWeights() {
        return primals().stream().mapToDouble(cut -> published(cut, "mean_kg")).sum();
    }

    /**
     * One part of the change of meat with conformation is given to the cuts by genetic correlation with conformation times
     * genetic SD, both at equal weight and fat; the rest goes to them in proportion to their weight. What a cut changes per
     * kg of carcass is then turned into g per kg of meat.
     */
    double primalConformationSlope(Map<String, String> cut) {
        return perKgOfMeat(cut, changePerKgCarcass(cut, "conformation"), tissueSlope(MEAT, "conformation"));
    }

    /** Likewise with fat, by the part of the genetic SD at equal weight that fat explains. */
    double primalFatSlope(Map<String, String> cut) {
        return perKgOfMeat(cut, changePerKgCarcass(cut, "fat"), tissueSlope(MEAT, "fat"));
    }

    /** g of the cut per kg of carcass and point, along the change of meat. */
    double changePerKgCarcass(Map<String, String> cut, String variable) {
        double part = figures.factor(variable + "_genetic_part");
        double genetic = response(cut, variable) / sumOfResponses(variable);
        return tissueSlope(MEAT, variable) * (part * genetic + (1 - part) * primalShare(cut));
    }

    double sumOfResponses(String variable) {
        return primals().stream().mapToDouble(cut -> response(cut, variable)).sum();
    }

    private double response(Map<String, String> cut, String variable) {
        double sdAtWeightAndFat = published(cut, "sg_at_weight_fat_kg");
        if (variable.equals("conformation")) {
            return published(cut, "rg_conformation_at_weight_fat") * sdAtWeightAndFat;
        }
        double sdAtWeight = published(cut, "sg_at_weight_kg");
        double left = sdAtWeightAndFat / sdAtWeight;
        return left >= 1 ? 0 : Math.signum(published(cut, "rg_fat")) * sdAtWeight * Math.sqrt(1 - left * left);
    }

    private double perKgOfMeat(Map<String, String> cut, double perKgCarcass, double ofMeat) {
        return (perKgCarcass - primalShare(cut) * ofMeat) / meatFraction();
    }

    /** From the exponent of the cut's weight on the weight of meat, less what all cuts would change together. */
    double primalWeightSlope(Map<String, String> cut) {
        double hundreds = figures.factor("reference", "weight_kg") / 100;
        double ofAll = primals().stream()
                .mapToDouble(other -> primalShare(other) * exponent(other))
                .sum();
        return 1000 * primalShare(cut) * (exponent(cut) - ofAll) / hundreds;
    }

    /**
     * Four strata of cattle have each cut's mean as it is and at equal carcass weight. What weight adds to a cut, regressed
     * over the strata on what it adds to all, is a slope; at the adjusted means an exponent, to a thousandth.
     */
    double exponent(Map<String, String> cut) {
        double[] ofCut = new double[STRATA.size()];
        double[] ofAll = new double[STRATA.size()];
        double cutKg = 0;
        double allKg = 0;
        for (int i = 0; i < STRATA.size(); i++) {
            String stratum = STRATA.get(i);
            ofCut[i] = strata(cut, stratum + "_kg") - strata(cut, stratum + "_at_weight_kg");
            cutKg += strata(cut, stratum + "_at_weight_kg");
            for (Map<String, String> other : primals()) {
                ofAll[i] += strata(other, stratum + "_kg") - strata(other, stratum + "_at_weight_kg");
                allKg += strata(other, stratum + "_at_weight_kg");
            }
        }
        return BreakdownRow.round(slope(ofAll, ofCut) * allKg / cutKg, 3);
    }

    private static double slope(double[] x, double[] y) {
        double meanX = Arrays.stream(x).average().orElseThrow();
        double meanY = Arrays.stream(y).average().orElseThrow();
        double products = 0;
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            products += (x[i] - meanX) * (y[i] - meanY);
            squares += (x[i] - meanX) * (x[i] - meanX);
        }
        return products / squares;
    }

    private double strata(Map<String, String> cut, String column) {
        return figures.strata(cut.get("strata_name"), column);
    }

    /**
     * SD of the cut at equal weight (genetic SD over the root of heritability), less what the grade explains of it by the
     * slopes of this table, less in quadrature what the SD of meat gives already; over lots.
     */
    double primalSd(Map<String, String> cut) {
        double sd = sdAtWeight(cut);
        double left = sd * sd * (1 - explainedByGrade(cut));
        double throughMeat = figures.factor("tissue_sd", MEAT) * primalShare(cut);
        return Math.sqrt(left - throughMeat * throughMeat) / meatFraction();
    }

    /** g per kg of carcass. */
    private double sdAtWeight(Map<String, String> cut) {
        double kg = published(cut, "sg_at_weight_kg") / Math.sqrt(published(cut, "h2_at_weight"));
        return kg / figures.factor("reference", "weight_kg") * 1000;
    }

    /** Correlation of the cut at equal weight with a grade in one herd, as the slopes of this table imply it. */
    double impliedCorrelation(Map<String, String> cut, String variable) {
        return changePerKgCarcass(cut, variable) * figures.factor("sd_of_points", variable) / sdAtWeight(cut);
    }

    /** Part of the cut's variance at equal weight that both grades explain. */
    double explainedByGrade(Map<String, String> cut) {
        double conformation = impliedCorrelation(cut, "conformation");
        double fat = impliedCorrelation(cut, "fat");
        return conformation * conformation
                + fat * fat
                + 2 * figures.factor("correlation_of_points") * conformation * fat;
    }

    /**
     * Covariances of the primals between carcasses of one lot: independent errors conditioned on adding to 0, and one more
     * error that the eight dear primals have in common against the others; the SDs of single primals stay what they are.
     */
    double[][] primalCovariances() {
        List<Map<String, String>> cuts = primals();
        int n = cuts.size();
        double[] common = new double[n];
        double[] variances = new double[n];
        for (int k = 0; k < n; k++) {
            String code = cuts.get(k).get("cut");
            boolean dear = DEAR.contains(code);
            double ofGroup = dear ? levels(DEAR) : 1000 - levels(DEAR);
            common[k] = (dear ? 1 : -1) * figures.factor("dear_residual") * 1000 * primalShare(cuts.get(k)) / ofGroup;
            double sd = primalSd(cuts.get(k));
            variances[k] = sd * sd - common[k] * common[k];
        }
        double[] open = conditionedFrom(variances);
        double sum = Arrays.stream(open).sum();
        double part = withinLots(1);
        double[][] covariances = new double[n][n];
        for (int k = 0; k < n; k++) {
            for (int m = 0; m < n; m++) {
                double closed = (k == m ? open[k] : 0) - open[k] * open[m] / sum;
                covariances[k][m] = part * part * (closed + common[k] * common[m]);
            }
        }
        return covariances;
    }

    /** Variances v of independent errors that, conditioned on adding to 0, have the variances given: v - v²/sum(v). */
    private static double[] conditionedFrom(double[] variances) {
        double[] open = variances.clone();
        for (int step = 0; step < 500; step++) {
            double sum = Arrays.stream(open).sum();
            for (int k = 0; k < open.length; k++) {
                open[k] = variances[k] + open[k] * open[k] / sum;
            }
        }
        return open;
    }

    private double meatFraction() {
        return tissueLevel(MEAT) / 1000;
    }

    private double published(Map<String, String> cut, String column) {
        return figures.cut(cut.get("reference_name"), column);
    }

    // Retail level

    /**
     * Primals to retail cuts, in the order of the primals. The fat cut off changes with the carcass's fat class, the other
     * children give it in proportion.
     */
    List<BreakdownRow> retailRows() {
        List<BreakdownRow> rows = new ArrayList<>();
        for (Map<String, String> primal : primals()) {
            for (List<Map<String, String>> way : waysOf(primal.get("cut")).values()) {
                List<Double> levels = way.stream()
                        .map(row -> Double.valueOf(row.get("g_per_kg")))
                        .toList();
                List<Double> slopes = retailFatSlopes(
                        levels, way.stream().map(row -> row.get("cut")).toList().indexOf(FAT_TRIM));
                List<Double> sds = retailSds(levels);
                List<Double> hallSds = retailHallSds(levels, way.get(0).get("source"));
                for (int i = 0; i < way.size(); i++) {
                    Map<String, String> row = way.get(i);
                    rows.add(new BreakdownRow(
                            ANY,
                            row.get("way"),
                            row.get("parent"),
                            row.get("cut"),
                            levels.get(i),
                            0,
                            slopes.get(i),
                            0,
                            0,
                            0,
                            withinLots(sds.get(i)),
                            ofLots(sds.get(i)),
                            ofRuns(sds.get(i)),
                            hallSds.get(i),
                            row.get("source")));
                }
            }
        }
        return rows;
    }

    private List<Double> retailFatSlopes(List<Double> levels, int fatTrim) {
        double ofFatTrim = figures.factor("retail_fat_slope") * levels.get(fatTrim);
        List<Double> slopes = new ArrayList<>();
        for (int i = 0; i < levels.size(); i++) {
            slopes.add(i == fatTrim ? ofFatTrim : -ofFatTrim * levels.get(i) / (1000 - levels.get(fatTrim)));
        }
        return closed(slopes, levels, BreakdownRow.SLOPE_DECIMALS);
    }

    private List<Double> closedSlopes(ToDoubleFunction<Map<String, String>> slope, List<Double> levels) {
        return closed(primals().stream().map(slope::applyAsDouble).toList(), levels, BreakdownRow.SLOPE_DECIMALS);
    }

    /** Figures that add up to 0, as the file prints them; what they then miss 0 by, the child with the largest level takes. */
    private static List<Double> closed(List<Double> figures, List<Double> levels, int decimals) {
        List<Double> rounded = new ArrayList<>(figures.stream()
                .map(figure -> BreakdownRow.round(figure, decimals))
                .toList());
        int largest = levels.indexOf(Collections.max(levels));
        double sum = rounded.stream().mapToDouble(Double::doubleValue).sum();
        rounded.set(largest, BreakdownRow.round(rounded.get(largest) - sum, decimals));
        return rounded;
    }

    /** Rows of retail-ways.csv of one primal, way by way. */
    static Map<String, List<Map<String, String>>> waysOf(String primal) {
        Map<String, List<Map<String, String>>> ways = new LinkedHashMap<>();
        for (Map<String, String> row : ReferenceFigures.rows("retail-ways.csv")) {
            if (row.get("parent").equals(primal)) {
                ways.computeIfAbsent(row.get("way"), way -> new ArrayList<>()).add(row);
            }
        }
        return ways;
    }

    /**
     * Independent errors in proportion to the level, capped, and a larger one of the largest child, conditioned on
     * adding to 0: the marginal SDs of that, so that each way closes.
     */
    List<Double> retailSds(List<Double> levels) {
        List<Double> variances = new ArrayList<>();
        double largest = levels.stream().mapToDouble(Double::doubleValue).max().orElseThrow();
        for (double level : levels) {
            double sd = level == largest
                    ? figures.factor("retail_sd_largest")
                    : Math.min(figures.factor("retail_sd_of_level") * level, figures.factor("retail_sd_cap"));
            variances.add(sd * sd);
        }
        double sum = variances.stream().mapToDouble(Double::doubleValue).sum();
        return variances.stream().map(v -> Math.sqrt(v - v * v / sum)).toList();
    }

    // Specifications

    /** Specification by name: one way for each primal, in the order of the primals. */
    Map<String, Map<String, String>> specifications() {
        Map<String, Map<String, String>> given = new LinkedHashMap<>();
        for (Map<String, String> row : ReferenceFigures.rows("specifications.csv")) {
            given.computeIfAbsent(row.get("specification"), name -> new LinkedHashMap<>())
                    .put(row.get("parent"), row.get("way"));
        }
        Map<String, Map<String, String>> ordered = new LinkedHashMap<>();
        given.forEach((name, ways) -> {
            Map<String, String> inOrder = new LinkedHashMap<>();
            primals().forEach(primal -> inOrder.put(primal.get("cut"), ways.get(primal.get("cut"))));
            ordered.put(name, inOrder);
        });
        return ordered;
    }

    private static String dissectedName(String tissue) {
        String name = DISSECTED.get(tissue);
        if (name == null) {
            throw new IllegalArgumentException(tissue + " is no dissected tissue");
        }
        return name;
    }

    private static Map<String, String> dissected() {
        Map<String, String> names = new LinkedHashMap<>();
        names.put(MEAT, "meat");
        names.put(FAT_TRIM, "fat");
        names.put(BONE, "bone");
        return names;
    }
}
