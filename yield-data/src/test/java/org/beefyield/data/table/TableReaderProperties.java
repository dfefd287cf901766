package org.beefyield.data.table;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Pattern;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.RandomDistribution;
import net.jqwik.api.constraints.AlphaChars;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import net.jqwik.api.constraints.StringLength;
import net.jqwik.api.statistics.Statistics;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.InvalidDataException;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableSchema;
import org.jspecify.annotations.Nullable;

class TableReaderProperties {
    private static final String FOLDER = "hall";
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final Carcass CARCASS =
            Carcass.of(Category.HEIFER, Conformation.parse("R+"), FatClass.parse("4L"), 301.5);

    /** Files whose order of rows means nothing. */
    private static final List<String> UNORDERED = Arrays.stream(TableSchema.values())
            .filter(schema -> !schema.isOrdered())
            .map(TableFiles::name)
            .filter(PackageCopy.FILES::contains)
            .toList();

    private static final List<String> READ =
            PackageCopy.FILES.stream().filter(file -> !file.equals("README.md")).toList();

    /** Files in memory, as a class path. */
    private static final class InMemory extends ClassLoader {
        private final Map<String, byte[]> files;

        InMemory(Map<String, byte[]> files) {
            super(null);
            this.files = files;
        }

        @Override
        public @Nullable InputStream getResourceAsStream(String name) {
            byte[] bytes = name.startsWith(FOLDER + "/") ? files.get(name.substring(FOLDER.length() + 1)) : null;
            return bytes == null ? null : new ByteArrayInputStream(bytes);
        }
    }

    /** One spoiling of one file. */
    record Edit(String file, String kind, int at, int other, String text) {
        byte[] apply(byte[] bytes) {
            String whole = new String(bytes, ISO_8859_1);
            int place = whole.isEmpty() ? 0 : at % whole.length();
            List<String> lines = new ArrayList<>(List.of(whole.split("\n", -1)));
            int line = at % lines.size();
            int otherLine = other % lines.size();
            String edited = switch (kind) {
                case "insert" -> whole.substring(0, place) + text + whole.substring(place);
                case "delete" ->
                    whole.substring(0, place) + whole.substring(Math.min(whole.length(), place + 1 + other % 9));
                case "overwrite" ->
                    whole.substring(0, place) + text + whole.substring(Math.min(whole.length(), place + text.length()));
                case "cut off" -> whole.substring(0, place);
                case "number" -> replaceNumber(whole, place, text);
                case "cell" -> {
                    List<String> cells = new ArrayList<>(List.of(lines.get(line).split(",", -1)));
                    cells.set(other % cells.size(), text);
                    lines.set(line, String.join(",", cells));
                    yield String.join("\n", lines);
                }
                case "drop line" -> {
                    lines.remove(line);
                    yield String.join("\n", lines);
                }
                case "repeat line" -> {
                    lines.add(otherLine, lines.get(line));
                    yield String.join("\n", lines);
                }
                default -> {
                    Collections.swap(lines, line, otherLine);
                    yield String.join("\n", lines);
                }
            };
            return edited.getBytes(ISO_8859_1);
        }

        private static String replaceNumber(String whole, int place, String text) {
            int from = place;
            while (from < whole.length() && !Character.isDigit(whole.charAt(from))) {
                from++;
            }
            int to = from;
            while (to < whole.length() && (Character.isDigit(whole.charAt(to)) || whole.charAt(to) == '.')) {
                to++;
            }
            return whole.substring(0, from) + text + whole.substring(to);
        }
    }

    @Provide
    Arbitrary<Edit> edits() {
        Arbitrary<String> bytes = Arbitraries.strings()
                .withCharRange((char) 0, (char) 255)
                .ofMinLength(1)
                .ofMaxLength(3);
        Arbitrary<String> words = Arbitraries.of(
                "",
                "0",
                "-1",
                "1e308",
                "-1e308",
                "1e999",
                "NaN",
                "99999999999999999999",
                "0.0000001",
                "carcass",
                "meat",
                "fat-trim",
                "loss",
                "*",
                "CEABD",
                "steaks",
                "\"",
                "null",
                "true",
                "[]",
                "{}",
                "[[",
                ",",
                ";",
                "\r",
                "\n",
                "../x",
                "×",
                "~2",
                "/");
        return Combinators.combine(
                        Arbitraries.of(READ),
                        Arbitraries.of(
                                "insert",
                                "delete",
                                "overwrite",
                                "cut off",
                                "number",
                                "number",
                                "cell",
                                "cell",
                                "drop line",
                                "repeat line",
                                "swap lines"),
                        Arbitraries.integers().between(0, 1 << 20).withDistribution(RandomDistribution.uniform()),
                        Arbitraries.integers().between(0, 1 << 20).withDistribution(RandomDistribution.uniform()),
                        Arbitraries.oneOf(bytes, words))
                .as(Edit::new);
    }

    @Property(tries = 200, edgeCases = EdgeCasesMode.NONE)
    void spoiltPackageIsReadOrRefusedWithItsPlace(
            @ForAll("edits") Edit edit, @ForAll("edits") Edit another, @ForAll boolean both) {
        Map<String, byte[]> files = new HashMap<>(PackageCopy.shipped());
        files.computeIfPresent(edit.file(), (name, bytes) -> edit.apply(bytes));
        if (both) {
            files.computeIfPresent(another.file(), (name, bytes) -> another.apply(bytes));
        }

        Statistics.collect(readOrRefused(files) ? "read" : "refused");
        Statistics.coverage(coverage -> {
            coverage.check("read").percentage(share -> share > 5);
            coverage.check("refused").percentage(share -> share > 30);
        });
    }

    @Property(tries = 50)
    void spoiltZipIsReadOrRefused(@ForAll @IntRange(max = 1 << 20) int at, @ForAll byte other, @ForAll boolean cutOff)
            throws IOException {
        byte[] zip = PackageCopy.zip(PackageCopy.shipped());
        int place = at % zip.length;
        if (cutOff) {
            zip = Arrays.copyOf(zip, place);
        } else {
            zip[place] = other;
        }
        Path file = Files.createTempFile("hall", ".zip");
        try {
            Files.write(file, zip);
            assertThat(TableReader.read(file)).isEqualTo(SHIPPED);
        } catch (InvalidDataException refused) {
            assertThat(refused.problems())
                    .isNotEmpty()
                    .allMatch(problem -> problem.file().startsWith(file.toString()));
        } finally {
            Files.delete(file);
        }
    }

    /** Save that of cuts, in which they print, and of specifications, the first of which is used when none is chosen. */
    @Property(tries = 12)
    void orderOfRowsAndColumnsDoesNotMatter(@ForAll Random random) {
        Map<String, byte[]> files = new HashMap<>(PackageCopy.shipped());
        for (String file : UNORDERED) {
            files.computeIfPresent(file, (name, bytes) -> shuffled(bytes, random, true));
        }
        for (String file : List.of("cuts.csv", "specifications.csv")) {
            files.computeIfPresent(file, (name, bytes) -> shuffled(bytes, random, false));
        }

        YieldTable table = TableReader.read(new InMemory(files), FOLDER);

        assertThat(table.digest()).isEqualTo(SHIPPED.digest());
        assertThat(YieldEstimator.of(table).estimate(CARCASS).lines("retail"))
                .usingRecursiveComparison()
                .withComparatorForType((a, b) -> Math.abs(a - b) < 1e-9 ? 0 : Double.compare(a, b), Double.class)
                .isEqualTo(YieldEstimator.of(SHIPPED).estimate(CARCASS).lines("retail"));
    }

    @Property(tries = 12)
    void declaredFurtherColumnsOfAnyResourceAreCarried(
            @ForAll("csvFiles") String file,
            @ForAll @AlphaChars @StringLength(min = 1, max = 12) String column,
            @ForAll @Size(5) List<@AlphaChars @StringLength(max = 9) String> values) {
        Map<String, byte[]> files = new HashMap<>(PackageCopy.shipped());
        List<List<String>> rows = rows(files.getOrDefault(file, new byte[0]));
        List<String> carried = new ArrayList<>();
        rows.get(0).add(column);
        for (int i = 1; i < rows.size(); i++) {
            carried.add(values.get(i % values.size()));
            rows.get(i).add(values.get(i % values.size()));
        }
        files.put(file, bytes(rows));
        String declared = "\"path\": \"" + file + "\",";
        files.computeIfPresent(
                "datapackage.json",
                (name, bytes) -> new String(bytes, UTF_8)
                        .replaceFirst(
                                "(?s)(" + Pattern.quote(declared) + ".*?\"fields\": \\[)",
                                "$1 {\"name\": \"" + column + "\", \"type\": \"string\"},")
                        .getBytes(UTF_8));

        YieldTable table = TableReader.read(new InMemory(files), FOLDER);

        assertThat(table.definition().extraColumns()).singleElement().satisfies(extra -> {
            assertThat(extra.resource() + ".csv").isEqualTo(file);
            assertThat(extra.column()).isEqualTo(column);
            assertThat(extra.values()).isEqualTo(carried);
        });
        assertThat(table.digest()).isNotEqualTo(SHIPPED.digest());
    }

    @Provide
    Arbitrary<String> csvFiles() {
        return Arbitraries.of(
                READ.stream().filter(file -> file.endsWith(".csv")).toList());
    }

    /** Whether it is a table; if not, what is said of it is fit for a reader. */
    private static boolean readOrRefused(Map<String, byte[]> files) {
        try {
            assertWhole(TableReader.read(new InMemory(files), FOLDER));
            return true;
        } catch (InvalidDataException refused) {
            assertThat(refused.problems()).isNotEmpty().allSatisfy(problem -> {
                assertThat(problem.file()).startsWith(FOLDER + "/");
                String file = problem.file().substring(FOLDER.length() + 1);
                assertThat(problem.line()).isBetween(0L, 1 + lineEnds(files.getOrDefault(file, new byte[0])));
                assertThat(problem.message()).isNotBlank().doesNotEndWith(".");
                assertThat(problem.toString().chars()).noneMatch(Character::isISOControl);
            });
            return false;
        }
    }

    /** What is read keeps its promise: whatever it serves closes. */
    private static void assertWhole(YieldTable table) {
        if (table.specifications().isEmpty()) {
            return;
        }
        Category category = table.definition().categories().get(0);
        double weight = table.definition().reference().weightKg();
        Carcass reference = Carcass.of(
                category,
                Conformation.ofPosition(table.definition().reference().conformation(), 1),
                FatClass.ofPosition(table.definition().reference().fat(), 1),
                weight);
        YieldEstimate estimate = YieldEstimator.of(table).estimate(reference);
        for (String level : table.levels()) {
            assertThat(estimate.lines(level).stream().mapToDouble(CutLine::kg).sum())
                    .isCloseTo(weight, within(1e-9 * weight));
        }
    }

    private static long lineEnds(byte[] bytes) {
        return new String(bytes, ISO_8859_1).chars().filter(c -> c == '\n').count();
    }

    /** Another order of the columns and, if wanted, of the rows behind the header. */
    private static byte[] shuffled(byte[] bytes, Random random, boolean rowsToo) {
        List<List<String>> rows = rows(bytes);
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < rows.get(0).size(); i++) {
            order.add(i);
        }
        Collections.shuffle(order, random);
        if (rowsToo) {
            Collections.shuffle(rows.subList(1, rows.size()), random);
        }
        return bytes(
                rows.stream().map(row -> order.stream().map(row::get).toList()).toList());
    }

    /** Cells as they stand, quotes included. */
    private static List<List<String>> rows(byte[] bytes) {
        List<List<String>> rows = new ArrayList<>();
        for (String line : new String(bytes, UTF_8).lines().toList()) {
            rows.add(new ArrayList<>(List.of(line.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)", -1))));
        }
        return rows;
    }

    private static byte[] bytes(List<List<String>> rows) {
        StringBuilder text = new StringBuilder();
        rows.forEach(row -> text.append(String.join(",", row)).append('\n'));
        return text.toString().getBytes(UTF_8);
    }
}
