package org.beefyield.price;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.price.TestPrices.steer;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class AttributionTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));

    private static final PriceList PRICES = TestPrices.BY_KIND.toBuilder()
            .otherPerHead("Hide", 25)
            .otherPerKg("Boning", -0.45)
            .build();

    private static final Valuer VALUER = Valuer.of(PRICES, ESTIMATOR);

    private static final Pattern GAP = Pattern.compile(" {2,}");

    private static Carcass carcass(Category category, String conformation, String fatClass, double kg) {
        return Carcass.of(category, Conformation.parse(conformation), FatClass.parse(fatClass), kg);
    }

    private static final Carcass GOOD = steer("U=", "3=", 340);
    private static final Carcass FAIR = steer("O=", "3=", 340);

    @Test
    void atEqualWeightAndFatAllOfTheDifferenceIsConformation() {
        Value good = VALUER.value(GOOD);
        Value fair = VALUER.value(FAIR);
        Attribution why = Attribution.of(good, fair);

        assertThat(why.difference()).isEqualTo(good.amount() - fair.amount()).isPositive();
        assertThat(why.amount(Factor.CONFORMATION)).isCloseTo(why.difference(), within(1e-9));
        for (Factor factor : Factor.values()) {
            if (factor != Factor.CONFORMATION) {
                assertThat(why.amount(factor)).as(factor.words()).isZero();
            }
        }
        assertThat(why.kg(Factor.CONFORMATION, "rump-steak"))
                .isCloseTo(
                        ESTIMATOR.estimate(GOOD).kg("rump-steak")
                                - ESTIMATOR.estimate(FAIR).kg("rump-steak"),
                        within(1e-9));
    }

    @Test
    void theSentenceSaysWhatItIsForAndWhichCutsMakeIt() {
        Attribution why = Attribution.of(VALUER.value(GOOD), VALUER.value(FAIR));

        assertThat(why.sentence())
                .isEqualTo("The U= 3= steer is worth " + why.money().amountText()
                        + " EUR more than the O= 3= steer of the same 340 kg, all of it for conformation: "
                        + more(CutKind.STEAK) + " more steaks, " + more(CutKind.DICE) + " more dice, "
                        + new BigDecimal(more(CutKind.BONE).replace(" kg", "")).negate() + " kg less bone.");
        assertThat(Attribution.of(VALUER.value(FAIR), VALUER.value(GOOD)).sentence())
                .startsWith("The O= 3= steer is worth " + why.money().amountText()
                        + " EUR less than the U= 3= steer of the same 340 kg, all of it for conformation: ")
                .endsWith(" kg more bone.");
    }

    private static String more(CutKind kind) {
        return String.format(
                Locale.ROOT,
                "%.1f kg",
                ESTIMATOR.estimate(GOOD).kg(kind) - ESTIMATOR.estimate(FAIR).kg(kind));
    }

    @Test
    void theSentenceSaysEveryFactorLargestFirstAndWhatSpeaksAgainst() {
        Attribution why = Attribution.of(VALUER.value(steer("R=", "4=", 360).withId("7")), VALUER.value(GOOD));

        assertThat(why.amount(Factor.WEIGHT)).isPositive();
        assertThat(why.amount(Factor.CONFORMATION)).isNegative();
        assertThat(why.amount(Factor.FAT_CLASS)).isNegative();
        assertThat(why.sentence())
                .matches("The R= 4= steer 7 of 360 kg is worth [0-9.]+ EUR (more|less) than the U= 3= steer of 340 kg: "
                        + ".*[0-9.]+ less for conformation.*; .* kg more fat trim\\.")
                .contains(" more for weight")
                .contains(" less for fat class");
    }

    @Test
    void equalsDifferInNothingAndTheSentenceSaysSo() {
        Attribution why = Attribution.of(VALUER.value(GOOD), VALUER.value(steer("U=", "3=", 340)));

        assertThat(why.difference()).isZero();
        assertThat(why.sentence()).isEqualTo("The U= 3= steer is worth as much as the U= 3= steer of the same 340 kg.");
        assertThat(why.lines()).allSatisfy(line -> {
            assertThat(line.amount()).isZero();
            assertThat(line.kg()).isZero();
        });
        assertThat(why.toText()).contains(why.sentence());
    }

    @Test
    void cuttingAndPricesAreFactorsToo() {
        YieldEstimator joints = ESTIMATOR.withSpecification("joints");
        Attribution cutting = Attribution.of(Valuer.of(PRICES, joints).value(GOOD), VALUER.value(GOOD));
        Attribution prices =
                Attribution.of(Valuer.of(PRICES.times(1.1), ESTIMATOR).value(GOOD), VALUER.value(GOOD));

        assertThat(cutting.amount(Factor.CUTTING)).isCloseTo(cutting.difference(), within(1e-9));
        assertThat(cutting.sentence())
                .startsWith("The U= 3= steer cut as joints is worth ")
                .contains(" less than the U= 3= steer of the same 340 kg cut as steaks, all of it for cutting: ")
                .contains(" more joints")
                .contains(" less steaks");
        assertThat(prices.amount(Factor.PRICE))
                .isCloseTo(0.1 * VALUER.value(GOOD).amount(), within(1e-9));
        assertThat(prices.sentence())
                .isEqualTo("The U= 3= steer at the first prices is worth "
                        + prices.money().amountText()
                        + " EUR more than the U= 3= steer of the same 340 kg at the second prices, all of it for"
                        + " prices.");
        assertThat(prices.amount(Factor.PRICE, "Hide")).isCloseTo(2.5, within(1e-9));
    }

    /** The definition taken literally: every order in which the six factors can change, one after the other. */
    @Test
    void everyPartIsTheMeanOverAllOrdersOfChange() {
        YieldEstimator minced = ESTIMATOR.withSpecification("joints").with(MinceTarget.fatPercent(20));
        Valuer ours = Valuer.of(
                PRICES.toBuilder().kind(CutKind.JOINT, 16).mince(20, 7).build(), minced);
        Carcass first = carcass(Category.COW, "R+", "4=", 371.5);
        Carcass second = steer("O-", "2+", 288);
        Attribution why = Attribution.of(ours.value(first), VALUER.value(second));

        List<Factor> six = new ArrayList<>(List.of(Factor.values()));
        six.remove(Factor.MIX);
        Map<Factor, Double> sums = new EnumMap<>(Factor.class);
        int orders = permute(six, 0, order -> {
            List<Factor> changed = new ArrayList<>();
            double before = mixed(changed, ours, first, second);
            for (Factor factor : order) {
                changed.add(factor);
                double after = mixed(changed, ours, first, second);
                sums.merge(factor, after - before, Double::sum);
                before = after;
            }
        });

        assertThat(orders).isEqualTo(720);
        double total = 0;
        for (Factor factor : six) {
            assertThat(why.amount(factor))
                    .as(factor.words())
                    .isCloseTo(sums.get(factor) / orders, within(1e-8))
                    .isNotZero();
            total += why.amount(factor);
        }
        assertThat(total).isCloseTo(why.difference(), within(1e-9));
        assertThat(why.amount(Factor.MIX)).isZero();
    }

    private static double mixed(List<Factor> changed, Valuer ours, Carcass first, Carcass second) {
        Valuer cutting = changed.contains(Factor.CUTTING) ? ours : VALUER;
        Valuer prices = changed.contains(Factor.PRICE) ? ours : VALUER;
        Carcass carcass = Carcass.of(
                (changed.contains(Factor.CATEGORY) ? first : second).category(),
                (changed.contains(Factor.CONFORMATION) ? first : second).conformation(),
                (changed.contains(Factor.FAT_CLASS) ? first : second).fatClass(),
                (changed.contains(Factor.WEIGHT) ? first : second).coldWeightKg());
        return Valuer.of(prices.prices(), cutting.estimator()).value(carcass).amount();
    }

    private static int permute(List<Factor> factors, int from, Consumer<List<Factor>> each) {
        if (from == factors.size()) {
            each.accept(factors);
            return 1;
        }
        int orders = 0;
        for (int i = from; i < factors.size(); i++) {
            Collections.swap(factors, from, i);
            orders += permute(factors, from + 1, each);
            Collections.swap(factors, from, i);
        }
        return orders;
    }

    @Test
    void whatCannotBeComparedIsRefused() {
        YieldEstimator small = YieldEstimator.of(YieldTable.of(TestTables.small()));
        PriceList primals = PRICES.toBuilder().kind(CutKind.PRIMAL, 10).build();
        Value good = VALUER.value(GOOD);
        Value drawn = VALUER.value(
                ESTIMATOR.estimate(GOOD).sample(new Random(1), 1).carcasses().get(0));

        assertThatThrownBy(() -> Attribution.of(
                        good, Valuer.of(primals, ESTIMATOR, "primal").value(FAIR)))
                .hasMessageStartingWith("values are compared only from the same table at the same level: ");
        assertThatThrownBy(() -> Attribution.of(good, Valuer.of(primals, small).value(FAIR)))
                .hasMessageStartingWith("values are compared only from the same table at the same level: ");
        PriceList pounds = PriceList.builder("GBP")
                .kind(CutKind.STEAK, 1)
                .kind(CutKind.JOINT, 1)
                .kind(CutKind.DICE, 1)
                .kind(CutKind.LEAN_TRIM, 1)
                .kind(CutKind.FAT_TRIM, 1)
                .kind(CutKind.BONE, 1)
                .kind(CutKind.LOSS, 1)
                .build();
        assertThatThrownBy(
                        () -> Attribution.of(good, Valuer.of(pounds, ESTIMATOR).value(FAIR)))
                .hasMessage("amounts in EUR and in GBP don't go together; bring them to one currency first");
        assertThatThrownBy(() -> Attribution.of(good, drawn))
                .hasMessage("a drawn carcass can't be attributed; take the estimate of a carcass or a lot");
        assertThatThrownBy(() -> Attribution.of(good, VALUER.value(FAIR)).amount(Factor.WEIGHT, "Hiding"))
                .hasMessageStartingWith("no line \"Hiding\"; there are striploin-steak, ");
    }

    @Test
    void aLotOfOneIsItsCarcass() {
        Value first = VALUER.value(ESTIMATOR.estimateLot(List.of(steer("E-", "2+", 402.5))));
        Attribution lots = Attribution.of(first, VALUER.value(ESTIMATOR.estimateLot(List.of(FAIR))));
        Attribution carcasses = Attribution.of(VALUER.value(steer("E-", "2+", 402.5)), VALUER.value(FAIR));

        for (Factor factor : Factor.values()) {
            assertThat(lots.amount(factor)).as(factor.words()).isCloseTo(carcasses.amount(factor), within(1e-9));
        }
    }

    /** Where weight and grade enter in products, spread and pairing leave something that averages don't show. */
    @Test
    void mixIsWhatTheAveragesOfALotDoNotShow() {
        LotEstimate paired = ESTIMATOR.estimateLot(List.of(steer("U=", "3=", 400), steer("O=", "3=", 280)));
        LotEstimate crossed = ESTIMATOR.estimateLot(List.of(steer("O=", "3=", 400), steer("U=", "3=", 280)));
        Attribution why = Attribution.of(VALUER.value(paired), VALUER.value(crossed));

        // a better shape is worth more on a heavier carcass
        assertThat(why.difference()).isPositive();
        assertThat(why.amount(Factor.MIX)).isCloseTo(why.difference(), within(1e-9));
        assertThat(why.sentence())
                .startsWith("A head of the first lot (2 head) is worth "
                        + why.money().amountText()
                        + " EUR more than a head of the second lot (2 head) of the same 340.0 kg on average, all of it"
                        + " for mix of grades and weights");
    }

    @Test
    void sharesOfCategoriesAreAFactorOfLots() {
        LotEstimate steers = ESTIMATOR.estimateLot(List.of(GOOD, GOOD));
        LotEstimate half = ESTIMATOR.estimateLot(List.of(GOOD, carcass(Category.COW, "U=", "3=", 340)));
        Attribution why = Attribution.of(VALUER.value(steers), VALUER.value(half));

        assertThat(why.difference()).isPositive();
        assertThat(why.amount(Factor.CATEGORY)).isCloseTo(why.difference(), within(1e-9));
    }

    /** By the kg a heavier carcass of the same grade is worth nothing more where no share hangs on weight, per head all of it. */
    @Test
    void byTheKgFactorsAddUpToTheValueOfAKg() {
        Attribution why = Attribution.of(VALUER.value(steer("U=", "4=", 410)), VALUER.value(steer("R-", "2+", 290)));
        double sum = 0;
        for (Factor factor : Factor.values()) {
            sum += why.perKg(factor);
        }
        assertThat(sum).isCloseTo(why.perKg(), within(1e-12));
        assertThat(why.perKg()).isEqualTo(why.first().perKg() - why.second().perKg());
        Attribution heavier =
                Attribution.of(VALUER.value(steer("R=", "3=", 410)), VALUER.value(steer("R=", "3=", 290)));
        assertThat(heavier.perKg(Factor.WEIGHT)).isCloseTo(heavier.perKg(), within(1e-12));
        assertThat(heavier.toText()).contains("\nBy the kg cold it is worth ");
        Attribution same = Attribution.of(VALUER.value(steer("U=", "3=", 340)), VALUER.value(steer("R=", "3=", 340)));
        assertThat(same.toText()).doesNotContain("By the kg cold").contains("\nWeighed, these very carcasses: from ");
    }

    @Test
    void everyTableAddsUpAlongRowsAndColumnsAsPrinted() {
        YieldEstimator joints = ESTIMATOR.withSpecification("joints");
        Attribution why = Attribution.of(
                Valuer.of(PRICES.times(1.0371), joints).value(carcass(Category.COW, "R+", "4=", 371.5)),
                VALUER.value(steer("O-", "2+", 288.3)));

        assertThat(why.money()).isEqualTo(why.first().money().minus(why.second().money()));
        addsUp(why.amountTable().toText(), why.money().amountText());
        addsUp(why.kgTable().toText(), "83.200");
        assertThat(why.kgTable().toText()).doesNotContain("Hide");
        assertThat(why.factorTable().toText())
                .contains("The O- 2+ steer of 288.3 kg cut as steaks at the second prices ")
                .contains("The R+ 4= cow of 371.5 kg cut as joints at the first prices ");
        String[] bridge = why.factorTable().toText().split("\n", -1);
        String[] last = bridge[bridge.length - 2].split(" {2,}", -1);
        for (int column = 1; column <= 2; column++) {
            BigDecimal at = new BigDecimal(bridge[2].split(" {2,}", -1)[column].replace(",", ""));
            for (int i = 3; !bridge[i].startsWith("-"); i++) {
                at = at.add(new BigDecimal(bridge[i].split(" {2,}", -1)[column].replace(",", "")));
            }
            assertThat(at.toPlainString()).isEqualTo(last[column].replace(",", ""));
        }
        assertThat(last[1].replace(",", "")).isEqualTo(why.first().money().amountText());
        assertThat(new BigDecimal(last[2]))
                .isCloseTo(BigDecimal.valueOf(why.first().perKg()), within(new BigDecimal("0.0006")));
        assertThat(why.lines())
                .extracting(Attribution.Line::name)
                .startsWith("Striploin steak", "Rump steak", "Striploin joint")
                .endsWith("Fat trim", "Bone", "Loss", "Hide", "Boning");
        assertThat(why.lineTable().toText())
                .contains("Total")
                .containsPattern("Total +83.200 +" + why.money().amountText());
        assertThat(why.toHtml()).contains(">83.200<").contains(">" + why.money().amountText() + "<");
    }

    private static String last(String line) {
        return line.substring(line.lastIndexOf(' ') + 1);
    }

    private static void addsUp(String text, String whole) {
        List<String> lines = text.lines().toList();
        BigDecimal[] sums = null;
        for (String line : lines.subList(2, lines.size() - 2)) {
            BigDecimal[] cells = cells(line);
            BigDecimal row = BigDecimal.ZERO;
            for (int j = 0; j < cells.length - 1; j++) {
                row = row.add(cells[j]);
            }
            assertThat(row).as(line).isEqualTo(cells[cells.length - 1]);
            sums = sums == null ? new BigDecimal[cells.length] : sums;
            for (int j = 0; j < cells.length; j++) {
                sums[j] = sums[j] == null ? cells[j] : sums[j].add(cells[j]);
            }
        }
        assertThat(cells(lines.get(lines.size() - 1))).containsExactly(sums);
        assertThat(last(lines.get(lines.size() - 1))).isEqualTo(whole);
    }

    private static BigDecimal[] cells(String line) {
        String[] cells = GAP.split(line, -1);
        BigDecimal[] numbers = new BigDecimal[cells.length - 1];
        for (int j = 0; j < numbers.length; j++) {
            numbers[j] = new BigDecimal(cells[j + 1]);
        }
        return numbers;
    }

    @Test
    void namesAreEscaped() {
        Valuer odd = Valuer.of(PRICES.toBuilder().otherPerHead("<i>\"Salt\"", 1).build(), ESTIMATOR);
        assertThat(Attribution.of(odd.value(GOOD.withId("<b>")), VALUER.value(FAIR))
                        .toHtml())
                .contains("&lt;i&gt;&quot;Salt&quot;")
                .contains("steer &lt;b&gt;")
                .doesNotContain("<i>")
                .doesNotContain("<b>");
    }
}
