package org.beefyield.data.picture;

import java.util.List;
import java.util.OptionalDouble;
import org.beefyield.calibrate.BreakdownFit;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.FeedbackSheet;
import org.beefyield.finish.Forecast;
import org.beefyield.finish.PenForecast;
import org.beefyield.frame.Frame;
import org.beefyield.market.SizeWindow;
import org.beefyield.pack.PieceWeight;
import org.beefyield.pay.GradeDifferentials;
import org.beefyield.plan.Plan;
import org.beefyield.price.Attribution;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.table.TableComparison;

/**
 * Pictures of results. Each says in its heading what it is of, has its units on the axes, tells
 * by shape, stripes or lightness whatever it tells by colour, and says its figures in words too.
 */
public final class Pictures {
    /** Runs of a season that a picture shows. */
    public static final int SEASON_RUNS = 30;

    private Pictures() {}

    /**
     * Saleable meat against conformation, with a line for each fat class. Grades that the estimator refuses are left out.
     *
     * @param estimator estimator
     * @param base a carcass that it estimates; its category and cold weight are those of every grade
     * @return a line chart, in per cent of the cold weight; thin and hollow where no data stand behind the table
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
     * @return a line chart, in per cent of the cold weight; thin and hollow where no data stand behind the table
     * @throws org.beefyield.estimate.RefusedCarcassException if the estimator refuses the base
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public static Picture yieldByGrade(YieldEstimator estimator, Carcass base, Figure figure, String name) {
        return YieldByGrade.draw(estimator, base, figure, new YieldByGrade.Scale(name, "% of cold weight", true));
    }

    /**
     * Any figure against conformation as it is, such as a carcass's value in money, with a line for each fat class. Grades that
     * the estimator refuses are left out.
     *
     * @param estimator estimator
     * @param base a carcass that it estimates; its category and cold weight are those of every grade
     * @param figure the figure of each carcass, such as {@link org.beefyield.price.Value#figure()}
     * @param name what the figure is, such as {@code Value}
     * @param unit the figure's unit, such as {@code EUR a head}
     * @return a line chart, in that unit
     * @throws org.beefyield.estimate.RefusedCarcassException if the estimator refuses the base
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public static Picture yieldByGrade(
            YieldEstimator estimator, Carcass base, Figure figure, String name, String unit) {
        return YieldByGrade.draw(estimator, base, figure, new YieldByGrade.Scale(name, unit, false));
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
     * @return bars in per cent of what is expected of their cut, so that those of small cuts and large lots show, with kg
     *     beside them
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
     * @return bars in per cent of what is expected of their cut, so that those of small cuts and large lots show, with kg
     *     beside them
     * @throws IllegalArgumentException if the table has no such level or states no SDs
     */
    public static Picture intervals(Outturn outturn, String level) {
        return IntervalsByCut.draw(outturn, level);
    }

    /**
     * How much more a kg of each grade is worth than of the base.
     *
     * @param differentials differentials; whole classes suit a phone, thirds want a wide page
     * @return cells with their figures, in the price list's currency per kg of cold weight; a heavy line where they change
     *     sign, dashed where no data stand behind the table
     */
    public static Picture valueByGrade(GradeDifferentials differentials) {
        return ValueByGrade.draw(
                differentials,
                "Value by grade against the base",
                "worth more than the base",
                "worth less",
                differentials.perKg());
    }

    /**
     * Where a plant's grid pays too little or too much beside what grades are worth.
     *
     * @param differentials differentials {@linkplain GradeDifferentials#beside beside} a grid
     * @return the same in cells; grades that the grid doesn't pay have no figure
     * @throws IllegalArgumentException if the differentials are beside no grid
     */
    public static Picture paymentGap(GradeDifferentials differentials) {
        return ValueByGrade.draw(
                differentials,
                "Value less payment by grade",
                "paid too little beside the base",
                "paid too much",
                differentials
                        .gapPerKg()
                        .orElseThrow(() -> new IllegalArgumentException(
                                "the differentials are beside no payment grid; add one with beside(grid)")));
    }

    /**
     * The largest change of each cut between two tables anywhere, level by level. What it comes to for given carcasses is
     * {@link #comparison(LotEstimate, LotEstimate)}.
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
     * What a lot yields more or less by another table, another cutting or another mince, cut by cut.
     *
     * @param before estimate of a lot
     * @param after estimate of the same carcasses, with a level of the same name
     * @return bars to either side, in g per kg of cold weight, with kg of the lot beside them
     * @throws IllegalArgumentException if the lots differ in carcasses or cold weight, or no level has the same name
     */
    public static Picture comparison(LotEstimate before, LotEstimate after) {
        return LotChanges.draw(before, after);
    }

    /**
     * Why one carcass or lot is worth more than another: from the value of the second to that of the first, factor by factor.
     *
     * @param attribution attribution
     * @return a waterfall of bars, each beginning where the one above ends, in the currency per head
     */
    public static Picture attribution(Attribution attribution) {
        return Waterfall.draw(attribution);
    }

    /**
     * Where the money of a run went: from what was expected, or the baseline, to what was weighed, cause by cause as printed.
     * Causes that come to nothing are left out.
     *
     * @param reconciliation a run with prices
     * @return a waterfall of bars, each beginning where the one above ends, in the currency of the prices
     * @throws IllegalArgumentException if nothing is priced
     */
    public static Picture causes(Reconciliation reconciliation) {
        return Waterfall.draw(reconciliation);
    }

    /**
     * A column of numbers against another, with a straight line by least squares and its 90 % confidence band, that is of the
     * line and not of single rows. Rows that lack one of the two figures are left out and counted. Of more than 1,000 rows the
     * picture shows squares whose areas are as the numbers of rows there.
     *
     * @param title what it shows, such as {@code Striploin by cold weight}
     * @param frame columns
     * @param x name of the column across
     * @param y name of the column upward
     * @return dots, or squares, with the line if there are three rows or more with different figures across
     * @throws IllegalArgumentException if the frame has no such column, one holds text, or no row has both figures
     */
    public static Picture scatter(String title, Frame frame, String x, String y) {
        return Scatter.draw(title, frame, x, y);
    }

    /**
     * How many pieces of each weight are expected, and how many fit a window. What an estimate knows of a piece is a
     * distribution: each piece counts in every bar with its chance of that weight, so bars hold parts of pieces.
     *
     * @param window window
     * @param pieces pieces of its cut, for each carcass; see {@link PieceWeight#of}
     * @return a histogram, in pieces for a range of kg, striped outside the window
     * @throws IllegalArgumentException if there are no pieces
     */
    public static Picture pieceWeights(SizeWindow window, List<PieceWeight> pieces) {
        return PieceWeights.draw(window, pieces);
    }

    /**
     * How many carcasses of a lot are in each conformation class, from S to P, and fat class, of all categories together.
     *
     * @param lot lot
     * @return cells with their counts and the sums of rows and columns
     */
    public static Picture gradeCounts(LotEstimate lot) {
        return GradeCounts.draw(lot);
    }

    /**
     * A supplier's animals, and their average, beside the hall's average of each category.
     *
     * @param sheet feedback sheet
     * @return marks to either side of the hall's average, in per cent of the cold weight
     * @throws IllegalArgumentException if the sheet has no hall's average
     */
    public static Picture besideHall(FeedbackSheet sheet) {
        return BesideHall.draw(sheet);
    }

    /**
     * A figure by date with control limits and alarms. The line breaks off where a point has no value.
     *
     * @param title what it shows
     * @param figure what the figure is and its unit, such as {@code Striploin, kg a head}
     * @param points points by date, one or more
     * @return a line, with a mark for each of up to 200 points, and for every alarm
     * @throws IllegalArgumentException if there are no points, none has a value, or a date stands before the one before it
     */
    public static Picture series(String title, String figure, List<ControlPoint> points) {
        return Series.draw(title, figure, points);
    }

    /**
     * What runs of a season weighed of a group of products, in per cent of what their intake should have returned: the last
     * {@value #SEASON_RUNS} judged runs, each with the 90 % interval in which its figure lies if nothing is wrong, by
     * {@link Season#bounds(String, int)}. Runs that don't balance are left out.
     *
     * @param season season, the days of whose runs are dates such as {@code 2026-11-03}
     * @param group name of a watched group
     * @return a line, with a mark for each run, and for every run that is in an alarm of the group
     * @throws IllegalArgumentException if no such group is watched, nothing of it was expected in any of the runs, or a day is no
     *     date
     */
    public static Picture series(Season season, String group) {
        return RunSeries.draw(season, group);
    }

    /**
     * Quantiles of a figure by day, the outermost pair palest.
     *
     * @param title what it shows
     * @param figure what the figure is and its unit, such as {@code Value, EUR a head}
     * @param parts what part lies below each quantile, ascending between 0 and 1, 2 to 7 of them, such as 0.05, 0.5 and 0.95;
     *     of an odd number the one in the middle is a line
     * @param days quantiles by day, one day or more
     * @return bands
     * @throws IllegalArgumentException if there are no days, a day has another number of quantiles, or parts or days don't
     *     ascend
     */
    public static Picture fan(String title, String figure, List<Double> parts, List<FanDay> days) {
        return Fan.draw(title, figure, parts, days);
    }

    /**
     * What an animal near finish leaves by day of sale, with its 90 % interval, and below it the chance that it is in
     * specification, if one is given.
     *
     * @param forecast the animal day by day
     * @return lines, with a mark on the best day and a line at the last one within the limits of age and fat class
     */
    public static Picture saleDays(Forecast forecast) {
        return SaleDays.draw(forecast);
    }

    /**
     * What a pen leaves if all of it goes on one day, and below it how many of its animals are expected to be in specification.
     *
     * @param pen the pen day by day
     * @return lines, with a mark on the best day
     */
    public static Picture saleDays(PenForecast pen) {
        return SaleDays.draw(pen);
    }

    /**
     * What each order gets by a plan, in % of its least or, if that is more, of what is planned for it: what is promised, what is
     * planned beyond that, and what is missing of the least.
     *
     * @param plan plan
     * @return bars, with kg beside them: the least, what is planned and what may be promised
     * @throws IllegalArgumentException if the plan has no orders
     */
    public static Picture orders(Plan plan) {
        return OrderBars.draw(plan);
    }

    /**
     * Shares before and after a calibration at the reference carcass, with standard errors.
     *
     * @param fit fit of a breakdown
     * @return a mark and a 90 % interval for each cut, in g per kg of the parent more or less than before, with the shares and
     *     standard errors beside them
     */
    public static Picture calibration(BreakdownFit fit) {
        return BeforeAndAfter.draw(fit);
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
