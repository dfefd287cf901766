package org.beefyield.boning;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.beefyield.boning.TraceGraph.BatchKey;
import org.beefyield.boning.TraceGraph.BatchNode;
import org.beefyield.boning.TraceGraph.BoxNode;
import org.beefyield.boning.TraceGraph.Node;
import org.beefyield.boning.TraceGraph.PieceNode;
import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.ShownInBlocks;

/**
 * Where every box came from and where every carcass went: carcass, side or quarter, batch, box, and boxes packed again, in
 * both directions, over any number of runs. Immutable.
 *
 * <p>A batch goes by hall and name, a box by hall and id, a carcass by kill date and id. Where a batch is missing, nothing is
 * left out: the list then says of what can't be ruled out that it isn't sure.
 *
 * <p><b>Rules.</b> {@link #findings()} holds what hangs on nothing, stands twice, or holds more than went in, and batches that
 * break Commission Regulation (EC) No 1825/2000, Art. 4: one day's production at most, one slaughterhouse, one country of
 * birth and one of rearing, as far as the intake says them. That a piece was taken from stock though no run left it is found
 * where its kill date isn't before the hall's first run.
 *
 * <p>Time and memory grow with the number of pieces and boxes.
 */
public final class Trace implements ShownInBlocks {
    private static final double G_PER_KG = 1000;
    private static final int SHOWN = 5;

    private final TraceGraph graph;
    private final List<TraceFinding> findings;
    private final Map<BatchKey, BatchMass> batches = new LinkedHashMap<>();
    private final Map<String, List<PieceNode>> pieces = new LinkedHashMap<>();
    private final Map<String, List<BoxNode>> boxes = new LinkedHashMap<>();

    private Trace(List<BoningRun> runs) {
        graph = new TraceGraph(runs);
        findings = TraceRules.findings(graph);
        graph.batches().forEach((key, batch) -> batches.put(key, TraceRules.mass(batch)));
        graph.pieces()
                .forEach(node -> pieces.computeIfAbsent(node.piece.id(), any -> new ArrayList<>(1))
                        .add(node));
        graph.boxes()
                .values()
                .forEach(nodes -> nodes.forEach(node -> boxes.computeIfAbsent(node.box.id(), any -> new ArrayList<>(1))
                        .add(node)));
    }

    /**
     * The trace of runs.
     *
     * @param runs runs in any order, one for each hall and day
     * @return their trace
     * @throws IllegalArgumentException if two runs are of one hall and day
     */
    public static Trace of(List<BoningRun> runs) {
        Checks.noNullIn(runs, "runs");
        Set<String> names = new LinkedHashSet<>();
        for (BoningRun run : runs) {
            if (!names.add(run.name())) {
                throw new IllegalArgumentException("two runs are " + run.name() + "; a hall has one a day");
            }
        }
        return new Trace(runs);
    }

    /**
     * What doesn't hold together.
     *
     * @return an unmodifiable list, empty if all does
     */
    public List<TraceFinding> findings() {
        return findings;
    }

    /**
     * What went into each batch and what was packed from it.
     *
     * @return an unmodifiable list in the order in which runs name them
     */
    public List<BatchMass> batches() {
        return List.copyOf(batches.values());
    }

    /**
     * Batches from which more was packed than their carcasses can be thought to give. What counts is the product that was cut,
     * so a downgraded box counts for what it was downgraded from.
     *
     * @param expected what is expected of batches, as many as are known
     * @param sds how many SDs more than expected are too much, above 0
     * @return those that have more, most SDs first
     * @throws IllegalArgumentException if the SDs aren't above 0, or no run names a batch
     */
    public List<BatchExcess> excess(List<BatchExpectation> expected, double sds) {
        Checks.noNullIn(expected, "expected");
        if (!(sds > 0)) {
            throw new IllegalArgumentException(sds + " SDs are not above 0; 3 are usual");
        }
        List<BatchExcess> found = new ArrayList<>();
        for (BatchExpectation one : expected) {
            BatchMass batch = batches.get(new BatchKey(one.hall(), one.batch()));
            if (batch == null) {
                throw new IllegalArgumentException(
                        "no run names " + BatchMass.name(one.hall(), one.batch()) + ", of which something is expected");
            }
            double boxed = batch.boxedG().getOrDefault(one.product(), 0L) / G_PER_KG;
            BatchExcess excess = new BatchExcess(one, batch.carcasses(), boxed);
            if (excess.sds() > sds) {
                found.add(excess);
            }
        }
        found.sort((a, b) -> Double.compare(b.sds(), a.sds()));
        return List.copyOf(found);
    }

    /**
     * Where carcasses went: their pieces that were boned, the batches of these, and every box from them.
     *
     * @param ids ids of carcasses; all carcasses of an id if several days have one
     * @return what hangs on them
     * @throws IllegalArgumentException if nothing of one was boned
     */
    public RecallList ofCarcasses(Collection<String> ids) {
        Checks.noNullIn(ids, "ids");
        List<PieceNode> start = new ArrayList<>();
        for (String id : ids) {
            List<PieceNode> found = pieces.get(id);
            if (found == null) {
                throw new IllegalArgumentException("no run boned anything of a carcass " + id);
            }
            start.addAll(found);
        }
        return list(asked("carcass", "carcasses", ids), TraceGraph.behind(start));
    }

    /**
     * Where boxes came from: the batches, the pieces boned in them, and the boxes that they were packed again from.
     *
     * @param ids ids of boxes; all boxes of an id if several runs have one
     * @return what they hang on
     * @throws IllegalArgumentException if no run packed one
     */
    public RecallList ofBoxes(Collection<String> ids) {
        Checks.noNullIn(ids, "ids");
        List<BoxNode> start = new ArrayList<>();
        for (String id : ids) {
            List<BoxNode> found = boxes.get(id);
            if (found == null) {
                throw new IllegalArgumentException("no run packed a box " + id);
            }
            start.addAll(found);
        }
        return list(asked("box", "boxes", ids), TraceGraph.before(start));
    }

    /**
     * What to call back when boxes are bad: every box that may hold of a carcass that these may hold of.
     *
     * @param boxIds ids of boxes
     * @return the carcasses that they come from, and all that came from those
     * @throws IllegalArgumentException if no run packed one
     */
    public RecallList recall(Collection<String> boxIds) {
        Checks.noNullIn(boxIds, "boxIds");
        RecallList back = ofBoxes(boxIds);
        RecallList forth = ofCarcasses(back.carcasses());
        Set<TracedBox> all = new LinkedHashSet<>(forth.boxes());
        Set<List<String>> known = all.stream()
                .map(traced -> List.of(traced.run(), traced.box().id()))
                .collect(Collectors.toSet());
        back.boxes().stream()
                .filter(traced ->
                        !known.contains(List.of(traced.run(), traced.box().id())))
                .forEach(all::add);
        return new RecallList("recall of " + back.asked(), forth.pieces(), forth.batches(), List.copyOf(all));
    }

    private static String asked(String one, String many, Collection<String> ids) {
        List<String> all = ids.stream().distinct().toList();
        return (all.size() == 1 ? one : many) + " "
                + all.stream().limit(SHOWN).collect(Collectors.joining(", "))
                + (all.size() > SHOWN ? " and " + (all.size() - SHOWN) + " more" : "");
    }

    private RecallList list(String asked, Map<Node, Boolean> reached) {
        List<TracedPiece> ofPieces = new ArrayList<>();
        List<String> ofBatches = new ArrayList<>();
        List<TracedBox> ofBoxes = new ArrayList<>();
        List<Node> inOrder = new ArrayList<>(reached.keySet());
        inOrder.sort(Comparator.comparingInt(Node::number));
        for (Node one : inOrder) {
            boolean sure = reached.getOrDefault(one, false);
            if (one instanceof PieceNode node) {
                ofPieces.add(new TracedPiece(node.run.name(), node.piece, sure));
            } else if (one instanceof BoxNode node) {
                ofBoxes.add(new TracedBox(node.run.name(), node.box, sure));
            } else if (one instanceof BatchNode node) {
                ofBatches.add(BatchMass.name(node.key.hall(), node.key.batch()));
            }
        }
        return new RecallList(asked, ofPieces, ofBatches, ofBoxes);
    }

    List<BoningRun> runs() {
        return graph.runs();
    }

    int pieceCount() {
        return graph.pieces().size();
    }

    int boxCount() {
        return boxes.values().stream().mapToInt(List::size).sum();
    }

    int carcassCount() {
        return (int) graph.pieces().stream()
                .map(node -> TraceGraph.CarcassKey.of(node.piece))
                .distinct()
                .count();
    }

    /**
     * The batches as a frame, a row for each.
     *
     * @return {@code hall}, {@code batch}, {@code days} with blanks between, {@code carcasses}, {@code pieces}, {@code boned} in
     *     kg, {@code boxes}, {@code boxed} in kg
     */
    public Frame toFrame() {
        return new TraceText(this).frame();
    }

    /**
     * The findings, and the batches, for people.
     *
     * @return sentences and a table
     */
    @Override
    public Blocks blocks() {
        return new TraceText(this).blocks();
    }

    /**
     * One line.
     *
     * @return such as {@code 60 runs: 480 pieces of 240 carcasses, 120 batches, 9000 boxes, 2 findings}
     */
    @Override
    public String toString() {
        return new TraceText(this).line();
    }
}
