package org.beefyield.data.table;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.Charset;
import java.util.Arrays;
import java.util.Map;
import java.util.Random;
import java.util.zip.CRC32;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Zips that programs would read in different ways, and damaged ones: refused in words. */
@SuppressWarnings("ByteBufferBackingArray") // each buffer is made here, of its own array
class ZipFilesTest {
    private static final byte[] ABC = "a,b,c\n".repeat(20).getBytes(UTF_8);
    private static final byte[] ZEROS = new byte[100];

    /** Where a record has its fields (APPNOTE 4.3.7 and 4.3.12). */
    private static final int HEAD_FLAGS = 6;

    private static final int HEAD_METHOD = 8;
    private static final int HEAD_CHECKSUM = 14;
    private static final int HEAD_PACKED = 18;
    private static final int HEAD_SIZE = 22;
    private static final int HEAD_NAME = 30;
    private static final int RECORD_METHOD = 10;
    private static final int RECORD_CHECKSUM = 16;
    private static final int RECORD_PACKED = 20;
    private static final int RECORD_SIZE = 24;
    private static final int RECORD_DISK = 34;
    private static final int RECORD_AT = 42;

    /** A zip of two files, written field by field, so that each can be spoilt. */
    private static final class Made {
        private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        private final ByteArrayOutputStream directory = new ByteArrayOutputStream();
        private int count;

        Made file(String name, byte[] content, int flags, byte[] further, byte[] behind) {
            return file(name.getBytes(UTF_8), content, flags, further, behind);
        }

        Made file(byte[] name, byte[] content, int flags, byte[] further, byte[] behind) {
            boolean follow = (flags & 8) != 0;
            byte[] packed = deflated(content);
            CRC32 checksum = new CRC32();
            checksum.update(content);
            int sum = (int) checksum.getValue();
            ByteBuffer head = buffer(HEAD_NAME).putInt(0x04034b50).putShort((short) 20);
            head.putShort((short) flags).putShort((short) 8).putInt(0x00210000);
            head.putInt(follow ? 0 : sum).putInt(follow ? 0 : packed.length).putInt(follow ? 0 : content.length);
            head.putShort((short) name.length).putShort((short) further.length);
            ByteBuffer record =
                    buffer(46).putInt(0x02014b50).putShort((short) 20).putShort((short) 20);
            record.putShort((short) flags).putShort((short) 8).putInt(0x00210000);
            record.putInt(sum).putInt(packed.length).putInt(content.length).putShort((short) name.length);
            record.putInt(RECORD_AT, bytes.size());
            bytes.writeBytes(head.array());
            bytes.writeBytes(name);
            bytes.writeBytes(further);
            bytes.writeBytes(packed);
            bytes.writeBytes(behind);
            directory.writeBytes(record.array());
            directory.writeBytes(name);
            count++;
            return this;
        }

        byte[] zip(String comment) {
            ByteBuffer end = buffer(22).putInt(0x06054b50).putInt(0);
            end.putShort((short) count).putShort((short) count);
            end.putInt(directory.size()).putInt(bytes.size()).putShort((short) comment.length());
            ByteArrayOutputStream zip = new ByteArrayOutputStream();
            zip.writeBytes(bytes.toByteArray());
            zip.writeBytes(directory.toByteArray());
            zip.writeBytes(end.array());
            zip.writeBytes(comment.getBytes(UTF_8));
            return zip.toByteArray();
        }
    }

    private static ByteBuffer buffer(int length) {
        return ByteBuffer.allocate(length).order(ByteOrder.LITTLE_ENDIAN);
    }

    private static byte[] deflated(byte[] content) {
        Deflater deflater = new Deflater(Deflater.DEFAULT_COMPRESSION, true);
        deflater.setInput(content);
        deflater.finish();
        byte[] packed = new byte[content.length + 100];
        int length = deflater.deflate(packed);
        deflater.end();
        return Arrays.copyOf(packed, length);
    }

    private static final byte[] NOTHING = new byte[0];

    private static byte[] two() {
        return new Made()
                .file("abc.csv", ABC, 0, NOTHING, NOTHING)
                .file("zeros", ZEROS, 0, NOTHING, NOTHING)
                .zip("");
    }

    private static int record(byte[] zip) {
        return new String(zip, ISO_8859_1).indexOf("PK\1\2");
    }

    private static int end(byte[] zip) {
        return new String(zip, ISO_8859_1).lastIndexOf("PK\5\6");
    }

    private static String refusal(byte[] zip) {
        IOException refused = catchThrowableOfType(IOException.class, () -> ZipFiles.unpacked(zip));
        assertThat(refused).as("what is wrong with the zip").isNotNull();
        return refused.getMessage();
    }

    private static void assertRefused(byte[] zip, String message) {
        assertThat(refusal(zip)).isEqualTo(message);
    }

    private static void assertIsRead(byte[] zip) throws IOException {
        Map<String, byte[]> files = ZipFiles.unpacked(zip);
        assertThat(files).containsOnlyKeys("abc.csv", "zeros");
        assertThat(files.get("abc.csv")).isEqualTo(ABC);
        assertThat(files.get("zeros")).isEqualTo(ZEROS);
    }

    private static byte[] with(byte[] bytes, int at, int value) {
        byte[] other = bytes.clone();
        other[at] = (byte) value;
        return other;
    }

    // what is read

    @Test
    void aZipIsReadWithOrWithoutAComment() throws IOException {
        assertIsRead(two());
        assertIsRead(new Made()
                .file("abc.csv", ABC, 0, NOTHING, NOTHING)
                .file("zeros", ZEROS, 0, NOTHING, NOTHING)
                .zip("PK and what a comment says"));
    }

    @ParameterizedTest
    @ValueSource(ints = {12, 16, 20, 24})
    void sizesAndChecksumMayFollowTheFileInEachOfTheirForms(int length) throws IOException {
        assertIsRead(following(length, 0));
        for (int wrong = 0; wrong < length; wrong++) {
            assertRefused(
                    following(length, 1 + wrong),
                    "\"abc.csv\" has another checksum or size in its head than in the directory; zip the files anew");
        }
    }

    /** One byte of what follows is wrong, counted from 1; none for 0. */
    private static byte[] following(int length, int wrong) {
        CRC32 checksum = new CRC32();
        checksum.update(ABC);
        ByteBuffer behind = buffer(length);
        if (length == 16 || length == 24) {
            behind.putInt(0x08074b50);
        }
        behind.putInt((int) checksum.getValue());
        if (length < 20) {
            behind.putInt(deflated(ABC).length).putInt(ABC.length);
        } else {
            behind.putLong(deflated(ABC).length).putLong(ABC.length);
        }
        byte[] bytes = behind.array();
        if (wrong > 0) {
            bytes[wrong - 1] ^= 1;
        }
        return new Made()
                .file("abc.csv", ABC, 8, NOTHING, bytes)
                .file("zeros", ZEROS, 0, NOTHING, NOTHING)
                .zip("");
    }

    @Test
    void sizesOfEightBytesInTheHeadAreComparedToo() throws IOException {
        ByteBuffer sizes = buffer(20).putShort((short) 1).putShort((short) 16);
        sizes.putLong(ABC.length).putLong(deflated(ABC).length);
        byte[] zip = new Made()
                .file("abc.csv", ABC, 0, sizes.array(), NOTHING)
                .file("zeros", ZEROS, 0, NOTHING, NOTHING)
                .zip("");
        Arrays.fill(zip, HEAD_PACKED, HEAD_SIZE + 4, (byte) -1);
        assertIsRead(zip);

        int field = HEAD_NAME + "abc.csv".length() + 4;
        assertRefused(with(zip, field, 1), other("size"));
        assertRefused(with(zip, field + 8, 1), other("packed size"));
    }

    @Test
    void namesInUtf8AreReadWhetherOrNotTheZipSaysThatTheyAre() throws IOException {
        for (int flags : new int[] {0, 1 << 11}) {
            byte[] zip = new Made()
                    .file("gr\u00f6\u00dfe.csv", ABC, flags, NOTHING, NOTHING)
                    .zip("");
            assertThat(ZipFiles.unpacked(zip)).containsOnlyKeys("gr\u00f6\u00dfe.csv");
        }
    }

    // head and directory

    private static String other(String what) {
        return "\"abc.csv\" has another " + what + " in its head than in the directory; zip the files anew";
    }

    @ParameterizedTest
    @CsvSource({
        HEAD_FLAGS + ", 1, encryption",
        HEAD_METHOD + ", 0, method",
        HEAD_CHECKSUM + ", 77, checksum",
        HEAD_PACKED + ", 1, packed size",
        HEAD_SIZE + ", 1, size",
        HEAD_NAME + ", 98, name"
    })
    void aHeadThatSaysOtherwiseThanTheDirectoryIsRefused(int at, int value, String what) {
        assertRefused(with(two(), at, value), other(what));
    }

    @ParameterizedTest
    @CsvSource({
        RECORD_METHOD + ", 0, method",
        RECORD_CHECKSUM + ", 77, checksum",
        RECORD_PACKED + ", 1, packed size",
        RECORD_SIZE + ", 1, size"
    })
    void aDirectoryThatSaysOtherwiseThanTheHeadIsRefused(int at, int value, String what) {
        byte[] zip = two();
        assertRefused(with(zip, record(zip) + at, value), other(what));
    }

    @Test
    void aFileWithTwoNamesIsRefused() {
        byte[] name = "other.csv".getBytes(UTF_8);
        ByteBuffer second = buffer(9 + name.length).putShort((short) 0x7075).putShort((short) (5 + name.length));
        second.put((byte) 1).putInt(0).put(name);

        assertRefused(
                new Made().file("abc.csv", ABC, 0, second.array(), NOTHING).zip(""), other("name"));
    }

    @Test
    void aSecondNameThatIsTheSameIsRead() throws IOException {
        byte[] name = "abc.csv".getBytes(UTF_8);
        ByteBuffer second = buffer(9 + name.length).putShort((short) 0x7075).putShort((short) (5 + name.length));
        second.put((byte) 1).putInt(0).put(name);

        assertThat(ZipFiles.unpacked(new Made()
                        .file("abc.csv", ABC, 0, second.array(), NOTHING)
                        .zip("")))
                .containsOnlyKeys("abc.csv");
    }

    // what lies where

    @Test
    void filesThatOverlapAreRefused() {
        byte[] zip = two();
        int second = record(zip) + 46 + "abc.csv".length();
        byte[] both = with(zip, second + RECORD_AT, 0);
        both[second + RECORD_AT + 1] = 0;
        assertRefused(both, "\"abc.csv\" reaches into what follows it; zip the files anew");

        assertRefused(
                with(zip, second + RECORD_AT, zip[second + RECORD_AT] - 1),
                "\"abc.csv\" reaches into what follows it; zip the files anew");
    }

    @Test
    void whatBelongsToNoFileIsRefused() {
        assertRefused(
                new Made()
                        .file("abc.csv", ABC, 0, NOTHING, new byte[3])
                        .file("zeros", ZEROS, 0, NOTHING, NOTHING)
                        .zip(""),
                "what belongs to no file stands after \"abc.csv\"; zip the files anew");

        byte[] hidden = two();
        // the directory forgets the first file
        int records = record(hidden);
        int second = records + 46 + "abc.csv".length();
        int end = end(hidden);
        ByteArrayOutputStream less = new ByteArrayOutputStream();
        less.write(hidden, 0, records);
        less.write(hidden, second, end - second);
        ByteBuffer last = buffer(22).put(hidden, end, 22);
        last.putShort(8, (short) 1).putShort(10, (short) 1).putInt(12, end - second);
        less.writeBytes(last.array());
        assertRefused(less.toByteArray(), "what belongs to no file stands before \"zeros\"; zip the files anew");
    }

    @Test
    void whatStandsBeforeOrBehindTheZipIsRefused() {
        ByteArrayOutputStream before = new ByteArrayOutputStream();
        before.writeBytes("#!run\n".getBytes(UTF_8));
        before.writeBytes(two());
        String moved = "its directory isn't where its end says: it is damaged, or more than a zip; zip the files anew";
        assertRefused(before.toByteArray(), moved);

        ByteArrayOutputStream twice = new ByteArrayOutputStream();
        twice.writeBytes(two());
        twice.writeBytes(two());
        assertRefused(twice.toByteArray(), moved);

        assertRefused(Arrays.copyOf(two(), two().length + 7), "7 bytes follow its end; zip the files anew");
    }

    @Test
    void aDirectoryThatCountsWrongIsRefused() {
        byte[] zip = two();
        int end = end(zip);
        byte[] three = with(with(zip, end + 8, 3), end + 10, 3);
        assertRefused(three, "its directory isn't that of the 3 files that its end counts; zip the files anew");
        byte[] one = with(with(zip, end + 8, 1), end + 10, 1);
        assertRefused(one, "its directory isn't that of the 1 files that its end counts; zip the files anew");
    }

    @Test
    void twoFilesOfOneNameAreRefused() {
        assertRefused(
                new Made()
                        .file("abc.csv", ABC, 0, NOTHING, NOTHING)
                        .file("abc.csv", ZEROS, 0, NOTHING, NOTHING)
                        .zip(""),
                "it holds two files of the name abc.csv");
    }

    // kinds that aren't read

    @Test
    void encryptedFilesAreRefused() {
        for (int flag : new int[] {1, 1 << 6, 1 << 13}) {
            assertRefused(
                    new Made().file("abc.csv", ABC, flag, NOTHING, NOTHING).zip(""),
                    "\"abc.csv\" is encrypted; zip the files anew without a password");
        }
    }

    @Test
    void otherMethodsAreRefused() {
        byte[] zip = two();
        assertRefused(
                with(with(zip, HEAD_METHOD, 12), record(zip) + RECORD_METHOD, 12),
                "\"abc.csv\" is packed by method 12; 0 (stored) and 8 (deflate) are read; zip the files anew by one of"
                        + " them");
    }

    @Test
    void zipsBeyondFourGigabytesAreRefused() {
        byte[] zip = two();
        int end = end(zip);
        String message = "it has the form of zips beyond 4 GB (zip64), which isn't read here; zip the files anew";
        byte[] far = zip.clone();
        Arrays.fill(far, end + 16, end + 20, (byte) -1);
        assertRefused(far, message);

        ByteArrayOutputStream located = new ByteArrayOutputStream();
        located.write(zip, 0, end);
        located.writeBytes(buffer(20).putInt(0x07064b50).array());
        located.write(zip, end, 22);
        assertRefused(located.toByteArray(), message);

        byte[] large = zip.clone();
        Arrays.fill(large, record(zip) + RECORD_SIZE, record(zip) + RECORD_SIZE + 4, (byte) -1);
        assertRefused(
                large, "\"abc.csv\" is said to be larger than 2 GB; it is damaged, or no table's; zip the files anew");
    }

    @Test
    void partsOfAnArchiveAreRefused() {
        String message = "it is one of several parts; zip the files anew as one part";
        byte[] zip = two();
        assertRefused(with(zip, end(zip) + 4, 1), message);
        assertRefused(with(zip, end(zip) + 8, 1), message);
        assertRefused(with(zip, record(zip) + RECORD_DISK, 1), message);
        byte[] first = buffer(100).putInt(0x08074b50).array();
        assertRefused(first, message);
    }

    @ParameterizedTest
    @ValueSource(strings = {"IBM437", "windows-1252", "windows-1251"})
    void namesInACodePageAreRefused(String page) {
        String name = page.equals("windows-1251") ? "\u0414.csv" : "gr\u00f6\u00dfe.csv";
        byte[] zip = new Made()
                .file(name.getBytes(Charset.forName(page)), ABC, 0, NOTHING, NOTHING)
                .zip("");

        assertRefused(
                zip,
                "the name \"" + name.replaceAll("[^a-z.]", "?")
                        + "\" in it is written in a code page that it doesn't tell; give the files and their folder names"
                        + " of plain letters, or zip them with names in UTF-8");
    }

    // damage

    @Test
    void anEmptyFileIsNoZip() {
        assertRefused(NOTHING, "the file is empty");
    }

    @Test
    void aZipWithoutFilesIsRefused() {
        assertRefused(new Made().zip(""), "there is no file in it");
    }

    @ParameterizedTest
    @ValueSource(strings = {"x", "7z\274\257\47\34 and more of another archive than a zip", "cut,name\nloin,Loin\n"})
    void anotherFileIsNoZip(String text) {
        assertRefused(
                text.getBytes(ISO_8859_1), "it is no zip file; a table is a folder, or a zip of the files of one");
    }

    @Test
    void aZipThatIsCutOffIsRefusedAtWhateverByte() {
        byte[] zip = PackageCopy.zip(PackageCopy.shipped());
        for (int length = 4; length < zip.length; length += length < zip.length - 100 ? 997 : 1) {
            assertRefused(
                    Arrays.copyOf(zip, length),
                    "its directory at the end is missing, so that it seems to be cut off; copy or download it again");
        }
    }

    @Test
    void contentOfAnotherChecksumIsDamaged() {
        ByteArrayOutputStream stored = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(stored)) {
            zip.setLevel(0);
            zip.putNextEntry(new ZipEntry("abc.csv"));
            zip.write(ABC);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
        byte[] spoilt =
                stored.toString(ISO_8859_1).replaceFirst("a,b,c", "a,b,d").getBytes(ISO_8859_1);
        String message = "\"abc.csv\" is damaged, it isn't what its size and checksum say; copy or download it again";
        assertRefused(spoilt, message);

        // longer and shorter than it is said to be, in head and directory alike
        for (int size : new int[] {ABC.length - 1, ABC.length + 1}) {
            byte[] zip = two();
            assertRefused(with(with(zip, HEAD_SIZE, size), record(zip) + RECORD_SIZE, size), message);
        }
        byte[] noise = two();
        Arrays.fill(noise, HEAD_NAME + 7, HEAD_NAME + 12, (byte) -1);
        assertRefused(noise, message);
    }

    @Test
    void aByteChangedAnywhereChangesNothingThatIsReadOrIsRefusedInWords() throws IOException {
        byte[] zip = two();
        Map<String, byte[]> whole = ZipFiles.unpacked(zip);
        Random random = new Random(20261129);
        int refused = 0;
        for (int at = 0; at < zip.length; at++) {
            for (int value : new int[] {0, -1, zip[at] ^ 1, random.nextInt(256)}) {
                byte[] changed = with(zip, at, value);
                try {
                    Map<String, byte[]> files = ZipFiles.unpacked(changed);
                    assertThat(files.keySet()).as("byte " + at).isEqualTo(whole.keySet());
                    files.forEach((name, content) -> assertThat(content).isEqualTo(whole.get(name)));
                } catch (IOException e) {
                    refused++;
                    assertThat(e).hasMessageMatching("[^\n]{12,}");
                }
            }
        }
        assertThat(refused).isGreaterThan(zip.length);
    }

    @Test
    void theRefusalNamesTheZip() {
        InvalidDataException refused = catchThrowableOfType(
                InvalidDataException.class, () -> TableReader.read(Source.of("hall.zip", NOTHING)));

        assertThat(refused.problems())
                .containsExactly(
                        new Problem("hall.zip", 0, "", "", "it can't be read as a zip file: the file is empty"));
    }
}
