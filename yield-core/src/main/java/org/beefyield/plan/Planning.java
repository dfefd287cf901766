package org.beefyield.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.beefyield.lp.LinearProgram;
import org.beefyield.lp.LinearSolution;
import org.beefyield.lp.LinearSolver;
import org.beefyield.lp.ShadowPrice;
import org.beefyield.lp.ShadowPrices;
import org.beefyield.table.CuttingSpecification;
import org.jspecify.annotations.Nullable;

/** The work of one plan: what may be chosen, the program, whole carcasses for its fractions, and what comes of these. */
final class Planning {
    /** How often limits are drawn tighter, so that whole carcasses keep them. */
    private static final int ROUNDS = 6;
    /** How many single changes of the list are tried. */
    private static final int TRIES = 200;
    /** What is missing of a firm order costs so many times the highest price, so that it is missing only where it must be. */
    private static final double FIRM = 200;
    /** A fraction that is one but for the arithmetic. */
    private static final double WHOLE = 1 - 1e-7;

    private static final double NOISE_KG = 1e-6;

    /** A choice for some carcasses: of each option, by slot the way. A slot is a cut and a band of its pieces' weights. */
    private static final class Choice {
        final List<Integer> carcasses;
        final List<Slot> slots;
        final List<int[]> options;

        Choice(List<Integer> carcasses, List<Slot> slots, List<int[]> options) {
            this.carcasses = carcasses;
            this.slots = slots;
            this.options = options;
        }
    }

    private record Slot(int cut, int band) {}

    /** A list of whole carcasses, and what comes of it. */
    static final class Cutting {
        /** By carcass, cut and band, the way. */
        final int[][][] ways;

        final PlanProgram.Yield yield;
        final Allocation allocation;
        final LinearSolution solution;
        final double value;
        final Map<Outlets.Pool, Double> worth;

        Cutting(
                int[][][] ways,
                PlanProgram.Yield yield,
                Allocation allocation,
                LinearSolution solution,
                double value,
                Map<Outlets.Pool, Double> worth) {
            this.ways = ways;
            this.yield = yield;
            this.allocation = allocation;
            this.solution = solution;
            this.value = value;
            this.worth = worth;
        }
    }

    final PlanSetting setting;
    final List<PlanCut> cuts;
    final Outlets outlets;
    final List<CarvedCarcass> carcasses;
    private final LinearSolver solver;
    private final List<CuttingSpecification> specifications;
    private final PlanProgram.Yield beside;
    /** By cut and way the number of the labour rate, -1 for none. */
    private final int[][] rateOf;

    private final double[] least;
    private final double[] shortPrices;
    private @Nullable List<Choice> choices;

    Planning(PlanSetting setting, Outlets outlets, List<CarvedCarcass> carcasses) {
        this.setting = setting;
        this.cuts = setting.cuts();
        this.outlets = outlets;
        this.carcasses = carcasses;
        this.solver = setting.solver();
        this.specifications = setting.specifications();
        this.rateOf = new int[cuts.size()][];
        for (int p = 0; p < rateOf.length; p++) {
            PlanCut cut = cuts.get(p);
            rateOf[p] =
                    cut.ways.stream().mapToInt(way -> rate(cut.code, way.name)).toArray();
        }
        this.beside = new PlanProgram.Yield(setting.labour().size());
        for (CarvedCarcass one : carcasses) {
            for (int i = 0; i < one.figures.besideKg.length; i++) {
                if (one.figures.besideKg[i] > NOISE_KG) {
                    beside.add(outlets.poolBeside(one.takers, setting.lastCuts().get(i)), one.figures.besideKg[i]);
                }
            }
        }
        this.least = outlets.orders.stream()
                .mapToDouble(order ->
                        Math.min(order.minKg() * (1 + setting.margin()), Math.max(order.minKg(), order.maxKg())))
                .toArray();
        double highest = outlets.orders.stream()
                .mapToDouble(order ->
                        Math.max(Math.abs(order.price()), order.penalty().orElse(0)))
                .max()
                .orElse(0);
        double firm = FIRM * Math.max(1, highest);
        this.shortPrices = outlets.orders.stream()
                .mapToDouble(order -> order.penalty().orElse(firm))
                .toArray();
    }

    private int rate(String cut, String way) {
        int best = -1;
        int closest = -1;
        for (int i = 0; i < setting.labour().size(); i++) {
            int closeness = setting.labour().get(i).closeness(cut, way);
            if (closeness > closest) {
                closest = closeness;
                best = i;
            }
        }
        return best;
    }

    private double[] mostHours() {
        double[] most = new double[setting.labour().size() + 1];
        for (int i = 0; i < setting.labour().size(); i++) {
            most[i] = setting.labour().get(i).mostHours();
        }
        most[most.length - 1] = setting.hours();
        return most;
    }

    /** What comes of a cut of a carcass that is cut up in a way, as far as its pieces lie in a band. */
    private void add(PlanProgram.Yield yield, CarvedCarcass one, Slot slot, int way) {
        CarvedCarcass.Figures figures = one.figures;
        double inBand = figures.inBand[slot.cut()][slot.band()];
        double[] children = figures.childKg[slot.cut()][way];
        for (int c = 0; c < children.length; c++) {
            double kg = children[c] * inBand;
            if (kg > 0) {
                yield.add(outlets.pool(one.takers, slot.cut(), way, c, slot.band()), kg);
            }
        }
        int rate = rateOf[slot.cut()][way];
        if (rate >= 0) {
            double hours =
                    figures.kg[slot.cut()] * inBand / setting.labour().get(rate).kgPerHour();
            yield.hours[rate] += hours;
            yield.hours[yield.hours.length - 1] += hours;
            yield.amount -= hours * setting.hourPrice();
        }
    }

    private PlanProgram.Yield outcome(List<Integer> of, List<Slot> slots, int[] ways) {
        PlanProgram.Yield yield = new PlanProgram.Yield(setting.labour().size());
        for (int i : of) {
            for (int s = 0; s < ways.length; s++) {
                add(yield, carcasses.get(i), slots.get(s), ways[s]);
            }
        }
        return yield;
    }

    /** What may be chosen for carcasses of cells. */
    private List<Choice> choices(List<List<Integer>> cells, PlanFreedom freedom) {
        List<Choice> choices = new ArrayList<>();
        for (List<Integer> cell : cells) {
            switch (freedom) {
                case FIXED ->
                    choices.add(
                            bySpecification(cell, List.of(setting.estimator().specification())));
                case CARCASS -> choices.add(bySpecification(cell, specifications));
                case PRIMAL -> {
                    for (int p = 0; p < cuts.size(); p++) {
                        List<Slot> slots = slots(p);
                        int cut = p;
                        choices.add(new Choice(
                                cell,
                                slots,
                                distinct(IntStream.range(0, cuts.get(p).ways.size())
                                        .mapToObj(way -> slots.stream()
                                                .mapToInt(slot -> redirected(cut, way, slot))
                                                .toArray())
                                        .toList())));
                    }
                }
                case PIECE -> {
                    for (int p = 0; p < cuts.size(); p++) {
                        int cut = p;
                        for (Slot slot : slots(p)) {
                            choices.add(new Choice(
                                    cell,
                                    List.of(slot),
                                    IntStream.range(0, cuts.get(p).ways.size())
                                            .filter(way -> redirected(cut, way, slot) == way)
                                            .mapToObj(way -> new int[] {way})
                                            .toList()));
                        }
                    }
                }
            }
        }
        return choices;
    }

    private int redirected(int cut, int way, Slot slot) {
        return cuts.get(cut).redirected(way, cuts.get(cut).bands.get(slot.band()));
    }

    private List<Slot> slots(int p) {
        return IntStream.range(0, cuts.get(p).bands.size())
                .mapToObj(band -> new Slot(p, band))
                .toList();
    }

    private Choice bySpecification(List<Integer> cell, List<CuttingSpecification> ofThem) {
        List<Slot> slots = IntStream.range(0, cuts.size())
                .boxed()
                .flatMap(p -> slots(p).stream())
                .toList();
        return new Choice(
                cell,
                slots,
                distinct(ofThem.stream()
                        .map(specification -> slots.stream()
                                .mapToInt(slot -> redirected(slot.cut(), way(specification, slot.cut()), slot))
                                .toArray())
                        .toList()));
    }

    private int way(CuttingSpecification specification, int p) {
        String name = specification.ways().get(cuts.get(p).code);
        return name == null ? cuts.get(p).usual : cuts.get(p).way(name);
    }

    private static List<int[]> distinct(List<int[]> options) {
        List<int[]> distinct = new ArrayList<>();
        for (int[] option : options) {
            if (distinct.stream().noneMatch(other -> Arrays.equals(other, option))) {
                distinct.add(option);
            }
        }
        return distinct;
    }

    /** The program of cells. */
    private PlanProgram program(List<Choice> choices) {
        PlanProgram program =
                new PlanProgram(outlets, setting.stock(), setting.labour().size());
        program.given(beside);
        for (Choice choice : choices) {
            program.decision(choice.options.stream()
                    .map(option -> outcome(choice.carcasses, choice.slots, option))
                    .toList());
        }
        return program;
    }

    private List<Choice> choices() {
        List<Choice> known = choices;
        if (known == null) {
            known = choices(cells(), setting.freedom());
            choices = known;
        }
        return known;
    }

    private List<List<Integer>> cells() {
        IdentityHashMap<CarvedCarcass, Integer> numbers = new IdentityHashMap<>();
        for (int i = 0; i < carcasses.size(); i++) {
            numbers.put(carcasses.get(i), i);
        }
        return Cells.of(carcasses, cuts, outlets, setting.cells()).stream()
                .map(cell -> cell.stream().map(numbers::get).toList())
                .toList();
    }

    /** What fractions of carcasses would bring. */
    static final class Fractions {
        final List<Choice> choices;
        final PlanProgram program;
        final LinearProgram built;
        final LinearSolution solution;

        Fractions(List<Choice> choices, PlanProgram program, LinearProgram built, LinearSolution solution) {
            this.choices = choices;
            this.program = program;
            this.built = built;
            this.solution = solution;
        }

        double value() {
            return solution.objective() + program.certain();
        }
    }

    /** The program in fractions of carcasses, firm orders as they are: it may have no solution. */
    LinearProgram firmProgram() {
        double[] firm = shortPrices.clone();
        for (int o = 0; o < firm.length; o++) {
            firm[o] = outlets.orders.get(o).isFirm() ? Double.NaN : firm[o];
        }
        return program(choices()).build(least, firm, mostHours());
    }

    Fractions fractions() {
        return fractions(choices(), least, mostHours());
    }

    private Fractions fractions(List<Choice> choices, double[] needed, double[] hours) {
        PlanProgram program = program(choices);
        LinearProgram built = program.build(needed, shortPrices, hours);
        return new Fractions(choices, program, built, solver.solve(built));
    }

    /** Everything cut by one specification. */
    @Nullable
    Cutting fixed(CuttingSpecification specification) {
        for (int p = 0; p < cuts.size(); p++) {
            if (way(specification, p) < 0) {
                return null;
            }
        }
        int[][][] ways = noWays();
        List<Integer> all = IntStream.range(0, carcasses.size()).boxed().toList();
        Choice choice = bySpecification(all, List.of(specification));
        all.forEach(i -> set(ways, i, choice, 0));
        return cut(ways);
    }

    private int[][][] noWays() {
        int[][][] ways = new int[carcasses.size()][cuts.size()][];
        for (int[][] of : ways) {
            for (int p = 0; p < of.length; p++) {
                of[p] = new int[cuts.get(p).bands.size()];
            }
        }
        return ways;
    }

    private static void set(int[][][] ways, int carcass, Choice choice, int option) {
        for (int s = 0; s < choice.slots.size(); s++) {
            Slot slot = choice.slots.get(s);
            ways[carcass][slot.cut()][slot.band()] = choice.options.get(option)[s];
        }
    }

    private static int[][][] copy(int[][][] ways) {
        int[][][] copy = new int[ways.length][][];
        for (int i = 0; i < ways.length; i++) {
            copy[i] = Arrays.stream(ways[i]).map(int[]::clone).toArray(int[][]::new);
        }
        return copy;
    }

    /** What comes of a list of whole carcasses, and where it goes best. */
    Cutting cut(int[][][] ways) {
        PlanProgram.Yield yield = new PlanProgram.Yield(setting.labour().size());
        yield.add(beside, 1);
        for (int i = 0; i < ways.length; i++) {
            for (int p = 0; p < ways[i].length; p++) {
                for (int b = 0; b < ways[i][p].length; b++) {
                    add(yield, carcasses.get(i), new Slot(p, b), ways[i][p][b]);
                }
            }
        }
        PlanProgram program =
                new PlanProgram(outlets, setting.stock(), setting.labour().size());
        program.given(yield);
        LinearSolution solution = solver.solve(program.build(least, shortPrices, mostHours()));
        return new Cutting(
                ways,
                yield,
                program.allocation(solution),
                solution,
                solution.objective() + program.certain(),
                program.worth(solution));
    }

    /**
     * The best list of whole carcasses that is found. What less freedom can do, more can: it is looked at too, so that nothing is
     * lost where the fractions of more freedom are divided less happily.
     */
    Cutting best(Fractions first) {
        Cutting best = whole(first, first.choices);
        if (setting.freedom() == PlanFreedom.PIECE || setting.freedom() == PlanFreedom.PRIMAL) {
            List<List<Integer>> cells = cells();
            List<PlanFreedom> others = setting.freedom() == PlanFreedom.PIECE
                    ? List.of(PlanFreedom.PRIMAL, PlanFreedom.CARCASS)
                    : List.of(PlanFreedom.CARCASS);
            for (PlanFreedom less : others) {
                List<Choice> ofLess = choices(cells, less);
                Cutting other = whole(fractions(ofLess, least, mostHours()), ofLess);
                best = isBetter(other, best) ? other : best;
            }
        }
        for (CuttingSpecification specification :
                setting.freedom() == PlanFreedom.FIXED ? List.<CuttingSpecification>of() : specifications) {
            Cutting other = fixed(specification);
            best = other != null && isBetter(other, best) ? other : best;
        }
        return polished(first.choices, best);
    }

    /** Whole carcasses for fractions, with limits drawn tighter where they don't keep them. */
    private Cutting whole(Fractions first, List<Choice> of) {
        Cutting best = null;
        double[] needed = least.clone();
        double[] hours = mostHours();
        Fractions now = first;
        for (int round = 0; round < ROUNDS; round++) {
            Cutting whole = cut(whole(now));
            if (best == null || isBetter(whole, best)) {
                best = whole;
            }
            boolean kept = true;
            for (int o = 0; o < needed.length; o++) {
                double missed = whole.allocation.shortKg[o] - now.program.allocation(now.solution).shortKg[o];
                if (missed > NOISE_KG) {
                    needed[o] = Math.min(
                            needed[o] + 1.1 * missed,
                            Math.max(needed[o], outlets.orders.get(o).maxKg()));
                    kept = false;
                }
            }
            double[] limits = mostHours();
            for (int h = 0; h < hours.length; h++) {
                double over = whole.yield.hours[h] - limits[h];
                if (over > NOISE_KG) {
                    hours[h] = Math.max(0, hours[h] - 1.1 * over);
                    kept = false;
                }
            }
            if (kept) {
                break;
            }
            now = fractions(of, needed, hours);
            if (!now.solution.isOptimal()) {
                break;
            }
        }
        return Objects.requireNonNull(best);
    }

    /** Within hours before beyond them, then by value. */
    private boolean isBetter(Cutting one, Cutting other) {
        double over = over(one);
        double otherOver = over(other);
        return Math.abs(over - otherOver) > NOISE_KG ? over < otherOver : one.value > other.value + NOISE_KG;
    }

    private double over(Cutting cutting) {
        double[] limits = mostHours();
        double over = 0;
        for (int h = 0; h < limits.length; h++) {
            over += Math.max(0, cutting.yield.hours[h] - limits[h]);
        }
        return over;
    }

    /** Whole carcasses for fractions: those first that are worth most in a way, until it has its kg. */
    private int[][][] whole(Fractions fractions) {
        int[][][] ways = noWays();
        Map<Outlets.Pool, Double> worth = fractions.program.worth(fractions.solution);
        double[] hourWorth =
                fractions.program.hourWorth(fractions.solution, setting.labour().size());
        for (int d = 0; d < fractions.choices.size(); d++) {
            Choice choice = fractions.choices.get(d);
            double[] ofChoice = fractions.program.fractions(d, fractions.solution);
            int largest = 0;
            for (int k = 1; k < ofChoice.length; k++) {
                largest = ofChoice[k] > ofChoice[largest] ? k : largest;
            }
            if (ofChoice[largest] >= WHOLE) {
                int only = largest;
                choice.carcasses.forEach(i -> set(ways, i, choice, only));
            } else {
                divide(ways, choice, ofChoice, worth, hourWorth);
            }
        }
        return ways;
    }

    private double value(int carcass, Choice choice, int option, Map<Outlets.Pool, Double> worth, double[] hourWorth) {
        PlanProgram.Yield yield = outcome(List.of(carcass), choice.slots, choice.options.get(option));
        double value = yield.amount;
        for (Map.Entry<Outlets.Pool, Double> entry : yield.kg.entrySet()) {
            Double perKg = worth.get(entry.getKey());
            // of what nothing was cut yet nobody knows the worth, but its price is sure
            double known = perKg != null
                    ? perKg
                    : entry.getKey().price() == null ? 0 : entry.getKey().price();
            value += entry.getValue() * known;
        }
        for (int h = 0; h < hourWorth.length; h++) {
            value -= yield.hours[h] * hourWorth[h];
        }
        return value;
    }

    private void divide(
            int[][][] ways, Choice choice, double[] fractions, Map<Outlets.Pool, Double> worth, double[] hourWorth) {
        int options = fractions.length;
        int size = choice.carcasses.size();
        double[] kg = new double[size];
        double[][] values = new double[size][options];
        double all = 0;
        for (int i = 0; i < size; i++) {
            int carcass = choice.carcasses.get(i);
            for (Slot slot : choice.slots) {
                CarvedCarcass.Figures figures = carcasses.get(carcass).figures;
                kg[i] += figures.kg[slot.cut()] * figures.inBand[slot.cut()][slot.band()];
            }
            all += kg[i];
            for (int k = 0; k < options; k++) {
                values[i][k] =
                        fractions[k] > 0 ? value(carcass, choice, k, worth, hourWorth) : Double.NEGATIVE_INFINITY;
            }
        }
        double[] left = new double[options];
        for (int k = 0; k < options; k++) {
            left[k] = fractions[k] * all;
        }
        // whom it matters most to go first
        List<Integer> order = new ArrayList<>(IntStream.range(0, size).boxed().toList());
        order.sort(Comparator.comparingDouble((Integer i) -> -regret(values[i], kg[i]))
                .thenComparing(i -> carcasses.get(choice.carcasses.get(i)).lot()));
        for (int i : order) {
            int best = -1;
            for (int k = 0; k < options; k++) {
                boolean room = left[k] >= kg[i] / 2;
                if (room && (best < 0 || values[i][k] > values[i][best])) {
                    best = k;
                }
            }
            if (best < 0) {
                best = 0;
                for (int k = 1; k < options; k++) {
                    best = left[k] > left[best] ? k : best;
                }
            }
            left[best] -= kg[i];
            set(ways, choice.carcasses.get(i), choice, best);
        }
    }

    /** What the second best option of a carcass would lose, per kg. */
    private static double regret(double[] values, double kg) {
        double best = Double.NEGATIVE_INFINITY;
        double second = Double.NEGATIVE_INFINITY;
        for (double value : values) {
            if (value > best) {
                second = best;
                best = value;
            } else if (value > second) {
                second = value;
            }
        }
        return second == Double.NEGATIVE_INFINITY || kg == 0 ? 0 : (best - second) / kg;
    }

    /** A change of one choice of one carcass. */
    private record Change(int carcass, Choice choice, int option, double gain) {}

    /** Changes carcasses of the list, one at a time or of a small day two, while that brings more. */
    private Cutting polished(List<Choice> choices, Cutting from) {
        Cutting best = from;
        int tries = 0;
        boolean changed = true;
        while (changed) {
            changed = false;
            for (List<Change> together : changes(choices, best)) {
                if (tries++ >= TRIES) {
                    return best;
                }
                int[][][] ways = copy(best.ways);
                together.forEach(change -> set(ways, change.carcass(), change.choice(), change.option()));
                Cutting other = cut(ways);
                if (isBetter(other, best)) {
                    best = other;
                    changed = true;
                    break;
                }
            }
        }
        return best;
    }

    /**
     * Changes that would bring more if what a kg in a pool is worth stayed as it is, the largest first; of a small day all of them,
     * and all pairs.
     */
    private List<List<Change>> changes(List<Choice> choices, Cutting cutting) {
        List<Change> changes = new ArrayList<>();
        double[] noHours = new double[setting.labour().size() + 1];
        for (Choice choice : choices) {
            for (int i : choice.carcasses) {
                int now = option(cutting.ways[i], choice);
                double value = now < 0 ? 0 : value(i, choice, now, cutting.worth, noHours);
                for (int k = 0; now >= 0 && k < choice.options.size(); k++) {
                    if (k != now) {
                        changes.add(new Change(i, choice, k, value(i, choice, k, cutting.worth, noHours) - value));
                    }
                }
            }
        }
        changes.sort(Comparator.comparingDouble(change -> -change.gain()));
        List<List<Change>> tried = new ArrayList<>();
        boolean small = changes.size() * changes.size() <= 2 * TRIES;
        for (Change change : changes) {
            if (small || (change.gain() > NOISE_KG && tried.size() < TRIES / 8)) {
                tried.add(List.of(change));
            }
        }
        for (int a = 0; small && a < changes.size(); a++) {
            for (int b = 0; b < a; b++) {
                tried.add(List.of(changes.get(b), changes.get(a)));
            }
        }
        return tried;
    }

    private static int option(int[][] ways, Choice choice) {
        for (int k = 0; k < choice.options.size(); k++) {
            boolean is = true;
            for (int s = 0; is && s < choice.slots.size(); s++) {
                Slot slot = choice.slots.get(s);
                is = ways[slot.cut()][slot.band()] == choice.options.get(k)[s];
            }
            if (is) {
                return k;
            }
        }
        return -1;
    }

    /** The most that can be delivered of one order, whatever else is missing. */
    double most(int order, boolean withinHours) {
        PlanProgram program = program(choices());
        double[] hours = mostHours();
        if (!withinHours) {
            Arrays.fill(hours, Double.POSITIVE_INFINITY);
        }
        double[] all = new double[least.length];
        Arrays.fill(all, 0);
        double great = 0;
        for (CarvedCarcass one : carcasses) {
            great += one.carcass.coldWeightKg();
        }
        all[order] = great;
        double[] prices = new double[least.length];
        // nothing counts beside what is missing
        prices[order] = FIRM * Arrays.stream(shortPrices).max().orElse(1);
        LinearSolution solution = solver.solve(program.build(all, prices, hours));
        return great - program.allocation(solution).shortKg[order];
    }

    Map<String, Double> hoursByRate(Cutting cutting) {
        Map<String, Double> hours = new LinkedHashMap<>();
        for (int i = 0; i < setting.labour().size(); i++) {
            LabourRate rate = setting.labour().get(i);
            hours.merge(
                    (rate.cut().equals(LabourRate.ANY) ? "all other cuts" : rate.cut())
                            + (rate.way().equals(LabourRate.ANY) ? "" : " as " + rate.way()),
                    cutting.yield.hours[i],
                    Double::sum);
        }
        return hours;
    }

    /** What moving limits is worth that bind. */
    List<LimitPrice> limits() {
        Fractions plan = fractions();
        ShadowPrices prices = ShadowPrices.of(solver, plan.built);
        double firm = IntStream.range(0, shortPrices.length)
                .filter(o -> outlets.orders.get(o).isFirm())
                .mapToDouble(o -> shortPrices[o])
                .min()
                .orElse(Double.POSITIVE_INFINITY);
        List<LimitPrice> limits = new ArrayList<>();
        for (int row = 0; row < plan.built.rows(); row++) {
            String name = plan.built.rowName(row);
            boolean least = name.startsWith(PlanProgram.ORDER_ROW);
            boolean most = name.startsWith(PlanProgram.MOST_ROW);
            double limit = least ? plan.built.rowLow(row) : plan.built.rowHigh(row);
            if (!(least || most || name.equals(PlanProgram.HOURS_ROW))
                    || Math.abs(plan.solution.row(row) - limit) > NOISE_KG * Math.max(1, Math.abs(limit))) {
                continue;
            }
            boolean exact = least && plan.built.rowLow(row) == plan.built.rowHigh(row);
            ShadowPrice price = least ? prices.low(name) : prices.high(name);
            // what costs so much misses a firm order; an hour is worth that of many kg
            double lost = least || most ? firm / 2 : 10 * firm;
            limits.add(new LimitPrice(
                    exact
                            ? LimitPrice.What.AMOUNT
                            : least ? LimitPrice.What.LEAST : most ? LimitPrice.What.MOST : LimitPrice.What.HOURS,
                    least || most
                            ? Optional.of(
                                    name.substring((least ? PlanProgram.ORDER_ROW : PlanProgram.MOST_ROW).length()))
                            : Optional.empty(),
                    least || most ? limit : setting.hours(),
                    possible(price.up().map(ShadowPrice.Direction::price), lost),
                    possible(price.down().map(down -> -down.price()), lost)));
        }
        return limits;
    }

    /** The price of moving a limit; empty if it can't be moved, or loses so much or more. */
    private static OptionalDouble possible(Optional<Double> price, double lost) {
        return price.filter(one -> one > -lost).map(OptionalDouble::of).orElse(OptionalDouble.empty());
    }

    /** What a kg counts that is missing of an order. */
    double shortPrice(int order) {
        return shortPrices[order];
    }
}
