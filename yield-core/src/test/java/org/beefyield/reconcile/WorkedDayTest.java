package org.beefyield.reconcile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.beefyield.estimate.UncertaintyPart;
import org.junit.jupiter.api.Test;

/** A day of the invented Tarrowmere hall, of which expected weights and SDs are given. */
class WorkedDayTest {
    private static final double COLD_KG = 80206.8;
    private static final double INTAKE_KG = 79560;

    /** An SD of 15.8 kg within the run and such a one of the run that both come to 78.8 kg. */
    private static final Map<UncertaintyPart, Double> STRIPLOIN_SDS =
            Map.of(UncertaintyPart.BETWEEN_CARCASSES, 15.8, UncertaintyPart.RUN, Math.sqrt(78.8 * 78.8 - 15.8 * 15.8));

    private static final GroupFigures STRIPLOIN =
            GroupFigures.of("Striploin steak", 3029.8, 2934.6, STRIPLOIN_SDS).at(16.4);

    private static final List<GroupFigures> DAY = List.of(
            GroupFigures.of("Fillet", 1203.1, 1187.42, sds(9.1)).at(31.5),
            STRIPLOIN,
            GroupFigures.of("Topside joint", 5614.5, 5590.15, sds(41.2)).at(9.85),
            GroupFigures.of("Dice", 14917.3, 14880.6, sds(160.4)).at(7.95),
            GroupFigures.of("Mince", 29010.2, 28760.033, sds(420)).at(4.72),
            GroupFigures.of("Fat trim", 9785.1, 9701.5, sds(310)).at(0.31),
            GroupFigures.of("Bone", 15840.4, 15690.8, sds(205)).at(-0.085));

    private static Map<UncertaintyPart, Double> sds(double within) {
        return Map.of(UncertaintyPart.BETWEEN_CARCASSES, within, UncertaintyPart.RUN, 2 * within);
    }

    private static Reconciliation day() {
        return Reconciliation.of("Mereside 2026-11-03", COLD_KG, INTAKE_KG, DAY, "EUR", 2);
    }

    @Test
    void theIntakeWeightComesFirst() {
        assertThat(day().factor()).isCloseTo(0.991936, within(5e-7));
        GroupLine line = day().line("Striploin steak");
        assertThat(line.scaledKg()).isCloseTo(3005.4, within(0.05));
        assertThat(day().kg("Striploin steak", Cause.WEIGHT)).isCloseTo(-24.4, within(0.05));
        assertThat(day().kg("Striploin steak", Cause.CUTTING)).isCloseTo(-70.8, within(0.05));
        assertThat(line.differenceKg()).isCloseTo(-70.8, within(0.05));
        assertThat(line.differencePct().orElseThrow()).isCloseTo(-2.4, within(0.05));
    }

    @Test
    void aRunThatForgetsItsDayLooksWrong() {
        GroupLine line = day().line("Striploin steak");
        Set<UncertaintyPart> withinRun = EnumSet.complementOf(EnumSet.of(UncertaintyPart.RUN));
        assertThat(line.z(withinRun).orElseThrow()).isCloseTo(-4.5, within(0.05));
        assertThat(line.z().orElseThrow()).isCloseTo(-0.9, within(0.05));
        assertThat(line.sdKg() / day().factor()).isCloseTo(78.8, within(1e-9));
    }

    @Test
    void theDayClosesToTheGramAndTheCent() {
        assertClosed(day());
        assertThat(day().kgTable().toText()).isEqualTo("""
                kg                  expected  intake weight  cutting    weighed
                ---------------------------------------------------------------
                Fillet              1203.100         -9.702   -5.978   1187.420
                Striploin steak     3029.800        -24.433  -70.767   2934.600
                Topside joint       5614.500        -45.276   20.926   5590.150
                Dice               14917.300       -120.295   83.595  14880.600
                Mince              29010.200       -233.943  -16.224  28760.033
                Fat trim            9785.100        -78.909   -4.691   9701.500
                Bone               15840.400       -127.739  -21.861  15690.800
                losses, unweighed    806.400         -6.503   15.000    814.897
                ---------------------------------------------------------------
                Total              80206.800       -646.800    0.000  79560.000
                """);
        assertThat(day().money(Cause.WEIGHT).plus(day().money(Cause.CUTTING)).plus(day().baselineMoney()))
                .isEqualTo(day().weighedMoney());
        assertThat(day().money("Striploin steak", Cause.CUTTING)).hasToString("-1160.58 EUR");
    }

    /** Of every table of causes each row and column adds up as printed. */
    private static void assertClosed(Reconciliation reconciliation) {
        List<List<BigDecimal>> kg = figures(reconciliation.kgTable().toText());
        assertAddsUp(kg);
        List<BigDecimal> weighed =
                kg.stream().map(row -> row.get(row.size() - 1)).toList();
        for (int i = 0; i < reconciliation.lines().size(); i++) {
            assertThat(weighed.get(i))
                    .isEqualByComparingTo(BigDecimal.valueOf(
                            Math.round(1000 * reconciliation.lines().get(i).weighedKg()), 3));
        }
        assertThat(weighed.get(weighed.size() - 1))
                .isEqualByComparingTo(BigDecimal.valueOf(Math.round(1000 * reconciliation.intakeKg()), 3));
        assertAddsUp(figures(reconciliation.moneyTable().toText()));
    }

    private static final Pattern FIGURE = Pattern.compile(" (-?[0-9]+\\.[0-9]+)");

    private static List<List<BigDecimal>> figures(String table) {
        List<List<BigDecimal>> figures = new ArrayList<>();
        for (String line : table.split("\n", -1)) {
            Matcher matcher = FIGURE.matcher(line);
            List<BigDecimal> row = new ArrayList<>();
            while (matcher.find()) {
                row.add(new BigDecimal(matcher.group(1)));
            }
            if (!row.isEmpty()) {
                figures.add(row);
            }
        }
        return figures;
    }

    private static void assertAddsUp(List<List<BigDecimal>> figures) {
        int last = figures.get(0).size() - 1;
        BigDecimal[] sums = new BigDecimal[last + 1];
        Arrays.fill(sums, BigDecimal.ZERO);
        for (List<BigDecimal> row : figures) {
            assertThat(row.subList(0, last).stream().reduce(BigDecimal.ZERO, BigDecimal::add))
                    .isEqualByComparingTo(row.get(last));
        }
        for (List<BigDecimal> row : figures.subList(0, figures.size() - 1)) {
            for (int j = 0; j <= last; j++) {
                sums[j] = sums[j].add(row.get(j));
            }
        }
        for (int j = 0; j <= last; j++) {
            assertThat(sums[j])
                    .isEqualByComparingTo(figures.get(figures.size() - 1).get(j));
        }
    }

    @Test
    void againstABaselineGradesWayAndPricesAreToldApart() {
        Reconciliation against = Reconciliation.of(
                "Mereside 2026-11-03", 100, 100, List.of(STRIPLOIN_OF_100.against(10, 11, 15)), "EUR", 2);
        String group = "Striploin steak";
        assertThat(against.kg(group, Cause.MIX)).isEqualTo(1);
        assertThat(against.kg(group, Cause.WAY)).isEqualTo(-2);
        assertThat(against.kg(group, Cause.WEIGHT)).isZero();
        assertThat(against.kg(group, Cause.CUTTING)).isEqualTo(0.5);
        assertThat(against.money(group, Cause.MIX)).hasToString("15.00 EUR");
        assertThat(against.money(group, Cause.WAY)).hasToString("-30.00 EUR");
        assertThat(against.money(group, Cause.CUTTING)).hasToString("7.50 EUR");
        assertThat(against.money(group, Cause.DOWNGRADED)).hasToString("-4.00 EUR");
        assertThat(against.money(group, Cause.PRICE)).hasToString("9.50 EUR");
        assertThat(against.baselineMoney()).hasToString("150.00 EUR");
        assertThat(against.weighedMoney()).hasToString("148.00 EUR");
    }

    private static final GroupFigures STRIPLOIN_OF_100 =
            new GroupFigures("Striploin steak", 9, 9, 9, 9.5, 16, 16, -4, Map.of());

    @Test
    void randomDaysCloseInAnyOrderOfRows() {
        Random random = new Random(23);
        for (int day = 0; day < 300; day++) {
            List<GroupFigures> groups = new ArrayList<>();
            double cold = 0;
            int count = 1 + random.nextInt(12);
            for (int i = 0; i < count; i++) {
                double kg = random.nextInt(5) == 0 ? 0 : 1000 * random.nextDouble();
                double price = 30 * random.nextDouble() - 1;
                groups.add(new GroupFigures(
                        "group " + (char) ('a' + i),
                        kg * random.nextDouble(),
                        kg * random.nextDouble(),
                        kg,
                        kg * (0.9 + 0.2 * random.nextDouble()),
                        price * random.nextDouble(),
                        price,
                        -random.nextInt(3) * random.nextDouble(),
                        sds(1)));
                cold += kg;
            }
            cold = Math.max(1, cold * (1 + 0.1 * random.nextDouble()));
            double intake = cold * (0.98 + 0.03 * random.nextDouble());
            Reconciliation first = Reconciliation.of("a day", cold, intake, groups, "EUR", 2);
            assertClosed(first);
            List<GroupFigures> shuffled = new ArrayList<>(groups);
            Collections.shuffle(shuffled, random);
            Reconciliation second = Reconciliation.of("a day", cold, intake, shuffled, "EUR", 2);
            assertClosed(second);
            for (GroupFigures group : groups) {
                assertThat(second.line(group.group())).isEqualTo(first.line(group.group()));
            }
            assertThat(second.weighedMoney()).isEqualTo(first.weighedMoney());
            assertThat(second.line(Reconciliation.LOSSES).weighedKg())
                    .isEqualTo(first.line(Reconciliation.LOSSES).weighedKg());
        }
    }

    @Test
    void moreThanTheColdWeightCanNotBeExpected() {
        assertThatThrownBy(() -> Reconciliation.of("a day", 3000, 3000, List.of(STRIPLOIN)))
                .hasMessage("a day: groups come to 3029.8 kg of the baseline, more than the cold weight of 3000 kg");
        assertThatThrownBy(() -> Reconciliation.of("a day", 9000, 0, List.of(STRIPLOIN)))
                .hasMessage("a day: intake weight, kg: 0 is not a finite number above 0");
        assertThatThrownBy(() -> Reconciliation.of("a day", 9000, 9000, List.of(STRIPLOIN, STRIPLOIN)))
                .hasMessage("a day: two groups are called Striploin steak; each has a name of its own");
        assertThatThrownBy(() -> Reconciliation.of("a day", 9000, 9000, List.of(STRIPLOIN))
                        .weighedMoney())
                .hasMessage("a day: nothing is priced; reconcile it with a valuer");
        assertThatThrownBy(() -> day().line("Rump"))
                .hasMessage("no group \"Rump\"; there are Fillet, Striploin steak,"
                        + " Topside joint, Dice, Mince, Fat trim, Bone, losses, unweighed");
    }

    /** 8 carcasses: how sure it is depends on whether a batch is taken for the only one of its lot and day. */
    @Test
    void aBatchOfFilletIsFarOffWithOrWithoutLotAndRun() {
        GroupLine fillet = Reconciliation.of(
                        "a batch",
                        2700,
                        2700,
                        List.of(GroupFigures.of(
                                "Fillet",
                                52.4,
                                61.8,
                                Map.of(
                                        UncertaintyPart.BETWEEN_CARCASSES, 1.36,
                                        UncertaintyPart.LOT, 1.22,
                                        UncertaintyPart.RUN, 1.40))))
                .line("Fillet");
        assertThat(fillet.z(Set.of(UncertaintyPart.BETWEEN_CARCASSES)).orElseThrow())
                .isCloseTo(6.9, within(0.05));
        assertThat(fillet.z().orElseThrow()).isCloseTo(4.1, within(0.05));
    }
}
