package org.beefyield.data.killsheet;

import java.time.LocalDate;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.DressingCorrection;
import org.beefyield.report.TrimmedParts;

/**
 * A row of a kill sheet that can be used.
 *
 * @param line number of its line in the file, counted from 1
 * @param carcass the carcass with its id and, if given, lot, supplier, kill date (year-month-day), hall, age and assurance; its
 *     cold weight is brought to the reference dressing
 * @param killDate day of slaughter, the carcass's as a date
 * @param dressedColdWeightKg cold weight before the dressing corrections, kg: as given, or 0.98 of the hot weight
 * @param hotWeightKg hot weight as given, before the dressing corrections, kg
 * @param dressing how the dressing departs from the reference; empty if it doesn't
 * @param leftKg weight of the left side, kg
 * @param rightKg weight of the right side, kg
 * @param trimmedKg kg taken off at meat inspection before weighing
 * @param trimmedKgByRegion the same by region of the carcass, where the sheet says so and anything was
 * @param otherColumns the sheet's other columns, name to text as it stands there, in the sheet's order
 */
public record KillSheetEntry(
        long line,
        Carcass carcass,
        Optional<LocalDate> killDate,
        double dressedColdWeightKg,
        OptionalDouble hotWeightKg,
        Set<DressingCorrection> dressing,
        OptionalDouble leftKg,
        OptionalDouble rightKg,
        OptionalDouble trimmedKg,
        Map<TrimmedParts.Region, Double> trimmedKgByRegion,
        Map<String, String> otherColumns) {
    /** Copies what could change. */
    public KillSheetEntry {
        dressing = Set.copyOf(dressing);
        trimmedKgByRegion = Map.copyOf(trimmedKgByRegion);
        otherColumns =
                otherColumns.isEmpty() ? Map.of() : Collections.unmodifiableMap(new LinkedHashMap<>(otherColumns));
    }
}
