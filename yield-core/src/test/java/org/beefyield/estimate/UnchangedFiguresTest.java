package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/**
 * Figures of tables that state nothing of what carcasses of a lot, a run or a hall have in common, to the last bit what they
 * were before tables could state it (transcription of what the code before it printed): kilograms, SDs and intervals of carcasses
 * at whole positions and of lots. Of carcasses between positions, and of mince of single ones, SDs may differ in the last digits
 * of a double, for they are put together in another order.
 */
class UnchangedFiguresTest {
    private static final String RESOURCE = "/reference/figures-without-shared-errors.txt";

    private static TableDefinition table() {
        TableDefinition.Builder builder = TestTables.threeLevels().toBuilder();
        for (String term : List.of("per_fat_point", "fat_by_100kg")) {
            for (String category : List.of("*", "D")) {
                builder.coefficientNote(
                        new CoefficientNote(category, "*", "carcass", "meat", term, 0.3, TestTables.SOURCE));
                builder.coefficientNote(
                        new CoefficientNote(category, "*", "carcass", "fat-trim", term, 0.3, TestTables.SOURCE));
            }
        }
        return builder.build();
    }

    private static void add(List<String> lines, String name, Outturn outturn) {
        for (String level : outturn.table().levels()) {
            for (CutLine line : outturn.lines(level)) {
                Interval interval = line.interval(0.9);
                lines.add(name + " " + level + " " + line.code()
                        + hex(line.kg(), line.sdKg(), interval.low(), interval.high()));
            }
        }
        for (CutKind kind : CutKind.values()) {
            lines.add(name + " " + kind + hex(outturn.kg(kind), outturn.sd(kind)));
        }
        lines.add(name + " saleable" + hex(outturn.saleableKg(), outturn.sd(Figure.saleable())));
    }

    private static String hex(double... figures) {
        StringBuilder text = new StringBuilder();
        for (double figure : figures) {
            text.append(' ').append(Double.toHexString(figure));
        }
        return text.toString();
    }

    static List<String> lines() {
        List<String> lines = new ArrayList<>();
        YieldEstimator plain = YieldEstimator.of(YieldTable.of(table()));
        for (YieldEstimator estimator : List.of(plain, plain.with(new ScaleError(0.7, 0.4)))) {
            Random random = new Random(4);
            List<Carcass> steers = new ArrayList<>();
            for (int i = 0; i < 8; i++) {
                Conformation conformation = i % 2 == 0
                        ? Conformation.third(3 + random.nextInt(12))
                        : Conformation.parse(List.of("R", "U", "O", "P").get(random.nextInt(4)));
                FatClass fat = i % 2 == 0
                        ? FatClass.third(3 + random.nextInt(10))
                        : FatClass.parse(List.of("2", "3", "4").get(random.nextInt(3)));
                Carcass steer = Carcass.of(Category.STEER, conformation, fat, 250 + 200 * random.nextDouble());
                steers.add(steer);
                if (i < 3) {
                    add(lines, steer.toString(), estimator.estimate(steer));
                }
            }
            steers.add(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("4L"), 333));
            add(lines, "lot", estimator.estimateLot(steers));
        }
        return lines;
    }

    @Test
    void figuresAreWhatTheyWere() throws IOException {
        try (InputStream in = Objects.requireNonNull(UnchangedFiguresTest.class.getResourceAsStream(RESOURCE))) {
            assertThat(lines())
                    .containsExactlyElementsOf(new String(in.readAllBytes(), StandardCharsets.UTF_8)
                            .lines()
                            .toList());
        }
    }
}
