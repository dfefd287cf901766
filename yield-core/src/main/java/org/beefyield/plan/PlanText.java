package org.beefyield.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.lp.Conflict;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** A plan in words. */
final class PlanText {
    /** Lots of an order that are listed. */
    private static final long LISTED = 6;

    /** Parts of a mince that are listed. */
    private static final long PARTS = 4;

    private final Plan plan;

    PlanText(Plan plan) {
        this.plan = plan;
    }

    static String line(Plan plan) {
        return Numbers.counted(plan.carcasses(), "carcass", "carcasses") + ", "
                + Numbers.counted(plan.orders().size(), "order", "orders") + ": "
                + new PlanText(plan).money(plan.value());
    }

    private static String whole(double kg) {
        return Numbers.grouped(Numbers.fixed(kg, 0));
    }

    private static String tenths(double kg) {
        return Numbers.grouped(Numbers.fixed(kg, 1));
    }

    /** No cents where a day brings thousands. */
    private int decimals() {
        return Math.abs(plan.value()) >= 1000 ? 0 : plan.setting().prices().decimals();
    }

    private String amount(double amount) {
        return Numbers.grouped(Numbers.fixed(amount, decimals()));
    }

    private String money(double amount) {
        return amount(amount) + " " + currency();
    }

    private String currency() {
        return plan.setting().prices().currency();
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentences(head());
        if (!plan.orders().isEmpty()) {
            blocks.add(ordersTable()).sentences(ordersSentences());
        }
        blocks.sentence("Which cuts go which way, by lot; each carcass by its number in the list of the hall:")
                .add(cutsTable());
        if (!plan.blends().isEmpty()) {
            blocks.sentence("Mince:").add(blendsTable());
        }
        blocks.sentence("What no order and no mince takes:").add(soldTable());
        if (plan.totalHours() > 0) {
            blocks.sentence(hours());
        }
        blocks.sentence("What the day is expected to bring:").add(amountsTable());
        blocks.add(alternativesTable()).sentences(notes());
        return blocks;
    }

    private List<String> head() {
        List<String> sentences = new ArrayList<>();
        long met = plan.orders().stream().filter(one -> one.shortKg() == 0).count();
        String orders = plan.orders().isEmpty()
                ? "no orders"
                : met + " of " + Numbers.counted(plan.orders().size(), "order", "orders") + " expected to be met";
        sentences.add(Numbers.counted(plan.carcasses(), "carcass", "carcasses") + ", "
                + whole(plan.coldWeightKg()) + " kg cold: " + orders + ", " + money(plan.value())
                + " expected" + gain());
        if (!plan.refused().isEmpty()) {
            sentences.add(Numbers.counted(plan.refused().size(), "carcass is", "carcasses are")
                    + " left out, the first: " + plan.refused().get(0).getMessage());
        }
        plan.conflict().ifPresent(conflict -> sentences.add(words(conflict)));
        return sentences;
    }

    private String gain() {
        Map.Entry<String, Plan.Alternative> usual =
                plan.alternatives().entrySet().iterator().next();
        double more = plan.gain();
        String name = usual.getKey().isEmpty() ? "the fixed specification" : "all cut as " + usual.getKey();
        double missingThere = usual.getValue().shortKg();
        return (plan.money(more).signum() == 0
                        ? ", as much as "
                        : ", " + money(Math.abs(more)) + (more < 0 ? " less" : " more") + " than ")
                + name
                + (missingThere > 0 ? ", where " + whole(missingThere) + " kg of orders would be missing" : "");
    }

    private static String id(String row) {
        return row.startsWith(PlanProgram.ORDER_ROW) ? row.substring(PlanProgram.ORDER_ROW.length()) : row;
    }

    private static String words(Conflict conflict) {
        List<Conflict.Shortfall> of = conflict.shortfalls();
        if (of.size() == 1) {
            return "Order " + id(of.get(0).demand()) + " can't be met by these carcasses, hours and stock: at least "
                    + tenths(of.get(0).missing()) + " kg are missing";
        }
        String missing = of.stream()
                .filter(one -> one.missing() >= 0.05)
                .map(one -> tenths(one.missing()) + " kg of " + id(one.demand()))
                .collect(Collectors.joining(" and "));
        return "Orders " + of.stream().map(one -> id(one.demand())).collect(Collectors.joining(", "))
                + " can't all be met"
                + (conflict.isSmallest() ? ", though all but one of them could" : "") + "; missing at least, say: "
                + missing;
    }

    Frame orders() {
        return Frame.ofEach(plan.orders())
                .text("order", one -> one.order().id())
                .text("customer", one -> one.order().customer())
                .text("product", one -> one.order().product())
                .text("asked for", one -> one.order().words())
                .number(sum("least, kg"), one -> one.order().minKg())
                .number(
                        "most, kg",
                        one -> Double.isInfinite(one.order().maxKg())
                                ? Double.NaN
                                : one.order().maxKg())
                .number("price, " + currency() + "/kg", one -> one.order().price())
                .number(sum("planned, kg"), PlannedOrder::kg)
                .number(sum("from stock, kg"), PlannedOrder::fromStockKg)
                .number(sum("missing, kg"), PlannedOrder::shortKg)
                .number("chance, %", one -> 100 * one.chance())
                .number(Column.number("promise, kg").totalling(Total.NONE), PlannedOrder::promiseKg)
                .text(
                        "why missing",
                        one -> one.shortage().map(of -> of.why().words()).orElse(""))
                .text("lots", one -> lots(one, Long.MAX_VALUE))
                .frame();
    }

    private static Column sum(String header) {
        return Column.number(header).totalling(Total.SUM);
    }

    private static String lots(PlannedOrder one, long most) {
        String words = one.lots().entrySet().stream()
                .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
                .limit(most)
                .map(lot -> lot.getKey() + " " + whole(lot.getValue()) + " kg")
                .collect(Collectors.joining("; "));
        long more = one.lots().size() - most;
        return words + (more > 0 ? " and " + Numbers.counted(more, "more lot", "more lots") : "");
    }

    private record Row(CutList list, CutList.WayOfPieces way, Carcass carcass) {}

    Frame cuts() {
        List<Row> rows = new ArrayList<>();
        plan.cuts()
                .forEach(list -> list.carcasses()
                        .forEach(carcass -> list.ways().forEach(way -> rows.add(new Row(list, way, carcass)))));
        return Frame.ofEach(rows)
                .text("lot", row -> row.list().lot())
                .text("carcass", row -> row.carcass().id().orElse(""))
                .number(
                        Column.number("cold weight, kg").totalling(Total.NONE),
                        row -> row.carcass().coldWeightKg())
                .text("cut", row -> row.list().cut())
                .text("pieces", row -> row.way().pieces())
                .text("way", row -> row.way().way())
                .frame();
    }

    private TextTable ordersTable() {
        TextTable table = new TextTable(
                "order",
                "customer",
                "product",
                "least, kg",
                "planned, kg",
                "missing, kg",
                "chance, %",
                "promise at " + Numbers.brief(100 * plan.setting().promised()) + " %, kg");
        for (PlannedOrder one : plan.orders()) {
            table.row(
                    one.order().id(),
                    one.order().customer(),
                    one.order().words(),
                    whole(one.order().minKg()),
                    whole(one.kg()),
                    one.shortKg() == 0 ? "" : tenths(one.shortKg()),
                    Numbers.fixed(100 * one.chance(), 0),
                    whole(Math.floor(one.promiseKg())));
        }
        return table;
    }

    private List<String> ordersSentences() {
        List<String> sentences = new ArrayList<>();
        sentences.add(
                "Chance: that the least of the order comes out (of one without a least, what is planned), with what the"
                        + " carcasses of a lot and of the day have in common; what comes out beyond the plan goes to orders"
                        + " before it is sold otherwise");
        List<String> ofHalls = plan.orders().stream()
                .filter(one ->
                        one.largestPart().filter(UncertaintyPart.HALL::equals).isPresent())
                .map(one -> one.order().id())
                .toList();
        if (!ofHalls.isEmpty()) {
            sentences.add((ofHalls.size() == 1 ? "Order " : "Orders ") + String.join(", ", ofHalls)
                    + ": most of what is unsure is how far a hall cuts otherwise than the table; a table calibrated to the own"
                    + " hall makes promises larger");
        }
        for (PlannedOrder one : plan.orders()) {
            one.shortage()
                    .ifPresent(shortage -> sentences.add("Order " + one.order().id() + " is "
                            + tenths(one.shortKg()) + " kg short: "
                            + shortage.why().words()
                            + (shortage.why() == PlannedOrder.Why.CARCASSES || shortage.why() == PlannedOrder.Why.HOURS
                                    ? " than " + whole(shortage.mostKg()) + " kg" + chosen()
                                    : "")));
            if (!one.lots().keySet().stream().allMatch(CarvedCarcass.NO_LOT::equals)) {
                sentences.add("Order " + one.order().id() + " is of " + lots(one, LISTED)
                        + (one.fromStockKg() > 0 ? "; stock " + whole(one.fromStockKg()) + " kg" : ""));
            }
        }
        return sentences;
    }

    /** That little may be chosen, where that may be why there isn't more. */
    private String chosen() {
        PlanFreedom freedom = plan.freedom();
        return freedom == PlanFreedom.FIXED || freedom == PlanFreedom.CARCASS ? " with " + freedom.words() : "";
    }

    private TextTable cutsTable() {
        TextTable table = new TextTable("cut", "is cut up as", "lot", "carcasses", "kg");
        Map<List<String>, List<CutList>> alike = new LinkedHashMap<>();
        plan.cuts()
                .forEach(list -> alike.computeIfAbsent(List.of(list.cut(), list.words()), key -> new ArrayList<>())
                        .add(list));
        alike.forEach((key, lists) -> {
            int carcasses =
                    lists.stream().mapToInt(list -> list.carcasses().size()).sum();
            if (carcasses == plan.carcasses()) {
                double kg = lists.stream().mapToDouble(CutList::kg).sum();
                table.row(key.get(0), key.get(1), "all", Integer.toString(carcasses), whole(kg));
            } else {
                lists.forEach(list -> table.row(
                        list.cut(),
                        list.words(),
                        list.lot(),
                        Integer.toString(list.carcasses().size()),
                        whole(list.kg())));
            }
        });
        return table;
    }

    private TextTable blendsTable() {
        TextTable table = new TextTable("mince", "fat, %", "kg", "of");
        for (Blend blend : plan.blends()) {
            String name = blend.name().isEmpty()
                    ? Double.isNaN(blend.mostFatPercent())
                            ? "for sale, lean trim alone"
                            : "for sale, up to " + Numbers.brief(blend.mostFatPercent()) + " %"
                    : "order " + blend.name();
            table.row(name, Numbers.fixed(blend.fatPercent(), 1), whole(blend.totalKg()), parts(blend));
        }
        return table;
    }

    /** The largest parts of a mince. */
    private static String parts(Blend blend) {
        List<Map.Entry<String, Double>> parts = blend.kg().entrySet().stream()
                .filter(of -> of.getValue() >= 0.5)
                .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
                .toList();
        String words = parts.stream()
                .limit(PARTS)
                .map(of -> of.getKey() + " " + whole(of.getValue()))
                .collect(Collectors.joining(", "));
        double others =
                parts.stream().skip(PARTS).mapToDouble(Map.Entry::getValue).sum();
        return words + (others > 0 ? ", others " + whole(others) : "");
    }

    private TextTable soldTable() {
        TextTable table = new TextTable("cut", "kg");
        Map<String, Double> byCut = new TreeMap<>();
        plan.sold().forEach((cut, kg) -> byCut.merge(cut.replaceFirst(" of .*", ""), kg, Double::sum));
        byCut.forEach((cut, kg) -> {
            if (kg >= 0.05) {
                table.row(cut, tenths(kg));
            }
        });
        return table;
    }

    private String hours() {
        String limit = Double.isInfinite(plan.setting().hours())
                ? ""
                : " of " + Numbers.brief(plan.setting().hours());
        return "Hours: " + Numbers.fixed(plan.totalHours(), 1) + limit + ": "
                + plan.hours().entrySet().stream()
                        .filter(of -> of.getValue() > 0)
                        .map(of -> of.getKey() + " " + Numbers.fixed(of.getValue(), 1))
                        .collect(Collectors.joining(", "));
    }

    private TextTable amountsTable() {
        TextTable table = new TextTable("", currency());
        double[] parts =
                plan.amounts().stream().mapToDouble(Plan.Amount::amount).toArray();
        List<String> rounded = Rounding.adding(parts, plan.value(), decimals());
        for (int i = 0; i < parts.length; i++) {
            table.row(plan.amounts().get(i).name(), Numbers.grouped(rounded.get(i)));
        }
        table.rule();
        table.row("all", amount(plan.value()));
        return table;
    }

    private TextTable alternativesTable() {
        TextTable table = new TextTable("cut", currency(), "missing of orders, kg");
        double missing =
                plan.orders().stream().mapToDouble(PlannedOrder::shortKg).sum();
        table.row("by this plan", amount(plan.value()), tenths(missing));
        plan.alternatives()
                .forEach((name, other) -> table.row(
                        "all as " + (name.isEmpty() ? "the fixed specification" : name),
                        amount(other.value()),
                        tenths(other.shortKg())));
        return table;
    }

    TextTable beside(List<Plan> others) {
        TextTable table = new TextTable("chosen", currency(), "missing of orders, kg");
        List<Plan> all = new ArrayList<>(List.of(plan));
        all.addAll(others);
        for (Plan one : all) {
            table.row(
                    one.setting().freedom().words(),
                    amount(one.value()),
                    tenths(one.orders().stream()
                            .mapToDouble(PlannedOrder::shortKg)
                            .sum()));
        }
        return table;
    }

    TextTable limits(List<LimitPrice> limits) {
        TextTable table =
                new TextTable("limit", "is", "one more brings, " + currency(), "one less brings, " + currency());
        for (LimitPrice limit : limits) {
            table.row(
                    limit.order()
                            .map(id -> limit.what().word() + " of order " + id + ", kg")
                            .orElse(limit.what().word()),
                    Numbers.brief(limit.limit()),
                    price(limit.more()),
                    price(limit.less()));
        }
        return table;
    }

    private static String price(OptionalDouble price) {
        return price.isPresent() ? Numbers.signed(price.getAsDouble(), 2) : "can't be";
    }

    private List<String> notes() {
        List<String> notes = new ArrayList<>();
        if (!plan.stockLeft().isEmpty()) {
            notes.add("Stock that stays: " + String.join(", ", plan.stockLeft()));
        }
        plan.setting().unpriced().forEach((way, missing) -> notes.add("Not looked at: " + way + ", " + missing));
        if (plan.orders().stream().anyMatch(one -> one.order().isFirm())) {
            notes.add(
                    "What is missing of orders without a penalty costs nothing in these amounts: look at what is missing before you"
                            + " compare");
        }
        notes.add("Divided carcasses would bring " + money(plan.bound())
                + "; the list of whole ones is worked out anew and brings "
                + money(plan.value()));
        notes.add("Fat of lean trim is what the table states for each cut: check mince before it is packed");
        notes.add(Cautions.NO_SETTLEMENT);
        return notes;
    }
}
