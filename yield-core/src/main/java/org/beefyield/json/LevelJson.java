package org.beefyield.json;

import java.util.List;
import java.util.Objects;
import org.beefyield.estimate.Outturn;
import org.beefyield.text.Checks;

/**
 * One level of cutting: cuts that add up to the cold weight.
 *
 * @param level name of the level
 * @param cuts its cuts in printing order, those that come to nothing too
 */
public record LevelJson(String level, List<CutJson> cuts) {
    /** Refuses what is missing and copies the cuts. */
    public LevelJson {
        Objects.requireNonNull(level, "level");
        Checks.noNullIn(cuts, "cuts");
        cuts = List.copyOf(cuts);
    }

    static List<LevelJson> of(Outturn outturn, double probability) {
        return outturn.table().levels().stream()
                .map(level -> new LevelJson(
                        level,
                        outturn.lines(level).stream()
                                .map(line -> CutJson.of(outturn, line, probability))
                                .toList()))
                .toList();
    }
}
