package org.beefyield.data.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.beefyield.boning.Quarter;
import org.beefyield.boning.Trial;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Source;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.table.YieldTable;

/** The same made trials, once as this library has them and once in another layout, are the same trials. */
class TrialLayoutProperties {
    private static final YieldTable TABLE = ShippedTables.boneless2026();
    private static final CsvForm COMMAS =
            CsvForm.builder().separator(';').decimalComma().build();
    private static final List<String> CUTS = List.of("bone", "fat-trim", "rump", "chuck-neck", "rest");
    private static final List<Category> CATEGORIES = List.of(Category.values());
    private static final List<String> QUARTERS = List.of("fore", "hind");

    /** Two files of the same trials and the layout of the other. */
    private static final class Made {
        private final Random random;
        private final boolean quarters;
        private final boolean sides;
        private final boolean grams;
        private final List<String> ours = new ArrayList<>();
        private final List<String> theirs = new ArrayList<>();
        private final List<String> layout = new ArrayList<>();

        Made(Random random) {
            this.random = random;
            quarters = random.nextBoolean();
            sides = random.nextBoolean();
            grams = random.nextBoolean();
        }

        private List<String> parts() {
            return quarters ? QUARTERS : List.of("");
        }

        private String weight(double kg) {
            return (grams ? Double.toString(kg * 1024) : Double.toString(kg)).replace('.', ',');
        }

        private void declare() {
            layout.add("column;holds;quarter;code;stands_for;factor");
            layout.add(";rows;;;" + (sides ? "side" : "carcass") + ";");
            layout.add(";blank;;;0;");
            layout.add(";shares-of;;;carcass;");
            layout.add(";group;;rest;topside+silverside;");
            layout.add("id;carcass;;;;");
            for (Category category : Category.values()) {
                layout.add("type;category;;7-" + category.letter() + ";" + category.letter() + ";");
            }
            layout.add("conf;conformation_points;;;;");
            layout.add("fat;fat_points;;;;");
            layout.add("kg;cold_weight_kg;;;;");
            layout.add("when;day;;;;");
            String factor = grams ? "0,0009765625" : "";
            for (String part : parts()) {
                if (quarters) {
                    layout.add(part + ";cutting_weight_kg;" + part + ";;;" + factor);
                }
                for (String cut : CUTS) {
                    layout.add(part + cut + "1;" + cut + ";" + part + ";;;" + factor);
                    layout.add(part + cut + "2;" + cut + ";" + part + ";;;" + factor);
                }
            }
            layout.add("note;ignored;;;;");
        }

        private void header() {
            List<String> own = new ArrayList<>(
                    List.of("carcass", "category", "conformation", "fat_class", "cold_weight_kg", "day"));
            List<String> other = new ArrayList<>(List.of("note", "when", "kg", "fat", "conf", "type", "id"));
            for (String part : parts()) {
                if (quarters) {
                    own.add("quarter:" + part);
                    other.add(part);
                }
                for (String cut : CUTS) {
                    own.add(part.isEmpty() ? cut : part + ":" + cut);
                    other.add(part + cut + "1");
                    other.add(part + cut + "2");
                }
            }
            ours.add(String.join(",", own));
            theirs.add(String.join(";", other));
        }

        /** Weights are eighths of a kg, so that halves and sums of them are exact. */
        private double eighths(int most) {
            return (1 + random.nextInt(8 * most)) / 8.0;
        }

        private void trial(int number) {
            Category category = CATEGORIES.get(random.nextInt(CATEGORIES.size()));
            int conformation = 1 + random.nextInt(18);
            int fat = 1 + random.nextInt(15);
            double cold = 200 + eighths(200);
            List<String> own = new ArrayList<>(List.of(
                    "T" + number,
                    category.letter(),
                    Conformation.third(conformation).toString(),
                    FatClass.third(fat).toString(),
                    Double.toString(cold),
                    "2026-11-" + (10 + number % 20)));
            List<String> graded = List.of(
                    "x",
                    "2026-11-" + (10 + number % 20),
                    Double.toString(cold).replace('.', ','),
                    Integer.toString(fat),
                    Integer.toString(conformation),
                    "7-" + category.letter(),
                    "T" + number);
            List<List<String>> rows = new ArrayList<>();
            for (int i = 0; i < (sides ? 2 : 1); i++) {
                rows.add(new ArrayList<>(graded));
            }
            for (int i = 0; i < parts().size(); i++) {
                if (quarters) {
                    double whole = eighths(150);
                    own.add(Double.toString(whole));
                    split(whole, rows, false);
                }
                for (String cut : CUTS) {
                    double weight = cut.equals("bone") || random.nextInt(4) > 0 ? eighths(40) : 0;
                    own.add(Double.toString(weight));
                    split(weight, rows, true);
                }
            }
            ours.add(String.join(",", own));
            rows.forEach(row -> theirs.add(String.join(";", row)));
        }

        /** A weight over rows and, where a cut has two, over columns; what is 0 is blank as often as not. */
        private void split(double weight, List<List<String>> rows, boolean columns) {
            double ofRow = weight / rows.size();
            for (List<String> row : rows) {
                double first = columns && random.nextBoolean() ? ofRow / 4 : ofRow;
                row.add(cell(first));
                if (columns) {
                    row.add(cell(ofRow - first));
                }
            }
        }

        private String cell(double kg) {
            return kg == 0 && random.nextBoolean() ? "" : weight(kg);
        }

        private void make() {
            declare();
            header();
            for (int i = 1 + random.nextInt(6); i > 0; i--) {
                trial(i);
            }
            // sides of one carcass needn't stand together
            Collections.shuffle(theirs.subList(1, theirs.size()), random);
        }
    }

    private static Source source(List<String> lines) {
        return Source.of("made.csv", (String.join("\n", lines) + "\n").getBytes(StandardCharsets.UTF_8));
    }

    private static Map<String, Trial> byId(TrialSheet sheet) {
        assertThat(sheet.problems()).isEmpty();
        Map<String, Trial> trials = new LinkedHashMap<>();
        sheet.trials().forEach(trial -> trials.put(trial.id(), trial));
        return trials;
    }

    @Property(tries = 150)
    void trialsOfAnotherLayoutAreTheSameTrials(@ForAll long seed) {
        Made made = new Made(new Random(seed));
        made.make();
        TrialLayout layout = TrialLayoutReader.read(source(made.layout), COMMAS, TABLE);

        Map<String, Trial> expected =
                byId(TrialReader.read(source(made.ours), CsvForm.standard(), TABLE, Set.of("rest")));
        Map<String, Trial> read = byId(TrialReader.read(source(made.theirs), COMMAS, layout));

        assertThat(layout.groups()).containsOnlyKeys("rest");
        assertThat(read).containsExactlyInAnyOrderEntriesOf(expected);
    }

    @Property(tries = 50)
    void whatWentToTheKnifeChangesWeightsAndNoShare(@ForAll long seed) {
        Random random = new Random(seed);
        double cold = 200 + 200 * random.nextDouble();
        double cut = cold * (0.91 + 0.18 * random.nextDouble());
        double bone = 0.2 * cut * random.nextDouble();
        TrialLayout layout = TrialLayoutReader.read(
                source(List.of(
                        "column,holds,quarter,code,stands_for,factor",
                        "i,carcass,,,,",
                        "k,category,,,,",
                        "c,conformation,,,,",
                        "f,fat_class,,,,",
                        "w,cold_weight_kg,,,,",
                        "q,cutting_weight_kg,all,,,",
                        "b,bone,all,,,")),
                CsvForm.standard(),
                TABLE);
        Trial trial = byId(TrialReader.read(
                        source(List.of("i,k,c,f,w,q,b", "1,C,R,3," + cold + "," + cut + "," + bone)),
                        CsvForm.standard(),
                        layout))
                .get("1");
        Quarter quarter = trial.quarters().get(0);

        assertThat(trial.carcass().coldWeightKg()).isEqualTo(cold);
        assertThat(quarter.coldKg()).isCloseTo(cold, within(1e-9));
        assertThat(trial.kg().get("bone") / cold).isCloseTo(bone / cut, within(1e-12));
    }
}
