package org.beefyield;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.assertj.core.api.Assertions;
import org.beefyield.boning.BalanceRule;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.cut.CutKind;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableComparison;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What every value promises: equal by what it holds, one line of text, the same after serialization. */
class ValuesTest {
    private static final YieldTable SMALL = YieldTable.of(TestTables.small());

    private static Cut cut() {
        return Cut.of("rump", "Rump", "primal", CutKind.PRIMAL)
                .withPiecesPerSide(1.0)
                .withSideSplitSdPct(5.0)
                .withFatPct(12.0)
                .withUnece("2090")
                .withNote("a note");
    }

    private static Basis basis() {
        return Basis.NOT_STATED
                .withQuartering("10-rib forequarter")
                .withHanging("hip")
                .withFatCoverMm(5.0)
                .withAgeingDays(7.5)
                .withBoneless(true);
    }

    private static TableRange range() {
        return TestTables.range(1, 18, 1, 15, 150, 600);
    }

    private static Carcass carcass() {
        return Carcass.of(
                        Category.STEER,
                        Conformation.parse("-U", GradeReading.HALVES),
                        FatClass.ofPosition(7.4, 0.2),
                        342)
                .withId("T-1")
                .withLot("Monday")
                .withSupplier("Tarrowmere")
                .withKillDate("2026-11-03")
                .withHall("Mereside")
                .withAgeMonths(26)
                .withAssured(true);
    }

    private static TrialSet trials(Trial... trials) {
        return TrialSet.of(SMALL, List.of(trials));
    }

    private static Trial trial(double boneKg) {
        return Trial.of(carcass(), Map.of("meat", 240.0, "fat-trim", 38.0, "bone", boneKg));
    }

    /** A value, its one line, and others that differ from it in one thing each. */
    private static <T> Arguments of(Supplier<T> made, String line, List<T> others) {
        return Arguments.of(Named.of(line, made), line, others);
    }

    private static <T> List<T> changed(T value, List<UnaryOperator<T>> changes) {
        return changes.stream().map(change -> change.apply(value)).toList();
    }

    static Stream<Arguments> values() {
        Trial balanced = trial(61.0);
        return Stream.of(
                of(
                        ValuesTest::cut,
                        "rump (Rump), primal of level primal",
                        Stream.concat(
                                        Stream.of(
                                                        Cut.of("round", "Rump", "primal", CutKind.PRIMAL),
                                                        Cut.of("rump", "Round", "primal", CutKind.PRIMAL),
                                                        Cut.of("rump", "Rump", "retail", CutKind.PRIMAL),
                                                        Cut.of("rump", "Rump", "primal", CutKind.STEAK))
                                                .map(other -> other.withPiecesPerSide(1.0)
                                                        .withSideSplitSdPct(5.0)
                                                        .withFatPct(12.0)
                                                        .withUnece("2090")
                                                        .withNote("a note")),
                                        changed(
                                                cut(),
                                                List.of(
                                                        value -> value.withPiecesPerSide(2.0),
                                                        value -> value.withPiecesPerSide(null),
                                                        value -> value.withSideSplitSdPct(6.0),
                                                        value -> value.withFatPct(13.0),
                                                        value -> value.withUnece(""),
                                                        value -> value.withNote("")))
                                                .stream())
                                .toList()),
                of(
                        ValuesTest::basis,
                        "10-rib forequarter, hung by hip, fat cover 5 mm, 7.5 days of ageing, boneless",
                        changed(
                                basis(),
                                List.of(
                                        value -> value.withQuartering(null),
                                        value -> value.withHanging("shank"),
                                        value -> value.withFatCoverMm(6.0),
                                        value -> value.withAgeingDays(7.0),
                                        value -> value.withBoneless(false)))),
                of(
                        ValuesTest::range,
                        "conformation 1 to 18, fat 1 to 15, 150 to 600 kg",
                        List.of(
                                TestTables.range(2, 18, 1, 15, 150, 600),
                                TestTables.range(1, 18, 1, 14, 150, 600),
                                TestTables.range(1, 18, 1, 15, 150, 601))),
                of(
                        () -> new ReferencePoint(8, 7.5, 340),
                        "conformation 8, fat 7.5, 340 kg",
                        List.of(
                                new ReferencePoint(9, 7.5, 340),
                                new ReferencePoint(8, 7, 340),
                                new ReferencePoint(8, 7.5, 341))),
                of(
                        TestTables::small,
                        "small@1.0: 6 cuts at the levels tissue, primal; 8 rows",
                        List.of(
                                TestTables.small().toBuilder("other", "1.0").build(),
                                TestTables.small().toBuilder("small", "1.1").build(),
                                TestTables.small().toBuilder().basis(basis()).build(),
                                TestTables.small().toBuilder()
                                        .residualDegreesOfFreedom(9)
                                        .build())),
                of(
                        ValuesTest::carcass,
                        "T-1 C -U half 7.4p width 0.2 342 kg",
                        changed(
                                carcass(),
                                List.of(
                                        value -> value.withId("T-2"),
                                        value -> value.withLot("Tuesday"),
                                        value -> value.withSupplier("x"),
                                        value -> value.withKillDate("2026-11-04"),
                                        value -> value.withHall("Upper Mere"),
                                        value -> value.withAgeMonths(27),
                                        value -> value.withAssured(false)))),
                of(
                        () -> CutCatalogue.of(SMALL.catalogue().cuts()),
                        "6 cuts: meat, fore, hind, fat-trim, bone, loss",
                        List.of(CutCatalogue.of(SMALL.catalogue().cuts().subList(0, 5)))),
                of(
                        () -> TableComparison.of(SMALL, YieldTable.of(TestTables.small())),
                        TableComparison.of(SMALL, SMALL).toString(),
                        List.of(TableComparison.of(SMALL, renamed()), TableComparison.of(renamed(), SMALL))),
                of(
                        () -> trials(trial(61.0)),
                        "1 trial of " + SMALL.identity() + ", 1 of them balances",
                        List.of(
                                trials(),
                                trials(trial(60.5)),
                                trials(trial(61.0)).with(BalanceRule.DEFAULT.withLimitPct(3)),
                                TrialSet.of(renamed(), List.of(balanced)),
                                TrialSet.of(
                                        SMALL,
                                        CuttingSpecification.NONE,
                                        Map.of("both", List.of("fore", "hind")),
                                        List.of(balanced)))),
                of(
                        () -> trials(trial(61.0)).breakdowns().get(0),
                        "carcass: 1 carcass",
                        List.of(
                                trials().breakdowns().get(0),
                                trials(trial(60.5)).breakdowns().get(0),
                                trials(Trial.of(carcass(), Map.of("bone", 61.0)))
                                        .breakdowns()
                                        .get(0),
                                trials(balanced).breakdowns().get(1))));
    }

    private static YieldTable renamed() {
        return YieldTable.of(TestTables.small().toBuilder("other", "1.0").build());
    }

    @ParameterizedTest
    @MethodSource("values")
    <T> void aValueIsEqualToOneThatHoldsTheSameAndToNoOther(Supplier<T> made, String line, List<T> others) {
        T value = made.get();

        assertThat(value)
                .isEqualTo(made.get())
                .hasSameHashCodeAs(made.get())
                .isNotSameAs(made.get())
                .isNotEqualTo(null)
                .isNotEqualTo(line);
        assertThat(others).isNotEmpty();
        for (T other : others) {
            assertThat(value).isNotEqualTo(other);
            assertThat(other).isNotEqualTo(value);
        }
        assertThat(value).hasToString(line);
        assertThat(line).doesNotContain("\n");
    }

    static Stream<Object> serializable() {
        return Stream.of(
                cut(),
                basis(),
                Basis.NOT_STATED,
                range(),
                new Range(1, 2),
                new ReferencePoint(8, 7.5, 340),
                TestTables.small(),
                TestTables.threeLevels(),
                carcass(),
                Conformation.parse("R+"),
                FatClass.parse("4H"),
                CuttingSpecification.of("steaks", Map.of("rump", "steaks")));
    }

    @ParameterizedTest
    @MethodSource("serializable")
    void aValueIsTheSameAfterSerialization(Object value) throws IOException, ClassNotFoundException {
        assertThat(serialized(value))
                .isEqualTo(value)
                .hasSameHashCodeAs(value)
                .hasToString(value.toString())
                .isNotSameAs(value);
    }

    @Test
    void anExceptionKeepsItsProblemsOverSerialization() throws IOException, ClassNotFoundException {
        TableDefinition wrong =
                TestTables.small().toBuilder().widthFit(9).categories().build();
        InvalidTableException thrown =
                Assertions.catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(wrong));

        InvalidTableException read = (InvalidTableException) serialized(thrown);

        assertThat(thrown.problems()).hasSizeGreaterThan(1);
        assertThat(read.problems()).isEqualTo(thrown.problems());
        assertThat(read).hasMessage(thrown.getMessage());
    }

    private static Object serialized(Object value) throws IOException, ClassNotFoundException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
            out.writeObject(value);
        }
        try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
            return in.readObject();
        }
    }
}
