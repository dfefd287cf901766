package org.beefyield.data.killsheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import org.junit.jupiter.api.Test;

class CarcassLinesProperties {
    @Provide
    Arbitrary<List<String>> ids() {
        Arbitrary<String> few =
                Arbitraries.strings().withChars("ab\u00e9").ofMinLength(1).ofMaxLength(3);
        Arbitrary<String> any = Arbitraries.strings().ofMinLength(1).ofMaxLength(1000);
        return Arbitraries.frequencyOf(Tuple.of(5, few), Tuple.of(1, any.filter(CarcassLinesProperties::isText)))
                .list()
                .ofMaxSize(200);
    }

    private static boolean isText(String text) {
        return text.codePoints().noneMatch(c -> c >= Character.MIN_SURROGATE && c <= Character.MAX_SURROGATE);
    }

    @Property(tries = 300)
    void itAnswersAsAMapOfObjectsDoes(@ForAll("ids") List<String> ids, @ForAll long seed) {
        check(ids, seed);
    }

    @Test
    void itAnswersAsAMapOfObjectsDoesForALongSheet() {
        SplittableRandom random = new SplittableRandom(1);
        check(random.ints(300_000, 0, 200_000).mapToObj(n -> "TM-" + n).toList(), 2);
    }

    private static void check(List<String> ids, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        CarcassLines lines = new CarcassLines();
        Map<List<String>, Long> plain = new HashMap<>();
        long line = 1;
        for (String id : ids) {
            line += 1 + random.nextInt(2) * 0x2000L;
            String date = random.nextInt(3) == 0 ? "" : "2026-11-0" + random.nextInt(3);
            String lot = random.nextBoolean() ? "L1" : "";
            Long first = plain.putIfAbsent(List.of(date, lot, id), line);
            assertThat(lines.putIfAbsent(date, lot, id, line)).isEqualTo(first == null ? 0 : first);
        }
    }
}
