package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.lifecycle.AfterProperty;
import net.jqwik.api.lifecycle.BeforeProperty;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.InvalidDataException;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/** Whatever table is written reads back equal, and the bytes depend on nothing but the table. */
class TableWriterProperties {
    private Path folder;

    @BeforeProperty
    void makeAFolder() throws IOException {
        folder = Files.createTempDirectory("written");
    }

    @AfterProperty
    void deleteTheFolder() throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path one : all.sorted(Collections.reverseOrder()).toList()) {
                Files.delete(one);
            }
        }
    }

    @Property(tries = 300)
    void whatIsWrittenReadsBackEqualFromAFolderAndFromAZip(@ForAll("tables") TableDefinition definition) {
        YieldTable table = YieldTable.of(definition);
        for (String name : List.of("table", "table.zip")) {
            TableWriter.write(table, folder.resolve(name));
            YieldTable read = TableReader.read(folder.resolve(name));

            assertThat(read.definition()).isEqualTo(definition);
            assertThat(read).isEqualTo(table);
            assertThat(read.digest()).isEqualTo(table.digest());
        }
    }

    @Property(tries = 100)
    void theBytesAreTheSameHoweverTheTableCameAbout(@ForAll("tables") TableDefinition definition) {
        Map<String, byte[]> first = TableWriter.files(YieldTable.of(definition));
        TableWriter.write(YieldTable.of(definition), folder.resolve("table"));
        Map<String, byte[]> second = TableWriter.files(TableReader.read(folder.resolve("table")));

        assertThat(second.keySet()).isEqualTo(first.keySet());
        first.forEach((name, content) -> {
            assertThat(second.get(name)).as(name).isEqualTo(content);
            assertThat(bytes(folder.resolve("table").resolve(name))).as(name).isEqualTo(content);
        });
    }

    @Property(tries = 100)
    void theOrderOfRowsThatMeansNothingLeavesTheDigestAlone(
            @ForAll("tables") TableDefinition definition, @ForAll @IntRange(max = 1000) int seed) throws IOException {
        String digest = YieldTable.of(definition).digest();
        Path place = folder.resolve("shuffled");
        TableWriter.write(YieldTable.of(definition), place);
        for (TableSchema schema : TableSchema.values()) {
            Path file = place.resolve(TableFiles.name(schema));
            if (Files.exists(file) && !schema.isOrdered()) {
                List<String> lines = new ArrayList<>(Files.readAllLines(file));
                Collections.shuffle(lines.subList(1, lines.size()), new Random(seed));
                Files.write(file, lines);
            }
        }

        // a digest that depended on the order would be stale here
        assertThat(TableReader.read(place).digest()).isEqualTo(digest);
    }

    @Property(tries = 100)
    void aChangedNumberAnywhereMakesTheDigestStale(@ForAll("tables") TableDefinition definition) throws IOException {
        Path place = folder.resolve("changed");
        TableWriter.write(YieldTable.of(definition), place);
        Path file = place.resolve("cuts.csv");
        Files.writeString(file, Files.readString(file).replaceFirst("12\\.5", "12.25"));

        assertThat(catchThrowableOfType(InvalidDataException.class, () -> TableReader.read(place)))
                .hasMessageContaining("the table's files were changed after this digest was taken");
    }

    private static byte[] bytes(Path file) {
        try {
            return Files.readAllBytes(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Texts as people write them, with whatever a CSV or JSON file must take care of, but no blanks at their ends. */
    private static Arbitrary<String> texts() {
        return Arbitraries.strings()
                .withChars("ab ,;\"'\\/\t{}[]:=#%<&\u00e4\u00df\u2028\u3042\u20ac")
                .withChars('\u00a0', '\u0301')
                .ofMaxLength(12)
                .map(String::strip);
    }

    @Provide
    Arbitrary<TableDefinition> tables() {
        Arbitrary<List<String>> words = texts().list().ofSize(8);
        Arbitrary<int[]> shape =
                Arbitraries.integers().between(0, 5).array(int[].class).ofSize(5);
        Arbitrary<double[]> figures = Arbitraries.doubles()
                .between(-1e-3, 1e-3)
                .ofScale(9)
                .array(double[].class)
                .ofSize(8);
        Arbitrary<Integer> decimals = Arbitraries.integers().between(-1, 4);
        return Combinators.combine(words, shape, figures, decimals).as(TableWriterProperties::table);
    }

    private static TableDefinition table(List<String> words, int[] shape, double[] figures, int decimals) {
        TableRange allowed = new TableRange(new Range(4, 4 + shape[0]), new Range(5, 6), new Range(200, 300.25));
        boolean byClass = shape[1] % 2 == 1;
        int terms = shape[2] % 3;
        TableDefinition.Builder builder = TableDefinition.builder("t" + shape[3], "1." + shape[4])
                .about(words.get(0), words.get(1))
                .levels("side", words.get(2).isEmpty() ? "cuts" : words.get(2))
                .ranges(allowed, allowed)
                .reference(4, 5.5, 250 + figures[0])
                .widthFit(Math.abs(figures[1]))
                .categories(
                        shape[3] > 2 ? new Category[] {Category.COW} : new Category[] {Category.BULL, Category.STEER})
                .basis(Basis.NOT_STATED
                        .withQuartering(shape[0] > 2 ? words.get(3) : null)
                        .withFatCoverMm(shape[1] > 2 ? Double.valueOf(Math.abs(figures[2])) : null)
                        .withBoneless(shape[2] > 3 ? Boolean.FALSE : null))
                .cut(Cut.of("lean", "n" + words.get(4), "side", CutKind.MEAT)
                        .withSideSplitSdPct(12.5)
                        .withFatPct(Math.abs(figures[3])))
                .cut(Cut.of("rest", "Rest", "side", CutKind.BONE).withNote(words.get(5)))
                .source(new SourceRow("s", SourceKind.ASSUMPTION, words.get(6), words.get(7)))
                .source(new SourceRow("t", SourceKind.UNVERIFIED, "", ""));
        String second = words.get(2).isEmpty() ? "cuts" : words.get(2);
        Map<String, Double> children = new LinkedHashMap<>();
        int count = 1 + shape[3];
        double left = 1000;
        for (int i = 0; i < count; i++) {
            // sixteenths are exact, so that a column without decimals closes
            double share = i == count - 1 ? left : Math.rint(16 * left * (0.3 + 100 * Math.abs(figures[i]))) / 16;
            children.put("c" + i, share);
            left -= share;
            builder.cut(Cut.of("c" + i, "C" + i, second, CutKind.STEAK).withPiecesPerSide(0.5 * (i + 1)));
        }
        if (shape[0] > 3) {
            builder.license(new License(words.get(0).isEmpty() ? "x" : words.get(0), words.get(1), words.get(2)));
            builder.provenance(new Provenance(words.get(3), words.get(4)));
        }
        for (int i = 0; i < shape[4]; i++) {
            builder.name(new CutName(i % 2 == 0 ? "lean" : "rest", "l" + i, "n" + words.get(i)));
        }
        if (terms > 0) {
            builder.term(new Term.Hinge("fat_below_6", Variable.FAT, Term.Side.BELOW, 6));
        }
        if (terms > 1) {
            builder.term(new Term.Product("fat_weight", Variable.WEIGHT, Variable.FAT));
        }
        if (decimals >= 0) {
            builder.decimals(TableColumn.PER_FAT_POINT, decimals).decimals(TableColumn.G_PER_KG, decimals);
        }
        double[] slopes = Arrays.copyOfRange(figures, 0, 3 + terms);
        List<Double> lean = coefficients(600.5 + figures[4], slopes, 1);
        List<Double> rest = coefficients(1000 - lean.get(0), slopes, -1);
        builder.row(new BreakdownRow("*", "*", "carcass", "lean", lean, Math.abs(figures[5]), "s"))
                .row(new BreakdownRow("*", "*", "carcass", "rest", rest, Math.abs(figures[5]), "t"));
        List<String> extra = new ArrayList<>(List.of(words.get(0), words.get(1)));
        children.forEach((cut, share) -> {
            if (byClass) {
                for (String conformation : List.of("O", "R")) {
                    builder.row(new ClassRow("*", "*", "lean", conformation, "2", cut, share, 0, "s"));
                }
            } else {
                builder.row(new BreakdownRow(
                        "*", "*", "lean", cut, coefficients(share, new double[slopes.length], 1), 0, "t"));
                extra.add(words.get(extra.size() % words.size()));
            }
        });
        if (shape[2] > 1) {
            builder.extraColumn(new ExtraColumn(TableSchema.BREAKDOWN.code(), "checked by", "any", extra));
            builder.extraColumn(new ExtraColumn(TableSchema.SOURCES.code(), "x", "string", List.of(words.get(5), "")));
        }
        return builder.build();
    }

    private static List<Double> coefficients(double level, double[] slopes, int sign) {
        List<Double> all = new ArrayList<>(List.of(level));
        for (double slope : slopes) {
            // 0 and -0 are one number in a file
            all.add(sign * slope + 0.0);
        }
        return all;
    }
}
