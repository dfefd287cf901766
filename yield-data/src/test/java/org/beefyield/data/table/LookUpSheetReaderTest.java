package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LookUpSheetReaderTest {
    private static final String CLEAN = """
            conformation,fat_class,striploin,topside,other meat,fat-trim,bone,loss
            O,2,4.2,5.9,61.8,6,21.6,0.5
            O,3,4.3,5.8,58.7,9.8,20.9,0.5
            R,2,4.5,6.3,62.7,5.6,20.4,0.5
            R,3,4.6,6.2,59.6,9.2,19.9,0.5
            """;

    private static final List<Cut> OTHER = List.of(Cut.of("other-meat", "Other meat", "", CutKind.DICE));

    private static final LookUpSheetReader READER =
            LookUpSheetReader.of("our-hall", "3").withCuts(OTHER);

    private static Source source(String sheet) {
        return Source.of("hall.csv", sheet.getBytes(StandardCharsets.UTF_8));
    }

    private static List<String> problems(LookUpSheetReader reader, String sheet) {
        InvalidDataException refused =
                catchThrowableOfType(InvalidDataException.class, () -> reader.read(source(sheet)));
        return refused.problems().stream().map(Problem::toString).toList();
    }

    private static Carcass steer(String conformation, String fat) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fat), 340);
    }

    // what it makes

    @Test
    void aSheetIsTheTableThatItSays() {
        LookUpSheet sheet = READER.read(source(CLEAN));
        YieldTable table = sheet.table();
        YieldEstimate estimate = YieldEstimator.of(table).estimate(steer("R=", "3="));

        assertThat(table.identity()).startsWith("our-hall@3#");
        assertThat(estimate.share("striploin")).isCloseTo(0.046, within(1e-12));
        assertThat(estimate.share("other-meat")).isCloseTo(0.596, within(1e-12));
        assertThat(estimate.kg("bone")).isCloseTo(340 * 0.199, within(1e-9));
        assertThat(sheet.rounded()).isEmpty();
        assertThat(sheet).hasToString(table.identity() + " from a look-up sheet: 0 rows brought to 100 %, 6 notes");
    }

    @Test
    void theTableIsWrittenAndReadBackEqual(@TempDir Path folder) {
        YieldTable table = READER.read(source(CLEAN)).table();
        TableWriter.write(table, folder.resolve("hall"));
        TableWriter.write(table, folder.resolve("hall.zip"));

        assertThat(TableReader.read(folder.resolve("hall"))).isEqualTo(table);
        assertThat(TableReader.read(folder.resolve("hall.zip"))).isEqualTo(table);
    }

    @Test
    void betweenTheMiddlesOfClassesSharesAreBilinear() {
        YieldEstimator estimator = YieldEstimator.of(READER.read(source(CLEAN)).table());

        // a third of the way from O= to R=
        assertThat(estimator.estimate(steer("O+", "2=")).share("striploin"))
                .isCloseTo((2 * 0.042 + 0.045) / 3, within(1e-12));
    }

    @Test
    void itServesTheGradesOfTheSheetAndNoOther() {
        YieldTable table = READER.read(source(CLEAN)).table();
        YieldEstimator estimator = YieldEstimator.of(table);

        assertThat(table.definition().allowed()).hasToString("conformation 4 to 9, fat 4 to 9, 150 to 600 kg");
        assertThat(table.definition().fitted()).isEqualTo(table.definition().allowed());
        assertThat(table.definition().widthFit()).isEqualTo(3);
        assertThat(catchThrowableOfType(RefusedCarcassException.class, () -> estimator.estimate(steer("U-", "3="))))
                .isNotNull();
    }

    @Test
    void sourceSaysThatItIsTheCallersOwnAndNotVerified() {
        YieldTable table = READER.read(
                        Source.of("/somewhere/of/theirs/hall.csv", CLEAN.getBytes(StandardCharsets.UTF_8)))
                .table();

        assertThat(table.definition().sources())
                .containsExactly(new SourceRow(
                        "own-sheet", SourceKind.UNVERIFIED, "The caller's own look-up sheet hall.csv", ""));
        assertThat(table.definition().breakdownByClass())
                .allSatisfy(row -> assertThat(row.source()).isEqualTo("own-sheet"));
    }

    @Test
    void cutsAreKnownByCodeAndByNameWhateverTheCaseAndFromTheCallerFirst() {
        YieldTable table = LookUpSheetReader.of("our-hall", "1")
                .withCuts(List.of(
                        Cut.of("other-meat", "Other meat", "", CutKind.DICE),
                        Cut.of("loss", "Shrinkage", "", CutKind.LOSS)))
                .read(source(CLEAN.replace("fat-trim", "FAT TRIM")
                        .replace("striploin", "Strip_loin".replace("_", ""))
                        .replace("loss", "shrinkage")))
                .table();

        assertThat(table.catalogue().cut("loss").name()).isEqualTo("Shrinkage");
        assertThat(table.catalogue().cut("striploin").piecesPerSide()).isEqualTo(1.0);
        assertThat(table.catalogue().cut("fat-trim").kind()).isEqualTo(CutKind.FAT_TRIM);
    }

    @Test
    void theOneLevelIsCalledLikeThatOfTheEditionWithMostOfTheCuts() {
        assertThat(READER.read(source(CLEAN)).table().levels()).containsExactly("primal");
        assertThat(LookUpSheetReader.of("retail-sheet", "1")
                        .read(source("""
                                conformation,fat_class,striploin,striploin-steak,dice,lean-trim,bone
                                R,3,4,10,20,46,20
                                """))
                        .table()
                        .levels())
                .containsExactly("retail");
        assertThat(LookUpSheetReader.of("own-cuts", "1")
                        .withCuts(List.of(
                                Cut.of("beef", "Beef", "", CutKind.DICE), Cut.of("bones", "Bones", "", CutKind.BONE)))
                        .read(source("conformation,fat_class,beef,bones\nR,3,80,20\n"))
                        .table()
                        .levels())
                .containsExactly("cut");
    }

    @Test
    void sdsOfARowAndOfACutAreReadInPerCent() {
        YieldTable table = READER.read(source("""
                        conformation,fat_class,striploin,topside,other meat,bone,sd,Striploin sd
                        R,3,4.6,6.2,69.3,19.9,0.5,0.25
                        """)).table();

        assertThat(table.definition().breakdownByClass())
                .extracting(row -> row.cut() + " " + row.sdGPerKg())
                .containsExactly("striploin 2.5", "topside 5.0", "other-meat 5.0", "bone 5.0");
    }

    @Test
    void categoriesAreLettersOrAllAndServeWhatTheySay() {
        YieldTable table = READER.withCategories(Set.of(Category.STEER, Category.COW))
                .read(source("""
                        conformation,fat_class,category,striploin,other meat,bone
                        R,3,*,4.6,75.5,19.9
                        R,3,D,4.4,74.7,20.9
                        """))
                .table();
        Carcass cow = Carcass.of(Category.COW, Conformation.parse("R="), FatClass.parse("3="), 340);

        assertThat(table.definition().categories()).containsExactlyInAnyOrder(Category.STEER, Category.COW);
        assertThat(YieldEstimator.of(table).estimate(cow).share("bone")).isCloseTo(0.209, within(1e-12));
        assertThat(YieldEstimator.of(table).estimate(steer("R=", "3=")).share("bone"))
                .isCloseTo(0.199, within(1e-12));
    }

    @Test
    void thirdsAreReadAsThirds() {
        YieldTable table = READER.read(source("""
                        conformation,fat_class,striploin,other meat,bone
                        R-,3=,4.5,75.5,20
                        R=,3=,4.6,75.5,19.9
                        """)).table();

        assertThat(table.definition().allowed()).hasToString("conformation 7 to 8, fat 8 to 8, 150 to 600 kg");
        assertThat(table.definition().widthFit()).isEqualTo(1);
    }

    @Test
    void weightsAndReferenceAreTheCallers() {
        YieldTable table = READER.withWeights(new Range(180, 250))
                .withReference(new ReferencePoint(5, 5, 200))
                .read(source(CLEAN))
                .table();

        assertThat(table.definition().allowed().weightKg()).isEqualTo(new Range(180, 250));
        assertThat(table.definition().reference()).isEqualTo(new ReferencePoint(5, 5, 200));
        assertThat(READER.withWeights(new Range(180, 250))
                        .read(source(CLEAN))
                        .table()
                        .definition()
                        .reference())
                .isEqualTo(new ReferencePoint(6, 6, 215));
    }

    @Test
    void semicolonsDecimalCommasUnitsAndOtherNamesAreDeclared() {
        CsvForm form = CsvForm.builder()
                .separator(';')
                .decimalComma()
                .unit("%")
                .column("Klasse", "conformation")
                .column("Fett", "fat_class")
                .column("Knochen", "bone")
                .build();
        YieldTable table = READER.with(form)
                .without(List.of("Anzahl", "Summe"))
                .read(source("""
                        Klasse;Fett;Anzahl;striploin;other meat;Knochen;Summe
                        R;3;57;4,6 %;75,5 %;19,9 %;100
                        """))
                .table();

        assertThat(YieldEstimator.of(table).estimate(steer("R=", "3=")).share("bone"))
                .isCloseTo(0.199, within(1e-12));
    }

    // sums

    @Test
    void whatRoundingExplainsIsTakenOffInProportionAndReportedWithItsLine() {
        LookUpSheet sheet = READER.read(source(CLEAN.replace("O,3,4.3,", "O,3,4.4,")));
        YieldEstimate estimate = YieldEstimator.of(sheet.table()).estimate(steer("O=", "3="));

        assertThat(sheet.rounded()).containsOnlyKeys(3L);
        assertThat(sheet.rounded().get(3L)).isCloseTo(100.1, within(1e-12));
        assertThat(sheet.notes()).contains("Line 3 adds up to 100.1 %: rounding, taken off in proportion");
        assertThat(estimate.share("striploin")).isCloseTo(0.044 / 1.001, within(1e-7));
        assertThat(sheet.table().closingCorrections()).isEmpty();
    }

    @Test
    void moreThanRoundingIsRefusedForEveryRowAtOnce() {
        assertThat(problems(READER, CLEAN.replace("O,3,4.3,", "O,3,3.4,").replace("R,2,4.5,", "R,2,5.4,")))
                .containsExactly(
                        "hall.csv line 3: O 3 adds up to 99.1 %, not 100; rounding to 1 decimal explains at most 0.21 %; if"
                                + " what is missing is one cut, declare it: withRest(...), --rest",
                        "hall.csv line 4: R 2 adds up to 100.9 %, not 100; rounding to 1 decimal explains at most 0.21 %");
    }

    @Test
    void whatIsMissingMayBeOneCut() {
        String sheet = """
                conformation,fat_class,striploin,other meat,bone
                O,3,4.6,75.5,18.9
                R,3,4.6,75.5,19.5
                """;
        LookUpSheet read = READER.withRest("Loss").read(source(sheet));

        assertThat(YieldEstimator.of(read.table()).estimate(steer("O=", "3=")).share("loss"))
                .isCloseTo(0.01, within(1e-12));
        assertThat(read.notes()).contains("What rows lack of 100 % is loss: 0.4 to 1 %");
        assertThat(problems(READER.withRest("loss"), sheet.replace("18.9", "28.9")))
                .containsExactly(
                        "hall.csv line 2: O 3 adds up to 109 %, more than 100, so that nothing is left for loss");
        assertThat(problems(READER.withRest("bone"), sheet))
                .containsExactly(
                        "hall.csv line 1, bone: bone is the rest to 100 % and has a column too; it is one or the other");
        assertThat(problems(READER.withRest("los"), sheet))
                .containsExactly("hall.csv line 1: no cut \"los\"; nearest: loss, bone, meat");
    }

    // what is missing

    @Test
    void gradesWithoutARowAreListed() {
        assertThat(problems(READER, CLEAN.replaceFirst("R,2,.*\n", "")))
                .containsExactly(
                        "hall.csv: the row of this grade is missing: R 2; every grade between the lowest and the"
                                + " highest has one");
        assertThat(problems(READER, CLEAN.replaceFirst("R,2,.*\n", "").replace("R,3", "E,3")))
                .containsExactly(
                        "hall.csv: the rows of these 5 grades are missing: R 2, R 3, U 2, U 3, E 2; every grade"
                                + " between the lowest and the highest has one");
        assertThat(problems(READER, """
                        conformation,fat_class,category,striploin,other meat,bone
                        R,3,CE,4.6,75.5,19.9
                        R,4,CE,4.6,75.5,19.9
                        R,3,D,4.4,74.7,20.9
                        """))
                .containsExactly(
                        "hall.csv: the row of this grade is missing for D: R 4; every grade between the lowest and"
                                + " the highest has one");
    }

    @Test
    void notesSayWhatTheSheetDoesNotAndWhatIsTakenInstead() {
        assertThat(READER.read(source(CLEAN)).notes())
                .containsExactly(
                        "No categories are given: every row serves C A B D E, as the shipped edition does",
                        "Kind, pieces, fat content and notes are those of the shipped edition for striploin, topside,"
                                + " fat-trim, bone, loss",
                        "All cuts stand at one level, primal, which is compared with the level of that name of another table",
                        "It serves conformation O- to R+, fat class 2- to 3+ and 150 to 600 kg, the weights of the shipped"
                                + " edition, for none are given; a share is the same at every weight",
                        "No SDs are given: intervals hold nothing of how carcasses of a grade differ",
                        "Nothing is said of how lots, runs and halls differ, of standard errors, ways of cutting, quarters and"
                                + " of how the carcasses were handled; what it promises of itself is nothing but shares of 0"
                                + " or more");
    }

    // what is refused

    @Test
    void columnsThatAreNoCutsAreNamedWithTheNearestCut() {
        assertThat(problems(READER, CLEAN.replace("striploin", "stripoin").replace("conformation", "class")))
                .containsExactly(
                        "hall.csv line 1, conformation: the column \"conformation\" is missing; a sheet has conformation,"
                                + " fat_class and a column for each cut",
                        "hall.csv line 1, class: no cut \"class\"; nearest: loss, flank, blade; a cut of your own is declared:"
                                + " withCuts(...), --cuts; a column that is none is left out: without(...), --leave-out",
                        "hall.csv line 1, stripoin: no cut \"stripoin\"; nearest: striploin, topside, brisket; a cut of your"
                                + " own is declared: withCuts(...), --cuts; a column that is none is left out: without(...),"
                                + " --leave-out");
        assertThat(problems(READER.without(List.of("n")), CLEAN))
                .containsExactly("hall.csv line 1, n: there is no column \"n\" to leave out");
        assertThat(problems(READER, CLEAN.replace("topside", "Striploin")))
                .containsExactly("hall.csv line 1, Striploin: the column \"striploin\" is the same cut");
        assertThat(problems(READER, "conformation,fat_class\nR,3\n"))
                .containsExactly(
                        "hall.csv line 1: no column is a cut; a sheet has conformation, fat_class and a column for each cut");
        assertThat(problems(READER, "conformation,fat_class,bone,fillet sd\nR,3,100,1\n"))
                .containsExactly("hall.csv line 1, fillet sd: an SD is given for fillet, which has no column");
    }

    @Test
    void cellsAreRefusedWithLineColumnAndValueAllAtOnce() {
        assertThat(problems(READER, """
                        conformation,fat_class,category,striploin,other meat,bone
                        X,3,C,4.6,75.5,19.9
                        R,7,C,4.6,75.5,19.9
                        R,3,CC,4.6,75.5,19.9
                        R,3,C,,75.5,19.9
                        R,3,C,-1,75.5,19.9
                        R,3,C,"4,6",75.5,19.9
                        """))
                .containsExactly(
                        "hall.csv line 2, conformation: conformation \"X\" is none of S E U R O P",
                        "hall.csv line 3, fat_class: fat class 7 is outside 1 to 5; a position on the 15-point scale belongs"
                                + " in fat_points, in code in FatClass.ofPosition",
                        "hall.csv line 4, category: category C stands twice in \"CC\"",
                        "hall.csv line 5, striploin: the cell is blank; 0 if nothing comes out",
                        "hall.csv line 6, striploin: -1 is outside 0 to 100 %",
                        "hall.csv line 7, striploin: \"4,6\" is not a plain number such as 342.5; if its comma is a decimal"
                                + " comma, declare it: CsvForm.builder().decimalComma(), --decimal-comma");
    }

    @Test
    void aGradeStandsOnceAndGradesAreOfOneKind() {
        assertThat(problems(READER, CLEAN + "R,3,4.6,6.2,59.6,9.2,19.9,0.5\n"))
                .containsExactly("hall.csv line 6, conformation: the grade R 3 stands in line 5 too");
        assertThat(problems(READER, CLEAN.replace("R,3,", "R+,3,")))
                .containsExactly(
                        "hall.csv line 5, conformation: R+ and O in line 2 are not both whole classes or both thirds;"
                                + " a sheet has one kind");
        assertThat(problems(READER, CLEAN.replace("R,3,", "R,4L,")))
                .containsExactly("hall.csv line 5, fat_class: 4L is neither a whole class nor a third");
    }

    @Test
    void whatIsNotProvedIsRefusedWithItsLine() {
        // over the outer half class the loss would be below 0
        List<String> problems = problems(READER, CLEAN.replace("58.7,9.8,20.9,0.5", "52.2,9.8,20.9,7"));

        assertThat(problems)
                .isNotEmpty()
                .allSatisfy(problem -> assertThat(problem).startsWith("hall.csv"));
        assertThat(problems.get(0)).contains("loss");
    }

    @Test
    void cutsOfTheCallersOwnAreReadFromAFile() {
        assertThat(LookUpSheetReader.cuts(
                        source("cut,name,kind\nother-meat,Other meat,dice\nscrap,,loss\n"), CsvForm.standard()))
                .extracting(Cut::toString)
                .containsExactly("other-meat (Other meat), dice of level cut", "scrap (scrap), loss of level cut");
        InvalidDataException refused = catchThrowableOfType(
                InvalidDataException.class,
                () -> LookUpSheetReader.cuts(
                        source("cut,name,kind\nOther,Other,dice\nx,X,meaty\ny,Y,dice\ny,Y,dice\n"),
                        CsvForm.standard()));
        assertThat(refused.problems().stream().map(Problem::toString))
                .containsExactly(
                        "hall.csv line 2, cut: cut \"Other\" is not lower-case letters and digits joined by single hyphens",
                        "hall.csv line 3, kind: kind \"meaty\" is none of meat primal steak joint dice lean-trim mince"
                                + " fat-trim bone loss",
                        "hall.csv line 5, cut: this cut stands above");
    }
}
