package org.beefyield.benchmarks.coverage;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * Counts how often the library's intervals and promises hold what {@link World} draws, in every situation and by both tables,
 * and writes it down: {@code benchmarks/coverage}. Exit code 1 if anything is not as demanded.
 */
public final class CoverageStudy {
    /** Of the committed results. */
    static final long SEED = 20_261_128;

    /** Of each situation in the committed results, in all of its sets together. */
    static final int DRAWS = 20_000;

    /** Draws that tell the SD of a set. */
    private static final int ENOUGH = 100;

    private CoverageStudy() {}

    /**
     * Runs all of it.
     *
     * @param args the file of results
     * @throws IOException if it can't be written
     */
    public static void main(String[] args) throws IOException {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        List<Result> results = new ArrayList<>();
        for (StudyTable table : StudyTable.all()) {
            for (Situation situation : table.situations()) {
                for (Result result : run(table, situation, situation.sets(), DRAWS / situation.sets(), SEED)) {
                    results.add(result);
                    out.println(result);
                }
            }
        }
        Files.writeString(Path.of(args[0]), Result.csv(results));
        List<Result> off =
                results.stream().filter(result -> !result.isAsDemanded()).toList();
        off.forEach(result -> out.println("not as demanded: " + result));
        out.println(results.size() + " results, " + off.size() + " not as demanded");
        System.exit(off.isEmpty() ? 0 : 1);
    }

    /** Counts of one statement in one set. */
    private static final class Count {
        private final Statement statement;
        private int held;
        private final double[] sums;
        private final double[] squares;

        Count(Statement statement) {
            this.statement = statement;
            this.sums = new double[1 + statement.apart().size()];
            this.squares = new double[sums.length];
        }

        void add(Outcome[][] outcomes) {
            double outcome = statement.outcome().applyAsDouble(outcomes);
            held += outcome >= statement.low() && outcome <= statement.high() ? 1 : 0;
            add(0, outcome);
            for (int i = 1; i < sums.length; i++) {
                add(i, statement.apart().get(i - 1).applyAsDouble(outcomes));
            }
        }

        private void add(int i, double value) {
            sums[i] += value;
            squares[i] += value * value;
        }

        private double variance(int i, int draws) {
            double mean = sums[i] / draws;
            return Math.max(0, squares[i] / draws - mean * mean) * draws / (draws - 1);
        }

        double sdRatio(int draws) {
            return Math.sqrt(variance(0, draws)) / statement.sd();
        }
    }

    /**
     * By how many SDs what should be far from 0 is, at the least: of all that should and of all sets of carcasses, or of all sets
     * together where each is drawn but a few times.
     */
    private static double apart(List<Count> sets, int draws) {
        double least = Double.POSITIVE_INFINITY;
        for (int i = 1; i < sets.get(0).sums.length; i++) {
            int what = i;
            // what a manner of cutting doesn't yield is 0 without error
            List<Count> yielded =
                    sets.stream().filter(set -> set.squares[what] > 0).toList();
            if (draws >= ENOUGH) {
                for (Count set : yielded) {
                    least = Math.min(least, Math.abs(set.sums[i] / draws) / Math.sqrt(set.variance(i, draws)));
                }
            } else if (!yielded.isEmpty()) {
                double mean = yielded.stream()
                        .mapToDouble(set -> set.sums[what] / draws)
                        .average()
                        .orElseThrow();
                double variance = yielded.stream()
                        .mapToDouble(set -> set.variance(what, draws))
                        .average()
                        .orElseThrow();
                least = Math.min(least, Math.abs(mean) / Math.sqrt(variance));
            }
        }
        return least;
    }

    /**
     * Counts in one situation.
     *
     * @param sets sets of carcasses
     * @param draws draws of the world for each set
     * @return a result for each figure
     */
    static List<Result> run(StudyTable table, Situation situation, int sets, int draws, long seed) {
        long ofSituation =
                seed + 31L * situation.name().hashCode() + table.name().hashCode();
        World world = new World(
                table.table().definition(), table.scale(), situation.nature(), table.ways(situation.cuttings()));
        List<List<Count>> counts = IntStream.range(0, sets)
                .parallel()
                .mapToObj(set -> {
                    SplittableRandom random = new SplittableRandom(ofSituation + 1_000_003L * set);
                    Situation.Asked asked = situation.asker().ask(table, random);
                    List<Count> ofSet =
                            asked.statements().stream().map(Count::new).toList();
                    for (int draw = 0; draw < draws; draw++) {
                        Outcome[][] outcomes = world.draw(asked.herds(), random);
                        ofSet.forEach(count -> count.add(outcomes));
                    }
                    return ofSet;
                })
                .toList();
        Map<String, List<Count>> byFigure = new LinkedHashMap<>();
        counts.forEach(ofSet ->
                ofSet.forEach(count -> byFigure.computeIfAbsent(count.statement.figure(), any -> new ArrayList<>())
                        .add(count)));
        List<Result> results = new ArrayList<>();
        byFigure.forEach((figure, ofFigure) -> results.add(new Result(
                table.table().identity(),
                situation.name(),
                figure,
                ofFigure.size() * draws,
                seed,
                ofFigure.stream().mapToInt(count -> count.held).sum() / (double) (ofFigure.size() * draws),
                situation.nominal(),
                situation.demand(),
                apart(ofFigure, draws),
                ofFigure.stream()
                        .mapToDouble(count -> count.sdRatio(draws))
                        .average()
                        .orElseThrow())));
        return results;
    }
}
