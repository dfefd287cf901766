package org.beefyield.carcass;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** Grades of both scales and both readings. The texts are built here from the letters, not from the library. */
class GradeProperties {
    private static final String CONFORMATION_CLASSES = "PORUES";
    private static final String FAT_CLASSES = "12345";
    private static final List<String> CONFORMATION_LETTERS = List.of(CONFORMATION_CLASSES.split(""));
    private static final List<String> FAT_DIGITS = List.of(FAT_CLASSES.split(""));
    private static final List<String> THIRDS = List.of("-", "=", "+");

    /** A grade as a sheet has it: its text, how it is read, and the lower and upper edge of what it covers. */
    record Written(String text, Function<String, Grade> reader, double from, double to) {
        Grade read() {
            return reader.apply(text);
        }

        boolean isHalf() {
            return to - from == 1.5;
        }

        @Override
        public String toString() {
            return text + " from " + from + " to " + to;
        }
    }

    /** What both kinds of grade have in common, for these checks. */
    record Grade(Object grade, double position, double width) {
        static Grade conformation(String text, GradeReading reading) {
            Conformation c = Conformation.parse(text, reading);
            return new Grade(c, c.position(), c.width());
        }

        static Grade fat(String text) {
            FatClass f = FatClass.parse(text);
            return new Grade(f, f.position(), f.width());
        }
    }

    @Provide
    Arbitrary<Written> grades() {
        return Arbitraries.of(all());
    }

    private static List<Written> all() {
        List<Written> all = new ArrayList<>();
        for (int k = 1; k <= 6; k++) {
            String letter = CONFORMATION_LETTERS.get(k - 1);
            Function<String, Grade> thirds = text -> Grade.conformation(text, GradeReading.THIRDS);
            Function<String, Grade> halves = text -> Grade.conformation(text, GradeReading.HALVES);
            addWholeAndThirds(all, letter, k, thirds);
            double edge = 3 * k - 2.5;
            all.add(new Written(letter, halves, edge, edge + 3));
            all.add(new Written("-" + letter, halves, edge, edge + 1.5));
            all.add(new Written(letter + "+", halves, edge + 1.5, edge + 3));
        }
        for (int k = 1; k <= 5; k++) {
            String digit = FAT_DIGITS.get(k - 1);
            addWholeAndThirds(all, digit, k, Grade::fat);
            if (k >= 4) {
                double edge = 3 * k - 2.5;
                all.add(new Written(digit + "L", Grade::fat, edge, edge + 1.5));
                all.add(new Written(digit + "H", Grade::fat, edge + 1.5, edge + 3));
            }
        }
        return all;
    }

    private static void addWholeAndThirds(List<Written> all, String label, int k, Function<String, Grade> reader) {
        double edge = 3 * k - 2.5;
        all.add(new Written(label, reader, edge, edge + 3));
        for (int third = 0; third < 3; third++) {
            all.add(new Written(label + THIRDS.get(third), reader, edge + third, edge + third + 1));
        }
    }

    @Property
    void aGradeIsReadBackAsItPrints(@ForAll("grades") Written written) {
        Object grade = written.read().grade();

        String half =
                CONFORMATION_LETTERS.stream().anyMatch(written.text()::contains) && written.isHalf() ? " half" : "";
        assertThat(grade).hasToString(written.text() + half);
        assertThat(written.reader().apply(grade.toString()).grade())
                .isEqualTo(grade)
                .hasSameHashCodeAs(grade);
        assertThat(readBack(grade)).isEqualTo(grade);
    }

    /** By the one parse that needs to know nothing of where the text came from. */
    private static Object readBack(Object grade) {
        return grade instanceof Conformation ? Conformation.parse(grade.toString()) : FatClass.parse(grade.toString());
    }

    @Property
    void aPositionOfAnyWidthIsReadBackAsItPrints(
            @ForAll("conformations") Conformation conformation, @ForAll("fatClasses") FatClass fatClass) {
        assertThat(readBack(conformation)).isEqualTo(conformation).hasSameHashCodeAs(conformation);
        assertThat(readBack(fatClass)).isEqualTo(fatClass).hasSameHashCodeAs(fatClass);
        if (conformation.toString().endsWith(" half") || conformation.toString().contains("p")) {
            assertThat(Conformation.parse(conformation.toString(), GradeReading.HALVES))
                    .isEqualTo(conformation);
        }
    }

    @Property
    void conformationsAreOrderedByPositionThenWidth(
            @ForAll("conformations") Conformation one, @ForAll("conformations") Conformation other) {
        assertOrder(one, other, one.position(), other.position(), one.width(), other.width());
    }

    @Property
    void fatClassesAreOrderedByPositionThenWidth(
            @ForAll("fatClasses") FatClass one, @ForAll("fatClasses") FatClass other) {
        assertOrder(one, other, one.position(), other.position(), one.width(), other.width());
    }

    private static <G extends Comparable<G>> void assertOrder(
            G one, G other, double position, double otherPosition, double width, double otherWidth) {
        int expected =
                position != otherPosition ? (position < otherPosition ? -1 : 1) : Double.compare(width, otherWidth);

        assertThat(Integer.signum(one.compareTo(other))).isEqualTo(expected);
        assertThat(Integer.signum(other.compareTo(one))).isEqualTo(-expected);
        assertThat(one.equals(other)).isEqualTo(expected == 0);
        assertThat(other.equals(one)).isEqualTo(expected == 0);
        if (expected == 0) {
            assertThat(one).hasSameHashCodeAs(other);
        }
    }

    /** Grades of every reading and positions of every width, many of them where grades stand, so that equal ones meet. */
    @Provide
    Arbitrary<Conformation> conformations() {
        return Arbitraries.oneOf(
                grades().map(Written::read)
                        .map(Grade::grade)
                        .filter(Conformation.class::isInstance)
                        .map(Conformation.class::cast),
                Combinators.combine(Arbitraries.integers().between(4, 72), widths())
                        .as((quarter, width) -> Conformation.ofPosition(quarter / 4.0, width)),
                Combinators.combine(Arbitraries.doubles().between(1, 18).ofScale(15), anyWidths())
                        .as(Conformation::ofPosition));
    }

    @Provide
    Arbitrary<FatClass> fatClasses() {
        return Arbitraries.oneOf(
                grades().map(Written::read)
                        .map(Grade::grade)
                        .filter(FatClass.class::isInstance)
                        .map(FatClass.class::cast),
                Combinators.combine(Arbitraries.integers().between(4, 60), widths())
                        .as((quarter, width) -> FatClass.ofPosition(quarter / 4.0, width)),
                Combinators.combine(Arbitraries.doubles().between(1, 15).ofScale(15), anyWidths())
                        .as(FatClass::ofPosition));
    }

    private static Arbitrary<Double> widths() {
        return Arbitraries.of(0.0, -0.0, 1.0, 1.5, 3.0);
    }

    private static Arbitrary<Double> anyWidths() {
        return Arbitraries.oneOf(
                widths(), Arbitraries.doubles().between(0, 3).ofScale(20), Arbitraries.of(Double.MIN_VALUE));
    }

    @Property
    void aGradeSitsAtTheMiddleOfThePartItCovers(@ForAll("grades") Written written) {
        Grade grade = written.read();

        assertThat(grade.position() - grade.width() / 2).isEqualTo(written.from());
        assertThat(grade.position() + grade.width() / 2).isEqualTo(written.to());
    }

    @Property
    void distinctGradesOfOneReadingAreNotEqual(@ForAll("grades") Written one, @ForAll("grades") Written other) {
        boolean sameGrade = one.text().equals(other.text()) && one.from() == other.from() && one.to() == other.to();

        assertThat(one.read().grade().equals(other.read().grade())).isEqualTo(sameGrade);
    }

    @Property
    void caseAndBlanksMakeNoDifference(@ForAll("grades") Written written, @ForAll("blanks") List<String> blanks) {
        StringBuilder spaced = new StringBuilder(blanks.get(0));
        for (int i = 0; i < written.text().length(); i++) {
            spaced.append(written.text().charAt(i)).append(blanks.get(i + 1));
        }

        assertThat(written.reader().apply(spaced.toString())).isEqualTo(written.read());
        assertThat(written.reader().apply(spaced.toString().toLowerCase(Locale.ROOT)))
                .isEqualTo(written.read());
    }

    @Provide
    Arbitrary<List<String>> blanks() {
        return Arbitraries.strings()
                .withChars(' ', '\t', '\r', '\n')
                .ofMaxLength(2)
                .list()
                .ofSize(3);
    }

    @Example
    void aWholeClassAndItsMiddleThirdHaveTheSamePosition() {
        for (String letter : CONFORMATION_LETTERS) {
            assertThat(Conformation.parse(letter).position())
                    .isEqualTo(Conformation.parse(letter + "=").position());
        }
        for (String digit : FAT_DIGITS) {
            assertThat(FatClass.parse(digit).position())
                    .isEqualTo(FatClass.parse(digit + "=").position());
        }
    }

    @Example
    void thirdsTileTheWholeScaleInAscendingOrder() {
        List<Grade> conformations = CONFORMATION_LETTERS.stream()
                .flatMap(letter -> THIRDS.stream().map(sign -> letter + sign))
                .map(text -> Grade.conformation(text, GradeReading.THIRDS))
                .toList();
        List<Grade> fats = FAT_DIGITS.stream()
                .flatMap(digit -> THIRDS.stream().map(sign -> digit + sign))
                .map(Grade::fat)
                .toList();

        assertThat(conformations.stream().map(Grade::position))
                .containsExactlyElementsOf(
                        IntStream.rangeClosed(1, 18).mapToObj(Double::valueOf).toList());
        assertThat(fats.stream().map(Grade::position))
                .containsExactlyElementsOf(
                        IntStream.rangeClosed(1, 15).mapToObj(Double::valueOf).toList());
        assertTiles(conformations, 0.5, 18.5);
        assertTiles(fats, 0.5, 15.5);
    }

    @Example
    void halvesTileTheirClassesInAscendingOrder() {
        assertTiles(
                CONFORMATION_LETTERS.stream()
                        .flatMap(letter -> Stream.of("-" + letter, letter + "+"))
                        .map(text -> Grade.conformation(text, GradeReading.HALVES))
                        .toList(),
                0.5,
                18.5);
        assertTiles(Stream.of("4L", "4H", "5L", "5H").map(Grade::fat).toList(), 9.5, 15.5);
    }

    @Example
    void wholeClassesTileTheScale() {
        assertTiles(
                CONFORMATION_LETTERS.stream()
                        .map(letter -> Grade.conformation(letter, GradeReading.HALVES))
                        .toList(),
                0.5,
                18.5);
        assertTiles(FAT_DIGITS.stream().map(Grade::fat).toList(), 0.5, 15.5);
    }

    private static void assertTiles(List<Grade> grades, double from, double to) {
        double edge = from;
        for (Grade grade : grades) {
            assertThat(grade.position() - grade.width() / 2)
                    .as("lower edge of %s", grade.grade())
                    .isEqualTo(edge);
            edge += grade.width();
        }
        assertThat(edge).isEqualTo(to);
    }

    @Property
    void anyTextIsAConformationThatReadsBackOrIsRefusedByItsName(
            @ForAll("junk") String text, @ForAll GradeReading reading) {
        Conformation conformation;
        try {
            conformation = Conformation.parse(text, reading);
        } catch (RuntimeException e) {
            assertRefusal(e, text);
            return;
        }
        assertThat(Conformation.parse(conformation.toString(), reading)).isEqualTo(conformation);
    }

    @Property
    void anyTextIsAFatClassThatReadsBackOrIsRefusedByItsName(@ForAll("junk") String text) {
        FatClass fatClass;
        try {
            fatClass = FatClass.parse(text);
        } catch (RuntimeException e) {
            assertRefusal(e, text);
            return;
        }
        assertThat(FatClass.parse(fatClass.toString())).isEqualTo(fatClass);
    }

    @Property
    void anyTextIsACategoryOrIsRefusedByItsName(@ForAll("junk") String text) {
        Category category;
        try {
            category = Category.parse(text);
        } catch (RuntimeException e) {
            assertRefusal(e, text);
            return;
        }
        assertThat(text).containsIgnoringCase(category.letter());
    }

    private static void assertRefusal(RuntimeException e, String text) {
        assertThat(e).isExactlyInstanceOf(IllegalArgumentException.class);
        assertThat(e.getMessage()).contains(text.strip()).doesNotEndWith(".");
    }

    /** Mostly what looks like a grade, sometimes anything at all. */
    @Provide
    Arbitrary<String> junk() {
        Arbitrary<String> gradeLike = Arbitraries.strings()
                .withChars("SEUROPseurop12345+-=".toCharArray())
                .ofMaxLength(3);
        Arbitrary<String> nearlyGradeLike = Arbitraries.strings()
                .withChars("SEUROPseurop0123456789+-=LHlh.,p \t\u2212\u2013\u00a0\u2003\u0131\u017f".toCharArray())
                .ofMaxLength(5);
        Arbitrary<String> anything = Arbitraries.strings().ofMaxLength(20);
        return Combinators.combine(Arbitraries.integers().between(0, 9), gradeLike, nearlyGradeLike, anything)
                .as((which, like, nearly, any) -> which < 4 ? like : which < 8 ? nearly : any);
    }

    @Property
    void aPositionOnTheScaleIsKeptAndPrintsWithItsFigure(@ForAll("conformationPositions") double position) {
        Conformation conformation = Conformation.ofPosition(position, 1);

        assertThat(conformation.position()).isEqualTo(position);
        assertThat(conformation.toString()).endsWith("p").doesNotContain("E");
        assertThat(Double.parseDouble(conformation.toString().replace("p", ""))).isEqualTo(position);
        assertThat(CONFORMATION_CLASSES.indexOf(conformation.classLetter()) + 1)
                .isEqualTo((int) Math.floor((position + 2.5) / 3));
    }

    @Provide
    Arbitrary<Double> conformationPositions() {
        return Arbitraries.doubles().between(1, 18).ofScale(4);
    }

    @Property
    void theThirdAtAPositionIsTheOneThatParseReadsThere(@ForAll("nodes") int position) {
        String sign = THIRDS.get((position - 1) % 3);
        int k = (position - 1) / 3;

        assertThat(Conformation.third(position)).isEqualTo(Conformation.parse(CONFORMATION_LETTERS.get(k) + sign));
        if (position <= 15) {
            assertThat(FatClass.third(position)).isEqualTo(FatClass.parse(FAT_DIGITS.get(k) + sign));
        }
    }

    @Provide
    Arbitrary<Integer> nodes() {
        return Arbitraries.integers().between(1, 18);
    }
}
