package org.beefyield.data.file;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.PushbackInputStream;
import java.util.zip.CRC32;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.beefyield.data.Source;

/**
 * Unpacks gzip (RFC 1952), several members one behind the other too, and takes nothing else for it. The JDK's own stream
 * stops without a word at a second member that is damaged, or that hasn't arrived yet, and the rows in it would be lost.
 */
public final class GzipInput extends InputStream {
    private static final int FIRST = 0x1F;
    private static final int SECOND = 0x8B;
    private static final int DEFLATE = 8;

    private static final int HAS_CHECKSUM = 2;
    private static final int HAS_EXTRA = 4;
    private static final int HAS_NAME = 8;
    private static final int HAS_COMMENT = 16;
    private static final int RESERVED = 0xE0;

    private final InputStream in;
    private final byte[] packed = new byte[1 << 16];
    private int at;
    private int end;
    private final Inflater inflater = new Inflater(true);
    private final CRC32 checksum = new CRC32();
    private boolean done;

    private GzipInput(InputStream in) throws IOException {
        this.in = in;
        readHeader();
    }

    /**
     * Opens a source, and unpacks what begins as gzip does, whatever its name.
     *
     * @param source the source
     * @return its bytes
     * @throws IOException if it can't be opened or read, or its gzip data are damaged
     */
    public static InputStream open(Source source) throws IOException {
        InputStream in = source.open();
        try {
            return unpacked(in);
        } catch (IOException | RuntimeException e) {
            in.close();
            throw e;
        }
    }

    /**
     * The stream unpacked if it begins as gzip does, else as it is: no text begins with those two bytes.
     *
     * @param in the stream
     * @return one that closes it
     * @throws IOException if it can't be read, or its gzip data are damaged
     */
    public static InputStream unpacked(InputStream in) throws IOException {
        PushbackInputStream whole = new PushbackInputStream(in, 2);
        byte[] start = whole.readNBytes(2);
        whole.unread(start);
        boolean gzip = start.length == 2 && (start[0] & 0xFF) == FIRST && (start[1] & 0xFF) == SECOND;
        return gzip ? new GzipInput(whole) : whole;
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] to, int offset, int length) throws IOException {
        if (length == 0) {
            return 0;
        }
        try {
            while (!done) {
                int count = inflater.inflate(to, offset, length);
                if (count > 0) {
                    checksum.update(to, offset, count);
                    return count;
                }
                if (inflater.finished()) {
                    endMember();
                } else if (inflater.needsDictionary()) {
                    throw damaged();
                } else {
                    fill();
                    inflater.setInput(packed, at, end - at);
                    at = end;
                }
            }
            return -1;
        } catch (DataFormatException e) {
            throw new IOException(damaged().getMessage(), e);
        }
    }

    private static IOException damaged() {
        return new IOException("its gzip data are damaged; pack or fetch it again");
    }

    private boolean isMore() throws IOException {
        if (at == end) {
            at = 0;
            end = Math.max(0, in.read(packed));
        }
        return at < end;
    }

    private void fill() throws IOException {
        if (!isMore()) {
            throw new EOFException("its gzip data end too early, it was cut off; pack or fetch it again");
        }
    }

    private int next() throws IOException {
        fill();
        return packed[at++] & 0xFF;
    }

    private long next(int bytes) throws IOException {
        long value = 0;
        for (int i = 0; i < bytes; i++) {
            value |= (long) next() << (8 * i);
        }
        return value;
    }

    private void readHeader() throws IOException {
        if (next() != FIRST || next() != SECOND) {
            throw new IOException("something that is no gzip data follows its gzip data; pack or fetch it again");
        }
        int method = next();
        int flags = next();
        if (method != DEFLATE || (flags & RESERVED) != 0) {
            throw damaged();
        }
        next(6);
        if ((flags & HAS_EXTRA) != 0) {
            for (long left = next(2); left > 0; left--) {
                next();
            }
        }
        if ((flags & HAS_NAME) != 0) {
            skipText();
        }
        if ((flags & HAS_COMMENT) != 0) {
            skipText();
        }
        if ((flags & HAS_CHECKSUM) != 0) {
            next(2);
        }
    }

    private void skipText() throws IOException {
        int character = next();
        while (character != 0) {
            character = next();
        }
    }

    private void endMember() throws IOException {
        at = end - inflater.getRemaining();
        if (next(4) != checksum.getValue() || next(4) != (inflater.getBytesWritten() & 0xFFFFFFFFL)) {
            throw damaged();
        }
        if (isMore()) {
            readHeader();
            inflater.reset();
            checksum.reset();
        } else {
            done = true;
        }
    }

    @Override
    public void close() throws IOException {
        inflater.end();
        in.close();
    }
}
