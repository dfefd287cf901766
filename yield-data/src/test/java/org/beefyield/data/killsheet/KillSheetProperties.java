package org.beefyield.data.killsheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;

class KillSheetProperties {
    private static final List<String> HEADER = List.of(
            "carcass",
            "lot",
            "remark",
            "category",
            "conformation",
            "conformation_points",
            "fat_class",
            "fat_points",
            "cold_weight_kg",
            "age_months",
            "kill_date",
            "hall",
            "assured",
            "status");

    /** A row as it goes into a sheet, its decimals with a point, and what must come out; null if condemned. */
    record Row(List<String> cells, Carcass carcass, LocalDate killDate) {}

    /** How a sheet is written. */
    record Dialect(char separator, boolean decimalComma, boolean byteOrderMark, String lineEnd, boolean lastLineEnd) {
        byte[] write(List<Row> rows) {
            List<List<String>> lines = new ArrayList<>();
            lines.add(HEADER);
            rows.forEach(row -> lines.add(row.cells()));
            String text = lines.stream()
                    .map(cells -> cells.stream().map(this::cell).collect(Collectors.joining("" + separator)))
                    .collect(Collectors.joining(lineEnd, byteOrderMark ? "\uFEFF" : "", lastLineEnd ? lineEnd : ""));
            return text.getBytes(StandardCharsets.UTF_8);
        }

        private String cell(String text) {
            String written = decimalComma && text.matches("[0-9]+\\.[0-9]+") ? text.replace('.', ',') : text;
            return written.indexOf(separator) >= 0 || written.indexOf('"') >= 0
                    ? '"' + written.replace("\"", "\"\"") + '"'
                    : written;
        }

        KillSheetFormat format() {
            CsvForm.Builder form = CsvForm.builder().separator(separator);
            return KillSheetFormat.of((decimalComma ? form.decimalComma() : form).build());
        }
    }

    /** One byte of a row taken out, put in or put in another's place. */
    record Mutation(int row, int at, char operation, byte value) {}

    @Property(tries = 500)
    void goodRowsSurviveWritingAndReading(
            @ForAll @Size(min = 1, max = 8) List<@From("rows") Row> drawn, @ForAll("dialects") Dialect dialect) {
        List<Row> rows = numbered(drawn);
        KillSheet sheet = read(dialect.write(rows), dialect.format());
        assertThat(sheet.problems()).isEmpty();
        List<Row> passed = rows.stream().filter(row -> row.carcass() != null).toList();
        assertThat(sheet.carcasses())
                .containsExactlyElementsOf(passed.stream().map(Row::carcass).toList());
        assertThat(sheet.entries())
                .extracting(entry -> entry.killDate().orElse(null))
                .containsExactlyElementsOf(passed.stream().map(Row::killDate).toList());
        assertThat(sheet.entries())
                .extracting(KillSheetEntry::otherColumns)
                .containsExactlyElementsOf(passed.stream()
                        .map(row -> Map.of("remark", row.cells().get(2)))
                        .toList());
        assertThat(sheet.condemned())
                .extracting(KillSheet.Condemned::id)
                .containsExactlyElementsOf(rows.stream()
                        .filter(row -> row.carcass() == null)
                        .map(row -> row.cells().get(0))
                        .toList());
    }

    @Property(tries = 1000)
    void noRowVanishesAndNoDamagedRowTakesAnotherWithIt(
            @ForAll @Size(min = 1, max = 8) List<@From("rows") Row> drawn,
            @ForAll("dialects") Dialect dialect,
            @ForAll @Size(min = 1, max = 4) List<@From("mutations") Mutation> mutations) {
        List<Row> rows = numbered(drawn);
        List<byte[]> lines = split(dialect.write(rows));
        Set<Long> touched = new HashSet<>();
        for (Mutation mutation : mutations) {
            int index = 1 + mutation.row() % rows.size();
            lines.set(index, mutate(lines.get(index), mutation));
            touched.add(index + 1L);
        }
        KillSheet sheet = read(join(lines), dialect.format());

        List<Long> entries = sheet.entries().stream().map(KillSheetEntry::line).toList();
        List<Long> condemned =
                sheet.condemned().stream().map(KillSheet.Condemned::line).toList();
        Set<Long> refused = sheet.problems().stream()
                .map(Problem::line)
                .filter(line -> line > 0)
                .collect(Collectors.toCollection(TreeSet::new));
        List<Long> all = new ArrayList<>(entries);
        all.addAll(condemned);
        all.addAll(refused);
        assertThat(all).containsExactlyInAnyOrderElementsOf(linesWithText(lines, dialect.separator()));
        assertThat(sheet.counts())
                .isEqualTo(new KillSheet.Counts(all.size(), entries.size(), condemned.size(), refused.size()));
        // damage may turn an earlier id into a later one's
        Set<Long> duplicates = sheet.problems().stream()
                .filter(problem -> problem.message().contains("stands in line"))
                .map(Problem::line)
                .collect(Collectors.toSet());
        for (long line = 2; line <= rows.size() + 1; line++) {
            if (!touched.contains(line) && !duplicates.contains(line)) {
                assertThat(refused).doesNotContain(line);
            }
        }
    }

    @Property(tries = 200)
    void holdingAndStreamingGiveTheSame(
            @ForAll @Size(max = 8) List<@From("rows") Row> drawn,
            @ForAll @IntRange(max = 20) int at,
            @ForAll byte value) {
        List<byte[]> lines = split(new Dialect(',', false, false, "\n", true).write(numbered(drawn)));
        if (lines.size() > 1) {
            lines.set(1, mutate(lines.get(1), new Mutation(0, at, 'r', value)));
        }
        KillSheet held = read(join(lines), KillSheetFormat.standard());
        List<Object> streamed = new ArrayList<>();
        KillSheet.Counts counts = KillSheetReader.read(
                Source.of("sheet.csv", join(lines)), KillSheetFormat.standard(), new KillSheetHandler() {
                    @Override
                    public void entry(KillSheetEntry entry) {
                        streamed.add(entry);
                    }

                    @Override
                    public void problem(Problem problem) {
                        streamed.add(problem);
                    }

                    @Override
                    public void condemned(KillSheet.Condemned condemned) {
                        streamed.add(condemned);
                    }
                });
        assertThat(counts).isEqualTo(held.counts());
        List<Object> all = new ArrayList<>(held.entries());
        all.addAll(held.problems());
        all.addAll(held.condemned());
        assertThat(streamed).containsExactlyInAnyOrderElementsOf(all);
    }

    @Provide
    Arbitrary<Row> rows() {
        Arbitrary<Conformation> conformations = Arbitraries.oneOf(
                Arbitraries.integers().between(1, 18).map(Conformation::third),
                Arbitraries.of("S", "E", "U", "R", "O", "P").map(Conformation::parse),
                Arbitraries.doubles().between(1, 18).ofScale(2).map(position -> Conformation.ofPosition(position, 1)));
        Arbitrary<FatClass> fatClasses = Arbitraries.oneOf(
                Arbitraries.integers().between(1, 15).map(FatClass::third),
                Arbitraries.of("1", "2", "3", "4", "5", "4L", "4H", "5L", "5H").map(FatClass::parse),
                Arbitraries.doubles().between(1, 15).ofScale(2).map(position -> FatClass.ofPosition(position, 1)));
        Arbitrary<Carcass> carcasses = Combinators.combine(
                        Arbitraries.of(Category.STEER, Category.HEIFER, Category.COW, Category.YOUNG_BULL),
                        conformations,
                        fatClasses,
                        Arbitraries.doubles().between(0.1, 1200).ofScale(1),
                        Arbitraries.integers().between(12, 23).injectNull(0.3))
                .as((category, conformation, fatClass, kg, age) -> {
                    Carcass carcass = Carcass.of(category, conformation, fatClass, kg);
                    return age == null ? carcass : carcass.withAgeMonths(age);
                });
        Arbitrary<String> words = texts().map(String::strip).filter(text -> !text.isEmpty());
        Arbitrary<LocalDate> dates = Arbitraries.integers()
                .between(0, 364)
                .map(day -> LocalDate.of(2026, 1, 1).plusDays(day))
                .injectNull(0.3);
        return Combinators.combine(
                        carcasses,
                        Combinators.combine(words, words.injectNull(0.3), words.injectNull(0.6))
                                .as(Tuple::of),
                        texts(),
                        dates,
                        Arbitraries.of("", "yes", "no"),
                        Arbitraries.frequency(Tuple.of(9, ""), Tuple.of(1, "condemned")))
                .as((carcass, names, remark, date, assured, status) ->
                        row(carcass.withId(names.get1()), names.get2(), names.get3(), remark, date, assured, status));
    }

    private static Row row(
            Carcass carcass, String lot, String hall, String remark, LocalDate date, String assured, String status) {
        Carcass whole = lot == null ? carcass : carcass.withLot(lot);
        whole = hall == null ? whole : whole.withHall(hall);
        whole = date == null ? whole : whole.withKillDate(date.toString());
        whole = assured.isEmpty() ? whole : whole.withAssured(assured.equals("yes"));
        String conformation = whole.conformation().toString();
        String fatClass = whole.fatClass().toString();
        List<String> cells = List.of(
                whole.id().orElseThrow(),
                whole.lot().orElse(""),
                remark,
                whole.category().toString(),
                conformation.endsWith("p") ? "" : conformation,
                conformation.endsWith("p") ? conformation.replace("p", "") : "",
                fatClass.endsWith("p") ? "" : fatClass,
                fatClass.endsWith("p") ? fatClass.replace("p", "") : "",
                Double.toString(whole.coldWeightKg()),
                whole.ageMonths().isPresent() ? "" + whole.ageMonths().getAsInt() : "",
                date == null ? "" : date.toString(),
                whole.hall().orElse(""),
                assured,
                status);
        return new Row(cells, status.isEmpty() ? whole : null, date);
    }

    /** The rows with their ids made different, so that none is a duplicate. */
    private static List<Row> numbered(List<Row> rows) {
        List<Row> numbered = new ArrayList<>();
        for (Row row : rows) {
            String id = row.cells().get(0) + "-" + numbered.size();
            List<String> cells = new ArrayList<>(row.cells());
            cells.set(0, id);
            numbered.add(
                    new Row(cells, row.carcass() == null ? null : row.carcass().withId(id), row.killDate()));
        }
        return numbered;
    }

    private static Arbitrary<String> texts() {
        return Arbitraries.strings().withChars("ab \"',;|\t#\u00e9\u20ac\u725b").ofMaxLength(6);
    }

    @Provide
    Arbitrary<Dialect> dialects() {
        return Combinators.combine(
                        Arbitraries.of(',', ';', '\t', '|'),
                        Arbitraries.of(false, true),
                        Arbitraries.of(false, true),
                        Arbitraries.of("\n", "\r\n"),
                        Arbitraries.of(false, true))
                .as(Dialect::new);
    }

    @Provide
    Arbitrary<Mutation> mutations() {
        Arbitrary<Byte> bytes = Arbitraries.oneOf(
                Arbitraries.of((byte) '"', (byte) ',', (byte) ';', (byte) '\t', (byte) '\r', (byte) 0, (byte) -1),
                Arbitraries.bytes().filter(value -> value != '\n'));
        return Combinators.combine(
                        Arbitraries.integers().between(0, 7),
                        Arbitraries.integers().between(0, 80),
                        Arbitraries.of('d', 'i', 'r', 'c'),
                        bytes)
                .as(Mutation::new);
    }

    private static byte[] mutate(byte[] line, Mutation mutation) {
        int at = mutation.at() % (line.length + 1);
        byte[] front = Arrays.copyOf(line, at);
        byte[] back = Arrays.copyOfRange(line, Math.min(line.length, at + 1), line.length);
        return switch (mutation.operation()) {
            case 'd' -> concat(front, back);
            case 'i' -> concat(front, new byte[] {mutation.value()}, Arrays.copyOfRange(line, at, line.length));
            case 'r' -> concat(front, new byte[] {mutation.value()}, back);
            default -> front;
        };
    }

    private static byte[] concat(byte[]... parts) {
        byte[] all = new byte[Arrays.stream(parts).mapToInt(part -> part.length).sum()];
        int at = 0;
        for (byte[] part : parts) {
            System.arraycopy(part, 0, all, at, part.length);
            at += part.length;
        }
        return all;
    }

    private static List<byte[]> split(byte[] sheet) {
        List<byte[]> lines = new ArrayList<>();
        int start = 0;
        for (int at = 0; at <= sheet.length; at++) {
            if (at == sheet.length || sheet[at] == '\n') {
                lines.add(Arrays.copyOfRange(sheet, start, at));
                start = at + 1;
            }
        }
        return lines;
    }

    private static byte[] join(List<byte[]> lines) {
        byte[] all = new byte[0];
        for (byte[] line : lines) {
            all = concat(all, line, new byte[] {'\n'});
        }
        return all;
    }

    /** Numbers of the lines after the header that hold anything but blanks; separators are something. */
    private static List<Long> linesWithText(List<byte[]> lines, char separator) {
        List<Long> numbers = new ArrayList<>();
        for (int index = 1; index < lines.size(); index++) {
            String text = new String(lines.get(index), StandardCharsets.UTF_8);
            if (!text.isBlank() || text.indexOf(separator) >= 0) {
                numbers.add(index + 1L);
            }
        }
        return numbers;
    }

    private static KillSheet read(byte[] sheet, KillSheetFormat format) {
        return KillSheetReader.read(Source.of("sheet.csv", sheet), format);
    }
}
