package org.beefyield.carcass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The law against {@code reference/law.csv}, line by line; the last column of that file names the regulation. Every
 * expected value is read from the file's text.
 */
class LawTranscriptionReferenceTest {
    /** What the file calls a correction, where that isn't our code with blanks for hyphens. */
    private static final Map<String, DressingCorrection> LONGER_NAMES = Map.of(
            "fat inside topside left on", DressingCorrection.TOPSIDE_INSIDE_FAT_LEFT_ON,
            "jugular vein and adjacent fat left on", DressingCorrection.JUGULAR_VEIN_LEFT_ON,
            "brisket fat removed leaving a layer", DressingCorrection.BRISKET_FAT_REMOVED,
            "flank fat next to cod fat removed", DressingCorrection.FLANK_FAT_REMOVED);

    private static final int OLDEST_TRIED_MONTHS = 400;

    /** One line of the file. */
    record Line(String quantity, String value, String unit, String condition, String source) {
        boolean isCategory() {
            return quantity.startsWith("category ");
        }

        boolean isCorrection() {
            return unit.equals("% of carcass weight");
        }

        DressingCorrection correction() {
            return LONGER_NAMES.containsKey(quantity)
                    ? LONGER_NAMES.get(quantity)
                    : DressingCorrection.parse(quantity.replace(' ', '-'));
        }

        Category category() {
            return Category.parse(quantity.substring("category ".length()));
        }

        @Override
        public String toString() {
            return quantity + ": " + value + " (" + source + ")";
        }
    }

    static List<Line> lines() {
        String text;
        try (InputStream in = LawTranscriptionReferenceTest.class.getResourceAsStream("/reference/law.csv")) {
            text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.lines()
                .skip(1)
                .map(line -> line.split(",", -1))
                .map(cells -> {
                    assertThat(cells).hasSize(5);
                    return new Line(cells[0], cells[1], cells[2], cells[3], cells[4]);
                })
                .toList();
    }

    @ParameterizedTest
    @MethodSource("lines")
    void everyLineOfTheLawIsKept(Line line) {
        if (line.isCategory()) {
            categoryHasTheAgesOf(line);
        } else if (line.isCorrection()) {
            correctionHasThePercentagesOf(line);
        } else if (line.quantity().equals("cold weight")) {
            coldWeightFollows(line);
        } else if (line.quantity().equals("conformation classes")) {
            conformationClassesAre(line);
        } else if (line.quantity().equals("fat classes")) {
            fatClassesAre(line);
        } else {
            throw new AssertionError("no check for " + line);
        }
    }

    @Test
    void everyCategoryAndEveryCorrectionHasItsLine() {
        assertThat(lines().stream().filter(Line::isCategory).map(Line::category))
                .containsExactlyInAnyOrder(Category.values());
        assertThat(lines().stream().filter(Line::isCorrection).map(Line::correction))
                .containsExactlyInAnyOrder(DressingCorrection.values());
    }

    /** "The percentages add up" is how we read the Annex, which gives each as per cent of the one carcass weight. */
    @Test
    void severalDeparturesAddUpAndApplyOnceToTheWeightAsDressed() {
        double kidneys = percentInClass("kidneys left on", 3);
        double kidneyFat = percentInClass("kidney fat left on", 3);
        double externalFat = percentInClass("external fat removed", 3);
        Set<DressingCorrection> departures = EnumSet.of(
                DressingCorrection.EXTERNAL_FAT_REMOVED,
                DressingCorrection.KIDNEYS_LEFT_ON,
                DressingCorrection.KIDNEY_FAT_LEFT_ON);

        assertThat(DressingCorrection.toReference(400, departures, FatClass.parse("3")))
                .isEqualTo(400 + 4 * (kidneys + kidneyFat + externalFat), within(1e-9));
    }

    private static double percentInClass(String quantity, int fatClass) {
        return lines().stream()
                .filter(line -> line.quantity().equals(quantity))
                .map(line -> percentByFatClass(line).get(fatClass))
                .findFirst()
                .orElseThrow();
    }

    private static void categoryHasTheAgesOf(Line line) {
        Category category = line.category();
        int from = 0;
        int below = Integer.MAX_VALUE;
        Matcher span = Pattern.compile("([0-9]+) to under ([0-9]+) months").matcher(line.value());
        Matcher open = Pattern.compile("([0-9]+) months and over").matcher(line.value());
        if (span.matches()) {
            from = Integer.parseInt(span.group(1));
            below = Integer.parseInt(span.group(2));
        } else if (open.matches()) {
            from = Integer.parseInt(open.group(1));
        } else {
            assertThat(line.value()).isEqualTo("has calved");
        }

        List<Integer> accepted = new ArrayList<>();
        List<Integer> lawful = new ArrayList<>();
        for (int age = 0; age <= OLDEST_TRIED_MONTHS; age++) {
            if (age >= from && age < below) {
                lawful.add(age);
            }
            if (accepts(category, age)) {
                accepted.add(age);
            }
        }
        assertThat(accepted).isEqualTo(lawful);
        assertThat(category.definition()).contains(line.value());
        assertThat(category.definition())
                .matches(".*\\b" + line.condition().replace("any sex", "either sex") + "\\b.*");
    }

    private static boolean accepts(Category category, int ageMonths) {
        try {
            category.checkAge(ageMonths);
            return true;
        } catch (IllegalArgumentException e) {
            return false;
        }
    }

    private static void correctionHasThePercentagesOf(Line line) {
        DressingCorrection correction = line.correction();
        Map<Integer, Double> percentages = percentByFatClass(line);
        assertThat(percentages.keySet()).containsExactly(1, 2, 3, 4, 5);
        percentages.forEach((fatClass, percent) -> {
            for (FatClass written : writtenForms(fatClass)) {
                assertThat(correction.percent(written))
                        .as("%s in %s", correction, written)
                        .isEqualTo(percent);
                assertThat(DressingCorrection.toReference(300, EnumSet.of(correction), written))
                        .as("300 kg, %s in %s", correction, written)
                        .isEqualTo(300 + 3 * percent, within(1e-9));
            }
        });
    }

    /** A line's percentages, spread over the fat classes that its condition names; without one they hold in all five. */
    private static Map<Integer, Double> percentByFatClass(Line line) {
        String condition = line.condition().isEmpty() ? "fat class 1-5" : line.condition();
        assertThat(condition).startsWith("fat class ");
        String[] classes = condition.substring("fat class ".length()).split(" / ");
        String[] values = line.value().split(" / ");
        assertThat(values).hasSameSizeAs(classes);
        Map<Integer, Double> percentages = new TreeMap<>();
        for (int i = 0; i < classes.length; i++) {
            String[] ends = classes[i].split("-", -1);
            for (int k = Integer.parseInt(ends[0]); k <= Integer.parseInt(ends[ends.length - 1]); k++) {
                assertThat(percentages.put(k, Double.valueOf(values[i]))).isNull();
            }
        }
        return percentages;
    }

    /** A fat class whole, in thirds, in halves where there are any, and as a machine's position at its lower edge. */
    private static List<FatClass> writtenForms(int fatClass) {
        List<FatClass> forms = new ArrayList<>();
        Stream.of("", "-", "=", "+")
                .map(sign -> FatClass.parse(fatClass + sign))
                .forEach(forms::add);
        if (fatClass >= 4) {
            Stream.of("L", "H").map(half -> FatClass.parse(fatClass + half)).forEach(forms::add);
        }
        forms.add(FatClass.ofPosition(Math.max(1, 3 * fatClass - 2.5), 0));
        return forms;
    }

    private static void coldWeightFollows(Line line) {
        Matcher rule = Pattern.compile("warm weight less ([0-9]+) %").matcher(line.value());
        assertThat(rule.matches()).isTrue();
        BigDecimal kept = BigDecimal.valueOf(100).subtract(new BigDecimal(rule.group(1)));
        for (int hotKg = 1; hotKg <= CarcassWeights.HEAVIEST_KG; hotKg++) {
            double coldKg =
                    BigDecimal.valueOf(hotKg).multiply(kept).movePointLeft(2).doubleValue();
            assertThat(CarcassWeights.coldFromHot(hotKg)).isEqualTo(coldKg);
        }
    }

    private static void conformationClassesAre(Line line) {
        List<String> letters = firstWords(line);
        for (int i = 0; i < letters.size(); i++) {
            int classNumber = letters.size() - i;
            Conformation whole = Conformation.parse(letters.get(i));
            assertThat(whole.classLetter()).isEqualTo(letters.get(i));
            assertThat(whole.position()).isEqualTo(3 * classNumber - 1);
        }
        assertThatThrownBy(() -> Conformation.parse("none"))
                .hasMessage("conformation \"none\" is none of " + String.join(" ", letters));
    }

    private static void fatClassesAre(Line line) {
        List<String> digits = firstWords(line);
        for (int i = 0; i < digits.size(); i++) {
            FatClass whole = FatClass.parse(digits.get(i));
            assertThat(whole.classNumber()).isEqualTo(Integer.parseInt(digits.get(i)));
            assertThat(whole.position()).isEqualTo(3 * (i + 1) - 1);
        }
        assertThatThrownBy(() -> FatClass.third(3 * digits.size() + 1)).isInstanceOf(IllegalArgumentException.class);
        assertThat(FatClass.third(3 * digits.size()).classNumber()).isEqualTo(digits.size());
    }

    private static List<String> firstWords(Line line) {
        return Stream.of(line.value().split("; "))
                .map(word -> word.substring(0, word.indexOf(' ')))
                .toList();
    }
}
