package org.beefyield.data.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.BoxKind;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Origin;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files of boning runs, and what is said of rows that are none. */
class BoningRunReaderTest {
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final String INTAKE =
            "hall,day,weighing,carcass,category,conformation,fat_class,cold_weight_kg,part,weight_kg,movement,batch\n";
    private static final String BOXES = "hall,day,box,product,batch,gross_kg,tare_kg,kind,from\n";
    private static final String REST = "hall,day,kind,kg\n";
    private static final String T1 = "Mereside,2026-11-03,cold-weighed,T-1,C,R=,3=,340,";

    @TempDir
    Path folder;

    private static Source source(String name, String content) {
        return Source.of(name, content.getBytes(StandardCharsets.UTF_8));
    }

    private static BoningRunSheet read(String intake, String boxes, String rest, Product... products) {
        return BoningRunReader.read(
                source("intake.csv", INTAKE + intake),
                source("boxes.csv", BOXES + boxes),
                source("rest.csv", REST + rest),
                List.of(products),
                CsvForm.standard());
    }

    private static List<String> words(List<Problem> problems) {
        return problems.stream().map(Problem::toString).toList();
    }

    private static Carcass carcass() {
        return Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340)
                .withId("T-1")
                .withHall("Mereside");
    }

    @Test
    void threeFilesAreTheRunsOfASeason() {
        BoningRunSheet sheet = read(T1 + "side,168.5,,B1\n" + T1 + """
                        forequarter,84,left-in-stock,
                        Mereside,2026-11-04,cold-weighed,T-1,C,R=,3=,340,forequarter,83.6,taken-from-stock,B2
                        """, """
                        Mereside,2026-11-03,1,striploin,B1,20.5,0.5,,
                        Mereside,2026-11-04,1,mince,B2,12,,downgraded,striploin
                        Mereside,2026-11-04,2,mince,B2,11,,rework,1 7
                        """, "Mereside,2026-11-03,bone,31.2\n");

        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.notes()).isEmpty();
        assertThat(sheet.incomplete()).isEmpty();
        assertThat(sheet).hasToString("2 runs, 0 problems");
        assertThat(sheet.runs())
                .containsExactly(
                        new BoningRun(
                                "Mereside",
                                "2026-11-03",
                                IntakeWeighing.COLD_WEIGHED,
                                List.of(
                                        Intake.of(carcass(), IntakePart.SIDE, 168.5, Movement.BONED, "B1"),
                                        Intake.of(carcass(), IntakePart.FOREQUARTER, 84, Movement.LEFT_IN_STOCK, "")),
                                List.of(Box.of("1", "striploin", "B1", 20.5, 0.5)),
                                List.of(Rest.of(RestKind.BONE, 31.2))),
                        new BoningRun(
                                "Mereside",
                                "2026-11-04",
                                IntakeWeighing.COLD_WEIGHED,
                                List.of(Intake.of(
                                        carcass(), IntakePart.FOREQUARTER, 83.6, Movement.TAKEN_FROM_STOCK, "B2")),
                                List.of(
                                        new Box(
                                                "1",
                                                "mince",
                                                "B2",
                                                12,
                                                0,
                                                "",
                                                BoxKind.DOWNGRADED,
                                                List.of("striploin")),
                                        new Box("2", "mince", "B2", 11, 0, "", BoxKind.REWORK, List.of("1", "7"))),
                                List.of()));
    }

    @Test
    void aBadRowOfTheIntakeIsNamedAndItsRunIsIncomplete() {
        BoningRunSheet sheet = read(T1 + """
                        carcass,338,,
                        Mereside,2026-11-03,hot,T-2,C,R=,3=,340,carcass,338,,
                        """ + T1 + """
                        hindquarter,84,,
                        Mereside,2026-11-03,cold-weighed,T-3,X,R=,6,heavy,leg,0,sold,
                        Mereside,2026-11-03,cold-weighed,T-4,C,R=,3=,340,side,1300,,
                        Mereside,2026-11-03,cold-weighed,,C,R=,3=,340,side,170,,
                        Mereside,2026-11-04,cold,T-5,C,R=,3=,340,side,170,left-in-stock,B1
                        Mereside,2026-11-05,hot,T-1,C,R+,3=,340,side,170,,
                        Mereside,2026-11-05,hot,T-6,C,R+,3=,340,side,170,,
                        """, "", "");

        assertThat(words(sheet.problems()))
                .containsExactly(
                        "intake.csv line 3, weighing: line 2 says cold-weighed of the same run; a run has one weighing",
                        "intake.csv line 4, part: with this row the run has more of carcass T-1 than there is: two"
                                + " forequarters and two hindquarters",
                        "intake.csv line 5, category: category \"X\" is none of C A B D E Z",
                        "intake.csv line 5, fat_class: fat class 6 is outside 1 to 5; a position on the 15-point scale belongs in"
                                + " fat_points, in code in FatClass.ofPosition",
                        "intake.csv line 5, cold_weight_kg: \"heavy\" is not a plain number such as 342.5",
                        "intake.csv line 5, part: part \"leg\" is none of carcass side forequarter hindquarter",
                        "intake.csv line 5, movement: movement \"sold\" is none of boned taken-from-stock left-in-stock",
                        "intake.csv line 6, weight_kg: carcass T-4: intake weight 1300 kg is not above 0 and at most"
                                + " 1200 kg",
                        "intake.csv line 7, carcass: every row names a carcass",
                        "intake.csv line 8, weighing: weighing \"cold\" is none of cold-by-law cold-weighed hot",
                        "intake.csv line 8, batch: what was left in stock is in no batch; only what is boned is in one",
                        "intake.csv line 9, carcass: carcass T-1 of the same kill date stands in line 2 with another"
                                + " grade, weight, lot, supplier, age or assurance; a carcass has one of each");
        assertThat(sheet.runs())
                .extracting(BoningRun::name)
                .containsExactly("Mereside 2026-11-03", "Mereside 2026-11-05");
        assertThat(sheet.runs().get(0).intake()).hasSize(1);
        assertThat(sheet.incomplete())
                .containsExactly(
                        Map.entry("Mereside 2026-11-03", "rows of it are refused"),
                        Map.entry("Mereside 2026-11-05", "rows of it are refused"),
                        Map.entry("Mereside 2026-11-04", "every row of its intake is refused"));
    }

    @Test
    void aRowWhoseDayCannotBeReadMayBeOfAnyRunOfItsHall() {
        String intake = T1 + """
                        carcass,338,,
                        Mereside,2026-11-04,hot,T-2,C,R=,3=,340,carcass,338,,
                        Overmere,2026-11-04,hot,T-3,C,R=,3=,340,carcass,338,,
                        """;
        String one = "a row whose day can't be read (boxes.csv line 2) may be of it";

        BoningRunSheet day = read(intake, "Mereside,4.11.2026,1,striploin,,20,,,\n", "");
        BoningRunSheet hall = read(intake, "Merside,4.11.2026,1,striploin,,20,,,\n", "");
        BoningRunSheet cells = read(intake, "Mereside,2026-11-03,1\n", "");
        BoningRunSheet many = read(intake, """
                Overmere,,1,striploin,,20,,,
                Mereside,4.11.2026,1,striploin,,20,,,
                Mereside,4.11.2026,2,striploin,,heavy,,,
                Mereside,2026-11-03,2,striploin,,heavy,,,
                """, "");

        assertThat(words(day.problems()))
                .containsExactly(
                        "boxes.csv line 2, day: \"4.11.2026\" is not a date such as 2026-11-03 (year-month-day)");
        assertThat(day.incomplete())
                .containsExactly(Map.entry("Mereside 2026-11-03", one), Map.entry("Mereside 2026-11-04", one));
        Map<String, String> all =
                Map.of("Mereside 2026-11-03", one, "Mereside 2026-11-04", one, "Overmere 2026-11-04", one);
        assertThat(hall.incomplete()).isEqualTo(all);
        assertThat(cells.problems()).hasSize(1);
        assertThat(cells.incomplete()).isEqualTo(all);
        assertThat(many.incomplete())
                .containsExactly(
                        Map.entry(
                                "Mereside 2026-11-03",
                                "rows of it are refused; 2 rows whose day can't be read (the first: boxes.csv line 3) may"
                                        + " be of it"),
                        Map.entry(
                                "Mereside 2026-11-04",
                                "2 rows whose day can't be read (the first: boxes.csv line 3) may be of it"),
                        Map.entry("Overmere 2026-11-04", one));
    }

    @Test
    void aRunWithoutIntakeIsSaidOnceWithTheNumberOfItsRows() {
        BoningRunSheet sheet = read(T1 + """
                        carcass,338,,
                        Mereside,2026-11-05,hot,T-2,C,R=,9,340,carcass,338,,
                        """, """
                        Mereside,2026-11-04,1,striploin,,20,,,
                        Mereside,2026-11-04,2,striploin,,heavy,,,
                        Mereside,2026-11-04,3,striploin,,20,,,
                        Mereside,2026-11-05,1,striploin,,20,,,
                        Mereside,2026-11-05,2,striploin,,20,,,
                        """, "Mereside,2026-11-04,bone,31.2\n");

        assertThat(words(sheet.problems()).subList(1, sheet.problems().size()))
                .containsExactly(
                        "boxes.csv line 2, day: the intake has no row of Mereside 2026-11-04; runs: Mereside 2026-11-03; so"
                                + " it is with 3 further rows",
                        "boxes.csv line 3, gross_kg: \"heavy\" is not a plain number such as 342.5",
                        "boxes.csv line 5, day: every row of the intake of this run was refused; so it is with 1 further"
                                + " row");
        assertThat(sheet.incomplete())
                .containsExactly(
                        Map.entry("Mereside 2026-11-05", "every row of its intake is refused"),
                        Map.entry("Mereside 2026-11-04", "the intake has no row of it"));
    }

    @Test
    void aWeightBeyondAnySenseIsRefusedAtItsColumn() {
        BoningRunSheet sheet = read(T1 + "carcass,338,,\n", """
                        Mereside,2026-11-03,1,striploin,,200000,,,
                        Mereside,2026-11-03,2,striploin,,300000,200000,,
                        Mereside,2026-11-03,3,striploin,,200000,,downgraded,veal
                        """, "Mereside,2026-11-03,bone,200000\n");

        assertThat(words(sheet.problems()))
                .containsExactly(
                        "boxes.csv line 2, gross_kg: box 1: gross weight, kg: 200000 is above 100000, the most there can be",
                        "boxes.csv line 3, gross_kg: box 2: gross weight, kg: 300000 is above 100000, the most there can be",
                        "boxes.csv line 4, gross_kg: box 3: gross weight, kg: 200000 is above 100000, the most there can be",
                        "rest.csv line 2, kg: bone, kg: 200000 is above 100000, the most there can be");
        assertThat(sheet.runs().get(0).boxes()).isEmpty();
        assertThat(sheet.runs().get(0).rest()).isEmpty();
    }

    @Test
    void aKillDateAfterTheDayOfBoningIsNoted() {
        BoningRunSheet sheet = BoningRunReader.read(
                source("intake.csv", """
                        day,weighing,carcass,category,conformation,fat_class,cold_weight_kg,part,weight_kg,kill_date
                        2026-11-03,hot,T-1,C,R,3,340,carcass,345,2026-11-03
                        2026-11-03,hot,T-2,C,R,3,340,carcass,345,2026-11-12
                        """), source("boxes.csv", BOXES), null, List.of(), CsvForm.standard());

        assertThat(sheet.problems()).isEmpty();
        assertThat(words(sheet.notes()))
                .containsExactly(
                        "intake.csv line 3, kill_date: carcass T-2 was killed on 2026-11-12, after 2026-11-03, the"
                                + " day of boning; one of the two is wrong");
        assertThat(sheet.runs().get(0).intake()).hasSize(2);
    }

    @Test
    void aBoxThatFitsNoRunNoProductOrIsNoBoxIsNamed() {
        BoningRunSheet sheet =
                read(T1 + "carcass,338,,\n", """
                        Mereside,2026-11-03,1,striploin,,20,0.5,,
                        Mereside,2026-11-03,1,striploin,,20,0.5,,
                        Mereside,2026-11-04,2,striploin,,20,0.5,,
                        ,2026-11-03,2,striploin,,20,0.5,,
                        Mereside,2026-11-03,3,sirloin,,20,0.5,,
                        Mereside,2026-11-03,4,,,20,0.5,,
                        Mereside,2026-11-03,5,striploin,,0.4,0.5,,
                        Mereside,2026-11-03,6,striploin,,20,-0.5,,
                        Mereside,2026-11-03,7 a,striploin,,20,0.5,,
                        Mereside,2026-11-03,8,striploin,,20,0.5,,1
                        Mereside,2026-11-03,9,striploin,,20,0.5,lost,
                        Mereside,2026-11-03,10,striploin,,20,0.5,downgraded,veal
                        """, """
                        Mereside,2026-11-03,skin,31.2
                        Mereside,2026-11-03,bone,-1
                        Mereside,2026-11-09,bone,1
                        """, Product.of("striploin", "Striploin", "striploin-steak"));

        assertThat(words(sheet.problems()))
                .containsExactly(
                        "boxes.csv line 3, box: box 1 of the same run stands in line 2 already",
                        "boxes.csv line 4, day: the intake has no row of Mereside 2026-11-04; runs: Mereside 2026-11-03",
                        "boxes.csv line 5, day: the intake has no row of 2026-11-03; runs: Mereside 2026-11-03",
                        "boxes.csv line 6, product: there is no product \"sirloin\"; products: striploin",
                        "boxes.csv line 7, product: every box is of a product",
                        "boxes.csv line 8, gross_kg: box 5: gross weight 0.4 kg is not above the tare of 0.5 kg",
                        "boxes.csv line 9, tare_kg: box 6: tare, kg: -0.5 is not a finite number, 0 or more",
                        "boxes.csv line 10, box: box \"7 a\": the id of a box is not empty and holds no blank",
                        "boxes.csv line 11, from: box 8 from 1: it was packed from the line, so it comes from nothing"
                                + " else",
                        "boxes.csv line 12, kind: kind of box \"lost\" is none of first rework downgraded",
                        "boxes.csv line 13, from: there is no product \"veal\"; products: striploin",
                        "rest.csv line 2, kind: kind of rest \"skin\" is none of bone fat waste samples floor loss",
                        "rest.csv line 3, kg: bone, kg: -1 is not a finite number, 0 or more",
                        "rest.csv line 4, day: the intake has no row of Mereside 2026-11-09; runs: Mereside 2026-11-03");
        assertThat(sheet.runs().get(0).boxes()).extracting(Box::id).containsExactly("1");
        assertThat(sheet.incomplete())
                .containsExactly(
                        Map.entry("Mereside 2026-11-03", "rows of it are refused"),
                        Map.entry("Mereside 2026-11-04", "the intake has no row of it"),
                        Map.entry("2026-11-03", "the intake has no row of it"),
                        Map.entry("Mereside 2026-11-09", "the intake has no row of it"));
        assertThat(sheet.problems().get(0))
                .isEqualTo(new Problem("boxes.csv", 3, "box", "1", "box 1 of the same run stands in line 2 already"));
    }

    @Test
    void aWeightThatTheColdWeightDoesNotBearOutIsNoted() {
        BoningRunSheet sheet = read(T1 + """
                        side,338,,
                        Mereside,2026-11-03,cold-weighed,T-2,C,R=,3=,340,forequarter,170,,
                        Mereside,2026-11-03,cold-weighed,T-3,C,R=,3=,340,carcass,340,,
                        """, "", "");

        assertThat(sheet.problems()).isEmpty();
        assertThat(words(sheet.notes()))
                .containsExactly(
                        "intake.csv line 2, weight_kg: the side of carcass T-1 weighs 99 % of the cold weight of 340 kg;"
                                + " 45 to 55 % is usual",
                        "intake.csv line 3, weight_kg: the forequarter of carcass T-2 weighs 50 % of the cold weight of"
                                + " 340 kg; 15 to 35 % is usual");
        assertThat(sheet.runs().get(0).intake()).hasSize(3);
    }

    @Test
    void aFileOfOtherColumnsIsRefusedWhole() {
        InvalidDataException refused = catchThrowableOfType(
                InvalidDataException.class,
                () -> BoningRunReader.read(
                        source("intake.csv", INTAKE + T1 + "carcass,338,,\n"),
                        source("boxes.csv", "day,box,item,gross_kg\n"),
                        null,
                        List.of(),
                        CsvForm.standard()));

        assertThat(words(refused.problems()))
                .containsExactly(
                        "boxes.csv line 1, product: the column \"product\" is missing; required: day, box, product,"
                                + " gross_kg; optional: hall, tare_kg, batch, time, kind, from",
                        "boxes.csv line 1, item: there is no column \"item\"; required: day, box, product, gross_kg;"
                                + " optional: hall, tare_kg, batch, time, kind, from");
        assertThat(words(read("", "", "").problems()))
                .containsExactly("intake.csv: the file has a header but no row; a row for each piece is needed");
        assertThatThrownBy(() -> BoningRunReader.read(
                        folder.resolve("no.csv"), folder.resolve("no.csv"), folder.resolve("no.csv"), List.of()))
                .isInstanceOf(InvalidDataException.class)
                .hasMessageContaining("the file can't be read: there is no file");
    }

    @Test
    void filesMayBeWrittenAsTheCallerDeclares() {
        CsvForm form = CsvForm.builder()
                .separator(';')
                .decimalComma()
                .dates(CsvForm.DateForm.POINTS)
                .column("Tag", "day")
                .column("Karton", "box")
                .build();

        BoningRunSheet sheet = BoningRunReader.read(
                source("intake.csv", """
                        Tag;weighing;carcass;category;conformation;fat_class;cold_weight_kg;part;weight_kg;kill_date
                        3.11.2026;hot;T-1;C;R;3;340,5;carcass;346,25;2.11.2026
                        """),
                source("boxes.csv", "Tag;Karton;product;gross_kg\n3.11.2026;1;striploin;20,125\nx;2;striploin;20\n"),
                null,
                List.of(),
                form);

        assertThat(words(sheet.problems()))
                .containsExactly("boxes.csv line 3, Tag: \"x\" is not a date such as 3.11.2026 (day.month.year)");
        BoningRun run = sheet.runs().get(0);
        assertThat(run.name()).isEqualTo("2026-11-03");
        assertThat(run.intake().get(0).weightKg()).isEqualTo(346.25);
        assertThat(run.intake().get(0).carcass().killDate()).contains("2026-11-02");
        assertThat(run.intake().get(0).carcass().hall()).isEmpty();
        assertThat(run.boxes().get(0).netKg()).isEqualTo(20.125);
    }

    @Test
    void productsTakeCutsOfTheTable() {
        List<Product> products = ProductReader.read(
                source(
                        "products.csv",
                        "product,name,cut,share\n10,Steak,striploin-steak,\n20,Mince,lean-trim,0.6\n20,,dice,0.25\n"),
                CsvForm.standard(),
                SHIPPED);
        InvalidDataException refused = catchThrowableOfType(
                InvalidDataException.class,
                () -> ProductReader.read(source("products.csv", """
                        product,name,cut,share
                        10,Steak,striploin-steak,1.5
                        ,Mince,dice,
                        10,Steak,wing,
                        20,Mince,dice,x
                        30,Dice,dice,
                        30,Cubes,bone,
                        30,,dice,0.5
                        """), CsvForm.standard(), SHIPPED));

        assertThat(products)
                .containsExactly(
                        Product.of("10", "Steak", "striploin-steak"),
                        new Product("20", "Mince", Map.of("lean-trim", 0.6, "dice", 0.25)));
        assertThat(words(refused.problems()))
                .containsExactly(
                        "products.csv line 2, share: share 1.5 is not above 0 and at most 1",
                        "products.csv line 3, product: every row names a product",
                        "products.csv line 4, cut: no cut \"wing\"; nearest: dice, bone, meat",
                        "products.csv line 5, share: \"x\" is not a plain number such as 342.5",
                        "products.csv line 7, name: product 30 has the name \"Dice\" above; it has one",
                        "products.csv line 8, cut: the same cut of product 30 stands in line 6 already");
    }

    private static List<String> refused(String products) {
        InvalidDataException refused = catchThrowableOfType(
                InvalidDataException.class,
                () -> ProductReader.read(
                        source("products.csv", "product,name,cut,share\n" + products), CsvForm.standard(), SHIPPED));
        return words(refused.problems());
    }

    @Test
    void aProductIsOfCutsOfTheLastLevelOrOfTheLevelThatTheCallerNames() {
        String primals = "10,Rump,rump,\n20,Bone,bone,\n";

        assertThat(refused(primals))
                .containsExactly(
                        "products.csv line 2, cut: rump stands at level primal of the table; what is weighed is of"
                                + " level retail");
        assertThat(ProductReader.read(
                        source("products.csv", "product,name,cut,share\n" + primals),
                        CsvForm.standard(),
                        SHIPPED,
                        "primal"))
                .containsExactly(Product.of("10", "Rump", "rump"), Product.of("20", "Bone", "bone"));
        assertThatThrownBy(() -> ProductReader.read(
                        source("products.csv", "product,name,cut,share\n" + primals),
                        CsvForm.standard(),
                        SHIPPED,
                        "primals"))
                .hasMessageContaining("primals");
    }

    @Test
    void aProductHasANameThatNothingElseHas() {
        assertThat(refused("""
                        10,,rump-steak,1
                        20,Dice,dice,
                        30,Dice,lean-trim,
                        30,,dice,
                        40,Bone,bone,
                        50,Fat,dice,
                        60,Waste,dice,
                        70,"losses, unweighed",dice,
                        80,"Losses, unweighed",dice,
                        90,only in the baseline's way,dice,
                        100,Fat trim,fat-trim,
                        100,,dice,
                        """))
                .containsExactly(
                        "products.csv line 2, name: product 10 has no name; its first row gives it one",
                        "products.csv line 4, name: product 20 in line 3 has this name already; each has a name of its own",
                        "products.csv line 7, cut: a line of weighed rest is called \"Fat\"; into a product of that name goes"
                                + " nothing but fat-trim",
                        "products.csv line 8, name: a line of every reconciliation may be called \"Waste\"; a product has"
                                + " another name",
                        "products.csv line 9, name: a line of every reconciliation may be called \"losses, unweighed\"; a"
                                + " product has another name",
                        "products.csv line 10, name: a line of every reconciliation may be called \"Losses, unweighed\"; a"
                                + " product has another name",
                        "products.csv line 11, name: a line of every reconciliation may be called \"only in the baseline's"
                                + " way\"; a product has another name");
        // a name that comes later makes good nothing, but isn't refused too
        assertThat(refused("10,,rump-steak,1\n10,Steak,dice,\n"))
                .containsExactly("products.csv line 2, name: product 10 has no name; its first row gives it one");
    }

    @Test
    void aRestIsOfACutOfTheTableIfThereIsOne() {
        String intake = INTAKE + T1 + "carcass,338,,\n";
        String rest = """
                hall,day,kind,kg,cut
                Mereside,2026-11-03,waste,12,briskt-joint
                Mereside,2026-11-03,waste,12,brisket
                Mereside,2026-11-03,waste,12,brisket-joint
                Mereside,2026-11-03,bone,12,
                """;
        BoningRunSheet looked = BoningRunReader.read(
                source("intake.csv", intake),
                source("boxes.csv", BOXES),
                source("rest.csv", rest),
                List.of(),
                CsvForm.standard(),
                SHIPPED);
        BoningRunSheet any = BoningRunReader.read(
                source("intake.csv", intake),
                source("boxes.csv", BOXES),
                source("rest.csv", rest),
                List.of(),
                CsvForm.standard());

        assertThat(words(looked.problems()))
                .containsExactly(
                        "rest.csv line 2, cut: no cut \"briskt-joint\"; nearest: brisket-joint, rump-joint, brisket",
                        "rest.csv line 3, cut: brisket stands at level primal of the table; what is weighed is of level"
                                + " retail");
        assertThat(looked.problems().get(0).value()).isEqualTo("briskt-joint");
        assertThat(looked.runs().get(0).rest())
                .containsExactly(new Rest(RestKind.WASTE, 12, "brisket-joint"), Rest.of(RestKind.BONE, 12));
        assertThat(looked.incomplete()).containsExactly(Map.entry("Mereside 2026-11-03", "rows of it are refused"));
        assertThat(any.problems()).isEmpty();
    }

    @Test
    void whatCouldNotBeReadBackIsNotWritten() throws IOException {
        Intake piece = Intake.of(carcass(), IntakePart.CARCASS, 338, Movement.BONED, "B1");
        BoningRun run = new BoningRun(
                "Mereside",
                "2026-11-03",
                IntakeWeighing.HOT,
                List.of(piece.withOrigin(new Origin("IE 565", "Ireland", "Ireland, France"))),
                List.of(Box.of("1", "x", "B1", 2, 1)),
                List.of());
        BoningRunWriter.write(List.of(run), List.of(Product.of("x", "X", "bone")), folder);

        assertThat(Files.readString(folder.resolve("intake.csv"))).isEqualTo("""
                        hall,day,weighing,carcass,category,conformation,fat_class,cold_weight_kg,kill_date,lot,supplier,age_months,assured,part,piece,weight_kg,movement,batch,slaughterhouse,born,reared
                        Mereside,2026-11-03,hot,T-1,C,R=,3=,340,,,,,,carcass,,338,boned,B1,IE 565,Ireland,"Ireland, France"
                        """);
        assertThatThrownBy(() ->
                        BoningRunWriter.write(List.of(run, with(run, "Monday", List.of(piece))), List.of(), folder))
                .hasMessage("\"Monday\" is not a date such as 2026-11-03");
        assertThatThrownBy(() ->
                        BoningRunWriter.write(List.of(run, with(run, "2026-11-04", List.of())), List.of(), folder))
                .hasMessage("Mereside 2026-11-04 has no intake; a run without it could not be read back");
        assertThatThrownBy(() -> BoningRunWriter.write(
                        List.of(with(run, "2026-11-04", List.of(piece.withPiece("left\n")))), List.of(), folder))
                .hasMessage(
                        "\"left?\" has blanks at its ends or holds a control character, which no cell of a file can");
        for (String name : List.of("", "Waste")) {
            assertThatThrownBy(
                            () -> BoningRunWriter.write(List.of(run), List.of(Product.of("x", name, "bone")), folder))
                    .hasMessage(
                            name.isEmpty()
                                    ? "product x: it has no name"
                                    : "product x: a line of every reconciliation may be called \"Waste\"; a product has"
                                            + " another name");
        }
        assertThatThrownBy(() -> BoningRunWriter.write(
                        List.of(run), List.of(Product.of("x", "X", "bone"), Product.of("y", "X", "dice")), folder))
                .hasMessage("product y: product x has the name \"X\" too; each has a name of its own");
        Intake elsewhere = Intake.of(carcass().withHall("Overmere"), IntakePart.CARCASS, 338, Movement.BONED, "B1");
        assertThatThrownBy(() ->
                        BoningRunWriter.write(List.of(with(run, "2026-11-04", List.of(elsewhere))), List.of(), folder))
                .hasMessage("Mereside 2026-11-04: carcass T-1 is boned in Overmere; the run has its own carcasses");
        assertThat(Files.readString(folder.resolve("intake.csv"))).contains("2026-11-03,hot,T-1");
    }

    private static BoningRun with(BoningRun run, String day, List<Intake> intake) {
        return new BoningRun(run.hall(), day, run.weighing(), intake, run.boxes(), run.rest());
    }
}
