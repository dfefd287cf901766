package org.beefyield.calibrate;

import java.util.List;
import java.util.stream.Collectors;
import org.beefyield.text.Numbers;

/** Findings in words. */
final class FindingText {
    static final String NOTHING_WEIGHED = "no carcass was weighed; it stays as in the prior table";

    static final String CONTRADICTED =
            "the hall is another one than the prior table thinks possible: with what it says of how"
                    + " far halls differ, trials that weren't fitted to come out worse; the trials alone count, look whether the cuts are"
                    + " the same ones";

    private static final int CUTS_LISTED = 3;

    /** A carcass that weighs heavily in a fit. */
    record Leverage(String carcass, double leverage) {}

    /**
     * A part that is off on some rows.
     *
     * @param part its place
     * @param name its name
     * @param mean mean residual there, g/kg
     * @param t Student's t of it
     */
    record Off(int part, String name, double mean, double t) {}

    /** How a cut differs between days, and what the prior table states of that. */
    record Runs(String cut, double own, double stated) {}

    private FindingText() {}

    private static String grams(double value) {
        return Numbers.fixed(value, 1);
    }

    static String group(String name) {
        return "the cuts of " + name
                + " were weighed together; they move together, in proportion to their prior levels";
    }

    static String withoutDay(long dayless, int trials) {
        return "the day is blank in " + dayless + " of " + trials + " trials; these count as of one day";
    }

    static String blank(String blank, boolean isAll) {
        return blank
                + (isAll
                        ? ": nothing is learnt of it, and no carcass can be balanced; add its column, or if it was weighed with"
                                + " others declare them as a group"
                        : "; these count for the rest; a cut that weighed nothing has a 0");
    }

    static String fewRows(int carcasses, int terms) {
        return "only " + carcasses + " carcasses for " + terms + " terms; the errors themselves are hardly known";
    }

    static String notFitted(int carcasses) {
        return Numbers.counted(carcasses, "carcass tells", "carcasses tell")
                + " none of its terms; it stays as in the prior table";
    }

    /**
     * Why a lower step of the ladder stands.
     *
     * @param others what steps are held against: other days, or where there are few, other trials
     */
    static String givenUp(String first, String taken, String problem, String others) {
        String now = taken.isEmpty() ? "nothing is learnt, it stays as in the prior table" : "learnt: " + taken;
        return now + "; given up: " + first + ", for "
                + (problem.isEmpty()
                        ? "fitted to " + others + " the former errs less on each"
                        : "with it the table would not hold: " + problem);
    }

    static String runs(List<Runs> off) {
        return "days differ otherwise than the prior table states, so that the trials alone say how: "
                + off.stream()
                        .map(one -> one.cut() + " by " + grams(one.own()) + " g/kg and not " + grams(one.stated()))
                        .collect(Collectors.joining(", "));
    }

    static String far(String part, double mean, double expected, double off) {
        return part + " averages " + grams(mean) + " g/kg where the prior table expects " + grams(expected) + ", "
                + grams(off) + " SDs of what halls differ by";
    }

    /** What follows on that where it matters. */
    static String varies(double sd, double stated) {
        return stated > 0 ? ", and varies by " + grams(sd) + " where that states " + grams(stated) : "";
    }

    static String fewDays(List<String> days, boolean isStated) {
        String now = days.equals(List.of(""))
                ? "no day of boning is given, so that all trials count as of one"
                : "boned on " + Numbers.counted(days.size(), "day", "days") + ", and fewer than " + BreakdownModel.DAYS
                        + " with two carcasses or more don't tell how days differ";
        return now
                + (isStated
                        ? "; that is kept as the prior table states it"
                        : "; nothing is known of it, so that errors are larger than they are said to be");
    }

    static String category(String category, int carcasses, List<Off> off, double limit, boolean own) {
        return "category " + category + ", " + carcasses
                + " carcasses, differs from the others in another way than the prior table"
                + " says: " + words(off) + " (t beyond " + Numbers.fixed(limit, 1) + ")"
                + (own ? "; its level is learnt by itself" : "; learn categories apart if that is meant");
    }

    static String swapped(String a, String b, double meanA, double meanB, double expectedA, double expectedB) {
        return "the columns " + a + " and " + b + " look swapped: they average " + grams(meanA) + " and "
                + grams(meanB) + " g/kg where the prior table expects " + grams(expectedA) + " and "
                + grams(expectedB);
    }

    static String day(String day, int carcasses, List<Off> off, double limit) {
        return "day " + day + " is off: its " + carcasses + " carcasses average " + words(off)
                + " against the fit, beyond what days differ by (t beyond " + Numbers.fixed(limit, 1)
                + "); look at that day's scale, cutting and trimming";
    }

    static String outlier(String carcass, List<Off> off, double limit) {
        return "carcass " + carcass + " is beyond chance: " + words(off) + " against the fit (t beyond "
                + Numbers.fixed(limit, 1) + ")";
    }

    static String moreOutliers(int carcasses) {
        return carcasses + " more carcasses are beyond chance";
    }

    private static String words(List<Off> off) {
        return off.stream()
                        .limit(CUTS_LISTED)
                        .map(one ->
                                one.name() + " " + Numbers.signed(one.mean(), 1) + " g/kg (t = " + grams(one.t()) + ")")
                        .collect(Collectors.joining(", "))
                + (off.size() > CUTS_LISTED ? " and " + (off.size() - CUTS_LISTED) + " more cuts" : "");
    }

    /** What a loss that is off says of the scale. */
    static String loss(double mean) {
        return mean > 0
                ? "; more is missing than on other days, as if a scale read too little"
                : "; less is missing than on other days, as if a scale read too much";
    }

    static String asIfSwapped(String a, String b) {
        return "; as if " + a + " and " + b + " had been swapped";
    }

    static String leverage(int carcasses, double limit, List<Leverage> listed) {
        return carcasses + (carcasses == 1 ? " carcass weighs" : " carcasses weigh")
                + " more than three times the average in the fit (leverage above " + Numbers.fixed(limit, 2) + "): "
                + listed.stream()
                        .map(one -> one.carcass() + " (" + Numbers.fixed(one.leverage(), 2) + ")")
                        .collect(Collectors.joining(", "))
                + (carcasses > listed.size() ? " and " + (carcasses - listed.size()) + " more" : "")
                + "; check their grades and weights first";
    }
}
