package org.beefyield.json;

import java.util.Objects;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Interval;

/**
 * One cut at one level.
 *
 * @param code code of the cut, such as {@code striploin}
 * @param name its name for people
 * @param kind code of its kind, such as {@code steak}
 * @param kg kg
 * @param share part of the cold weight
 * @param sdKg SD of the kg
 * @param lowKg lower end of the interval that holds the kg with the outturn's probability
 * @param highKg upper end of that interval
 */
public record CutJson(
        String code, String name, String kind, double kg, double share, double sdKg, double lowKg, double highKg) {
    /** Refuses what is missing. */
    public CutJson {
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(kind, "kind");
    }

    static CutJson of(CutLine line, double probability) {
        Interval interval = line.interval(probability);
        return new CutJson(
                line.code(),
                line.name(),
                line.kind().code(),
                line.kg(),
                line.share(),
                line.sdKg(),
                interval.low(),
                interval.high());
    }
}
