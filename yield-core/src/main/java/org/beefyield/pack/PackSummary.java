package org.beefyield.pack;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.Cautions;
import org.beefyield.market.SizeWindow;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * A lot's pieces against the windows of their packs: chances on average, what misfits are expected to cost, and what the
 * best way of each cut of each carcass would bring. Add carcasses one by one. Not thread-safe.
 */
public final class PackSummary implements ShownInBlocks {
    private final PackFit fit;
    private final Map<SizeWindow, Sums> windows = new LinkedHashMap<>();
    private final Map<String, Long> changed = new LinkedHashMap<>();
    private final Set<String> assumed = new TreeSet<>();
    private long carcasses;
    private double gain;

    private static final class Sums {
        private long carcasses;
        private double below;
        private double above;
        private double kg;
        private double amount;
    }

    /**
     * A summary of no carcasses yet.
     *
     * @param fit windows, prices and the fixed specification
     */
    public PackSummary(PackFit fit) {
        this.fit = fit;
    }

    /**
     * Adds a carcass.
     *
     * @param carcass carcass
     * @return its best ways, beside the fixed specification
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it; nothing is added
     */
    public BestWays add(Carcass carcass) {
        BestWays best = fit.best(carcass);
        carcasses++;
        gain += best.gain();
        best.changed().forEach((cut, way) -> changed.merge(AssumedWays.words(cut, way), 1L, Long::sum));
        assumed.addAll(best.assumed());
        for (Downgrade downgrade : best.fixed().downgrades()) {
            Sums sums = windows.computeIfAbsent(downgrade.chance().window(), window -> new Sums());
            sums.carcasses++;
            sums.below += downgrade.chance().below();
            sums.above += downgrade.chance().above();
            sums.kg += downgrade.kg();
            sums.amount += downgrade.amount();
        }
        return best;
    }

    /**
     * Carcasses added.
     *
     * @return 0 or more
     */
    public long carcasses() {
        return carcasses;
    }

    /**
     * What misfits are expected to cost under the fixed specification.
     *
     * @return amount, below 0 where the other ways are worth more
     */
    public double cost() {
        return windows.values().stream().mapToDouble(sums -> sums.amount).sum();
    }

    /**
     * What the best way of each cut of each carcass is expected to bring beyond the fixed specification, labour not counted.
     *
     * @return amount, 0 or more
     */
    public double gain() {
        return gain;
    }

    private String currency() {
        return fit.prices().currency();
    }

    private TextTable table() {
        TextTable table = new TextTable(
                "window",
                "carcasses",
                "too light, %",
                "fits, %",
                "too heavy, %",
                "other way, kg",
                "costs, " + currency());
        windows.forEach((window, sums) -> {
            double below = 100 * sums.below / sums.carcasses;
            double above = 100 * sums.above / sums.carcasses;
            List<String> percent = Rounding.adding(new double[] {below, 100 - below - above, above}, 100, 1);
            table.row(
                    window.toString(),
                    Long.toString(sums.carcasses),
                    percent.get(0),
                    percent.get(1),
                    percent.get(2),
                    Numbers.fixed(sums.kg, 1),
                    fit.prices().money(sums.amount));
        });
        return table;
    }

    private List<String> sentences() {
        List<String> sentences = new ArrayList<>();
        if (changed.isEmpty()) {
            sentences.add("No other way of cutting is expected to return more");
        } else {
            List<String> ways = new ArrayList<>();
            changed.forEach((way, count) -> ways.add(way + " (" + count + ")"));
            sentences.add("Cut the best way, carcass by carcass, the lot is expected to return "
                    + fit.prices().money(gain) + " " + currency()
                    + " more, labour not counted; what changes, and in how many carcasses: " + String.join(", ", ways));
            sentences.addAll(AssumedWays.caution(assumed));
        }
        sentences.add(Cautions.NO_SETTLEMENT);
        return sentences;
    }

    /**
     * The summary for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        Blocks blocks = new Blocks();
        return (windows.isEmpty() ? blocks : blocks.add(table())).sentences(sentences());
    }
}
