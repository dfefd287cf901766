package org.beefyield.calibrate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;
import org.assertj.core.data.Offset;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The fit beside R's multi-response lm. The trials and what R makes of them are written by lm-reference.R beside the
 * resources; their first line names R's version.
 */
class CalibrationOutsideReferenceTest {
    private static final Pattern COMMA = Pattern.compile(",");

    /** What R says of single carcasses, which a fit doesn't offer. */
    private static final Set<String> ELSEWHERE =
            Set.of("leverage of the first", "rstudent of the first", "leave one out");

    private static final Map<String, String> COLUMNS = Map.of(
            "(Intercept)", "level_g_per_kg",
            "c", "per_conformation_point",
            "f", "per_fat_point",
            "w", "per_100kg",
            "fat_below_3", "fat_below_3",
            "conformation_above_15", "conformation_above_15",
            "I(c * f)", "conformation_by_fat",
            "I(f * w)", "fat_by_100kg");

    private static Offset<Double> sixDigits(double value) {
        return within(1e-6 * Math.max(1, Math.abs(value)));
    }

    /** Lines of a resource without comments and header, split at commas. */
    private static List<List<String>> read(String name) {
        try (InputStream in = Objects.requireNonNull(CalibrationOutsideReferenceTest.class.getResourceAsStream(name))) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .skip(1)
                    .map(line -> COMMA.splitAsStream(line).toList())
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"plain", "terms", "weighted", "offset"})
    void theFitIsThatOfR(String name) {
        Map<String, Double> weights = new HashMap<>();
        List<Trial> trials = new ArrayList<>();
        for (List<String> row : read("lm-" + name + ".csv")) {
            double[] numbers =
                    row.stream().skip(1).mapToDouble(Double::parseDouble).toArray();
            Carcass carcass = Carcass.of(
                            Category.STEER,
                            Conformation.third((int) numbers[0]),
                            FatClass.third((int) numbers[1]),
                            numbers[2])
                    .withId(row.get(0));
            weights.put(row.get(0), numbers[3]);
            trials.add(Trial.of(carcass, Map.of("meat", numbers[4], "fat-trim", numbers[5], "bone", numbers[6])));
        }
        YieldTable table = YieldTable.of(name.equals("terms") ? TestTables.threeLevels() : TestTables.small());
        TrialSet set = TrialSet.of(table, trials);
        assertThat(set.refused()).isEmpty();
        Calibration calibration = Calibration.of(set)
                .withTerms(table.definition().coefficientColumns().toArray(String[]::new));
        Calibration asked = switch (name) {
            case "weighted" -> calibration.withWeights(trial -> weights.get(trial.id()));
            // the prior table's slopes on fat are what R has in its offset
            case "offset" -> calibration.withTerms("level_g_per_kg", "per_conformation_point", "per_100kg");
            default -> calibration;
        };
        BreakdownFit fit = asked.fit()
                .withAllowedRange(TestTables.range(3, 13, 3, 13, 250, 430))
                .withExpectations(List.of())
                .fit("carcass");

        List<List<String>> expected = read("lm-" + name + "-expected.csv");
        assertThat(expected).hasSize(4 * (2 * fit.terms().size() + 2) + 4);
        for (List<String> line : expected) {
            String cut = line.get(0).replace('.', '-');
            String what = line.get(1);
            double value = Double.parseDouble(line.get(2));
            if ((name.equals("offset") && what.equals("r2")) || ELSEWHERE.contains(what)) {
                // R leaves the offset out of what is explained; here it is part of it
                continue;
            }
            double found = switch (what) {
                case "r2" -> fit.r2(cut);
                case "sigma" -> fit.residualSd(cut);
                case "covariance with fat.trim" -> fit.residualCovariance(cut, "fat-trim");
                default ->
                    what.startsWith("se ")
                            ? fit.standardError(cut, COLUMNS.get(what.substring(3)))
                            : fit.coefficient(cut, COLUMNS.get(what));
            };
            assertThat(found).as("%s of %s in %s", what, cut, name).isCloseTo(value, sixDigits(value));
        }
    }
}
