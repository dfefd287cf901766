package org.beefyield.boning;

import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * A box, or a bin, that a run packed.
 *
 * @param id its number or label, without blanks
 * @param product code of the product that it was packed as
 * @param batch batch that it was packed from, empty if not known
 * @param grossKg weight with its packing, kg
 * @param tareKg weight of the packing, kg; 0 if the other weight is without it
 * @param time time of packing as the caller writes it, empty if not known
 * @param kind how it came to be; one that was downgraded stands once, as what it was packed as
 * @param from of a downgraded box the code of the product that was cut; of a reworked one the ids of the boxes that it was
 *     packed from, as far as known; else empty
 */
public record Box(
        String id,
        String product,
        String batch,
        double grossKg,
        double tareKg,
        String time,
        BoxKind kind,
        List<String> from) {
    /** What a box or a rest weighs at most, kg: more than a lorry holds is a slip. */
    public static final double MOST_KG = 100_000;

    /**
     * Checks the box and copies the list.
     *
     * @throws IllegalArgumentException if the id is empty or holds blanks, the product is blank, the gross weight is above
     *     {@value #MOST_KG} kg, the tare is below 0 or not below the gross weight, or what it comes from doesn't fit its kind
     */
    public Box {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(product, "product");
        Objects.requireNonNull(batch, "batch");
        Objects.requireNonNull(time, "time");
        Objects.requireNonNull(kind, "kind");
        Checks.noNullIn(from, "from");
        if (id.isEmpty() || id.chars().anyMatch(Character::isWhitespace)) {
            throw new IllegalArgumentException("box \"" + id + "\": the id of a box is not empty and holds no blank");
        }
        if (product.isBlank()) {
            throw new IllegalArgumentException("box " + id + " has no product; every box is of one");
        }
        Checks.notNegative("box " + id + ": tare, kg", tareKg);
        Checks.atMost("box " + id + ": gross weight, kg", grossKg, MOST_KG);
        if (!(grossKg > tareKg)) {
            throw new IllegalArgumentException("box " + id + ": gross weight " + Numbers.exact(grossKg)
                    + " kg is not above the tare of " + Numbers.exact(tareKg) + " kg");
        }
        from = List.copyOf(from);
        checkFrom(id, product, kind, from);
    }

    private static void checkFrom(String id, String product, BoxKind kind, List<String> from) {
        String wrong = switch (kind) {
            case FIRST -> from.isEmpty() ? "" : "it was packed from the line, so it comes from nothing else";
            case DOWNGRADED ->
                from.size() == 1 && !from.get(0).isBlank() && !from.contains(product)
                        ? ""
                        : "it was downgraded, so it comes from one other product, the one that was cut";
            case REWORK ->
                !from.contains(id) && new HashSet<>(from).size() == from.size()
                        ? ""
                        : "it was packed again, so it comes from other boxes, each named once";
        };
        if (!wrong.isEmpty()) {
            throw new IllegalArgumentException(
                    "box " + id + (from.isEmpty() ? "" : " from " + String.join(" ", from)) + ": " + wrong);
        }
    }

    /**
     * A box packed from the line, of which no more is known.
     *
     * @param id its number or label, without blanks
     * @param product code of the product
     * @param batch batch that it was packed from, empty if not known
     * @param grossKg weight with its packing, kg
     * @param tareKg weight of the packing, kg
     * @return the box
     * @throws IllegalArgumentException as the constructor
     */
    public static Box of(String id, String product, String batch, double grossKg, double tareKg) {
        return new Box(id, product, batch, grossKg, tareKg, "", BoxKind.FIRST, List.of());
    }

    /**
     * What is in it.
     *
     * @return kg without packing
     */
    public double netKg() {
        return grossKg - tareKg;
    }

    /**
     * The product that was cut: what it was packed as, or was downgraded from.
     *
     * @return code of a product
     */
    public String cutAs() {
        return kind == BoxKind.DOWNGRADED ? from.get(0) : product;
    }
}
