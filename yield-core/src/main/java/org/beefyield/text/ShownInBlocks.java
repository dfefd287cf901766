package org.beefyield.text;

import java.util.Set;

/** A result that shows itself as sentences and tables one after the other. */
public interface ShownInBlocks extends Shown {
    /**
     * What is shown.
     *
     * @return its sentences and tables, in order
     */
    Blocks blocks();

    @Override
    default String toText() {
        return blocks().toText();
    }

    @Override
    default String toHtml() {
        return blocks().toHtml();
    }

    @Override
    default Blocks saidOnce(Set<String> said) {
        Checks.noNullIn(said, "said");
        return blocks().saidOnce(said);
    }
}
