package org.beefyield.finish;

import java.time.LocalDate;
import java.time.Period;
import java.util.Objects;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** How old an animal is today, so that its completed months are known on every day to come. Immutable. */
public final class Age {
    private static final double DAYS_A_MONTH = 365.25 / 12;
    private static final double MOST_MONTHS = 600;

    private final double months;
    private final @Nullable LocalDate born;
    private final @Nullable LocalDate today;

    private Age(double months, @Nullable LocalDate born, @Nullable LocalDate today) {
        this.months = months;
        this.born = born;
        this.today = today;
    }

    /**
     * An age in months and a part of a month, of 30.4375 days each. Of an age in completed months alone the day on which the
     * next is complete isn't known; half a month more is a fair reading.
     *
     * @param months months today, such as 27.5, 0 or more and at most 600
     * @return the age
     * @throws IllegalArgumentException if they are outside their range
     */
    public static Age months(double months) {
        if (!(months >= 0 && months <= MOST_MONTHS)) {
            throw new IllegalArgumentException("age " + Numbers.exact(months) + " months is outside 0 to "
                    + Numbers.exact(MOST_MONTHS) + " months");
        }
        return new Age(months, null, null);
    }

    /**
     * An age by the calendar.
     *
     * @param born day of birth
     * @param today day of the forecast
     * @return the age
     * @throws IllegalArgumentException if the animal is born later than today, or more than 600 months before
     */
    public static Age born(LocalDate born, LocalDate today) {
        Objects.requireNonNull(born, "born");
        Objects.requireNonNull(today, "today");
        if (born.isAfter(today)) {
            throw new IllegalArgumentException("born on " + born + ", after today, " + today);
        }
        double months = Period.between(born, today).toTotalMonths();
        if (months > MOST_MONTHS) {
            throw new IllegalArgumentException("born on " + born + ", which makes " + Numbers.exact(months)
                    + " months on " + today + "; at most " + Numbers.exact(MOST_MONTHS) + " are taken");
        }
        return new Age(months, born, today);
    }

    /**
     * Completed months after so many days.
     *
     * @param days days from today, below 0 for a day that has been
     * @return months
     */
    public int completedMonths(int days) {
        return born == null || today == null
                ? (int) Math.floor(months + days / DAYS_A_MONTH)
                : (int) Period.between(born, today.plusDays(days)).toTotalMonths();
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Age that
                && months == that.months
                && Objects.equals(born, that.born)
                && Objects.equals(today, that.today);
    }

    @Override
    public int hashCode() {
        return Objects.hash(months, born, today);
    }

    /**
     * One line.
     *
     * @return such as {@code 27.5 months}, or {@code born on 2024-07-15, 27 months on 2026-11-02}
     */
    @Override
    public String toString() {
        return born == null
                ? Numbers.brief(months) + " months"
                : "born on " + born + ", " + Numbers.brief(months) + " months on " + today;
    }
}
