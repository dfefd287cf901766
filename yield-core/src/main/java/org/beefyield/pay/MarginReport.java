package org.beefyield.pay;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.GradeCell;
import org.beefyield.price.Valuer;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * What a hall's carcasses are worth against what was paid for them, by category, supplier and grade. Add carcasses one by
 * one; none is kept. Each is valued by itself, so mince is made from its own fat trim. Not thread-safe.
 */
public final class MarginReport implements ShownInBlocks {
    private static final int KG_DECIMALS = 1;
    private static final String NOT_STATED = "not stated";

    private final Valuer valuer;
    private final PaymentGrid grid;
    private final Map<Category, Margin> byCategory = new EnumMap<>(Category.class);
    private final Map<String, Margin> bySupplier = new TreeMap<>();
    private final Map<GradeCell, Margin> byGrade = new TreeMap<>();

    /**
     * A report on no carcasses yet.
     *
     * @param valuer what carcasses are worth
     * @param grid what is paid for them
     * @throws IllegalArgumentException if the two are not in one currency
     */
    public MarginReport(Valuer valuer, PaymentGrid grid) {
        valuer.prices().checkCurrency(grid.currency());
        this.valuer = valuer;
        this.grid = grid;
    }

    /**
     * Adds a carcass.
     *
     * @param carcass carcass
     * @return its own margin
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it; nothing is added
     * @throws IllegalArgumentException if the grid doesn't pay for it; nothing is added
     * @throws IllegalStateException if the grid has a bonus for being in specification and no test of it
     */
    public Margin add(Carcass carcass) {
        Margin one = new Margin(
                1,
                carcass.coldWeightKg(),
                valuer.value(carcass).amount(),
                grid.paid(carcass).amount().doubleValue());
        GradeCell cell = GradeCell.of(carcass);
        byCategory.merge(carcass.category(), one, Margin::plus);
        bySupplier.merge(carcass.supplier().orElse(NOT_STATED), one, Margin::plus);
        byGrade.merge(cell, one, Margin::plus);
        return one;
    }

    /**
     * All carcasses together.
     *
     * @return their margin, or empty if there is none
     */
    public Optional<Margin> total() {
        return byCategory.values().stream().reduce(Margin::plus);
    }

    /**
     * Margins by category.
     *
     * @return an unmodifiable map
     */
    public Map<Category, Margin> byCategory() {
        return Collections.unmodifiableMap(byCategory);
    }

    /**
     * Margins by supplier.
     *
     * @return an unmodifiable map by name; carcasses without a supplier are under {@code not stated}
     */
    public Map<String, Margin> bySupplier() {
        return Collections.unmodifiableMap(bySupplier);
    }

    /**
     * Margins by whole classes of conformation and fat.
     *
     * @return an unmodifiable map in order of category, conformation and fat class
     */
    public Map<GradeCell, Margin> byGrade() {
        return Collections.unmodifiableMap(byGrade);
    }

    private <K> TextTable table(String heading, Map<K, Margin> margins, Function<K, String> name) {
        String currency = grid.currency();
        TextTable table = new TextTable(
                heading,
                "carcasses",
                "margin, " + currency,
                "a kg",
                "break-even price a kg",
                "cold weight, kg",
                "value, " + currency,
                "paid, " + currency);
        List<Margin> lines = new ArrayList<>(margins.values());
        Margin total = lines.stream().reduce(Margin::plus).orElse(new Margin(0, 0, 0, 0));
        int decimals = valuer.prices().decimals();
        List<String> kg = column(lines, total, Margin::coldWeightKg, KG_DECIMALS);
        List<String> values = column(lines, total, Margin::value, decimals);
        List<String> paid = column(lines, total, Margin::paid, decimals);
        int i = 0;
        for (K key : margins.keySet()) {
            table.row(row(name.apply(key), lines.get(i), kg.get(i), values.get(i), paid.get(i), decimals));
            i++;
        }
        return table.rule()
                .row(row(
                        "Total",
                        total,
                        Numbers.fixed(total.coldWeightKg(), KG_DECIMALS),
                        Numbers.fixed(total.value(), decimals),
                        Numbers.fixed(total.paid(), decimals),
                        decimals));
    }

    private static List<String> column(
            List<Margin> lines, Margin total, ToDoubleFunction<Margin> figure, int decimals) {
        return Rounding.adding(lines.stream().mapToDouble(figure).toArray(), figure.applyAsDouble(total), decimals);
    }

    /** The margin is that of the printed figures, so that it adds up both ways. */
    private static List<String> row(String name, Margin margin, String kg, String value, String paid, int decimals) {
        boolean none = margin.carcasses() == 0;
        return List.of(
                name,
                Long.toString(margin.carcasses()),
                minus(value, paid),
                none ? "" : Numbers.fixed(margin.perKg(), decimals + 1),
                none ? "" : Numbers.fixed(margin.breakEvenPerKg(), decimals + 1),
                kg,
                value,
                paid);
    }

    private static String minus(String a, String b) {
        return new BigDecimal(a).subtract(new BigDecimal(b)).toPlainString();
    }

    private List<TextTable> tables() {
        return List.of(
                table("category", byCategory, Category::letter),
                table("supplier", bySupplier, name -> name),
                table("grade", byGrade, cell -> cell.category() + " " + cell.conformation() + " " + cell.fatClass()));
    }

    /**
     * The report for people: tables by category, supplier and grade.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        Blocks blocks = new Blocks().sentence(toString());
        tables().forEach(blocks::add);
        return blocks.sentences(grid.edgeWords()).sentence(Cautions.NO_SETTLEMENT);
    }

    /**
     * One line.
     *
     * @return such as {@code 200 carcasses: margin 10210.55 EUR, 0.153 a kg}
     */
    @Override
    public String toString() {
        return total().map(total -> total.carcasses() + (total.carcasses() == 1 ? " carcass" : " carcasses")
                        + ": margin "
                        + minus(
                                valuer.prices().money(total.value()),
                                valuer.prices().money(total.paid()))
                        + " " + grid.currency() + ", "
                        + Numbers.fixed(total.perKg(), valuer.prices().decimals() + 1) + " a kg")
                .orElse("no carcasses");
    }
}
