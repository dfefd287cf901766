package org.beefyield.boning;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * What of runs comes from what: pieces go into batches, batches into boxes, boxes into boxes that were packed again. What the
 * files don't say may be: a piece without a batch may be in any box of its run, and a box whose batch names no piece may hold
 * any piece of its run.
 */
final class TraceGraph {
    /** A batch of a hall. */
    record BatchKey(String hall, String batch) {}

    /** A carcass; one without a kill date goes by its id alone. */
    record CarcassKey(String killDate, String id) {
        static CarcassKey of(Intake piece) {
            return new CarcassKey(piece.carcass().killDate().orElse(""), piece.id());
        }
    }

    /** A place in the graph, with what surely and what maybe comes before and behind it. */
    static class Node {
        private final List<Node> before = new ArrayList<>(1);
        private final List<Node> behind = new ArrayList<>(1);
        private final List<Node> maybeBefore = new ArrayList<>(0);
        private final List<Node> maybeBehind = new ArrayList<>(0);

        final void to(Node next) {
            behind.add(next);
            next.before.add(this);
        }

        final void maybeTo(Node next) {
            maybeBehind.add(next);
            next.maybeBefore.add(this);
        }

        static Stream<Node> all(List<Node> sure, List<Node> maybe) {
            return Stream.concat(sure.stream(), maybe.stream());
        }
    }

    /** A piece that a run boned. */
    static final class PieceNode extends Node {
        final BoningRun run;
        final Intake piece;

        PieceNode(BoningRun run, Intake piece) {
            this.run = run;
            this.piece = piece;
        }
    }

    /** A batch. */
    static final class BatchNode extends Node {
        final BatchKey key;
        final List<PieceNode> pieces = new ArrayList<>();
        final List<BoxNode> boxes = new ArrayList<>();

        BatchNode(BatchKey key) {
            this.key = key;
        }

        /** Days on which it was boned or packed. */
        Set<String> days() {
            Set<String> days = new LinkedHashSet<>();
            pieces.forEach(piece -> days.add(piece.run.day()));
            boxes.stream().filter(box -> box.box.kind().isCounted()).forEach(box -> days.add(box.run.day()));
            return days;
        }
    }

    /** A box. */
    static final class BoxNode extends Node {
        final BoningRun run;
        final Box box;
        /** Ids of boxes that it comes from and that no run up to its own packed. */
        final List<String> unknown = new ArrayList<>(0);

        /** Boxes that it was packed again from. */
        final List<BoxNode> sources = new ArrayList<>(0);

        BoxNode(BoningRun run, Box box) {
            this.run = run;
            this.box = box;
        }
    }

    private final List<BoningRun> runs;
    private final List<PieceNode> pieces = new ArrayList<>();
    private final Map<BatchKey, BatchNode> batches = new LinkedHashMap<>();
    private final Map<BatchKey, List<BoxNode>> boxes = new LinkedHashMap<>();

    TraceGraph(List<BoningRun> given) {
        runs = given.stream().sorted(Comparator.comparing(BoningRun::day)).toList();
        List<List<PieceNode>> ofRuns = runs.stream().map(this::addPieces).toList();
        for (int i = 0; i < runs.size(); i++) {
            addBoxes(runs.get(i), ofRuns.get(i));
        }
    }

    private BatchNode batch(BoningRun run, String batch) {
        return batches.computeIfAbsent(new BatchKey(run.hall(), batch), BatchNode::new);
    }

    private List<PieceNode> addPieces(BoningRun run) {
        List<PieceNode> own = new ArrayList<>();
        for (Intake piece : run.boned()) {
            PieceNode node = new PieceNode(run, piece);
            own.add(node);
            if (!piece.batch().isEmpty()) {
                BatchNode batch = batch(run, piece.batch());
                batch.pieces.add(node);
                node.to(batch);
            }
        }
        pieces.addAll(own);
        return own;
    }

    private void addBoxes(BoningRun run, List<PieceNode> boned) {
        List<BoxNode> own = new ArrayList<>();
        Set<BatchNode> packed = new LinkedHashSet<>();
        for (Box box : run.boxes()) {
            BoxNode node = new BoxNode(run, box);
            own.add(node);
            boxes.computeIfAbsent(new BatchKey(run.hall(), box.id()), any -> new ArrayList<>(1))
                    .add(node);
            if (!box.batch().isEmpty()) {
                batch(run, box.batch()).boxes.add(node);
            }
        }
        // what any piece of the run may have gone to
        Node anyPiece = new Node();
        for (BoxNode box : own) {
            if (box.box.kind() == BoxKind.REWORK && findSources(box)) {
                continue;
            }
            BatchNode batch = box.box.batch().isEmpty() ? null : batch(run, box.box.batch());
            if (batch == null) {
                anyPiece.maybeTo(box);
            } else {
                batch.to(box);
                if (packed.add(batch) && batch.pieces.isEmpty()) {
                    anyPiece.maybeTo(batch);
                }
            }
        }
        Node unbatched = new Node();
        packed.forEach(unbatched::maybeTo);
        for (PieceNode piece : boned) {
            if (piece.piece.batch().isEmpty()) {
                piece.maybeTo(unbatched);
            }
            piece.maybeTo(anyPiece);
        }
    }

    /** Whether the boxes that one was packed again from are known, all of them. */
    private boolean findSources(BoxNode box) {
        for (String id : box.box.from()) {
            List<BoxNode> found = boxes.getOrDefault(new BatchKey(box.run.hall(), id), List.of());
            if (found.isEmpty()) {
                box.unknown.add(id);
            }
            for (BoxNode source : found) {
                if (found.size() == 1) {
                    source.to(box);
                } else {
                    source.maybeTo(box);
                }
                box.sources.add(source);
            }
        }
        return !box.box.from().isEmpty() && box.unknown.isEmpty();
    }

    List<BoningRun> runs() {
        return runs;
    }

    List<PieceNode> pieces() {
        return pieces;
    }

    Map<BatchKey, BatchNode> batches() {
        return batches;
    }

    /** Boxes by hall and id. */
    Map<BatchKey, List<BoxNode>> boxes() {
        return boxes;
    }

    /** What is before some nodes, they too, by whether it surely is. */
    static Map<Node, Boolean> before(List<? extends Node> start) {
        Map<Node, Boolean> reached = new LinkedHashMap<>();
        reach(start, node -> node.before.stream()).forEach(node -> reached.put(node, true));
        reach(start, node -> Node.all(node.before, node.maybeBefore)).forEach(node -> reached.putIfAbsent(node, false));
        return reached;
    }

    /** What is behind some nodes, they too, by whether it surely is. */
    static Map<Node, Boolean> behind(List<? extends Node> start) {
        Map<Node, Boolean> reached = new LinkedHashMap<>();
        reach(start, node -> node.behind.stream()).forEach(node -> reached.put(node, true));
        reach(start, node -> Node.all(node.behind, node.maybeBehind)).forEach(node -> reached.putIfAbsent(node, false));
        return reached;
    }

    private static Set<Node> reach(List<? extends Node> start, Function<Node, Stream<Node>> next) {
        Set<Node> reached = new LinkedHashSet<>(start);
        Deque<Node> open = new ArrayDeque<>(reached);
        while (!open.isEmpty()) {
            next.apply(open.remove()).forEach(node -> {
                if (reached.add(node)) {
                    open.add(node);
                }
            });
        }
        return reached;
    }
}
