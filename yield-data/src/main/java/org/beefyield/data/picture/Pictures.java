package org.beefyield.data.picture;

import java.util.OptionalDouble;
import org.beefyield.calibrate.BreakdownFit;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.pay.GradeDifferentials;
import org.beefyield.table.TableComparison;

/**
 * Pictures of results. Each says in its heading what it is of, has its units on the axes, tells
 * by shape, stripes or lightness whatever it tells by colour, and says its figures in words too.
 */
public final class Pictures {
    private Pictures() {}

    /**
     * Saleable meat against conformation, with a line for each fat class. Grades that the estimator refuses are left out.
     *
     * @param estimator estimator
     * @param base a carcass that it estimates; its category and cold weight are those of every grade
     * @return a line chart, in per cent of the cold weight
     * @throws org.beefyield.estimate.RefusedCarcassException if the estimator refuses the base
     */
    public static Picture yieldByGrade(YieldEstimator estimator, Carcass base) {
        return yieldByGrade(estimator, base, Figure.saleable(), "Saleable meat");
    }

    /**
     * Any figure against conformation, with a line for each fat class. Grades that the estimator refuses are left out.
     *
     * @param estimator estimator
     * @param base a carcass that it estimates; its category and cold weight are those of every grade
     * @param figure kg of each carcass
     * @param name what the figure is, such as {@code Striploin}
     * @return a line chart, in per cent of the cold weight
     * @throws org.beefyield.estimate.RefusedCarcassException if the estimator refuses the base
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public static Picture yieldByGrade(YieldEstimator estimator, Carcass base, Figure figure, String name) {
        return YieldByGrade.draw(estimator, base, figure, name);
    }

    /**
     * What a carcass or a lot becomes, level by level. In each level a bar begins where the one above it ends, so that the
     * level fills the cold weight; printed kilograms add up to it.
     *
     * @param outturn estimate of a carcass or a lot
     * @return bars, in kg, striped for what is no meat
     */
    public static Picture breakdown(Outturn outturn) {
        return CarcassSteps.draw(outturn);
    }

    /**
     * The cuts of the last level with their 90 % intervals, heaviest first.
     *
     * @param outturn estimate of a carcass or a lot
     * @return dots on lines, in kg
     * @throws IllegalArgumentException if the table states no SDs
     */
    public static Picture intervals(Outturn outturn) {
        return intervals(
                outturn, outturn.table().levels().get(outturn.table().levels().size() - 1));
    }

    /**
     * The cuts of a level with their 90 % intervals, heaviest first.
     *
     * @param outturn estimate of a carcass or a lot
     * @param level name of the level
     * @return dots on lines, in kg
     * @throws IllegalArgumentException if the table has no such level or states no SDs
     */
    public static Picture intervals(Outturn outturn, String level) {
        return IntervalsByCut.draw(outturn, level);
    }

    /**
     * How much more a kg of each grade is worth than of the base.
     *
     * @param differentials differentials; whole classes suit a phone, thirds want a wide page
     * @return a heat map with its figures, in the price list's currency per kg of cold weight
     */
    public static Picture valueByGrade(GradeDifferentials differentials) {
        return ValueByGrade.draw(
                differentials, "Value by grade", "Worth more than the base, below 0 less", differentials.perKg());
    }

    /**
     * Where a plant's grid pays too little or too much beside what grades are worth.
     *
     * @param differentials differentials {@linkplain GradeDifferentials#beside beside} a grid
     * @return a heat map with its figures, in the price list's currency per kg of cold weight; grades that the grid
     *     doesn't pay are blank
     * @throws IllegalArgumentException if the differentials are beside no grid
     */
    public static Picture paymentGap(GradeDifferentials differentials) {
        return ValueByGrade.draw(
                differentials,
                "Value less payment by grade",
                "Paid too little beside the base, below 0 too much",
                differentials
                        .gapPerKg()
                        .orElseThrow(() -> new IllegalArgumentException(
                                "the differentials are beside no payment grid; add one with beside(grid)")));
    }

    /**
     * The largest change of each cut between two tables, level by level.
     *
     * @param comparison comparison
     * @return bars to either side, in g per kg of carcass
     */
    public static Picture comparison(TableComparison comparison) {
        return TableChanges.draw(comparison, OptionalDouble.empty());
    }

    /**
     * The same with the budget of a regression gate.
     *
     * @param comparison comparison
     * @param budgetGPerKg largest change allowed, g per kg of carcass, 0 or more
     * @return bars to either side, in g per kg of carcass, and the budget as two lines
     * @throws IllegalArgumentException if the budget is negative or not a number
     */
    public static Picture comparison(TableComparison comparison, double budgetGPerKg) {
        comparison.beyond(budgetGPerKg);
        return TableChanges.draw(comparison, OptionalDouble.of(budgetGPerKg));
    }

    /**
     * Residuals of a calibration: what each carcass weighed above or below the fit, against what the fit says.
     *
     * @param fit fit of a breakdown
     * @param cut code of a child
     * @return a mark for each carcass, in g per kg of the parent, and lines at twice the root mean square residual
     * @throws IllegalArgumentException if the breakdown has no such cut
     */
    public static Picture residuals(BreakdownFit fit, String cut) {
        return Residuals.draw(fit, cut);
    }
}
