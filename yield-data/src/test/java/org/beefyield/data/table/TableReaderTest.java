package org.beefyield.data.table;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.ExtraColumn;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Where a table is read from, what a faulty one is told, word for word, and what is accepted silently. */
class TableReaderTest {
    private static final String DESCRIPTOR = "datapackage.json";
    private static final String NO_PATH = "a path is the relative name of a file inside the package";
    private static final String NO_LEVELS = "    \"levels\": [";

    @TempDir
    Path temporary;

    private PackageCopy hall;

    @BeforeEach
    void copyTheShippedPackage() {
        hall = new PackageCopy(temporary);
    }

    // where a table is read from

    @Test
    void folderZipAndClassPathGiveTheSameTable() throws IOException {
        Path zip = Files.write(temporary.resolve("hall.zip"), PackageCopy.zip(PackageCopy.shipped()));
        YieldTable shipped = ShippedTables.boneless2026();

        assertThat(hall.read()).isEqualTo(shipped).hasToString(shipped.identity());
        assertThat(TableReader.read(zip).digest()).isEqualTo(shipped.digest());
        assertThat(TableReader.read(getClass().getClassLoader(), PackageCopy.CLASS_PATH)
                        .digest())
                .isEqualTo(shipped.digest());
        assertThat(TableReader.read(getClass().getClassLoader(), PackageCopy.CLASS_PATH + "/")
                        .definition())
                .isEqualTo(shipped.definition());
    }

    @Test
    void everyShippedRowIsRead() {
        Map<String, Integer> rows = new LinkedHashMap<>();
        hall.read()
                .definition()
                .resources()
                .forEach(resource ->
                        rows.put(resource.name() + ".csv", resource.rows().size()));

        assertThat(rows).hasSize(PackageCopy.FILES.size() - 2);
        rows.forEach((file, count) ->
                assertThat(hall.text(file).lines().count() - 1).as(file).isEqualTo(count.longValue()));
    }

    @Test
    void noSuchFolderIsSaid() {
        Path none = temporary.resolve("none");

        assertRefused(none, new Problem(none.toString(), 0, "", "", "there is no such folder or zip file"));
    }

    @Test
    void noSuchPlaceOnTheClassPathIsSaid() {
        InvalidDataException refused = catchThrowableOfType(
                InvalidDataException.class, () -> TableReader.read(getClass().getClassLoader(), "tables/none"));

        assertThat(refused.problems())
                .containsExactly(new Problem("tables/none/datapackage.json", 0, "", "", "there is no such file"));
        assertThat(refused).hasMessage("tables/none/datapackage.json: there is no such file");
    }

    @Test
    void fileThatIsNoZipIsRefused() {
        Path file = hall.folder.resolve("cuts.csv");

        assertRefused(
                file,
                new Problem(
                        file.toString(),
                        0,
                        "",
                        "",
                        "it can't be read as a zip file: it is no zip file; a table is a folder, or a zip of the files of one"));
    }

    @Test
    void emptyZipIsRefused() throws IOException {
        Path zip = Files.write(temporary.resolve("empty.zip"), PackageCopy.zip(Map.of()));

        assertRefused(
                zip, new Problem(zip.toString(), 0, "", "", "it can't be read as a zip file: there is no file in it"));
    }

    @Test
    void zipWithTwoFilesOfOneNameIsRefused() throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>(PackageCopy.shipped());
        files.put("cots.csv", files.get("cuts.csv"));
        String bytes = new String(PackageCopy.zip(files), ISO_8859_1).replace("cots.csv", "cuts.csv");
        Path zip = Files.write(temporary.resolve("twice.zip"), bytes.getBytes(ISO_8859_1));

        assertRefused(
                zip,
                new Problem(
                        zip.toString(),
                        0,
                        "",
                        "",
                        "it can't be read as a zip file: it holds two files of the name cuts.csv"));
    }

    @Test
    void zipThatBreaksOffIsRefused() throws IOException {
        byte[] whole = PackageCopy.zip(PackageCopy.shipped());
        Path zip = Files.write(temporary.resolve("half.zip"), Arrays.copyOf(whole, whole.length / 2));

        List<Problem> problems = catchThrowableOfType(InvalidDataException.class, () -> TableReader.read(zip))
                .problems();
        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).toString()).startsWith(zip + ": it can't be read as a zip file: ");
    }

    @Test
    void aZippedFolderIsReadAsOneWhoseFilesWereZipped() throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>();
        PackageCopy.shipped().forEach((name, content) -> files.put("hall/" + name, content));
        Path zip = Files.write(temporary.resolve("nested.zip"), PackageCopy.zip(files));

        assertThat(TableReader.read(zip).digest())
                .isEqualTo(ShippedTables.boneless2026().digest());
    }

    @Test
    void aZipOfTwoTablesIsRefused() throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>();
        PackageCopy.shipped().forEach((name, content) -> files.put("hall/" + name, content));
        PackageCopy.shipped().forEach((name, content) -> files.put("other/" + name, content));
        Path zip = Files.write(temporary.resolve("two.zip"), PackageCopy.zip(files));

        assertRefused(zip, new Problem(zip + "/datapackage.json", 0, "", "", "there is no such file"));
    }

    @Test
    void folderWithoutDescriptorIsRefused() {
        hall.delete(DESCRIPTOR);

        assertFound(hall.problem(DESCRIPTOR, 0, "", "", "there is no such file"));
    }

    @Test
    void missingFileOfAResourceIsNamed() {
        hall.delete("sources.csv");

        assertFound(hall.problem("sources.csv", 0, "", "", "there is no such file"));
    }

    // the shares

    @Test
    void sharesThatDoNotCloseAreRefused() {
        hall.replace("breakdown.csv", "*,*,carcass,bone,188.671", "*,*,carcass,bone,198.671");

        assertFound(
                hall.problem(
                        "breakdown.csv",
                        0,
                        "level_g_per_kg",
                        "1010",
                        "\"1010\": the children of carcass add up to 1010 g/kg, not 1000; rounding explains at most"
                                + " 0.002; they are meat 693.119, fat-trim 112.21, bone 198.671, loss 6 (category C) (lines 2 to"
                                + " 5)"),
                hall.problem(
                        "breakdown.csv",
                        0,
                        "level_g_per_kg",
                        "1010",
                        "\"1010\": the children of carcass add up to 1010 g/kg, not 1000; rounding explains at most"
                                + " 0.002; they are bone 198.671, loss 6, meat 685.319, fat-trim 120.01 (category E) (lines 4 to"
                                + " 7)"),
                hall.problem(
                        "breakdown.csv",
                        0,
                        "level_g_per_kg",
                        "1010",
                        "\"1010\": the children of carcass add up to 1010 g/kg, not 1000; rounding explains at most"
                                + " 0.002; they are bone 198.671, loss 6, meat 700.919, fat-trim 104.41 (category AB) (lines 4, 5,"
                                + " 8, 9)"));
    }

    @Test
    void slopesThatDoNotCloseAreRefused() {
        hall.replace("breakdown.csv", "*,*,carcass,loss,6,0", "*,*,carcass,loss,6,0.5");

        assertThat(hall.problems()).hasSize(4).allSatisfy(problem -> {
            assertThat(problem.file()).isEqualTo(hall.folder + "/breakdown.csv");
            assertThat(problem.line()).isZero();
            assertThat(problem.column()).isEqualTo("per_conformation_point");
            assertThat(problem.message())
                    .startsWith("\"0.5\": the children of carcass add up to 0.5 g/kg per point of conformation, not 0;"
                            + " rounding explains at most 0.0002; they are ");
        });
        assertThat(hall.problems().get(3).message())
                .endsWith(
                        "; they are loss 0.5, meat 11.7292, fat-trim -4.3736, bone -7.3556 (category D) (lines 5, 10 to"
                                + " 12)");
    }

    @Test
    void wayThatDoesNotCloseIsNamed() {
        hall.replace("breakdown.csv", "*,joints,topside,dice,42,", "*,joints,topside,dice,43,");

        assertFound(hall.problem(
                "breakdown.csv",
                0,
                "level_g_per_kg",
                "1001",
                "\"1001\": the children of topside in the way joints add up to 1001 g/kg, not 1000; rounding"
                        + " explains at most 0.002; they are topside-joint 885, dice 43, lean-trim 42, fat-trim 23, loss 8"
                        + " (category CEABD) (lines 47 to 51)"));
    }

    @Test
    void onlyTheCategoriesWhoseRowsDoNotCloseAreNamed() {
        hall.replace("breakdown.csv", "D,*,carcass,fat-trim,122.21,", "D,*,carcass,fat-trim,121.21,");

        assertFound(
                hall.problem(
                        "breakdown.csv",
                        0,
                        "level_g_per_kg",
                        "999",
                        "\"999\": the children of carcass add up to 999 g/kg, not 1000; rounding explains at most 0.002;"
                                + " they are loss 6, meat 668.119, fat-trim 121.21, bone 203.671 (category D) (lines 5, 10 to 12)"));
    }

    @Test
    void shareBelowZeroIsRefusedWithThePlaceWhereItIsLowest() {
        for (String level : List.of("693.119", "685.319", "700.919")) {
            hall.replace("breakdown.csv", "carcass,meat," + level + ",11.7292", "carcass,meat," + level + ",31.7292");
        }
        long line = hall.replace("breakdown.csv", "carcass,bone,188.671,-7.3556", "carcass,bone,188.671,-27.3556");

        // by hand: 188.671 - 10 × 27.3556 - 7 × 2.3856 = -101.584; cows have rows of their own
        assertFound(Stream.of("C", "E", "AB")
                .map(categories -> hall.problem(
                        "breakdown.csv",
                        line,
                        "cut",
                        "bone",
                        "\"bone\": its share of carcass is -101.584 g/kg at category " + categories
                                + ", bone of carcass, S+ 5+, 150 kg; a share is at least 0 over the whole allowed range"
                                + " (and at 53 more nodes)"))
                .toArray(Problem[]::new));
    }

    @Test
    void brokenExpectationIsRefusedWithThePlaceWhereItIsBrokenMost() {
        long line = hall.append("expectations.csv", "flank,,primal,conformation,rises,true,allowed,");

        // by hand, at 150 kg: a heifer S= 1- has 843.177 g/kg of meat with 46.150 of flank, one S+ 1- 850.533 with
        // 45.663
        assertFound(hall.problem(
                "expectations.csv",
                line,
                "",
                "",
                "expected that flank at level primal rises strictly with conformation over the allowed range, but"
                        + " it changes by -0.074 g/kg to the next position of conformation at category E, steaks, S= 1-,"
                        + " 150 kg (and at 22 more nodes)"));
    }

    // sources

    @Test
    void rowWithoutSourceIsRefused() {
        long line = hall.replace("breakdown.csv", "0,0,0,10.9,5,2,6,grange-derived", "0,0,0,10.9,5,2,6,");

        assertFound(hall.problem(
                "breakdown.csv", line, "source", "", "every row names its source; write one of the names in sources"));
    }

    @Test
    void sourceThatIsNotListedIsNamedOnEveryLineThatUsesIt() {
        hall.replace("sources.csv", "\ncharles1986,", "\ncharles1987,");

        assertFound(
                hall.problem(
                        "quartering.csv",
                        hall.line("quartering.csv", "rter,fat-trim,"),
                        "source",
                        "charles1986",
                        "\"charles1986\": no such source in sources"),
                hall.problem(
                        "quartering.csv",
                        hall.line("quartering.csv", "rter,bone,"),
                        "source",
                        "charles1986",
                        "\"charles1986\": no such source in sources"));
    }

    @Test
    void sourceOfACoefficientNoteIsChecked() {
        long line = hall.replace(
                "coefficient-notes.csv",
                "0.3976,,grange-derived\n*,*,carcass,meat,per_fat",
                "0.3976,,grange-deriv\n*,*,carcass,meat,per_fat");

        assertFound(hall.problem(
                "coefficient-notes.csv",
                line,
                "source",
                "grange-deriv",
                "\"grange-deriv\": no such source in sources"));
    }

    @Test
    void sourceListedTwiceIsRefused() {
        long line = hall.append("sources.csv", "anatomy,common-practice,Again,");

        assertFound(hall.problem(
                "sources.csv", line, "source", "anatomy", "\"anatomy\": a source of this name stands above"));
    }

    @Test
    void kindOfSourceIsOneOfFive() {
        long line = hall.replace("sources.csv", "anatomy,common-practice,", "anatomy,hearsay,");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("kind");
            assertThat(problem.value()).isEqualTo("hearsay");
            assertThat(problem.message())
                    .contains("\"hearsay\"", "published", "derived", "common-practice", "unverified", "assumption");
        });
    }

    // the tree

    @Test
    void unknownParentIsRefused() {
        long line = hall.replace("breakdown.csv", "*,*,meat,topside,", "*,*,meet,topside,");

        assertFound(
                hall.problem(
                        "breakdown.csv",
                        line,
                        "parent",
                        "meet",
                        "\"meet\": unknown parent: it is neither carcass nor a cut of this table; nearest: meat, rump, fillet"));
    }

    @Test
    void unknownCutIsRefused() {
        long line = hall.replace("breakdown.csv", "*,*,meat,topside,", "*,*,meat,topsyde,");

        assertFound(hall.problem(
                "breakdown.csv",
                line,
                "cut",
                "topsyde",
                "\"topsyde\": no such cut in cuts; nearest: topside, blade, bone"));
    }

    @Test
    void cycleIsRefusedAndWrittenOut() {
        hall.append("breakdown.csv", "*,*,striploin-steak,meat,1000,0,0,0,0,0,1,0,0,0,assumption");

        assertFound(hall.problem(
                "breakdown.csv",
                0,
                "parent",
                "",
                "the breakdowns run in a circle: meat -> striploin -> striploin-steak -> meat"));
    }

    @Test
    void cutBrokenDownIntoItselfIsACycle() {
        hall.append("breakdown.csv", "*,*,striploin-steak,striploin-steak,1000,0,0,0,0,0,1,0,0,0,assumption");

        assertFound(hall.problem(
                "breakdown.csv",
                0,
                "parent",
                "",
                "the breakdowns run in a circle: striploin-steak -> striploin-steak"));
    }

    @Test
    void parentAtTheLastLevelIsRefused() {
        long line = hall.append("breakdown.csv", "*,*,striploin-steak,dice,1000,0,0,0,0,0,1,0,0,0,assumption");

        assertFound(hall.problem(
                "breakdown.csv",
                line,
                "parent",
                "striploin-steak",
                "\"striploin-steak\": it stands at the last level, which nothing follows; a parent is broken down at"
                        + " the level after its own"));
    }

    @Test
    void cutThatNothingYieldsIsRefused() {
        long line = hall.append("cuts.csv", "tail,Tail,tissue,bone,,,,,");

        assertFound(hall.problem(
                "cuts.csv",
                line,
                "cut",
                "tail",
                "\"tail\": no breakdown yields it at level tissue, where cuts says that it first stands"));
    }

    @Test
    void cutTwiceIsRefused() {
        long line = hall.append("cuts.csv", "loss,Loss,tissue,loss,,,,,");

        assertFound(hall.problem("cuts.csv", line, "cut", "loss", "\"loss\": a cut of this code stands above"));
    }

    @Test
    void rowTwiceIsRefused() {
        long line = hall.append("breakdown.csv", "*,*,carcass,loss,6,0,0,0,0,0,1,0,2,4,boning-loss");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.file()).isEqualTo(hall.folder + "/breakdown.csv");
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("cut");
            assertThat(problem.value()).isEqualTo("loss");
            assertThat(problem.message()).contains("has the same category, way, parent and cut");
        });
    }

    @Test
    void twoEquallySpecificRowsAreRefused() {
        hall.append("breakdown.csv", "CA,*,carcass,loss,6,0,0,0,0,0,1,0,2,4,boning-loss");
        long line = hall.append("breakdown.csv", "CE,*,carcass,loss,6,0,0,0,0,0,1,0,2,4,boning-loss");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.file()).isEqualTo(hall.folder + "/breakdown.csv");
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("cut");
            assertThat(problem.value()).isEqualTo("loss");
            assertThat(problem.message())
                    .contains("serves the same cut of the same parent and is equally specific; make one of them more"
                            + " specific (category C)");
        });
    }

    @Test
    void categoryThatTheTableDoesNotServeIsRefusedInARow() {
        long line = hall.replace("breakdown.csv", "D,*,carcass,meat,", "DZ,*,carcass,meat,");

        assertFound(hall.problem(
                "breakdown.csv",
                line,
                "category",
                "DZ",
                "\"DZ\": a category is * or letters of the categories that this table serves (CEABD), each once"));
    }

    @Test
    void levelThatTheTableDoesNotHaveIsRefused() {
        long line = hall.replace("cuts.csv", "topside,Topside,primal,", "topside,Topside,prime,");

        assertFound(hall.problem(
                "cuts.csv", line, "level", "prime", "\"prime\": no such level; levels: tissue, primal, retail"));
    }

    @Test
    void kindThatDoesNotExistIsRefused() {
        long line = hall.replace("cuts.csv", "topside,Topside,primal,primal,", "topside,Topside,primal,prime,");

        assertFound(hall.problem(
                "cuts.csv",
                line,
                "kind",
                "prime",
                "kind \"prime\" is none of meat primal steak joint dice lean-trim mince fat-trim bone loss"));
    }

    @Test
    void codeOfACutIsLowerCase() {
        long line = hall.replace("cuts.csv", "bone,Bone,", "Bone,Bone,");

        assertFound(hall.problem(
                "cuts.csv",
                line,
                "cut",
                "Bone",
                "cut \"Bone\" is not lower-case letters and digits joined by single hyphens"));
    }

    // specifications, quarterings, notes, expectations, names

    @Test
    void wayThatACutDoesNotHaveIsRefusedInASpecification() {
        long line = hall.replace("specifications.csv", "steaks,topside,joints", "steaks,topside,cubes");

        assertFound(hall.problem(
                "specifications.csv",
                line,
                "way",
                "cubes",
                "\"cubes\": no way \"cubes\" of topside; its ways: joints, steaks, trim"));
    }

    @Test
    void specificationThatLeavesACutOutIsRefused() {
        hall.replace("specifications.csv", "steaks,topside,joints\n", "");

        assertFound(hall.problem(
                "specifications.csv",
                0,
                "specification",
                "steaks",
                "\"steaks\": no way is given for topside (joints, steaks, trim)"));
    }

    @Test
    void specificationWithTwoWaysForACutIsRefused() {
        long line = hall.append("specifications.csv", "trim,topside,joints");

        assertFound(hall.problem(
                "specifications.csv",
                line,
                "parent",
                "topside",
                "\"topside\": this specification has a way for it above"));
    }

    @Test
    void partOfAQuarterIsAShare() {
        long line = hall.replace("quartering.csv", "flank,0.15,", "flank,1.5,");

        assertFound(hall.problem("quartering.csv", line, "fore_share", "1.5", "\"1.5\": a share is 0 to 1"));
    }

    @Test
    void quarteringThatLeavesACutOutIsRefused() {
        hall.replace("quartering.csv", "10-rib forequarter,flank,0.15,assumption\n", "");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.file()).isEqualTo(hall.folder + "/quartering.csv");
            assertThat(problem.column()).isEqualTo("quartering");
            assertThat(problem.value()).isEqualTo("10-rib forequarter");
            assertThat(problem.message()).contains("its cuts are not all the cuts of one level");
        });
    }

    @Test
    void quarteringWithACutTwiceIsRefused() {
        long line = hall.append("quartering.csv", "10-rib forequarter,flank,0.15,assumption");

        assertFound(hall.problem(
                "quartering.csv", line, "cut", "flank", "\"flank\": this quartering has a row for it above"));
    }

    @Test
    void coefficientNoteBelongsToARowAndATerm() {
        long noRow = hall.replace(
                "coefficient-notes.csv", "*,*,carcass,bone,per_fat_point,", "A,*,carcass,bone,per_fat_point,");
        long noTerm =
                hall.replace("coefficient-notes.csv", "*,*,carcass,meat,fat_below_3,", "*,*,carcass,meat,per_kg,");

        List<Problem> problems = hall.problems();
        assertThat(problems).hasSize(2);
        assertThat(problems)
                .contains(hall.problem(
                        "coefficient-notes.csv", noRow, "cut", "bone", "\"bone\": no row of breakdown has these keys"));
        assertThat(problems).anySatisfy(problem -> {
            assertThat(problem.line()).isEqualTo(noTerm);
            assertThat(problem.column()).isEqualTo("term");
            assertThat(problem.value()).isEqualTo("per_kg");
            assertThat(problem.message())
                    .contains("level_g_per_kg, per_conformation_point, per_fat_point, per_100kg, fat_below_3,"
                            + " conformation_above_15, sd_g_per_kg");
        });
    }

    @Test
    void expectationIsAboutACutOrAKind() {
        long line = hall.replace("expectations.csv", "meat,,tissue,conformation", "meat,meat,tissue,conformation");

        assertFound(hall.problem(
                "expectations.csv", line, "cut", "", "an expectation is about a cut or a kind: fill one of the two"));
    }

    @Test
    void expectationAboutWhatDoesNotStandThereIsRefused() {
        long line = hall.replace("expectations.csv", "bone,,tissue,fat,falls", "brisket,,tissue,fat,falls");

        assertFound(hall.problem(
                "expectations.csv", line, "cut", "brisket", "\"brisket\": nothing of the sort stands at level tissue"));
    }

    @Test
    void everyWordOfAnExpectationIsChecked() {
        hall.write(
                "expectations.csv",
                "cut,kind,level,variable,direction,strict,over,note\nmeat,,tissue,shape,climbs,yes,everywhere,\n");

        assertFound(
                hall.problem(
                        "expectations.csv", 2, "variable", "shape", "\"shape\" is none of conformation fat weight"),
                hall.problem("expectations.csv", 2, "direction", "climbs", "\"climbs\" is none of rises falls"),
                hall.problem(
                        "expectations.csv",
                        2,
                        "strict",
                        "yes",
                        "\"yes\" is none of true false; other words are declared as \"trueValues\" and"
                                + " \"falseValues\" of the field in datapackage.json"),
                hall.problem("expectations.csv", 2, "over", "everywhere", "\"everywhere\" is none of fitted allowed"));
    }

    @Test
    void namesInOtherLanguagesAreRead() {
        hall.declare("names", "names.csv", "cut", "language", "name");
        hall.write("names.csv", "cut,language,name\nfillet,fr,Filet\nfillet,de,Filet\nrump,de,Hüfte\n");

        YieldTable table = hall.read();
        assertThat(table.name("rump", "de")).contains("Hüfte");
        assertThat(table.name("rump", "fr")).isEmpty();
        assertThat(table.digest()).isNotEqualTo(ShippedTables.boneless2026().digest());
    }

    @Test
    void nameOfACutThatTheTableDoesNotHaveIsRefused() {
        hall.declare("names", "names.csv", "cut", "language", "name");
        hall.write("names.csv", "cut,language,name\nfilet,fr,Filet\n");

        assertFound(hall.problem(
                "names.csv", 2, "cut", "filet", "\"filet\": no such cut in cuts; nearest: fillet, dice, meat"));
    }

    // columns

    @Test
    void missingColumnIsNamed() {
        hall.dropColumn("quartering.csv", "fore_share");

        assertThat(hall.problems())
                .contains(hall.problem(
                        "quartering.csv",
                        1,
                        "fore_share",
                        "",
                        "the column \"fore_share\" is missing; columns: quartering, cut, fore_share, source"))
                .allMatch(problem -> problem.column().equals("fore_share"));
    }

    @Test
    void headerBelowABlankLineIsNamedByItsOwnLine() {
        hall.write("sources.csv", "\n" + hall.text("sources.csv").replace("citation", "sitation"));

        assertThat(hall.problems())
                .extracting(Problem::line, Problem::column)
                .containsExactly(tuple(2L, "citation"), tuple(2L, "sitation"));
    }

    @Test
    void missingColumnOfTheBreakdownIsNamedAmongThoseOfTheTerms() {
        hall.dropColumn("breakdown.csv", "fat_below_3");

        assertThat(hall.problems())
                .contains(hall.problem(
                        "breakdown.csv",
                        1,
                        "fat_below_3",
                        "",
                        "the column \"fat_below_3\" is missing; columns: category, way, parent, cut, level_g_per_kg,"
                                + " per_conformation_point, per_fat_point, per_100kg, fat_below_3,"
                                + " conformation_above_15, sd_g_per_kg, source"))
                .allMatch(problem -> problem.column().equals("fat_below_3"));
    }

    @Test
    void columnThatTheSchemaDoesNotDeclareIsRefused() {
        hall.addColumn("quartering.csv", "checked_by");

        assertFound(hall.problem(
                "quartering.csv",
                1,
                "checked_by",
                "",
                "the column \"checked_by\" is not declared; columns of quartering: quartering, cut, fore_share,"
                        + " source; a further one is declared in the schema, as a term if it is one"));
    }

    @Test
    void columnThatTheSchemaDeclaresMustStandInTheFile() {
        declareCheckedBy();

        assertFound(hall.problem(
                "quartering.csv",
                1,
                "checked_by",
                "",
                "the column \"checked_by\" is declared in the schema and missing here"));
    }

    @Test
    void schemaThatLacksAColumnIsRefused() {
        hall.replace("datapackage.json", "\"name\": \"fore_share\"", "\"name\": \"part\"");

        assertThat(hall.problems())
                .contains(hall.problem(
                        DESCRIPTOR,
                        0,
                        "resources",
                        "fore_share",
                        "\"fore_share\": the schema of quartering lacks this field"));
    }

    @Test
    void furtherColumnThatIsDeclaredIsCarriedAndPartOfTheDigest() {
        declareCheckedBy();
        hall.addColumn("quartering.csv", "checked_by");
        YieldTable table = hall.read();

        assertThat(table.definition().extraColumns()).singleElement().satisfies(extra -> {
            assertThat(extra.resource()).isEqualTo("quartering");
            assertThat(extra.column()).isEqualTo("checked_by");
            assertThat(extra.type()).isEqualTo("string");
            assertThat(extra.values()).hasSize(17).startsWith("checked_by 2").endsWith("checked_by 18");
        });
        assertThat(table.digest()).isNotEqualTo(ShippedTables.boneless2026().digest());

        hall.replace("quartering.csv", "checked_by 2\n", "checked_by 99\n");
        assertThat(hall.read().digest()).isNotEqualTo(table.digest());
    }

    @Test
    void furtherColumnOfAnotherTypeIsAnotherTable() {
        declareCheckedBy();
        hall.addColumn("quartering.csv", "checked_by");
        YieldTable text = hall.read();
        hall.replace(DESCRIPTOR, "\"checked_by\", \"type\": \"string\"", "\"checked_by\", \"type\": \"any\"");

        YieldTable any = hall.read();
        assertThat(any.definition().extraColumns())
                .extracting(ExtraColumn::type)
                .containsExactly("any");
        assertThat(any.digest()).isNotEqualTo(text.digest());
    }

    @Test
    void termWhoseColumnIsNotThereIsRefused() {
        hall.replace(DESCRIPTOR, "\"column\": \"fat_below_3\"", "\"column\": \"fat_below_4\"");

        assertThat(hall.problems()).anySatisfy(problem -> {
            assertThat(problem.file()).isEqualTo(hall.folder + "/breakdown.csv");
            assertThat(problem.line()).isEqualTo(1);
            assertThat(problem.column()).isEqualTo("fat_below_4");
            assertThat(problem.message()).startsWith("the column \"fat_below_4\" is missing; columns: category, way,");
        });
    }

    // numbers

    @Test
    void decimalCommaIsRefused() {
        long line = hall.replace("quartering.csv", "flank,0.15,", "flank,\"12,5\",");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("fore_share");
            assertThat(problem.value()).isEqualTo("12,5");
            assertThat(problem.message()).startsWith("\"12,5\" is not a plain number such as 342.5");
        });
    }

    @Test
    void decimalCommaWithoutQuotesIsACellTooMany() {
        long line = hall.replace("quartering.csv", "flank,0.15,", "flank,12,5,");

        assertFound(hall.problem(
                "quartering.csv",
                line,
                "",
                "10-rib forequarter,flank,12,5,assumption",
                "the row has 5 cells but the header has 4; a text or number that holds \",\" belongs in double"
                        + " quotes"));
    }

    @Test
    void numberThatIsNoneOrTooLargeIsRefused() {
        long none = hall.replace("breakdown.csv", "topside,99.372,", "topside,NaN,");
        long large = hall.replace("breakdown.csv", "silverside,70.184,", "silverside,1e999,");
        long blank = hall.replace("breakdown.csv", "knuckle,60.989,", "knuckle,,");

        assertFound(
                hall.problem(
                        "breakdown.csv",
                        none,
                        "level_g_per_kg",
                        "NaN",
                        "\"NaN\" is not a plain number such as 342.5; where nothing is known the cell is empty, or its"
                                + " word is declared under \"missingValues\" of the schema in datapackage.json"),
                hall.problem(
                        "breakdown.csv",
                        large,
                        "level_g_per_kg",
                        "1e999",
                        "\"1e999\" is beyond the range of numbers, 1e-323 to 1e308 in size"),
                hall.problem("breakdown.csv", blank, "level_g_per_kg", "", "\"\" is not a plain number such as 342.5"));
    }

    @Test
    void numberWithExponentIsRead() {
        hall.replace("breakdown.csv", "topside,99.372,", "topside,9.9372e1,");

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void standardDeviationBelowZeroIsRefused() {
        long line =
                hall.replace("breakdown.csv", "0,0,0,10.9,5,2,6,grange-derived", "0,0,0,-10.9,5,2,6,grange-derived");

        assertFound(hall.problem("breakdown.csv", line, "sd_g_per_kg", "-10.9", "\"-10.9\": an SD is 0 to 1000 g/kg"));
    }

    @Test
    void figureOfACutOutsideItsRangeIsRefused() {
        long line = hall.replace("cuts.csv", "topside,Topside,primal,primal,1,", "topside,Topside,primal,primal,-1,");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.file()).isEqualTo(hall.folder + "/cuts.csv");
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.message()).isEqualTo("pieces_per_side -1 is outside 0 to 100 (0 excluded)");
        });
    }

    @Test
    void undeclaredDecimalsAreReadFromTheColumn() {
        dropDecimals();

        assertThat(hall.read().definition().decimals())
                .containsExactlyInAnyOrderEntriesOf(Map.of(
                        "level_g_per_kg", 3,
                        "per_conformation_point", 4,
                        "per_fat_point", 4,
                        "per_100kg", 4,
                        "fat_below_3", 3,
                        "conformation_above_15", 4));
    }

    @Test
    void decimalsReadFromTheColumnExplainNoMoreThanTheirRounding() {
        dropDecimals();
        hall.replace("breakdown.csv", "*,*,carcass,bone,188.671", "*,*,carcass,bone,188.674");

        assertFound(
                hall.problem(
                        "breakdown.csv",
                        0,
                        "level_g_per_kg",
                        "1000.003",
                        "\"1000.003\": the children of carcass add up to 1000.003 g/kg, not 1000; rounding explains at"
                                + " most 0.002; they are meat 693.119, fat-trim 112.21, bone 188.674, loss 6 (category C) (lines 2"
                                + " to 5)"),
                hall.problem(
                        "breakdown.csv",
                        0,
                        "level_g_per_kg",
                        "1000.003",
                        "\"1000.003\": the children of carcass add up to 1000.003 g/kg, not 1000; rounding explains at"
                                + " most 0.002; they are bone 188.674, loss 6, meat 685.319, fat-trim 120.01 (category E) (lines 4"
                                + " to 7)"),
                hall.problem(
                        "breakdown.csv",
                        0,
                        "level_g_per_kg",
                        "1000.003",
                        "\"1000.003\": the children of carcass add up to 1000.003 g/kg, not 1000; rounding explains at"
                                + " most 0.002; they are bone 188.674, loss 6, meat 700.919, fat-trim 104.41 (category AB) (lines"
                                + " 4, 5, 8, 9)"));
    }

    @Test
    void declaredDecimalsExplainTheirRoundingAndTheCorrectionIsReported() {
        // 4 children, 3 decimals: half a unit each is 0.002
        hall.replace("breakdown.csv", "*,*,carcass,bone,188.671", "*,*,carcass,bone,188.673");

        assertThat(hall.read().closingCorrections()).anySatisfy(correction -> {
            assertThat(correction.parent()).isEqualTo("carcass");
            assertThat(correction.column()).isEqualTo("level_g_per_kg");
            assertThat(correction.excess()).isCloseTo(0.002, within(1e-9));
        });
    }

    @Test
    void finerNumbersThanTheirDeclaredDecimalsCountAsTheyStand() {
        hall.replace(DESCRIPTOR, "\"level_g_per_kg\": 3", "\"level_g_per_kg\": 1");
        hall.replace("breakdown.csv", "*,*,carcass,bone,188.671", "*,*,carcass,bone,188.741");

        assertThat(hall.problems())
                .hasSize(3)
                .allSatisfy(problem -> assertThat(problem.message())
                        .startsWith(
                                "\"1000.07\": the children of carcass add up to 1000.07 g/kg, not 1000; rounding explains at"
                                        + " most 0.002; they are "));
    }

    @Test
    void decimalsAreAWholeNumber() {
        long line = hall.replace(DESCRIPTOR, "\"level_g_per_kg\": 3", "\"level_g_per_kg\": 3.5");

        assertFound(hall.problem(
                DESCRIPTOR,
                line,
                "beefyield.decimals.level_g_per_kg",
                "3.5",
                "\"3.5\": decimals are a whole number from 0 to 15"));

        for (String refused : List.of("-1", "16")) {
            hall.replace(DESCRIPTOR, "\"level_g_per_kg\": 3.5", "\"level_g_per_kg\": " + refused);
            assertFound(hall.problem(
                    DESCRIPTOR,
                    line,
                    "beefyield.decimals.level_g_per_kg",
                    refused,
                    "\"" + refused + "\": decimals are a whole number from 0 to 15"));
            hall.replace(DESCRIPTOR, "\"level_g_per_kg\": " + refused, "\"level_g_per_kg\": 3.5");
        }
        hall.replace(DESCRIPTOR, "\"level_g_per_kg\": 3.5", "\"level_g_per_kg\": 3, \"g_per_kg\": 15");
        hall.replace(DESCRIPTOR, "\"sd_g_per_kg\": 2", "\"sd_g_per_kg\": 0");
        assertThat(hall.read().definition().decimals())
                .containsEntry("g_per_kg", 15)
                .containsEntry("sd_g_per_kg", 0);
    }

    // the descriptor

    @Test
    void newerMajorFormatIsRefusedInWords() {
        long line = hall.replace(DESCRIPTOR, "\"format\": \"1.0\"", "\"format\": \"2.0\"");

        assertFound(hall.problem(
                DESCRIPTOR,
                line,
                "beefyield.format",
                "2.0",
                "\"2.0\": this table is written in a newer format than this library reads (1.x); use a newer"
                        + " beefyield"));
    }

    @Test
    void newerMajorFormatIsRefusedBeforeAnythingElseIsLookedAt() {
        hall.replace(DESCRIPTOR, "\"format\": \"1.0\"", "\"format\": \"2.0\"");
        hall.replace(DESCRIPTOR, "\"width_fit\": 1", "\"width_of_the_future\": {}");
        hall.delete("cuts.csv");

        assertThat(hall.problems()).singleElement().extracting(Problem::value).isEqualTo("2.0");
    }

    @Test
    void newerMinorFormatIsRead() {
        hall.replace(DESCRIPTOR, "\"format\": \"1.0\"", "\"format\": \"1.7\"");

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void formatBeforeTheFirstIsRefused() {
        long line = hall.replace(DESCRIPTOR, "\"format\": \"1.0\"", "\"format\": \"0.9\"");

        assertFound(
                hall.problem(DESCRIPTOR, line, "beefyield.format", "0.9", "\"0.9\": this library reads format 1.x"));
    }

    @Test
    void formatIsTwoNumbers() {
        long line = hall.replace(DESCRIPTOR, "\"format\": \"1.0\"", "\"format\": \"one\"");

        assertFound(hall.problem(
                DESCRIPTOR,
                line,
                "beefyield.format",
                "one",
                "\"one\": a format version is two numbers with a point between, such as 1.0"));

        // nothing else is looked at: it may have another meaning
        hall.replace(DESCRIPTOR, "\"width_fit\": 1", "\"width_of_the_future\": {}");
        assertThat(hall.problems()).extracting(Problem::value).containsExactly("one");
        hall.replace(DESCRIPTOR, "\"format\": \"one\"", "\"format\": 1.0");
        assertFound(hall.problem(DESCRIPTOR, line, "beefyield.format", "1.0", "\"1.0\": a text is needed here"));
    }

    @Test
    void nameAndVersionAreHeldAgainstTheirLetters() {
        long name = hall.replace(DESCRIPTOR, "\"name\": \"boneless-2026\"", "\"name\": \"Boneless\"");
        long version = hall.replace(DESCRIPTOR, "\"version\": \"1.0.0\"", "\"version\": \"1 0\"");

        assertFound(
                hall.problem(
                        DESCRIPTOR,
                        name,
                        "name",
                        "Boneless",
                        "\"Boneless\": a name is lower-case letters, digits and . _ -"),
                hall.problem(DESCRIPTOR, version, "version", "1 0", "\"1 0\": a version is letters, digits and . + -"));
    }

    @Test
    void misspeltKeysOfTheObjectsBelowAreNamed() {
        String line = "unknown key; valid here: ";
        String range = line + "conformation, fat, weight_kg";
        String hinge = line + "column, kind, knot, side, variable";
        replaceFirst("\"reference\": {", "\"reference\": {\"a\": 1,");
        hall.replace(DESCRIPTOR, "\"fitted_range\": {", "\"fitted_range\": {\"b\": 1,");
        hall.replace(DESCRIPTOR, "\"column\": \"fat_below_3\",", "\"column\": \"fat_below_3\", \"c\": 1,");
        hall.replace(DESCRIPTOR, "\"basis\": {", "\"basis\": {\"d\": 1,");
        hall.replace(
                DESCRIPTOR,
                "\"terms\": [",
                "\"terms\": [{\"column\": \"x\", \"kind\": \"product\", \"variables\": [\"fat\", \"weight\"], \"e\": 1},");

        assertFound(
                hall.problem(DESCRIPTOR, hall.line(DESCRIPTOR, "\"a\": 1"), "beefyield.reference.a", "", range),
                hall.problem(DESCRIPTOR, hall.line(DESCRIPTOR, "\"b\": 1"), "beefyield.fitted_range.b", "", range),
                hall.problem(DESCRIPTOR, hall.line(DESCRIPTOR, "\"c\": 1"), "beefyield.terms.1.c", "", hinge),
                hall.problem(
                        DESCRIPTOR,
                        hall.line(DESCRIPTOR, "\"d\": 1"),
                        "beefyield.basis.d",
                        "",
                        line + "ageing_days, boneless, fat_cover_mm, hanging, quartering"),
                hall.problem(
                        DESCRIPTOR,
                        hall.line(DESCRIPTOR, "\"e\": 1"),
                        "beefyield.terms.0.e",
                        "",
                        line + "column, kind, variables"));
    }

    @Test
    void productHasTwoVariables() {
        String term = "{\"column\": \"x\", \"kind\": \"product\", \"variables\": [\"fat\"]}";
        long line = hall.replace(DESCRIPTOR, "\"terms\": [", "\"terms\": [" + term + ",");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("beefyield.terms.0");
            assertThat(problem.message()).endsWith(": a product has two variables");
        });
    }

    @Test
    void bonelessIsTrueFalseOrNotKnown() {
        long line = hall.replace(DESCRIPTOR, "\"boneless\": true", "\"boneless\": \"yes\"");
        assertFound(hall.problem(
                DESCRIPTOR,
                line,
                "beefyield.basis.boneless",
                "\"yes\"",
                "\"\"yes\"\": true, false or null is needed here"));

        hall.replace(DESCRIPTOR, "\"boneless\": \"yes\"", "\"boneless\": null");
        assertThat(hall.read().definition().basis().boneless()).isNull();
        hall.replace(DESCRIPTOR, "\"boneless\": null", "\"boneless\": false");
        assertThat(hall.read().definition().basis().boneless()).isFalse();
        assertThat(hall.read().definition().basis().fatCoverMm()).isEqualTo(0.0);
    }

    @Test
    void fieldHasANameOfItsOwn() {
        long twice = hall.line(DESCRIPTOR, "\"name\": \"kind\"");
        replaceFirst("\"name\": \"kind\"", "\"name\": \"level\"");
        assertThat(hall.problems())
                .contains(hall.problem(
                        DESCRIPTOR,
                        twice,
                        "resources.0.schema.fields.3.name",
                        "level",
                        "\"level\": a field of this name stands above"));

        hall.write(
                DESCRIPTOR,
                hall.text(DESCRIPTOR).replaceFirst("\"name\": \"level\",\\s*(\"type\": \"string\",\\s*\"cons)", "$1"));
        assertThat(hall.problems())
                .contains(hall.problem(DESCRIPTOR, 0, "resources.0.schema.fields.2.name", "", "a text is needed here"));
    }

    @Test
    void packageThatIsNoYieldTableIsRefused() {
        hall.replace(DESCRIPTOR, "\"beefyield\": {", "\"other\": {");

        assertFound(hall.problem(DESCRIPTOR, 0, "beefyield", "", "a yield table has an object under this key"));
    }

    @Test
    void profileIsTabularDataPackage() {
        long line = hall.replace(DESCRIPTOR, "\"tabular-data-package\"", "\"data-package\"");

        assertFound(hall.problem(
                DESCRIPTOR,
                line,
                "profile",
                "data-package",
                "\"data-package\": the profile of a table is tabular-data-package"));
    }

    @Test
    void misspeltKeyIsNamedWithTheValidOnes() {
        long line = hall.replace(DESCRIPTOR, "\"width_fit\"", "\"widht_fit\"");
        long table = hall.line(DESCRIPTOR, "\"beefyield\": {");

        List<Problem> problems = hall.problems();
        assertThat(problems).contains(hall.problem(DESCRIPTOR, table, "beefyield", "", "missing here: width_fit"));
        assertThat(problems).anySatisfy(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("beefyield.widht_fit");
            assertThat(problem.message())
                    .startsWith("unknown key; valid here: allowed_range, basis, categories, decimals, ")
                    .endsWith(", reference, residual_degrees_of_freedom, run_degrees_of_freedom, terms, width_fit");
        });
    }

    @Test
    void digestInTheDescriptorIsHeldAgainstTheFiles() {
        String digest = ShippedTables.boneless2026().digest();
        String format = "\"format\": \"1.0\"";
        hall.replace(DESCRIPTOR, format, format + ", \"digest\": \"" + digest + "\"");
        assertThat(hall.read().digest()).isEqualTo(digest);

        hall.replace("sources.csv", "Where a cut lies in the carcass", "Where a cut lies in a carcass");
        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(hall.line(DESCRIPTOR, "\"digest\""));
            assertThat(problem.column()).isEqualTo("beefyield.digest");
            assertThat(problem.value()).isEqualTo(digest);
            assertThat(problem.message()).startsWith("the table's files were changed after this digest was taken:");
        });
    }

    @Test
    void keyTwiceIsRefused() {
        long line = hall.replace(DESCRIPTOR, "\"width_fit\": 1,", "\"width_fit\": 1, \"width_fit\": 2,");

        assertFound(hall.problem(
                DESCRIPTOR, line, "", "", "it can't be read as JSON: Duplicate Object property \"width_fit\""));
    }

    @Test
    void brokenJsonIsRefusedWithItsLine() {
        long line = hall.replace(DESCRIPTOR, "\"width_fit\": 1,", "\"width_fit\": 1");

        assertFound(hall.problem(
                DESCRIPTOR,
                line,
                "",
                "",
                "it can't be read as JSON: a comma is missing here, before the next text (character 19 of the line)"));
    }

    @Test
    void descriptorThatBreaksOffIsRefusedWithItsLine() {
        String whole = hall.text(DESCRIPTOR);
        hall.write(DESCRIPTOR, whole.substring(0, whole.indexOf(NO_LEVELS) + NO_LEVELS.length()));

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(hall.line(DESCRIPTOR, NO_LEVELS));
            assertThat(problem.message())
                    .startsWith(
                            "it can't be read as JSON: the file ends, and the [ of line 16 is not closed; a ] is missing");
        });
    }

    @Test
    void deepNestingIsRefused() {
        hall.replace(DESCRIPTOR, "\"width_fit\": 1,", "\"width_fit\": " + "[".repeat(9999) + "]".repeat(9999) + ",");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.file()).isEqualTo(hall.folder + "/datapackage.json");
            assertThat(problem.message())
                    .startsWith("it can't be read as JSON: Document nesting depth (101) exceeds the maximum allowed"
                            + " (100");
        });
    }

    @Test
    void descriptorThatIsNoObjectIsRefused() {
        for (String other : List.of("[]", "null", "\"table\"")) {
            hall.write(DESCRIPTOR, other);

            assertFound(hall.problem(
                    DESCRIPTOR, 1, "", "", "it is no Data Package descriptor: the whole is not a JSON object"));
        }
    }

    @Test
    void numbersAndTextsOfTheDescriptorAreNotMixedUp() {
        hall.replace(DESCRIPTOR, "\"width_fit\": 1,", "\"width_fit\": true,");
        hall.replace(DESCRIPTOR, "\"version\": \"1.0.0\"", "\"version\": 1");

        assertFound(
                hall.problem(
                        DESCRIPTOR,
                        hall.line(DESCRIPTOR, "\"version\""),
                        "version",
                        "1",
                        "\"1\": a text is needed here"),
                hall.problem(
                        DESCRIPTOR,
                        hall.line(DESCRIPTOR, "\"width_fit\""),
                        "beefyield.width_fit",
                        "true",
                        "\"true\": a number is needed here"));
    }

    @Test
    void numberOfTheDescriptorIsFinite() {
        long line = hall.replace(DESCRIPTOR, "\"width_fit\": 1,", "\"width_fit\": 1e999,");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("beefyield.width_fit");
            assertThat(problem.message()).endsWith("a number is needed here");
        });
    }

    @Test
    void rangeHasTwoAscendingEnds() {
        long line = hall.line(DESCRIPTOR, "\"fitted_range\"") + 1;
        String range = "\"conformation\": [\n        2,\n        14\n      ]";
        hall.replace(DESCRIPTOR, range, "\"conformation\": [14, 2]");

        assertFound(hall.problem(
                DESCRIPTOR,
                line,
                "beefyield.fitted_range.conformation",
                "[14,2]",
                "\"[14,2]\": a range is two ascending numbers: [low, high]"));

        hall.replace(DESCRIPTOR, "\"conformation\": [14, 2]", "\"conformation\": [2, 8, 14]");
        assertFound(hall.problem(
                DESCRIPTOR,
                line,
                "beefyield.fitted_range.conformation",
                "[2,8,14]",
                "\"[2,8,14]\": a range is two numbers: [low, high]"));

        hall.replace(DESCRIPTOR, "\"conformation\": [2, 8, 14]", "\"conformation\": [8, 8]");
        // 16 rows expect a rise or fall over it; as a range it will do
        assertThat(hall.problems())
                .hasSize(16)
                .allMatch(problem -> problem.message().endsWith("but that range holds a single position"));
    }

    @Test
    void allowedRangeEndsAtWholeGradesOfTheScale() {
        hall.replace(DESCRIPTOR, "        1,\n        18\n", "        1,\n        19\n");

        assertThat(hall.problems())
                .singleElement()
                .extracting(Problem::message)
                .isEqualTo("\"1 to 19\": the allowed range of conformation has whole positions from 1 to 18 as its"
                        + " ends");
    }

    @Test
    void categoryThatDoesNotExistIsRefused() {
        long line = hall.replace(DESCRIPTOR, "      \"C\",\n", "      \"Q\",\n");

        assertFound(hall.problem(
                DESCRIPTOR, line, "beefyield.categories.0", "Q", "\"Q\": category \"Q\" is none of C A B D E Z"));
    }

    @Test
    void termsAreProductsOrHinges() {
        long line = hall.line(DESCRIPTOR, "\"terms\": [") + 1;
        hall.replace(DESCRIPTOR, "\"knot\": 3\n", "\"knot\": 3.5\n");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("beefyield.terms.0");
            assertThat(problem.message()).endsWith(": a knot is a whole position of the scale");
        });

        hall.replace(DESCRIPTOR, "\"knot\": 3.5\n", "\"knot\": 3\n");
        hall.replace(DESCRIPTOR, "\"side\": \"below\"", "\"side\": \"under\"");
        assertThat(hall.problems())
                .singleElement()
                .extracting(Problem::message)
                .asString()
                .endsWith(": \"under\" is none of below above");

        hall.replace(DESCRIPTOR, "\"side\": \"under\"", "\"side\": \"below\"");
        hall.replaceAll(DESCRIPTOR, "\"kind\": \"hinge\"", "\"kind\": \"spline\"");
        assertThat(hall.problems())
                .hasSize(2)
                .allMatch(problem -> problem.message().endsWith(": a term is a product or a hinge"));
    }

    // resources

    @Test
    void neededResourceThatIsMissingIsNamed() {
        hall.replace(DESCRIPTOR, "\"name\": \"sources\"", "\"name\": \"sauces\"");

        assertFound(
                hall.problem(
                        DESCRIPTOR,
                        0,
                        "resources",
                        "",
                        "the resource \"sources\" is missing; a table needs cuts, sources"),
                hall.problem(
                        DESCRIPTOR,
                        0,
                        "resources",
                        "sauces",
                        "\"sauces\": unknown resource; valid: breakdown, breakdown-by-class, coefficient-covariance,"
                                + " coefficient-notes, cuts, expectations, names, quartering, residual-covariance,"
                                + " sources, specifications"));
    }

    @Test
    void tableWithoutABreakdownIsRefused() {
        hall.replace(DESCRIPTOR, "\"name\": \"breakdown\"", "\"name\": \"names\"");

        assertThat(hall.problems())
                .contains(hall.problem(
                        DESCRIPTOR, 0, "resources", "", "a table needs breakdown, breakdown-by-class or both"));
    }

    @Test
    void resourceTwiceIsRefused() {
        hall.declare("cuts", "cuts.csv", "cut");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.column()).isEqualTo("resources.1.name");
            assertThat(problem.value()).isEqualTo("cuts");
            assertThat(problem.message()).isEqualTo("\"cuts\": a resource of this name stands above");
        });
    }

    @Test
    void pathThatLeavesThePackageIsRefused() {
        String shipped = "\"path\": \"cuts.csv\"";
        for (String path : List.of(
                "../cuts.csv",
                "a/../../cuts.csv",
                "./cuts.csv",
                "/srv/hall/cuts.csv",
                "C:cuts.csv",
                "a\\\\cuts.csv",
                "~/cuts.csv",
                "https://example.org/cuts.csv",
                "file:cuts.csv",
                "")) {
            PackageCopy other = new PackageCopy(temporary);
            long line = other.replace(DESCRIPTOR, shipped, "\"path\": \"" + path + "\"");

            String value = path.replace("\\\\", "\\");
            assertThat(other.problems())
                    .containsExactly(other.problem(
                            DESCRIPTOR,
                            line,
                            "resources.0.path",
                            value,
                            value.isEmpty() ? NO_PATH : "\"" + value + "\": " + NO_PATH));
        }
    }

    @Test
    void pathIntoAFolderOfThePackageIsRead() throws IOException {
        Files.createDirectory(hall.folder.resolve("rows"));
        Files.move(hall.folder.resolve("cuts.csv"), hall.folder.resolve("rows/cuts-2.csv"));
        hall.replace(DESCRIPTOR, "\"path\": \"cuts.csv\"", "\"path\": \"rows/cuts-2.csv\"");

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void resourceWithoutSchemaIsRefused() {
        hall.declare("names", "names.csv");

        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        DESCRIPTOR,
                        hall.line(DESCRIPTOR, "\"schema\""),
                        "resources.0.schema",
                        "",
                        "a resource declares its columns under schema.fields"));
    }

    // the bytes of a file

    @Test
    void byteOrderMarkAndCarriageReturnsAreAccepted() {
        for (String file : PackageCopy.FILES) {
            hall.write(file, "\uFEFF" + hall.text(file).replace("\n", "\r\n"));
        }

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void missingLastLineEndIsAccepted() {
        for (String file : PackageCopy.FILES) {
            hall.write(file, hall.text(file).stripTrailing());
        }

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void semicolonsAreRefusedWithTheHeader() {
        hall.replaceAll("quartering.csv", ",", ";");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.file()).isEqualTo(hall.folder + "/quartering.csv");
            assertThat(problem.line()).isEqualTo(1);
            assertThat(problem.value()).isEqualTo("quartering;cut;fore_share;source");
            assertThat(problem.message()).contains("is a single cell that holds \";\"", "separator is \",\"");
        });
    }

    @Test
    void otherEncodingOfAFileIsRefusedLineByLine() {
        hall.write("sources.csv", hall.text("sources.csv").getBytes(ISO_8859_1));

        assertThat(hall.problems())
                .hasSize(2)
                .allSatisfy(problem -> {
                    assertThat(problem.file()).isEqualTo(hall.folder + "/sources.csv");
                    assertThat(problem.message()).startsWith("the line is not valid UTF-8; save the file as UTF-8");
                })
                .extracting(Problem::line)
                .containsExactly(29L, 30L);
    }

    @Test
    void emptyFileIsRefused() {
        for (String file : PackageCopy.FILES) {
            if (file.endsWith(".csv")) {
                PackageCopy other = new PackageCopy(temporary);
                other.write(file, "");

                assertThat(other.problems())
                        .containsExactly(other.problem(
                                file,
                                0,
                                "",
                                "",
                                "the file is empty; a header with the names of the columns is needed"));
            }
        }
    }

    @Test
    void breakdownWithOnlyAHeaderHasNoCarcass() {
        hall.write(
                "breakdown.csv", hall.text("breakdown.csv").lines().findFirst().orElseThrow());

        assertFound(hall.problem("breakdown.csv", 0, "parent", "", "no row has the parent carcass"));
    }

    @Test
    void cutsWithOnlyAHeaderLeaveEveryRowWithoutItsCut() {
        hall.write("cuts.csv", hall.text("cuts.csv").lines().findFirst().orElseThrow());

        assertThat(hall.problems())
                .hasSizeGreaterThanOrEqualTo(
                        (int) hall.text("breakdown.csv").lines().count() - 1)
                .contains(hall.problem("breakdown.csv", 2, "cut", "meat", "\"meat\": no such cut in cuts"));
    }

    @Test
    void sourcesWithOnlyAHeaderLeaveEveryRowWithoutItsSource() {
        hall.write("sources.csv", hall.text("sources.csv").lines().findFirst().orElseThrow());

        assertThat(hall.problems())
                .hasSize((int) hall.text("breakdown.csv").lines().count() - 1)
                .contains(hall.problem(
                        "breakdown.csv",
                        2,
                        "source",
                        "grange-derived",
                        "\"grange-derived\": no such source in sources"));
    }

    @Test
    void tableWithoutItsOptionalResourcesIsRead() {
        for (String file : List.of("quartering.csv", "coefficient-notes.csv", "expectations.csv")) {
            hall.write(file, hall.text(file).lines().findFirst().orElseThrow());
        }

        YieldTable table = hall.read();
        assertThat(table.quarterings()).isEmpty();
        assertThat(table.definition().expectations()).isEmpty();
        assertThat(YieldEstimator.of(table).specification().name()).isEqualTo("steaks");
    }

    @Test
    void everyFaultIsReportedAtOnce() {
        hall.replace("breakdown.csv", "topside,99.372,", "topside,NaN,");
        hall.replace("quartering.csv", "flank,0.15,", "flank,a little,");
        hall.replace("sources.csv", "anatomy,common-practice,", "anatomy,hearsay,");
        hall.delete("specifications.csv");

        assertThat(hall.problems())
                .extracting(problem ->
                        problem.file().substring(hall.folder.toString().length() + 1))
                .containsExactlyInAnyOrder("breakdown.csv", "quartering.csv", "sources.csv", "specifications.csv");
    }

    @Test
    void messageOfTheExceptionNamesFileLineColumnAndValue() {
        long line = hall.replace("breakdown.csv", "*,*,meat,topside,", "*,*,meat,topsyde,");

        assertThatThrownBy(hall::read)
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(hall.folder + "/breakdown.csv line " + line
                        + ", cut: \"topsyde\": no such cut in cuts; nearest: topside, blade, bone");
    }

    private void assertFound(Problem... expected) {
        assertThat(hall.problems()).containsExactlyInAnyOrder(expected);
    }

    private static void assertRefused(Path path, Problem expected) {
        InvalidDataException refused = catchThrowableOfType(InvalidDataException.class, () -> TableReader.read(path));
        assertThat(refused.problems()).containsExactly(expected);
        assertThat(refused).hasMessage(expected.toString());
    }

    private void declareCheckedBy() {
        hall.replace(
                DESCRIPTOR,
                "\"name\": \"fore_share\"",
                "\"name\": \"checked_by\", \"type\": \"string\"}, {\"name\": \"fore_share\"");
    }

    private void dropDecimals() {
        String whole = hall.text(DESCRIPTOR);
        int from = whole.indexOf(",\n    \"decimals\": {");
        assertThat(from).isPositive();
        hall.write(DESCRIPTOR, whole.substring(0, from) + whole.substring(whole.indexOf('}', from) + 1));
    }

    private void replaceFirst(String text, String other) {
        String whole = hall.text(DESCRIPTOR);
        int at = whole.indexOf(text);
        assertThat(at).isPositive();
        hall.write(DESCRIPTOR, (whole.substring(0, at) + other + whole.substring(at + text.length())).getBytes(UTF_8));
    }
}
