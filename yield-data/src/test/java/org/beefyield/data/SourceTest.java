package org.beefyield.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.zip.GZIPOutputStream;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.boning.TrialReader;
import org.beefyield.data.frame.FrameFile;
import org.beefyield.data.killsheet.EstimateWriter;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.killsheet.ProblemWriter;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.data.trade.MarketSpecificationReader;
import org.beefyield.data.trade.PaymentGridReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.data.trade.SizeWindowReader;
import org.beefyield.estimate.Frames;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Frame;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every reader from every source, every writer to a stream. */
class SourceTest {
    private static final Path EXAMPLES = Path.of(System.getProperty("basedir", ""), "examples");
    private static final YieldTable TABLE = ShippedTables.boneless2026();

    @TempDir
    Path folder;

    /** The same in another form: semicolons, decimal commas, another name of a column, packed. */
    private static Source other(String example, String ours, String theirs) throws IOException {
        StringBuilder text = new StringBuilder();
        for (String line : Files.readAllLines(EXAMPLES.resolve(example))) {
            assertThat(line).doesNotContain(";").doesNotContain("\"");
            String cells = line.replace(',', ';').replaceAll("(?<=[0-9])\\.(?=[0-9])", ",");
            text.append(text.isEmpty() ? cells.replaceFirst("(^|;)" + ours + "(;|$)", "$1" + theirs + "$2") : cells)
                    .append('\n');
        }
        assertThat(text.substring(0, text.indexOf("\n"))).contains(theirs);
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (OutputStream out = new GZIPOutputStream(packed)) {
            out.write(text.toString().getBytes(StandardCharsets.UTF_8));
        }
        return Source.of(example, packed.toByteArray());
    }

    private static CsvForm form(String theirs, String ours) {
        return CsvForm.builder()
                .separator(';')
                .decimalComma()
                .column(theirs, ours)
                .build();
    }

    @Test
    void whatOneCsvFileMayDeclareAllMay() throws IOException {
        assertThat(PriceListReader.read(other("tarrowmere-prices.csv", "price", "Preis"), form("Preis", "price")))
                .usingRecursiveComparison()
                .isEqualTo(PriceListReader.read(EXAMPLES.resolve("tarrowmere-prices.csv")));
        assertThat(PaymentGridReader.read(
                        other("tarrowmere-grid.csv", "per_kg", "je kg"), form("je kg", "per_kg"), GradeReading.THIRDS))
                .usingRecursiveComparison()
                .isEqualTo(PaymentGridReader.read(EXAMPLES.resolve("tarrowmere-grid.csv")));
        assertThat(MarketSpecificationReader.read(
                        other("tarrowmere-market.csv", "to_kg", "bis kg"), form("bis kg", "to_kg")))
                .usingRecursiveComparison()
                .isEqualTo(MarketSpecificationReader.read(EXAMPLES.resolve("tarrowmere-market.csv")));
        assertThat(SizeWindowReader.read(other("tarrowmere-windows.csv", "cut", "Teil"), form("Teil", "cut")))
                .isEqualTo(SizeWindowReader.read(EXAMPLES.resolve("tarrowmere-windows.csv")))
                .isNotEmpty();
        assertThat(TrialReader.read(
                                other("tarrowmere-trials.csv", "carcass", "Nr"), form("Nr", "carcass"), TABLE, Set.of())
                        .trials())
                .usingRecursiveComparison()
                .isEqualTo(TrialReader.read(EXAMPLES.resolve("tarrowmere-trials.csv"), TABLE)
                        .trials());
        assertThat(KillSheetReader.read(
                                other("tarrowmere-2026-11.csv", "carcass", "Nr"),
                                KillSheetFormat.of(form("Nr", "carcass")))
                        .entries())
                .isEqualTo(KillSheetReader.read(EXAMPLES.resolve("tarrowmere-2026-11.csv"))
                        .entries())
                .hasSize(200);
    }

    @Test
    void errorsNameTheColumnAsTheFileDoes() {
        Source prices =
                Source.of("prices", "line;name;Preis;currency\ncut;fillet;12.5;EUR\n".getBytes(StandardCharsets.UTF_8));
        assertThatThrownBy(() -> PriceListReader.read(prices, form("Preis", "price")))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(
                        "prices line 2, Preis: \"12.5\" is not a plain number such as 342,5; the decimal comma is declared");
        assertThatThrownBy(() -> PriceListReader.read(
                        prices,
                        CsvForm.builder()
                                .separator(';')
                                .column("Preis", "prize")
                                .build()))
                .hasMessage(
                        "prices line 1, price: the column \"price\" is missing; columns: line, name, price, currency\n"
                                + "prices line 1, Preis: the column \"Preis\" is declared as \"prize\", which is none; columns: line,"
                                + " name, price, currency");
    }

    @Test
    void pricesThatLookLikeCentsAreNoted() {
        String header = "line,name,price,currency\n";
        assertThat(notes(header + "cut,fillet,3400,EUR\ncut,rump,1150,EUR\nkind,bone,0,EUR\nmince,,620,EUR\n"))
                .containsExactly(
                        "prices, price: prices look like cents: the one in the middle is 1150 a kg; the list says EUR");
        assertThat(notes(header
                        + "cut,fillet,34,EUR\ncut,rump,1150,EUR\nmince,,6.2,EUR\nper-head,slaughter,-5000,EUR\n"))
                .containsExactly(
                        "prices line 3, price: the price of cut \"rump\", 1150, looks like cents: the one in the middle"
                                + " is 34");
        assertThat(notes(header + "cut,fillet,99,EUR\ncut,rump,11.5,EUR\nmince,,6.2,EUR\n"))
                .isEmpty();
    }

    private static List<String> notes(String prices) {
        List<String> notes = new ArrayList<>();
        PriceListReader.read(
                Source.of("prices", prices.getBytes(StandardCharsets.UTF_8)),
                CsvForm.standard(),
                note -> notes.add(note.toString()));
        return notes;
    }

    @Test
    void aStreamIsReadOnceAndLeftOpen() throws IOException {
        boolean[] closed = {false};
        InputStream stream = new ByteArrayInputStream(Files.readAllBytes(EXAMPLES.resolve("tarrowmere-windows.csv"))) {
            @Override
            public void close() {
                closed[0] = true;
            }
        };
        Source source = Source.of("upload", stream);
        assertThat(SizeWindowReader.read(source, CsvForm.standard())).isNotEmpty();
        assertThat(closed[0]).isFalse();
        assertThatThrownBy(() -> SizeWindowReader.read(source, CsvForm.standard()))
                .hasMessage("upload: the file can't be read: its stream was read before; a stream can be read once");
    }

    @Test
    void aResourceThatIsNotThereIsNamed() {
        Source none = Source.ofResource(SourceTest.class, "none.csv");
        assertThat(none).hasToString("none.csv");
        assertThat(none.path()).isEmpty();
        assertThatThrownBy(() -> KillSheetReader.read(none, KillSheetFormat.standard()))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(
                        "none.csv: the file can't be read: there is no such resource beside org.beefyield.data.SourceTest on"
                                + " its class path");
    }

    @Test
    void bytesAreCopied() throws IOException {
        byte[] bytes = {1, 2};
        Source source = Source.of("bytes", bytes);
        bytes[0] = 9;
        try (InputStream in = source.open()) {
            assertThat(in.readAllBytes()).containsExactly(1, 2);
        }
    }

    @Test
    void aTableGoesThroughAStreamAndIsReadFromBytes() {
        ByteArrayOutputStream zip = new ByteArrayOutputStream();
        TableWriter.write(TABLE, zip);
        assertThat(TableReader.read(Source.of("upload", zip.toByteArray()))).isEqualTo(TABLE);
        assertThat(TableReader.read(Source.of("upload", new ByteArrayInputStream(zip.toByteArray()))))
                .isEqualTo(TABLE);
        assertThatThrownBy(() -> TableReader.read(Source.of("upload", new byte[] {1})))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(
                        "upload: it can't be read as a zip file: it is no zip file; a table is a folder, or a zip of the files"
                                + " of one");
    }

    @Test
    void whatGoesToAStreamIsWhatGoesToAFile() throws IOException {
        YieldEstimator estimator = YieldEstimator.of(TABLE);
        List<YieldEstimate> estimates =
                KillSheetReader.read(EXAMPLES.resolve("tarrowmere-2026-11.csv")).carcasses().stream()
                        .limit(5)
                        .map(estimator::estimate)
                        .toList();
        Path file = folder.resolve("file.csv");
        Unclosed stream = new Unclosed();
        try (EstimateWriter out = new EstimateWriter(stream, null);
                EstimateWriter alone = new EstimateWriter(file)) {
            estimates.forEach(out::write);
            estimates.forEach(alone::write);
            out.finish();
            alone.finish();
        }
        assertThat(stream.toByteArray()).isEqualTo(Files.readAllBytes(file)).hasSizeGreaterThan(1000);

        Unclosed wide = new Unclosed();
        try (EstimateWriter out = EstimateWriter.wide(wide, estimator);
                EstimateWriter alone = EstimateWriter.wide(file, estimator)) {
            estimates.forEach(out::write);
            estimates.forEach(alone::write);
            out.finish();
            alone.finish();
        }
        assertThat(wide.toByteArray()).isEqualTo(Files.readAllBytes(file));

        Frame frame = Frames.wide(estimates, "tissue");
        Unclosed framed = new Unclosed();
        FrameFile.write(frame, framed);
        assertThat(FrameFile.read(Source.of("frame", framed.toByteArray()), CsvForm.standard(), frame.columns()))
                .isEqualTo(frame);

        Unclosed problems = new Unclosed();
        try (ProblemWriter out = new ProblemWriter(problems)) {
            out.note(new Problem("sheet.csv", 2, "carcass", "TM-1", "carcass TM-1: odd, it seems"));
            out.finish();
        }
        assertThat(problems.toString(StandardCharsets.UTF_8))
                .isEqualTo("kind,file,line,column,value,message\nnote,sheet.csv,2,carcass,TM-1,\"carcass TM-1: odd, it"
                        + " seems\"\n");
        assertThat(List.of(stream.flushed, wide.flushed, framed.flushed, problems.flushed))
                .containsOnly(true);
    }

    @Test
    void estimatesAreWrittenInTheFormDeclared() {
        YieldEstimator estimator = YieldEstimator.of(TABLE);
        YieldEstimate estimate = estimator.estimate(KillSheetReader.read(EXAMPLES.resolve("tarrowmere-2026-11.csv"))
                .carcasses()
                .get(0)
                .withLot("Z\u00fc;1"));
        CsvForm form = CsvForm.builder()
                .separator(';')
                .decimalComma()
                .charset(StandardCharsets.ISO_8859_1)
                .columns(Map.of("Nr", "carcass", "Los", "lot", "kalt", "cold_weight_kg"))
                .build();
        for (boolean wide : new boolean[] {false, true}) {
            Unclosed plain = new Unclosed();
            Unclosed formed = new Unclosed();
            try (EstimateWriter out = wide ? EstimateWriter.wide(plain, estimator) : new EstimateWriter(plain, null);
                    EstimateWriter in = (wide
                                    ? EstimateWriter.wide(formed, estimator)
                                    : new EstimateWriter(formed, null))
                            .in(form)) {
                out.write(estimate);
                in.write(estimate);
                out.finish();
                in.finish();
                assertThatThrownBy(() -> in.in(form))
                        .isInstanceOf(IllegalStateException.class)
                        .hasMessage("a row is written already; the form is declared before the first one");
            }
            List<String> expected = new ArrayList<>();
            plain.toString(StandardCharsets.UTF_8)
                    .lines()
                    .forEach(line -> expected.add(line.replace(';', '#')
                            .replace(',', ';')
                            .replaceAll("(?<=;-?[0-9]{1,4})\\.(?=[0-9]+(;|$))", ",")
                            .replace("Z\u00fc#1", "\"Z\u00fc;1\"")));
            expected.set(
                    0,
                    expected.get(0)
                            .replace("carcass", "Nr")
                            .replace(";lot", ";Los")
                            .replace("cold_weight_kg", "kalt"));
            assertThat(formed.toString(StandardCharsets.ISO_8859_1).lines()).containsExactlyElementsOf(expected);
        }
        try (EstimateWriter out = new EstimateWriter(new Unclosed(), null)) {
            assertThatThrownBy(() -> out.in(CsvForm.builder().decimalComma().build()))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("numbers with decimal commas can't stand between commas; declare another separator");
        }
    }

    @Test
    void aStreamThatFailsIsSaidTo() {
        OutputStream broken = new OutputStream() {
            @Override
            public void write(int b) throws IOException {
                throw new IOException("the line went dead");
            }
        };
        try (ProblemWriter out = new ProblemWriter(broken)) {
            assertThatThrownBy(out::finish)
                    .isInstanceOf(UncheckedIOException.class)
                    .hasMessage("the stream can't be written: the line went dead");
        }
        assertThatThrownBy(() -> TableWriter.write(TABLE, broken))
                .hasMessage("the stream can't be written: the line went dead");
    }

    /** Fails when it is closed. */
    private static final class Unclosed extends ByteArrayOutputStream {
        private boolean flushed;

        @Override
        public void flush() {
            flushed = true;
        }

        @Override
        public void close() throws IOException {
            throw new IOException("closed by another than its owner");
        }
    }

    @Test
    void aStreamThatGivesNothingNowAndThenIsReadToItsEnd() {
        byte[] sheet = ("carcass,category,conformation,fat_class,cold_weight_kg\n"
                        + IntStream.range(0, 20)
                                .mapToObj(i -> "T" + i + ",C,R=,3=,340\n")
                                .collect(Collectors.joining()))
                .getBytes(StandardCharsets.UTF_8);
        InputStream hesitant = new FilterInputStream(new ByteArrayInputStream(sheet)) {
            private int reads;

            @Override
            public int read(byte[] to, int offset, int length) throws IOException {
                return ++reads % 3 == 0 ? 0 : super.read(to, offset, Math.min(length, 7));
            }
        };
        assertThat(KillSheetReader.read(Source.of("s", hesitant), KillSheetFormat.standard())
                        .entries())
                .hasSize(20);
    }
}
