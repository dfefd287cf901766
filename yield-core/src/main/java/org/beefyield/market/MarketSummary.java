package org.beefyield.market;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * How many carcasses of a lot are in a market specification, and how many miss each limit; a carcass may miss several.
 * Add carcasses one by one. Not thread-safe.
 */
public final class MarketSummary implements ShownInBlocks {
    private final MarketSpecification specification;
    private final Map<MarketFault.Limit, Long> missed = new EnumMap<>(MarketFault.Limit.class);
    private final Map<MarketFault.Limit, String> farthest = new EnumMap<>(MarketFault.Limit.class);
    private final Map<MarketFault.Limit, Double> distance = new EnumMap<>(MarketFault.Limit.class);
    private long carcasses;
    private long inSpecification;

    /**
     * A summary of no carcasses yet.
     *
     * @param specification what the customer takes
     */
    public MarketSummary(MarketSpecification specification) {
        this.specification = specification;
    }

    /**
     * Adds a carcass.
     *
     * @param carcass carcass
     * @return the limits that it misses, empty if it is in specification
     */
    public List<MarketFault> add(Carcass carcass) {
        List<MarketFault> faults = specification.check(carcass);
        carcasses++;
        inSpecification += faults.isEmpty() ? 1 : 0;
        for (MarketFault fault : faults) {
            missed.merge(fault.limit(), 1L, Long::sum);
            double off = fault.distance().orElse(0);
            if (off > distance.getOrDefault(fault.limit(), -1.0)) {
                distance.put(fault.limit(), off);
                farthest.put(
                        fault.limit(),
                        carcass.id().map(id -> "carcass " + id + ": ").orElse("") + fault.text());
            }
        }
        return faults;
    }

    /**
     * Carcasses looked at.
     *
     * @return 0 or more
     */
    public long carcasses() {
        return carcasses;
    }

    /**
     * Carcasses that miss no limit.
     *
     * @return 0 or more
     */
    public long inSpecification() {
        return inSpecification;
    }

    /**
     * Carcasses that miss each limit.
     *
     * @return an unmodifiable map of limits that any carcass misses
     */
    public Map<MarketFault.Limit, Long> missed() {
        return Collections.unmodifiableMap(missed);
    }

    private TextTable table() {
        TextTable table = new TextTable("limit missed", "carcasses", "% of all", "farthest off");
        missed.forEach((limit, count) -> table.row(
                limit.words(),
                Long.toString(count),
                Numbers.fixed(100.0 * count / carcasses, 1),
                farthest.getOrDefault(limit, "")));
        return table;
    }

    private String sentence() {
        return inSpecification + " of " + carcasses + (carcasses == 1 ? " carcass " : " carcasses ")
                + (inSpecification == 1 ? "is" : "are")
                + " in specification " + specification;
    }

    /**
     * The summary for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        Blocks blocks = new Blocks().sentence(sentence());
        return missed.isEmpty() ? blocks : blocks.add(table());
    }

    /**
     * One line.
     *
     * @return such as {@code 180 of 200 carcasses are in specification retail: 270 to 380 kg cold}
     */
    @Override
    public String toString() {
        return sentence();
    }
}
