package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.CsvForm.DateForm;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetEntry;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** The same carcasses as seven back ends write them, in {@code sheets}; all invented. */
class OtherSheetsTest {
    private static final List<Carcass> CARCASSES = List.of(
            carcass("037100100101", "C", "R=", "3=", 342.5, 22, "L1", "Upper Tarrow", true),
            carcass("037100100118", "C", "U-", "3+", 371.8, 24, "L1", "Upper Tarrow", true),
            carcass("037100100125", "E", "O+", "4-", 289.0, 20, "L1", "Upper Tarrow", true),
            carcass("037100200104", "A", "U=", "2=", 405.2, 16, "L2", "Mereside", false),
            carcass("037100200111", "A", "R+", "2+", 388.6, 15, "L2", "Mereside", false),
            carcass("037100300107", "D", "P+", "2-", 301.4, 61, "L3", "Z\u00fcchterhof Mere", false),
            carcass("037100300114", "D", "O=", "4=", 355.0, 74, "L3", "Z\u00fcchterhof Mere", false),
            carcass("037100300121", "E", "R-", "3-", 276.3, 21, "L3", "Z\u00fcchterhof Mere", true));

    private static final List<LocalDate> DAYS = Stream.of(3, 3, 3, 3, 3, 4, 4, 4)
            .map(day -> LocalDate.of(2026, 11, day))
            .toList();

    @TempDir
    Path folder;

    private static Carcass carcass(
            String id,
            String category,
            String conformation,
            String fat,
            double kg,
            int months,
            String lot,
            String supplier,
            boolean assured) {
        return Carcass.of(Category.parse(category), Conformation.parse(conformation), FatClass.parse(fat), kg)
                .withId(id)
                .withAgeMonths(months)
                .withLot(lot)
                .withSupplier(supplier)
                .withKillDate(lot.equals("L3") ? "2026-11-04" : "2026-11-03")
                .withAssured(assured);
    }

    private static void assertAllAreRead(String sheet, KillSheetFormat format) {
        KillSheet read = KillSheetReader.read(Source.ofResource(OtherSheetsTest.class, "sheets/" + sheet), format);
        assertThat(read.problems()).isEmpty();
        assertThat(read.notes()).isEmpty();
        assertThat(read.counts()).isEqualTo(new KillSheet.Counts(8, 8, 0, 0));
        assertThat(read.carcasses()).containsExactlyElementsOf(CARCASSES);
        assertThat(read.entries().stream().map(KillSheetEntry::killDate))
                .containsExactlyElementsOf(DAYS.stream().map(Optional::of).toList());
    }

    @Test
    void commasAndOurNamesNeedNoDeclaration() {
        assertAllAreRead("commas.csv", KillSheetFormat.standard());
    }

    @Test
    void semicolonsWithDecimalCommasAndPointsInDates() {
        assertAllAreRead(
                "semicolons.csv",
                KillSheetFormat.of(CsvForm.builder()
                        .separator(';')
                        .decimalComma()
                        .dates(DateForm.POINTS)
                        .yesNo("ja", "nein")
                        .columns(Map.of("Ohrmarke", "carcass", "Schlachttag", "kill_date", "Partie", "lot"))
                        .columns(Map.of("Lieferant", "supplier", "Kat", "category", "Handelsklasse", "conformation"))
                        .columns(Map.of("Fett", "fat_class", "Gewicht kalt", "cold_weight_kg"))
                        .columns(Map.of("Alter", "age_months", "QS", "assured"))
                        .build()));
    }

    @Test
    void windows1252() {
        assertAllAreRead(
                "windows-1252.csv",
                KillSheetFormat.of(CsvForm.builder()
                        .charset(Charset.forName("windows-1252"))
                        .separator(';')
                        .decimalComma()
                        .dates(DateForm.POINTS)
                        .yesNo("ja", "nein")
                        .columns(Map.of("Nr", "carcass", "T\u00f6tungstag", "kill_date", "Los", "lot"))
                        .columns(Map.of("Z\u00fcchter", "supplier", "Kat.", "category", "Kl.", "conformation"))
                        .columns(Map.of("F", "fat_class", "kg", "cold_weight_kg"))
                        .columns(Map.of("Monate", "age_months", "gepr\u00fcft", "assured"))
                        .build()));
    }

    @Test
    void tabsWithSlashesInDatesAndIdsInFormulas() {
        assertAllAreRead(
                "tabs.tsv",
                KillSheetFormat.of(CsvForm.builder()
                        .separator('\t')
                        .dates(DateForm.SLASHES)
                        .formulaCells()
                        .yesNo("Y", "N")
                        .columns(Map.of("Tag", "carcass", "Killed", "kill_date", "Lot", "lot", "Farm", "supplier"))
                        .columns(Map.of("Cat", "category", "Conf", "conformation", "Fat", "fat_class"))
                        .columns(Map.of("Cold kg", "cold_weight_kg", "Months", "age_months", "Assured", "assured"))
                        .build()));
    }

    @Test
    void unitsBehindWeightsAndATotal() {
        assertAllAreRead(
                "units-and-totals.csv",
                KillSheetFormat.of(CsvForm.builder()
                                .separator(';')
                                .decimalComma()
                                .unit("kg")
                                .dates(DateForm.SLASHES)
                                .yesNo("oui", "non")
                                .columns(Map.of("Identifiant", "carcass", "Date", "kill_date", "Lot", "lot"))
                                .columns(Map.of("Eleveur", "supplier", "Cat", "category", "Conf", "conformation"))
                                .columns(Map.of("Gras", "fat_class", "Poids froid", "cold_weight_kg"))
                                .columns(Map.of("Mois", "age_months", "Garanti", "assured"))
                                .build())
                        .withTotalsRow("Total"));
    }

    @Test
    void aRowForEachSideAndBlankRowsBetweenCarcasses() {
        assertAllAreRead(
                "a-row-a-side.csv",
                KillSheetFormat.of(CsvForm.builder()
                                .separator(';')
                                .decimalComma()
                                .dates(DateForm.POINTS)
                                .blankRows()
                                .yesNo("ja", "nej")
                                .columns(Map.of("Nummer", "carcass", "Dato", "kill_date", "Parti", "lot"))
                                .columns(Map.of("Leverandor", "supplier", "Kat", "category", "Form", "conformation"))
                                .columns(Map.of("Fedt", "fat_class", "Kg", "cold_weight_kg"))
                                .columns(Map.of("Alder", "age_months", "Aftale", "assured"))
                                .build())
                        .withRowASide());
    }

    @Test
    void packedWithNamesAndWordsOfItsOwn() {
        assertAllAreRead(
                "packed.csv.gz",
                KillSheetFormat.of(CsvForm.builder()
                        .separator('|')
                        .yesNo("true", "false")
                        .columns(Map.of("animal", "carcass", "day", "kill_date", "batch", "lot", "source", "supplier"))
                        .columns(Map.of("class", "category", "shape", "conformation", "cover", "fat_class"))
                        .columns(Map.of("carcass kg", "cold_weight_kg", "age", "age_months", "member", "assured"))
                        .build()));
    }

    static Stream<Arguments> commands() {
        return Stream.of(
                arguments(
                        "semicolons.csv",
                        "--separator ; --decimal-comma --dates d.m.y --yes-no ja,nein --columns Ohrmarke=carcass,"
                                + "Schlachttag=kill_date,Partie=lot,Lieferant=supplier,Kat=category,"
                                + "Handelsklasse=conformation,Fett=fat_class,Gewicht_kalt=cold_weight_kg,"
                                + "Alter=age_months,QS=assured"),
                arguments(
                        "windows-1252.csv",
                        "--separator ; --charset windows-1252 --decimal-comma --dates d.m.y --yes-no ja,nein --columns"
                                + " Nr=carcass,T\u00f6tungstag=kill_date,Los=lot,Z\u00fcchter=supplier,Kat.=category,"
                                + "Kl.=conformation,F=fat_class,kg=cold_weight_kg,Monate=age_months,gepr\u00fcft=assured"),
                arguments(
                        "tabs.tsv",
                        "--separator tab --dates d/m/y --formula-cells --yes-no Y,N --columns Tag=carcass,"
                                + "Killed=kill_date,Lot=lot,Farm=supplier,Cat=category,Conf=conformation,Fat=fat_class,"
                                + "Cold_kg=cold_weight_kg,Months=age_months,Assured=assured"),
                arguments(
                        "units-and-totals.csv",
                        "--separator ; --decimal-comma --unit kg --totals-row Total --dates d/m/y --yes-no oui,non"
                                + " --columns Identifiant=carcass,Date=kill_date,Lot=lot,Eleveur=supplier,Cat=category,"
                                + "Conf=conformation,Gras=fat_class,Poids_froid=cold_weight_kg,Mois=age_months,"
                                + "Garanti=assured"),
                arguments(
                        "a-row-a-side.csv",
                        "--separator ; --decimal-comma --row-a-side --blank-rows --dates d.m.y --yes-no ja,nej --columns"
                                + " Nummer=carcass,Dato=kill_date,Parti=lot,Leverandor=supplier,Kat=category,"
                                + "Form=conformation,Fedt=fat_class,Kg=cold_weight_kg,Alder=age_months,Aftale=assured"),
                arguments(
                        "packed.csv.gz",
                        "--separator | --yes-no true,false --columns animal=carcass,day=kill_date,batch=lot,"
                                + "source=supplier,class=category,shape=conformation,cover=fat_class,"
                                + "carcass_kg=cold_weight_kg,age=age_months,member=assured"));
    }

    /** An underscore of a name of theirs stands for a blank. */
    @ParameterizedTest
    @MethodSource("commands")
    void theCommandReadsTheSameOfEach(String sheet, String options) throws IOException, URISyntaxException {
        List<String> arguments = new ArrayList<>();
        for (String option : options.split(" ", -1)) {
            arguments.add(option.replaceAll("([A-Za-z])_(kalt|kg|froid)=", "$1 $2="));
        }
        List<String> expected = written("commas.csv", List.of());
        List<String> written = written(sheet, arguments);
        assertThat(written).hasSameSizeAs(expected);
        // some have columns of their own, which stand behind ours
        for (int i = 0; i < expected.size(); i++) {
            assertThat(written.get(i)).startsWith(expected.get(i));
        }
    }

    private List<String> written(String sheet, List<String> options) throws IOException, URISyntaxException {
        Path out = folder.resolve("out.csv");
        Path problems = folder.resolve("problems.csv");
        Path file = Path.of(Objects.requireNonNull(OtherSheetsTest.class.getResource("sheets/" + sheet))
                .toURI());
        List<String> arguments = new ArrayList<>(
                List.of("--killsheet", file.toString(), "--out", out.toString(), "--problems", problems.toString()));
        arguments.addAll(options);
        Ran ran = Ran.with(arguments);
        assertThat(ran.err()).isEmpty();
        assertThat(ran.code()).isEqualTo(ExitCode.GOOD);
        assertThat(ran.out()).contains(": 8 rows, 8 estimated, 0 condemned, 0 refused");
        assertThat(Files.readAllLines(problems)).hasSize(1);
        return Files.readAllLines(out);
    }
}
