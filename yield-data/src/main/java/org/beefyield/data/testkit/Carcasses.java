package org.beefyield.data.testkit;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableRange;

/** Random carcasses that a table must be able to estimate. */
public final class Carcasses {
    private static final int STEPS = 1000;
    private static final double[] WIDTHS = {0, 0.1, 0.5, 1, 3};

    private Carcasses() {}

    /**
     * Carcasses of every category that a table serves, anywhere in its allowed range, its ends included. Grades come in
     * every form there is: whole classes, thirds, halves and decimal positions.
     *
     * @param table the table
     * @return carcasses without id, lot, supplier and age
     */
    public static Arbitrary<Carcass> of(YieldTable table) {
        return within(table.definition().allowed(), table.definition().categories());
    }

    /**
     * Carcasses of some categories anywhere in a range, its ends included. Grades come in every form there is: whole
     * classes, thirds, halves and decimal positions.
     *
     * @param range grades as positions of their scales, and cold weights in kg, above 0 and at most 1200
     * @param categories one category or more
     * @return carcasses without id, lot, supplier and age
     */
    public static Arbitrary<Carcass> within(TableRange range, List<Category> categories) {
        return Combinators.combine(
                        Arbitraries.of(categories),
                        conformations(range.conformation(), GradeReading.THIRDS, GradeReading.HALVES),
                        fatClasses(range.fat()),
                        numbers(range.weightKg(), 10))
                .as(Carcass::of);
    }

    static Arbitrary<Conformation> conformations(Range range, GradeReading... readings) {
        Arbitrary<Conformation> positions =
                Combinators.combine(numbers(range, 100), widths()).as(Conformation::ofPosition);
        List<Conformation> grades = conformationGrades(range, readings);
        return grades.isEmpty() ? positions : Arbitraries.oneOf(Arbitraries.of(grades), positions);
    }

    /** Whole classes, and their parts under each reading, that lie in a range. */
    static List<Conformation> conformationGrades(Range range, GradeReading... readings) {
        List<Conformation> grades = new ArrayList<>();
        for (String letter : List.of("P", "O", "R", "U", "E", "S")) {
            grades.add(Conformation.parse(letter));
            for (GradeReading reading : readings) {
                List<String> parts = reading == GradeReading.THIRDS
                        ? List.of(letter + "-", letter + "=", letter + "+")
                        : List.of("-" + letter, letter + "+");
                parts.forEach(part -> grades.add(Conformation.parse(part, reading)));
            }
        }
        return inside(grades, Conformation::position, range);
    }

    static Arbitrary<FatClass> fatClasses(Range range) {
        Arbitrary<FatClass> positions =
                Combinators.combine(numbers(range, 100), widths()).as(FatClass::ofPosition);
        List<FatClass> grades = fatGrades(range);
        return grades.isEmpty() ? positions : Arbitraries.oneOf(Arbitraries.of(grades), positions);
    }

    /** Whole classes, thirds and halves that lie in a range. */
    static List<FatClass> fatGrades(Range range) {
        List<FatClass> grades = new ArrayList<>();
        for (int number = 1; number <= 5; number++) {
            for (String part : number < 4 ? List.of("", "-", "=", "+") : List.of("", "-", "=", "+", "L", "H")) {
                grades.add(FatClass.parse(number + part));
            }
        }
        return inside(grades, FatClass::position, range);
    }

    private static <T> List<T> inside(List<T> grades, ToDoubleFunction<T> position, Range range) {
        return grades.stream()
                .filter(grade -> range.contains(position.applyAsDouble(grade)))
                .toList();
    }

    private static Arbitrary<Double> widths() {
        return Arbitraries.integers().between(0, WIDTHS.length - 1).map(index -> WIDTHS[index]);
    }

    /** Numbers of a range, both ends included, most of them rounded to a fraction of 1. */
    static Arbitrary<Double> numbers(Range range, int fraction) {
        return Arbitraries.integers().between(0, STEPS).map(step -> {
            double number = step == STEPS ? range.high() : range.low() + (range.high() - range.low()) * step / STEPS;
            double rounded = Math.rint(number * fraction) / fraction;
            return range.contains(rounded) ? rounded : Math.min(range.high(), Math.max(range.low(), number));
        });
    }
}
