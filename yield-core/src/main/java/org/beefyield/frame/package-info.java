/**
 * Results as columns that a person names, for notebooks, spreadsheets and statistics.
 *
 * <p>{@link org.beefyield.frame.Frames} makes a {@link org.beefyield.frame.Frame} of estimates: wide, a row for each
 * carcass and a column for each cut, or long, a row for each carcass and cut. A frame can be narrowed, sorted, extended by
 * columns of the caller's own, described, and added up by lot, supplier, category or class:
 *
 * <pre>{@code
 * List<YieldEstimate> estimates = new ArrayList<>();
 * for (String grade : List.of("U=", "R=", "O=")) {
 *     Carcass carcass = Carcass.of(Category.STEER, Conformation.parse(grade), FatClass.parse("3="), 340).withLot("Tarrowmere");
 *     estimates.add(YieldEstimator.of(table).estimate(carcass));
 * }
 * Frame wide = Frames.wide(estimates, "primal");
 * System.out.println(wide.select("conformation", "striploin", "rump").toText());
 * Frame byKind = Frames.longForm(estimates).groupBy("lot", "kind").sum();
 * System.out.println(byKind.withTotal().toText());
 * Frame heavy = wide.where(row -> row.number("striploin") > 16).sortedBy("striploin").reversed();
 * System.out.println(heavy.describe().toText());
 * }</pre>
 *
 * <p>Every column of numbers carries its unit and prints it in its header. What is not known is missing: a NaN among
 * numbers, an empty string among texts, a blank in print and in files. Arrays and maps lead out of a frame and back into
 * it, so that any library for tables can take over; none is needed here.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.frame;

import org.jspecify.annotations.NullMarked;
