package org.beefyield.data.testkit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.Tuple.Tuple2;
import net.jqwik.api.constraints.DoubleRange;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;

class GeneratorProperties {
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();

    @Provide
    Arbitrary<TableDefinition> tables() {
        return Tables.definitions(Tables.Form.MIXED, 4, 6);
    }

    @Provide
    Arbitrary<TableDefinition> largeTables() {
        return Tables.definitions();
    }

    /** No false alarm: what is valid by construction is accepted, proved and described. */
    @Property(tries = 2000)
    void noValidTableIsRefused(@ForAll("tables") TableDefinition definition) {
        YieldTable table = YieldTable.of(definition);
        assertThat(table.proof().findings())
                .hasSizeGreaterThan(definition.levels().size());
        assertThat(table.proof().toText()).startsWith("Proved over categories ");
    }

    @Property(tries = 100)
    void noLargeValidTableIsRefused(@ForAll("largeTables") TableDefinition definition) {
        assertThat(YieldTable.of(definition).levels()).isEqualTo(definition.levels());
    }

    /** A table that passes its own contract, as its own baseline, must do so whatever its form. */
    @Property(tries = 50, edgeCases = EdgeCasesMode.NONE)
    void everyRandomTablePassesTheContract(@ForAll("tables") TableDefinition definition, @ForAll long seed) {
        YieldTable table = YieldTable.of(definition);
        YieldTableContract contract = new YieldTableContract() {
            @Override
            protected YieldTable table() {
                return table;
            }

            @Override
            protected Optional<YieldTable> baseline() {
                return Optional.of(table);
            }
        };
        Carcass carcass = Carcasses.of(table).sample();
        contract.everyLevelAddsUpToTheCarcass(carcass);
        contract.noShareIsBelowZero(carcass);
        contract.estimatesRunFromGradeToGradeWithoutAJump(carcass);
        contract.whatTheTableExpectsOfItselfHolds();
        contract.theOrderOfRowsMeansNothing(seed);
        contract.aFolderReadsBackEqual();
        contract.aZipReadsBackEqual();
        contract.theDigestIsStable();
        contract.noCutMovesBeyondTheBudget();
        contract.nothingOfTheBaselineIsLost();
        contract.nothingElseChangesBeyondTheBudget();
    }

    @Property(tries = 300)
    void theSameArgumentsMakeTheSameTable(@ForAll @DoubleRange(min = 0, max = 1) double part, @ForAll long seed) {
        assertThat(new TableMaker(part, 3, 4, seed).make()).isEqualTo(new TableMaker(part, 3, 4, seed).make());
    }

    /** What the generator promises to vary does vary. */
    @Example
    void tablesOfEveryKindComeOut() {
        Set<String> seen = new HashSet<>();
        List<TableDefinition> some =
                Tables.definitions().sampleStream().limit(400).toList();
        for (TableDefinition table : some) {
            seen.add(table.levels().size() + " levels");
            seen.add(table.decimals().isEmpty() ? "exact" : "rounded");
            seen.add(
                    table.breakdown().isEmpty()
                            ? "by class"
                            : table.breakdownByClass().isEmpty() ? "coefficients" : "mixed");
            seen.add(table.specifications().isEmpty() ? "no ways" : "ways");
            seen.add(table.expectations().isEmpty() ? "no expectations" : "expectations");
            seen.add(table.quartering().isEmpty() ? "no quartering" : "quartering");
            table.terms().forEach(term -> seen.add(term.getClass().getSimpleName()));
            Set<String> parents = new HashSet<>();
            table.breakdown().stream()
                    .filter(row -> !parents.add(row.cut() + " of " + row.parent()))
                    .forEach(row -> seen.add(row.category().equals(BreakdownRow.ANY) ? "ways" : "own category"));
            if (table.breakdown().stream()
                    .collect(Collectors.groupingBy(
                            BreakdownRow::cut, Collectors.mapping(BreakdownRow::parent, Collectors.toSet())))
                    .values()
                    .stream()
                    .anyMatch(its -> its.size() > 1)) {
                seen.add("a cut from several parents");
            }
            YieldTable built = YieldTable.of(table);
            Stream.of(SharedBy.values()).forEach(by -> seen.add((built.states(by) ? "" : "no ") + by));
            table.coefficientNotes().forEach(note -> seen.add(note.errorId().isEmpty() ? "no name" : "name"));
            seen.add(
                    table.breakdownByClass().stream()
                                    .anyMatch(cell -> cell.conformation().length() == 1
                                            && cell.fatClass().length() == 2)
                            ? "whole and thirds"
                            : "one kind");
        }
        assertThat(seen)
                .contains(
                        "1 levels",
                        "2 levels",
                        "3 levels",
                        "4 levels",
                        "5 levels",
                        "exact",
                        "rounded",
                        "by class",
                        "coefficients",
                        "mixed",
                        "LOT",
                        "RUN",
                        "HALL",
                        "no LOT",
                        "no RUN",
                        "no HALL",
                        "name",
                        "no name",
                        "no ways",
                        "ways",
                        "no expectations",
                        "expectations",
                        "no quartering",
                        "quartering",
                        "Product",
                        "Hinge",
                        "own category",
                        "a cut from several parents",
                        "whole and thirds",
                        "one kind");
        assertThat(some)
                .anySatisfy(table -> assertThat(table.breakdown().stream()
                                .collect(Collectors.groupingBy(row -> row.parent() + row.way() + row.category()))
                                .values())
                        .anyMatch(children -> children.size() == 12));
    }

    @Provide
    Arbitrary<Tuple2<YieldTable, Carcass>> carcassesOfTables() {
        return tables().map(YieldTable::of).flatMap(table -> Carcasses.of(table).map(each -> Tuple.of(table, each)));
    }

    @Property(tries = 500)
    void everyCarcassOfATableIsInsideItsRange(@ForAll("carcassesOfTables") Tuple2<YieldTable, Carcass> pair) {
        TableRange range = pair.get1().definition().allowed();
        Carcass carcass = pair.get2();
        assertThat(pair.get1().definition().categories()).contains(carcass.category());
        assertThat(range.conformation().contains(carcass.conformation().position()))
                .isTrue();
        assertThat(range.fat().contains(carcass.fatClass().position())).isTrue();
        assertThat(range.weightKg().contains(carcass.coldWeightKg())).isTrue();
    }

    @Example
    void gradesOfEveryFormComeOut() {
        List<Carcass> some = Carcasses.of(SHIPPED).sampleStream().limit(2000).toList();
        Set<String> labels = some.stream()
                .flatMap(carcass -> Stream.of(
                        carcass.conformation().toString(), carcass.fatClass().toString()))
                .map(label -> label.matches("[0-9.]+p.*") ? "position" : label)
                .collect(Collectors.toSet());
        // 6 whole, 18 thirds, 12 halves; 5 whole, 15 thirds, 4 halves; positions
        assertThat(labels)
                .hasSize(6 + 18 + 12 + 5 + 15 + 4 + 1)
                .contains("position", "-U half", "U+ half", "U+", "4L", "5H", "3");
        assertThat(some.stream().map(Carcass::category))
                .contains(SHIPPED.definition().categories().toArray(Category[]::new));
        assertThat(some.stream().map(Carcass::coldWeightKg)).contains(150.0).anyMatch(weight -> weight > 550);
    }

    @Provide
    Arbitrary<String> sheets() {
        return KillSheets.of(SHIPPED);
    }

    @Property(tries = 300)
    void everyRowOfAKillSheetCanBeUsedAndEstimated(@ForAll("sheets") String text) {
        KillSheet sheet = KillSheetReader.read(
                Source.of("sheet.csv", text.getBytes(StandardCharsets.UTF_8)), KillSheetFormat.standard());
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.condemned()).isEmpty();
        assertThat(sheet.entries()).hasSize((int) text.lines().count() - 1).isNotEmpty();
        assertThat(YieldEstimator.of(SHIPPED).estimateLot(sheet.carcasses()).coldWeightKg())
                .isPositive();
    }

    @Property(tries = 50)
    void sizesOutsideTheirRangeAreRefused(@ForAll("badSizes") Tuple2<Integer, Integer> sizes) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Tables.definitions(Tables.Form.MIXED, sizes.get1(), sizes.get2()))
                .withMessageMatching("(0|6|7) levels are outside 1 to 5|(0|-1) children are below 1");
    }

    @Provide
    Arbitrary<Tuple2<Integer, Integer>> badSizes() {
        return Arbitraries.of(Tuple.of(0, 3), Tuple.of(6, 3), Tuple.of(7, 1), Tuple.of(2, 0), Tuple.of(1, -1));
    }
}
