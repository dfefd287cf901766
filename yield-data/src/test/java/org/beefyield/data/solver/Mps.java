package org.beefyield.data.solver;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.lp.LinearProgram;

/** Reads what the reference models have of the MPS format: a minimum of rows without ranges, of columns that are 0 or more. */
final class Mps {
    private static final double NONE = Double.POSITIVE_INFINITY;

    private final Map<String, Character> rows = new LinkedHashMap<>();
    private final Map<String, Map<String, Double>> columns = new LinkedHashMap<>();
    private final Map<String, Double> right = new LinkedHashMap<>();

    private Mps() {}

    /** The program whose maximum is the model's minimum with a minus. */
    static LinearProgram maximum(String name) {
        String path = "/reference/lp/" + name + ".mps";
        List<String> lines = new ArrayList<>();
        try (InputStream in = Objects.requireNonNull(Mps.class.getResourceAsStream(path), path);
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
            reader.lines().filter(line -> !line.isBlank()).forEach(lines::add);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Mps mps = new Mps();
        String section = "";
        for (String line : lines) {
            String[] words = line.strip().split(" +");
            if (line.charAt(0) != ' ') {
                section = words[0];
            } else {
                mps.take(section, words);
            }
        }
        return mps.program();
    }

    private void take(String section, String[] words) {
        switch (section) {
            case "ROWS" -> rows.put(words[1], words[0].charAt(0));
            case "COLUMNS" -> pairs(words, columns.computeIfAbsent(words[0], column -> new LinkedHashMap<>()));
            case "RHS" -> pairs(words, right);
            default -> throw new IllegalArgumentException("section " + section + " isn't read");
        }
    }

    private static void pairs(String[] words, Map<String, Double> into) {
        for (int word = 1; word < words.length; word += 2) {
            into.put(words[word], Double.parseDouble(words[word + 1]));
        }
    }

    private LinearProgram program() {
        String objective = rows.entrySet().stream()
                .filter(row -> row.getValue() == 'N')
                .findFirst()
                .orElseThrow()
                .getKey();
        LinearProgram.Builder builder = LinearProgram.builder();
        Map<String, Integer> numbers = new LinkedHashMap<>();
        rows.forEach((row, kind) -> {
            double bound = right.getOrDefault(row, 0.0);
            if (kind != 'N') {
                numbers.put(row, builder.row(row, kind == 'L' ? -NONE : bound, kind == 'G' ? NONE : bound));
            }
        });
        columns.forEach((column, terms) -> {
            int variable = builder.variable(column, 0, NONE, -terms.getOrDefault(objective, 0.0));
            terms.forEach((row, coefficient) -> {
                if (!row.equals(objective)) {
                    builder.add(numbers.get(row), variable, coefficient);
                }
            });
        });
        return builder.build();
    }
}
