package org.beefyield.data.derivation;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

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

    private final ReferenceFigures figures = new ReferenceFigures();
    private final List<Map<String, String>> cuts = ReferenceFigures.rows("table-cuts.csv");

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
        List<BreakdownRow> rows = new ArrayList<>(tissueRows());
        rows.addAll(otherCategoryRows());
        rows.addAll(primalRows());
        rows.addAll(retailRows());
        return rows.stream().map(BreakdownRow::rounded).toList();
    }

    // Tissue level

    /** Carcass to meat, fat trim, bone and loss, for steers; bone and loss serve every category. */
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
                    figures.factor("tissue_per_100kg", tissue),
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

    /** Categories without coefficients of their own: rows of steers, so that what each level may be off can stand there. */
    List<BreakdownRow> otherCategoryRows() {
        List<BreakdownRow> rows = new ArrayList<>();
        for (String letter : List.of("E", "A", "B", "D")) {
            for (BreakdownRow row : tissueRows().subList(0, 2)) {
                rows.add(row.forCategory(letter, "other-categories"));
            }
        }
        return rows;
    }

    /** Standard error of the level of meat and of fat trim in a category that isn't the steers'. */
    double levelStandardError(String letter) {
        return figures.factor("level_error", letter);
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
        List<BreakdownRow> rows = new ArrayList<>();
        for (Map<String, String> cut : primals()) {
            rows.add(new BreakdownRow(
                    ANY,
                    ANY,
                    MEAT,
                    cut.get("cut"),
                    1000 * primalShare(cut),
                    primalConformationSlope(cut),
                    primalFatSlope(cut),
                    primalWeightSlope(cut),
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

    /** The cut's mean weight as a fraction of the sum of all. */
    double primalShare(Map<String, String> cut) {
        return published(cut, "mean_kg") / sumOfMeanWeights();
    }

    /** kg: the mean cattle's meat. */
    double sumOfMeanWeights() {
        return primals().stream().mapToDouble(cut -> published(cut, "mean_kg")).sum();
    }

    /**
     * The change of meat with conformation is given to the cuts in proportion to genetic correlation with conformation
     * times genetic SD, both at equal weight and fat; what a cut changes per kg of carcass is then turned into g per kg
     * of meat.
     */
    double primalConformationSlope(Map<String, String> cut) {
        double ofMeat = tissueSlope(MEAT, "conformation");
        double perKgCarcass = ofMeat * conformationResponse(cut) / sumOfConformationResponses();
        return perKgOfMeat(cut, perKgCarcass, ofMeat);
    }

    double sumOfConformationResponses() {
        return primals().stream().mapToDouble(this::conformationResponse).sum();
    }

    private double conformationResponse(Map<String, String> cut) {
        return published(cut, "rg_conformation_at_weight_fat") * published(cut, "sg_at_weight_fat_kg");
    }

    /** Likewise with fat: genetic correlation with carcass fat times genetic SD, neither at equal weight. */
    double primalFatSlope(Map<String, String> cut) {
        double ofMeat = tissueSlope(MEAT, "fat");
        double perKgCarcass = ofMeat * fatResponse(cut) / sumOfFatResponses();
        return perKgOfMeat(cut, perKgCarcass, ofMeat);
    }

    double sumOfFatResponses() {
        return primals().stream().mapToDouble(this::fatResponse).sum();
    }

    private double fatResponse(Map<String, String> cut) {
        return published(cut, "rg_fat") * published(cut, "sg_kg");
    }

    private double perKgOfMeat(Map<String, String> cut, double perKgCarcass, double ofMeat) {
        return (perKgCarcass - primalShare(cut) * ofMeat) / meatFraction();
    }

    /** From the exponent of the cut's weight on the weight of meat, less what all cuts would change together. */
    double primalWeightSlope(Map<String, String> cut) {
        double ofAll = primals().stream()
                .mapToDouble(other -> primalShare(other) * relativeChangePer100Kg(other))
                .sum();
        return 1000 * primalShare(cut) * (relativeChangePer100Kg(cut) - ofAll);
    }

    private double relativeChangePer100Kg(Map<String, String> cut) {
        double hundreds = figures.factor("reference", "weight_kg") / 100;
        return (figures.factor("exponent", cut.get("cut")) - 1) / hundreds;
    }

    /**
     * SD of the cut at equal weight (genetic SD over the root of heritability), of which grade explains a part, less in
     * quadrature what the SD of meat gives already.
     */
    double primalSd(Map<String, String> cut) {
        double kg = published(cut, "sg_at_weight_kg") / Math.sqrt(published(cut, "h2_at_weight"));
        double perKgCarcass =
                kg / figures.factor("reference", "weight_kg") * 1000 * figures.factor("primal_sd_left_by_grade");
        double throughMeat = figures.factor("tissue_sd", MEAT) * primalShare(cut);
        return Math.sqrt(perKgCarcass * perKgCarcass - throughMeat * throughMeat) / meatFraction();
    }

    private double meatFraction() {
        return tissueLevel(MEAT) / 1000;
    }

    private double published(Map<String, String> cut, String column) {
        return figures.cut(cut.get("reference_name"), column);
    }

    // Retail level

    /** Primals to retail cuts, in the order of the primals; levels don't depend on the carcass. */
    List<BreakdownRow> retailRows() {
        List<BreakdownRow> rows = new ArrayList<>();
        for (Map<String, String> primal : primals()) {
            for (List<Map<String, String>> way : waysOf(primal.get("cut")).values()) {
                List<Double> levels = way.stream()
                        .map(row -> Double.valueOf(row.get("g_per_kg")))
                        .toList();
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
                            0,
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

    /**
     * The `steaks` way of a primal from its published cutting tests, in whole g/kg: each test closed on fat trim and
     * waste, tests averaged, fat trim and waste reduced because the shipped primal is already free of separable fat,
     * the rest scaled up, whole grams by largest remainder. Purge is the loss.
     */
    Map<String, Integer> steaksWayFromCuttingTests(String referenceName) {
        List<Map<String, String>> tests = ReferenceFigures.rows("retail.csv").stream()
                .filter(row -> row.get("primal").equals(referenceName))
                .toList();
        double steaks = mean(tests, "steaks_%") + mean(tests, "second_steaks_%");
        double dice = mean(tests, "diced_%");
        double leanTrim = mean(tests, "lean_trim_%");
        double purge = mean(tests, "purge_%");
        double kept = steaks + dice + leanTrim + purge;
        double fatTrim = (100 - kept) * figures.factor("retail_fat_kept");
        double scale = (100 - fatTrim) / kept;
        Map<String, Double> exact = new LinkedHashMap<>();
        exact.put("steak", steaks * scale * 10);
        exact.put("dice", dice * scale * 10);
        exact.put("lean-trim", leanTrim * scale * 10);
        exact.put(FAT_TRIM, fatTrim * 10);
        exact.put(LOSS, purge * scale * 10);
        return wholeGrams(exact);
    }

    private static double mean(List<Map<String, String>> tests, String column) {
        return tests.stream()
                .map(test -> test.get(column))
                .mapToDouble(cell -> cell.isEmpty() ? 0 : Double.parseDouble(cell))
                .average()
                .orElseThrow();
    }

    private static Map<String, Integer> wholeGrams(Map<String, Double> exact) {
        Map<String, Integer> whole = new LinkedHashMap<>();
        TreeMap<Double, String> byRemainder = new TreeMap<>();
        exact.forEach((cut, value) -> {
            whole.put(cut, (int) Math.floor(value));
            byRemainder.put(value - Math.floor(value), cut);
        });
        int missing = 1000 - whole.values().stream().mapToInt(Integer::intValue).sum();
        byRemainder.descendingMap().values().stream().limit(missing).forEach(cut -> whole.merge(cut, 1, Integer::sum));
        return whole;
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
