package org.beefyield.data.boning;

import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.BoxKind;
import org.beefyield.boning.Intake;
import org.beefyield.data.Outputs;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.file.StreamOutput;
import org.beefyield.data.file.TextOutput;
import tools.jackson.databind.json.JsonMapper;

/**
 * Writes boning runs as a GS1 EPCIS 2.0 document in JSON, for whoever keeps the events of a chain.
 *
 * <p>Of each batch of a run there is a {@code TransformationEvent} ({@code disassembling}): the pieces boned in it become
 * quantities of each product packed from it, in kg without packing. What names no batch is one such event of the run. Each box
 * is an {@code AggregationEvent} ({@code packing}): its quantity is put into it. A box that was packed again has a
 * {@code TransformationEvent} ({@code repackaging}) before that, in which the boxes it comes from become its quantity. Pieces
 * left in stock, and what was weighed beside the boxes, have no event.
 *
 * <p><b>Names.</b> A box whose id is an SSCC (18 digits, the check digit right) goes by its GS1 Digital Link; so does a product
 * whose code is a GTIN (8, 12, 13 or 14 digits) with its batch, if that is a lot number of GS1 (1 to 20 letters, digits,
 * hyphens, points or underscores). Everything else is named under an address of the caller's, such as
 * {@code https://id.tarrowmere.example/carcass/2026-11-02/T-1/carcass}; nothing need answer there.
 *
 * <p><b>Times.</b> A box has the time of its packing, if that is written as {@code 14:05} or {@code 14:05:30}; every other event
 * has the last second of the day of its run.
 */
public final class EpcisWriter {
    private static final String CONTEXT = "https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld";
    private static final String GS1 = "https://id.gs1.org/";
    private static final Pattern DIGITS = Pattern.compile("[0-9]+");
    private static final Pattern LOT = Pattern.compile("[A-Za-z0-9._-]{1,20}");
    private static final Pattern TIME = Pattern.compile("[0-9]{2}:[0-9]{2}(:[0-9]{2})?");
    private static final int SSCC = 18;
    private static final int GTIN = 14;
    private static final Set<Integer> GTINS = Set.of(8, 12, 13, GTIN);
    private static final int GRAMS = 3;
    private static final DateTimeFormatter WITH_SECONDS = DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ssxxx");
    private static final JsonMapper MAPPER = new JsonMapper();

    private final String base;
    private final ZoneId zone;
    private final TextOutput out;
    private final Map<List<String>, TreeMap<String, BoningRun>> sources = new HashMap<>();
    private boolean first = true;

    private EpcisWriter(URI base, ZoneId zone, TextOutput out) {
        if (!base.isAbsolute() || base.isOpaque() || base.getRawQuery() != null || base.getRawFragment() != null) {
            throw new IllegalArgumentException(Excerpt.quote(base.toString())
                    + " is no address to name things under, such as https://id.tarrowmere.example/");
        }
        this.base = base.toString().endsWith("/") ? base.toString() : base + "/";
        this.zone = Objects.requireNonNull(zone, "zone");
        this.out = out;
    }

    /**
     * Writes runs to a file, which appears, or is replaced, whole or not at all.
     *
     * @param runs runs
     * @param base address that things are named under, such as {@code https://id.tarrowmere.example/}
     * @param zone time zone of the halls
     * @param created when the document is made
     * @param target where it will stand, in a folder that exists; packed with gzip if the name ends in {@code .gz}
     * @throws IllegalArgumentException if the base is no absolute address, or the day of a run no date such as
     *     {@code 2026-11-03}
     * @throws UncheckedIOException if it can't be written there
     */
    public static void write(List<BoningRun> runs, URI base, ZoneId zone, Instant created, Path target) {
        try (TextOutput out = OutputFiles.alone(target)) {
            new EpcisWriter(base, zone, out).write(runs, created);
            out.finish();
        }
    }

    /**
     * Writes runs to a file of a run: it appears with the run's other outputs.
     *
     * @param runs runs
     * @param base address that things are named under
     * @param zone time zone of the halls
     * @param created when the document is made
     * @param target where it will stand, in a folder that exists; packed with gzip if the name ends in {@code .gz}
     * @param outputs the run's outputs
     * @throws IllegalArgumentException as {@link #write(List, URI, ZoneId, Instant, Path)}
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public static void write(
            List<BoningRun> runs, URI base, ZoneId zone, Instant created, Path target, Outputs outputs) {
        try (TextOutput out = outputs.unwrap(OutputFiles.class).started(target)) {
            new EpcisWriter(base, zone, out).write(runs, created);
            out.finish();
        }
    }

    /**
     * Writes runs to a stream, UTF-8. The stream is flushed and stays the caller's to close.
     *
     * @param runs runs
     * @param base address that things are named under
     * @param zone time zone of the halls
     * @param created when the document is made
     * @param stream the stream
     * @throws IllegalArgumentException as {@link #write(List, URI, ZoneId, Instant, Path)}
     * @throws UncheckedIOException if it can't be written
     */
    public static void write(List<BoningRun> runs, URI base, ZoneId zone, Instant created, OutputStream stream) {
        StreamOutput out = new StreamOutput(stream);
        new EpcisWriter(base, zone, out).write(runs, created);
        out.finish();
    }

    private void write(List<BoningRun> runs, Instant created) {
        List<LocalDate> days = runs.stream().map(run -> day(run.day())).toList();
        noteSources(runs);
        out.write("{\"@context\":[\"" + CONTEXT + "\"],\"type\":\"EPCISDocument\",\"schemaVersion\":\"2.0\","
                + "\"creationDate\":\"" + created.truncatedTo(ChronoUnit.SECONDS)
                + "\",\"epcisBody\":{\"eventList\":[");
        for (int i = 0; i < runs.size(); i++) {
            run(runs.get(i), days.get(i));
        }
        out.write("\n]}}\n");
    }

    private static LocalDate day(String day) {
        try {
            return LocalDate.parse(day);
        } catch (DateTimeException e) {
            throw new IllegalArgumentException(Excerpt.quote(day) + " is not a date such as 2026-11-03", e);
        }
    }

    /** What a batch of a run is made of; the empty one is of what names none. */
    private static final class Batch {
        private final Set<String> pieces = new LinkedHashSet<>();
        private final Map<String, BigDecimal> kg = new TreeMap<>();
    }

    private void run(BoningRun run, LocalDate day) {
        Map<String, Batch> batches = new LinkedHashMap<>();
        int number = 0;
        for (Intake piece : run.boned()) {
            number++;
            batches.computeIfAbsent(piece.batch(), any -> new Batch()).pieces.add(piece(piece, run, number));
        }
        for (Box box : run.boxes()) {
            if (box.kind().isCounted()) {
                batches.computeIfAbsent(box.batch(), any -> new Batch())
                        .kg
                        .merge(product(run, box), kg(box), BigDecimal::add);
            }
        }
        LocalTime end = LocalTime.MAX.truncatedTo(ChronoUnit.SECONDS);
        batches.forEach((name, batch) -> {
            Map<String, Object> event = event("TransformationEvent", day, end, run);
            event.put("transformationID", base + "run/" + path(run.hall(), run.day(), name));
            if (!batch.pieces.isEmpty()) {
                event.put("inputEPCList", List.copyOf(batch.pieces));
            }
            if (!batch.kg.isEmpty()) {
                List<Map<String, Object>> outputs = new ArrayList<>();
                batch.kg.forEach((product, kg) -> outputs.add(quantity(product, kg)));
                event.put("outputQuantityList", outputs);
            }
            event.put("bizStep", "disassembling");
            add(event);
        });
        for (Box box : run.boxes()) {
            LocalTime time = TIME.matcher(box.time()).matches() ? time(box.time(), end) : end;
            List<Map<String, Object>> content = List.of(quantity(product(run, box), kg(box)));
            if (box.kind() == BoxKind.REWORK) {
                Map<String, Object> again = event("TransformationEvent", day, time, run);
                again.put(
                        "transformationID", base + "run/" + path(run.hall(), run.day(), box.batch(), "box", box.id()));
                if (!box.from().isEmpty()) {
                    again.put(
                            "inputEPCList",
                            box.from().stream().map(id -> source(id, run)).toList());
                }
                again.put("outputQuantityList", content);
                again.put("bizStep", "repackaging");
                add(again);
            }
            Map<String, Object> event = event("AggregationEvent", day, time, run);
            event.put("action", "ADD");
            event.put("parentID", box(box.id(), run));
            event.put("childQuantityList", content);
            event.put("bizStep", "packing");
            add(event);
        }
    }

    private static LocalTime time(String text, LocalTime otherwise) {
        try {
            return LocalTime.parse(text);
        } catch (DateTimeException e) {
            return otherwise;
        }
    }

    /** Notes which runs packed the boxes that others were packed again from, by hall and id. */
    private void noteSources(List<BoningRun> runs) {
        Set<String> ids = new HashSet<>();
        runs.forEach(run -> run.boxes().stream()
                .filter(box -> box.kind() == BoxKind.REWORK)
                .forEach(box -> ids.addAll(box.from())));
        runs.forEach(run -> run.boxes().stream()
                .filter(box -> ids.contains(box.id()))
                .forEach(box -> sources.computeIfAbsent(List.of(run.hall(), box.id()), any -> new TreeMap<>())
                        .put(run.day(), run)));
    }

    /** A box that another one was packed from: of the last run of the hall, up to this one, that has one of that id. */
    private String source(String id, BoningRun run) {
        TreeMap<String, BoningRun> packed = sources.get(List.of(run.hall(), id));
        Map.Entry<String, BoningRun> last = packed == null ? null : packed.floorEntry(run.day());
        return box(id, last == null ? run : last.getValue());
    }

    private Map<String, Object> event(String type, LocalDate day, LocalTime time, BoningRun run) {
        OffsetDateTime at = day.atTime(time).atZone(zone).toOffsetDateTime();
        Map<String, Object> event = new LinkedHashMap<>();
        event.put("type", type);
        event.put("eventTime", WITH_SECONDS.format(at));
        event.put(
                "eventTimeZoneOffset",
                at.getOffset().equals(ZoneOffset.UTC)
                        ? "+00:00"
                        : at.getOffset().getId());
        event.put("bizLocation", Map.of("id", base + "hall/" + path(run.hall())));
        return event;
    }

    private void add(Map<String, Object> event) {
        out.write((first ? "\n" : ",\n") + MAPPER.writeValueAsString(event));
        first = false;
    }

    private static Map<String, Object> quantity(String product, BigDecimal kg) {
        Map<String, Object> quantity = new LinkedHashMap<>();
        quantity.put("epcClass", product);
        quantity.put("quantity", kg);
        quantity.put("uom", "KGM");
        return quantity;
    }

    private static BigDecimal kg(Box box) {
        return BigDecimal.valueOf(Math.round(1000 * box.netKg()), GRAMS);
    }

    private String piece(Intake piece, BoningRun run, int number) {
        String carcass = base + "carcass/"
                + path(
                        piece.carcass().killDate().orElse(""),
                        piece.id(),
                        piece.part().code());
        // pieces that nothing tells apart are told apart by their place in the intake
        return carcass + "/" + path(piece.piece().isEmpty() ? run.day() + "." + number : piece.piece());
    }

    private String box(String id, BoningRun run) {
        return isKey(id, SSCC) ? GS1 + "00/" + id : base + "box/" + path(run.hall(), run.day(), id);
    }

    private String product(BoningRun run, Box box) {
        String code = box.product();
        if (GTINS.contains(code.length())
                && isKey(code, code.length())
                && LOT.matcher(box.batch()).matches()) {
            return GS1 + "01/" + "0".repeat(GTIN - code.length()) + code + "/10/" + box.batch();
        }
        String of = box.batch().isEmpty() ? path("day", run.day()) : path("batch", box.batch());
        return base + "product/" + path(code, run.hall()) + "/" + of;
    }

    /** Whether it is a number of GS1: digits, of which the last checks the others with weights of 3 and 1 from the right. */
    private static boolean isKey(String text, int length) {
        if (text.length() != length || !DIGITS.matcher(text).matches()) {
            return false;
        }
        int sum = 0;
        for (int i = 1; i <= length; i++) {
            int weight = i % 2 == 0 ? 3 : 1;
            sum += weight * (text.charAt(length - i) - '0');
        }
        return sum % 10 == 0;
    }

    /** Parts of an address; what is empty is a hyphen. */
    private static String path(String... parts) {
        StringBuilder path = new StringBuilder();
        for (String part : parts) {
            path.append(path.isEmpty() ? "" : "/")
                    .append(
                            part.isEmpty()
                                    ? "-"
                                    : URLEncoder.encode(part, StandardCharsets.UTF_8)
                                            .replace("+", "%20")
                                            .replace("*", "%2A"));
        }
        return path.toString();
    }
}
