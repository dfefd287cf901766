package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.TwoTables;
import org.beefyield.price.Valuer;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A table and its baseline side by side on the carcasses of a kill sheet. */
class TwoTablesRunTest {
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final Path SHEET = Path.of("examples/tarrowmere-2026-11.csv");
    private static final Path PRICES = Path.of("examples/tarrowmere-prices.csv");

    @TempDir
    Path folder;

    private String out = "";
    private String err = "";

    @BeforeEach
    void aTableWithCloserSteaks() throws IOException {
        ShippedTables.export("boneless-2026", folder.resolve("hall"));
        Path file = folder.resolve("hall/breakdown.csv");
        String text = Files.readString(file);
        assertThat(text).contains("striploin-steak,851,").contains("*,steaks,striploin,fat-trim,33,");
        Files.writeString(
                file,
                text.replace("striploin-steak,851,", "striploin-steak,831,")
                        .replace("*,steaks,striploin,fat-trim,33,", "*,steaks,striploin,fat-trim,53,"));
    }

    private String at(String name) {
        return folder.resolve(name).toString();
    }

    private int run(String... more) {
        Ran ran = Ran.with(
                Stream.concat(Stream.of("table", "--table", at("hall"), "--baseline", "boneless-2026"), Stream.of(more))
                        .toList());
        out = ran.out();
        err = ran.err();
        return ran.code();
    }

    private TwoTables expected(YieldEstimator before, YieldEstimator after) {
        TwoTables.Collector both = TwoTables.collector(
                Valuer.of(PriceListReader.read(PRICES), before), Valuer.of(PriceListReader.read(PRICES), after));
        KillSheetReader.read(SHEET).carcasses().forEach(both::add);
        return both.result();
    }

    @Test
    void theSheetsOwnCarcassesStandBeforeTheWorstCorner() throws IOException {
        assertThat(run("--killsheet", SHEET.toString(), "--prices", PRICES.toString(), "--html", at("page.html")))
                .isZero();

        TwoTables both =
                expected(YieldEstimator.of(SHIPPED), YieldEstimator.of(TableReader.read(folder.resolve("hall"))));
        assertThat(err).isEmpty();
        assertThat(out)
                .contains(
                        "\nKill sheet " + SHEET + ": 200 rows, 0 condemned, 0 that can't be read\n\n" + both.toText());
        assertThat(out.indexOf("Kill sheet "))
                .isLessThan(out.indexOf("\nTable " + both.after().table().identity() + " against "));
        assertThat(out)
                .containsPattern(
                        "\nStriploin steak +retail +2612\\.85 +2551\\.44 +-61\\.41 +-2\\.35 +56176\\.33 +54855\\.93"
                                + " +-1320\\.39\n");
        assertThat(Files.readString(folder.resolve("page.html")))
                .contains("<h2>Kill sheet " + SHEET + ": 200 rows, 0 condemned, 0 that can&#39;t be read</h2>\n"
                        + both.toHtml());
    }

    @Test
    void specificationAndMinceAreThoseOfBothTables() {
        assertThat(run(
                        "--killsheet",
                        SHEET.toString(),
                        "--prices",
                        PRICES.toString(),
                        "--specification",
                        "joints",
                        "--mince",
                        "15"))
                .isZero();

        TwoTables both = expected(
                YieldEstimator.of(SHIPPED).withSpecification("joints").with(MinceTarget.fatPercent(15)),
                YieldEstimator.of(TableReader.read(folder.resolve("hall")))
                        .withSpecification("joints")
                        .with(MinceTarget.fatPercent(15)));
        // striploins cut to joints don't change
        assertThat(both.changed()).isEmpty();
        assertThat(out).contains(both.toText()).contains("\nEvery cut comes out alike\n");
    }

    @Test
    void whatOneTableAloneRefusesIsToldApart() throws IOException {
        TableDefinition definition = SHIPPED.definition();
        TableRange allowed = definition.allowed();
        TableRange fitted = definition.fitted();
        TableWriter.write(
                YieldTable.of(definition.toBuilder("narrow", "1")
                        .ranges(fitted, new TableRange(allowed.conformation(), allowed.fat(), new Range(150, 520)))
                        .build()),
                folder.resolve("narrow"));
        Files.writeString(folder.resolve("sheet.csv"), """
                carcass,category,conformation,fat_class,cold_weight_kg
                A1,C,R=,3=,340
                A2,C,R=,3=,540
                A3,C,R=,3=,140
                A4,C,Q,3=,340
                """);

        Ran ran = Ran.with(List.of(
                "table", "--table", at("narrow"), "--baseline", "boneless-2026", "--killsheet", at("sheet.csv")));
        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("Kill sheet " + at("sheet.csv") + ": 4 rows, 0 condemned, 1 that can't be read\n\n"
                        + "1 carcass, 340.0 kg cold, under two tables\n")
                .contains(
                        "\nNot in it, for a table refuses them: 2 carcasses; the table before alone refuses 0, the table"
                                + " after alone 1, both 1\n")
                .contains("\nRefused, 3 rows:\n")
                .contains(
                        " line 3: carcass A2: under the table alone: cold weight 540 kg is 20 kg outside the allowed range"
                                + " 150 to 520 kg\n")
                .contains(
                        " line 4: carcass A3: under both tables: cold weight 140 kg is 10 kg outside the allowed range 150"
                                + " to 520 kg\n")
                .contains(" line 5, conformation: conformation \"Q\" is none of S E U R O P\n");

        ran = Ran.with(List.of(
                "table", "--table", "boneless-2026", "--baseline", at("narrow"), "--killsheet", at("sheet.csv")));
        assertThat(ran.out())
                .contains("the table before alone refuses 1, the table after alone 0, both 1\n")
                .contains(
                        " line 3: carcass A2: under the baseline alone: cold weight 540 kg is 20 kg outside the allowed range"
                                + " 150 to 520 kg\n");
    }

    @Test
    void aSheetOfWhichNothingCanBeEstimatedIsSaid() throws IOException {
        Files.writeString(
                folder.resolve("sheet.csv"), "carcass,category,conformation,fat_class,cold_weight_kg\nA1,C,R=,3=,40\n");

        assertThat(run("--killsheet", at("sheet.csv"))).isZero();
        assertThat(out)
                .contains("Kill sheet " + at("sheet.csv") + ": 1 row, 0 condemned, 0 that can't be read\n\n"
                        + "No carcass of it can be estimated under both tables\n\nRefused, 1 row:\n");
    }

    @Test
    void aPriceThatIsMissingUnderATableNamesIt() throws IOException {
        Files.writeString(folder.resolve("prices.csv"), "line,name,price,currency\nkind,steak,20,EUR\n");

        assertThat(run("--killsheet", SHEET.toString(), "--prices", at("prices.csv")))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(out).isEmpty();
        assertThat(err)
                .startsWith(at("prices.csv") + ": under table " + SHIPPED.identity() + ": no price is given for ");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--killsheet k              | --killsheet needs a --baseline to set the table beside",
                "--prices p                 | --prices needs --killsheet",
                "--mince 15                 | --mince needs --killsheet",
                "--row-a-side               | --row-a-side needs --killsheet",
                "--baseline boneless-2026 --killsheet k --value-level retail | --value-level needs --prices",
                "--baseline boneless-2026 --killsheet k --mince x   | --mince \"x\" is not a number such as 15",
            })
    void anOptionThatIsNotUnderstoodEndsWithTwo(String options, String message) {
        Ran ran = Ran.with(List.of(("table --table boneless-2026 " + options).split(" ")));

        assertThat(ran.code()).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(ran.err()).startsWith(message + "\n");
    }

    @Test
    void aSpecificationThatATableDoesNotHaveIsRefused() {
        assertThat(run("--killsheet", SHEET.toString(), "--specification", "chops"))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(out).isEmpty();
        assertThat(err).contains("chops").contains("steaks, joints, trim");
    }
}
