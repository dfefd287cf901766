package org.beefyield.data.command;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.beefyield.data.picture.Picture;
import org.beefyield.report.Day;
import org.beefyield.text.Blocks;
import org.beefyield.text.Shown;
import org.beefyield.text.TextTable;

/** The first page of a day and what stands behind it, printed or, with pictures, as a page. */
final class DayReport {
    private final Day day;
    private final Blocks first;
    /** Sentences said so far; what holds for several parts is said with the first. */
    private final Set<String> said = new HashSet<>();

    private final List<Picture> pictures = new ArrayList<>();
    private final StringBuilder text = new StringBuilder();
    private final StringBuilder html = new StringBuilder();

    DayReport(Day day) {
        this.day = day;
        first = day.blocks().saidOnce(said);
    }

    DayReport sentence(String sentence) {
        return add("", new Blocks().sentence(sentence));
    }

    /** A part, below a heading on the page if there is one. */
    DayReport add(String heading, Shown part) {
        Shown once = part.saidOnce(said);
        text.append('\n').append(once.toText());
        html.append(heading.isEmpty() ? "" : "<h2>" + TextTable.escape(heading) + "</h2>\n")
                .append(once.toHtml());
        return this;
    }

    /** A picture, which stands with the others behind the first page. */
    DayReport picture(Picture picture) {
        pictures.add(picture);
        return this;
    }

    long refused() {
        return day.refused();
    }

    String title() {
        return day.toString().substring(0, day.toString().lastIndexOf(": "));
    }

    String toText() {
        return first.toText() + text;
    }

    String toHtml() {
        StringBuilder page = new StringBuilder(first.toHtml());
        page.append("<div class=\"pictures\">\n");
        pictures.forEach(picture -> page.append(picture.toSvg()).append('\n'));
        page.append("</div>\n");
        return page.append(html).toString();
    }
}
