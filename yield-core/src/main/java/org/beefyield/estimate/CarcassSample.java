package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.random.RandomGenerator;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldErrors;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.ShownInBlocks;

/**
 * Carcasses drawn from an estimate's uncertainty.
 *
 * @param carcasses the carcasses, each of which adds up at every level
 * @param rejected how often a breakdown was drawn again because one of its shares was below 0
 * @param notes what that does to the mean, for the cuts where it matters; empty if nothing
 */
public record CarcassSample(List<DrawnCarcass> carcasses, long rejected, List<String> notes) implements ShownInBlocks {
    /** A mean that moved by less of its SD is not worth a word. */
    private static final double WORTH_A_WORD = 0.02;

    /** Standard errors beyond which a mean of draws has moved for more than chance. */
    private static final double BEYOND_CHANCE = 4;

    /** Copies the lists. */
    public CarcassSample {
        Checks.noNullIn(carcasses, "carcasses");
        Checks.noNullIn(notes, "notes");
        carcasses = List.copyOf(carcasses);
        notes = List.copyOf(notes);
    }

    /**
     * A figure of every drawn carcass.
     *
     * @param figure figure
     * @return kg, in the order of the draws
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public double[] kg(Figure figure) {
        Objects.requireNonNull(figure, "figure");
        return carcasses.stream().mapToDouble(carcass -> carcass.kg(figure)).toArray();
    }

    /**
     * The draws by cut at the last level, for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return CarcassSampleText.blocks(this);
    }

    /**
     * One line.
     *
     * @return how many were drawn, and how often a breakdown was drawn again
     */
    @Override
    public String toString() {
        return CarcassSampleText.line(this);
    }

    /** Draws from the estimate of a carcass. */
    static CarcassSample of(Outturn estimate, Carcass carcass, RandomGenerator random, int size) {
        if (size < 1) {
            throw new IllegalArgumentException("a sample of " + size + " carcasses is none; draw 1 or more");
        }
        Model model = estimate.model();
        YieldErrors errors = model.errors(carcass.category());
        Set<UncertaintyPart> counted = model.counted();
        Set<SharedBy> shared = EnumSet.allOf(SharedBy.class);
        shared.removeIf(by -> !counted.contains(UncertaintyPart.of(by)));
        YieldErrors.Drawn parts = new YieldErrors.Drawn(
                counted.contains(UncertaintyPart.BETWEEN_CARCASSES),
                shared,
                counted.contains(UncertaintyPart.COEFFICIENTS));
        double repeatability = counted.contains(UncertaintyPart.SCALE_REPEATABILITY)
                ? model.scaleError().repeatabilityKg()
                : 0;
        double bias = counted.contains(UncertaintyPart.SCALE_BIAS)
                ? model.scaleError().biasKg()
                : 0;
        // no grade is wider than that
        double fit = counted.contains(UncertaintyPart.GRADE_RESOLUTION)
                ? model.table().definition().widthFit()
                : Double.POSITIVE_INFINITY;
        var allowed = model.table().definition().allowed();
        List<DrawnCarcass> drawn = new ArrayList<>();
        long rejected = 0;
        for (int i = 0; i < size; i++) {
            double c = position(
                    random,
                    carcass.conformation().position(),
                    carcass.conformation().width(),
                    fit);
            double f = position(
                    random, carcass.fatClass().position(), carcass.fatClass().width(), fit);
            c = Math.min(
                    allowed.conformation().high(),
                    Math.max(allowed.conformation().low(), c));
            f = Math.min(allowed.fat().high(), Math.max(allowed.fat().low(), f));
            double weight =
                    carcass.coldWeightKg() + repeatability * random.nextGaussian() + bias * random.nextGaussian();
            YieldErrors.Draw draw = errors.draw(random, parts, c, f, weight);
            rejected += draw.rejected();
            drawn.add(new DrawnCarcass(
                    model,
                    weight,
                    draw.shares().stream().mapToDouble(share -> share * weight).toArray()));
        }
        return new CarcassSample(drawn, rejected, rejected == 0 ? List.of() : notes(estimate, drawn));
    }

    /** Somewhere in the part of the scale that the grade covers beyond the data's own resolution. */
    private static double position(RandomGenerator random, double position, double width, double fit) {
        double beyond = width * width - fit * fit;
        return beyond > 0 ? position + Math.sqrt(beyond) * (random.nextDouble() - 0.5) : position;
    }

    private static List<String> notes(Outturn estimate, List<DrawnCarcass> drawn) {
        List<String> notes = new ArrayList<>();
        TableLayout layout = estimate.model().layout();
        String level = layout.levels().get(layout.levels().size() - 1);
        for (Cut cut : layout.cutsAt(layout.levels().size() - 1)) {
            Figure figure = Figure.cut(level, cut.code());
            double mean =
                    drawn.stream().mapToDouble(one -> one.kg(figure)).average().orElse(0);
            double moved = mean - estimate.kg(figure);
            double sd = estimate.sd(figure);
            if (Math.abs(moved) > WORTH_A_WORD * sd && Math.abs(moved) > BEYOND_CHANCE * sd / Math.sqrt(drawn.size())) {
                notes.add(CarcassSampleText.moved(cut, estimate.kg(figure), mean));
            }
        }
        return notes;
    }
}
