package org.beefyield.data.table;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.CRC32;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.beefyield.data.file.Excerpt;
import org.jspecify.annotations.Nullable;

/**
 * Unpacks a zip whose every byte belongs to one file, to the directory or to its end, and whose directory and files say the
 * same. Programs differ in which of the two they believe, so that a zip without that would be one table here and another one
 * elsewhere. Offsets are those of the open specification of zip files (APPNOTE 6.3), by its sections.
 */
final class ZipFiles {
    /** Head of a file (4.3.7): its signature and its length without name and further fields. */
    private static final int HEAD = 0x04034b50;

    private static final int HEAD_LENGTH = 30;

    /** Record of the directory (4.3.12). */
    private static final int RECORD = 0x02014b50;

    private static final int RECORD_LENGTH = 46;

    /** The last record (4.3.16), without its comment; the longest comment. */
    private static final int END = 0x06054b50;

    private static final int END_LENGTH = 22;
    private static final int LONGEST_COMMENT = 0xFFFF;

    /** What stands before the last record of a zip beyond 4 GB (4.3.15). */
    private static final int LOCATOR = 0x07064b50;

    private static final int LOCATOR_LENGTH = 20;

    /** Before sizes and checksum that follow a file (4.3.9), if it stands there; also the first of an archive in parts. */
    private static final int DESCRIPTOR = 0x08074b50;

    /** Flags (4.4.4): encrypted in one way or another; sizes and checksum follow the file. */
    private static final int ENCRYPTED = 1 | 1 << 6 | 1 << 13;

    private static final int SIZES_FOLLOW = 1 << 3;

    private static final int STORED = 0;
    private static final int DEFLATED = 8;

    /** Further fields with sizes beyond 4 GB (4.5.3) and with a name in Unicode (4.6.9). */
    private static final int LONG_SIZES = 1;

    private static final int UNICODE_NAME = 0x7075;

    private static final String ANEW = "; zip the files anew";
    private static final String AGAIN = "; copy or download it again";

    private final ByteBuffer zip;

    /** A file as the directory has it. */
    @SuppressWarnings("ArrayRecordComponent") // nobody compares them
    private record Entry(
            byte[] rawName,
            String name,
            int flags,
            int method,
            int checksum,
            int packedSize,
            int size,
            int at,
            byte[] further) {}

    private ZipFiles(byte[] zip) {
        this.zip = ByteBuffer.wrap(zip).order(ByteOrder.LITTLE_ENDIAN);
    }

    /**
     * The files of a zip by name, in the order in which they stand.
     *
     * @param zip the whole zip
     * @throws IOException if it is none, is damaged, or can be read in more ways than one
     */
    static Map<String, byte[]> unpacked(byte[] zip) throws IOException {
        try {
            return new ZipFiles(zip).files();
        } catch (IndexOutOfBoundsException e) {
            throw new IOException("it is damaged, a record leads beyond its end" + AGAIN, e);
        }
    }

    private Map<String, byte[]> files() throws IOException {
        int end = end();
        List<Entry> entries = entries(end);
        long size = entries.stream().mapToLong(Entry::size).sum();
        if (size > PackageFiles.LARGEST || entries.size() > PackageFiles.MOST_FILES) {
            throw new IOException("it unpacks to more than " + PackageFiles.LARGEST + " bytes or "
                    + PackageFiles.MOST_FILES + " files");
        }
        Map<String, byte[]> files = new LinkedHashMap<>();
        entries.sort(Comparator.comparingInt(Entry::at));
        int from = 0;
        for (int i = 0; i < entries.size(); i++) {
            Entry entry = entries.get(i);
            if (entry.at() != from) {
                throw new IOException(
                        entry.at() < from
                                ? shown(entry) + " begins inside the file before it" + ANEW
                                : "what belongs to no file stands before " + shown(entry) + ANEW);
            }
            from = i + 1 < entries.size() ? entries.get(i + 1).at() : directory(end);
            int content = contentAt(entry, from);
            if (files.put(entry.name(), content(entry, content)) != null) {
                throw new IOException("it holds two files of the name " + entry.name());
            }
        }
        return files;
    }

    /** Where the last record stands. */
    private int end() throws IOException {
        int length = zip.limit();
        if (length == 0) {
            throw new IOException("the file is empty");
        }
        int start = length < 4 ? 0 : zip.getInt(0);
        int last = -1;
        for (int at = length - END_LENGTH; at >= Math.max(0, length - END_LENGTH - LONGEST_COMMENT); at--) {
            if (zip.getInt(at) == END) {
                int stop = at + END_LENGTH + word(at + 20);
                if (stop == length) {
                    return whole(at);
                }
                last = Math.max(last, stop);
            }
        }
        if (last > 0 && last < length) {
            throw new IOException((length - last) + " bytes follow its end" + ANEW);
        }
        if (start == DESCRIPTOR) {
            throw parted();
        }
        if (last < 0 && start != HEAD) {
            throw new IOException("it is no zip file; a table is a folder, or a zip of the files of one");
        }
        throw new IOException("its directory at the end is missing, so that it seems to be cut off" + AGAIN);
    }

    private static IOException parted() {
        return new IOException("it is one of several parts" + ANEW + " as one part");
    }

    private int whole(int end) throws IOException {
        if ((end >= LOCATOR_LENGTH && zip.getInt(end - LOCATOR_LENGTH) == LOCATOR) || zip.getInt(end + 16) == -1) {
            throw new IOException("it has the form of zips beyond 4 GB (zip64), which isn't read here" + ANEW);
        }
        if (word(end + 4) != 0 || word(end + 6) != 0 || word(end + 8) != word(end + 10)) {
            throw parted();
        }
        if (word(end + 10) == 0) {
            throw new IOException("there is no file in it");
        }
        return end;
    }

    private int directory(int end) {
        return zip.getInt(end + 16);
    }

    private List<Entry> entries(int end) throws IOException {
        int at = directory(end);
        if (at < 0 || Integer.toUnsignedLong(at) + Integer.toUnsignedLong(zip.getInt(end + 12)) != end) {
            throw new IOException("its directory isn't where its end says: it is damaged, or more than a zip" + ANEW);
        }
        int count = word(end + 10);
        List<Entry> entries = new ArrayList<>();
        while (at < end && entries.size() < count && zip.getInt(at) == RECORD) {
            Entry entry = entry(at);
            if (word(at + 34) != 0) {
                throw parted();
            }
            entries.add(entry);
            at += RECORD_LENGTH + entry.rawName().length + entry.further().length + word(at + 32);
        }
        if (at != end || entries.size() != count) {
            throw new IOException("its directory isn't that of the " + count + " files that its end counts" + ANEW);
        }
        return entries;
    }

    private Entry entry(int at) throws IOException {
        byte[] rawName = bytes(at + RECORD_LENGTH, word(at + 28));
        Entry entry = new Entry(
                rawName,
                name(rawName),
                word(at + 8),
                word(at + 10),
                zip.getInt(at + 16),
                zip.getInt(at + 20),
                zip.getInt(at + 24),
                zip.getInt(at + 42),
                bytes(at + RECORD_LENGTH + rawName.length, word(at + 30)));
        if ((entry.flags() & ENCRYPTED) != 0) {
            throw new IOException(shown(entry) + " is encrypted" + ANEW + " without a password");
        }
        if (entry.method() != STORED && entry.method() != DEFLATED) {
            throw new IOException(shown(entry) + " is packed by method " + entry.method()
                    + "; 0 (stored) and 8 (deflate) are read; zip the files anew by one of them");
        }
        if (entry.packedSize() < 0 || entry.size() < 0 || entry.at() < 0) {
            throw new IOException(
                    shown(entry) + " is said to be larger than 2 GB; it is damaged, or no table's" + ANEW);
        }
        return entry;
    }

    private static String name(byte[] raw) throws IOException {
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(raw))
                    .toString();
        } catch (CharacterCodingException e) {
            String legible = new String(raw, StandardCharsets.US_ASCII).replace('\ufffd', '?');
            throw new IOException(
                    "the name " + Excerpt.quote(legible)
                            + " in it is written in a code page that it doesn't tell; give the"
                            + " files and their folder names of plain letters, or zip them with names in UTF-8",
                    e);
        }
    }

    /** Where the content of a file begins, whose head must say what the directory says. */
    private int contentAt(Entry entry, int next) throws IOException {
        int at = entry.at();
        if (zip.getInt(at) != HEAD) {
            throw new IOException("there is no file where its directory has " + shown(entry) + ANEW);
        }
        int flags = word(at + 6);
        byte[] further = bytes(at + HEAD_LENGTH + word(at + 26), word(at + 28));
        boolean follow = (flags & SIZES_FOLLOW) != 0;
        check(entry, "name", Arrays.equals(bytes(at + HEAD_LENGTH, word(at + 26)), entry.rawName()));
        check(entry, "name", sameUnicodeName(entry, further) && sameUnicodeName(entry, entry.further()));
        check(entry, "encryption", (flags & ENCRYPTED) == 0);
        check(entry, "method", word(at + 8) == entry.method());
        check(entry, "checksum", agrees(zip.getInt(at + 14), entry.checksum(), follow));
        ByteBuffer longSizes = field(further, LONG_SIZES);
        check(entry, "size", sizeAgrees(zip.getInt(at + 22), longSizes, entry.size(), follow));
        check(entry, "packed size", sizeAgrees(zip.getInt(at + 18), longSizes, entry.packedSize(), follow));
        int content = at + HEAD_LENGTH + entry.rawName().length + further.length;
        long stop = (long) content + entry.packedSize();
        if (stop > next) {
            throw new IOException(shown(entry) + " reaches into what follows it" + ANEW);
        }
        if (follow) {
            check(entry, "checksum or size", isDescriptor((int) stop, next, entry));
        } else if (stop < next) {
            throw new IOException("what belongs to no file stands after " + shown(entry) + ANEW);
        }
        return content;
    }

    private static void check(Entry entry, String what, boolean same) throws IOException {
        if (!same) {
            throw new IOException(shown(entry) + " has another " + what + " in its head than in the directory" + ANEW);
        }
    }

    /** Where sizes and checksum follow, those of the head are 0. */
    private static boolean agrees(int head, int directory, boolean follow) {
        return head == directory || (follow && head == 0);
    }

    private static boolean sizeAgrees(int head, @Nullable ByteBuffer longSizes, int directory, boolean follow) {
        if (head != -1 || longSizes == null) {
            return agrees(head, directory, follow);
        }
        // those whose four bytes don't hold them, in this order: the size, the packed size
        if (longSizes.remaining() < Long.BYTES) {
            return false;
        }
        long size = longSizes.getLong();
        return size == directory || (follow && size == 0);
    }

    /** Checksum, packed size and size behind a file (4.3.9): with or without a signature, sizes of four bytes or of eight. */
    private boolean isDescriptor(int at, int next, Entry entry) {
        int length = next - at;
        boolean signed = length == 16 || length == 24;
        if ((length != 12 && length != 20 && !signed) || (signed && zip.getInt(at) != DESCRIPTOR)) {
            return false;
        }
        int sums = signed ? at + 4 : at;
        boolean isLong = length >= 20;
        long packed = isLong ? zip.getLong(sums + 4) : zip.getInt(sums + 4);
        long size = isLong ? zip.getLong(sums + 12) : zip.getInt(sums + 8);
        return zip.getInt(sums) == entry.checksum() && packed == entry.packedSize() && size == entry.size();
    }

    private static boolean sameUnicodeName(Entry entry, byte[] further) {
        ByteBuffer field = field(further, UNICODE_NAME);
        // a version and the checksum of the other name come first
        return field == null
                || field.remaining() < 5
                || Arrays.equals(
                        further, field.position() + 5, field.limit(), entry.rawName(), 0, entry.rawName().length);
    }

    /** One of the further fields, or null. */
    private static @Nullable ByteBuffer field(byte[] further, int which) {
        ByteBuffer fields = ByteBuffer.wrap(further).order(ByteOrder.LITTLE_ENDIAN);
        while (fields.remaining() >= 4) {
            int id = Short.toUnsignedInt(fields.getShort());
            int length = Math.min(Short.toUnsignedInt(fields.getShort()), fields.remaining());
            if (id == which) {
                fields.limit(fields.position() + length);
                return fields;
            }
            fields.position(fields.position() + length);
        }
        return null;
    }

    private byte[] content(Entry entry, int at) throws IOException {
        byte[] content = entry.method() == STORED ? bytes(at, entry.packedSize()) : inflated(entry, at);
        CRC32 checksum = new CRC32();
        checksum.update(content);
        if (content.length != entry.size() || (int) checksum.getValue() != entry.checksum()) {
            throw damaged(entry, null);
        }
        return content;
    }

    private byte[] inflated(Entry entry, int at) throws IOException {
        Inflater inflater = new Inflater(true);
        try {
            inflater.setInput(zip.array(), at, entry.packedSize());
            // a byte more, in which what is longer than it is said to be shows
            byte[] content = new byte[entry.size() + 1];
            int done = 0;
            while (!inflater.finished() && done < content.length) {
                int more = inflater.inflate(content, done, content.length - done);
                if (more == 0 && !inflater.finished()) {
                    break;
                }
                done += more;
            }
            if (!inflater.finished() || inflater.getRemaining() > 0) {
                throw damaged(entry, null);
            }
            return Arrays.copyOf(content, done);
        } catch (DataFormatException e) {
            throw damaged(entry, e);
        } finally {
            inflater.end();
        }
    }

    private static IOException damaged(Entry entry, @Nullable Exception cause) {
        return new IOException(shown(entry) + " is damaged, it isn't what its size and checksum say" + AGAIN, cause);
    }

    private static String shown(Entry entry) {
        return Excerpt.quote(entry.name());
    }

    private int word(int at) {
        return Short.toUnsignedInt(zip.getShort(at));
    }

    private byte[] bytes(int at, int length) {
        byte[] bytes = new byte[length];
        zip.get(at, bytes);
        return bytes;
    }
}
