package org.beefyield.boning;

import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.text.Numbers;

/**
 * A carcass, side or quarter that came to a boning run, or lay in its stock.
 *
 * @param carcass the graded carcass that it is or is part of, with the cold weight of the whole; its id names it
 * @param part what of the carcass it is
 * @param weightKg the hall's own weight of this piece, kg; what weight that is says {@link BoningRun#weighing()}
 * @param movement whether it was boned, taken from stock or left there
 * @param batch batch that it was boned in, empty if not known, or if it was left in stock
 * @param piece what tells it from the carcass's other pieces of this part, such as {@code left}; empty if nothing does
 * @param origin where the animal comes from
 */
public record Intake(
        Carcass carcass,
        IntakePart part,
        double weightKg,
        Movement movement,
        String batch,
        String piece,
        Origin origin) {
    /**
     * Checks the piece.
     *
     * @throws IllegalArgumentException if the carcass has no id, the weight isn't above 0 or beyond any carcass, or what was
     *     left in stock is in a batch
     */
    public Intake {
        Objects.requireNonNull(carcass, "carcass");
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(movement, "movement");
        Objects.requireNonNull(batch, "batch");
        Objects.requireNonNull(piece, "piece");
        Objects.requireNonNull(origin, "origin");
        String id = carcass.id().orElse("");
        if (id.isBlank()) {
            throw new IllegalArgumentException("carcass " + carcass + " has no id; what comes to a run is named by it");
        }
        CarcassWeights.check("carcass " + id + ": intake weight", weightKg);
        if (!movement.wasBoned() && !batch.isEmpty()) {
            throw new IllegalArgumentException("carcass " + id + ": the " + part.code()
                    + " was left in stock, but is in batch " + batch + "; only what is boned is in one");
        }
    }

    /**
     * A piece of which no more is known.
     *
     * @param carcass the graded carcass that it is or is part of; its id names it
     * @param part what of the carcass it is
     * @param weightKg the hall's own weight of this piece, kg
     * @param movement whether it was boned, taken from stock or left there
     * @param batch batch that it was boned in, or empty
     * @return the piece
     * @throws IllegalArgumentException as the constructor
     */
    public static Intake of(Carcass carcass, IntakePart part, double weightKg, Movement movement, String batch) {
        return new Intake(carcass, part, weightKg, movement, batch, "", Origin.NOT_KNOWN);
    }

    /**
     * The same piece, told from the others of its carcass.
     *
     * @param newPiece such as {@code left}
     * @return a piece
     */
    public Intake withPiece(String newPiece) {
        return new Intake(
                carcass, part, weightKg, movement, batch, Objects.requireNonNull(newPiece, "newPiece"), origin);
    }

    /**
     * The same piece of an animal from somewhere.
     *
     * @param newOrigin where the animal comes from
     * @return a piece
     */
    public Intake withOrigin(Origin newOrigin) {
        return new Intake(
                carcass, part, weightKg, movement, batch, piece, Objects.requireNonNull(newOrigin, "newOrigin"));
    }

    /**
     * Id of the carcass.
     *
     * @return the id
     */
    public String id() {
        return carcass.id().orElseThrow();
    }

    /**
     * The piece in words.
     *
     * @return such as {@code T-17 forequarter left, 88.4 kg, boned}
     */
    @Override
    public String toString() {
        return id() + " " + part.code() + (piece.isEmpty() ? "" : " " + piece) + ", " + Numbers.exact(weightKg)
                + " kg, " + movement.code().replace('-', ' ') + (batch.isEmpty() ? "" : ", batch " + batch);
    }
}
