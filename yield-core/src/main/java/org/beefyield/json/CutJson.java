package org.beefyield.json;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * One cut at one level.
 *
 * @param code code of the cut, such as {@code striploin}
 * @param name its name for people
 * @param kind code of its kind, such as {@code steak}
 * @param kg kg
 * @param share part of the cold weight
 * @param sdKg SD of the kg that will be weighed
 * @param lowKg lower end of the interval that holds these kg with the outturn's probability
 * @param highKg upper end of that interval
 * @param sdKgByPart SD from each counted part of the uncertainty, by its name such as {@code hall}, kg; their squares add up to
 *     that of the SD; parts from which nothing comes are left out
 * @param largestPart name of the part with the largest SD, or null if nothing is uncertain
 */
public record CutJson(
        String code,
        String name,
        String kind,
        double kg,
        double share,
        double sdKg,
        double lowKg,
        double highKg,
        Map<String, Double> sdKgByPart,
        @Nullable String largestPart) {
    /** Refuses what is missing and copies the SDs. */
    public CutJson {
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(kind, "kind");
        Checks.noNullIn(sdKgByPart, "sdKgByPart");
        sdKgByPart = Collections.unmodifiableMap(new LinkedHashMap<>(sdKgByPart));
    }

    static CutJson of(Outturn outturn, CutLine line, double probability) {
        Interval interval = line.interval(probability);
        Map<UncertaintyPart, Double> sds = outturn.sdByPart(Figure.cut(line.level(), line.code()));
        Map<String, Double> byName = new LinkedHashMap<>();
        sds.forEach((part, sd) -> byName.put(PartJson.name(part), sd));
        Optional<UncertaintyPart> largest =
                sds.entrySet().stream().max(Map.Entry.comparingByValue()).map(Map.Entry::getKey);
        return new CutJson(
                line.code(),
                line.name(),
                line.kind().code(),
                line.kg(),
                line.share(),
                line.sdKg(),
                interval.low(),
                interval.high(),
                byName,
                largest.map(PartJson::name).orElse(null));
    }
}
