package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A week of eight invented suppliers: one sends cattle that are too fat, one light ones, one what the grid pays too much for, one has
 * had bad luck with a few, and four send what all send. Each that is overpaid is named with its cause, and nobody else.
 */
class WeekOfSuppliersTest {
    private static final List<String> USUAL = List.of("Mere End", "Tarrow Bridge", "Long Tarrow", "Stonegate");

    @TempDir
    Path folder;

    private final Random random = new Random(26);
    private final StringBuilder sheet = new StringBuilder(
            "carcass,kill_date,lot,supplier,category,conformation,fat_class,cold_weight_kg,age_months,assured\n");
    private int number;

    @BeforeEach
    void writeTheWeek() throws IOException {
        for (String supplier : USUAL) {
            herd(supplier, 40, "R- R= R= R+ O+", "3- 3= 3= 3+", 340);
        }
        herd("Fat Fold", 40, "R- R= R= R+ O+", "5- 5= 4+ 5-", 340);
        herd("Little Mere", 40, "R- R= R= R+ O+", "3- 3= 3= 3+", 205);
        herd("Bull Hill", 16, "E- E= E- U+", "3- 3= 3= 3+", 340);
        herd("Hard Luck", 4, "R- O+", "4- 4=", 330);
        Files.writeString(folder.resolve("week.csv"), sheet);
        // 300 a head is what makes light cattle dear; a kg of a light one is paid as any other
        Files.writeString(
                folder.resolve("prices.csv"),
                Files.readString(Path.of("examples/tarrowmere-prices.csv"))
                        .replace("per-head,slaughter,-46.00", "per-head,slaughter,-300.00"));
        Files.writeString(folder.resolve("grid.csv"), """
                line,category,conformation,fat_class,from_kg,to_kg,per_kg,currency
                base,*,,,,,5.20,EUR
                grade,*,,,,,0.00,EUR
                grade,*,U,,,,0.36,EUR
                grade,*,U+,,,,1.60,EUR
                grade,*,E,,,,1.60,EUR
                grade,*,O,,,,-0.36,EUR
                grade,*,R,4,,,-0.10,EUR
                grade,*,R,5,,,-0.20,EUR
                """);
    }

    private void herd(String supplier, int head, String conformations, String fats, double kg) {
        String[] conformation = conformations.split(" ", -1);
        String[] fat = fats.split(" ", -1);
        for (int i = 0; i < head; i++) {
            sheet.append(String.format(
                    Locale.ROOT,
                    "W%03d,2026-11-%02d,%s,%s,C,%s,%s,%.1f,24,yes%n",
                    ++number,
                    2 + i % 5,
                    supplier.charAt(0),
                    supplier,
                    conformation[random.nextInt(conformation.length)],
                    fat[random.nextInt(fat.length)],
                    kg + 8 * random.nextGaussian()));
        }
    }

    private String run(String... more) {
        List<String> arguments = new java.util.ArrayList<>(List.of(
                "--killsheet",
                folder.resolve("week.csv").toString(),
                "--prices",
                folder.resolve("prices.csv").toString(),
                "--grid",
                folder.resolve("grid.csv").toString()));
        arguments.addAll(List.of(more));
        Ran ran = Ran.with(arguments);
        assertThat(ran.err()).isEmpty();
        assertThat(ran.code()).isZero();
        return ran.out();
    }

    @Test
    void eachPlantedCauseIsNamedAndTheUnluckyOneIsNotAccused() {
        String out = run();
        List<String> accused = out.lines()
                .filter(line -> line.contains(" EUR overpaid beside the hall's average (90 % sure: "))
                .distinct()
                .toList();
        assertThat(accused).hasSize(3);
        assertThat(accused)
                .anyMatch(line -> line.startsWith("Fat Fold: ") && line.contains(", mostly for fat class: "));
        assertThat(accused)
                .anyMatch(line -> line.startsWith("Little Mere: ") && line.contains(", mostly for weight: "));
        assertThat(accused)
                .anyMatch(line ->
                        line.startsWith("Bull Hill: ") && line.contains(", mostly for the price of conformation: "));
        // it left less than the others, which may be chance
        String[] unlucky = out.lines()
                .filter(line -> line.startsWith("Hard Luck "))
                .map(line -> line.split(" {2,}"))
                .filter(cells -> cells[1].equals("4") && cells.length <= 7)
                .findFirst()
                .orElseThrow();
        double beside = Double.parseDouble(unlucky[4].replace(",", ""));
        double low = Double.parseDouble(unlucky[5].replace(",", ""));
        double high = Double.parseDouble(unlucky[6].replace(",", ""));
        assertThat(beside).isBetween(low, 0.0);
        assertThat(high).isPositive();
    }
}
