package org.beefyield.benchmarks.fuzz;

import java.util.List;
import java.util.SplittableRandom;

/** Draws from a seed: the same seed gives the same case. */
final class Draw {
    /** Numbers at the edges of what a file can say, and texts that only look like numbers. */
    private static final List<String> NUMBERS = List.of(
            "0",
            "-0",
            "-0.0",
            "1",
            "-1",
            "1000",
            "1000.0",
            "1e3",
            "1E+3",
            "0.1",
            "1e-300",
            "4.9E-324",
            "1e-400",
            "1e308",
            "1e999",
            "-1e999",
            "1e99999999999",
            "9007199254740993",
            "9".repeat(400),
            "-1" + "0".repeat(309),
            "0." + "0".repeat(400) + "1",
            "99999999999999999999",
            "123456789012345678901234567890.5",
            "0.1000000000000000055511151231257827",
            "00.5",
            ".5",
            "5.e1",
            "+1",
            "1,5",
            "1_000",
            "0x10",
            "NaN",
            "Infinity",
            "-Infinity",
            "1e",
            "--1",
            "\u0661",
            "1 000",
            "1\u00a0000");

    private static final List<String> TEXTS = List.of(
            "",
            " ",
            "*",
            "carcass",
            "a",
            "-",
            "a--b",
            "true",
            "null",
            "striploin",
            "\"",
            "\"\"",
            "a\"b",
            "a,b",
            "a;b",
            "a\nb",
            "a\r\nb",
            "a\tb",
            "\u0000",
            "a\u0000b",
            "\u001b[31m",
            "\u007f",
            "\u0085",
            "\u2028",
            "\ufeff",
            "\u202e",
            "\u00e4\u00f6\u00fc",
            "e\u0301",
            "\ud83d\udc04",
            "\ud83d",
            "\udc04",
            "\uffff",
            "../cuts.csv",
            "/etc/hostname",
            "..\\cuts.csv",
            "C:\\cuts.csv",
            "http://localhost/cuts.csv",
            "file:///etc/hostname",
            "cuts.csv/",
            "./cuts.csv",
            "cuts.csv\u0000.png",
            "=1+1",
            "<script>",
            "%s%n",
            "${x}",
            "~0/~1");

    private final SplittableRandom random;

    Draw(long seed) {
        random = new SplittableRandom(seed);
    }

    /** A whole number from 0 to below the bound. */
    int below(int bound) {
        return random.nextInt(bound);
    }

    /** True once in so many draws. */
    boolean onceIn(int draws) {
        return random.nextInt(draws) == 0;
    }

    <T> T one(List<T> from) {
        return from.get(random.nextInt(from.size()));
    }

    String number() {
        return onceIn(3) ? Double.toString((random.nextDouble() - 0.2) * 1000) : one(NUMBERS);
    }

    String text() {
        if (onceIn(60)) {
            return one(List.of("a", "-a", "9", "\"", " ", "\ud83d\udc04"))
                    .repeat(1 + below(onceIn(30) ? 300_000 : 10_000));
        }
        return onceIn(3) ? number() : one(TEXTS);
    }
}
