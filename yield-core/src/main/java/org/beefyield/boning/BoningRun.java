package org.beefyield.boning;

import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * What one hall boned on one day: what went in and what came off the line. Immutable.
 *
 * @param hall name of the hall, empty for the one that the caller doesn't name
 * @param day day of boning as a text that sorts by time, such as {@code 2026-11-03}
 * @param weighing what the intake weights are
 * @param intake carcasses, sides and quarters that came in, were taken from stock or left there
 * @param boxes boxes
 * @param rest what was weighed beside the boxes
 */
public record BoningRun(
        String hall, String day, IntakeWeighing weighing, List<Intake> intake, List<Box> boxes, List<Rest> rest) {
    /**
     * Copies the lists.
     *
     * @throws IllegalArgumentException if the day is blank, or two boxes have one id
     */
    public BoningRun {
        Objects.requireNonNull(hall, "hall");
        Objects.requireNonNull(day, "day");
        Objects.requireNonNull(weighing, "weighing");
        Checks.noNullIn(intake, "intake");
        Checks.noNullIn(boxes, "boxes");
        Checks.noNullIn(rest, "rest");
        if (day.isBlank()) {
            throw new IllegalArgumentException("the day of the run is blank; it is a day such as 2026-11-03");
        }
        intake = List.copyOf(intake);
        boxes = List.copyOf(boxes);
        rest = List.copyOf(rest);
        Set<String> ids = new HashSet<>();
        for (Box box : boxes) {
            if (!ids.add(box.id())) {
                throw new IllegalArgumentException(
                        name(hall, day) + ": two boxes are called " + box.id() + "; each has an id of its own");
            }
        }
    }

    private static String name(String hall, String day) {
        return hall.isEmpty() ? day : hall + " " + day;
    }

    /**
     * What the run goes by.
     *
     * @return hall and day, such as {@code Mereside 2026-11-03}
     */
    public String name() {
        return name(hall, day);
    }

    /**
     * The pieces that this run boned, those from stock too.
     *
     * @return an unmodifiable list in the order given
     */
    public List<Intake> boned() {
        return intake.stream().filter(piece -> piece.movement().wasBoned()).toList();
    }

    /**
     * What went in and what came of it.
     *
     * @return to the gram
     */
    public RunBalance balance() {
        long cameIn = 0;
        long stock = 0;
        for (Intake piece : intake) {
            long grams = RunBalance.grams(piece.weightKg());
            cameIn += piece.movement().cameIn() ? grams : 0;
            stock += switch (piece.movement()) {
                case BONED -> 0;
                case LEFT_IN_STOCK -> grams;
                case TAKEN_FROM_STOCK -> -grams;
            };
        }
        long boxed = 0;
        for (Box box : boxes) {
            boxed += box.kind().isCounted() ? RunBalance.grams(box.netKg()) : 0;
        }
        long beside = 0;
        for (Rest part : rest) {
            beside += RunBalance.grams(part.kg());
        }
        return new RunBalance(name(), cameIn, boxed, beside, stock);
    }

    /**
     * One line.
     *
     * @return such as {@code Mereside 2026-11-03: 240 pieces of intake, 3180 boxes}
     */
    @Override
    public String toString() {
        return name() + ": " + Numbers.counted(intake.size(), "piece", "pieces") + " of intake, "
                + Numbers.counted(boxes.size(), "box", "boxes");
    }
}
