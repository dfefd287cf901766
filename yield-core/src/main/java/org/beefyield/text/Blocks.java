package org.beefyield.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;

/** Sentences and tables one after the other. Not thread-safe while it is filled. */
public final class Blocks implements Shown {
    private final List<Object> blocks = new ArrayList<>();

    /** Nothing yet. */
    public Blocks() {}

    /**
     * Adds a sentence.
     *
     * @param sentence text, a line or paragraph of its own
     * @return this
     */
    public Blocks sentence(String sentence) {
        Objects.requireNonNull(sentence, "sentence");
        blocks.add(sentence);
        return this;
    }

    /**
     * Adds sentences.
     *
     * @param sentences texts, each a line or paragraph of its own
     * @return this
     */
    public Blocks sentences(List<String> sentences) {
        Checks.noNullIn(sentences, "sentences");
        blocks.addAll(sentences);
        return this;
    }

    /**
     * Adds what shows itself, such as a table.
     *
     * @param shown a table, or a result
     * @return this
     */
    public Blocks add(Shown shown) {
        Objects.requireNonNull(shown, "shown");
        blocks.add(shown);
        return this;
    }

    @Override
    public Blocks saidOnce(Set<String> said) {
        Checks.noNullIn(said, "said");
        Blocks once = new Blocks();
        for (Object block : blocks) {
            if (block instanceof Shown shown) {
                once.blocks.add(shown.saidOnce(said));
            } else if (said.add(block.toString())) {
                once.blocks.add(block);
            }
        }
        return once;
    }

    @Override
    public String toText() {
        StringBuilder text = new StringBuilder();
        Object before = null;
        for (Object block : blocks) {
            // sentences stand together; a table has a blank line on both sides
            if (before instanceof Shown || (before != null && block instanceof Shown)) {
                text.append('\n');
            }
            text.append(block instanceof Shown shown ? shown.toText() : block + "\n");
            before = block;
        }
        return text.toString();
    }

    @Override
    public String toHtml() {
        StringBuilder html = new StringBuilder();
        for (Object block : blocks) {
            html.append(
                    block instanceof Shown shown
                            ? shown.toHtml()
                            : "<p>" + TextTable.escape(block.toString()) + "</p>\n");
        }
        return html.toString();
    }
}
