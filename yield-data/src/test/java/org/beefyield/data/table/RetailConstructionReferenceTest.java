package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.Overfat;
import org.beefyield.feedback.OverfatCost;
import org.beefyield.table.definition.BreakdownRow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The retail level of the shipped table: does it follow from the cutting tests and factors that it was made of? */
class RetailConstructionReferenceTest {
    /** Of the fat that cutting tests took off, what dissected meat still has: an assumption. */
    private static final double FAT_KEPT = 0.15;

    /**
     * dryaging2016 and retailaus, retail.csv: tests averaged, fat and waste × 0.15, the rest scaled up to close, whole
     * grams by largest remainder; purge is the loss.
     */
    @ParameterizedTest
    @CsvSource({"rump, rump", "striploin, striploin", "cube-roll, cube roll"})
    void steaksWayFollowsFromTheCuttingTests(String cut, String name) {
        List<Map<String, String>> tests = ReferenceRows.of("retail.csv").stream()
                .filter(row -> name.equals(row.get("primal")))
                .toList();
        assertThat(tests).hasSize(2);
        Map<CutKind, Double> grams = new LinkedHashMap<>();
        grams.put(CutKind.STEAK, mean(tests, "steaks_%") + mean(tests, "second_steaks_%"));
        grams.put(CutKind.DICE, mean(tests, "diced_%"));
        grams.put(CutKind.LEAN_TRIM, mean(tests, "lean_trim_%"));
        grams.put(CutKind.LOSS, mean(tests, "purge_%"));
        double kept = grams.values().stream().mapToDouble(Double::doubleValue).sum();
        double fatTrim = (100 - kept) * FAT_KEPT;
        grams.replaceAll((kind, percent) -> 10 * percent * (100 - fatTrim) / kept);
        grams.put(CutKind.FAT_TRIM, 10 * fatTrim);

        Map<CutKind, Double> shipped = new LinkedHashMap<>();
        way(cut, "steaks")
                .forEach(row -> shipped.put(
                        Shipped.TABLE.catalogue().cut(row.cut()).kind(),
                        row.coefficients().get(0)));
        assertThat(shipped).isEqualTo(whole(grams));
    }

    private static double mean(List<Map<String, String>> tests, String column) {
        return tests.stream()
                .map(test -> test.getOrDefault(column, ""))
                .mapToDouble(cell -> cell.isEmpty() ? 0 : Double.parseDouble(cell))
                .average()
                .orElseThrow();
    }

    private static Map<CutKind, Double> whole(Map<CutKind, Double> grams) {
        Map<CutKind, Double> whole = new LinkedHashMap<>();
        grams.forEach((kind, value) -> whole.put(kind, Math.floor(value)));
        long missing = 1000
                - Math.round(
                        whole.values().stream().mapToDouble(Double::doubleValue).sum());
        List<CutKind> byRemainder = new ArrayList<>(grams.keySet());
        byRemainder.sort(Comparator.comparingDouble(kind -> whole.get(kind) - grams.get(kind)));
        byRemainder.stream().limit(missing).forEach(kind -> whole.merge(kind, 1.0, Double::sum));
        return whole;
    }

    /** chuckround and voges2006, retail.csv: mean fat of the fatter and the leaner grade × 0.15, in every way of the cut. */
    @ParameterizedTest
    @CsvSource({
        "silverside, silverside flat, 16",
        "knuckle, knuckle, 6",
        "shoulder, shoulder (leg of mutton cut), 35",
        "blade, chuck tender and feather, 21"
    })
    void fatTrimFollowsFromThePublishedFat(String cut, String name, double grams) {
        List<Double> published = fatOfGrades(name);

        assertThat(10 * FAT_KEPT * (published.get(0) + published.get(1)) / 2).isCloseTo(grams, within(0.5));
        assertThat(fatTrimRows(cut))
                .isNotEmpty()
                .allSatisfy(row -> assertThat(row.coefficients().get(0)).isEqualTo(grams));
    }

    /** voges2006: of the topside only the saleable share is published; fat is what is left without a loss of 0.8 %. */
    @Test
    void fatTrimOfTheTopsideFollowsFromThePublishedSaleableShare() {
        List<Double> saleable = ReferenceRows.numbers(
                ReferenceRows.row("retail.csv", "primal", "topside").getOrDefault("steaks_%", ""));
        assertThat(saleable).containsExactly(80.13, 87.34);

        double grams = 10 * FAT_KEPT * (100 - 0.8 - (saleable.get(0) + saleable.get(1)) / 2);
        assertThat(fatTrimRows("topside"))
                .hasSize(3)
                .allSatisfy(row -> assertThat(row.coefficients().get(0)).isCloseTo(grams, within(0.5)));
    }

    /**
     * An assumption: the fat cut off a primal changes by 8 % of itself per point of fat, the other children in proportion.
     * voges2006 and chuckround: the fatter and the leaner grade of a pair differ by 6 to 24 % of their mean a point, if they
     * are three points apart.
     */
    @Test
    void fatCutOffAPrimalChangesByEightPercentOfItselfAPoint() {
        List<Double> percentAPoint = new ArrayList<>();
        for (String name :
                List.of("silverside flat", "knuckle", "shoulder (leg of mutton cut)", "chuck tender and feather")) {
            List<Double> fat = fatOfGrades(name);
            percentAPoint.add(100 * (fat.get(0) - fat.get(1)) / ((fat.get(0) + fat.get(1)) / 2) / 3);
        }
        percentAPoint.sort(Comparator.naturalOrder());
        assertThat(percentAPoint.get(0)).isCloseTo(5.6, within(0.05));
        assertThat(percentAPoint.get(3)).isCloseTo(23.6, within(0.05));

        int ways = 0;
        for (String cut : Shipped.primals()) {
            for (String name : Shipped.TABLE.ways(cut)) {
                ways++;
                List<BreakdownRow> way = way(cut, name);
                double fatTrim = fatTrim(way).coefficients().get(0);
                double largest = way.stream()
                        .mapToDouble(row -> row.coefficients().get(0))
                        .max()
                        .orElseThrow();
                for (BreakdownRow row : way) {
                    double level = row.coefficients().get(0);
                    assertThat(row.coefficients().get(2))
                            .as("%s", row)
                            .isCloseTo(
                                    row.cut().equals("fat-trim")
                                            ? 0.08 * level
                                            : -0.08 * fatTrim * level / (1000 - fatTrim),
                                    // the largest takes what the others' rounding leaves
                                    within(level == largest ? way.size() * 0.00005 : 0.000051));
                    assertThat(row.coefficients().get(1)).as("%s", row).isZero();
                    assertThat(row.coefficients().get(3)).as("%s", row).isZero();
                }
            }
        }
        assertThat(ways).isEqualTo(33);
    }

    /** R= 3=, 340 kg under steaks, % of the cold weight; a fat content of 0 stands for lean trim as it is. */
    @ParameterizedTest
    @CsvSource({"0, 66.9", "15, 68.0", "20, 70.2"})
    void saleableShareOfTheReferenceCarcassIsTheOneWorkedOut(double minceFatPercent, double percent) {
        YieldEstimator steaks = Shipped.ESTIMATOR.withSpecification("steaks");
        YieldEstimate estimate = (minceFatPercent == 0 ? steaks : steaks.with(MinceTarget.fatPercent(minceFatPercent)))
                .estimate(steer("R=", "3=", Shipped.KG));

        assertThat(100 * estimate.saleableKg() / Shipped.KG).isCloseTo(percent, within(0.1));
    }

    /** grange, on the way over a fat target: 3.75 points at 300 kg, 0.994 of 9.6, 12.0 and 2.4 g/kg a point. */
    @ParameterizedTest
    @CsvSource({"meat, -9.6", "fat-trim, 12.0", "bone, -2.4"})
    void fatterByThreeQuartersOfAClassCostsWhatThePublishedSlopesSay(String cut, double gramsAPoint) {
        OverfatCost cost = Overfat.against(Shipped.ESTIMATOR, FatClass.parse("3="))
                .cost(steer("R=", "4H", 300))
                .orElseThrow();

        assertThat(cost.more(Figure.cut("tissue", cut)).kg())
                .isCloseTo(3.75 * 0.3 * 0.994 * gramsAPoint, within(0.0005));
    }

    private static Carcass steer(String conformation, String fatClass, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fatClass), kg);
    }

    /** % of a primal that was fat in the fatter and in the leaner grade of a cutting test. */
    private static List<Double> fatOfGrades(String name) {
        List<Double> fat = ReferenceRows.numbers(
                ReferenceRows.row("retail.csv", "primal", name).getOrDefault("fat_trim_%", ""));
        assertThat(fat).hasSize(2);
        return fat;
    }

    private static List<BreakdownRow> way(String parent, String way) {
        return Shipped.TABLE.definition().breakdown().stream()
                .filter(row -> row.parent().equals(parent) && row.way().equals(way))
                .toList();
    }

    private static BreakdownRow fatTrim(List<BreakdownRow> way) {
        return way.stream()
                .filter(row -> row.cut().equals("fat-trim"))
                .findFirst()
                .orElseThrow();
    }

    private static List<BreakdownRow> fatTrimRows(String parent) {
        return Shipped.TABLE.ways(parent).stream()
                .map(name -> fatTrim(way(parent, name)))
                .toList();
    }
}
