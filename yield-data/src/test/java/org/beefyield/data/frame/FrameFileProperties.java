package org.beefyield.data.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.beefyield.frame.Frame;

class FrameFileProperties {
    @Provide
    Arbitrary<String> texts() {
        return Arbitraries.strings()
                .ofMaxLength(12)
                .filter(text -> text.chars().noneMatch(c -> (c < ' ' && c != '\t') || c == 0x7F));
    }

    @Provide
    Arbitrary<Double> numbers() {
        return Arbitraries.oneOf(
                Arbitraries.doubles().between(-1e12, 1e12),
                Arbitraries.of(Double.NaN, -0.0, Double.MIN_VALUE, 1 / 3.0, 1e-9));
    }

    @Property(tries = 300)
    void writtenAndReadItIsEqual(@ForAll("rows") List<List<Object>> rows) throws IOException {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("text", rows.stream().map(row -> row.get(0)).toArray(String[]::new));
        comesBack(Frame.of(columns));
        columns.put(
                "number, kg",
                rows.stream().mapToDouble(row -> (Double) row.get(1)).toArray());
        comesBack(Frame.of(columns));
        columns.remove("text");
        comesBack(Frame.of(columns));
    }

    @Provide
    Arbitrary<List<List<Object>>> rows() {
        return texts().flatMap(text -> numbers().map(number -> List.<Object>of(text, number)))
                .list()
                .ofMaxSize(20);
    }

    private static void comesBack(Frame frame) throws IOException {
        Path file = Files.createTempFile("frame", ".csv");
        try {
            FrameFile.write(frame, file);
            assertThat(FrameFile.read(file, frame.columns())).isEqualTo(frame);
            assertThat(FrameFile.read(file)).isEqualTo(frame);
        } finally {
            Files.delete(file);
            Files.deleteIfExists(FrameDescriptor.beside(file));
        }
    }
}
