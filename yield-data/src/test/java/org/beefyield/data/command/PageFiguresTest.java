package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Works out every figure of a day's page, but for the ends of intervals, from the CSV files: the table's own, the kill sheet, prices
 * and payment grid. It reads and reckons by itself and shares nothing with the library, which it only runs as a command.
 */
class PageFiguresTest {
    private static final Path EXAMPLES = Path.of("examples");
    private static final Path TABLE = Path.of("src/main/resources/org/beefyield/data/tables/boneless-2026");

    @TempDir
    static Path folder;

    private static String page;
    private static List<Map<String, String>> rows;
    private static List<Animal> animals;
    private static final Yields YIELDS = new Yields();
    private static final Map<String, String> CATEGORIES =
            Map.of("C", "steers", "A", "young bulls", "D", "cows", "E", "heifers");
    private static final Map<String, Double> PRICES = new HashMap<>();
    private static final List<Map<String, String>> GRID = read(EXAMPLES.resolve("tarrowmere-grid.csv"));

    /** A CSV file without quotes. */
    private static List<Map<String, String>> read(Path file) {
        try {
            List<String> lines = Files.readAllLines(file);
            String[] header = lines.get(0).split(",", -1);
            return lines.stream()
                    .skip(1)
                    .map(line -> {
                        String[] cells = line.split(",", -1);
                        Map<String, String> row = new LinkedHashMap<>();
                        for (int i = 0; i < header.length; i++) {
                            row.put(header[i], cells[i]);
                        }
                        return row;
                    })
                    .toList();
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private static double number(String text) {
        return text.isEmpty() ? 0 : Double.parseDouble(text);
    }

    private static double position(String grade, String letters) {
        int middle = 3 * letters.indexOf(grade.charAt(0)) + 2;
        return middle + (grade.endsWith("+") ? 1 : grade.endsWith("-") ? -1 : 0);
    }

    /** A row of the kill sheet with what it is worth and was paid. */
    private record Animal(String id, String supplier, String category, String conformation, String fat, double kg) {
        double c() {
            return position(conformation, "PORUES");
        }

        double f() {
            return position(fat, "12345");
        }

        String cell() {
            return CATEGORIES.get(category) + " " + conformation.charAt(0) + " " + fat.charAt(0);
        }

        double worth() {
            return PageFiguresTest.worth(category, c(), f(), kg);
        }

        double paid() {
            return new BigDecimal(Double.toString(PageFiguresTest.paid(category, conformation, fat, kg)))
                    .setScale(4, java.math.RoundingMode.HALF_UP)
                    .multiply(BigDecimal.valueOf(kg))
                    .setScale(2, java.math.RoundingMode.HALF_UP)
                    .doubleValue();
        }
    }

    /** The table, breakdown by breakdown, under the specification steaks. */
    private static final class Yields {
        private final Map<String, String> ways = new HashMap<>();
        private final Map<String, List<Map<String, String>>> byParent = new LinkedHashMap<>();
        private final Map<String, String> kinds = new HashMap<>();

        Yields() {
            read(TABLE.resolve("specifications.csv")).stream()
                    .filter(row -> row.get("specification").equals("steaks"))
                    .forEach(row -> ways.put(row.get("parent"), row.get("way")));
            read(TABLE.resolve("breakdown.csv"))
                    .forEach(row -> byParent.computeIfAbsent(row.get("parent"), any -> new ArrayList<>())
                            .add(row));
            cuts().forEach(row -> kinds.put(row.get(0), row.get(3)));
        }

        private static List<List<String>> cuts() {
            try {
                return Files.readAllLines(TABLE.resolve("cuts.csv")).stream()
                        .skip(1)
                        .map(line -> List.of(line.split(",", 6)))
                        .toList();
            } catch (IOException e) {
                throw new AssertionError(e);
            }
        }

        /** Fractions of the parent, the row for the category before that for all. */
        private Map<String, Double> shares(String parent, String category, double c, double f, double kg) {
            String way = ways.getOrDefault(parent, "*");
            Map<String, Map<String, String>> chosen = new LinkedHashMap<>();
            for (String letter : List.of("*", category)) {
                byParent.getOrDefault(parent, List.of()).stream()
                        .filter(row -> row.get("category").contains(letter)
                                && (row.get("way").equals("*") || row.get("way").equals(way)))
                        .forEach(row -> chosen.put(row.get("cut"), row));
            }
            Map<String, Double> shares = new LinkedHashMap<>();
            chosen.forEach((cut, row) -> shares.put(
                    cut,
                    (number(row.get("level_g_per_kg"))
                                    + number(row.get("per_conformation_point")) * (c - 8)
                                    + number(row.get("per_fat_point")) * (f - 8)
                                    + number(row.get("per_100kg")) * (kg - 340) / 100
                                    + number(row.get("fat_below_3")) * Math.max(0, 3 - f)
                                    + number(row.get("conformation_above_15")) * Math.max(0, c - 15))
                            / 1000));
            double sum = shares.values().stream().mapToDouble(share -> share).sum();
            assertThat(sum).isCloseTo(shares.isEmpty() ? 0 : 1, within(1e-5));
            return shares;
        }

        /** kg by cut at each of the three levels. */
        List<Map<String, Double>> kg(String category, double c, double f, double kg) {
            List<Map<String, Double>> levels = new ArrayList<>();
            Map<String, Double> above = Map.of("carcass", kg);
            for (int level = 0; level < 3; level++) {
                Map<String, Double> here = new LinkedHashMap<>();
                above.forEach((parent, weight) -> {
                    Map<String, Double> shares = shares(parent, category, c, f, kg);
                    if (shares.isEmpty()) {
                        here.merge(parent, weight, Double::sum);
                    }
                    shares.forEach((cut, share) -> here.merge(cut, weight * share, Double::sum));
                });
                levels.add(here);
                above = here;
            }
            return levels;
        }
    }

    private static double worth(String category, double c, double f, double kg) {
        double[] sum = {
            PRICES.get("per-head hide and offal")
                    + PRICES.get("per-head slaughter")
                    + kg * PRICES.get("per-kg boning and packing")
        };
        YIELDS.kg(category, c, f, kg).get(2).forEach((cut, weight) -> {
            Double own = PRICES.get("cut " + cut);
            sum[0] += weight * (own == null ? PRICES.get("kind " + YIELDS.kinds.get(cut)) : own);
        });
        return sum[0];
    }

    /** Per kg: base, the narrowest grade row (class of both, one of them, none), weight band. */
    private static double paid(String category, String conformation, String fat, double kg) {
        double base = 0;
        double weight = 0;
        double grade = 0;
        int best = -1;
        for (Map<String, String> row : GRID) {
            boolean all = row.get("category").equals("*");
            if (!all && !row.get("category").equals(category)) {
                continue;
            }
            switch (row.get("line")) {
                case "base" -> base = all && base != 0 ? base : number(row.get("per_kg"));
                case "weight" -> {
                    double to = row.get("to_kg").isEmpty() ? 1e9 : number(row.get("to_kg"));
                    weight = kg >= number(row.get("from_kg")) && kg < to ? number(row.get("per_kg")) : weight;
                }
                default -> {
                    String ofConformation = row.get("conformation");
                    String ofFat = row.get("fat_class");
                    int narrow = 3 * ofConformation.length() + 2 * ofFat.length();
                    if (conformation.startsWith(ofConformation) && fat.startsWith(ofFat) && narrow > best) {
                        best = narrow;
                        grade = number(row.get("per_kg"));
                    }
                }
            }
        }
        return base + grade + weight;
    }

    @BeforeAll
    static void runTheCommand() throws IOException {
        read(EXAMPLES.resolve("tarrowmere-prices.csv"))
                .forEach(row -> PRICES.put(row.get("line") + " " + row.get("name"), number(row.get("price"))));
        animals = read(EXAMPLES.resolve("tarrowmere-2026-11.csv")).stream()
                .map(row -> new Animal(
                        row.get("carcass"),
                        row.get("supplier"),
                        row.get("category"),
                        row.get("conformation"),
                        row.get("fat_class"),
                        number(row.get("cold_weight_kg"))))
                .toList();
        Ran ran = Ran.with(List.of(
                "--killsheet", EXAMPLES.resolve("tarrowmere-2026-11.csv").toString(),
                "--prices", EXAMPLES.resolve("tarrowmere-prices.csv").toString(),
                "--grid", EXAMPLES.resolve("tarrowmere-grid.csv").toString(),
                "--market", EXAMPLES.resolve("tarrowmere-market.csv").toString(),
                "--feedback", folder.resolve("sheets").toString(),
                "--out", folder.resolve("rows.csv").toString(),
                "--page", folder.resolve("day.html").toString()));
        assertThat(ran.err()).isEmpty();
        page = Files.readString(folder.resolve("day.html"));
        rows = read(folder.resolve("rows.csv"));
        // pages for the accessibility check, a short one of the day
        Path pages = Files.createDirectories(Path.of("target/pages"));
        Files.copy(
                folder.resolve("sheets/mere-end.html"),
                pages.resolve("feedback.html"),
                java.nio.file.StandardCopyOption.REPLACE_EXISTING);
        Path shortSheet = folder.resolve("short.csv");
        Files.write(
                shortSheet,
                Files.readAllLines(EXAMPLES.resolve("tarrowmere-2026-11.csv")).subList(0, 12));
        assertThat(Ran.with(List.of(
                                "--killsheet", shortSheet.toString(),
                                "--prices",
                                        EXAMPLES.resolve("tarrowmere-prices.csv")
                                                .toString(),
                                "--grid",
                                        EXAMPLES.resolve("tarrowmere-grid.csv").toString(),
                                "--market",
                                        EXAMPLES.resolve("tarrowmere-market.csv")
                                                .toString(),
                                "--windows",
                                        EXAMPLES.resolve("tarrowmere-windows.csv")
                                                .toString(),
                                "--baseline",
                                        EXAMPLES.resolve("tarrowmere-2026-11.csv")
                                                .toString(),
                                "--page", pages.resolve("day.html").toString()))
                        .code())
                .isZero();
        assertThat(Files.readString(pages.resolve("day.html")))
                .contains("a kg more than before", "Why one is worth more", "Piece weights of striploin");
    }

    /** The tables of a page by the first cell of their header, and among these in their order. */
    private static List<List<List<String>>> tables(String html, String first) {
        Matcher table = Pattern.compile("<table.*?</table>", Pattern.DOTALL).matcher(html);
        List<List<List<String>>> found = new ArrayList<>();
        while (table.find()) {
            List<List<String>> cells = Stream.of(table.group().split("<tr"))
                    .skip(1)
                    .map(row -> {
                        Matcher cell =
                                Pattern.compile("<t[hd][^>]*>(.*?)</t[hd]>").matcher(row);
                        List<String> all = new ArrayList<>();
                        while (cell.find()) {
                            all.add(cell.group(1).replace("&#39;", "'"));
                        }
                        return all;
                    })
                    .toList();
            if (cells.get(0).get(0).equals(first)) {
                found.add(cells);
            }
        }
        assertThat(found).as(first).isNotEmpty();
        return found;
    }

    private static BigDecimal figure(String cell) {
        return new BigDecimal(cell.replace(",", ""));
    }

    private static Map<String, List<Animal>> by(Function<Animal, String> key) {
        return animals.stream().collect(Collectors.groupingBy(key, TreeMap::new, Collectors.toList()));
    }

    private static double sum(List<Animal> of, ToDoubleFunction<Animal> figure) {
        return of.stream().mapToDouble(figure).sum();
    }

    /** Heads, kg, worth, payment and margin of every category, supplier and grade; each column adds up in print. */
    @Test
    void worthPaymentAndMarginAreThoseOfTheFiles() {
        Map<String, Function<Animal, String>> kinds = Map.of(
                "category",
                animal -> CATEGORIES.get(animal.category()) + " (" + animal.category() + ")",
                "supplier",
                Animal::supplier,
                "grade",
                Animal::cell);
        kinds.forEach((first, key) -> {
            List<List<String>> table = tables(page, first).get(0);
            Map<String, List<Animal>> groups = by(key);
            assertThat(table).hasSize(groups.size() + 2);
            BigDecimal[] sums = new BigDecimal[10];
            java.util.Arrays.fill(sums, BigDecimal.ZERO);
            for (List<String> row : table.subList(1, table.size())) {
                boolean isTotal = row.get(0).equals("Total");
                List<Animal> of = isTotal ? animals : groups.get(row.get(0));
                double worth = sum(of, Animal::worth);
                double paid = sum(of, Animal::paid);
                double kg = sum(of, Animal::kg);
                assertThat(figure(row.get(1))).isEqualByComparingTo(BigDecimal.valueOf(of.size()));
                near(row.get(2), worth - paid, 2.01);
                near(row.get(5), (worth - paid) / kg, 0.0006);
                near(row.get(6), worth / kg, 0.0006);
                near(row.get(7), kg, 0.11);
                near(row.get(8), worth, 1.01);
                near(row.get(9), paid, 1.01);
                // no cent where the interval is thousands; what is printed adds up both ways
                assertThat(row.get(2) + row.get(8) + row.get(9)).doesNotContain(".");
                assertThat(figure(row.get(2)))
                        .isEqualByComparingTo(figure(row.get(8)).subtract(figure(row.get(9))));
                for (int column : List.of(1, 2, 7, 8, 9)) {
                    if (isTotal) {
                        assertThat(figure(row.get(column))).isEqualByComparingTo(sums[column]);
                    }
                    sums[column] = sums[column].add(figure(row.get(column)));
                }
            }
        });
    }

    private static void near(String cell, double value, double by) {
        assertThat(figure(cell).doubleValue()).isCloseTo(value, within(by));
    }

    /** What each supplier and grade left beside the hall, with the causes by a mean over all orders, worked out another way. */
    @Test
    void whatSuppliersLeftBesideTheHallIsThatOfTheFiles() {
        double kg = sum(animals, Animal::kg);
        double perKg = (sum(animals, Animal::worth) - sum(animals, Animal::paid)) / kg;
        List<List<List<String>>> suppliers = tables(page, "supplier");
        List<List<List<String>>> grades = tables(page, "grade");
        for (var table : List.of(suppliers.get(1), grades.get(1))) {
            Map<String, List<Animal>> groups = by(table == suppliers.get(1) ? Animal::supplier : Animal::cell);
            for (List<String> row : table.subList(1, table.size() - 1)) {
                List<Animal> of = groups.get(row.get(0));
                double beside = sum(of, Animal::worth) - sum(of, Animal::paid) - perKg * sum(of, Animal::kg);
                near(row.get(2), sum(of, Animal::kg), 0.11);
                near(row.get(4), beside, 5);
                // accused only where both ends of the interval lie below 0
                assertThat(row.get(7).isEmpty()).isEqualTo(figure(row.get(6)).signum() >= 0);
            }
        }
        List<List<String>> effects = tables(page, "beside the hall, EUR, for").get(0);
        Map<String, Map<String, Double>> causes = new HashMap<>();
        animals.forEach(animal -> causes(animal).forEach((cause, amount) -> {
            causes.computeIfAbsent(animal.supplier(), any -> new HashMap<>()).merge(cause, amount, Double::sum);
            causes.computeIfAbsent("all", any -> new HashMap<>()).merge(cause, amount, Double::sum);
        }));
        for (List<String> row : effects.subList(1, effects.size() - 1)) {
            double part = sum(by(Animal::supplier).get(row.get(0)), Animal::kg) / kg;
            BigDecimal across = BigDecimal.ZERO;
            for (int i = 1; i < row.size() - 1; i++) {
                String cause = effects.get(0).get(i);
                near(
                        row.get(i),
                        causes.get(row.get(0)).getOrDefault(cause, 0.0)
                                - part * causes.get("all").getOrDefault(cause, 0.0),
                        1.3);
                across = across.add(figure(row.get(i)));
            }
            assertThat(across).isEqualByComparingTo(figure(row.get(row.size() - 1)));
        }
    }

    /** What would mend the grid: what an overpaid grade left less than the hall, by the kg, and who would have lost it. */
    @Test
    void whatWouldMendTheGridIsThatOfTheFiles() {
        double perKg = (sum(animals, Animal::worth) - sum(animals, Animal::paid)) / sum(animals, Animal::kg);
        List<List<String>> changes = tables(page, "overpaid grade").get(0);
        for (List<String> row : changes.subList(1, changes.size())) {
            List<Animal> of = by(Animal::cell).get(row.get(0));
            double less = (sum(of, Animal::worth) - sum(of, Animal::paid)) / sum(of, Animal::kg) - perKg;
            near(row.get(1), less, 0.0051);
            near(row.get(2), -less * sum(of, Animal::kg), 5.1);
            double most = of.stream().collect(Collectors.groupingBy(Animal::supplier)).values().stream()
                    .mapToDouble(ofOne -> sum(ofOne, Animal::kg))
                    .max()
                    .orElseThrow();
            near(row.get(3).replaceFirst(".* ", ""), -less * most, 5.1);
        }
    }

    /** The account of the worth, kg by price, closes to the cent. */
    @Test
    void theWorthIsThatOfTheFilesLineByLine() {
        Map<String, String> codes = new HashMap<>();
        Yields.cuts().forEach(row -> codes.put(row.get(1), row.get(0)));
        List<List<String>> lines = tables(page, "line").get(0);
        BigDecimal sum = BigDecimal.ZERO;
        for (List<String> row : lines.subList(1, lines.size() - 1)) {
            String code = codes.get(row.get(0));
            boolean perHead = PRICES.containsKey("per-head " + row.get(0));
            double quantity = code == null
                    ? perHead ? animals.size() : sum(animals, Animal::kg)
                    : sum(
                            animals,
                            animal -> YIELDS.kg(animal.category(), animal.c(), animal.f(), animal.kg())
                                    .get(2)
                                    .getOrDefault(code, 0.0));
            double price = code == null
                    ? PRICES.get((perHead ? "per-head " : "per-kg ") + row.get(0))
                    : PRICES.getOrDefault("cut " + code, PRICES.getOrDefault("kind " + YIELDS.kinds.get(code), 0.0));
            near(row.get(1), quantity, 0.0051);
            near(row.get(2), price, 0);
            near(row.get(3), quantity * price, 0.011);
            sum = sum.add(figure(row.get(3)));
        }
        assertThat(sum).isEqualByComparingTo(figure(lines.get(lines.size() - 1).get(3)));
    }

    /** The margin on a kg against the reference carcass C R= 3= 340 kg, by every order one after the other. */
    private static Map<String, Double> causes(Animal animal) {
        List<List<Integer>> orders = orders(List.of(0, 1, 2, 3));
        List<String> names = List.of("category", "weight", "conformation", "fat class");
        Map<String, Double> causes = new HashMap<>();
        for (List<Integer> order : orders) {
            Animal at = new Animal("", "", "C", "R=", "3=", 340);
            for (int cause : order) {
                Animal next = new Animal(
                        "",
                        "",
                        cause == 0 ? animal.category() : at.category(),
                        cause == 2 ? animal.conformation() : at.conformation(),
                        cause == 3 ? animal.fat() : at.fat(),
                        cause == 1 ? animal.kg() : at.kg());
                causes.merge(names.get(cause), (perKg(next) - perKg(at)) * animal.kg() / orders.size(), Double::sum);
                at = next;
            }
        }
        return causes;
    }

    private static double perKg(Animal animal) {
        return animal.worth() / animal.kg() - paid(animal.category(), animal.conformation(), animal.fat(), animal.kg());
    }

    private static List<List<Integer>> orders(List<Integer> of) {
        if (of.isEmpty()) {
            return List.of(List.of());
        }
        List<List<Integer>> all = new ArrayList<>();
        for (Integer first : of) {
            List<Integer> rest = new ArrayList<>(of);
            rest.remove(first);
            for (List<Integer> order : orders(rest)) {
                List<Integer> whole = new ArrayList<>(List.of(first));
                whole.addAll(order);
                all.add(whole);
            }
        }
        return all;
    }

    /** Every level of the lot, in kg and per cent, and the rows of the file, in kg and money. */
    @Test
    void kilogramsAndValuesAreThoseOfTheFiles() {
        Map<String, Double> ofLot = new HashMap<>();
        Map<String, Map<String, Double>> ofAnimals = new HashMap<>();
        List<String> levels = List.of("tissue", "primal", "retail");
        for (Animal animal : animals) {
            List<Map<String, Double>> kg = YIELDS.kg(animal.category(), animal.c(), animal.f(), animal.kg());
            for (int i = 0; i < 3; i++) {
                String level = levels.get(i);
                kg.get(i).forEach((cut, weight) -> {
                    ofLot.merge(level + " " + cut, weight, Double::sum);
                    ofAnimals
                            .computeIfAbsent(animal.id(), any -> new HashMap<>())
                            .put(level + " " + cut, weight);
                });
            }
        }
        double cold = sum(animals, Animal::kg);
        Map<String, String> names = new HashMap<>();
        Yields.cuts().forEach(row -> names.put(row.get(1), row.get(0)));
        for (String level : levels) {
            List<List<String>> table = tables(page, level + " level").get(0);
            BigDecimal sum = BigDecimal.ZERO;
            for (List<String> row : table.subList(1, table.size() - 1)) {
                double kg = ofLot.get(level + " " + names.get(row.get(0)));
                near(row.get(1), kg, 10);
                near(row.get(2), 100 * kg / cold, 0.11);
                sum = sum.add(figure(row.get(1)));
            }
            assertThat(sum)
                    .isEqualByComparingTo(figure(table.get(table.size() - 1).get(1)));
        }
        // one weight for one cut in the picture: the fat trim of the tissue level is that of the primal level
        Matcher steps = Pattern.compile("Tissue level: (.*?)\\. Primal level: (.*?)\\. Retail level: ")
                .matcher(page);
        assertThat(steps.find()).isTrue();
        for (String cut : List.of("Fat trim", "Bone", "Loss")) {
            Pattern weight = Pattern.compile(cut + " [0-9,]*[0-9]");
            Matcher first = weight.matcher(steps.group(1));
            Matcher second = weight.matcher(steps.group(2));
            assertThat(first.find() && second.find()).isTrue();
            assertThat(first.group()).isEqualTo(second.group());
        }
        BigDecimal values = BigDecimal.ZERO;
        for (Map<String, String> row : rows) {
            double kg = ofAnimals.get(row.get("carcass")).get(row.get("level") + " " + row.get("cut"));
            near(row.get("kg"), kg, 0.0011);
            if (row.get("level").equals("retail")) {
                Double own = PRICES.get("cut " + row.get("cut"));
                near(row.get("value"), kg * (own == null ? PRICES.get("kind " + row.get("kind")) : own), 0.011);
                values = values.add(figure(row.get("value")));
            }
        }
        double others = animals.size() * (PRICES.get("per-head hide and offal") + PRICES.get("per-head slaughter"))
                + cold * PRICES.get("per-kg boning and packing");
        // half a cent for each carcass
        assertThat(values.doubleValue() + others).isCloseTo(sum(animals, Animal::worth), within(1.0));
    }

    /** The first page: its figures are those of the tables behind it. */
    @Test
    void theFirstPageIsThatOfTheFiles() {
        List<List<String>> table = tables(page, "figure").get(0);
        Map<String, String> figures = new HashMap<>();
        table.subList(1, table.size()).forEach(row -> figures.put(row.get(0), row.get(1)));
        double worth = sum(animals, Animal::worth);
        double paid = sum(animals, Animal::paid);
        near(figures.get("Head"), animals.size(), 0);
        near(figures.get("Cold weight, kg"), sum(animals, Animal::kg), 0.05);
        near(figures.get("Worth, EUR"), worth, 500);
        near(figures.get("Paid, EUR"), paid, 0.005);
        near(figures.get("Margin, EUR"), worth - paid, 500);
        near(figures.get("Margin a kg, EUR"), (worth - paid) / sum(animals, Animal::kg), 0.0005);
        // no cent where the interval is thousands
        assertThat(figures.get("Worth, EUR")).matches("[0-9]{3},000");
        long retail = animals.stream()
                .filter(animal -> animal.kg() >= 270
                        && animal.kg() <= 380
                        && !animal.category().equals("D")
                        && "RU".indexOf(animal.conformation().charAt(0)) >= 0
                        && animal.f() >= 7
                        && animal.f() <= 11)
                .count();
        assertThat(page).contains("<p>" + retail + " of 200 carcasses are in specification retail: ");
        Map<String, Function<Animal, Boolean>> misses = Map.of(
                "weight", animal -> animal.kg() < 270 || animal.kg() > 380,
                "category", animal -> animal.category().equals("D"),
                "conformation", animal -> "RU".indexOf(animal.conformation().charAt(0)) < 0,
                "fat class", animal -> animal.f() < 7 || animal.f() > 11);
        for (List<String> row : tables(page, "limit missed").get(0)) {
            Function<Animal, Boolean> missed = misses.get(row.get(0));
            if (missed != null) {
                long count = animals.stream().filter(missed::apply).count();
                assertThat(row.get(1)).isEqualTo(Long.toString(count));
                near(row.get(2), count / 2.0, 0.051);
            }
        }
        assertThat(tables(page, "carcass").get(0).stream()
                        .filter(row -> row.get(4).equals("in"))
                        .count())
                .isEqualTo(retail);
    }

    /** A sheet: each animal, the supplier's own averages and the hall's. */
    @Test
    void aFeedbackSheetIsThatOfTheFiles() throws IOException {
        String sheet = Files.readString(folder.resolve("sheets/mere-end.html"));
        List<Animal> own = by(Animal::supplier).get("Mere End");
        List<List<String>> table = tables(sheet, "animal").get(0);
        assertThat(table).hasSize(own.size() + 1);
        for (int i = 0; i < own.size(); i++) {
            Animal animal = own.get(i);
            List<String> row = table.get(i + 1);
            assertThat(row.get(0)).isEqualTo(animal.id());
            near(row.get(2), animal.kg(), 0);
            near(row.get(3), saleable(animal), 0.5);
            near(row.get(4), 100 * saleable(animal) / animal.kg(), 0.051);
            near(row.get(5), fatTrim(animal), 0.5);
            near(row.get(6), 100 * fatTrim(animal) / animal.kg(), 0.051);
        }
        List<List<String>> averages = tables(sheet, "on average").get(0);
        for (List<String> row : averages.subList(1, averages.size())) {
            boolean hall = row.get(0).startsWith("the hall's ");
            String category = row.get(0).replaceFirst("^(the hall's|your) ", "").replaceFirst(" \\(.\\)$", "");
            List<Animal> of = (hall ? animals : own)
                    .stream()
                            .filter(animal -> category.equals(CATEGORIES.get(animal.category())))
                            .toList();
            assertThat(row.get(1)).isEqualTo(Integer.toString(of.size()));
            near(row.get(2), sum(of, Animal::kg) / of.size(), 0.051);
            near(row.get(3), 100 * sum(of, PageFiguresTest::saleable) / sum(of, Animal::kg), 0.051);
            near(row.get(4), 100 * sum(of, PageFiguresTest::fatTrim) / sum(of, Animal::kg), 0.051);
        }
        assertThat(sheet).doesNotContain("Tarrow Bridge", "Long Tarrow", "Upper Tarrow", "Tarrowmere Home Farm");
    }

    private static double fatTrim(Animal animal) {
        return YIELDS.kg(animal.category(), animal.c(), animal.f(), animal.kg())
                .get(2)
                .get("fat-trim");
    }

    private static double saleable(Animal animal) {
        return YIELDS.kg(animal.category(), animal.c(), animal.f(), animal.kg()).get(2).entrySet().stream()
                .filter(entry -> !List.of("fat-trim", "bone", "loss").contains(YIELDS.kinds.get(entry.getKey())))
                .mapToDouble(Map.Entry::getValue)
                .sum();
    }
}
