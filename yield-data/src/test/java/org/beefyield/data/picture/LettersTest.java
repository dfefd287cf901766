package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class LettersTest {
    /** Letters from the blank to the tilde. */
    private static final int FIRST = 32;

    /** Units of the font file in an em. */
    private static final double UNITS = 2048;

    /**
     * Advance widths of DejaVu Sans 2.37, among the widest of the fonts that stand for sans-serif, as its file states them
     * (table hmtx): https://dejavu-fonts.github.io/.
     */
    private static final List<Integer> PLAIN = widths(
            "651 821 942 1716 1303 1946 1597 563 799 799 1024 1716 651 739 651 690 1303 1303 1303 1303 1303 1303 1303 1303 "
                    + "1303 1303 690 690 1716 1716 1716 1087 2048 1401 1405 1430 1577 1294 1178 1587 1540 604 604 1343 1141 1767 1532 1612 "
                    + "1235 1612 1423 1300 1251 1499 1401 2025 1403 1251 1403 799 690 799 1716 1024 1024 1255 1300 1126 1300 1260 721 1300 "
                    + "1298 569 569 1186 569 1995 1298 1253 1300 1300 842 1067 803 1298 1212 1675 1212 1212 1075 1303 690 1303 1716");

    /** The same of DejaVu Sans Bold. */
    private static final List<Integer> BOLD = widths(
            "713 934 1067 1716 1425 2052 1786 627 936 936 1071 1716 778 850 778 748 1425 1425 1425 1425 1425 1425 1425 1425 "
                    + "1425 1425 819 819 1716 1716 1716 1188 2048 1585 1561 1503 1700 1399 1399 1681 1714 762 762 1587 1305 2038 1714 1741 "
                    + "1501 1741 1577 1475 1397 1663 1585 2259 1579 1483 1485 936 748 936 1716 1024 1024 1382 1466 1214 1466 1389 891 1466 "
                    + "1458 702 702 1362 702 2134 1458 1407 1466 1466 1010 1219 979 1458 1335 1892 1321 1335 1192 1458 748 1458 1716");

    private static List<Integer> widths(String text) {
        return Pattern.compile(" ").splitAsStream(text).map(Integer::valueOf).toList();
    }

    @Test
    void noLetterIsWiderThanItIsTakenToBe() {
        assertThat(PLAIN).hasSize(127 - FIRST);
        assertThat(BOLD).hasSize(127 - FIRST);
        // a thousand of each, as a width is whole pixels
        for (int i = 0; i < PLAIN.size(); i++) {
            String letters = Character.toString(FIRST + i).repeat(1000);
            assertThat(Letters.TEXT.widthPx(letters) / 1000.0)
                    .as(letters.substring(0, 1))
                    .isGreaterThanOrEqualTo(PLAIN.get(i) / UNITS * 13)
                    .isLessThan(PLAIN.get(i) / UNITS * 13 * 1.7);
            assertThat(Letters.BOLD.widthPx(letters) / 1000.0)
                    .as("bold " + letters.charAt(0))
                    .isGreaterThanOrEqualTo(BOLD.get(i) / UNITS * 13)
                    .isLessThan(BOLD.get(i) / UNITS * 13 * 1.7);
        }
    }

    /** Lower-case words, capitals and figures come out a little wide, not wasteful. */
    @Test
    void wordsAreTakenToBeLittleWiderThanTheyAre() {
        for (String text : List.of(
                "Shoulder (leg of mutton cut)",
                "Silverside joint",
                "kg, each bar beginning",
                "64.1 (57.4 to 70.9)",
                "10348")) {
            double true13 =
                    text.chars().map(letter -> PLAIN.get(letter - FIRST)).sum() / UNITS * 13;
            assertThat(Letters.TEXT.widthPx(text)).as(text).isBetween((int) true13, (int) (true13 * 1.25));
        }
    }

    @Test
    void lettersOfOtherScriptsAndPicturesAreTakenToBeWide() {
        assertThat(Letters.TEXT.widthPx("\u0428".repeat(100))).isEqualTo(1625);
        assertThat(Letters.TEXT.widthPx("\u0448".repeat(100))).isEqualTo(1261);
        assertThat(Letters.TEXT.widthPx("\u725B".repeat(100))).isEqualTo(1625);
        assertThat(Letters.TEXT.widthPx("\uD83D\uDC04".repeat(100))).isEqualTo(1625);
        assertThat(Letters.TEXT.widthPx("")).isZero();
    }

    @Test
    void longNamesWrapAtBlanksAndEndlessWordsAreCut() {
        int px = Letters.TEXT.widthPx("0123456789");
        assertThat(Letters.TEXT.wrap("Rump", px)).containsExactly("Rump");
        assertThat(Letters.TEXT.wrap("Rump and tail of rump", px)).containsExactly("Rump and", "tail of", "rump");
        assertThat(Letters.TEXT.wrap("An Hinterviertelfleisch", px)).containsExactly("An", "Hinterviert", "elfleisch");
        assertThat(Letters.TEXT.wrap("", px)).containsExactly("");
        assertThat(Letters.TEXT.wrap(" \u0000Rump\n", px)).containsExactly("Rump");
        String pair = "\uD83D\uDC04";
        assertThat(Letters.TEXT.wrap("012345678" + pair, px)).containsExactly("012345678", pair);
        assertThat(Letters.TEXT.wrap(pair + pair, 1)).containsExactly(pair, pair);
    }
}
