package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.beefyield.stats.Regression;
import org.beefyield.text.Numbers;

/** Findings in words. */
final class FindingText {
    static final String NOTHING_WEIGHED = "no carcass was weighed; it stays as in the prior table";

    private static final int CUTS_LISTED = 3;

    /** A coefficient of a term on others below which it is noise. */
    private static final double NOISE = 1e-6;

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

    private FindingText() {}

    private static String grams(double value) {
        return Numbers.fixed(value, 1);
    }

    static String group(String name) {
        return "the cuts of " + name
                + " were weighed together; they move together, in proportion to their prior levels";
    }

    static String fewRows(int carcasses, int terms) {
        return "only " + carcasses + " carcasses for " + terms + " terms; the errors themselves are hardly known";
    }

    /** Why the rows don't determine the terms. */
    static String notFitted(Regression regression, List<String> terms) {
        List<Integer> dependent = regression.dependent();
        if (dependent.isEmpty()) {
            return regression.rows() + " carcasses are too few for " + terms.size()
                    + " terms; it stays as in the prior table; take fewer terms or shrink towards it";
        }
        List<String> whys = new ArrayList<>();
        List<String> before = new ArrayList<>(terms);
        dependent.forEach(j -> before.remove(terms.get(j)));
        for (int d = 0; d < dependent.size(); d++) {
            int j = dependent.get(d);
            double[] on = regression.dependence(d);
            List<String> others = new ArrayList<>();
            for (int i = 0; i < on.length; i++) {
                if (Math.abs(on[i]) > NOISE) {
                    others.add(before.get(i));
                }
            }
            String term = terms.get(j);
            if (others.isEmpty()) {
                whys.add(term + " is 0 for every carcass and can't be estimated");
            } else if (others.equals(terms.subList(0, 1))) {
                whys.add("all carcasses have the same value of " + term + ", which can't be estimated");
            } else {
                whys.add(term + " can't be told from " + String.join(", ", others));
            }
        }
        return String.join("; ", whys)
                + "; it stays as in the prior table; leave such terms out, or shrink with moments in which they vary";
    }

    static String swapped(String a, String b, double meanA, double meanB, double expectedA, double expectedB) {
        return "the columns " + a + " and " + b + " look swapped: they average " + grams(meanA) + " and "
                + grams(meanB) + " g/kg where the prior table expects " + grams(expectedA) + " and "
                + grams(expectedB);
    }

    static String day(String day, int carcasses, List<Off> off, double limit) {
        return "day " + day + " is off: its " + carcasses + " carcasses average " + words(off)
                + " against the fit (t beyond " + Numbers.fixed(limit, 1)
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
