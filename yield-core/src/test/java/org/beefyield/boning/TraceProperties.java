package org.beefyield.boning;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;

/** Traces of made runs against a plain search, box by box. */
class TraceProperties {
    private static final Carcass CARCASS =
            Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);

    private static List<BoningRun> made(Random random) {
        List<BoningRun> runs = new ArrayList<>();
        List<String> packed = new ArrayList<>();
        for (int day = 1; day <= 3; day++) {
            List<Intake> intake = new ArrayList<>();
            for (int i = 1 + random.nextInt(6); i > 0; i--) {
                String batch = random.nextInt(5) == 0 ? "" : "B" + random.nextInt(6);
                intake.add(Intake.of(
                        CARCASS.withId("T-" + random.nextInt(10)), IntakePart.FOREQUARTER, 80, Movement.BONED, batch));
            }
            List<Box> boxes = new ArrayList<>();
            for (int i = random.nextInt(12); i > 0; i--) {
                String id = day + "-" + i;
                String batch = random.nextInt(6) == 0 ? "" : "B" + random.nextInt(6);
                if (random.nextInt(4) == 0 && !packed.isEmpty()) {
                    Set<String> from = new TreeSet<>();
                    for (int k = random.nextInt(3); k >= 0; k--) {
                        from.add(packed.get(random.nextInt(packed.size())));
                    }
                    boxes.add(new Box(id, "x", batch, 10, 0, "", BoxKind.REWORK, List.copyOf(from)));
                } else {
                    boxes.add(Box.of(id, "x", batch, 10, 0));
                }
                packed.add(id);
            }
            Collections.shuffle(boxes, random);
            runs.add(new BoningRun("", "2026-11-0" + day, IntakeWeighing.HOT, intake, boxes, List.of()));
        }
        return runs;
    }

    /** The carcasses that each box surely holds of, or, if all are asked for, may hold of. */
    private static Map<String, Set<String>> search(List<BoningRun> runs, boolean all) {
        Map<String, Set<String>> found = new HashMap<>();
        List<Box> open = new ArrayList<>();
        runs.forEach(run -> open.addAll(run.boxes()));
        while (!open.isEmpty()) {
            Box box = open.remove(0);
            if (box.kind() == BoxKind.REWORK) {
                if (found.keySet().containsAll(box.from())) {
                    Set<String> ids = new TreeSet<>();
                    box.from().forEach(source -> ids.addAll(found.getOrDefault(source, Set.of())));
                    found.put(box.id(), ids);
                } else {
                    open.add(box);
                }
                continue;
            }
            found.put(box.id(), ofBatch(runs, box, all));
        }
        return found;
    }

    private static Set<String> ofBatch(List<BoningRun> runs, Box box, boolean all) {
        Set<String> ids = new TreeSet<>();
        boolean anything = false;
        for (BoningRun run : runs) {
            for (Intake piece : run.intake()) {
                if (!box.batch().isEmpty() && piece.batch().equals(box.batch())) {
                    ids.add(piece.id());
                    anything = true;
                }
            }
        }
        if (!all) {
            return ids;
        }
        for (BoningRun run : runs) {
            boolean packsIt = box.batch().isEmpty()
                    ? run.boxes().contains(box)
                    : run.boxes().stream()
                            .anyMatch(other -> other.kind() != BoxKind.REWORK
                                    && other.batch().equals(box.batch()));
            for (Intake piece : run.intake()) {
                if (packsIt && (!anything || piece.batch().isEmpty())) {
                    ids.add(piece.id());
                }
            }
        }
        return ids;
    }

    private static Set<String> carcasses(RecallList list, boolean all) {
        return list.pieces().stream()
                .filter(traced -> all || traced.sure())
                .map(traced -> traced.piece().id())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    @Property(tries = 500)
    void bothDirectionsFindWhatAPlainSearchFinds(@ForAll long seed) {
        List<BoningRun> runs = made(new Random(seed));
        Trace trace = Trace.of(runs);

        for (boolean all : new boolean[] {false, true}) {
            Map<String, Set<String>> expected = search(runs, all);
            expected.forEach((box, carcasses) -> assertThat(carcasses(trace.ofBoxes(List.of(box)), all))
                    .as("box %s", box)
                    .isEqualTo(carcasses));
            Set<String> ids = runs.stream()
                    .flatMap(run -> run.boned().stream())
                    .map(Intake::id)
                    .collect(Collectors.toSet());
            for (String id : ids) {
                Set<String> boxes = trace.ofCarcasses(List.of(id)).boxes().stream()
                        .filter(traced -> all || traced.sure())
                        .map(traced -> traced.box().id())
                        .collect(Collectors.toSet());
                assertThat(boxes)
                        .as("carcass %s", id)
                        .isEqualTo(expected.entrySet().stream()
                                .filter(entry -> entry.getValue().contains(id))
                                .map(Map.Entry::getKey)
                                .collect(Collectors.toSet()));
            }
        }
    }

    @Property(tries = 200)
    void theOrderOfRunsAndRowsChangesNothing(@ForAll long seed) {
        Random random = new Random(seed);
        List<BoningRun> runs = made(random);
        List<BoningRun> mixed = new ArrayList<>();
        for (BoningRun run : runs) {
            List<Intake> intake = new ArrayList<>(run.intake());
            List<Box> boxes = new ArrayList<>(run.boxes());
            Collections.shuffle(intake, random);
            Collections.shuffle(boxes, random);
            mixed.add(new BoningRun(run.hall(), run.day(), run.weighing(), intake, boxes, run.rest()));
        }
        Collections.shuffle(mixed, random);
        Trace one = Trace.of(runs);
        Trace other = Trace.of(mixed);

        assertThat(new HashSet<>(other.batches())).isEqualTo(new HashSet<>(one.batches()));
        assertThat(other.findings().stream().map(TraceFinding::kind).sorted())
                .containsExactlyElementsOf(
                        one.findings().stream().map(TraceFinding::kind).sorted().toList());
        for (BoningRun run : runs) {
            for (Box box : run.boxes()) {
                assertThat(new HashSet<>(other.ofBoxes(List.of(box.id())).pieces()))
                        .isEqualTo(new HashSet<>(one.ofBoxes(List.of(box.id())).pieces()));
            }
        }
    }

    /** 2,000 carcasses as 8,000 quarters in 100 batches, and 40,000 boxes. */
    @Example
    void aGraphOfFortyThousandBoxesLosesAndInventsNothing() {
        Random random = new Random(23);
        Map<String, Set<String>> batchesOf = new HashMap<>();
        Map<String, Set<String>> boxesIn = new HashMap<>();
        List<BoningRun> runs = new ArrayList<>();
        for (int day = 10; day < 20; day++) {
            List<Intake> intake = new ArrayList<>();
            for (int i = 0; i < 200; i++) {
                Carcass carcass = CARCASS.withId(day + "/" + i);
                for (int quarter = 0; quarter < 4; quarter++) {
                    String batch = day + "-" + random.nextInt(10);
                    IntakePart part = quarter < 2 ? IntakePart.FOREQUARTER : IntakePart.HINDQUARTER;
                    intake.add(Intake.of(carcass, part, 85, Movement.BONED, batch));
                    batchesOf
                            .computeIfAbsent(day + "/" + i, any -> new HashSet<>())
                            .add(batch);
                }
            }
            List<Box> boxes = new ArrayList<>();
            for (int i = 0; i < 4000; i++) {
                String batch = day + "-" + random.nextInt(10);
                boxes.add(Box.of(day + "." + i, "p" + i % 20, batch, 10.5, 0.5));
                boxesIn.computeIfAbsent(batch, any -> new HashSet<>()).add(day + "." + i);
            }
            runs.add(new BoningRun("Mereside", "2026-11-" + day, IntakeWeighing.HOT, intake, boxes, List.of()));
        }
        Trace trace = Trace.of(runs);

        assertThat(trace).hasToString("10 runs: 8000 pieces of 2000 carcasses, 100 batches, 40000 boxes, 0 findings");
        assertThat(trace.batches().stream().mapToLong(BatchMass::allBoxedG).sum())
                .isEqualTo(40_000L * 10_000);
        assertThat(trace.batches().stream().mapToLong(BatchMass::bonedG).sum()).isEqualTo(8_000L * 85_000);
        for (int i = 0; i < 200; i++) {
            String id = (10 + i % 10) + "/" + i;
            RecallList list = trace.ofCarcasses(List.of(id));
            Set<String> expected = new HashSet<>();
            batchesOf
                    .getOrDefault(id, Set.of())
                    .forEach(batch -> expected.addAll(boxesIn.getOrDefault(batch, Set.of())));
            assertThat(list.boxes().stream().map(traced -> traced.box().id()))
                    .hasSameSizeAs(expected)
                    .containsExactlyInAnyOrderElementsOf(expected);
            assertThat(list.boxes()).allMatch(TracedBox::sure);
            String box = (10 + i % 10) + "." + random.nextInt(4000);
            assertThat(trace.ofBoxes(List.of(box)).carcasses().contains(id)).isEqualTo(expected.contains(box));
        }
        List<String> all = List.copyOf(batchesOf.keySet());
        assertThat(trace.ofCarcasses(all).boxes()).hasSize(40_000);
    }
}
