package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableWriter;
import org.beefyield.data.trade.PaymentGridReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.pay.MarginReport;
import org.beefyield.price.ValueLine;
import org.beefyield.price.Valuer;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MainTest {
    private static final Path CLEAN = Path.of("examples/tarrowmere-2026-11.csv");
    private static final Path MESSY = Path.of("examples/tarrowmere-messy.csv");

    private static final String HEADER = "carcass,category,conformation,fat_class,cold_weight_kg\n";

    @TempDir
    Path folder;

    private String out = "";
    private String err = "";

    private int run(String... arguments) {
        Ran ran = Ran.with(List.of(arguments));
        out = ran.out();
        err = ran.err();
        return ran.code();
    }

    private Path sheet(String text) throws IOException {
        return Files.writeString(folder.resolve("sheet.csv"), text);
    }

    @Test
    void aCleanSheetEndsWithZeroAndPrintsTheLotItsTableAndTheCaution() {
        assertThat(run("--killsheet", CLEAN.toString())).isZero();
        assertThat(err).isEmpty();
        assertThat(out)
                .contains("200 rows, 200 estimated, 0 condemned, 0 refused")
                .contains("Lot of 200 carcasses")
                .contains(ShippedTables.boneless2026().identity())
                .contains("Striploin")
                .contains("The same lot under each cutting specification")
                .contains(Cautions.PLANNING)
                .doesNotContain("Refused");
    }

    @Test
    void everyCarcassHasRowsThatAddUpToItsColdWeightAndToOneAtEachLevel() throws IOException {
        Path estimates = folder.resolve("estimates.csv");
        run("--killsheet", CLEAN.toString(), "--out", estimates.toString(), "--mince=15");

        List<String> lines = Files.readAllLines(estimates);
        assertThat(lines.get(0))
                .isEqualTo(
                        "carcass,level,cut,kind,kg,share,notes,lot,table,specification,low_kg,high_kg,value,kill_date,hall,"
                                + "supplier,category,conformation,fat_class,cold_weight_kg");
        String identity = ShippedTables.boneless2026().identity();
        Map<String, BigDecimal> kg = new LinkedHashMap<>();
        Map<String, BigDecimal> share = new LinkedHashMap<>();
        for (String line : lines.subList(1, lines.size())) {
            List<String> cells = Arrays.asList(line.split(",", -1));
            String key = cells.get(0) + " " + cells.get(1);
            kg.merge(key, new BigDecimal(cells.get(4)), BigDecimal::add);
            share.merge(key, new BigDecimal(cells.get(5)), BigDecimal::add);
            assertThat(cells.get(4)).matches("[0-9]+\\.[0-9]{3}");
            assertThat(cells.get(5)).matches("[01]\\.[0-9]{6}");
            assertThat(cells.get(8)).isEqualTo(identity);
            assertThat(cells.get(9)).isEqualTo("steaks");
            assertThat(cells).hasSize(20);
            assertThat(cells.get(12)).isEmpty();
            assertThat(cells.get(13)).startsWith("2026-11-");
            assertThat(cells.get(14)).isEmpty();
        }
        List<Carcass> carcasses = KillSheetReader.read(CLEAN).carcasses();
        assertThat(kg).hasSize(3 * carcasses.size());
        for (Carcass carcass : carcasses) {
            for (String level : List.of("tissue", "primal", "retail")) {
                String key = carcass.id().orElseThrow() + " " + level;
                assertThat(kg.get(key)).as(key).isEqualByComparingTo(BigDecimal.valueOf(carcass.coldWeightKg()));
                assertThat(share.get(key)).as(key).isEqualByComparingTo(BigDecimal.ONE);
            }
        }
    }

    private static final Path PRICES = Path.of("examples/tarrowmere-prices.csv");
    private static final Path GRID = Path.of("examples/tarrowmere-grid.csv");

    @Test
    void withPricesAndAGridItSaysWhatTheLotIsWorthTheMarginAndWhyAUBeatsAnO() {
        assertThat(run("--killsheet", CLEAN.toString(), "--prices", PRICES.toString(), "--grid", GRID.toString()))
                .isZero();
        YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
        Valuer valuer = Valuer.of(PriceListReader.read(PRICES), estimator);
        List<Carcass> carcasses = KillSheetReader.read(CLEAN).carcasses();
        MarginReport.Collector collector = MarginReport.collector(valuer, PaymentGridReader.read(GRID));
        carcasses.forEach(collector::add);
        MarginReport margins = collector.result();

        assertThat(out)
                .contains("\n" + valuer.value(estimator.estimateLot(carcasses)) + "\n")
                .contains("\n" + margins + "\n")
                .containsPattern(
                        "\nThe U= 3= steer is worth [0-9.]+ EUR more than the O= 3= steer of the same 334 kg, all"
                                + " of it for conformation: [^\n]* less bone\\.\n");
        assertThat(margins.total().orElseThrow().carcasses()).isEqualTo(200);
    }

    @Test
    void theValuesOfACarcassAddUpToThatOfItsCuts() throws IOException {
        Path estimates = folder.resolve("estimates.csv");
        run(
                "--killsheet",
                CLEAN.toString(),
                "--out",
                estimates.toString(),
                "--mince",
                "15",
                "--prices",
                PRICES.toString());
        Map<String, BigDecimal> sums = new LinkedHashMap<>();
        List<String> lines = Files.readAllLines(estimates);
        for (String line : lines.subList(1, lines.size())) {
            List<String> cells = Arrays.asList(line.split(",", -1));
            if (cells.get(1).equals("retail")) {
                sums.merge(cells.get(0), new BigDecimal(cells.get(12)), BigDecimal::add);
            } else {
                assertThat(cells.get(12)).isEmpty();
            }
        }
        Valuer valuer = Valuer.of(
                PriceListReader.read(PRICES),
                YieldEstimator.of(ShippedTables.boneless2026()).with(MinceTarget.fatPercent(15)));
        List<Carcass> carcasses = KillSheetReader.read(CLEAN).carcasses();
        assertThat(sums).hasSameSizeAs(carcasses);
        for (Carcass carcass : carcasses) {
            double cuts = valuer.value(carcass).lines().stream()
                    .filter(line -> !line.code().isEmpty())
                    .mapToDouble(ValueLine::amount)
                    .sum();
            assertThat(sums.get(carcass.id().orElseThrow()))
                    .isEqualTo(BigDecimal.valueOf(cuts).setScale(2, RoundingMode.HALF_UP));
        }
    }

    @Test
    void anotherLevelIsValuedWhenAsked() {
        assertThat(run("--killsheet", CLEAN.toString(), "--prices", PRICES.toString(), "--value-level", "primal"))
                .isZero();
        assertThat(out).contains(" more primal cuts, ");
    }

    @Test
    void aCarcassThatTheGridDoesNotPayIsNamedAndLeftOutOfTheMargin() throws IOException {
        Path grid = Files.writeString(folder.resolve("grid.csv"), """
            line,category,conformation,fat_class,from_kg,to_kg,per_kg,currency
            base,C,,,,,5,EUR
            grade,*,,,,,0,EUR
            """);
        Path sheet = sheet(HEADER + "A1,C,R=,3=,340\nA2,D,R=,3=,300\n");
        assertThat(run("--killsheet", sheet.toString(), "--prices", PRICES.toString(), "--grid", grid.toString()))
                .isZero();
        assertThat(out)
                .contains("\n1 carcass: margin ")
                .contains(
                        "Note: " + sheet + " line 3: the payment grid has no base price for category D, carcass A2 D R="
                                + " 3= 300 kg; its payment and margin are left out\n");
    }

    @Test
    void whatFitsAndWhatSuppliersAreTold() throws IOException {
        Path feedback = folder.resolve("feedback");
        assertThat(run(
                        "--killsheet",
                        CLEAN.toString(),
                        "--prices",
                        PRICES.toString(),
                        "--market",
                        "examples/tarrowmere-market.csv",
                        "--windows",
                        "examples/tarrowmere-windows.csv",
                        "--fat-target",
                        "4L",
                        "--feedback",
                        feedback.toString()))
                .isEqualTo(ExitCode.GOOD);

        assertThat(out)
                .contains("\n58 of 200 carcasses are in specification retail: 270 to 380 kg cold; ")
                .contains("\nconformation        100      50.0  ")
                .contains("\nStriploin as steaks, pieces of 5 to 10 kg        200 ")
                .contains("\nCut the best way, carcass by carcass, the lot is expected to return ")
                .contains("\n10 carcasses are fatter than 4L: ")
                .contains("\nThat is worth ")
                .contains("\nFeedback sheets for 5 suppliers written to " + feedback + "\n");
        assertThat(Files.readString(feedback.resolve("upper-tarrow.html")))
                .startsWith("<!DOCTYPE html>")
                .contains("<h1>Feedback for Upper Tarrow</h1>")
                .doesNotContain("worth", "Long Tarrow");
        assertThat(Files.readString(feedback.resolve("upper-tarrow.txt"))).contains("\nAdvice: ");
    }

    @Test
    void minceThatCanNotBeAsLeanAsAskedIsSoldAtTheFatThatItHas() throws IOException {
        Path prices = folder.resolve("prices.csv");
        Files.writeString(
                prices,
                Files.readString(PRICES)
                        .replace("mince,15,5.60,EUR\nmince,,5.20,EUR\n", "mince,10,7.00,EUR\nmince,15,5.60,EUR\n"));
        assertThat(run("--killsheet", CLEAN.toString(), "--prices", prices.toString(), "--mince", "10"))
                .isEqualTo(ExitCode.GOOD);

        assertThat(out)
                .containsPattern("\nWorth [0-9,]+ EUR, .* % fat, at the price for 15 %\n")
                .contains("\n" + Cautions.NO_SETTLEMENT + "\n");
        double lean = worth();
        run("--killsheet", CLEAN.toString(), "--prices", prices.toString(), "--mince", "15");
        assertThat(worth()).isGreaterThan(lean);

        Files.writeString(prices, Files.readString(prices).replace("mince,15,5.60,EUR\n", ""));
        Path estimates = folder.resolve("estimates.csv");
        assertThat(run(
                        "--killsheet",
                        CLEAN.toString(),
                        "--prices",
                        prices.toString(),
                        "--mince",
                        "10",
                        "--out",
                        estimates.toString()))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).startsWith(prices + ": no price is given for mince at ").contains(" % fat (10 % asked)");
        assertThat(estimates).doesNotExist();
    }

    private double worth() {
        Matcher worth = Pattern.compile("Worth ([0-9,]+) EUR").matcher(out);
        assertThat(worth.find()).isTrue();
        return Double.parseDouble(worth.group(1).replace(",", ""));
    }

    @Test
    void oneRuleForEdgesIsChosenForTheRunAndSaid() {
        List<String> command = List.of(
                "--killsheet",
                CLEAN.toString(),
                "--prices",
                PRICES.toString(),
                "--grid",
                "examples/tarrowmere-grid.csv",
                "--market",
                "examples/tarrowmere-market.csv",
                "--fat-target",
                "4L");
        assertThat(run(command.toArray(String[]::new))).isEqualTo(ExitCode.GOOD);
        assertThat(out)
                .contains("fat class 3 to 4L (4= and 4 count as 4L)", "\n10 carcasses are fatter than 4L: ")
                .contains("\n4= and 4 count as 4L\n");
        List<String> upper = new ArrayList<>(command);
        upper.addAll(List.of("--edge", "upper"));
        assertThat(run(upper.toArray(String[]::new))).isEqualTo(ExitCode.GOOD);
        assertThat(out)
                .contains("fat class 3 to 4L (4= and 4 count as 4H)", "\n23 carcasses are fatter than 4L: ")
                .contains("\n4= and 4 count as 4H\n");
        upper.set(upper.size() - 1, "middle");
        assertThat(run(upper.toArray(String[]::new))).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).startsWith("--edge \"middle\" is none of lower, upper\n");
    }

    @Test
    void whatEachAnimalWasWorthStandsOnTheSheetsIfAskedFor() throws IOException {
        Path feedback = folder.resolve("feedback");
        assertThat(run(
                        "--killsheet",
                        CLEAN.toString(),
                        "--prices",
                        PRICES.toString(),
                        "--feedback",
                        feedback.toString(),
                        "--feedback-value"))
                .isEqualTo(ExitCode.GOOD);

        assertThat(Files.readString(feedback.resolve("upper-tarrow.txt")))
                .contains("worth, EUR")
                .doesNotContain("in specification");
    }

    @Test
    void aBonusForBeingInSpecificationIsPaidOnceTheMarketSaysWhatThatIs() throws IOException {
        Path bonus = folder.resolve("bonus.csv");
        Files.writeString(bonus, Files.readString(GRID) + "specification,*,,,,,0.12,EUR\n");

        assertThat(run(
                        "--killsheet", CLEAN.toString(),
                        "--prices", PRICES.toString(),
                        "--grid", bonus.toString(),
                        "--market", "examples/tarrowmere-market.csv"))
                .isEqualTo(ExitCode.GOOD);
        assertThat(out).contains("\n200 carcasses: margin ");
    }

    @Test
    void windowsAndTargetsThatDoNotFitAreRefused() throws IOException {
        Path windows = folder.resolve("windows.csv");
        Files.writeString(windows, "cut,way,from_kg,to_kg,otherwise\nstriploin,stakes,,10,joints\n");

        assertThat(run("--killsheet", CLEAN.toString(), "--prices", PRICES.toString(), "--windows", windows.toString()))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).isEqualTo(windows + ": no way \"stakes\" of striploin; its ways: joints, steaks, trim\n");
        assertThat(run("--killsheet", CLEAN.toString(), "--windows", windows.toString()))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).startsWith("--windows needs --prices\n");
        assertThat(run("--killsheet", CLEAN.toString(), "--fat-target", "6")).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).startsWith("--fat-target: fat class 6 is outside 1 to 5");
    }

    @Test
    void pricesAndGridsThatDoNotFitAreRefused() throws IOException {
        Path few = Files.writeString(folder.resolve("few.csv"), "line,name,price,currency\nkind,steak,20,EUR\n");
        assertThat(run("--killsheet", CLEAN.toString(), "--prices", few.toString()))
                .isEqualTo(2);
        assertThat(err).startsWith(few + ": no price is given for topside-joint (joint), ");
        Path bonus = Files.writeString(
                folder.resolve("bonus.csv"), Files.readString(GRID) + "specification,*,,,,,0.1,EUR\n");
        assertThat(run("--killsheet", CLEAN.toString(), "--prices", PRICES.toString(), "--grid", bonus.toString()))
                .isEqualTo(2);
        assertThat(err)
                .isEqualTo(bonus
                        + ", line: the grid has a bonus for being in specification: say with --market what that is\n");
        Path pounds = Files.writeString(
                folder.resolve("pounds.csv"), Files.readString(GRID).replace("EUR", "GBP"));
        assertThat(run("--killsheet", CLEAN.toString(), "--prices", PRICES.toString(), "--grid", pounds.toString()))
                .isEqualTo(2);
        assertThat(err)
                .isEqualTo(
                        pounds + ": amounts in EUR and in GBP don't go together; bring them to one currency first\n");
        assertThat(run("--killsheet", CLEAN.toString(), "--grid", GRID.toString()))
                .isEqualTo(2);
        assertThat(err).startsWith("--grid needs --prices\n");
        assertThat(run("--killsheet", CLEAN.toString(), "--value-level", "primal"))
                .isEqualTo(2);
        assertThat(err).startsWith("--value-level needs --prices\n");
    }

    @Test
    void theKindsOfTheTissueAndPrimalLevelsAreTheirOwn() throws IOException {
        Path estimates = folder.resolve("estimates.csv");
        run("--killsheet", CLEAN.toString(), "--out", estimates.toString());
        assertThat(kinds(estimates, "tissue")).containsExactlyInAnyOrder("meat", "fat-trim", "bone", "loss");
        assertThat(kinds(estimates, "primal")).containsExactlyInAnyOrder("primal", "fat-trim", "bone", "loss");
        assertThat(kinds(estimates, "retail"))
                .containsExactlyInAnyOrder("steak", "joint", "dice", "lean-trim", "fat-trim", "bone", "loss");
    }

    private static List<String> kinds(Path estimates, String level) throws IOException {
        try (Stream<String> lines = Files.lines(estimates)) {
            return lines.map(line -> line.split(",", -1))
                    .filter(cells -> cells[1].equals(level))
                    .map(cells -> cells[3])
                    .distinct()
                    .toList();
        }
    }

    @Test
    void aMessySheetEndsWithFourAndNamesEveryRefusedRowWhileTheGoodOnesAreWritten() throws IOException {
        Path estimates = folder.resolve("estimates.csv");
        assertThat(run("--killsheet", MESSY.toString(), "--out", estimates.toString()))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains("32 rows, 7 estimated, 1 condemned, 24 refused")
                .contains("Refused, 24 rows:")
                .contains(
                        "line 12, fat_class: fat class 8 is outside 1 to 5; a position on the 15-point scale belongs in"
                                + " fat_points");
        List<Object> ids = new ArrayList<>();
        for (String line : Files.readAllLines(estimates)) {
            ids.add(line.substring(0, line.indexOf(',')));
        }
        assertThat(ids.stream().distinct()).hasSize(1 + 7);
    }

    @Test
    void aCarcassOutsideTheTableIsRefusedByLineAndTheOthersGoOn() throws IOException {
        Path sheet = sheet(HEADER + "A1,C,R=,3=,340\nA2,Z,R=,3=,150\nA3,C,R=,3=,140\n");
        assertThat(run("--killsheet", sheet.toString())).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains("3 rows, 1 estimated, 0 condemned, 2 refused")
                .contains(sheet
                        + " line 3: carcass A2: category Z is not served by table boneless-2026, which serves C E A"
                        + " B D")
                .contains(
                        sheet + " line 4: carcass A3: cold weight 140 kg is 10 kg outside the allowed range 150 to 600"
                                + " kg");
    }

    @Test
    void aSheetWithoutAUsableRowSaysSo() throws IOException {
        Path sheet = sheet(HEADER + "A1,C,X,3=,340\n");
        assertThat(run("--killsheet", sheet.toString())).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out).contains("No carcass could be estimated").contains("none of S E U R O P");
    }

    @Test
    void everyRefusalAndNoteGoesToAFileAndTheFirstThousandOfEachArePrinted() throws IOException {
        StringBuilder rows = new StringBuilder(HEADER.replace("\n", ",hot_weight_kg\n"));
        for (int i = 1; i <= 1002; i++) {
            rows.append("A" + i + ",C,R=,3=,340,347\n");
            rows.append("B" + i + ",C,R=,\"3," + i + "\",340,\n");
        }
        rows.append("C1,Z,R=,3=,150,\n");
        Path sheet = sheet(rows.toString());
        Path problems = folder.resolve("problems.csv");

        assertThat(run("--killsheet", sheet.toString())).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains("2,005 rows, 1,002 estimated, 0 condemned, 1,003 refused")
                .contains(sheet + " line 2001, fat_class: ")
                .doesNotContain(sheet + " line 2003, fat_class: ")
                .contains("\nNote: and 2 more; with --problems FILE all of them are written\n")
                .contains("\n  and 3 more; with --problems FILE all of them are written\n");

        assertThat(run("--killsheet", sheet.toString(), "--problems", problems.toString()))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains("\n  and 3 more\n")
                .contains("\nRefusals and notes written to " + problems + ": 1003 and 1002\n");
        List<String> written = Files.readAllLines(problems);
        assertThat(written).hasSize(1 + 1003 + 1002);
        assertThat(written.get(0)).isEqualTo("kind,file,line,column,value,message");
        assertThat(written.get(1))
                .isEqualTo("note," + sheet
                        + ",2,cold_weight_kg,340,\"carcass A1: cold weight 340 kg counts, hot weight 347 kg is"
                        + " given too\"");
        assertThat(written.get(2)).startsWith("refused," + sheet + ",3,fat_class,\"3,1\",\"fat class 3,1 ");
        assertThat(written.get(2005))
                .startsWith("refused," + sheet + ",2006,,C1,\"carcass C1: category Z is not served");
    }

    @Test
    void carcassesRefusedByTheTableForTheSameArePrintedAsOneToo() throws IOException {
        StringBuilder rows = new StringBuilder(HEADER);
        for (int i = 1; i <= 1001; i++) {
            rows.append("Z" + i + ",Z,R=,3=,340\n");
        }
        rows.append("C1,C,R=,3=,90\n");
        assertThat(run("--killsheet", sheet(rows.toString()).toString())).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains("\n  1001 rows, such as line 2: carcass Z1: category Z is not served by table boneless-2026,"
                        + " which serves C E A B D; lines 2 to 1002\n")
                .contains(
                        " line 1003: carcass C1: cold weight 90 kg is 60 kg outside the allowed range 150 to 600 kg\n");
    }

    @Test
    void anOptionIsNotTakenForTheValueOfTheOneBeforeIt() {
        assertThat(run("--killsheet", CLEAN.toString(), "--unit", "--decimal-comma"))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err)
                .startsWith(
                        "option --unit needs a value, but --decimal-comma stands behind it; a value that is called so is"
                                + " written as --unit=--decimal-comma\n");
    }

    @Test
    void aRowIsCountedOnceHoweverOftenItIsRefusedForTheSame() throws IOException {
        assertThat(run(
                        "--killsheet",
                        sheet(HEADER.replace("\n", ",dressing\n") + "A,C,R=,3=,340,xx xx\nB,C,R=,3=,340,\n")
                                .toString()))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out).contains(" line 2, dressing: ").doesNotContain("lines 2");
    }

    @Test
    void equalRefusalsArePrintedAsOneWithTheirLines() throws IOException {
        StringBuilder rows = new StringBuilder(HEADER + "A1,C,R=,3=,340\n");
        for (int i = 1; i <= 172; i++) {
            rows.append("B" + i + ",C,R=,3=,\"" + (300 + i % 7) + ",5\"\n");
        }
        rows.append("C1,C,,3=,340\nC2,C,R=,3=,340\nC3,C,,3=,340\nC4,C,X,3=,340\n");
        Path problems = folder.resolve("problems.csv");
        Path sheet = sheet(rows.toString());

        assertThat(run("--killsheet", sheet.toString(), "--problems", problems.toString()))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out).contains("""

                        Refused, 175 rows:
                          172 rows, such as line 3, cold_weight_kg: "301,5" is not a plain number such as 342.5; if its comma is a\
                         decimal comma, declare it: CsvForm.builder().decimalComma(), --decimal-comma; lines 3 to 174
                          2 rows, conformation: no conformation is given; every row needs conformation; lines 175 and 177
                          SHEET line 178, conformation:\
                        """.replace("SHEET", sheet.toString()));
        assertThat(Files.readAllLines(problems)).hasSize(1 + 175);
    }

    @Test
    void theWideFormProgressAndPackedFilesAreThereWhenAskedFor() throws IOException {
        Path estimates = folder.resolve("estimates.csv.gz");
        assertThat(run("--killsheet", MESSY.toString(), "--out", estimates.toString(), "--wide", "--progress"))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(err).containsPattern("examples/tarrowmere-messy.csv: 32 rows, [0-9]+ a second, 24 refused\n$");
        try (GZIPInputStream in = new GZIPInputStream(Files.newInputStream(estimates))) {
            String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            assertThat(text).startsWith("carcass,lot,kill_date,hall,cold_weight_kg,");
            assertThat(text.lines()).hasSize(1 + 7);
        }
        assertThat(run("--killsheet", MESSY.toString(), "--wide")).isEqualTo(2);
        assertThat(err).startsWith("--wide needs --out\n");
    }

    @Test
    void semicolonsDecimalCommasAndHalvesAreReadWhenDeclared() throws IOException {
        Path sheet = sheet(HEADER.replace(',', ';') + "A1;C;-U;4L;340,5\n");
        assertThat(run("--killsheet", sheet.toString(), "--separator", ";", "--decimal-comma", "--halves"))
                .isZero();
        assertThat(out).contains("340.5 kg cold");
        assertThat(run("--killsheet", sheet.toString())).isEqualTo(2);
        assertThat(err).contains("holds \";\", but the declared separator is \",\"");
    }

    @Test
    void whatCannotRunEndsWithTwoAndLeavesTheOldFileAsItWas() throws IOException {
        Path estimates = Files.writeString(folder.resolve("estimates.csv"), "old");
        Path sheet = sheet("carcass,category\nA1,C\n");
        assertThat(run("--killsheet", sheet.toString(), "--out", estimates.toString()))
                .isEqualTo(2);
        assertThat(err).contains("conformation").contains("fat_class").contains("cold_weight_kg");
        assertThat(estimates).hasContent("old");
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactlyInAnyOrder(estimates, sheet);
        }
    }

    @Test
    void badOptionsAreNamedWithWhatIsValid() {
        assertThat(run("--killsheet", CLEAN.toString(), "--specification", "roasts"))
                .isEqualTo(2);
        assertThat(err)
                .startsWith(
                        "no cutting specification \"roasts\" in table boneless-2026; it has steaks, joints, trim\n");
        assertThat(run("--killsheet", CLEAN.toString(), "--mince", "80")).isEqualTo(2);
        assertThat(err).startsWith("mince at 80 % fat can't be reached with fat-trim of 72 % fat");
        assertThat(run("--killsheet", CLEAN.toString(), "--mince", "lean")).isEqualTo(2);
        assertThat(err).startsWith("--mince \"lean\" is not a number such as 15\n");
        assertThat(run()).isEqualTo(2);
        assertThat(err).startsWith("option --killsheet is missing\n");
        assertThat(run("--kilsheet", "x")).isEqualTo(2);
        assertThat(err).startsWith("unknown option \"--kilsheet\"; options: --killsheet --out");
        assertThat(run("--killsheet")).isEqualTo(2);
        assertThat(err).startsWith("option --killsheet needs a value\n");
        assertThat(run("--killsheet", "a", "--killsheet", "b")).isEqualTo(2);
        assertThat(err).startsWith("option --killsheet stands twice\n");
        assertThat(run("--killsheet=")).isEqualTo(2);
        assertThat(err).startsWith("option --killsheet has an empty value\n");
        assertThat(run("--killsheet", "no-such.csv")).isEqualTo(2);
        assertThat(err).contains("no-such.csv").contains("there is no such file");
        assertThat(run("--killsheet", CLEAN.toString(), "--table", "no-such-table"))
                .isEqualTo(2);
        assertThat(err)
                .isEqualTo(
                        "no-such-table: there is no such folder or zip file; by its name alone there is boneless-2026\n");
        assertThat(run("--killsheet", CLEAN.toString(), "--out", folder.toString()))
                .isEqualTo(2);
        assertThat(err).contains("can't be written: it is a folder, not a file");
    }

    @Test
    void helpListsTheOptionsAndEndsWithZero() {
        assertThat(run("--help")).isZero();
        assertThat(out).contains("--killsheet").contains("--mince").contains("Exit code");
    }

    /** 0.95 was taken as 0.95 per cent once. */
    @Test
    void aPromiseBelowOnePerCentSaysWhatWasMeant() {
        assertThat(run("--killsheet", CLEAN.toString(), "--promise", "0.95")).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).startsWith("--promise \"0.95\" is less than 1 per cent; for 95 % sure it is 95\n");
    }

    @Test
    void whatWasTrimmedGoesFromTheCutsOfItsRegion() throws IOException {
        Path sheet = sheet("""
                carcass,category,conformation,fat_class,cold_weight_kg,trimmed_kg,trimmed_hind_kg,trimmed_neck_kg
                A1,C,R=,3=,340,5,4,1
                A2,C,R=,3=,340,,,
                """);
        assertThat(run("--killsheet", sheet.toString())).isZero();
        assertThat(out)
                .contains("\n5.0 kg trimmed off 1 carcass: hind 4.0, neck 1.0\n")
                .containsPattern("\nTopside +-0\\.[0-9]\n")
                .containsPattern("\nBrisket +0\\.[0-9]\n");
        assertThat(run("--killsheet", sheet("""
                                        carcass,category,conformation,fat_class,cold_weight_kg,trimmed_kg,trimmed_fore_kg
                                        A1,C,R=,3=,340,5,4
                                        """).toString())).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains(
                        "trimmed weight 5 kg is not the 4 kg that its regions add up to; give one of them, or both alike");
    }

    @Test
    void promisesOfEveryCutStandBehindTheLot() {
        assertThat(run("--killsheet", CLEAN.toString(), "--promise", "95")).isZero();
        assertThat(out).contains("""

                95 % sure to come out, each cut by itself:

                retail level        expected, kg  promise, kg  largest doubt
                """);
        LotEstimate lot = YieldEstimator.of(ShippedTables.boneless2026())
                .estimateLot(KillSheetReader.read(CLEAN).carcasses());
        assertThat(out)
                .contains(lot.promiseTable(0.95).toText() + "\nThe same lot under each cutting specification:")
                .contains("as the table cuts, kg: low")
                .doesNotContain("--own-hall");
        assertThat(run("--killsheet", CLEAN.toString())).isZero();
        assertThat(out).doesNotContain("promise");
    }

    @Test
    void inOnesOwnHallIntervalsPromisesAndValuesLeaveOutHowHallsDiffer() {
        assertThat(run(
                        "--killsheet",
                        CLEAN.toString(),
                        "--promise=97.5",
                        "--own-hall",
                        "--prices",
                        "examples/tarrowmere-prices.csv"))
                .isZero();
        LotEstimate own = YieldEstimator.of(ShippedTables.boneless2026())
                .inOwnHall()
                .estimateLot(KillSheetReader.read(CLEAN).carcasses());
        assertThat(out)
                // what holds for all intervals is said once, on the first page
                .contains(own.toText().split("\n\n", -1)[1])
                .contains(String.join("\n", own.intervalWords(Figure.saleable())))
                .contains("\n97.5 % sure to come out, each cut by itself:\n\n"
                        + own.promiseTable(0.975).toText())
                .contains("; left out: how your hall differs from the table\n")
                .doesNotContain("as the table cuts")
                .doesNotContain("--own-hall changes nothing");
    }

    @Test
    void aTableThatStatesNothingOfHallsSaysThatOnesOwnHallChangesNothing() throws IOException {
        TableDefinition shipped = ShippedTables.boneless2026().definition();
        TableDefinition.Builder silent =
                TableDefinition.builder("silent", "1").levels("tissue").categories(Category.STEER);
        Path table = folder.resolve("silent");
        YieldTable made =
                YieldTable.of(silent.source(new SourceRow("made", SourceKind.ASSUMPTION, "Made for a test", ""))
                        .ranges(shipped.fitted(), shipped.allowed())
                        .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                        .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                        .row("carcass", "meat", 20, "made", 750)
                        .row("carcass", "bone", 20, "made", 250)
                        .build());
        TableWriter.write(made, table);
        Path sheet = sheet(HEADER + "A1,C,R=,3=,340\n");
        assertThat(run("--killsheet", sheet.toString(), "--table", table.toString(), "--own-hall"))
                .isZero();
        assertThat(out)
                .contains("\n--own-hall changes nothing: table " + made.identity()
                        + " states nothing of how halls differ\n")
                .contains(
                        "\nNote: errors that carcasses of a lot, a run or a hall have in common aren't in these intervals: the table"
                                + " states none\n");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            0    | --promise "0" is not above 0 and below 100, per cent; such as 95
            100  | --promise "100" is not above 0 and below 100, per cent; such as 95
            -5   | --promise "-5" is not above 0 and below 100, per cent; such as 95
            most | --promise "most" is not a number such as 15
            """)
    void aPromiseIsOfAProbabilityAboveNoneAndBelowAll(String percent, String message) {
        assertThat(run("--killsheet", CLEAN.toString(), "--promise=" + percent)).isEqualTo(2);
        assertThat(err).startsWith(message + "\n");
    }

    @Test
    void theLotPrintedIsTheLotOfItsOwnSpecification() {
        run("--killsheet", CLEAN.toString(), "--specification", "joints");
        assertThat(out).contains("cutting specification joints").contains("Striploin joint");
        run("--killsheet", CLEAN.toString(), "--specification", "trim");
        assertThat(out).contains("cutting specification trim").doesNotContain("Striploin joint");
    }
}
