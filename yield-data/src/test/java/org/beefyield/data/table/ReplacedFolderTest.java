package org.beefyield.data.table;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.UUID;
import org.beefyield.data.InvalidDataException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A folder that is replaced, or in which files are, between any two steps of its reading. */
class ReplacedFolderTest {
    private static final List<String> NAMES = List.of("cuts.csv", "sources.csv");

    @TempDir
    Path temporary;

    private Path place;

    @BeforeEach
    void makeTheFolder() throws IOException {
        place = folder("hall", "old");
    }

    private Path folder(String name, String content) throws IOException {
        Path folder = Files.createDirectory(temporary.resolve(name));
        for (String file : List.of("datapackage.json", "cuts.csv", "sources.csv")) {
            Files.writeString(folder.resolve(file), content);
        }
        return folder;
    }

    private void replaceTheFolder() throws IOException {
        Path away = temporary.resolve("away");
        Files.move(place, away);
        Files.move(folder("next", "new"), place);
    }

    private FolderFiles opened() throws IOException {
        FolderFiles files = FolderFiles.of("hall", place);
        assertThat(files).isNotNull();
        assertThat(text(files, "datapackage.json")).isEqualTo("old");
        return files;
    }

    private static String text(FolderFiles files, String name) throws IOException {
        return new String(files.open(name).readAllBytes(), UTF_8);
    }

    private static void assertReplaced(FolderFiles files) {
        assertThatThrownBy(() -> files.take(NAMES))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage("hall: the folder was being replaced while it was read; read it again");
        assertThat(files.isReplaced()).isTrue();
    }

    @Test
    void filesThatStayAreTakenOnceAndNotReadAgain() throws IOException {
        try (FolderFiles files = opened()) {
            files.take(NAMES);
            replaceTheFolder();

            assertThat(text(files, "cuts.csv")).isEqualTo("old");
            assertThat(text(files, "datapackage.json")).isEqualTo("old");
            assertThat(files.isReplaced()).isFalse();
        }
    }

    @Test
    void aFolderThatGetsThePlaceAfterTheDescriptorWasReadIsNoticed() throws IOException {
        try (FolderFiles files = opened()) {
            replaceTheFolder();
            assertReplaced(files);
        }
    }

    @Test
    void aFolderThatIsAwayIsNoticed() throws IOException {
        try (FolderFiles files = opened()) {
            Files.move(place, temporary.resolve("away"));
            assertReplaced(files);
        }
    }

    @Test
    void anotherFolderWithTheSameFilesIsNoticedToo() throws IOException {
        // hard links have the keys and times of the files that they are
        Path other = Files.createDirectory(temporary.resolve("other"));
        for (String name : List.of("datapackage.json", "cuts.csv", "sources.csv")) {
            Files.createLink(other.resolve(name), place.resolve(name));
        }
        try (FolderFiles files = opened()) {
            Files.move(place, temporary.resolve("away"));
            Files.move(other, place);
            assertReplaced(files);
        }
    }

    @Test
    void aFileThatIsWrittenAnewIsNoticed() throws IOException {
        try (FolderFiles files = opened()) {
            Files.writeString(place.resolve("datapackage.json"), "longer");
            assertReplaced(files);
        }
    }

    @Test
    void aFileOfTheSameLengthAndAnotherTimeIsNoticed() throws IOException {
        try (FolderFiles files = opened()) {
            Path descriptor = place.resolve("datapackage.json");
            Files.writeString(descriptor, "new");
            Files.setLastModifiedTime(descriptor, FileTime.fromMillis(1_000_000));
            assertReplaced(files);
        }
    }

    @Test
    void aFileOfTheSameLengthAndTimeThatIsAnotherOneIsNoticed() throws IOException {
        try (FolderFiles files = opened()) {
            Path descriptor = place.resolve("datapackage.json");
            Path other = Files.writeString(temporary.resolve("other"), "new");
            Files.setLastModifiedTime(other, Files.getLastModifiedTime(descriptor));
            Files.delete(descriptor);
            Files.move(other, descriptor);
            assertReplaced(files);
        }
    }

    @Test
    void aFileThatComesWhenItWasFoundMissingIsNoticed() throws IOException {
        Files.delete(place.resolve("cuts.csv"));
        try (FolderFiles files = opened()) {
            assertThat(files.open("cuts.csv")).isNull();
            assertThat(files.isReplaced()).isFalse();
            Files.writeString(place.resolve("cuts.csv"), "new");
            assertThat(files.isReplaced()).isTrue();
        }
    }

    @Test
    void aFileThatIsMissingAndStaysSoIsForTheReaderToSay() throws IOException {
        Files.delete(place.resolve("cuts.csv"));
        try (FolderFiles files = opened()) {
            files.take(NAMES);
            assertThat(files.open("cuts.csv")).isNull();
            assertThat(text(files, "sources.csv")).isEqualTo("old");
        }
    }

    @Test
    void whatElseChangesInTheFolderMattersNothing() throws IOException {
        try (FolderFiles files = opened()) {
            Files.writeString(place.resolve(".~lock.cuts.csv#"), "somebody looks at it");
            files.take(NAMES);
        }
    }

    @Test
    void aFolderThatMayBeEnteredAndNotListedIsRead() throws IOException {
        if (place.getFileSystem().supportedFileAttributeViews().contains("posix")) {
            Files.setPosixFilePermissions(place, PosixFilePermissions.fromString("--x------"));
        }
        try (FolderFiles files = opened()) {
            files.take(NAMES);
            assertThat(text(files, "cuts.csv")).isEqualTo("old");
        } finally {
            if (place.getFileSystem().supportedFileAttributeViews().contains("posix")) {
                Files.setPosixFilePermissions(place, PosixFilePermissions.fromString("rwx------"));
            }
        }
    }

    // the folder that stands aside

    private Path setAside() throws IOException {
        return Files.move(place, temporary.resolve(".hall." + UUID.randomUUID() + ".old"));
    }

    @Test
    void whileNothingHasThePlaceTheFolderThatWasSetAsideIsRead() throws IOException {
        setAside();
        try (FolderFiles files = opened()) {
            files.take(NAMES);
            assertThat(text(files, "cuts.csv")).isEqualTo("old");
        }
    }

    @Test
    void behindALinkToo() throws IOException {
        Path link = Files.createSymbolicLink(temporary.resolve("current"), place.getFileName());
        setAside();

        try (FolderFiles files = FolderFiles.of("current", link)) {
            assertThat(files).isNotNull();
            assertThat(text(files, "cuts.csv")).isEqualTo("old");
        }
    }

    @Test
    void aFolderThatStandsAsideIsDeletedFileByFileWhichIsNoticed() throws IOException {
        Path aside = setAside();
        try (FolderFiles files = opened()) {
            Files.delete(aside.resolve("cuts.csv"));
            assertThat(files.open("cuts.csv")).isNull();
            assertReplaced(files);
        }
    }

    @Test
    void ofTwoFoldersThatStandAsideNoneIsRead() throws IOException {
        setAside();
        place = folder("hall", "newer");
        setAside();

        assertThat(FolderFiles.of("hall", place)).isNull();
    }

    @Test
    void whatStandsAsideIsNotReadWhereAFolderStands() throws IOException {
        setAside();
        place = folder("hall", "old");
        Files.writeString(place.resolve("cuts.csv"), "new");
        try (FolderFiles files = opened()) {
            assertThat(text(files, "cuts.csv")).isEqualTo("new");
        }
    }

    // the reader

    @Test
    void aTableThatWasSetAsideByARunThatWasKilledIsReadAndPutBackByTheNext() throws IOException {
        Path table = temporary.resolve("table");
        TableWriter.write(ShippedTables.boneless2026(), table);
        String dead = UUID.randomUUID().toString();
        Files.createFile(temporary.resolve(".beefyield-" + dead + ".lock"));
        Files.move(table, temporary.resolve(".table." + dead + ".old"));

        assertThat(TableReader.read(table)).isEqualTo(ShippedTables.boneless2026());

        TableWriter.write(ShippedTables.boneless2026(), temporary.resolve("other.zip"));
        assertThat(table).isDirectory();
        assertThat(TableReader.read(table)).isEqualTo(ShippedTables.boneless2026());
    }
}
