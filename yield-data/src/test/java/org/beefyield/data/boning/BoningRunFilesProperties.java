package org.beefyield.data.boning;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
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
import org.beefyield.data.table.ShippedTables;
import org.beefyield.table.YieldTable;

/** Made runs, written and read back. */
class BoningRunFilesProperties {
    private static final YieldTable TABLE = ShippedTables.boneless2026();
    private static final List<String> TEXTS =
            List.of("", "a", "b, c", "\"d\"", "0007", "=1+1", "é ß", "x;y", "-", "1e5");

    /** Runs and products by chance. */
    private static final class Made {
        private final Random random;

        Made(Random random) {
            this.random = random;
        }

        private String text() {
            return TEXTS.get(random.nextInt(TEXTS.size()));
        }

        private <T> T one(T[] values) {
            return values[random.nextInt(values.length)];
        }

        private Carcass carcass(int number, String hall) {
            Carcass carcass = Carcass.of(
                            Category.COW,
                            random.nextBoolean()
                                    ? Conformation.third(1 + random.nextInt(18))
                                    : Conformation.ofPosition(1 + 17 * random.nextDouble(), random.nextDouble()),
                            random.nextBoolean()
                                    ? FatClass.third(1 + random.nextInt(15))
                                    : FatClass.ofPosition(1 + 14 * random.nextDouble(), random.nextDouble()),
                            100 + 300 * random.nextDouble())
                    .withId("T-" + number);
            carcass = hall.isEmpty() ? carcass : carcass.withHall(hall);
            carcass = random.nextBoolean() ? carcass.withKillDate("2026-11-0" + (1 + random.nextInt(9))) : carcass;
            carcass = random.nextBoolean() ? carcass.withSupplier("s" + text()) : carcass;
            carcass = random.nextBoolean() ? carcass.withLot("l" + text()) : carcass;
            carcass = random.nextBoolean() ? carcass.withAgeMonths(30 + random.nextInt(90)) : carcass;
            return random.nextBoolean() ? carcass.withAssured(random.nextBoolean()) : carcass;
        }

        private BoningRun run(int number) {
            String hall = number % 2 == 0 ? "" : "h" + text();
            List<Intake> intake = new ArrayList<>();
            for (int i = random.nextInt(20); i >= 0; i--) {
                Movement movement = one(Movement.values());
                Carcass carcass = carcass(1000 * number + i, hall);
                IntakePart part = one(IntakePart.values());
                intake.add(new Intake(
                        carcass,
                        part,
                        carcass.coldWeightKg() * random.nextDouble() + 0.001,
                        movement,
                        movement.wasBoned() ? text() : "",
                        text(),
                        new Origin(text(), text(), text())));
            }
            List<Box> boxes = new ArrayList<>();
            for (int i = random.nextInt(40); i > 0; i--) {
                BoxKind kind = one(BoxKind.values());
                List<String> from = switch (kind) {
                    case FIRST -> List.of();
                    case REWORK -> random.nextBoolean() ? List.of() : List.of("r1", "r2");
                    case DOWNGRADED -> List.of("fine meat");
                };
                double tare = random.nextDouble();
                boxes.add(new Box(
                        "b" + i,
                        "p" + text(),
                        text(),
                        tare + 20 * random.nextDouble() + 0.01,
                        tare,
                        text(),
                        kind,
                        from));
            }
            List<Rest> rest = new ArrayList<>();
            for (int i = random.nextInt(6); i > 0; i--) {
                rest.add(new Rest(one(RestKind.values()), 1e4 * random.nextDouble(), text()));
            }
            return new BoningRun(hall, "2026-11-" + (10 + number), one(IntakeWeighing.values()), intake, boxes, rest);
        }

        private List<Product> products() {
            List<Product> products = new ArrayList<>();
            for (int i = 1 + random.nextInt(5); i > 0; i--) {
                Map<String, Double> cuts = new LinkedHashMap<>();
                for (String cut : List.of("rump-steak", "dice", "bone")) {
                    if (random.nextBoolean() || cuts.isEmpty()) {
                        cuts.put(cut, 1 - random.nextDouble());
                    }
                }
                products.add(new Product("p" + i + text(), "n" + i + text(), cuts));
            }
            return products;
        }
    }

    @Property(tries = 200)
    void whatIsReadIsWhatWasWritten(@ForAll long seed) throws IOException {
        Made made = new Made(new Random(seed));
        List<BoningRun> runs = new ArrayList<>();
        for (int i = 1 + made.random.nextInt(4); i > 0; i--) {
            runs.add(made.run(i));
        }
        List<Product> products = made.products();
        Path folder = Files.createTempDirectory("runs");
        try {
            BoningRunWriter.write(runs, products, folder);
            BoningRunSheet sheet = BoningRunReader.read(
                    folder.resolve("intake.csv"), folder.resolve("boxes.csv"), folder.resolve("rest.csv"), List.of());

            assertThat(sheet.problems()).isEmpty();
            assertThat(sheet.runs()).isEqualTo(runs);
            assertThat(ProductReader.read(folder.resolve("products.csv"), TABLE))
                    .isEqualTo(products);
        } finally {
            try (Stream<Path> files = Files.walk(folder)) {
                for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(file);
                }
            }
        }
    }
}
