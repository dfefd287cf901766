package org.beefyield.data.table;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;
import static org.junit.jupiter.api.Assumptions.abort;
import static org.junit.jupiter.api.Assumptions.assumeFalse;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.SocketTimeoutException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetReader;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Files that were made to do harm, or look like it: refused in words, and nothing outside of them is touched. */
class HostileFilesTest {
    private static final String DESCRIPTOR = "datapackage.json";
    private static final String WIDTH_FIT = "\"width_fit\": 1,";
    private static final String SHEET_HEADER = "carcass,category,conformation,fat_class,cold_weight_kg";
    private static final String NO_ZIP = "it can't be read as a zip file: ";

    @TempDir
    Path temporary;

    private PackageCopy hall;

    @BeforeEach
    void copyTheShippedPackage() {
        hall = new PackageCopy(temporary);
    }

    // how large

    @Test
    void rowsBeyondTheLimitAreNotRead() {
        String row = "bone,common-practice,c,\n";
        hall.write("sources.csv", "source,kind,citation,note\n" + row.repeat(TableLimits.MOST_ROWS));

        List<Problem> problems = hall.problems();

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).message()).isEqualTo("a table has at most 250000 rows in all");
        // the other resources stand before it in the descriptor
        long others = Stream.of(
                        "cuts",
                        "breakdown",
                        "specifications",
                        "quartering",
                        "coefficient-notes",
                        "residual-covariance",
                        "expectations")
                .mapToLong(name -> hall.text(name + ".csv").lines().count() - 1)
                .sum();
        assertThat(problems.get(0).line()).isEqualTo(TableLimits.MOST_ROWS - others + 2);
        assertThat(problems.get(0).file()).isEqualTo(hall.folder + "/sources.csv");
    }

    @Test
    void problemsBeyondTheLimitStopTheReading() {
        hall.write("sources.csv", "source,kind,citation,note\n" + "a,rumour,c,\n".repeat(20_000));

        List<Problem> problems = hall.problems();

        assertThat(problems).hasSize(10_001);
        assertThat(problems.get(9_999)).isEqualTo(sourceKind(10_001));
        assertThat(problems.get(10_000))
                .isEqualTo(new Problem(hall.folder.toString(), 0, "", "", "reading stopped after 10000 problems"));
    }

    private Problem sourceKind(long line) {
        return hall.problem(
                "sources.csv",
                line,
                "kind",
                "rumour",
                "kind \"rumour\" is none of published derived common-practice unverified assumption");
    }

    @Test
    void filesThatAreTooLargeTogetherAreNotRead() throws IOException {
        for (String name : List.of("cuts.csv", "sources.csv")) {
            hall.write(name, blank(40 << 20));
        }

        assertThat(hall.problems())
                .containsExactly(
                        hall.problem(
                                "cuts.csv",
                                0,
                                "",
                                "",
                                "the file is empty; a header with the names of the columns is needed"),
                        hall.problem(
                                "sources.csv",
                                0,
                                "",
                                "",
                                "it can't be read: the table's files are larger than 67108864 bytes"));
    }

    @Test
    void filesUpToTheLimitTogetherAreRead() throws IOException {
        long others = 0;
        for (String name : PackageCopy.FILES) {
            others += name.equals("README.md") ? 0 : Files.size(hall.folder.resolve(name));
        }
        String sources = hall.text("sources.csv");
        int left = (int) ((64 << 20) - others);
        hall.write("sources.csv", sources + blank(left));
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());

        hall.write("sources.csv", sources + blank(left + 1));
        assertFound(hall.problem(
                "sources.csv", 0, "", "", "it can't be read: the table's files are larger than 67108864 bytes"));
    }

    /** Lines of blanks, of that many bytes in all. */
    private static String blank(int bytes) {
        return (" ".repeat(1023) + "\n").repeat(bytes / 1024) + " ".repeat(bytes % 1024);
    }

    @Test
    void descriptorOverOneMebibyteIsNotRead() throws IOException {
        int left = (int) ((1 << 20) - Files.size(hall.folder.resolve(DESCRIPTOR)));
        hall.write(DESCRIPTOR, hall.text(DESCRIPTOR) + " ".repeat(left));
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());

        hall.write(DESCRIPTOR, hall.text(DESCRIPTOR) + " ");
        assertFound(hall.problem(DESCRIPTOR, 0, "", "", "it can't be read: it is larger than 1048576 bytes"));
    }

    @Test
    void longNamesAndCellsAreRefusedWhereTheyStand() {
        String path = "a" + "-a".repeat(100_000);
        long cut = hall.append("cuts.csv", path + ",A,tissue,bone,,,,,");
        hall.append("cuts.csv", "a".repeat(400) + ",A,tissue,bone,,,,," + "n".repeat(10_000));
        long longer = hall.append("cuts.csv", "a".repeat(401) + ",A,tissue,bone,,,,,");
        long note = hall.append("cuts.csv", "a,A,tissue,bone,,,,," + "n".repeat(10_001));

        assertFound(
                hall.problem(
                        "cuts.csv",
                        cut,
                        "cut",
                        path.substring(0, 200) + "...",
                        "the cell has 200001 characters; at most 400 are read here"),
                hall.problem(
                        "cuts.csv",
                        longer,
                        "cut",
                        "a".repeat(200) + "...",
                        "the cell has 401 characters; at most 400 are read here"),
                hall.problem(
                        "cuts.csv",
                        note,
                        "note",
                        "n".repeat(200) + "...",
                        "the cell has 10001 characters; at most 10000 are read here"));
    }

    @Test
    void longPathIsRefusedAndFillsNoStack() {
        String path = "a" + "/a".repeat(100_000);
        long line = hall.replace(DESCRIPTOR, "\"path\": \"cuts.csv\"", "\"path\": \"" + path + "\"");

        assertFound(hall.problem(
                DESCRIPTOR,
                line,
                "resources.0.path",
                path.substring(0, 200) + "...",
                "\"" + path.substring(0, 80) + "...\": a name has at most 400 characters"));
    }

    @Test
    void furtherColumnsHaveALimit() {
        String names = IntStream.range(0, 21).mapToObj(i -> ",x" + i).collect(Collectors.joining());
        hall.write(
                "sources.csv",
                hall.text("sources.csv").replace("source,kind,citation,note", "source,kind,citation,note" + names));

        assertFound(hall.problem(
                "sources.csv", 1, "", "", "there are 25 columns; sources has 4 and at most 20 further ones"));

        hall.write("sources.csv", hall.text("sources.csv").replace(",x20", ""));
        assertThat(hall.problems())
                .hasSize(20)
                .allSatisfy(problem -> assertThat(problem.message()).contains("is not declared"));
    }

    @Test
    void headerOfManyColumnsIsRefused() {
        String header = IntStream.range(0, 1001).mapToObj(i -> "x" + i).collect(Collectors.joining(","));
        hall.write("sources.csv", header + "\n");

        assertThat(hall.problems())
                .singleElement()
                .extracting(Problem::message)
                .isEqualTo("the header has 1001 columns; at most 1000 are read");
    }

    @Test
    void columnWithALongNameIsRefused() {
        hall.write("sources.csv", "source,kind,citation," + "n".repeat(401) + "\n");

        assertFound(hall.problem(
                "sources.csv",
                1,
                "",
                "n".repeat(200) + "...",
                "the name of column 4 has 401 characters; at most 400 are read"));
    }

    @ParameterizedTest
    @CsvSource({
        "'{\"a\": 1}', 201, it can't be read as JSON: Name length (201) exceeds the maximum allowed (200)",
        "1, 1001, it can't be read as JSON: Number value length (1001) exceeds the maximum allowed (1000)"
    })
    void keysAndNumbersOfTheDescriptorHaveALimit(String what, int length, String message) {
        String value = what.equals("1") ? "1".repeat(length) : what.replace("a", "a".repeat(length));
        hall.replace(DESCRIPTOR, WIDTH_FIT, "\"width_fit\": " + value + ",");

        assertThat(hall.problems()).singleElement().extracting(Problem::message).isEqualTo(message);
    }

    @Test
    void nestingHasALimitThatNeedsNoStack() {
        hall.replace(DESCRIPTOR, WIDTH_FIT, "\"width_fit\": " + "{\"a\":".repeat(100_000) + "1,");

        assertThat(hall.problems())
                .singleElement()
                .extracting(Problem::message)
                .isEqualTo("it can't be read as JSON: Document nesting depth (101) exceeds the maximum allowed (100)");
    }

    @Test
    void longKeysFarDownFillNoMemory() {
        String key = "\"" + "k".repeat(200) + "\":";
        StringBuilder deep = new StringBuilder();
        for (int i = 0; i < 95; i++) {
            deep.append('{').append(key);
        }
        deep.append('[').append("0,".repeat(450_000)).append("0]").append("}".repeat(95));
        hall.replace(DESCRIPTOR, WIDTH_FIT, "\"width_fit\": " + deep + ",");

        assertThat(hall.problems()).extracting(Problem::column).containsExactly("beefyield.width_fit");

        hall.replace(DESCRIPTOR, "0,0]", "0,\"\\u0000\"]");
        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.column()).matches("beefyield\\.width_fit(\\.k{200}){5}");
            assertThat(problem.message()).isEqualTo("U+0000 stands in it, which is no character of a text");
        });
    }

    @Test
    void levelsAndTermsHaveALimit() {
        String levels = IntStream.range(0, 21).mapToObj(i -> "\"l" + i + "\"").collect(Collectors.joining(", "));
        String term =
                "{\"column\": \"x\", \"kind\": \"hinge\", \"variable\": \"fat\", \"side\": \"below\", \"knot\": 3}";
        hall.write(
                DESCRIPTOR,
                hall.text(DESCRIPTOR)
                        .replaceFirst("\"levels\": \\[[^]]*]", "\"levels\": [" + levels + "]")
                        .replaceFirst(
                                "(?s)\"terms\": \\[[^]]*]", "\"terms\": [" + (term + ",").repeat(50) + term + "]"));

        assertFound(
                hall.problem(
                        DESCRIPTOR,
                        hall.line(DESCRIPTOR, "\"levels\""),
                        "beefyield.levels",
                        "",
                        "there are 21 of them; at most 20 are read"),
                hall.problem(
                        DESCRIPTOR,
                        hall.line(DESCRIPTOR, "\"terms\""),
                        "beefyield.terms",
                        "",
                        "there are 51 of them; at most 50 are read"));

        hall.replaceAll(DESCRIPTOR, ", \"l20\"", "");
        hall.replaceAll(DESCRIPTOR, "\"terms\": [" + term + ",", "\"terms\": [");
        assertThat(hall.problems())
                .isNotEmpty()
                .noneMatch(problem -> problem.message().contains("of them; at most"));
    }

    @Test
    void whatCantBeProvedInTimeIsRefusedBeforeItIsTried() {
        StringBuilder cuts = new StringBuilder(hall.text("cuts.csv"));
        StringBuilder specifications = new StringBuilder(hall.text("specifications.csv"));
        for (int i = 0; i < 1000; i++) {
            cuts.append('x').append(i).append(",X,retail,steak,,,,,\n");
            specifications.append('s').append(i).append(",striploin,steaks\n");
        }
        hall.write("cuts.csv", cuts.toString());
        hall.write("specifications.csv", specifications.toString());

        assertThat(hall.problems())
                .extracting(Problem::message)
                .satisfiesExactly(
                        message -> assertThat(message).matches("the table has 10[0-9]{2} cuts; at most 1000 are read"),
                        message -> assertThat(message)
                                .matches("the table has [0-9]{10,} shares to prove \\(categories, times specifications"
                                        + " and ways, nodes, levels, cuts and 4\\); at most 100000000 are read"));
    }

    @Test
    void manyBreakdownsOfManyRowsAreRefusedBeforeTheyAreResolved() {
        StringBuilder rows = new StringBuilder(hall.text("breakdown.csv"));
        for (int i = 0; i < 30_000; i++) {
            rows.append("*,w").append(i).append(",striploin,bone,1,0,0,0,0,0,0,0,0,0,src\n");
        }
        hall.write("breakdown.csv", rows.toString());

        assertThat(hall.problems())
                .extracting(problem -> problem.message().replaceAll("[0-9]{6,}", "N"))
                .containsExactly(
                        "the table has N children in its breakdowns, each way and category counted; at most N are read",
                        "the table has N look-ups (breakdowns, each way and category counted, times rows); at most N are"
                                + " read",
                        "the table has N shares to prove (categories, times specifications and ways, nodes, levels, cuts"
                                + " and 4); at most N are read");
    }

    @Test
    void chainOfCutsFillsNoStack() {
        StringBuilder cuts = new StringBuilder(hall.text("cuts.csv"));
        StringBuilder rows = new StringBuilder(hall.text("breakdown.csv"));
        for (int i = 0; i < 900; i++) {
            cuts.append("x" + i + ",X,retail,steak,,,,,\n");
            rows.append("*,*," + (i == 0 ? "bone" : "x" + (i - 1)) + ",x" + i + ",1000,0,0,0,0,0,0,0,0,0,bone\n");
        }
        hall.write("cuts.csv", cuts.toString());
        hall.write("breakdown.csv", rows.toString());

        assertThat(hall.problems()).isNotEmpty();
    }

    // zips

    @Test
    void smallZipOfHugeContentIsNotUnpacked() throws IOException {
        Path zip = temporary.resolve("bomb.zip");
        try (ZipOutputStream bomb = new ZipOutputStream(Files.newOutputStream(zip))) {
            bomb.putNextEntry(new ZipEntry(DESCRIPTOR));
            byte[] block = new byte[1 << 20];
            for (int i = 0; i < 200; i++) {
                bomb.write(block);
            }
        }
        assertThat(Files.size(zip)).isLessThan(1 << 20);

        assertZipRefused(zip, "it unpacks to more than 67108864 bytes or 1000 files");
    }

    @Test
    void zipOfManyFilesIsRefused() throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>();
        for (int i = 0; i <= 1000; i++) {
            files.put("f" + i, new byte[0]);
        }

        assertZipRefused(write(PackageCopy.zip(files)), "it unpacks to more than 67108864 bytes or 1000 files");
    }

    @Test
    void zipOfTheMostFilesAndTheLongestCommentIsRead() throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>(PackageCopy.shipped());
        for (int i = files.size(); i < 1000; i++) {
            files.put("f" + i, new byte[0]);
        }
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
            zip.setComment("c".repeat(0xFFFF));
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                zip.putNextEntry(new ZipEntry(file.getKey()));
                zip.write(file.getValue());
            }
        }

        assertThat(TableReader.read(write(bytes.toByteArray()))).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void zipThatUnpacksToTheLimitIsRead() throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>(PackageCopy.shipped());
        int left = (64 << 20)
                - files.values().stream().mapToInt(content -> content.length).sum();
        files.put("filler", new byte[left]);
        assertThat(TableReader.read(write(PackageCopy.zip(files)))).isEqualTo(ShippedTables.boneless2026());

        files.put("filler", new byte[left + 1]);
        assertZipRefused(write(PackageCopy.zip(files)), "it unpacks to more than 67108864 bytes or 1000 files");
    }

    @Test
    void zipInsideAZipStaysAFile() throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>(PackageCopy.shipped());
        files.put("inner.zip", PackageCopy.zip(PackageCopy.shipped()));

        assertThat(TableReader.read(write(PackageCopy.zip(files)))).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void namesThatLeadOutOfAZipAreNeverFollowed() throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>(PackageCopy.shipped());
        for (String name : List.of("../evil.csv", "/evil.csv", "..\\evil.csv", "C:\\evil.csv", "a/../../evil.csv")) {
            files.put(name, new byte[] {'x'});
        }
        Path zip = write(PackageCopy.zip(files));

        assertThat(TableReader.read(zip)).isEqualTo(ShippedTables.boneless2026());
        try (Stream<Path> all = Files.walk(temporary)) {
            assertThat(all.map(path -> path.getFileName().toString())).noneMatch(name -> name.contains("evil"));
        }
    }

    // places

    @Test
    void linkOutOfTheFolderIsRefusedAndOneInsideIsFollowed() throws IOException {
        Path outside = Files.move(hall.folder.resolve("cuts.csv"), temporary.resolve("elsewhere.csv"));
        Path link = link(hall.folder.resolve("cuts.csv"), outside);

        assertFound(hall.problem(
                "cuts.csv", 0, "", "", "it can't be read: it is a link to a place outside the table's folder"));

        Files.delete(link);
        link(link, Files.move(outside, hall.folder.resolve("these-cuts.csv")).getFileName());
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void folderThatIsItselfALinkIsRead() throws IOException {
        Path link = link(temporary.resolve("link"), hall.folder);

        assertThat(TableReader.read(link)).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void linkToItselfIsNoFile() throws IOException {
        hall.delete("cuts.csv");
        link(hall.folder.resolve("cuts.csv"), Path.of("cuts.csv"));

        assertFound(hall.problem("cuts.csv", 0, "", "", "there is no such file"));
    }

    @Test
    void folderOfTheNameOfAFileIsSaid() throws IOException {
        hall.delete("cuts.csv");
        Files.createDirectory(hall.folder.resolve("cuts.csv"));

        assertFound(hall.problem("cuts.csv", 0, "", "", "it can't be read: it is no file but a folder or a device"));
    }

    @Test
    void pipeInTheFolderIsNotWaitedFor() throws IOException, InterruptedException {
        hall.delete("cuts.csv");
        pipe(hall.folder.resolve("cuts.csv"));

        assertFound(hall.problem("cuts.csv", 0, "", "", "it can't be read: it is no file but a folder or a device"));
    }

    @Test
    void fileThatMayNotBeReadIsSaid() throws IOException {
        Path cuts = hall.folder.resolve("cuts.csv");
        assumeTrue(cuts.getFileSystem().supportedFileAttributeViews().contains("posix"));
        Files.setPosixFilePermissions(cuts, PosixFilePermissions.fromString("---------"));
        assumeFalse(Files.isReadable(cuts), "an administrator reads everything");

        assertFound(hall.problem("cuts.csv", 0, "", "", "it can't be read: access is denied"));
    }

    @Test
    void addressIsNeverOpened() throws IOException {
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            server.setSoTimeout(300);
            String address = "http://127.0.0.1:" + server.getLocalPort() + "/cuts.csv";
            long line = hall.replace(DESCRIPTOR, "\"path\": \"cuts.csv\"", "\"path\": \"" + address + "\"");

            assertThat(hall.problems())
                    .contains(hall.problem(
                            DESCRIPTOR,
                            line,
                            "resources.0.path",
                            address,
                            "\"" + address + "\": a path is the relative name of a file inside the package"));
            assertThat(catchThrowableOfType(SocketTimeoutException.class, server::accept))
                    .isNotNull();
        }
    }

    // characters and numbers

    @ParameterizedTest
    @ValueSource(strings = {"\\u0000", "a\\u001b[31m", "\\ud800", "\\udc04 x", "\\ud83dx", "\\u007f", "\\u0085"})
    void whatIsNoCharacterOfATextIsRefusedInTheDescriptor(String escaped) {
        long line = hall.replace(DESCRIPTOR, "\"version\": \"1.0.0\"", "\"version\": \"" + escaped + "\"");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("version");
            assertThat(problem.message()).matches("U\\+[0-9A-F]{4} stands in it, which is no character of a text");
            assertThat(problem.toString().chars()).noneMatch(Character::isISOControl);
        });
    }

    @Test
    void pairOfSurrogatesIsACharacter() {
        hall.replace(DESCRIPTOR, "\"title\": \"Boneless", "\"title\": \"\\ud83d\\udc04 Boneless");

        assertThat(hall.read().definition().title()).startsWith("\ud83d\udc04 Boneless");
    }

    @Test
    void controlCharactersOfACsvFileAreRefusedOnTheirLine() {
        long line = hall.append("sources.csv", "a\u0000b,assumption,c,");

        assertFound(hall.problem(
                "sources.csv",
                line,
                "",
                "a\u0000b,assumption,c,",
                "the control character U+0000 stands inside the line; only text and tabs may"));
    }

    @Test
    void otherEncodingsOfTheDescriptorAreRefused() {
        String text = hall.text(DESCRIPTOR);
        hall.write(DESCRIPTOR, text.getBytes(UTF_16));
        assertFound(hall.problem(DESCRIPTOR, 1, "", "", "the file is UTF-16; save it as UTF-8"));

        String place = "\"version\": \"1.0.0\"";
        // an overlong slash, a surrogate in UTF-8, a byte of windows-1252
        for (String bytes : List.of("\u00c0\u00af", "\u00ed\u00a0\u0080", "\u00e4")) {
            hall.write(
                    DESCRIPTOR,
                    new String(text.getBytes(UTF_8), ISO_8859_1)
                            .replace(place, "\"version\": \"" + bytes + "\"")
                            .getBytes(ISO_8859_1));
            assertFound(hall.problem(DESCRIPTOR, 4, "", "", "the line is not valid UTF-8; save the file as UTF-8"));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e999", "-1e999", "1E99999999999", "1e-400", "HUGE"})
    void numbersBeyondTheRangeOfNumbersAreRefusedAsTheyStand(String number) {
        String written = number.equals("HUGE") ? "9".repeat(400) : number;
        long line = hall.replace(DESCRIPTOR, WIDTH_FIT, "\"width_fit\": " + written + ",");
        String shown = written.length() > 80 ? written.substring(0, 80) + "..." : written;

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.value()).startsWith(written.substring(0, Math.min(200, written.length())));
            assertThat(problem.message())
                    .isEqualTo("\"" + shown
                            + "\" is beyond the range of numbers, 1e-323 to 1e308 in size; a number is needed here");
        });
    }

    @Test
    void minusZeroIsZero() {
        String zero = "\"ageing_days\": 0";
        hall.replace(DESCRIPTOR, "\"ageing_days\": null", zero);
        String digest = hall.read().digest();

        hall.replace(DESCRIPTOR, zero, "\"ageing_days\": -0.0");

        assertThat(hall.read().digest()).isEqualTo(digest);
        assertThat(hall.read().definition().basis().ageingDays())
                .satisfies(days -> assertThat(Double.doubleToRawLongBits(days)).isZero());
    }

    @Test
    void lineEndsMayBeMixedButNoLoneCarriageReturn() {
        String text = hall.text("sources.csv");
        hall.write("sources.csv", text.replaceFirst("\n", "\r\n"));
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());

        hall.write("sources.csv", text.replaceFirst("\n(.*)\n", "\n$1\r"));
        assertThat(hall.problems())
                .first()
                .extracting(Problem::line, Problem::message)
                .containsExactly(2L, "a carriage return stands inside the line; lines end with LF or CRLF");
    }

    @Test
    void whatFollowsTheDescriptorIsRefused() {
        long lines = hall.text(DESCRIPTOR).lines().count();
        hall.write(DESCRIPTOR, hall.text(DESCRIPTOR) + "{}");

        assertFound(hall.problem(DESCRIPTOR, lines + 1, "", "", "text follows the end of the descriptor"));
    }

    @Test
    void oddKeysAreNamedAsTheyStand() {
        hall.replace(DESCRIPTOR, WIDTH_FIT, WIDTH_FIT + " \"a/b~c\": 1,");
        hall.replace(DESCRIPTOR, "\"decimals\": {", "\"decimals\": {\"a/b~c\": 16,");

        assertThat(hall.problems())
                .extracting(Problem::line, Problem::column)
                .containsExactly(
                        tuple(hall.line(DESCRIPTOR, WIDTH_FIT), "beefyield.a/b~c"),
                        tuple(hall.line(DESCRIPTOR, "\"decimals\""), "beefyield.decimals.a/b~c"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "\"licenses\": [          | \"licenses\": {}, \"x\": [ | licenses             | a list is needed here",
                "\"decimals\": {          | \"decimals\": [], \"y\": { | beefyield.decimals   | an object with keys is needed here",
                "\"basis\": {             | \"basis\": \"dry\", \"y\": { | beefyield.basis    | an object with keys is needed here",
                "\"terms\": [             | \"terms\": 7, \"y\": [     | beefyield.terms      | a list is needed here",
                "\"levels\": [            | \"levels\": {}, \"y\": [   | beefyield.levels     | a list of texts is needed here",
            })
    void anotherThingThanAListOrObjectIsRefusedNotPassedOver(String text, String other, String column, String message) {
        long line = hall.replace(DESCRIPTOR, text, other);

        assertThat(hall.problems()).anySatisfy(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo(column);
            assertThat(problem.message()).endsWith(message);
        });
    }

    @Test
    void aListOfTextsThatIsMissingIsOneProblem() {
        hall.replace(DESCRIPTOR, "\"levels\": [", "\"y\": [");
        long table = hall.line(DESCRIPTOR, "\"beefyield\": {");

        assertThat(hall.problems())
                .contains(
                        hall.problem(DESCRIPTOR, table, "beefyield", "", "missing here: levels"),
                        hall.problem(DESCRIPTOR, 0, "beefyield.levels", "", "a list of texts is needed here"));
    }

    @Test
    void controlCharacterInAKeyIsRefused() {
        long line = hall.replace(DESCRIPTOR, WIDTH_FIT, WIDTH_FIT + " \"a\\u0007b\": 1,");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.message()).isEqualTo("U+0007 stands in it, which is no character of a text");
        });
    }

    @Test
    void namesInTheDescriptorHaveALimit() {
        String shown = "n".repeat(200) + "...";
        String message = "\"" + "n".repeat(80) + "...\": a name has at most 400 characters";
        List<String> places =
                List.of("\"tissue\",\n      \"primal\"", "\"column\": \"fat_below_3\"", "\"name\": \"kind\"");
        List<String> columns =
                List.of("beefyield.levels.0", "beefyield.terms.0.column", "resources.0.schema.fields.3.name");
        String whole = hall.text(DESCRIPTOR);
        for (int i = 0; i < places.size(); i++) {
            String place = places.get(i);
            String name = i == 0 ? "tissue" : i == 1 ? "fat_below_3" : "kind";
            long line = hall.line(DESCRIPTOR, place);
            for (int length : new int[] {400, 401}) {
                int at = whole.indexOf(place);
                String spoilt = place.replace("\"" + name + "\"", "\"" + "n".repeat(length) + "\"");
                hall.write(DESCRIPTOR, whole.substring(0, at) + spoilt + whole.substring(at + place.length()));
                Problem tooLong = hall.problem(DESCRIPTOR, line, columns.get(i), shown, message);
                assertThat(hall.problems())
                        .as(columns.get(i) + " of " + length)
                        .satisfies(found -> assertThat(found.contains(tooLong)).isEqualTo(length == 401));
            }
            hall.write(DESCRIPTOR, whole);
        }
    }

    @Test
    void licenceSaysSomething() {
        long line = hall.line(DESCRIPTOR, "\"licenses\"") + 1;
        hall.write(DESCRIPTOR, hall.text(DESCRIPTOR).replaceFirst("(?s)\"licenses\": \\[.*?]", "\"licenses\": [\n{}]"));

        assertFound(hall.problem(DESCRIPTOR, line, "licenses.0", "{}", "\"{}\": a licence has a name, a path or both"));
    }

    @Test
    void unknownTypeOfAFieldIsRefused() {
        hall.declare("names", "names.csv", "cut", "language", "name");
        hall.write("names.csv", "cut,language,name\n");
        hall.replace(
                DESCRIPTOR,
                "{\"name\": \"language\", \"type\": \"string\"}",
                "{\"name\": \"language\", \"type\": \"word\"}");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.column()).isEqualTo("resources.0.schema.fields.1.type");
            assertThat(problem.message()).startsWith("\"word\": unknown type; valid: string, number, integer, ");
        });
    }

    // kill sheets

    @Test
    void manyQuotesTakeNoLongerThanOtherText() {
        // found in the first place where a cell with quotes was looked for in its whole line
        String cells = "\"x\"\"y\",".repeat(100_000);
        KillSheet sheet = sheet(SHEET_HEADER + "\n" + cells + "\n1,C,R=,3=,300\n");

        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(2, 1, 0, 1));
    }

    private static KillSheet sheet(String text) {
        return KillSheetReader.read(Source.of("sheet.csv", text.getBytes(UTF_8)), KillSheetFormat.standard());
    }

    private static void assertSheetRefused(InvalidDataException refused, Problem expected) {
        assertThat(refused).isNotNull();
        assertThat(refused.problems()).containsExactly(expected);
    }

    private void assertFound(Problem... expected) {
        assertThat(hall.problems()).containsExactly(expected);
    }

    private Path write(byte[] zip) throws IOException {
        return Files.write(temporary.resolve("some.zip"), zip);
    }

    private static void assertZipRefused(Path zip, String reason) {
        InvalidDataException refused = catchThrowableOfType(InvalidDataException.class, () -> TableReader.read(zip));
        assertThat(refused).as(reason).isNotNull();
        assertThat(refused.problems()).containsExactly(new Problem(zip.toString(), 0, "", "", NO_ZIP + reason));
    }

    private static Path link(Path link, Path target) {
        try {
            return Files.createSymbolicLink(link, target);
        } catch (IOException | UnsupportedOperationException e) {
            return abort("no links here: " + e);
        }
    }

    private static Path pipe(Path path) throws IOException, InterruptedException {
        try {
            assumeTrue(new ProcessBuilder("mkfifo", path.toString()).start().waitFor() == 0);
        } catch (IOException e) {
            return abort("no pipes here: " + e);
        }
        return path;
    }

    @Test
    void deviceOrPipeIsNoKillSheet() throws IOException, InterruptedException {
        Path zero = Path.of("/dev/zero");
        assumeTrue(Files.exists(zero));
        Path pipe = pipe(temporary.resolve("pipe.csv"));

        for (Path path : List.of(zero, pipe, temporary)) {
            assertSheetRefused(
                    catchThrowableOfType(InvalidDataException.class, () -> KillSheetReader.read(path)),
                    new Problem(
                            path.toString(),
                            0,
                            "",
                            "",
                            "the file can't be read: it is no file but a folder or a device"));
        }
    }
}
