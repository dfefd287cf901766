package org.beefyield.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.RecallList;
import org.beefyield.boning.Trace;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A trace from carcasses to boxes: built, every carcass followed to its boxes and every box back. Each run has 200 carcasses as
 * quarters in 10 batches and 4,000 boxes; the time should grow as the boxes do, 16 times from the least to the most.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(
        value = 1,
        jvmArgs = {"-Xms2g", "-Xmx2g"})
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 7, time = 2)
public class TraceBenchmark {
    private static final int BOXES_A_RUN = 4_000;
    private static final int CARCASSES_A_RUN = 200;
    private static final int BATCHES_A_RUN = 10;

    /** Boxes in all. */
    @Param({"20000", "80000", "320000"})
    public int boxes = 20_000;

    private List<BoningRun> runs = List.of();
    private final List<String> carcassIds = new ArrayList<>();
    private final List<String> boxIds = new ArrayList<>();

    /** Benchmarks are made by JMH. */
    public TraceBenchmark() {}

    /** Draws runs, the same from one time to the next. */
    @Setup
    public void draw() {
        SplittableRandom random = new SplittableRandom(23);
        Carcass steer = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);
        List<BoningRun> drawn = new ArrayList<>();
        for (int run = 0; run < boxes / BOXES_A_RUN; run++) {
            String day = Integer.toString(10_000 + run);
            List<Intake> intake = new ArrayList<>();
            for (int i = 0; i < CARCASSES_A_RUN; i++) {
                Carcass carcass = steer.withId(day + "/" + i);
                carcassIds.add(day + "/" + i);
                for (IntakePart part : List.of(
                        IntakePart.FOREQUARTER,
                        IntakePart.FOREQUARTER,
                        IntakePart.HINDQUARTER,
                        IntakePart.HINDQUARTER)) {
                    String batch = day + "-" + random.nextInt(BATCHES_A_RUN);
                    intake.add(Intake.of(carcass, part, 85, Movement.BONED, batch));
                }
            }
            List<Box> packed = new ArrayList<>();
            for (int i = 0; i < BOXES_A_RUN; i++) {
                boxIds.add(day + "." + i);
                packed.add(Box.of(
                        day + "." + i, "product " + i % 20, day + "-" + random.nextInt(BATCHES_A_RUN), 15.5, 0.5));
            }
            drawn.add(new BoningRun("", day, IntakeWeighing.COLD_WEIGHED, intake, packed, List.of()));
        }
        runs = drawn;
    }

    /**
     * Builds the trace and follows all in both directions.
     *
     * @return boxes found from carcasses and carcasses found from boxes
     */
    @Benchmark
    public long bothWays() {
        Trace trace = Trace.of(runs);
        RecallList forth = trace.ofCarcasses(carcassIds);
        RecallList back = trace.ofBoxes(boxIds);
        return (long) forth.boxes().size() + back.carcasses().size();
    }
}
