/**
 * Results as pictures: SVG that goes into a page, a report or a notebook as it is. {@link org.beefyield.data.picture.Pictures}
 * draws, and each {@link org.beefyield.data.picture.Picture} carries its own words for who can't see it.
 *
 * <pre>{@code
 * YieldEstimator estimator = YieldEstimator.of(table).withSpecification("steaks").with(MinceTarget.fatPercent(15));
 * Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);
 * YieldEstimate estimate = estimator.estimate(carcass);
 * List<Picture> pictures = List.of(
 *         Pictures.yieldByGrade(estimator, carcass),
 *         Pictures.breakdown(estimate),
 *         Pictures.intervals(estimate, "primal"));
 * StringBuilder page = new StringBuilder("<!doctype html>\n<html lang=\"en\"><meta charset=\"utf-8\"><title>Steer</title>\n");
 * pictures.forEach(picture -> page.append(picture.toSvg()));
 * Files.writeString(Files.createTempFile("steer", ".html"), page);
 * }</pre>
 *
 * <p>What grades are worth, how two tables differ, why one lot is worth more, columns against one another, pieces against a
 * window, figures by date and calibrations are drawn in the same way; {@link org.beefyield.data.picture.Pictures} names every
 * kind.
 *
 * <p>Nothing is told by colour alone: lines have marks and dashes, bars have stripes and outlines, cells print each figure and
 * have a heavy line where they change sign, and what has no data behind it is thin, hollow or dashed. Colours are those of Okabe
 * and Ito (2008), with others for readers who prefer dark pages. Pictures are 480 pixels wide, which a phone shows with letters of
 * about 10 pixels (cells of thirds and long figures are wider), and grow in height with their rows. An SVG can't know which font a
 * reader has, so letters have room as in a wide one, and names that need it are wrapped. No font, display or library is needed
 * to draw.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.picture;

import org.jspecify.annotations.NullMarked;
