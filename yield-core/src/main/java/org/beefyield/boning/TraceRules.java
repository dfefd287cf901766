package org.beefyield.boning;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.beefyield.boning.TraceFinding.Kind;
import org.beefyield.boning.TraceGraph.BatchKey;
import org.beefyield.boning.TraceGraph.BatchNode;
import org.beefyield.boning.TraceGraph.BoxNode;
import org.beefyield.boning.TraceGraph.CarcassKey;
import org.beefyield.boning.TraceGraph.PieceNode;
import org.beefyield.text.Numbers;

/** What doesn't hold together in a graph. */
final class TraceRules {
    private static final int SHOWN = 5;
    private static final double HALVES = 2;

    private final TraceGraph graph;
    private final List<TraceFinding> findings = new ArrayList<>();

    private TraceRules(TraceGraph graph) {
        this.graph = graph;
    }

    static List<TraceFinding> findings(TraceGraph graph) {
        TraceRules rules = new TraceRules(graph);
        rules.piecesWithoutBatch();
        rules.boxesWithoutBatch();
        graph.batches().values().forEach(rules::batch);
        rules.reworks();
        rules.doubleBoxes();
        rules.carcasses();
        return List.copyOf(rules.findings);
    }

    private void add(Kind kind, List<String> ids, String words) {
        findings.add(new TraceFinding(kind, ids, words));
    }

    private static String some(List<String> ids) {
        return " (" + ids.stream().limit(SHOWN).collect(Collectors.joining(", "))
                + (ids.size() > SHOWN ? " and " + (ids.size() - SHOWN) + " more" : "") + ")";
    }

    private static String count(int count, String one, String many) {
        return Numbers.counted(count, one, many);
    }

    private void piecesWithoutBatch() {
        for (BoningRun run : graph.runs()) {
            List<String> ids = run.boned().stream()
                    .filter(piece -> piece.batch().isEmpty())
                    .map(Intake::id)
                    .toList();
            if (!ids.isEmpty()) {
                add(
                        Kind.ORPHAN,
                        ids,
                        run.name() + ": " + count(ids.size(), "boned piece names", "boned pieces name") + " no batch"
                                + some(ids) + ", so any box of the run may hold of "
                                + (ids.size() == 1 ? "it" : "them"));
            }
        }
    }

    private void boxesWithoutBatch() {
        for (BoningRun run : graph.runs()) {
            List<String> ids = run.boxes().stream()
                    .filter(box -> box.batch().isEmpty()
                            && (box.kind().isCounted() || box.from().isEmpty()))
                    .map(Box::id)
                    .toList();
            if (!ids.isEmpty()) {
                add(
                        Kind.ORPHAN,
                        ids,
                        run.name() + ": " + count(ids.size(), "box names", "boxes name") + " no batch" + some(ids)
                                + ", so " + (ids.size() == 1 ? "it" : "they") + " may hold of any carcass of the run");
            }
        }
    }

    private void batch(BatchNode batch) {
        String name = BatchMass.name(batch.key.hall(), batch.key.batch());
        List<String> counted = batch.boxes.stream()
                .filter(box -> box.sources.isEmpty())
                .map(box -> box.box.id())
                .toList();
        if (batch.pieces.isEmpty() && !counted.isEmpty()) {
            add(
                    Kind.ORPHAN,
                    counted,
                    name + ": nothing was boned in it, yet " + count(counted.size(), "box names it", "boxes name it")
                            + some(counted));
        }
        if (!batch.pieces.isEmpty() && batch.boxes.isEmpty()) {
            List<String> ids = carcasses(batch.pieces);
            add(
                    Kind.ORPHAN,
                    ids,
                    name + ": " + count(ids.size(), "carcass was", "carcasses were") + " boned in it" + some(ids)
                            + ", yet no box names it");
        }
        Set<String> days = batch.days();
        if (days.size() > 1) {
            add(
                    Kind.MIXED,
                    carcasses(batch.pieces),
                    name + ": it is of " + days.size() + " days" + some(List.copyOf(days))
                            + "; (EC) 1825/2000, Art. 4, allows one");
        }
        List<PieceNode> all = allPieces(batch);
        one(name, all, "slaughterhouse", "slaughterhouses", Origin::slaughterhouse);
        one(name, all, "country of birth", "countries of birth", Origin::born);
        one(name, all, "country of rearing", "countries of rearing", Origin::reared);
        long boned = batch.pieces.stream()
                .mapToLong(node -> RunBalance.grams(node.piece.weightKg()))
                .sum();
        long boxed = batch.boxes.stream()
                .filter(node -> node.box.kind().isCounted())
                .mapToLong(node -> RunBalance.grams(node.box.netKg()))
                .sum();
        if (!batch.pieces.isEmpty() && boxed > boned) {
            add(
                    Kind.EXCESS,
                    carcasses(batch.pieces),
                    name + ": " + RecallListText.kg(boxed) + " kg were boxed, but " + RecallListText.kg(boned)
                            + " kg were boned in it");
        }
    }

    private static List<String> carcasses(List<PieceNode> pieces) {
        return pieces.stream().map(node -> node.piece.id()).distinct().toList();
    }

    /** The pieces of a batch, with those that came to it in boxes that were packed again. */
    private static List<PieceNode> allPieces(BatchNode batch) {
        Set<PieceNode> pieces = new LinkedHashSet<>(batch.pieces);
        List<BoxNode> again =
                batch.boxes.stream().filter(box -> !box.sources.isEmpty()).toList();
        TraceGraph.before(again).forEach((node, sure) -> {
            if (sure && node instanceof PieceNode piece) {
                pieces.add(piece);
            }
        });
        return List.copyOf(pieces);
    }

    private void one(String name, List<PieceNode> pieces, String what, String many, Function<Origin, String> column) {
        Map<String, List<String>> ids = new LinkedHashMap<>();
        pieces.forEach(node -> ids.computeIfAbsent(column.apply(node.piece.origin()), any -> new ArrayList<>())
                .add(node.piece.id()));
        List<String> notKnown = ids.remove("");
        if (ids.size() > 1) {
            add(
                    Kind.MIXED,
                    carcasses(pieces),
                    name + ": it is of " + ids.size() + " " + many + some(List.copyOf(ids.keySet()))
                            + "; (EC) 1825/2000, Art. 4, allows one");
        }
        if (!ids.isEmpty() && notKnown != null) {
            List<String> lacking = notKnown.stream().distinct().toList();
            add(
                    Kind.MIXED,
                    lacking,
                    name + ": the " + what + " of " + count(lacking.size(), "carcass", "carcasses") + " is not known"
                            + some(lacking) + ", but that of others is");
        }
    }

    private void reworks() {
        for (List<BoxNode> nodes : graph.boxes().values()) {
            for (BoxNode node : nodes) {
                String name = node.run.name() + ": box " + node.box.id();
                if (!node.unknown.isEmpty()) {
                    add(
                            Kind.ORPHAN,
                            List.of(node.box.id()),
                            name + " was packed again from " + String.join(", ", node.unknown)
                                    + ", which no run up to its own packed");
                }
                long sources = node.sources.stream()
                        .mapToLong(source -> RunBalance.grams(source.box.netKg()))
                        .sum();
                long net = RunBalance.grams(node.box.netKg());
                if (!node.sources.isEmpty() && node.unknown.isEmpty() && net > sources) {
                    add(
                            Kind.EXCESS,
                            List.of(node.box.id()),
                            name + " holds " + RecallListText.kg(net) + " kg, but was packed again from "
                                    + RecallListText.kg(sources) + " kg");
                }
            }
        }
    }

    private void doubleBoxes() {
        graph.boxes().forEach((key, nodes) -> {
            if (nodes.size() > 1) {
                add(
                        Kind.DOUBLE,
                        List.of(key.batch()),
                        "box " + key.batch() + " was packed " + nodes.size() + " times"
                                + some(nodes.stream()
                                        .map(node -> node.run.name())
                                        .toList()));
            }
        });
    }

    /** How many quarters of a carcass came in, were boned, and lie in stock: forequarters, then hindquarters. */
    private static final class Quarters {
        private final double[] cameIn = new double[2];
        private final double[] boned = new double[2];
        private final double[] stock = new double[2];
        private final Set<String> runs = new LinkedHashSet<>();
        private boolean wasNeverLeft;
    }

    private void carcasses() {
        Map<CarcassKey, Quarters> all = new LinkedHashMap<>();
        Map<String, String> firstDays = new TreeMap<>();
        graph.runs().forEach(run -> firstDays.putIfAbsent(run.hall(), run.day()));
        Map<String, List<BoningRun>> days = graph.runs().stream()
                .collect(Collectors.groupingBy(BoningRun::day, LinkedHashMap::new, Collectors.toList()));
        days.values().forEach(runs -> {
            runs.forEach(run -> run.intake().forEach(piece -> {
                Quarters quarters = all.computeIfAbsent(CarcassKey.of(piece), any -> new Quarters());
                quarters.runs.add(run.name());
                add(quarters.cameIn, piece, piece.movement().cameIn() ? 1 : 0);
                add(quarters.boned, piece, piece.movement().wasBoned() ? 1 : 0);
                // what is left on a day is there for the next
                if (piece.movement() == Movement.TAKEN_FROM_STOCK) {
                    add(quarters.stock, piece, -1);
                    String killed = piece.carcass().killDate().orElse("");
                    quarters.wasNeverLeft |= (quarters.stock[0] < 0 || quarters.stock[1] < 0)
                            && killed.compareTo(Objects.requireNonNull(firstDays.get(run.hall()))) >= 0;
                }
            }));
            runs.forEach(run -> run.intake().forEach(piece -> {
                if (piece.movement() == Movement.LEFT_IN_STOCK) {
                    add(Objects.requireNonNull(all.get(CarcassKey.of(piece))).stock, piece, 1);
                }
            }));
        });
        all.forEach((key, quarters) -> {
            String name = "carcass " + key.id() + (key.killDate().isEmpty() ? "" : " of " + key.killDate()) + ": ";
            String runs = some(List.copyOf(quarters.runs));
            double most = Math.max(
                    Math.max(quarters.cameIn[0], quarters.cameIn[1]), Math.max(quarters.boned[0], quarters.boned[1]));
            if (most > 1) {
                boolean in = Math.max(quarters.cameIn[0], quarters.cameIn[1]) == most;
                double[] shares = in ? quarters.cameIn : quarters.boned;
                String which = shares[0] == most ? "forequarters" : "hindquarters";
                add(
                        Kind.DOUBLE,
                        List.of(key.id()),
                        name + Math.round(HALVES * most) + " " + which + (in ? " came in" : " were boned") + runs
                                + "; a carcass has two");
            }
            if (quarters.wasNeverLeft) {
                add(
                        Kind.ORPHAN,
                        List.of(key.id()),
                        name + "more of it was taken from stock than a run of an earlier day left there" + runs);
            }
        });
    }

    private static void add(double[] shares, Intake piece, int sign) {
        shares[0] += sign * piece.part().foreShare();
        shares[1] += sign * piece.part().hindShare();
    }

    /** What went into a batch and what was packed from it. */
    static BatchMass mass(BatchNode batch) {
        Map<String, Long> boxed = new TreeMap<>();
        int boxes = 0;
        for (BoxNode node : batch.boxes) {
            if (node.box.kind().isCounted()) {
                boxed.merge(node.box.cutAs(), RunBalance.grams(node.box.netKg()), Long::sum);
                boxes++;
            }
        }
        BatchKey key = batch.key;
        return new BatchMass(
                key.hall(),
                key.batch(),
                List.copyOf(batch.days()),
                (int) batch.pieces.stream()
                        .map(node -> CarcassKey.of(node.piece))
                        .distinct()
                        .count(),
                batch.pieces.size(),
                batch.pieces.stream()
                        .mapToLong(node -> RunBalance.grams(node.piece.weightKg()))
                        .sum(),
                boxes,
                boxed);
    }
}
