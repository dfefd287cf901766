package org.beefyield.data.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.zip.CRC32;
import java.util.zip.Deflater;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;

public class GzipInputTest {
    private static final byte[] TEXT = "carcass,category\n".repeat(20_000).getBytes(StandardCharsets.UTF_8);

    public static byte[] packed(byte[] plain) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(bytes)) {
            gzip.write(plain);
        }
        return bytes.toByteArray();
    }

    private static byte[] joined(byte[]... parts) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            bytes.writeBytes(part);
        }
        return bytes.toByteArray();
    }

    private static byte[] read(byte[] file) throws IOException {
        try (InputStream in = GzipInput.unpacked(new ByteArrayInputStream(file))) {
            return in.readAllBytes();
        }
    }

    @Test
    void whatIsNotPackedIsReadAsItIs() throws IOException {
        for (byte[] plain : new byte[][] {{}, {0x1F}, {0x1F, 'x'}, {'x', (byte) 0x8B}, TEXT}) {
            assertThat(read(plain)).isEqualTo(plain);
        }
    }

    @Test
    void whatIsPackedIsUnpacked() throws IOException {
        assertThat(read(packed(TEXT))).isEqualTo(TEXT);
        assertThat(read(packed(new byte[0]))).isEmpty();
    }

    @Test
    void everyMemberIsReadAlsoWhereTheStreamGivesOneByteAtATimeAndNeverSaysThatMoreIsThere() throws IOException {
        byte[] file = joined(packed(TEXT), packed(new byte[0]), packed(TEXT));
        InputStream slow = new FilterInputStream(new ByteArrayInputStream(file)) {
            @Override
            public int read(byte[] to, int offset, int length) throws IOException {
                return super.read(to, offset, Math.min(1, length));
            }

            @Override
            public int available() {
                return 0;
            }
        };
        try (InputStream in = GzipInput.unpacked(slow)) {
            assertThat(in.readAllBytes()).isEqualTo(joined(TEXT, TEXT));
        }
    }

    @Test
    void everyPartOfAHeaderMayBeThere() throws IOException {
        byte[] plain = {'a', ',', 'b', '\n'};
        Deflater deflater = new Deflater(9, true);
        deflater.setInput(plain);
        deflater.finish();
        byte[] data = new byte[100];
        data = Arrays.copyOf(data, deflater.deflate(data));
        deflater.end();
        CRC32 crc = new CRC32();
        crc.update(plain);
        long sum = crc.getValue();
        byte[] file = joined(
                new byte[] {0x1F, (byte) 0x8B, 8, 2 | 4 | 8 | 16, 1, 2, 3, 4, 0, 3},
                new byte[] {2, 0, 'x', 'y'},
                "sheet.csv\0".getBytes(StandardCharsets.ISO_8859_1),
                "of the hall\0".getBytes(StandardCharsets.ISO_8859_1),
                new byte[] {7, 7},
                data,
                new byte[] {(byte) sum, (byte) (sum >> 8), (byte) (sum >> 16), (byte) (sum >> 24), 4, 0, 0, 0});
        assertThat(read(file)).isEqualTo(plain);
    }

    @Test
    void aFileCutOffAnywhereIsSaidToBe() throws IOException {
        byte[] whole = joined(packed(TEXT), packed(TEXT));
        int second = whole.length / 2;
        for (int length = 2; length < whole.length; length++) {
            byte[] cut = Arrays.copyOf(whole, length);
            if (length != second) {
                assertThatThrownBy(() -> read(cut))
                        .as("%s bytes", length)
                        .isInstanceOf(EOFException.class)
                        .hasMessage("its gzip data end too early, it was cut off; pack or fetch it again");
            }
        }
    }

    @Test
    void aChangedByteNeverPassesForGoodData() throws IOException {
        byte[] whole = packed(TEXT);
        // the header's time, extra flags and system say nothing about the data
        for (int at = 10; at < whole.length; at++) {
            byte[] changed = whole.clone();
            changed[at] ^= 0x10;
            assertThatThrownBy(() -> read(changed)).as("byte %s", at).isInstanceOf(IOException.class);
        }
        byte[] checksum = whole.clone();
        checksum[whole.length - 8] ^= 1;
        assertThatThrownBy(() -> read(checksum)).hasMessage("its gzip data are damaged; pack or fetch it again");
    }

    @Test
    void whatFollowsIsNotPassedOverInSilence() throws IOException {
        for (String more : new String[] {"x", "TM-1,C,R=,3+,342.0\n".repeat(5)}) {
            byte[] file = joined(packed(TEXT), more.getBytes(StandardCharsets.UTF_8));
            assertThatThrownBy(() -> read(file))
                    .isInstanceOf(IOException.class)
                    .hasMessage("something that is no gzip data follows its gzip data; pack or fetch it again");
        }
    }
}
