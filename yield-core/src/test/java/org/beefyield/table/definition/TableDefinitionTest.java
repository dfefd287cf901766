package org.beefyield.table.definition;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.TestTables;
import org.junit.jupiter.api.Test;

class TableDefinitionTest {
    private static final String SOURCE = TestTables.SOURCE;

    private static TableResource resource(TableDefinition definition, String name) {
        return definition.resources().stream()
                .filter(resource -> resource.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no resource " + name));
    }

    @Test
    void partsWithoutRowsAreNoResources() {
        assertThat(TestTables.small().resources())
                .extracting(TableResource::name)
                .containsExactly("cuts", "breakdown", "sources");
        assertThat(TableDefinition.builder("empty", "1").build().resources()).isEmpty();
    }

    @Test
    void everyPartIsWrittenAsTextWithAColumnForEachOfItsFields() {
        TableDefinition rich = TestTables.small().toBuilder()
                .cut(Cut.of("dice", "Dice", "primal", CutKind.DICE)
                        .withPiecesPerSide(2.5)
                        .withSideSplitSdPct(7.0)
                        .withFatPct(12.0)
                        .withUnece("1234")
                        .withNote("a note"))
                .row(new ClassRow("D", "way", "meat", "R", "3+", "fore", 80.5, 4, SOURCE))
                .specification("steaks", "rump", "joints")
                .quartering(new QuarteringRow("pistola", "fore", 0.25, SOURCE))
                .coefficientNote(new CoefficientNote("*", "*", "meat", "fore", "per_100kg", 0.4, SOURCE))
                .coefficientNote(new CoefficientNote("*", "*", "meat", "hind", "per_100kg", null, SOURCE))
                .covariance(CovarianceRow.residual("meat", "fore", "hind", -25))
                .covariance(new CovarianceRow("C", "w", "meat", "fore", "per_100kg", "hind", "per_fat_point", 0.5))
                .expectation(new Expectation(
                        "fore",
                        null,
                        "primal",
                        Variable.FAT,
                        Expectation.Direction.RISES,
                        true,
                        Expectation.Over.FITTED,
                        "why"))
                .expectation(new Expectation(
                        null,
                        CutKind.BONE,
                        "primal",
                        Variable.WEIGHT,
                        Expectation.Direction.FALLS,
                        false,
                        Expectation.Over.ALLOWED,
                        ""))
                .name(new CutName("fore", "de", "Vorderviertel"))
                .build();
        assertThat(rich.resources())
                .extracting(TableResource::name)
                .containsExactly(
                        "cuts",
                        "breakdown",
                        "breakdown-by-class",
                        "specifications",
                        "quartering",
                        "coefficient-notes",
                        "residual-covariance",
                        "coefficient-covariance",
                        "expectations",
                        "names",
                        "sources");
        assertThat(resource(rich, "cuts").rows().get(6))
                .containsExactly("dice", "Dice", "primal", "dice", "2.5", "7", "12", "1234", "a note");
        assertThat(resource(rich, "cuts").rows().get(0))
                .containsExactly("meat", "Meat", "tissue", "meat", "", "", "", "", "");
        assertThat(resource(rich, "breakdown").rows().get(0))
                .containsExactly("*", "*", "carcass", "meat", "700", "8", "-9", "5", "20", SOURCE);
        assertThat(resource(rich, "breakdown-by-class").rows())
                .containsExactly(List.of("D", "way", "meat", "R", "3+", "fore", "80.5", "4", SOURCE));
        assertThat(resource(rich, "specifications").rows()).containsExactly(List.of("steaks", "rump", "joints"));
        assertThat(resource(rich, "quartering").rows()).containsExactly(List.of("pistola", "fore", "0.25", SOURCE));
        assertThat(resource(rich, "coefficient-notes").rows())
                .containsExactly(
                        List.of("*", "*", "meat", "fore", "per_100kg", "0.4", SOURCE),
                        List.of("*", "*", "meat", "hind", "per_100kg", "", SOURCE));
        assertThat(resource(rich, "residual-covariance").rows())
                .containsExactly(List.of("*", "*", "meat", "fore", "hind", "-25"));
        assertThat(resource(rich, "coefficient-covariance").rows())
                .containsExactly(List.of("C", "w", "meat", "fore", "per_100kg", "hind", "per_fat_point", "0.5"));
        assertThat(resource(rich, "expectations").rows())
                .containsExactly(
                        List.of("fore", "", "primal", "fat", "rises", "true", "fitted", "why"),
                        List.of("", "bone", "primal", "weight", "falls", "false", "allowed", ""));
        assertThat(resource(rich, "names").rows()).containsExactly(List.of("fore", "de", "Vorderviertel"));
        assertThat(resource(rich, "sources").rows())
                .containsExactly(List.of(SOURCE, "assumption", "invented for tests", ""));
        assertThat(rich.resources())
                .allSatisfy(resource -> assertThat(resource.rows())
                        .allSatisfy(row -> assertThat(row).hasSameSizeAs(resource.columns())));
    }

    @Test
    void extraColumnsStandBehindInOrderOfTheirNamesAndAreEmptyWhereAValueIsLacking() {
        TableDefinition definition = TestTables.small().toBuilder()
                .source(TestTables.source("other"))
                .extraColumn(new ExtraColumn("sources", "seen_on", "date", List.of("2026-02-03")))
                .extraColumn(new ExtraColumn("sources", "checked_by", "string", List.of("mb", "jk")))
                .build();
        TableResource sources = resource(definition, "sources");
        assertThat(sources.columns()).containsExactly("source", "kind", "citation", "note", "checked_by", "seen_on");
        assertThat(sources.rows())
                .containsExactly(
                        List.of(SOURCE, "assumption", "invented for tests", "", "mb", "2026-02-03"),
                        List.of("other", "assumption", "invented for tests", "", "jk", ""));
    }

    @Test
    void clearingTakesTheRowsOfBothFormsAway() {
        TableDefinition.Builder builder =
                TestTables.small().toBuilder().row(new ClassRow("*", "*", "meat", "R", "3", "fore", 80.5, 4, SOURCE));
        TableDefinition cleared = builder.clearBreakdown().build();
        assertThat(cleared.breakdown()).isEmpty();
        assertThat(cleared.breakdownByClass()).isEmpty();
        assertThat(cleared.cuts()).isNotEmpty();
    }
}
