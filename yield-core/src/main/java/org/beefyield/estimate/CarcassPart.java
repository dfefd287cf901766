package org.beefyield.estimate;

import java.io.Serializable;
import java.util.Comparator;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.text.Numbers;

/**
 * What of one carcass is boned: how many of its two forequarters and of its two hindquarters, by one of the table's quarterings, or
 * one cut alone, of both sides. The sides of a carcass are taken to be alike.
 *
 * @param quartering name of the quartering, such as {@code 10-rib forequarter}; empty for as many forequarters as hindquarters, where
 *     it makes no difference
 * @param forequarters 0 to 2
 * @param hindquarters 0 to 2
 * @param cut code of the cut that is taken alone, with all that comes of it; empty for all of them. A cut is taken of whole
 *     carcasses
 * @serial exclude
 */
public record CarcassPart(String quartering, int forequarters, int hindquarters, String cut)
        implements Comparable<CarcassPart>, Serializable {
    private static final int SIDES = 2;

    private static final Comparator<CarcassPart> ORDER = Comparator.comparingInt(
                    (CarcassPart part) -> -part.forequarters)
            .thenComparingInt(part -> -part.hindquarters)
            .thenComparing(CarcassPart::quartering)
            .thenComparing(CarcassPart::cut);

    /**
     * Checks the numbers; forgets the name of the quartering where it makes no difference.
     *
     * @throws IllegalArgumentException if there is nothing of the carcass or more than it has, the quartering isn't named where it
     *     matters, or a cut is taken of less than a carcass
     */
    public CarcassPart {
        Objects.requireNonNull(quartering, "quartering");
        Objects.requireNonNull(cut, "cut");
        check("forequarters", forequarters);
        check("hindquarters", hindquarters);
        if (forequarters + hindquarters == 0) {
            throw new IllegalArgumentException("a part of a carcass has at least one quarter");
        }
        if (forequarters == hindquarters) {
            quartering = "";
        } else if (quartering.isBlank()) {
            throw new IllegalArgumentException(
                    "a quarter needs the name of the table's quartering that divides the sides");
        }
        if (!cut.isEmpty() && forequarters + hindquarters < 2 * SIDES) {
            throw new IllegalArgumentException("a cut alone, here " + cut + ", is taken of a whole carcass");
        }
    }

    /**
     * Quarters, with all their cuts.
     *
     * @param quartering as above
     * @param forequarters 0 to 2
     * @param hindquarters 0 to 2
     * @throws IllegalArgumentException as above
     */
    public CarcassPart(String quartering, int forequarters, int hindquarters) {
        this(quartering, forequarters, hindquarters, "");
    }

    private static void check(String what, int count) {
        if (count < 0 || count > SIDES) {
            throw new IllegalArgumentException(count + " " + what + " of a carcass are outside 0 to " + SIDES);
        }
    }

    /**
     * The whole carcass.
     *
     * @return both sides
     */
    public static CarcassPart carcass() {
        return new CarcassPart("", SIDES, SIDES);
    }

    /**
     * One side.
     *
     * @return a forequarter and a hindquarter
     */
    public static CarcassPart side() {
        return new CarcassPart("", 1, 1);
    }

    /**
     * The forequarters of both sides.
     *
     * @param quartering name of a quartering of the table
     * @return both forequarters
     * @throws IllegalArgumentException if the name is blank
     */
    public static CarcassPart forequarters(String quartering) {
        return new CarcassPart(quartering, SIDES, 0);
    }

    /**
     * The hindquarters of both sides.
     *
     * @param quartering name of a quartering of the table
     * @return both hindquarters
     * @throws IllegalArgumentException if the name is blank
     */
    public static CarcassPart hindquarters(String quartering) {
        return new CarcassPart(quartering, 0, SIDES);
    }

    /**
     * One cut alone, of both sides, and what comes of it: the striploins, say, that a hall cuts otherwise than the rest.
     *
     * @param cut code of the cut
     * @return that cut of a carcass
     * @throws IllegalArgumentException if the code is blank
     */
    public static CarcassPart cut(String cut) {
        Objects.requireNonNull(cut, "cut");
        if (cut.isBlank()) {
            throw new IllegalArgumentException("a cut alone needs its code");
        }
        return new CarcassPart("", SIDES, SIDES, cut);
    }

    /** Whether it is all of the carcass. */
    boolean isCarcass() {
        return forequarters + hindquarters == 2 * SIDES && cut.isEmpty();
    }

    /** The fraction of a cut that is in it, of which a fraction lies in the forequarters. */
    double fraction(double fore) {
        return (forequarters * fore + hindquarters * (1 - fore)) / SIDES;
    }

    /** More forequarters first, then more hindquarters; so whole carcasses first. */
    @Override
    public int compareTo(CarcassPart other) {
        Objects.requireNonNull(other, "other");
        return ORDER.compare(this, other);
    }

    /** So many carcasses' quarters or sides in words, such as {@code 80 forequarters (10-rib forequarter)}, or the cut. */
    String words(long carcasses) {
        if (!cut.isEmpty()) {
            return cut;
        }
        if (quartering.isEmpty()) {
            return counted(forequarters * carcasses, "side");
        }
        return Stream.of(
                                counted(forequarters * carcasses, "forequarter"),
                                counted(hindquarters * carcasses, "hindquarter"))
                        .filter(words -> !words.isEmpty())
                        .collect(Collectors.joining(" and "))
                + " (" + quartering + ")";
    }

    private static String counted(long count, String what) {
        return count == 0 ? "" : Numbers.counted(count, what, what + "s");
    }

    /**
     * One line.
     *
     * @return such as {@code 2 forequarters (10-rib forequarter)}, {@code 1 side}, {@code striploin}
     */
    @Override
    public String toString() {
        return words(1);
    }
}
