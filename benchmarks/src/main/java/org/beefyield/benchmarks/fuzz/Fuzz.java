package org.beefyield.benchmarks.fuzz;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.lang.reflect.RecordComponent;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableDefinition;
import org.jspecify.annotations.Nullable;

/**
 * Cases of mutated packages and kill sheets, and what must hold for each:
 *
 * <ul>
 *   <li>a package reads, or is refused with an {@link InvalidDataException} whose problems name a file of it, a line that
 *       the file has, and say something;
 *   <li>what reads can be used: an estimate at its reference carcass adds up at every level;
 *   <li>what reads is written and reads back equal, with an equal digest, and is written again with the same bytes;
 *   <li>a kill sheet loses no row: entries, condemned and refused rows add up to the lines that are not blank, and every
 *       refused row has a problem.
 * </ul>
 */
public final class Fuzz {
    private static final String WHERE = "package";
    private static final String SHEET = "sheet.csv";

    /** A message about a table may list fifty columns of 400 characters. */
    private static final int LONGEST_ABOUT_A_TABLE = 25_000;

    /** One about a sheet may quote a cell of a line of 1 MiB, each of its control characters as a code of six. */
    private static final int LONGEST_ABOUT_A_SHEET = 7 << 20;

    /** A case in which something did not hold. */
    public record Failure(long seed, long number, String what) {
        /**
         * How to see it again.
         *
         * @return seed, case and what happened
         */
        @Override
        public String toString() {
            return "seed " + seed + ", case " + number + ": " + what;
        }
    }

    /** Something that did not hold. */
    private static final class Broken extends RuntimeException {
        private static final long serialVersionUID = 1;

        Broken(String message, @Nullable Throwable cause) {
            super(message, cause);
        }
    }

    private final long seed;
    private final Path scratch;
    private final List<Map<String, byte[]>> packages = new ArrayList<>();
    private final List<Failure> failures = new ArrayList<>();
    private final Map<String, Long> outcomes = new TreeMap<>();
    private long slowestNanos;
    private long slowest;

    /**
     * Prepares to fuzz.
     *
     * @param seed what the cases are drawn from
     * @param scratch a folder for packages that must be files
     * @throws IOException if nothing can be written there
     */
    public Fuzz(long seed, Path scratch) throws IOException {
        this.seed = seed;
        this.scratch = scratch;
        for (YieldTable table : Seeds.tables()) {
            packages.add(Seeds.files(table, scratch));
        }
    }

    /**
     * Runs cases.
     *
     * @param from number of the first case
     * @param cases how many
     */
    public void run(long from, long cases) {
        for (long number = from; number < from + cases; number++) {
            long start = System.nanoTime();
            String outcome;
            try {
                outcome = runCase(new Draw(seed * 0x9E3779B97F4A7C15L + number));
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            } catch (Throwable e) {
                // any error at all is what this looks for, a full stack or heap included
                StringWriter trace = new StringWriter();
                e.printStackTrace(new PrintWriter(trace, true));
                failures.add(new Failure(seed, number, trace.toString()));
                outcome = "failed";
            }
            outcomes.merge(outcome, 1L, Long::sum);
            long nanos = System.nanoTime() - start;
            if (nanos > slowestNanos) {
                slowestNanos = nanos;
                slowest = number;
            }
        }
    }

    /**
     * What did not hold.
     *
     * @return cases, empty if all is well
     */
    public List<Failure> failures() {
        return List.copyOf(failures);
    }

    /**
     * How the cases ended.
     *
     * @return outcome to number of cases
     */
    public Map<String, Long> outcomes() {
        return Map.copyOf(outcomes);
    }

    /**
     * The case that took longest.
     *
     * @return its number and its time
     */
    public String slowest() {
        return "case " + slowest + ", " + slowestNanos / 1_000_000 + " ms";
    }

    private String runCase(Draw draw) throws IOException, InterruptedException {
        return draw.onceIn(2) ? sheet(draw) : tablePackage(draw);
    }

    private static void hold(boolean holds, String what) {
        if (!holds) {
            throw new Broken(what, null);
        }
    }

    private String tablePackage(Draw draw) throws IOException {
        // the shipped edition takes a hundred times as long
        Map<String, byte[]> files = new LinkedHashMap<>(packages.get(draw.onceIn(1000) ? 2 : draw.below(2)));
        Mutator mutator = new Mutator(draw);
        int mutations = 1 + draw.below(draw.onceIn(3) ? 4 : 1);
        for (int i = 0; i < mutations && !files.isEmpty(); i++) {
            mutator.mutatePackage(files);
        }
        boolean zipped = draw.onceIn(8);
        Path zip = scratch.resolve("mutated.zip");
        if (zipped) {
            byte[] content = zip(files, draw);
            Files.write(zip, draw.onceIn(2) ? content : mutator.bytes(content));
        }
        YieldTable table;
        try {
            table = zipped ? TableReader.read(zip) : TableReader.read(new Memory(files), WHERE);
        } catch (InvalidDataException e) {
            checkProblems(e.problems(), zipped ? zip.toString() : WHERE, zipped ? null : files);
            return zipped ? "zip refused" : "package refused";
        }
        checkUse(table);
        checkRoundTrip(table, draw.onceIn(8));
        return zipped ? "zip read" : "package read";
    }

    private static void checkProblems(List<Problem> problems, String where, @Nullable Map<String, byte[]> files) {
        hold(!problems.isEmpty(), "no problem is given");
        for (Problem problem : problems) {
            String text = problem.toString();
            hold(problem.file().startsWith(where), "no file is named: " + text);
            hold(problem.message().strip().length() > 10, "nothing is said: " + text);
            hold(
                    !problem.message().endsWith(".")
                            || problem.message().endsWith("...")
                            || problem.message().contains("the header has"),
                    "a full stop: " + text);
            hold(text.chars().noneMatch(Character::isISOControl), "a control character gets through: " + text);
            hold(
                    text.length() < (where.equals(SHEET) ? LONGEST_ABOUT_A_SHEET : LONGEST_ABOUT_A_TABLE),
                    "far too long: " + text.substring(0, Math.min(text.length(), 1000)));
            hold(!text.contains("tools.jackson") && !text.contains("java."), "a class is named: " + text);
            String name = problem.file().substring(Math.min(problem.file().length(), where.length() + 1));
            if (files != null && problem.line() > 0) {
                byte[] content = files.get(name);
                hold(content != null, "there is no such file: " + text);
                hold(problem.line() <= 1 + lineFeeds(content), "there is no such line: " + text);
            }
        }
    }

    private static long lineFeeds(byte @Nullable [] content) {
        long count = 0;
        for (byte b : content == null ? new byte[0] : content) {
            // a lone carriage return ends a line of JSON too
            count += b == '\n' || b == '\r' ? 1 : 0;
        }
        return count;
    }

    private static void checkUse(YieldTable table) {
        var reference = table.definition().reference();
        boolean undecided = table.specifications().isEmpty()
                && Stream.concat(
                                Stream.of(BreakdownRow.ROOT),
                                table.catalogue().cuts().stream().map(Cut::code))
                        .anyMatch(parent -> !table.ways(parent).isEmpty());
        if (undecided || reference.weightKg() > CarcassWeights.HEAVIEST_KG) {
            return;
        }
        Carcass carcass = Carcass.of(
                table.definition().categories().get(0),
                Conformation.ofPosition(reference.conformation(), 1),
                FatClass.ofPosition(reference.fat(), 1),
                reference.weightKg());
        YieldEstimate estimate = YieldEstimator.of(table).estimate(carcass);
        for (String level : table.levels()) {
            double sum = estimate.lines(level).stream()
                    .mapToDouble(line -> line.share())
                    .sum();
            hold(Math.abs(sum - 1) < 1e-9, "the shares of level " + level + " add up to " + sum);
        }
    }

    private void checkRoundTrip(YieldTable table, boolean twice) throws IOException {
        Path zip = scratch.resolve("written.zip");
        Path again = scratch.resolve("written-again.zip");
        try {
            TableWriter.write(table, zip);
            YieldTable read = TableReader.read(zip);
            hold(read.equals(table) && read.digest().equals(table.digest()), "it reads back with another digest");
            checkEqual(table.definition(), read.definition());
            if (twice) {
                TableWriter.write(read, again);
                hold(Files.mismatch(zip, again) == -1, "written again it has other bytes");
            }
        } catch (RuntimeException e) {
            throw e instanceof Broken broken ? broken : new Broken("what was read can't be written and read back", e);
        }
    }

    /** Part by part: a digest might pass over what it should not. */
    private static void checkEqual(TableDefinition before, TableDefinition after) {
        for (RecordComponent part : TableDefinition.class.getRecordComponents()) {
            Object was = value(part, before);
            Object is = value(part, after);
            // further columns may stand in another order
            boolean equal = part.getName().equals("extraColumns")
                    ? Set.copyOf(before.extraColumns()).equals(Set.copyOf(after.extraColumns()))
                    : Objects.equals(was, is);
            hold(equal, part.getName() + " reads back as " + is + ", it was " + was);
        }
    }

    private static Object value(RecordComponent part, TableDefinition definition) {
        try {
            return part.getAccessor().invoke(definition);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(e);
        }
    }

    private static byte[] zip(Map<String, byte[]> files, Draw draw) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
            if (draw.onceIn(4)) {
                zip.setLevel(0);
            }
            String folder = draw.onceIn(10) ? draw.one(List.of("hall/", "../", "/", "..\\", "C:\\")) : "";
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                zip.putNextEntry(new ZipEntry(folder + file.getKey()));
                zip.write(file.getValue());
                zip.closeEntry();
            }
            if (draw.onceIn(10)) {
                zip.putNextEntry(
                        new ZipEntry(draw.one(List.of("../../evil.csv", "/evil.csv", "a/", "CUTS.CSV", "README.md"))));
                zip.closeEntry();
            }
        }
        return bytes.toByteArray();
    }

    private static String sheet(Draw draw) {
        boolean semicolons = draw.onceIn(3);
        char separator = semicolons ? ';' : ',';
        String text = semicolons ? Seeds.sheet().replace(',', ';') : Seeds.sheet();
        byte[] content = text.getBytes(StandardCharsets.UTF_8);
        Mutator mutator = new Mutator(draw);
        int mutations = 1 + draw.below(4);
        for (int i = 0; i < mutations; i++) {
            content = draw.onceIn(5) ? mutator.bytes(content) : mutator.csv(content, separator);
        }
        Charset charset = draw.onceIn(5) ? Charset.forName("windows-1252") : StandardCharsets.UTF_8;
        CsvForm.Builder form = CsvForm.builder().separator(separator).charset(charset);
        byte[] bytes = content;
        KillSheet sheet;
        try {
            sheet = KillSheetReader.read(
                    Source.of(SHEET, bytes),
                    KillSheetFormat.of((semicolons && draw.onceIn(2) ? form.decimalComma() : form).build()));
        } catch (InvalidDataException e) {
            checkProblems(e.problems(), SHEET, null);
            return "sheet refused";
        }
        KillSheet.Counts counts = sheet.counts();
        long rows = rows(bytes, separator, charset);
        hold(counts.rows() == rows, counts.rows() + " rows are counted, the file has " + rows);
        hold(
                counts.entries() + counts.condemned() + counts.refused() == rows,
                "a row is lost: " + sheet + " of " + rows);
        hold(sheet.entries().size() == counts.entries(), "the entries are not as many as counted");
        hold(sheet.condemned().size() == counts.condemned(), "the condemned are not as many as counted");
        Set<Long> used = new HashSet<>();
        sheet.entries().forEach(entry -> used.add(entry.line()));
        sheet.condemned().forEach(condemned -> used.add(condemned.line()));
        hold(used.size() == counts.entries() + counts.condemned(), "a line is used twice");
        Set<Long> refused = new HashSet<>();
        sheet.problems().forEach(problem -> refused.add(problem.line()));
        refused.remove(0L);
        hold(refused.size() == counts.refused(), "refused rows without a problem: " + sheet.problems());
        hold(refused.stream().noneMatch(used::contains), "a refused row is used");
        if (!sheet.problems().isEmpty()) {
            checkProblems(sheet.problems(), SHEET, null);
        }
        return "sheet read";
    }

    /** Lines behind the header that are not blank. */
    private static long rows(byte[] content, char separator, Charset charset) {
        List<byte[]> lines = new ArrayList<>();
        int from = 0;
        for (int at = 0; at <= content.length; at++) {
            if (at == content.length || content[at] == '\n') {
                lines.add(Arrays.copyOfRange(content, from, at));
                from = at + 1;
            }
        }
        long written = 0;
        for (int i = 0; i < lines.size(); i++) {
            String line = new String(lines.get(i), charset);
            String text = i == 0 && line.startsWith("\ufeff") ? line.substring(1) : line;
            written += text.isBlank() && text.indexOf(separator) < 0 ? 0 : 1;
        }
        return written - 1;
    }

    /** The files of a package as a place on the class path. */
    private static final class Memory extends ClassLoader {
        private final Map<String, byte[]> files;

        Memory(Map<String, byte[]> files) {
            super(null);
            this.files = files;
        }

        @Override
        public @Nullable InputStream getResourceAsStream(String name) {
            byte[] content = files.get(name.substring(WHERE.length() + 1));
            return content == null ? null : new ByteArrayInputStream(content);
        }
    }
}
