package org.beefyield.market;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;

/**
 * How many carcasses of a lot are in a market specification, and how many miss each limit; a carcass may miss several.
 * Immutable; a {@link Collector} adds carcasses up to it.
 */
public final class MarketSummary implements ShownInBlocks {
    private final MarketSpecification specification;
    private final long carcasses;
    private final long inSpecification;
    private final Map<MarketFault.Limit, Misses> misses;

    private MarketSummary(Collector collector) {
        this.specification = collector.specification;
        this.carcasses = collector.carcasses;
        this.inSpecification = collector.inSpecification;
        this.misses = new EnumMap<>(collector.misses);
    }

    /**
     * A collector of carcasses.
     *
     * @param specification what the customer takes
     * @return an empty collector
     */
    public static Collector collector(MarketSpecification specification) {
        Objects.requireNonNull(specification, "specification");
        return new Collector(specification);
    }

    /**
     * The carcasses that miss a limit.
     *
     * @param carcasses number of carcasses
     * @param farthest how the one misses it that is farthest off, of several the first
     * @param id its id, empty if it has none
     */
    public record Misses(long carcasses, MarketFault farthest, String id) {
        /** Checks that nothing is missing. */
        public Misses {
            Objects.requireNonNull(farthest, "farthest");
            Objects.requireNonNull(id, "id");
        }

        Misses plus(Misses later) {
            Misses farther = later.off() > off() ? later : this;
            return new Misses(carcasses + later.carcasses, farther.farthest, farther.id);
        }

        private double off() {
            return farthest.distance().orElse(0);
        }
    }

    /**
     * What the customer takes.
     *
     * @return the specification
     */
    public MarketSpecification specification() {
        return specification;
    }

    /**
     * The limits that any carcass misses, and by how much.
     *
     * @return an unmodifiable map
     */
    public Map<MarketFault.Limit, Misses> misses() {
        return Collections.unmodifiableMap(misses);
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
        Map<MarketFault.Limit, Long> missed = new EnumMap<>(MarketFault.Limit.class);
        misses.forEach((limit, those) -> missed.put(limit, those.carcasses()));
        return Collections.unmodifiableMap(missed);
    }

    /**
     * The summary as a frame, a row for each limit that any carcass misses; a carcass may miss several.
     *
     * @return {@code specification}; {@code limit}; {@code missed by} in carcasses, {@code share} in % of all carcasses; {@code farthest off},
     *     the id of the carcass that is farthest off, missing if it has none; {@code distance} in the limit's own unit (kg,
     *     points, months), missing where nothing can be measured; {@code reason}
     */
    public Frame toFrame() {
        return new MarketSummaryText(this).frame();
    }

    /**
     * The summary for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new MarketSummaryText(this).blocks();
    }

    /**
     * One line.
     *
     * @return such as {@code 180 of 200 carcasses are in specification retail: 270 to 380 kg cold}
     */
    @Override
    public String toString() {
        return new MarketSummaryText(this).sentence();
    }

    /**
     * Adds carcasses up to a summary; memory does not grow with their number. Not thread-safe; let each thread have its own
     * and merge them.
     */
    public static final class Collector {
        private final MarketSpecification specification;
        private final Map<MarketFault.Limit, Misses> misses = new EnumMap<>(MarketFault.Limit.class);
        private long carcasses;
        private long inSpecification;

        private Collector(MarketSpecification specification) {
            this.specification = specification;
        }

        /**
         * Adds a carcass.
         *
         * @param carcass carcass
         * @return this
         */
        public Collector add(Carcass carcass) {
            Objects.requireNonNull(carcass, "carcass");
            boolean in = true;
            for (MarketFault fault : specification.check(carcass)) {
                in = false;
                add(fault.limit(), new Misses(1, fault, carcass.id().orElse("")));
            }
            carcasses++;
            inSpecification += in ? 1 : 0;
            return this;
        }

        private void add(MarketFault.Limit limit, Misses more) {
            misses.merge(limit, more, Misses::plus);
        }

        /**
         * Adds all that another collector holds, as if its carcasses had been added behind those here; that one stays as it
         * is.
         *
         * @param other a collector for the same specification
         * @return this
         * @throws IllegalArgumentException if it is for another one
         */
        public Collector add(Collector other) {
            Objects.requireNonNull(other, "other");
            if (!specification.equals(other.specification)) {
                throw new IllegalArgumentException("summaries go together only of one market specification: "
                        + specification + " against " + other.specification);
            }
            carcasses += other.carcasses;
            inSpecification += other.inSpecification;
            other.misses.forEach(this::add);
            return this;
        }

        /**
         * The summary so far.
         *
         * @return the summary of all carcasses added
         */
        public MarketSummary result() {
            return new MarketSummary(this);
        }
    }
}
