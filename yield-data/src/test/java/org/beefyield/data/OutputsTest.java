package org.beefyield.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.abort;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.UUID;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OutputsTest {
    @TempDir
    Path temporary;

    private Path file(String name, String content) throws IOException {
        return Files.writeString(temporary.resolve(name), content);
    }

    private Path place(String name) {
        return temporary.resolve(name);
    }

    private static void write(Path target, String content) {
        try (Outputs outputs = new Outputs()) {
            outputs.write(target, content);
            outputs.finish();
        }
    }

    private List<String> names() throws IOException {
        return names(temporary);
    }

    private static List<String> names(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(one -> one.getFileName().toString()).sorted().toList();
        }
    }

    private static void assertRefused(ThrowingCallable call, String message) {
        assertThatThrownBy(call).isInstanceOf(UncheckedIOException.class).hasMessage(message);
    }

    // together

    @Test
    void allGetTheirPlacesTogetherAndNothingIsLeftBesideThem() throws IOException {
        Path old = file("old.csv", "old");
        try (Outputs outputs = new Outputs()) {
            outputs.write(old, "new");
            outputs.write(place("first.csv"), "first");
            assertThat(old).hasContent("old");
            assertThat(place("first.csv")).doesNotExist();

            outputs.finish();
            assertThat(old).hasContent("new");
            assertThat(place("first.csv")).hasContent("first");
        }
        assertThat(names()).containsExactly("first.csv", "old.csv");
    }

    @Test
    void whatFailsBeforeTheEndLeavesEveryPlaceAsItWas() throws IOException {
        Path old = file("old.csv", "old");
        assertRefused(
                () -> {
                    try (Outputs outputs = new Outputs()) {
                        outputs.write(old, "new");
                        outputs.unwrap(OutputFiles.class).makeFolder(place("sheets"));
                        outputs.write(place("sheets/one.txt"), "one");
                        // half of a character pair is no UTF-8
                        outputs.write(place("bad.csv"), "\ud800");
                        outputs.finish();
                    }
                },
                place("bad.csv") + " can't be written: Input length = 1");
        assertThat(old).hasContent("old");
        assertThat(names()).containsExactly("old.csv");
    }

    @Test
    void aPlaceThatWasTakenMeanwhileIsFoundOutBeforeTheFirstFileIsPut() throws IOException {
        Path old = file("old.csv", "old");
        Path taken = place("taken.csv");
        assertRefused(
                () -> {
                    try (Outputs outputs = new Outputs()) {
                        outputs.write(old, "new");
                        outputs.write(taken, "new");
                        Files.createDirectory(taken);
                        outputs.finish();
                    }
                },
                taken + " can't be written: it is a folder, not a file");
        assertThat(old).hasContent("old");
        assertThat(names()).containsExactly("old.csv", "taken.csv");
    }

    @Test
    void aPartThatIsGoneIsFoundOutBeforeTheFirstFileIsPut() throws IOException {
        Path old = file("old.csv", "old");
        Path lost = place("lost.csv");
        assertThatThrownBy(() -> {
                    try (Outputs outputs = new Outputs()) {
                        outputs.write(old, "new");
                        outputs.write(lost, "new");
                        for (String name : names()) {
                            if (name.startsWith(".lost.csv.")) {
                                Files.delete(place(name));
                            }
                        }
                        outputs.finish();
                    }
                })
                .isInstanceOf(UncheckedIOException.class)
                .hasMessageMatching(Pattern.quote(lost + " can't be written: what was written beside it is gone: ")
                        + "\\.lost\\.csv\\.[0-9a-f-]{36}\\.part");
        assertThat(old).hasContent("old");
        assertThat(names()).containsExactly("old.csv");
    }

    @Test
    void aFileThatWasNotFinishedGetsNoPlace() throws IOException {
        try (Outputs outputs = new Outputs()) {
            outputs.unwrap(OutputFiles.class).started(place("half.csv")).write("half");
            outputs.write(place("whole.csv"), "whole");
            outputs.finish();
        }
        assertThat(names()).containsExactly("whole.csv");
    }

    @Test
    void aTableAndAPageGetTheirPlacesTogether() throws IOException {
        Path hall = place("hall");
        Path zip = place("hall.zip");
        try (Outputs outputs = new Outputs()) {
            TableWriter.write(ShippedTables.boneless2026(), hall, outputs);
            TableWriter.write(ShippedTables.boneless2026(), zip, outputs);
            outputs.write(place("page.html"), "page");
            assertThat(hall).doesNotExist();
            assertThat(zip).doesNotExist();
            outputs.finish();
        }
        assertThat(names()).containsExactly("hall", "hall.zip", "page.html");
        assertThat(TableReader.read(hall)).isEqualTo(TableReader.read(zip));
    }

    // where a file may stand

    @Test
    void aLinkStaysALinkAndWhatItLeadsToIsWritten() throws IOException {
        Path folder = Files.createDirectory(place("elsewhere"));
        Path there = Files.writeString(folder.resolve("there.csv"), "old");
        Path link = Files.createSymbolicLink(place("link.csv"), Path.of("elsewhere/there.csv"));
        Path toNothing = Files.createSymbolicLink(place("new.csv"), Path.of("elsewhere/new.csv"));

        write(link, "new");
        write(toNothing, "first");

        assertThat(link).isSymbolicLink();
        assertThat(there).isRegularFile().hasContent("new");
        assertThat(toNothing).isSymbolicLink();
        assertThat(folder.resolve("new.csv")).isRegularFile().hasContent("first");
        assertThat(names(folder)).containsExactly("new.csv", "there.csv");
    }

    @Test
    void linksThatLeadInACircleOrToAMissingFolderAreRefused() throws IOException {
        Path one = place("one.csv");
        Files.createSymbolicLink(one, Path.of("two.csv"));
        Files.createSymbolicLink(place("two.csv"), Path.of("one.csv"));
        Path lost = Files.createSymbolicLink(place("lost.csv"), Path.of("gone/lost.csv"));

        assertRefused(() -> write(one, ""), one + " can't be written: it is a link that leads in a circle");
        assertRefused(
                () -> write(lost, ""),
                lost + " can't be written: there is no folder "
                        + temporary.toRealPath().resolve("gone"));
        assertThat(names()).containsExactly("lost.csv", "one.csv", "two.csv");
    }

    @Test
    void aMissingFolderIsNamedAndNotMade() throws IOException {
        Path deep = place("a/b/x.csv");
        assertRefused(() -> write(deep, ""), deep + " can't be written: there is no folder " + place("a/b"));
        assertRefused(
                () -> new Outputs().folder("--feedback", place("a/sheets")),
                place("a/sheets") + " can't be written: there is no folder " + place("a"));
        assertThat(names()).isEmpty();
    }

    @Test
    void pipesAndDevicesAreNotReplaced() throws IOException, InterruptedException {
        Path pipe = place("pipe");
        try {
            assumeTrue(new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor() == 0);
        } catch (IOException e) {
            abort("no pipes here: " + e);
        }
        Path device = Files.createSymbolicLink(place("device"), Path.of("/dev/null"));

        String reason = " can't be written: it is a pipe, a device or a socket, not a file";
        assertRefused(() -> write(pipe, ""), pipe + reason);
        assertRefused(() -> write(device, ""), device + reason);
        assertThat(names()).containsExactly("device", "pipe");
        assertThat(Files.readSymbolicLink(device)).isEqualTo(Path.of("/dev/null"));
    }

    @Test
    void aReadOnlyFileIsNotReplaced() throws IOException {
        Path kept = file("kept.csv", "old");
        Files.setPosixFilePermissions(kept, PosixFilePermissions.fromString("r--r--r--"));
        assertRefused(() -> write(kept, "new"), kept + " can't be written: it is read-only");

        Path hall = place("hall");
        TableWriter.write(ShippedTables.boneless2026(), hall);
        Files.setPosixFilePermissions(hall.resolve("cuts.csv"), PosixFilePermissions.fromString("r--r--r--"));
        assertRefused(
                () -> TableWriter.write(ShippedTables.boneless2026(), hall),
                hall + " can't be written: its file cuts.csv is read-only");
        assertThat(kept).hasContent("old");
        assertThat(names()).containsExactly("hall", "kept.csv");
    }

    @Test
    void whatIsReplacedHandsItsPermissionsOn() throws IOException {
        Path secret = file("secret.csv", "old");
        Files.setPosixFilePermissions(secret, PosixFilePermissions.fromString("rw-------"));
        Path hall = place("hall");
        TableWriter.write(ShippedTables.boneless2026(), hall);
        Files.setPosixFilePermissions(hall, PosixFilePermissions.fromString("rwxrwx---"));
        Files.setPosixFilePermissions(hall.resolve("cuts.csv"), PosixFilePermissions.fromString("rw-rw----"));

        write(secret, "new");
        TableWriter.write(ShippedTables.boneless2026(), hall);

        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(secret)))
                .isEqualTo("rw-------");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(hall)))
                .isEqualTo("rwxrwx---");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(hall.resolve("cuts.csv"))))
                .isEqualTo("rw-rw----");
    }

    // what may not be replaced

    @Test
    void noFileIsWrittenTwiceByWhateverName() throws IOException {
        file("other.csv", "tells cases apart, or not");
        Path a = place("a.csv");
        Path dotted = place("./sub/../a.csv");
        Files.createDirectory(place("sub"));
        assertRefused(
                () -> new Outputs().file("--out", a).file("--problems", a),
                "--problems would replace --out: both are " + a + "; name another place");
        assertRefused(
                () -> new Outputs().file("--out", a).file("--problems", dotted),
                "--problems would replace --out: " + dotted + " and " + a + " are the same; name another place");
        assertRefused(
                () -> {
                    try (Outputs outputs = new Outputs()) {
                        outputs.write(a, "one");
                        outputs.write(a, "two");
                    }
                },
                "an output would replace an output: both are " + a + "; name another place");
        assertThat(names()).containsExactly("other.csv", "sub");
    }

    @Test
    void namesThatDifferInCaseAreTwoFilesWhereThatIsSure() throws IOException {
        Path empty = Files.createDirectory(place("empty"));
        assertRefused(
                () -> new Outputs().file("--out", empty.resolve("a.csv")).file("--problems", empty.resolve("A.CSV")),
                "--problems would replace --out: " + empty.resolve("A.CSV") + " and " + empty.resolve("a.csv")
                        + " are the same; name another place");
        assumeTrue(Files.notExists(place("EMPTY")));
        new Outputs()
                .file("--out", place("a.csv"))
                .file("--problems", place("A.CSV"))
                .close();
    }

    @Test
    void anInputIsKnownByWhateverName() throws IOException {
        Path in = file("in.csv", "rows");
        Path link = Files.createSymbolicLink(place("link.csv"), in);
        Path hard = Files.createLink(place("hard.csv"), in);
        for (Path other : List.of(link, hard, place("../" + temporary.getFileName() + "/in.csv"))) {
            String message =
                    "--out would replace --killsheet: " + other + " and " + in + " are the same; name another place";
            assertRefused(() -> new Outputs().input("--killsheet", in).file("--out", other), message);
            assertRefused(() -> new Outputs().file("--out", other).input("--killsheet", in), message);
        }
    }

    @Test
    void nothingIsWrittenIntoATableThatIsReadOrWritten() throws IOException {
        Path hall = Files.createDirectory(place("hall"));
        Path cuts = Files.writeString(hall.resolve("cuts.csv"), "cuts");
        Path linked = Files.createLink(place("linked.csv"), cuts);
        Path inside = hall.resolve("x.csv");
        assertRefused(
                () -> new Outputs().input("--table", hall).file("--out", inside),
                "--out would stand in --table: " + inside + " is in " + hall + "; name another place");
        assertRefused(
                () -> new Outputs().input("--table", hall).folder("--feedback", hall),
                "--feedback would replace --table: both are " + hall + "; name another place");
        assertRefused(
                () -> new Outputs().input("--table", hall).file("--out", linked),
                "--out would replace --table: " + linked + " and " + cuts + " are the same; name another place");
        assertRefused(
                () -> new Outputs().input("--baseline", hall).table("--out", hall),
                "--out would replace --baseline: both are " + hall + "; name another place");
        assertRefused(
                () -> new Outputs().table("--out", hall).file("--report", inside),
                "--report would stand in --out: " + inside + " is in " + hall + "; name another place");
        assertRefused(
                () -> new Outputs().input("--trials", cuts).table("--out", hall),
                "--out would replace --trials: " + cuts + " is in " + hall + "; name another place");
        new Outputs().input("--killsheet", cuts).folder("--feedback", hall).close();
    }

    // what killed runs leave

    private static String part(String name, String id) {
        return "." + name + "." + id + ".part";
    }

    private static String lock(String id) {
        return ".beefyield-" + id + ".lock";
    }

    @Test
    void whatAKilledRunLeftGoesWithTheNextOneAndNothingElse() throws IOException {
        String dead = UUID.randomUUID().toString();
        file(lock(dead), "");
        file(part("a.csv", dead), "half");
        Files.createDirectory(place(part("hall", dead)));
        file(part("hall", dead) + "/cuts.csv", "half");
        String without = UUID.randomUUID().toString();
        file(part("b.csv", without), "half");
        file(part("c.csv", without), "of whatever program");
        file(".b.csv.part", "theirs");
        file(".beefyield-notes", "theirs");

        write(place("b.csv"), "b");

        assertThat(names())
                .containsExactlyInAnyOrder("b.csv", part("c.csv", without), ".b.csv.part", ".beefyield-notes");
    }

    @Test
    void aFolderThatWasSetAsideWhenTheRunWasKilledIsPutBackUnlessTheNewOneStands() throws IOException {
        for (boolean stands : new boolean[] {false, true}) {
            String dead = UUID.randomUUID().toString();
            file(lock(dead), "");
            Path old = Files.createDirectory(place(".hall." + dead + ".old"));
            Files.writeString(old.resolve("cuts.csv"), "old");
            if (stands) {
                Files.writeString(place("hall/cuts.csv"), "new");
            }

            write(place("b.csv"), "b");

            assertThat(names()).containsExactly("b.csv", "hall");
            assertThat(place("hall/cuts.csv")).hasContent(stands ? "new" : "old");
        }
    }

    @Test
    void aRunThatIsAliveIsLeftAlone() throws IOException {
        try (Outputs alive = new Outputs()) {
            alive.write(place("a.csv"), "of the first");
            write(place("b.csv"), "b");
            write(place("a.csv"), "of the second");
            assertThat(names()).hasSize(4).anyMatch(name -> name.matches("\\.a\\.csv\\..*\\.part"));
            alive.finish();
        }
        assertThat(place("a.csv")).hasContent("of the first");
        assertThat(names()).containsExactly("a.csv", "b.csv");
    }
}
