package org.beefyield.lp;

import java.util.Random;

/** Programs for tests. */
final class Programs {
    static final double NONE = Double.POSITIVE_INFINITY;

    private Programs() {}

    /** The product mix of Hillier and Lieberman, Introduction to Operations Research: 36 at (2, 6), prices 0, 1.5 and 1. */
    static LinearProgram productMix() {
        LinearProgram.Builder builder = LinearProgram.builder();
        int doors = builder.variable("doors", 0, NONE, 3);
        int windows = builder.variable("windows", 0, NONE, 5);
        builder.add(builder.row("plant 1", -NONE, 4), doors, 1);
        builder.add(builder.row("plant 2", -NONE, 12), windows, 2);
        int third = builder.row("plant 3", -NONE, 18);
        return builder.add(third, doors, 3).add(third, windows, 2).build();
    }

    /** Small whole numbers; where {@code bounded}, no variable is without bounds. */
    static LinearProgram random(long seed, boolean bounded) {
        Random random = new Random(seed);
        LinearProgram.Builder builder = LinearProgram.builder();
        int variables = 1 + random.nextInt(3);
        for (int variable = 0; variable < variables; variable++) {
            double low = random.nextInt(6) - 3;
            double high = low + random.nextInt(7);
            builder.variable(
                    "x" + variable,
                    bounded || random.nextInt(3) > 0 ? low : -NONE,
                    bounded || random.nextInt(3) > 0 ? high : NONE,
                    random.nextInt(9) - 4);
        }
        int rows = random.nextInt(5);
        for (int row = 0; row < rows; row++) {
            double low = random.nextInt(11) - 5;
            double high = low + random.nextInt(8);
            int kind = random.nextInt(4);
            int number = builder.row("r" + row, kind == 0 ? -NONE : low, kind == 1 ? NONE : kind == 2 ? low : high);
            for (int variable = 0; variable < variables; variable++) {
                builder.add(number, variable, random.nextInt(9) - 4);
            }
        }
        return builder.build();
    }
}
