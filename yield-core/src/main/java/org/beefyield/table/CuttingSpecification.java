package org.beefyield.table;

import java.io.Serializable;
import java.util.Collections;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.beefyield.text.Checks;

/**
 * Which way each cut is broken down: one way for every parent that has ways. Immutable; it is checked against a table
 * when it is bound to one.
 */
public final class CuttingSpecification implements Serializable {
    private static final long serialVersionUID = 1;

    /** For tables whose breakdowns have no ways to choose from. */
    public static final CuttingSpecification NONE = new CuttingSpecification("", Map.of());

    /**
     * Name for output.
     *
     * @serial any text
     */
    private final String name;
    /**
     * Way by code of the cut.
     *
     * @serial in order of codes
     */
    private final TreeMap<String, String> ways;

    private CuttingSpecification(String name, Map<String, String> ways) {
        this.name = name;
        this.ways = new TreeMap<>(ways);
    }

    /**
     * A specification.
     *
     * @param name name for output
     * @param ways way by code of the cut that is broken down
     * @return the specification
     */
    public static CuttingSpecification of(String name, Map<String, String> ways) {
        Checks.noNullIn(ways, "ways");
        Objects.requireNonNull(name, "name");
        return new CuttingSpecification(Objects.requireNonNull(name), ways);
    }

    /**
     * The same with another way for one cut: an oversized striploin as joints, say.
     *
     * @param parent code of the cut that is broken down
     * @param way its way
     * @return a specification, its name telling the change: {@code steaks, striploin as joints}
     */
    public CuttingSpecification with(String parent, String way) {
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(way, "way");
        if (way.equals(ways.get(parent))) {
            return this;
        }
        Map<String, String> changed = new TreeMap<>(ways);
        changed.put(parent, way);
        return new CuttingSpecification(name + (name.isEmpty() ? "" : ", ") + parent + " as " + way, changed);
    }

    /**
     * Name for output.
     *
     * @return the name, empty for {@link #NONE}
     */
    public String name() {
        return name;
    }

    /**
     * Way by code of the cut that is broken down.
     *
     * @return an unmodifiable map in order of codes
     */
    public Map<String, String> ways() {
        return Collections.unmodifiableMap(ways);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof CuttingSpecification that && name.equals(that.name) && ways.equals(that.ways);
    }

    @Override
    public int hashCode() {
        return Objects.hash(name, ways);
    }

    /**
     * The name.
     *
     * @return the name
     */
    @Override
    public String toString() {
        return name;
    }
}
