package org.beefyield.data.boning;

import java.util.EnumSet;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.beefyield.boning.RestKind;
import org.beefyield.cut.CutKind;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.text.Names;

/** Names that a product can't have, for the lines of a reconciliation go by name. */
final class ProductNames {
    /** What a rest is weighed as that cuts of a table stand for. */
    private static final Map<String, CutKind> KINDS =
            Map.of(line(RestKind.BONE), CutKind.BONE, line(RestKind.FAT), CutKind.FAT_TRIM);

    private static final Set<String> TAKEN = taken();

    private ProductNames() {}

    private static String line(RestKind kind) {
        return Names.capital(kind.code());
    }

    private static Set<String> taken() {
        Set<String> taken = new HashSet<>();
        for (String line : Set.of(Reconciliation.LOSSES, Reconciliation.OTHER_WAY)) {
            taken.add(line);
            taken.add(Names.capital(line));
        }
        EnumSet.allOf(RestKind.class).stream()
                .map(ProductNames::line)
                .filter(line -> !KINDS.containsKey(line))
                .forEach(taken::add);
        return Set.copyOf(taken);
    }

    /** What is wrong with a name, whatever goes into the product; empty if nothing is. */
    static String wrong(String name) {
        return TAKEN.contains(name)
                ? "a line of every reconciliation may be called \"" + name + "\"; a product has another name"
                : "";
    }

    /** The kind of cut that alone goes into a product of this name, for what is weighed beside the boxes has the name too. */
    static Optional<CutKind> kind(String name) {
        return Optional.ofNullable(KINDS.get(name));
    }
}
