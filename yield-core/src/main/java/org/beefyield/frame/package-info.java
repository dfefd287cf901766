/**
 * Results as columns that a person names, for notebooks, spreadsheets and statistics.
 *
 * <p>Every result makes its own {@link org.beefyield.frame.Frame} by {@code toFrame()}; of many estimates
 * {@code Frames} of {@code org.beefyield.estimate} makes one, wide, a row for each carcass and a column for each cut, or
 * long, a row for each carcass and cut. A frame can be narrowed, sorted, extended by columns of the caller's own, described,
 * and summed up by lot, supplier, category or class in {@linkplain org.beefyield.frame.Statistic figures}:
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
 * Frame spread = wide.groupBy("lot").figures(Statistic.mean("striploin"), Statistic.sd("striploin"),
 *         Statistic.quantile("striploin", 0.9));
 * System.out.println(spread.toText());
 * Frame heavy = wide.where(row -> row.number("striploin") > 16).sortedBy("striploin").reversed();
 * System.out.println(heavy.describe().toText());
 * }</pre>
 *
 * <p>Every column of numbers carries its unit and prints it in its header, and what it comes to over all rows
 * ({@link org.beefyield.frame.Total}): no mean, age or share is added up unless somebody says so. What is not known is missing: a NaN among
 * numbers, an empty string among texts, a blank in print and in files. Arrays and maps lead out of a frame and back into
 * it, so that any library for tables can take over, for joins and pivots too; none is needed here.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.frame;

import org.jspecify.annotations.NullMarked;
