package org.beefyield.data.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.ReferencePrices;
import org.beefyield.data.table.ReferenceRows;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Support;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.pay.Marginals;
import org.beefyield.table.YieldTable;
import org.jspecify.annotations.Nullable;

/**
 * What a table says where others published a figure: the rows of {@code outside.csv}, of cattle and methods that the shipped
 * table isn't built from, and of {@code construction.csv}, of those that it is built from.
 */
final class PublishedYields {
    /**
     * A published figure beside the table's.
     *
     * @param published the figure
     * @param band how far the table's may be from it
     * @param agrees whether the table's is inside that band; where it isn't, the page of the table says so
     * @param ours the table's
     */
    record Line(
            String id,
            String what,
            String published,
            String unit,
            double band,
            boolean agrees,
            String n,
            String cattle,
            String source,
            String remark,
            double ours) {
        boolean inside() {
            return Math.abs(ours - Double.parseDouble(published)) <= band;
        }

        /** It is inside where it says so, its source is listed, and nothing that tells what it is of is missing. */
        void check() {
            assertThat(inside()).as("%s", this).isEqualTo(agrees);
            assertThat(ReferenceRows.of("sources.csv"))
                    .as(source)
                    .anySatisfy(row -> assertThat(row.get("source")).isEqualTo(source));
            assertThat(List.of(what, n, cattle)).as("%s", this).doesNotContain("");
        }
    }

    private static final double R = 8;
    private static final double KG = 340;
    private static final double SD_OF_CONFORMATION = 1.7;
    private static final double SD_OF_FAT = 1.5;
    private static final List<String> DEAR = ShippedTableDerivation.DEAR;
    private static final List<String> LEG = List.of("topside", "silverside", "eye-of-round", "knuckle");
    private static final List<String> HINDQUARTER =
            List.of("topside", "silverside", "knuckle", "rump", "striploin", "fillet", "cube-roll");

    private final YieldTable table;
    private final YieldEstimator estimator;

    PublishedYields(YieldTable table) {
        this.table = table;
        this.estimator = YieldEstimator.of(table).withSpecification("steaks");
    }

    List<Line> lines(String file) {
        return ReferenceRows.of(file).stream()
                .map(row -> new Line(
                        text(row, "id"),
                        text(row, "what"),
                        text(row, "published"),
                        text(row, "unit"),
                        Double.parseDouble(text(row, "band")),
                        !row.getOrDefault("agrees", "").equals("no"),
                        text(row, "n"),
                        text(row, "cattle"),
                        text(row, "source"),
                        text(row, "remark"),
                        ours(text(row, "id"))))
                .toList();
    }

    private static String text(Map<String, String> row, String column) {
        String text = row.get(column);
        if (text == null) {
            throw new IllegalArgumentException("no column " + column);
        }
        return text;
    }

    private double ours(String id) {
        return switch (id) {
            case "guide-rest" -> 100 - saleable(minced(15).estimate(carcass("C", R, 10.25, 318)));
            case "guide-striploin" ->
                estimator
                        .estimate(carcass("C", R, 10.25, 318))
                        .pieceKg("striploin")
                        .orElseThrow();
            case "o4h-u2" ->
                saleable(minced(15).estimate(carcass("C", 11, 5, 289.2)))
                        - saleable(minced(15).estimate(carcass("C", 5, 11.75, 289.2)));
            case "us-ribeye" -> percent(reference(366), "cube-roll");
            case "us-chuck" -> percent(reference(366), "blade", "shoulder", "chuck-neck");
            case "aus-outside" -> percent(reference(KG), "silverside", "eye-of-round");
            case "aus-topside", "aus-knuckle", "aus-striploin", "aus-fillet", "aus-cube-roll", "aus-meat", "aus-bone" ->
                percent(reference(KG), id.substring("aus-".length()));
            case "aus-fat" -> tissue(reference(KG), "fat-trim") / 10;
            case "quarters" -> percent(reference(246), "meat");
            case "hindquarter" -> hindquarterOfMuscle();
            case "mcgee-meat-ho" -> dissectedAtFat("C", 2, 165, "meat");
            case "mcgee-bone-ho" -> dissectedAtFat("C", 2, 165, "bone");
            case "mcgee-meat-fr" -> dissectedAtFat("C", 5, 200, "meat");
            case "mcgee-bone-fr" -> dissectedAtFat("C", 5, 200, "bone");
            case "mcgee-meat-ch" -> dissectedAtFat("C", 8.3, 165, "meat");
            case "mcgee-bone-ch" -> dissectedAtFat("C", 8.3, 165, "bone");
            case "mcgee-type-meat" -> dissectedAtFat("C", 8.3, 165, "meat") - dissectedAtFat("C", 2, 165, "meat");
            case "mcgee-type-bone" -> dissectedAtFat("C", 8.3, 165, "bone") - dissectedAtFat("C", 2, 165, "bone");
            case "keane-meat" -> change("C", R, 9, R, 10, "meat") / change("C", R, 9, R, 10, "fat-trim");
            case "keane-bone" -> change("C", R, 9, R, 10, "bone") / change("C", R, 9, R, 10, "fat-trim");
            case "nz-fat" -> saleablePerFatTrim();
            case "like-fat" -> correlationWithConformation(Figure.cut("tissue", "meat"));
            case "fat-corrected" -> correlationWithConformation(Figure.saleable());
            case "e-p-slovak", "e-p-czech" -> -change("A", 2, R, 14, R, "bone") / 10;
            case "sex-bone-us" -> (shareAtFat("A", R, 56.5, "bone") - shareAtFat("C", R, 121.5, "bone")) / 10;
            case "sex-bone-hr" -> (dissectedAtFat("E", 12, 105.8, "bone") - dissectedAtFat("A", 12, 72.7, "bone")) / 10;
            case "sex-meat-hr" -> (dissectedAtFat("E", 12, 105.8, "meat") - dissectedAtFat("A", 12, 72.7, "meat")) / 10;
            case "fr-bull-cow" -> saleableOf("A") - saleableOf("D");
            case "fr-mince" -> mincedPart("A") - mincedPart("D");
            case "nz-cube-roll" ->
                100
                        * (kg(estimator.estimate(carcass("C", R, 14, KG)), "cube-roll")
                                        / kg(estimator.estimate(carcass("C", R, 5, KG)), "cube-roll")
                                - 1);
            case "kempster-shank" -> exponent("heel-shank");
            case "kempster-rump" -> exponent("rump");
            case "kempster-chuck", "rubia-neck" -> exponent("chuck-neck");
            case "kempster-dear" -> exponent(DEAR.toArray(String[]::new));
            case "rubia-leg" -> exponent(LEG.toArray(String[]::new));
            case "rubia-belly" -> exponent("flank", "brisket");
            case "signs-conformation" ->
                count(List.of("striploin", "topside", "silverside", "eye-of-round", "knuckle"), 1, 11, 5, 8, 5)
                        + count(List.of("bone"), -1, 11, 5, 8, 5);
            case "signs-fat" ->
                count(List.of("topside", "silverside", "rump", "striploin", "knuckle", "bone"), -1, R, 8, R, 2)
                        + count(List.of("flank", "brisket"), 1, R, 8, R, 2);
            case "signs-conformation-sa" -> count(HINDQUARTER, 1, 11, R, 5, R);
            case "signs-fat-sa" -> count(HINDQUARTER, -1, R, 11, R, 5);
            case "nz-portion-fillet", "nz-portion-striploin", "nz-portion-cube-roll", "nz-portion-rump" ->
                portion(id.substring("nz-portion-".length()));
            case "scatter-lean" -> scatterOverLots();
            case "scatter-in-class" -> scatterInFatClass();
            case "dear-limousin" -> 10 * (ofMeat(R, DEAR) - ofMeat(5, DEAR));
            case "dear-sires" -> 10 * (ofMeat(11, DEAR) - ofMeat(5, DEAR));
            case "saleable-sires" ->
                10
                        * (saleable(estimator.estimate(carcass("C", 10.5, R, KG)))
                                - saleable(estimator.estimate(carcass("C", 5.5, R, KG))));
            case "fat-correlation-topside", "fat-correlation-rump", "fat-correlation-striploin" ->
                correlationWithFat(id.substring("fat-correlation-".length()));
            case "scatter-saleable" -> scatterOfSaleable();
            case "mean-meat" -> dissected(carcass("C", 6.8, 8.5, 333), "meat");
            case "mean-fat" -> dissected(carcass("C", 6.8, 8.5, 333), "fat-trim");
            case "mean-bone" -> dissected(carcass("C", 6.8, 8.5, 333), "bone");
            case "conformation-meat" -> dissectedChange(9, R, R, R, "meat");
            case "fat-meat" -> dissectedChange(R, 9, R, R, "meat");
            case "type-meat" -> dissectedChange(10, 9, 4, 9, "meat");
            case "type-fat" -> dissectedChange(10, 9, 4, 9, "fat-trim");
            case "type-bone" -> dissectedChange(10, 9, 4, 9, "bone");
            case "u3-meat" -> dissected(carcass("C", 11, R, KG), "meat") / 10;
            case "o3-meat" -> dissected(carcass("C", 5, R, KG), "meat") / 10;
            case "u3-bone" -> dissected(carcass("C", 11, R, KG), "bone") / 10;
            case "o3-bone" -> dissected(carcass("C", 5, R, KG), "bone") / 10;
            case "value-conformation" -> marginals().conformationPoint().perKg();
            case "value-fat" -> marginals().fatPoint().perKg();
            case "forequarter-bulls" -> forequarter("A") - forequarter("C");
            case "cow-meat" -> percent(estimator.estimate(carcass("D", 2, 5, KG)), "meat");
            default -> throw new IllegalArgumentException("nothing says how to work out " + id);
        };
    }

    private static Carcass carcass(String category, double conformation, double fat, double kg) {
        return Carcass.of(
                Category.parse(category), Conformation.ofPosition(conformation, 1), FatClass.ofPosition(fat, 1), kg);
    }

    private YieldEstimate reference(double kg) {
        return estimator.estimate(carcass("C", R, R, kg));
    }

    private YieldEstimator minced(double fatPercent) {
        return estimator.with(MinceTarget.fatPercent(fatPercent));
    }

    /** What the saleable weight of the reference carcass rests on. */
    Support support(String category, String specification) {
        return estimator
                .withSpecification(specification)
                .estimate(carcass(category, R, R, KG))
                .support();
    }

    private Marginals marginals() {
        Carcass reference = carcass("C", R, R, KG);
        return Marginals.of(ReferencePrices.valuer(estimator, reference), reference);
    }

    /** % of the reference carcass, with mince of a fat content or the lean trim as it is. */
    double saleable(@Nullable Double minceFatPercent) {
        return saleable(
                (minceFatPercent == null ? estimator : minced(minceFatPercent)).estimate(carcass("C", R, R, KG)));
    }

    private static double saleable(YieldEstimate estimate) {
        return 100 * estimate.saleableKg() / estimate.coldWeightKg();
    }

    /** At R+ 3=, with mince at 20 % fat. */
    private double saleableOf(String category) {
        return saleable(minced(20).estimate(carcass(category, 9, R, KG)));
    }

    private double mincedPart(String category) {
        YieldEstimate estimate = estimator.estimate(carcass(category, 9, R, KG));
        return 100 * (estimate.shareOfMeat(CutKind.DICE) + estimate.minceShare());
    }

    private double kg(YieldEstimate estimate, String cut) {
        return estimate.kg(table.catalogue().cut(cut).level(), cut);
    }

    private double percent(YieldEstimate estimate, String... cuts) {
        double sum = 0;
        for (String cut : cuts) {
            sum += kg(estimate, cut);
        }
        return 100 * sum / estimate.coldWeightKg();
    }

    private double ofMeat(double conformation, List<String> cuts) {
        YieldEstimate estimate = estimator.estimate(carcass("C", conformation, R, KG));
        return 100 * percent(estimate, cuts.toArray(String[]::new)) / percent(estimate, "meat");
    }

    /** g per kg of carcass. */
    private static double tissue(YieldEstimate estimate, String cut) {
        return 1000 * estimate.kg("tissue", cut) / estimate.coldWeightKg();
    }

    private double change(String category, double c0, double f0, double c1, double f1, String cut) {
        return tissue(estimator.estimate(carcass(category, c1, f1, KG)), cut)
                - tissue(estimator.estimate(carcass(category, c0, f0, KG)), cut);
    }

    /** g per kg of meat, fat trim and bone: a dissection has no boning loss. */
    private double dissected(Carcass carcass, String cut) {
        YieldEstimate estimate = estimator.estimate(carcass);
        return tissue(estimate, cut) / (1 - tissue(estimate, "loss") / 1000);
    }

    private double dissectedChange(double c1, double f1, double c0, double f0, String cut) {
        return dissected(carcass("C", c1, f1, KG), cut) - dissected(carcass("C", c0, f0, KG), cut);
    }

    /** At the fat class at which a dissection finds so much fat. */
    private double dissectedAtFat(String category, double conformation, double fatTrim, String cut) {
        double fat = solve(f -> dissected(carcass(category, conformation, f, KG), "fat-trim"), fatTrim);
        return dissected(carcass(category, conformation, fat, KG), cut);
    }

    private double shareAtFat(String category, double conformation, double fatTrim, String cut) {
        double fat =
                solve(f -> tissue(estimator.estimate(carcass(category, conformation, f, KG)), "fat-trim"), fatTrim);
        return tissue(estimator.estimate(carcass(category, conformation, fat, KG)), cut);
    }

    /** Fat position at which a rising quantity has a value. */
    private static double solve(DoubleUnaryOperator rising, double value) {
        double low = 1;
        double high = 15;
        if (rising.applyAsDouble(low) > value || rising.applyAsDouble(high) < value) {
            throw new IllegalArgumentException(value + " is at no fat class");
        }
        for (int step = 0; step < 60; step++) {
            double middle = (low + high) / 2;
            if (rising.applyAsDouble(middle) < value) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    private double hindquarterOfMuscle() {
        Map<String, Double> fore = table.foreShares("10-rib forequarter");
        YieldEstimate estimate = reference(KG);
        double hind = table.catalogue().cuts().stream()
                .filter(cut -> cut.kind() == CutKind.PRIMAL)
                .mapToDouble(cut -> estimate.kg(cut.code()) * (1 - fore.getOrDefault(cut.code(), 0.0)))
                .sum();
        return 1000 * hind / estimate.meatKg();
    }

    private double forequarter(String category) {
        YieldEstimate estimate = estimator.estimate(carcass(category, R, R, KG));
        return 100 * estimate.quarters("10-rib forequarter").foreKg() / KG;
    }

    /** Between fat classes 2 and 5, fat trim as it leaves the retail level. */
    private double saleablePerFatTrim() {
        YieldEstimate lean = estimator.estimate(carcass("C", R, 5, KG));
        YieldEstimate fat = estimator.estimate(carcass("C", R, 14, KG));
        return (fat.saleableKg() - lean.saleableKg()) / (fat.fatTrimKg() - lean.fatTrimKg());
    }

    /** Correlation over carcasses of one fat class that differ in conformation and by what carcasses and lots differ by. */
    private double correlationWithConformation(Figure figure) {
        double ofConformation = SD_OF_CONFORMATION * perPointOfConformation(figure);
        return ofConformation / Math.hypot(ofConformation, overLots(figure));
    }

    /** kg of the reference carcass. */
    private double perPointOfConformation(Figure figure) {
        return estimator.estimate(carcass("C", R + 0.5, R, KG)).kg(figure)
                - estimator.estimate(carcass("C", R - 0.5, R, KG)).kg(figure);
    }

    private double scatterInFatClass() {
        double ofConformation = SD_OF_CONFORMATION * perPointOfConformation(Figure.saleable());
        return 100 * Math.hypot(ofConformation, overLots(Figure.saleable())) / KG;
    }

    /** In one herd at equal weight, by the SD of the cut in the published figures on cuts. */
    private double correlationWithFat(String cut) {
        Map<String, String> row = ReferenceRows.of("cuts.csv").stream()
                .filter(one -> cut.equals(one.get("cut")))
                .findFirst()
                .orElseThrow();
        double sdKg = Double.parseDouble(text(row, "sg_at_weight_kg"))
                / Math.sqrt(Double.parseDouble(text(row, "h2_at_weight")));
        double perPoint = kg(estimator.estimate(carcass("C", R, R + 0.5, KG)), cut)
                - kg(estimator.estimate(carcass("C", R, R - 0.5, KG)), cut);
        return perPoint * SD_OF_FAT / sdKg;
    }

    private double overLots(Figure figure) {
        YieldEstimate estimate = reference(KG);
        return Math.hypot(
                estimate.sd(figure, UncertaintyPart.BETWEEN_CARCASSES), estimate.sd(figure, UncertaintyPart.LOT));
    }

    private double scatterOverLots() {
        return 100 * overLots(Figure.cut("tissue", "meat")) / KG;
    }

    private double scatterOfSaleable() {
        YieldEstimate estimate = estimator.counting(UncertaintyPart.inOwnHall()).estimate(carcass("C", R, R, KG));
        return 100 * estimate.sd(Figure.saleable()) / KG;
    }

    /** Of cuts together on all meat, by weight at one grade. */
    private double exponent(String... cuts) {
        YieldEstimate light = reference(KG - 1);
        YieldEstimate heavy = reference(KG + 1);
        double ofCuts =
                Math.log(percent(heavy, cuts) * heavy.coldWeightKg() / (percent(light, cuts) * light.coldWeightKg()));
        return ofCuts / Math.log(heavy.meatKg() / light.meatKg());
    }

    /** How many cuts change between two grades in a direction, as shares of the carcass. */
    private double count(List<String> cuts, int direction, double c1, double f1, double c0, double f0) {
        YieldEstimate from = estimator.estimate(carcass("A", c0, f0, KG));
        YieldEstimate to = estimator.estimate(carcass("A", c1, f1, KG));
        return cuts.stream()
                .filter(cut -> direction * (percent(to, cut) - percent(from, cut)) > 0)
                .count();
    }

    double portion(String primal) {
        YieldEstimate estimate = reference(KG);
        return 100 * estimate.kg(primal + "-steak") / estimate.kg("primal", primal);
    }
}
