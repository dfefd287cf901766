package org.beefyield.text;

import java.util.Set;

/**
 * A result that can be shown to people. Its {@code toString} is one line; these are the whole of it, with units, notes and
 * cautions, the same in both forms. What shows one result, such as a notebook, shows them all.
 */
public interface Shown {
    /**
     * As plain text, for a fixed-width font.
     *
     * @return lines, each with a line feed behind it
     */
    String toText();

    /**
     * As HTML that needs no style sheet, no script and nothing from elsewhere, and is well-formed XML too.
     *
     * @return elements, all text escaped
     */
    String toHtml();

    /**
     * The same without sentences that are said already.
     *
     * @param said sentences said already; takes those that are said here
     * @return a copy, or this where there are none
     */
    default Shown saidOnce(Set<String> said) {
        Checks.noNullIn(said, "said");
        return this;
    }
}
