package org.beefyield.reconcile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleBiFunction;
import java.util.stream.Collectors;
import org.beefyield.boning.RunBalance;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Interval;
import org.beefyield.frame.Frame;
import org.beefyield.price.Money;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** A reconciliation in words; its figures are rounded so that they add up. */
final class ReconciliationText {
    private static final List<Cause> CAUSES = List.of(Cause.values());
    private static final int GRAMS = 3;
    private static final int KG_DECIMALS = 1;
    private static final int PCT_DECIMALS = 1;
    private static final int Z_DECIMALS = 1;
    private static final int FACTOR_DECIMALS = 6;
    private static final double G_PER_KG = 1000;
    private static final double LARGE_Z = 2;

    private static final String RULE =
            "Causes add up from the first column to the last; figures are rounded so that rows and columns add up.";

    private final Reconciliation reconciliation;
    private final List<GroupLine> lines;

    ReconciliationText(Reconciliation reconciliation) {
        this.reconciliation = reconciliation;
        this.lines = reconciliation.lines();
    }

    String sentence() {
        return reconciliation.run() + ": " + Numbers.fixed(reconciliation.intakeKg(), KG_DECIMALS)
                + " kg boned against "
                + Numbers.fixed(reconciliation.coldWeightKg(), KG_DECIMALS) + " kg cold weight, factor "
                + Numbers.fixed(reconciliation.factor(), FACTOR_DECIMALS) + "; " + farthest();
    }

    private String farthest() {
        Optional<GroupLine> farthest = lines.stream()
                .filter(line -> line.z().isPresent())
                .max(Comparator.comparingDouble(line -> Math.abs(line.z().orElse(0))));
        return farthest.map(line -> "farthest off: " + line.group() + ", "
                        + moreOrLess(line.differenceKg(), " kg") + " than the intake should return, "
                        + Numbers.fixed(Math.abs(line.z().orElse(0)), Z_DECIMALS) + " SDs")
                .orElse("how sure the expected kg are is not known");
    }

    private static String moreOrLess(double figure, String unit) {
        return Numbers.fixed(Math.abs(figure), KG_DECIMALS) + unit + (figure < 0 ? " less" : " more");
    }

    Blocks blocks() {
        Blocks blocks = new Blocks()
                .sentence(sentence())
                .sentences(reconciliation.words())
                .sentences(reconciliation.balance().map(ReconciliationText::balanceWords).stream()
                        .toList())
                .add(groupTable())
                .add(kgTable());
        if (reconciliation.none().isPresent()) {
            blocks.add(moneyTable());
        }
        return blocks.sentence(RULE).sentences(offWords()).sentence(Cautions.NO_SETTLEMENT);
    }

    private static String balanceWords(RunBalance balance) {
        return "Intake " + kg(balance.intakeG()) + " kg = boxes " + kg(balance.boxesG()) + " + rest "
                + kg(balance.restG()) + " + change of stock " + kg(balance.stockChangeG()) + " + unexplained "
                + kg(balance.unexplainedG()) + " kg"
                + (balance.holds()
                        ? ""
                        : ": more than may be, so that this run is kept out of what is learnt from runs");
    }

    private static String kg(long grams) {
        return Numbers.fixed(grams / G_PER_KG, GRAMS);
    }

    /** Groups of which nothing is expected and something was weighed, and those that lie far off, farthest first. */
    private List<String> offWords() {
        List<String> words = new ArrayList<>();
        String unexpected = lines.stream()
                .filter(line -> line.expectedKg() == 0 && line.weighedKg() > 0)
                .map(line -> line.group() + ", " + Numbers.fixed(line.weighedKg(), KG_DECIMALS) + " kg")
                .collect(Collectors.joining("; "));
        if (!unexpected.isEmpty()) {
            words.add("Weighed, though this way of cutting returns none of it: " + unexpected);
        }
        List<String> off = lines.stream()
                .filter(line -> Math.abs(line.z().orElse(0)) > LARGE_Z)
                .sorted(Comparator.comparingDouble(line -> -Math.abs(line.z().orElse(0))))
                .map(line ->
                        line.group() + " by " + Numbers.fixed(Math.abs(line.z().orElse(0)), Z_DECIMALS))
                .toList();
        if (!off.isEmpty()) {
            words.add("More than " + Numbers.fixed(LARGE_Z, 0) + " SDs off: " + String.join(", ", off)
                    + "; of 20 groups of which none is off, one is on average");
        }
        return words;
    }

    private static final int FROM = 0;
    private static final int CAUSES_FROM = 1;

    /** Groups down; across what the baseline has of each, and what each cause makes. Behind both their totals. */
    private List<List<BigDecimal>> rounded(
            ToDoubleBiFunction<GroupLine, Cause> part, ToDoubleBiFunction<GroupLine, Integer> base, int decimals) {
        double[][] parts = new double[lines.size()][CAUSES_FROM + CAUSES.size()];
        double all = 0;
        for (int i = 0; i < lines.size(); i++) {
            parts[i][FROM] = base.applyAsDouble(lines.get(i), i);
            all += parts[i][FROM];
            for (int j = 0; j < CAUSES.size(); j++) {
                parts[i][CAUSES_FROM + j] = part.applyAsDouble(lines.get(i), CAUSES.get(j));
                all += parts[i][CAUSES_FROM + j];
            }
        }
        return Rounding.addingBothWays(parts, BigDecimal.valueOf(all).setScale(decimals, RoundingMode.HALF_UP));
    }

    private List<List<BigDecimal>> kg() {
        return rounded(GroupLine::kgFor, (line, i) -> line.figures().baselineKg(), GRAMS);
    }

    private List<List<BigDecimal>> amounts() {
        Money none = none();
        return rounded(
                GroupLine::amountFor,
                (line, i) -> line.figures().baselineKg() * line.figures().baselinePrice(),
                none.amount().scale());
    }

    private Money none() {
        return reconciliation
                .none()
                .orElseThrow(() -> new IllegalArgumentException(
                        reconciliation.run() + ": nothing is priced; reconcile it with a valuer"));
    }

    private Money money(BigDecimal amount) {
        return Money.of(amount, none().currency());
    }

    Money money(int row, Cause cause) {
        return money(amounts().get(row).get(CAUSES_FROM + CAUSES.indexOf(cause)));
    }

    Money baselineMoney() {
        return money(amounts().get(lines.size()).get(FROM));
    }

    Money weighedMoney() {
        return money(amounts().get(lines.size()).get(CAUSES_FROM + CAUSES.size()));
    }

    TextTable groupTable() {
        boolean priced = reconciliation.none().isPresent();
        List<String> header = new ArrayList<>(List.of(
                "group",
                "expected, kg",
                "for this intake",
                "weighed",
                "difference",
                "%",
                "90 % interval: low",
                "high",
                "SDs off"));
        reconciliation.none().ifPresent(none -> header.add("worth, " + none.currency()));
        TextTable table = new TextTable(header.toArray(String[]::new));
        List<BigDecimal> expected =
                column(lines.stream().mapToDouble(GroupLine::expectedKg).toArray(), reconciliation.coldWeightKg());
        List<BigDecimal> scaled =
                column(lines.stream().mapToDouble(GroupLine::scaledKg).toArray(), reconciliation.intakeKg());
        List<BigDecimal> weighed =
                column(lines.stream().mapToDouble(GroupLine::weighedKg).toArray(), reconciliation.intakeKg());
        List<List<BigDecimal>> amounts = priced ? amounts() : List.of();
        for (int i = 0; i < lines.size(); i++) {
            GroupLine line = lines.get(i);
            if (line.group().equals(Reconciliation.OTHER_WAY)) {
                continue; // neither expected of this run nor weighed
            }
            Interval interval = line.interval(Interval.SHOWN_PROBABILITY);
            boolean sure = line.sdKg() > 0;
            Place place = interval.place(KG_DECIMALS);
            List<String> row = new ArrayList<>(List.of(
                    line.group(),
                    expected.get(i).toPlainString(),
                    scaled.get(i).toPlainString(),
                    weighed.get(i).toPlainString(),
                    weighed.get(i).subtract(scaled.get(i)).toPlainString(),
                    figure(line.differencePct(), PCT_DECIMALS),
                    sure ? place.text(interval.low()) : "",
                    sure ? place.text(interval.high()) : "",
                    figure(line.z(), Z_DECIMALS)));
            if (priced) {
                row.add(cutting(amounts.get(i)).toPlainString());
            }
            table.row(row);
        }
        List<String> total = new ArrayList<>(List.of(
                "Total",
                Numbers.fixed(reconciliation.coldWeightKg(), KG_DECIMALS),
                Numbers.fixed(reconciliation.intakeKg(), KG_DECIMALS),
                Numbers.fixed(reconciliation.intakeKg(), KG_DECIMALS),
                Numbers.fixed(0, KG_DECIMALS),
                "",
                "",
                "",
                ""));
        if (priced) {
            total.add(cutting(amounts.get(lines.size())).toPlainString());
        }
        return table.rule().row(total);
    }

    private static BigDecimal cutting(List<BigDecimal> row) {
        return row.get(CAUSES_FROM + CAUSES.indexOf(Cause.CUTTING));
    }

    private static List<BigDecimal> column(double[] parts, double whole) {
        return Rounding.figuresAdding(parts, whole, KG_DECIMALS);
    }

    private static String figure(OptionalDouble figure, int decimals) {
        return figure.isPresent() ? Numbers.fixed(figure.getAsDouble(), decimals) : "";
    }

    TextTable kgTable() {
        return causeTable("kg", "weighed", kg());
    }

    TextTable moneyTable() {
        return causeTable(none().currency(), "worth", amounts());
    }

    /** Without causes that come to nothing. */
    private TextTable causeTable(String unit, String last, List<List<BigDecimal>> printed) {
        List<Cause> columns = CAUSES.stream()
                .filter(cause -> printed.stream()
                        .anyMatch(row ->
                                row.get(CAUSES_FROM + CAUSES.indexOf(cause)).signum() != 0))
                .toList();
        List<String> header = new ArrayList<>(List.of(unit, reconciliation.hasBaseline() ? "baseline" : "expected"));
        columns.forEach(cause -> header.add(cause.words()));
        header.add(last);
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (int i = 0; i <= lines.size(); i++) {
            boolean total = i == lines.size();
            List<BigDecimal> figures = printed.get(i);
            List<String> row = new ArrayList<>(List.of(
                    total ? "Total" : lines.get(i).group(), figures.get(FROM).toPlainString()));
            columns.forEach(cause ->
                    row.add(figures.get(CAUSES_FROM + CAUSES.indexOf(cause)).toPlainString()));
            row.add(figures.get(CAUSES_FROM + CAUSES.size()).toPlainString());
            (total ? table.rule() : table).row(row);
        }
        return table;
    }

    Frame frame() {
        Frame.Builder<GroupLine> rows = Frame.ofEach(lines)
                .text("run", line -> reconciliation.run())
                .text("group", GroupLine::group)
                .number(Headers.adding("expected, kg"), GroupLine::expectedKg)
                .number(Headers.adding("scaled, kg"), GroupLine::scaledKg)
                .number(Headers.adding("weighed, kg"), GroupLine::weighedKg)
                .number(Headers.adding("difference, kg"), GroupLine::differenceKg)
                .number(
                        Headers.plain("difference of scaled, %"),
                        line -> line.differencePct().orElse(Double.NaN))
                .number(Headers.plain("SD, kg"), line -> known(line, line.sdKg()))
                .number(
                        Headers.plain(Interval.SHOWN_LOW + ", kg"),
                        line -> known(line, shown(line).low()))
                .number(
                        Headers.plain(Interval.SHOWN_HIGH + ", kg"),
                        line -> known(line, shown(line).high()))
                .number(Headers.plain("SDs off"), line -> line.z().orElse(Double.NaN));
        for (Cause cause : CAUSES) {
            if (cause.movesKg()) {
                rows.number(Headers.adding(cause.words() + ", kg"), line -> line.kgFor(cause));
            }
        }
        reconciliation.none().ifPresent(none -> {
            rows.number(
                    Headers.adding("expected worth, " + none.currency()),
                    line -> line.figures().expectedKg() * line.figures().price());
            for (Cause cause : CAUSES) {
                rows.number(
                        Headers.adding(cause.words() + " worth, " + none.currency()), line -> line.amountFor(cause));
            }
        });
        return rows.frame();
    }

    private static Interval shown(GroupLine line) {
        return line.interval(Interval.SHOWN_PROBABILITY);
    }

    private static double known(GroupLine line, double figure) {
        return line.sdKg() > 0 ? figure : Double.NaN;
    }
}
