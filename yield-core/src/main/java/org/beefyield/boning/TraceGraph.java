package org.beefyield.boning;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

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
        /** Its place in lists, from 1; 0 for what stands in none. */
        private int number;

        private final List<Node> before = new ArrayList<>(1);
        private final List<Node> behind = new ArrayList<>(1);
        private final List<Node> maybeBefore = new ArrayList<>(0);
        private final List<Node> maybeBehind = new ArrayList<>(0);

        final int number() {
            return number;
        }

        final void to(Node next) {
            behind.add(next);
            next.before.add(this);
        }

        final void maybeTo(Node next) {
            maybeBehind.add(next);
            next.maybeBefore.add(this);
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
    private final List<BoxNode> packed = new ArrayList<>();
    private final Map<BatchKey, BatchNode> batches = new LinkedHashMap<>();
    private final Map<BatchKey, List<BoxNode>> boxes = new LinkedHashMap<>();

    TraceGraph(List<BoningRun> given) {
        runs = given.stream().sorted(Comparator.comparing(BoningRun::day)).toList();
        List<List<PieceNode>> ofRuns = runs.stream().map(this::addPieces).toList();
        for (int i = 0; i < runs.size(); i++) {
            addBoxes(runs.get(i), ofRuns.get(i));
        }
        int number = number(pieces, 0);
        number = number(batches.values(), number);
        number(packed, number);
    }

    private static int number(Collection<? extends Node> nodes, int last) {
        int number = last;
        for (Node node : nodes) {
            node.number = ++number;
        }
        return number;
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
        Set<BatchNode> named = new LinkedHashSet<>();
        for (Box box : run.boxes()) {
            BoxNode node = new BoxNode(run, box);
            own.add(node);
            packed.add(node);
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
                if (named.add(batch) && batch.pieces.isEmpty()) {
                    anyPiece.maybeTo(batch);
                }
            }
        }
        Node unbatched = new Node();
        named.forEach(unbatched::maybeTo);
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
        return reach(start, node -> node.before, node -> node.maybeBefore);
    }

    /** What is behind some nodes, they too, by whether it surely is. */
    static Map<Node, Boolean> behind(List<? extends Node> start) {
        return reach(start, node -> node.behind, node -> node.maybeBehind);
    }

    private static Map<Node, Boolean> reach(
            List<? extends Node> start, Function<Node, List<Node>> next, Function<Node, List<Node>> maybeNext) {
        Map<Node, Boolean> reached = new LinkedHashMap<>();
        start.forEach(node -> reached.put(node, true));
        Deque<Node> open = new ArrayDeque<>(reached.keySet());
        while (!open.isEmpty()) {
            add(next.apply(open.remove()), true, reached, open);
        }
        // from all that surely is, on over what may be
        List<Node> sure = List.copyOf(reached.keySet());
        sure.forEach(node -> add(maybeNext.apply(node), false, reached, open));
        while (!open.isEmpty()) {
            Node node = open.remove();
            add(next.apply(node), false, reached, open);
            add(maybeNext.apply(node), false, reached, open);
        }
        return reached;
    }

    private static void add(List<Node> nodes, boolean sure, Map<Node, Boolean> reached, Deque<Node> open) {
        for (Node node : nodes) {
            if (reached.putIfAbsent(node, sure) == null) {
                open.add(node);
            }
        }
    }
}
