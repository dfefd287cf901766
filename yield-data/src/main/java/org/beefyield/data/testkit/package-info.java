/**
 * A test kit for whoever owns a yield table: regression tests for the table, and random material for tests of software
 * that uses tables. It needs jqwik (net.jqwik:jqwik, test scope) and belongs in test code.
 *
 * <p>{@link org.beefyield.data.testkit.YieldTableContract} is the place to begin. A test class extends it and returns
 * the table; every run then checks that the table does what it promises through the same calls that an application
 * makes, survives being written and read, and, against a baseline such as the edition in use, that no cut moves more than
 * a budget and nothing that a user may rely on is gone:
 *
 * <pre>{@code
 * class HallTableTest extends org.beefyield.data.testkit.YieldTableContract {
 *     @Override
 *     protected YieldTable table() {
 *         return TableReader.read(Path.of("tables/hall-2"));
 *     }
 *
 *     @Override
 *     protected Optional<YieldTable> baseline() {
 *         return Optional.of(TableReader.read(Path.of("tables/hall-1")));
 *     }
 *
 *     @Override
 *     protected double budgetGPerKg() {
 *         return 5;
 *     }
 * }
 * }</pre>
 *
 * <p>The other classes give random material as jqwik arbitraries: {@link org.beefyield.data.testkit.Carcasses} that a
 * table must be able to estimate, {@link org.beefyield.data.testkit.KillSheets} whose every row is good, and
 * {@link org.beefyield.data.testkit.Tables} of any size that are valid by construction.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.testkit;

import org.jspecify.annotations.NullMarked;
