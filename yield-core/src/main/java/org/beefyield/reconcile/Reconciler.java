package org.beefyield.reconcile;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.beefyield.boning.BatchExpectation;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.BoxKind;
import org.beefyield.boning.Intake;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RunBalance;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.CarcassPart;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.PartEstimate;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.Money;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;
import org.beefyield.stats.RandomEffects;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/** Sets what a boning run weighed against what its carcasses should have returned. */
public final class Reconciler {
    private static final double G_PER_KG = 1000;

    private final YieldEstimator estimator;
    private final @Nullable Valuer valuer;
    private final String level;
    private final List<Product> products;
    private final ProductGroups groups;

    private Reconciler(
            YieldEstimator estimator,
            @Nullable Valuer valuer,
            String level,
            List<Product> products,
            List<BoningRun> runs) {
        this.estimator = estimator;
        this.valuer = valuer;
        this.level = level;
        this.products = products;
        List<Cut> cuts = estimator.yields(level);
        this.groups = ProductGroups.of(products, runs, cuts);
        List<String> unknown = groups.groups().stream()
                .flatMap(group -> group.shares().keySet().stream())
                .filter(code -> !stands(code))
                .toList();
        if (!unknown.isEmpty()) {
            throw new IllegalArgumentException("products have what doesn't stand at level " + level + " of table "
                    + estimator.table().definition().name() + ": " + String.join(", ", unknown) + "; there are "
                    + cuts.stream().map(Cut::code).collect(Collectors.joining(", ")));
        }
    }

    /** Whether a cut stands at the level, be it that the cutting specification doesn't yield it. */
    private boolean stands(String code) {
        return estimator.yields(level).stream().anyMatch(cut -> cut.code().equals(code))
                || estimator.table().cutsAt(level).stream()
                        .anyMatch(cut -> cut.code().equals(code));
    }

    static Reconciler of(YieldEstimator estimator, List<Product> products, List<BoningRun> runs) {
        Objects.requireNonNull(estimator, "estimator");
        Checks.noNullIn(products, "products");
        Checks.noNullIn(runs, "runs");
        List<String> levels = estimator.table().levels();
        return new Reconciler(estimator, null, levels.get(levels.size() - 1), List.copyOf(products), runs);
    }

    static Reconciler of(Valuer valuer, List<Product> products, List<BoningRun> runs) {
        Objects.requireNonNull(valuer, "valuer");
        Checks.noNullIn(products, "products");
        Checks.noNullIn(runs, "runs");
        return new Reconciler(valuer.estimator(), valuer, valuer.level(), List.copyOf(products), runs);
    }

    ProductGroups groups() {
        return groups;
    }

    Reconciliation reconcile(BoningRun run, @Nullable Baseline baseline) {
        Outturn lot = returned(run, estimator);
        if (baseline != null) {
            baseline.check(estimator, Optional.ofNullable(none()).map(Money::currency));
        }
        Map<String, Double> prices = prices(lot);
        long[] weighedG = weighedG(run);
        double[] downgraded = downgraded(run, lot, prices);
        Outturn sameWay = baseline == null ? lot : returned(run, baseline.sameWay(estimator));
        List<GroupFigures> figures = new ArrayList<>();
        for (int i = 0; i < weighedG.length; i++) {
            ProductGroup group = groups.groups().get(i);
            double price = price(group, lot, prices);
            double expected = kg(group, lot);
            figures.add(new GroupFigures(
                    group.name(),
                    baseline == null ? expected : kg(group, baseline.lot()) * baseline.scaleTo(lot),
                    baseline == null ? expected : kg(group, sameWay),
                    expected,
                    weighedG[i] / G_PER_KG,
                    baseline == null ? price : price(group, lot, baseline.prices(prices)),
                    price,
                    downgraded[i],
                    lot.sdByPart(figure(group.shares()))));
        }
        if (baseline != null) {
            otherWay(baseline, sameWay).ifPresent(figures::add);
        }
        RunBalance balance = run.balance();
        Reconciliation.Head head = new Reconciliation.Head(
                run.name(), lot.coldWeightKg(), balance.bonedG(), balance, words(run, lot), none(), baseline != null);
        return new Reconciliation(head, figures, lot.sdByPart(figure(left())));
    }

    /** Cuts that only the baseline's way yields and no product takes: they are worth something there, and none came off the line. */
    private Optional<GroupFigures> otherWay(Baseline baseline, Outturn sameWay) {
        Set<String> known = new HashSet<>();
        estimator.yields(level).forEach(cut -> known.add(cut.code()));
        groups.groups().forEach(group -> known.addAll(group.shares().keySet()));
        YieldEstimator itsWay = baseline.sameWay(estimator);
        Map<String, Double> whole = new LinkedHashMap<>();
        itsWay.yields(level).stream()
                .map(Cut::code)
                .filter(code -> !known.contains(code))
                .forEach(code -> whole.put(code, 1.0));
        ProductGroup group = new ProductGroup(Reconciliation.OTHER_WAY, whole, 0);
        double baselineKg = kg(group, baseline.lot()) * baseline.scaleTo(sameWay);
        double sameWayKg = kg(group, sameWay);
        if (baselineKg + sameWayKg == 0) {
            return Optional.empty();
        }
        double price = price(group, sameWay, baseline.itsPrices(valuer));
        return Optional.of(new GroupFigures(group.name(), baselineKg, sameWayKg, 0, 0, price, price, 0, Map.of()));
    }

    /**
     * Reconciles a run in kg.
     *
     * @param run what went in and came off the line
     * @param estimator how its carcasses are estimated and cut
     * @param products every product that its boxes name, and which cuts of the table's last level go into it
     * @return the reconciliation
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for a carcass
     * @throws IllegalArgumentException if nothing was boned, a box is of a product that isn't listed, a product has a cut that the
     *     table doesn't have there, or more of a carcass was boned than there is of it
     */
    public static Reconciliation reconcile(BoningRun run, YieldEstimator estimator, List<Product> products) {
        Objects.requireNonNull(run, "run");
        return of(estimator, products, List.of(run)).reconcile(run, null);
    }

    /**
     * Reconciles a run in kg and money.
     *
     * @param run what went in and came off the line
     * @param valuer how its carcasses are estimated, cut and valued
     * @param products every product that its boxes name, and which cuts of the valued level go into it
     * @return the reconciliation
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for a carcass
     * @throws IllegalArgumentException as {@link #reconcile(BoningRun, YieldEstimator, List)}
     */
    public static Reconciliation reconcile(BoningRun run, Valuer valuer, List<Product> products) {
        Objects.requireNonNull(run, "run");
        return of(valuer, products, List.of(run)).reconcile(run, null);
    }

    /**
     * Reconciles a run against a baseline.
     *
     * @param run what went in and came off the line
     * @param valuer how its carcasses are estimated, cut and valued
     * @param products every product that its boxes name, and which cuts of the valued level go into it
     * @param baseline other carcasses, their way of cutting and prices
     * @return the reconciliation
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for a carcass
     * @throws IllegalArgumentException as {@link #reconcile(BoningRun, YieldEstimator, List)}, or if the baseline is of another table,
     *     another mince target or another currency
     */
    public static Reconciliation reconcile(BoningRun run, Valuer valuer, List<Product> products, Baseline baseline) {
        Objects.requireNonNull(run, "run");
        Objects.requireNonNull(baseline, "baseline");
        return of(valuer, products, List.of(run)).reconcile(run, baseline);
    }

    /**
     * What each batch of a run should return of each product that can be told apart, by the table and by what the hall's runs were
     * found to return more or less than it expects.
     *
     * @param run what went in
     * @param learnt by the name of a group, g per kg of intake; of groups that aren't in it, how halls may differ counts
     */
    List<BatchExpectation> batches(BoningRun run, Map<String, RandomEffects> learnt) {
        return ofBatches(run).stream()
                .map(one -> one.expected(learnt.get(one.group)))
                .flatMap(Optional::stream)
                .toList();
    }

    /**
     * What the carcasses of a batch return of a product, brought to the batch's intake.
     *
     * @param hall name of the hall
     * @param batch name of the batch
     * @param group name of the group that is the product alone
     * @param intakeT intake of the batch, t
     * @param line of which nothing was weighed
     */
    private record OfBatch(String hall, String batch, String group, double intakeT, GroupLine line) {
        Optional<BatchExpectation> expected(@Nullable RandomEffects learnt) {
            if (learnt == null) {
                return expected(0, line.sdKg());
            }
            double ofRun = Math.max(line.sdKg(EnumSet.of(UncertaintyPart.RUN)), learnt.sd() * intakeT);
            double ofMean = learnt.widenedMeanError() * intakeT;
            return expected(
                    learnt.mean() * intakeT,
                    Math.hypot(line.sdKg(Reconciliation.partsWithinRun()), Math.hypot(ofRun, ofMean)));
        }

        Optional<BatchExpectation> expected(double moreKg, double sdKg) {
            double kg = Math.max(0, line.scaledKg() + moreKg);
            return sdKg > 0 ? Optional.of(new BatchExpectation(hall, batch, line.group(), kg, sdKg)) : Optional.empty();
        }
    }

    private List<OfBatch> ofBatches(BoningRun run) {
        Map<String, List<Intake>> byBatch = new LinkedHashMap<>();
        for (Intake piece : run.boned()) {
            if (!piece.batch().isEmpty()) {
                byBatch.computeIfAbsent(piece.batch(), batch -> new ArrayList<>())
                        .add(piece);
            }
        }
        List<OfBatch> all = new ArrayList<>();
        byBatch.forEach((batch, pieces) -> {
            BoningRun ofBatch = new BoningRun(run.hall(), run.day(), run.weighing(), pieces, List.of(), List.of());
            PartEstimate lot = returned(ofBatch, estimator);
            double intakeKg = ofBatch.balance().bonedG() / G_PER_KG;
            for (Product product : products) {
                ProductGroup group = groups.groups().get(groups.ofProduct(product.code()));
                if (group.products() == 1) {
                    GroupFigures figures =
                            GroupFigures.of(product.code(), kg(group, lot), 0, lot.sdByPart(figure(group.shares())));
                    GroupLine line = new GroupLine(figures, intakeKg / lot.coldWeightKg());
                    all.add(new OfBatch(run.hall(), batch, group.name(), intakeKg / G_PER_KG, line));
                }
            }
        });
        return all;
    }

    private @Nullable Money none() {
        return valuer == null
                ? null
                : Money.rounded(0, valuer.prices().decimals(), valuer.prices().currency());
    }

    /** What exactly the carcasses and pieces that were boned return, as those of one run of one hall. */
    private static PartEstimate returned(BoningRun run, YieldEstimator estimator) {
        return returned(pieces(run, estimator.table()), run, estimator);
    }

    private static PartEstimate returned(List<WeighedRun.Piece> pieces, BoningRun run, YieldEstimator estimator) {
        Map<CarcassPart, LotEstimate.Collector> byPart = new TreeMap<>();
        pieces.forEach(piece -> byPart.computeIfAbsent(piece.part(), part -> estimator.collector())
                .add(piece.carcass()));
        return byPart.entrySet().stream()
                .map(entry -> entry.getValue().lot().part(entry.getKey()))
                .reduce(PartEstimate::plus)
                .orElseThrow(() -> new IllegalArgumentException(
                        run.name() + ": nothing was boned; a run bones one piece or more"));
    }

    /** The carcasses of which a run boned something. */
    private static List<WeighedRun.Piece> pieces(BoningRun run, YieldTable table) {
        // ids may start anew each day of slaughter
        Map<List<Object>, Boned> byId = new LinkedHashMap<>();
        for (Intake piece : run.boned()) {
            byId.computeIfAbsent(List.of(piece.id(), piece.carcass().killDate()), id -> new Boned(piece.carcass()))
                    .add(piece, run);
        }
        return byId.values().stream()
                .map(boned -> new WeighedRun.Piece(ofRun(boned.carcass(), run), boned.part(table)))
                .toList();
    }

    /** What a run weighed, and what it boned. */
    WeighedRun weighed(BoningRun run) {
        List<WeighedRun.Piece> pieces = pieces(run, estimator.table());
        PartEstimate expected = returned(pieces, run, estimator);
        List<WeighedRun.Line> lines = new ArrayList<>();
        long[] grams = weighedG(run);
        for (int i = 0; i < grams.length; i++) {
            ProductGroup group = groups.groups().get(i);
            lines.add(new WeighedRun.Line(group, figure(group.shares()), grams[i] / G_PER_KG));
        }
        return new WeighedRun(run.name(), run.day(), run.balance(), pieces, expected, lines);
    }

    /** The carcass as one of the run: an estimate takes hall and kill date for a run, and the kill date for one of the lot. */
    private static Carcass ofRun(Carcass carcass, BoningRun run) {
        Carcass ofRun = run.hall().isEmpty() ? carcass : carcass.withHall(run.hall());
        Optional<String> other = carcass.killDate().filter(killed -> !killed.equals(run.day()));
        if (other.isPresent()) {
            ofRun = ofRun.withLot(carcass.lot().map(lot -> lot + ", ").orElse("") + "killed " + other.get());
        }
        return ofRun.withKillDate(run.day());
    }

    private long[] weighedG(BoningRun run) {
        long[] grams = new long[groups.groups().size()];
        for (Box box : run.boxes()) {
            if (box.kind().isCounted()) {
                grams[group(box, box.cutAs(), run)] += GroupFigures.grams(box.netKg());
            }
        }
        for (Rest rest : run.rest()) {
            int group = groups.ofRest(rest);
            if (group >= 0) {
                grams[group] += GroupFigures.grams(rest.kg());
            }
        }
        return grams;
    }

    private int group(Box box, String product, BoningRun run) {
        int group = groups.ofProduct(product);
        if (group < 0) {
            throw new IllegalArgumentException(run.name() + ": box " + box.id() + " is of product " + product
                    + ", which isn't listed; there are "
                    + products.stream().map(Product::code).collect(Collectors.joining(", ")));
        }
        return group;
    }

    /** What boxes bring less for having been packed as something else. */
    private double[] downgraded(BoningRun run, Outturn lot, Map<String, Double> prices) {
        double[] amounts = new double[groups.groups().size()];
        for (Box box : run.boxes()) {
            if (box.kind() == BoxKind.DOWNGRADED) {
                int cutAs = group(box, box.cutAs(), run);
                int packedAs = group(box, box.product(), run);
                amounts[cutAs] += box.netKg()
                        * (price(groups.groups().get(packedAs), lot, prices)
                                - price(groups.groups().get(cutAs), lot, prices));
            }
        }
        return amounts;
    }

    /** Prices of a kg by the code of a cut, of those too that this way of cutting doesn't yield; none without a valuer. */
    private Map<String, Double> prices(Outturn lot) {
        if (valuer == null) {
            return Map.of();
        }
        Map<String, Double> prices = new HashMap<>(Baseline.prices(valuer.value(lot)));
        PriceList list = valuer.prices();
        for (Cut cut : estimator.table().cutsAt(level)) {
            list.of(cut).ifPresent(price -> prices.putIfAbsent(cut.code(), price));
        }
        return prices;
    }

    /** What a kg of a group brings: cuts weigh in by what the carcasses return of them, or alike if that is nothing. */
    private double price(ProductGroup group, Outturn lot, Map<String, Double> prices) {
        double kg = 0;
        double amount = 0;
        double alike = 0;
        for (Map.Entry<String, Double> share : group.shares().entrySet()) {
            double price = prices.getOrDefault(share.getKey(), 0.0);
            double ofCut = share.getValue() * kg(share.getKey(), lot);
            kg += ofCut;
            amount += ofCut * price;
            alike += price / group.shares().size();
        }
        return kg > 0 ? amount / kg : alike;
    }

    private double kg(ProductGroup group, Outturn lot) {
        return group.shares().entrySet().stream()
                .mapToDouble(share -> share.getValue() * kg(share.getKey(), lot))
                .sum();
    }

    private double kg(String cut, Outturn lot) {
        return lot.kg(level, cut);
    }

    private Figure figure(Map<String, Double> shares) {
        return shares.entrySet().stream()
                .map(share -> Figure.cut(level, share.getKey()).times(share.getValue()))
                .reduce(Figure::plus)
                .orElseThrow();
    }

    /** How much of each cut goes into no group. */
    private Map<String, Double> left() {
        Map<String, Double> left = new LinkedHashMap<>();
        estimator.yields(level).forEach(cut -> left.put(cut.code(), 1.0));
        groups.groups()
                .forEach(group -> group.shares()
                        .forEach((cut, share) -> left.computeIfPresent(cut, (code, before) -> before - share)));
        return left;
    }

    private List<String> words(BoningRun run, Outturn lot) {
        List<String> words = new ArrayList<>();
        words.add("Intake " + run.weighing().words() + "; expected by the carcasses' cold weight and brought to that"
                + " intake, " + lot.table().identity());
        words.addAll(lot.intervalWords(Figure.saleable()));
        words.addAll(lot.notes());
        return words;
    }
}
