package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.Metadata;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TableDigestTest {
    private static final TableDefinition THREE = TestTables.threeLevels();

    private static String digest(TableDefinition definition) {
        return TableDigest.of(definition);
    }

    /** The fields of a definition, in order. */
    private static List<Field> components() {
        return Arrays.stream(TableDefinition.class.getDeclaredFields())
                .filter(field -> !Modifier.isStatic(field.getModifiers()) && !field.isSynthetic())
                .toList();
    }

    /** The same definition with one component replaced. */
    private static TableDefinition with(TableDefinition definition, String component, Object value) {
        if (component.equals("name")) {
            return definition.toBuilder((String) value, definition.version()).build();
        }
        if (component.equals("version")) {
            return definition.toBuilder(definition.name(), (String) value).build();
        }
        TableDefinition.Builder builder = definition.toBuilder();
        try {
            Field field = TableDefinition.Builder.class.getDeclaredField(component);
            field.setAccessible(true);
            if (field.get(builder) instanceof List<?> rows) {
                replace(rows, (List<?>) value);
            } else {
                field.set(builder, value);
            }
            return builder.build();
        } catch (ReflectiveOperationException e) {
            throw new LinkageError(e.getMessage(), e);
        }
    }

    @SuppressWarnings("unchecked")
    private static <T> void replace(List<T> rows, List<?> with) {
        rows.clear();
        rows.addAll((List<T>) with);
    }

    private static Object component(TableDefinition definition, Field component) {
        try {
            component.setAccessible(true);
            return component.get(definition);
        } catch (ReflectiveOperationException e) {
            throw new LinkageError(e.getMessage(), e);
        }
    }

    private static <T> List<T> rotated(List<T> rows, int distance) {
        List<T> rotated = new ArrayList<>(rows);
        Collections.rotate(rotated, distance);
        return rotated;
    }

    /** Three levels with at least two rows in every part; it need not hold. */
    private static TableDefinition rich() {
        return THREE.toBuilder()
                .license(new License("Apache-2.0", "", ""))
                .source(TestTables.source("other"))
                .name(new CutName("rump", "de", "Hüfte"))
                .coefficientNote(new CoefficientNote("*", "*", "meat", "striploin", "per_fat_point", null, "other"))
                .covariance(CovarianceRow.residual("meat", "rump", "rump", 9))
                .covariance(CovarianceRow.residual("meat", "rump", "striploin", -4))
                .covariance(
                        new CovarianceRow("*", "*", "meat", "rump", "per_fat_point", "striploin", "per_100kg", 0.25))
                .covariance(new CovarianceRow("*", "*", "meat", "rump", "per_fat_point", "rump", "per_100kg", 0.5))
                .decimals("level_g_per_kg", 3)
                .decimals("per_100kg", 4)
                .row(new ClassRow("*", "*", "meat", "R", "3", "rump", 80, 4, "other"))
                .row(new ClassRow("*", "*", "meat", "R", "4", "rump", 80, 4, "other"))
                .extraColumn(new ExtraColumn("names", "checked_by", "string", List.of("mb", "")))
                .extraColumn(new ExtraColumn("names", "checked_on", "date", List.of("", "2026-01-31")))
                .provenance(new Provenance("cut rump", Provenance.CODE))
                .provenance(new Provenance("breakdown of meat", "other@1"))
                .build();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "categories",
                "breakdown",
                "breakdownByClass",
                "quartering",
                "coefficientNotes",
                "covariances",
                "expectations",
                "sources"
            })
    void theOrderOfRowsThatMeansNothingDoesNotChangeTheDigest(String part) {
        TableDefinition rich = rich();
        for (Field component : components()) {
            if (component.getName().equals(part)) {
                List<?> rows = (List<?>) component(rich, component);
                TableDefinition other = with(rich, part, rotated(rows, 1));
                assertThat(other).isNotEqualTo(rich);
                assertThat(digest(other)).isEqualTo(digest(rich));
            }
        }
    }

    @Test
    void theOrderOfNamesWithoutExtraColumnsDoesNotChangeTheDigest() {
        TableDefinition plain = with(rich(), "extraColumns", List.of());
        assertThat(digest(with(plain, "names", rotated(plain.names(), 1)))).isEqualTo(digest(plain));
    }

    @Test
    void theOrderOfCutsSpecificationsLevelsAndTermsChangesIt() {
        TableDefinition rich = rich();
        assertThat(List.of(
                        digest(rich),
                        digest(with(rich, "cuts", rotated(rich.cuts(), 1))),
                        digest(with(rich, "specifications", rotated(rich.specifications(), 1))),
                        digest(with(rich, "levels", rotated(rich.levels(), 1))),
                        digest(with(rich, "terms", rotated(rich.terms(), 1)))))
                .doesNotHaveDuplicates();
    }

    @Test
    void tablesWithShuffledRowsAreEqual() {
        List<BreakdownRow> rows = new ArrayList<>(THREE.breakdown());
        Collections.shuffle(rows, new Random(5));
        YieldTable shuffled = YieldTable.of(with(THREE, "breakdown", rows));
        assertThat(shuffled).isEqualTo(YieldTable.of(THREE)).hasSameHashCodeAs(YieldTable.of(THREE));
    }

    /** A part that is added to definitions and forgotten in the digest is caught here. */
    @Test
    void noPartOfADefinitionIsLeftOutOfTheDigest() {
        TableDefinition rich = rich();
        for (Field component : components()) {
            Object value = component(rich, component);
            if (component.getName().equals("metadata")) {
                continue; // it changes no figure: metadataChangeTheDefinitionAndNotTheDigest
            }
            if (value instanceof List<?> list) {
                assertThat(list)
                        .as(component.getName() + ": rich() needs an example")
                        .hasSizeGreaterThan(1);
                TableDefinition shorter = with(rich, component.getName(), list.subList(1, list.size()));
                assertThat(digest(shorter)).as(component.getName()).isNotEqualTo(digest(rich));
            } else if (value instanceof String text) {
                assertThat(digest(with(rich, component.getName(), text + "x")))
                        .as(component.getName())
                        .isNotEqualTo(digest(rich));
            } else {
                // each of these has its own line in anyChangeOfAKeyChangesTheDigest
                assertThat(component.getName())
                        .isIn(
                                "reference",
                                "fitted",
                                "allowed",
                                "widthFit",
                                "residualDegreesOfFreedom",
                                "runDegreesOfFreedom",
                                "basis",
                                "decimals");
            }
        }
    }

    @Test
    void metadataChangeTheDefinitionAndNotTheDigest() {
        TableDefinition rich = rich();
        TableDefinition with = rich.toBuilder()
                .metadata(new Metadata("", "homepage", "\"https://example.org\""))
                .build();

        assertThat(digest(with)).isEqualTo(digest(rich));
        assertThat(with).isNotEqualTo(rich);
        assertThat(with.toBuilder("other", "2").build().metadata()).isEqualTo(with.metadata());
    }

    @Test
    void anyChangeOfAKeyChangesTheDigest() {
        Map<String, TableDefinition> changed = new LinkedHashMap<>();
        changed.put("name", THREE.toBuilder("other", THREE.version()).build());
        changed.put("version", THREE.toBuilder(THREE.name(), "2.2").build());
        changed.put(
                "title", THREE.toBuilder().about("other", THREE.description()).build());
        changed.put(
                "description", THREE.toBuilder().about(THREE.title(), "other").build());
        changed.put(
                "title and description swapped",
                THREE.toBuilder().about(THREE.description(), THREE.title()).build());
        changed.put(
                "text moved from title to description",
                THREE.toBuilder()
                        .about(
                                THREE.title() + THREE.description().charAt(0),
                                THREE.description().substring(1))
                        .build());
        changed.put(
                "licence",
                THREE.toBuilder().license(new License("Apache-2.0", "", "")).build());
        changed.put(
                "levels",
                THREE.toBuilder().levels("tissues", "primal", "retail").build());
        changed.put(
                "reference conformation", THREE.toBuilder().reference(9, 8, 340).build());
        changed.put("reference fat", THREE.toBuilder().reference(8, 9, 340).build());
        changed.put("reference weight", THREE.toBuilder().reference(8, 8, 340.5).build());
        double[] ends = {2, 14, 3, 13, 234, 501};
        double[] allowed = {1, 18, 1, 15, 150, 600};
        for (int i = 0; i < ends.length; i++) {
            double[] fitted = ends.clone();
            fitted[i] += 0.5;
            changed.put(
                    "fitted range " + i,
                    THREE.toBuilder().ranges(range(fitted), range(allowed)).build());
            double[] other = allowed.clone();
            other[i] += 0.5;
            changed.put(
                    "allowed range " + i,
                    THREE.toBuilder().ranges(range(ends), range(other)).build());
        }
        changed.put(
                "residual_degrees_of_freedom",
                THREE.toBuilder().residualDegreesOfFreedom(40).build());
        changed.put(
                "run_degrees_of_freedom",
                THREE.toBuilder().runDegreesOfFreedom(17).build());
        changed.put("width_fit", THREE.toBuilder().widthFit(1.5).build());
        changed.put(
                "categories",
                THREE.toBuilder().categories(Category.STEER, Category.COW).build());
        changed.put("decimals", THREE.toBuilder().decimals("per_100kg", 3).build());
        changed.put("column of a term", withTerm(new Term.Hinge("x", Variable.FAT, Term.Side.BELOW, 3)));
        changed.put(
                "variable of a hinge",
                withTerm(new Term.Hinge("fat_below_3", Variable.CONFORMATION, Term.Side.BELOW, 3)));
        changed.put("side of a hinge", withTerm(new Term.Hinge("fat_below_3", Variable.FAT, Term.Side.ABOVE, 3)));
        changed.put("knot of a hinge", withTerm(new Term.Hinge("fat_below_3", Variable.FAT, Term.Side.BELOW, 4)));
        changed.put("kind of a term", withTerm(new Term.Product("fat_below_3", Variable.FAT, Variable.WEIGHT)));
        Basis basis = Basis.NOT_STATED
                .withQuartering("q")
                .withHanging("h")
                .withFatCoverMm(1.0)
                .withAgeingDays(2.0)
                .withBoneless(true);
        for (Basis other : List.of(
                basis,
                Basis.NOT_STATED
                        .withHanging("h")
                        .withFatCoverMm(1.0)
                        .withAgeingDays(2.0)
                        .withBoneless(true),
                Basis.NOT_STATED
                        .withQuartering("q")
                        .withFatCoverMm(1.0)
                        .withAgeingDays(2.0)
                        .withBoneless(true),
                Basis.NOT_STATED
                        .withQuartering("q")
                        .withHanging("h")
                        .withAgeingDays(2.0)
                        .withBoneless(true),
                Basis.NOT_STATED
                        .withQuartering("q")
                        .withHanging("h")
                        .withFatCoverMm(1.0)
                        .withBoneless(true),
                Basis.NOT_STATED
                        .withQuartering("q")
                        .withHanging("h")
                        .withFatCoverMm(1.0)
                        .withAgeingDays(2.0),
                Basis.NOT_STATED
                        .withQuartering("q")
                        .withHanging("h")
                        .withFatCoverMm(1.5)
                        .withAgeingDays(2.0)
                        .withBoneless(true),
                Basis.NOT_STATED
                        .withQuartering("q")
                        .withHanging("h")
                        .withFatCoverMm(1.0)
                        .withAgeingDays(2.0)
                        .withBoneless(false))) {
            changed.put("basis " + other, THREE.toBuilder().basis(other).build());
        }
        changed.put(
                "an extra column",
                THREE.toBuilder()
                        .extraColumn(new ExtraColumn("sources", "checked_by", "string", List.of("mb")))
                        .build());
        changed.put(
                "a value of an extra column",
                THREE.toBuilder()
                        .extraColumn(new ExtraColumn("sources", "checked_by", "string", List.of("xy")))
                        .build());
        changed.put(
                "the type of an extra column",
                THREE.toBuilder()
                        .extraColumn(new ExtraColumn("sources", "checked_by", "any", List.of("mb")))
                        .build());
        allDiffer(changed);
    }

    private static TableRange range(double... ends) {
        return TestTables.range(ends[0], ends[1], ends[2], ends[3], ends[4], ends[5]);
    }

    private static TableDefinition withTerm(Term first) {
        List<Term> terms = new ArrayList<>(THREE.terms());
        terms.set(0, first);
        return with(THREE, "terms", terms);
    }

    /** The digests all differ from that of the unchanged table and from each other. */
    private static void allDiffer(Map<String, TableDefinition> changed) {
        Map<String, String> seen = new LinkedHashMap<>();
        seen.put(digest(THREE), "unchanged");
        changed.forEach((change, definition) -> assertThat(seen.put(digest(definition), change))
                .as("a table of the same digest as that with another " + change)
                .isNull());
    }

    @Test
    void anyChangeOfARowChangesTheDigest() {
        Map<String, TableDefinition> changed = new LinkedHashMap<>();
        for (int column = 0; column < 8; column++) {
            changed.put(
                    "coefficient " + column,
                    TestTables.changeCoefficient(
                                    THREE,
                                    7,
                                    column,
                                    Math.nextUp(THREE.breakdown()
                                            .get(6)
                                            .coefficients()
                                            .get(column)))
                            .build());
        }
        BreakdownRow row = THREE.breakdown().get(6);
        List<Double> k = row.coefficients();
        for (BreakdownRow other : List.of(
                new BreakdownRow("C", "*", "meat", "striploin", k, 4, row.source()),
                new BreakdownRow("*", "w", "meat", "striploin", k, 4, row.source()),
                new BreakdownRow("*", "*", "bone", "striploin", k, 4, row.source()),
                new BreakdownRow("*", "*", "meat", "dice", k, 4, row.source()),
                new BreakdownRow("*", "*", "meat", "striploin", k, 4.001, row.source()),
                row.withShared(new SharedSds(0.0, null, null)),
                row.withShared(new SharedSds(1.0, null, null)),
                row.withShared(new SharedSds(null, 1.0, null)),
                row.withShared(new SharedSds(null, null, 1.0)),
                row.withShared(SharedSds.of(1, 1, 1)),
                new BreakdownRow("*", "*", "meat", "striploin", k, 4, "other"))) {
            changed.put(
                    "row " + other, TestTables.changeRow(THREE, 7, old -> other).build());
        }
        changed.put("one row less", TestTables.withoutRows(THREE, 39).build());
        for (Cut cut : List.of(
                Cut.of("a", "A", "retail", CutKind.DICE)
                        .withPiecesPerSide(1.0)
                        .withSideSplitSdPct(2.0)
                        .withFatPct(3.0)
                        .withUnece("1234")
                        .withNote("n"),
                Cut.of("b", "A", "retail", CutKind.DICE)
                        .withPiecesPerSide(1.0)
                        .withSideSplitSdPct(2.0)
                        .withFatPct(3.0)
                        .withUnece("1234")
                        .withNote("n"),
                Cut.of("a", "B", "retail", CutKind.DICE)
                        .withPiecesPerSide(1.0)
                        .withSideSplitSdPct(2.0)
                        .withFatPct(3.0)
                        .withUnece("1234")
                        .withNote("n"),
                Cut.of("a", "A", "primal", CutKind.DICE)
                        .withPiecesPerSide(1.0)
                        .withSideSplitSdPct(2.0)
                        .withFatPct(3.0)
                        .withUnece("1234")
                        .withNote("n"),
                Cut.of("a", "A", "retail", CutKind.JOINT)
                        .withPiecesPerSide(1.0)
                        .withSideSplitSdPct(2.0)
                        .withFatPct(3.0)
                        .withUnece("1234")
                        .withNote("n"),
                Cut.of("a", "A", "retail", CutKind.DICE)
                        .withSideSplitSdPct(2.0)
                        .withFatPct(3.0)
                        .withUnece("1234")
                        .withNote("n"),
                Cut.of("a", "A", "retail", CutKind.DICE)
                        .withPiecesPerSide(1.0)
                        .withFatPct(3.0)
                        .withUnece("1234")
                        .withNote("n"),
                Cut.of("a", "A", "retail", CutKind.DICE)
                        .withPiecesPerSide(1.0)
                        .withSideSplitSdPct(2.0)
                        .withUnece("1234")
                        .withNote("n"),
                Cut.of("a", "A", "retail", CutKind.DICE)
                        .withPiecesPerSide(1.0)
                        .withSideSplitSdPct(2.0)
                        .withFatPct(3.0)
                        .withNote("n"),
                Cut.of("a", "A", "retail", CutKind.DICE)
                        .withPiecesPerSide(1.0)
                        .withSideSplitSdPct(2.0)
                        .withFatPct(3.0)
                        .withUnece("1234"))) {
            changed.put("cut " + cut, THREE.toBuilder().cut(cut).build());
        }
        for (String[] s :
                new String[][] {{"a", "rump", "w"}, {"b", "rump", "w"}, {"a", "bone", "w"}, {"a", "rump", "v"}}) {
            changed.put(
                    "specification " + String.join(" ", s),
                    THREE.toBuilder().specification(s[0], s[1], s[2]).build());
        }
        for (QuarteringRow other : List.of(
                new QuarteringRow("a", "rump", 0.5, "s"),
                new QuarteringRow("b", "rump", 0.5, "s"),
                new QuarteringRow("a", "bone", 0.5, "s"),
                new QuarteringRow("a", "rump", 0.50001, "s"),
                new QuarteringRow("a", "rump", 0.5, "t"))) {
            changed.put(
                    "quartering " + other, THREE.toBuilder().quartering(other).build());
        }
        for (CoefficientNote note : List.of(
                new CoefficientNote("*", "*", "meat", "rump", "t", 1.0, "s"),
                new CoefficientNote("C", "*", "meat", "rump", "t", 1.0, "s"),
                new CoefficientNote("*", "w", "meat", "rump", "t", 1.0, "s"),
                new CoefficientNote("*", "*", "bone", "rump", "t", 1.0, "s"),
                new CoefficientNote("*", "*", "meat", "dice", "t", 1.0, "s"),
                new CoefficientNote("*", "*", "meat", "rump", "u", 1.0, "s"),
                new CoefficientNote("*", "*", "meat", "rump", "t", null, "s"),
                new CoefficientNote("*", "*", "meat", "rump", "t", 1.0, "t"),
                new CoefficientNote("*", "*", "meat", "rump", "t", 1.0, "e", "s"),
                new CoefficientNote("*", "*", "meat", "rump", "t", 1.0, "f", "s"))) {
            changed.put("note " + note, THREE.toBuilder().coefficientNote(note).build());
        }
        for (Expectation other : List.of(
                expectation("rump", null, "primal", Variable.FAT, true, Expectation.Over.FITTED, "n"),
                expectation("bone", null, "primal", Variable.FAT, true, Expectation.Over.FITTED, "n"),
                expectation(null, CutKind.BONE, "primal", Variable.FAT, true, Expectation.Over.FITTED, "n"),
                expectation("rump", null, "retail", Variable.FAT, true, Expectation.Over.FITTED, "n"),
                expectation("rump", null, "primal", Variable.WEIGHT, true, Expectation.Over.FITTED, "n"),
                expectation("rump", null, "primal", Variable.FAT, false, Expectation.Over.FITTED, "n"),
                expectation("rump", null, "primal", Variable.FAT, true, Expectation.Over.ALLOWED, "n"),
                expectation("rump", null, "primal", Variable.FAT, true, Expectation.Over.FITTED, "m"),
                new Expectation(
                        "rump",
                        null,
                        "primal",
                        Variable.FAT,
                        Expectation.Direction.FALLS,
                        true,
                        Expectation.Over.FITTED,
                        "n"))) {
            changed.put(
                    "expectation " + other, THREE.toBuilder().expectation(other).build());
        }
        for (CutName name : List.of(
                new CutName("rump", "de", "n"),
                new CutName("bone", "de", "n"),
                new CutName("rump", "fr", "n"),
                new CutName("rump", "de", "m"))) {
            changed.put("name " + name, THREE.toBuilder().name(name).build());
        }
        for (ClassRow cell : List.of(
                new ClassRow("*", "*", "meat", "R", "3", "rump", 80, 4, "s"),
                new ClassRow("C", "*", "meat", "R", "3", "rump", 80, 4, "s"),
                new ClassRow("*", "w", "meat", "R", "3", "rump", 80, 4, "s"),
                new ClassRow("*", "*", "bone", "R", "3", "rump", 80, 4, "s"),
                new ClassRow("*", "*", "meat", "U", "3", "rump", 80, 4, "s"),
                new ClassRow("*", "*", "meat", "R", "4", "rump", 80, 4, "s"),
                new ClassRow("*", "*", "meat", "R", "3", "dice", 80, 4, "s"),
                new ClassRow("*", "*", "meat", "R", "3", "rump", 80.5, 4, "s"),
                new ClassRow("*", "*", "meat", "R", "3", "rump", 80, 4.5, "s"),
                new ClassRow("*", "*", "meat", "R", "3", "rump", 80, 4, "t"),
                new ClassRow("*", "*", "meat", "R", "3", "rump", 80, 4, new SharedSds(0.0, null, null), "s"),
                new ClassRow("*", "*", "meat", "R", "3", "rump", 80, 4, new SharedSds(2.0, null, null), "s"),
                new ClassRow("*", "*", "meat", "R", "3", "rump", 80, 4, new SharedSds(null, 2.0, null), "s"),
                new ClassRow("*", "*", "meat", "R", "3", "rump", 80, 4, new SharedSds(null, null, 2.0), "s"))) {
            changed.put("cell " + cell, THREE.toBuilder().row(cell).build());
        }
        for (Provenance origin :
                List.of(new Provenance("p", "f"), new Provenance("q", "f"), new Provenance("p", "g"))) {
            changed.put(origin.toString(), THREE.toBuilder().provenance(origin).build());
        }
        for (SourceRow source : List.of(
                new SourceRow("s", SourceKind.PUBLISHED, "c", "n"),
                new SourceRow("t", SourceKind.PUBLISHED, "c", "n"),
                new SourceRow("s", SourceKind.DERIVED, "c", "n"),
                new SourceRow("s", SourceKind.PUBLISHED, "d", "n"),
                new SourceRow("s", SourceKind.PUBLISHED, "c", "m"))) {
            changed.put("source " + source, THREE.toBuilder().source(source).build());
        }
        allDiffer(changed);
    }

    private static Expectation expectation(
            String cut,
            CutKind kind,
            String level,
            Variable variable,
            boolean strict,
            Expectation.Over over,
            String note) {
        return new Expectation(cut, kind, level, variable, Expectation.Direction.RISES, strict, over, note);
    }

    @Test
    void howANumberIsWrittenDoesNotChangeTheDigest() {
        assertThat(digest(TestTables.changeCoefficient(THREE, 7, 4, -0.0).build()))
                .isEqualTo(digest(THREE));
    }

    @Test
    void tablesOfDifferentDigestsDiffer() {
        YieldTable three = YieldTable.of(THREE);
        assertThat(three)
                .isNotEqualTo(YieldTable.of(THREE.toBuilder().widthFit(2).build()));
        assertThat((Object) three).isNotEqualTo(three.identity());
        assertThat(YieldTable.of(TestTables.threeLevels())).isEqualTo(three);
    }
}
