package org.beefyield.text;

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
}
