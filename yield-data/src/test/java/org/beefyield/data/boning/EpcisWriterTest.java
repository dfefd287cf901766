package org.beefyield.data.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.BoxKind;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Runs as events of GS1 EPCIS 2.0; the documents written here are validated against its schema by the build. */
class EpcisWriterTest {
    /** Where the build looks for documents to validate. */
    private static final Path FOR_VALIDATION = Path.of("target", "epcis");

    private static final URI BASE = URI.create("https://id.tarrowmere.example");
    private static final ZoneId DUBLIN = ZoneId.of("Europe/Dublin");
    private static final Instant CREATED = Instant.parse("2026-11-05T06:30:00.123Z");
    /** Check digits by hand: 3 and 1 in turn from the right, the sum of all a multiple of 10. */
    private static final String GTIN = "4012345111118";

    private static final String SSCC = "340123450000000017";

    private static Intake piece(String id, IntakePart part, Movement movement, String batch) {
        Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340)
                .withId(id)
                .withKillDate("2026-07-01");
        return Intake.of(carcass, part, 100, movement, batch);
    }

    private static List<BoningRun> runs() {
        BoningRun first = new BoningRun(
                "Mereside",
                "2026-07-03",
                IntakeWeighing.HOT,
                List.of(
                        piece("T 1/a", IntakePart.CARCASS, Movement.BONED, "B1"),
                        piece("T-2", IntakePart.FOREQUARTER, Movement.BONED, "B1"),
                        piece("T-2", IntakePart.FOREQUARTER, Movement.BONED, "B1"),
                        piece("T-2", IntakePart.HINDQUARTER, Movement.LEFT_IN_STOCK, "")
                                .withPiece("left"),
                        piece("T-3", IntakePart.SIDE, Movement.BONED, "")),
                List.of(
                        Box.of(SSCC, GTIN, "B1", 20.5, 0.5),
                        new Box("2", GTIN, "B1", 12.25, 0, "14:05", BoxKind.FIRST, List.of()),
                        new Box("3", "mince", "B1", 10, 0, "14:05:30", BoxKind.DOWNGRADED, List.of("steak")),
                        new Box("4", "mince", "", 9, 0, "noon", BoxKind.FIRST, List.of())),
                List.of());
        BoningRun second = new BoningRun(
                "Mereside",
                "2026-11-03",
                IntakeWeighing.HOT,
                List.of(piece("T-2", IntakePart.HINDQUARTER, Movement.TAKEN_FROM_STOCK, "B2")
                        .withPiece("left")),
                List.of(
                        new Box("9", "mince", "M", 21.5, 0, "", BoxKind.REWORK, List.of(SSCC, "3")),
                        new Box("10", "mince", "M", 5, 0, "", BoxKind.REWORK, List.of())),
                List.of());
        return List.of(first, second);
    }

    private static String text(List<BoningRun> runs, URI base, ZoneId zone) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        EpcisWriter.write(runs, base, zone, CREATED, bytes);
        return bytes.toString(StandardCharsets.UTF_8);
    }

    private static JsonNode read(String text) {
        return new JsonMapper().readTree(text);
    }

    @Test
    void everyBatchIsATransformationAndEveryBoxAnAggregation() throws IOException {
        String text = text(runs(), BASE, DUBLIN);
        Files.createDirectories(FOR_VALIDATION);
        EpcisWriter.write(runs(), BASE, DUBLIN, CREATED, FOR_VALIDATION.resolve("two-runs.json"));

        String at = "\"bizLocation\":{\"id\":\"https://id.tarrowmere.example/hall/Mereside\"}";
        String steak = "https://id.gs1.org/01/0" + GTIN + "/10/B1";
        String mince = "https://id.tarrowmere.example/product/mince/Mereside";
        assertThat(Files.readString(FOR_VALIDATION.resolve("two-runs.json"))).isEqualTo(text);
        assertThat(text.lines())
                .containsExactly(
                        "{\"@context\":[\"https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld\"],"
                                + "\"type\":\"EPCISDocument\",\"schemaVersion\":\"2.0\","
                                + "\"creationDate\":\"2026-11-05T06:30:00Z\",\"epcisBody\":{\"eventList\":[",
                        "{\"type\":\"TransformationEvent\",\"eventTime\":\"2026-07-03T23:59:59+01:00\","
                                + "\"eventTimeZoneOffset\":\"+01:00\"," + at
                                + ",\"transformationID\":\"https://id.tarrowmere.example/run/Mereside/2026-07-03/B1\","
                                + "\"inputEPCList\":[\"https://id.tarrowmere.example/carcass/2026-07-01/T%201%2Fa/carcass/2026-07-03.1\","
                                + "\"https://id.tarrowmere.example/carcass/2026-07-01/T-2/forequarter/2026-07-03.2\","
                                + "\"https://id.tarrowmere.example/carcass/2026-07-01/T-2/forequarter/2026-07-03.3\"],"
                                + "\"outputQuantityList\":[{\"epcClass\":\"" + steak
                                + "\",\"quantity\":32.250,\"uom\":\"KGM\"},{\"epcClass\":\"" + mince
                                + "/batch/B1\",\"quantity\":10.000,\"uom\":\"KGM\"}],\"bizStep\":\"disassembling\"},",
                        "{\"type\":\"TransformationEvent\",\"eventTime\":\"2026-07-03T23:59:59+01:00\","
                                + "\"eventTimeZoneOffset\":\"+01:00\"," + at
                                + ",\"transformationID\":\"https://id.tarrowmere.example/run/Mereside/2026-07-03/-\","
                                + "\"inputEPCList\":[\"https://id.tarrowmere.example/carcass/2026-07-01/T-3/side/2026-07-03.4\"],"
                                + "\"outputQuantityList\":[{\"epcClass\":\"" + mince
                                + "/day/2026-07-03\",\"quantity\":9.000,\"uom\":\"KGM\"}],\"bizStep\":\"disassembling\"},",
                        packed("2026-07-03T23:59:59+01:00", at, "https://id.gs1.org/00/" + SSCC, steak, "20.000") + ",",
                        packed(
                                        "2026-07-03T14:05:00+01:00",
                                        at,
                                        "https://id.tarrowmere.example/box/Mereside/2026-07-03/2",
                                        steak,
                                        "12.250")
                                + ",",
                        packed(
                                        "2026-07-03T14:05:30+01:00",
                                        at,
                                        "https://id.tarrowmere.example/box/Mereside/2026-07-03/3",
                                        mince + "/batch/B1",
                                        "10.000")
                                + ",",
                        packed(
                                        "2026-07-03T23:59:59+01:00",
                                        at,
                                        "https://id.tarrowmere.example/box/Mereside/2026-07-03/4",
                                        mince + "/day/2026-07-03",
                                        "9.000")
                                + ",",
                        "{\"type\":\"TransformationEvent\",\"eventTime\":\"2026-11-03T23:59:59+00:00\","
                                + "\"eventTimeZoneOffset\":\"+00:00\"," + at
                                + ",\"transformationID\":\"https://id.tarrowmere.example/run/Mereside/2026-11-03/B2\","
                                + "\"inputEPCList\":[\"https://id.tarrowmere.example/carcass/2026-07-01/T-2/hindquarter/left\"],"
                                + "\"bizStep\":\"disassembling\"},",
                        "{\"type\":\"TransformationEvent\",\"eventTime\":\"2026-11-03T23:59:59+00:00\","
                                + "\"eventTimeZoneOffset\":\"+00:00\"," + at
                                + ",\"transformationID\":\"https://id.tarrowmere.example/run/Mereside/2026-11-03/M/box/9\","
                                + "\"inputEPCList\":[\"https://id.gs1.org/00/" + SSCC
                                + "\",\"https://id.tarrowmere.example/box/Mereside/2026-07-03/3\"],"
                                + "\"outputQuantityList\":[{\"epcClass\":\"" + mince
                                + "/batch/M\",\"quantity\":21.500,\"uom\":\"KGM\"}],\"bizStep\":\"repackaging\"},",
                        packed(
                                        "2026-11-03T23:59:59+00:00",
                                        at,
                                        "https://id.tarrowmere.example/box/Mereside/2026-11-03/9",
                                        mince + "/batch/M",
                                        "21.500")
                                + ",",
                        "{\"type\":\"TransformationEvent\",\"eventTime\":\"2026-11-03T23:59:59+00:00\","
                                + "\"eventTimeZoneOffset\":\"+00:00\"," + at
                                + ",\"transformationID\":\"https://id.tarrowmere.example/run/Mereside/2026-11-03/M/box/10\","
                                + "\"outputQuantityList\":[{\"epcClass\":\"" + mince
                                + "/batch/M\",\"quantity\":5.000,\"uom\":\"KGM\"}],\"bizStep\":\"repackaging\"},",
                        packed(
                                "2026-11-03T23:59:59+00:00",
                                at,
                                "https://id.tarrowmere.example/box/Mereside/2026-11-03/10",
                                mince + "/batch/M",
                                "5.000"),
                        "]}}");
    }

    private static String packed(String time, String at, String box, String product, String kg) {
        return "{\"type\":\"AggregationEvent\",\"eventTime\":\"" + time + "\",\"eventTimeZoneOffset\":\""
                + time.substring(19) + "\"," + at + ",\"action\":\"ADD\",\"parentID\":\"" + box
                + "\",\"childQuantityList\":[{\"epcClass\":\"" + product + "\",\"quantity\":" + kg
                + ",\"uom\":\"KGM\"}],\"bizStep\":\"packing\"}";
    }

    @Test
    void onlyNumbersWhoseCheckDigitIsRightAreThoseOfGs1() {
        for (String wrong : List.of("4012345111117", "401234511111", "401234511111a")) {
            BoningRun run = new BoningRun(
                    "",
                    "2026-11-03",
                    IntakeWeighing.HOT,
                    List.of(),
                    List.of(Box.of("1", wrong, "B1", 2, 0)),
                    List.of());
            assertThat(text(List.of(run), BASE, ZoneOffset.UTC))
                    .contains("https://id.tarrowmere.example/product/" + wrong + "/-/batch/B1")
                    .doesNotContain("gs1.org/01");
        }
        BoningRun run = new BoningRun(
                "",
                "2026-11-03",
                IntakeWeighing.HOT,
                List.of(),
                List.of(Box.of("340123450000000018", "96385074", "B/1", 2, 0), Box.of("2", "96385074", "B1", 2, 0)),
                List.of());
        assertThat(text(List.of(run), BASE, ZoneOffset.UTC))
                .contains("https://id.tarrowmere.example/box/-/2026-11-03/340123450000000018")
                .contains("https://id.tarrowmere.example/product/96385074/-/batch/B%2F1")
                .contains("https://id.gs1.org/01/00000096385074/10/B1");
    }

    @Test
    void whatGoesInAndComesOutOfASeasonIsThatOfTheRuns() throws IOException {
        List<BoningRun> runs = new ArrayList<>();
        for (int day = 10; day < 20; day++) {
            List<Intake> intake = new ArrayList<>();
            List<Box> boxes = new ArrayList<>();
            for (int i = 0; i < 40; i++) {
                intake.add(piece("T-" + day + "-" + i, IntakePart.SIDE, Movement.BONED, "B" + i % 4));
                boxes.add(Box.of("b" + i, i % 3 == 0 ? GTIN : "fat", "B" + i % 4, 15 + i / 1000.0, 0.25));
            }
            runs.add(new BoningRun("Mereside", "2026-11-" + day, IntakeWeighing.HOT, intake, boxes, List.of()));
        }
        Files.createDirectories(FOR_VALIDATION);
        Path file = FOR_VALIDATION.resolve("season.json");
        EpcisWriter.write(runs, BASE, DUBLIN, CREATED, file);

        int pieces = 0;
        int boxes = 0;
        BigDecimal transformed = BigDecimal.ZERO;
        BigDecimal packed = BigDecimal.ZERO;
        for (JsonNode event : read(Files.readString(file)).path("epcisBody").path("eventList")) {
            pieces += event.path("inputEPCList").size();
            for (JsonNode quantity : event.path("outputQuantityList")) {
                transformed = transformed.add(quantity.path("quantity").decimalValue());
            }
            for (JsonNode quantity : event.path("childQuantityList")) {
                packed = packed.add(quantity.path("quantity").decimalValue());
                boxes++;
            }
        }
        assertThat(pieces).isEqualTo(400);
        assertThat(boxes).isEqualTo(400);
        long grams = runs.stream().mapToLong(run -> run.balance().boxesG()).sum();
        assertThat(packed).isEqualByComparingTo(BigDecimal.valueOf(grams, 3));
        assertThat(transformed).isEqualByComparingTo(packed);
    }

    @Test
    void anAddressOrADayThatIsNoneIsRefusedBeforeAnythingIsWritten() {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (String base : List.of(
                "tarrowmere", "mailto:a@tarrowmere.example", "https://a.example/?x=1", "https://a.example/#x")) {
            assertThatThrownBy(() -> EpcisWriter.write(runs(), URI.create(base), DUBLIN, CREATED, bytes))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("\"" + base
                            + "\" is no address to name things under, such as https://id.tarrowmere.example/");
        }
        BoningRun monday = new BoningRun("", "Monday", IntakeWeighing.HOT, List.of(), List.of(), List.of());
        assertThatThrownBy(() -> EpcisWriter.write(List.of(monday), BASE, DUBLIN, CREATED, bytes))
                .hasMessage("\"Monday\" is not a date such as 2026-11-03");
        assertThat(bytes.size()).isZero();
    }
}
