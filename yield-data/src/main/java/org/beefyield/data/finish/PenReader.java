package org.beefyield.data.finish;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.finish.Age;
import org.beefyield.finish.DayCurve;
import org.beefyield.finish.FinishAnimal;
import org.jspecify.annotations.Nullable;

/**
 * Reads the animals of a pen: a CSV file, a row for each. Columns, of which the first four are needed:
 *
 * <ul>
 *   <li>{@code tag}: its tag, the only one of its kind in the file
 *   <li>{@code category}: letter of the category
 *   <li>{@code conformation}, {@code fat_class}: as seen alive, a class, third or half
 *   <li>{@code live_kg} or {@code cold_kg}: live weight, or cold carcass weight if it was slaughtered today, kg; one of the two
 *   <li>{@code weight_sd_kg}: how far that may be off, SD in kg; blank for 0
 *   <li>{@code gain_kg_per_day}: live weight gained today, kg a day; blank for that of the costs file, slowing as it says there
 *   <li>{@code gain_slows_kg_per_day}: by how much the row's own gain falls a day, kg a day a day; blank for 0
 *   <li>{@code gain_sd_kg_per_day}, {@code killing_out_pct}, {@code killing_out_sd_pct}, {@code conformation_sd_points}, {@code
 *       fat_sd_points}: how sure gain and grades are, and its own killing-out, cold carcass in % of live weight; blank for what is
 *       assumed
 *   <li>{@code born}: day of birth; or {@code age_months}: months today, with a part of a month, such as 27.5
 *   <li>{@code assured}: {@code yes} if it is farm-assured, {@code no} if not; blank if not known
 *   <li>{@code note}: for people
 * </ul>
 */
public final class PenReader {
    private static final List<String> REQUIRED = List.of("tag", "category", "conformation", "fat_class");
    private static final List<String> OPTIONAL = List.of(
            "live_kg",
            "cold_kg",
            "weight_sd_kg",
            "gain_kg_per_day",
            "gain_slows_kg_per_day",
            "gain_sd_kg_per_day",
            "killing_out_pct",
            "killing_out_sd_pct",
            "conformation_sd_points",
            "fat_sd_points",
            "age_months",
            "born",
            "assured",
            "note");

    private static final double PER_CENT = 100;
    private static final DayCurve NO_GAIN = DayCurve.constant(0);

    private final @Nullable DayCurve gain;
    private final @Nullable LocalDate today;
    private final Map<String, Long> tags = new HashMap<>();

    private PenReader(@Nullable DayCurve gain, @Nullable LocalDate today) {
        this.gain = gain;
        this.today = today;
    }

    /**
     * Reads a pen from a file of the standard form.
     *
     * @param file the file
     * @param gain what animals gain whose row doesn't say, kg of live weight a day, or null if every row says
     * @param today the day of the forecast, from which ages count, or null if no row has a day of birth
     * @return the animals, and what is wrong
     * @throws org.beefyield.data.InvalidDataException if the header lacks a column or has another
     */
    public static PenSheet read(Path file, @Nullable DayCurve gain, @Nullable LocalDate today) {
        return read(Source.of(file), CsvForm.standard(), gain, today);
    }

    /**
     * Reads a pen.
     *
     * @param source the file
     * @param form how it is written
     * @param gain what animals gain whose row doesn't say, kg of live weight a day, or null if every row says
     * @param today the day of the forecast, from which ages count, or null if no row has a day of birth
     * @return the animals, and what is wrong
     * @throws org.beefyield.data.InvalidDataException if the header lacks a column or has another
     */
    public static PenSheet read(Source source, CsvForm form, @Nullable DayCurve gain, @Nullable LocalDate today) {
        Objects.requireNonNull(source, "source");
        Objects.requireNonNull(form, "form");
        List<Problem> problems = new ArrayList<>();
        PenReader reader = new PenReader(gain, today);
        return new PenSheet(SmallCsv.rows(source, form, REQUIRED, OPTIONAL, reader::animal, problems), problems);
    }

    private @Nullable FinishAnimal animal(CsvRow row) {
        checkTag(row);
        Category category = row.parsedOrNull("category", Category::parse);
        Conformation conformation = row.parsedOrNull("conformation", Conformation::parse);
        FatClass fatClass = row.parsedOrNull("fat_class", FatClass::parse);
        Double live = row.optionalNumber("live_kg");
        Double cold = row.optionalNumber("cold_kg");
        if (!row.isBad() && (live == null) == (cold == null)) {
            row.refuse(
                    "live_kg",
                    live == null
                            ? "a row says " + row.name("live_kg") + " or " + row.name("cold_kg")
                            : "a row says " + row.name("live_kg") + " or " + row.name("cold_kg") + ", not both");
        }
        DayCurve gained = gain(row);
        Double gainSd = row.optionalNumber("gain_sd_kg_per_day");
        Double weightSd = row.optionalNumber("weight_sd_kg");
        Double killingOut = row.optionalNumber("killing_out_pct");
        Double killingOutSd = row.optionalNumber("killing_out_sd_pct");
        Double conformationSd = row.optionalNumber("conformation_sd_points");
        Double fatSd = row.optionalNumber("fat_sd_points");
        Age age = age(row);
        Boolean assured = row.yesNo("assured");
        if (!row.isBad() && (conformationSd == null) != (fatSd == null)) {
            row.refuse(
                    conformationSd == null ? "conformation_sd_points" : "fat_sd_points",
                    "a row says how sure both grades are, or neither");
        }
        if (row.isBad() || category == null || conformation == null || fatClass == null || gained == null) {
            return null;
        }
        FinishAnimal animal = row.parsedOrNull(
                live == null ? "cold_kg" : "live_kg",
                text -> live == null
                        ? FinishAnimal.ofColdKg(category, conformation, fatClass, Objects.requireNonNull(cold), NO_GAIN)
                        : FinishAnimal.ofLiveKg(category, conformation, fatClass, live, NO_GAIN));
        animal = animal == null ? null : animal.withId(row.text("tag"));
        animal = with(row, "gain_kg_per_day", animal, gained, FinishAnimal::withGain);
        animal = with(row, "weight_sd_kg", animal, weightSd, FinishAnimal::withWeightSdKg);
        animal = with(row, "gain_sd_kg_per_day", animal, gainSd, FinishAnimal::withGainSd);
        animal = with(row, "killing_out_pct", animal, killingOut, (of, pct) -> of.withKillingOut(pct / PER_CENT));
        animal =
                with(row, "killing_out_sd_pct", animal, killingOutSd, (of, pct) -> of.withKillingOutSd(pct / PER_CENT));
        animal = with(
                row,
                "fat_sd_points",
                animal,
                fatSd,
                (of, sd) -> of.withGradeSd(Objects.requireNonNull(conformationSd), sd));
        animal = with(row, row.text("born").isEmpty() ? "age_months" : "born", animal, age, FinishAnimal::withAge);
        return with(row, "assured", animal, assured, FinishAnimal::withAssured);
    }

    private @Nullable DayCurve gain(CsvRow row) {
        Double own = row.optionalNumber("gain_kg_per_day");
        Double slows = row.optionalNumber("gain_slows_kg_per_day");
        if (own == null && slows != null) {
            row.refuse(
                    "gain_slows_kg_per_day", "a row that says how its gain slows says " + row.name("gain_kg_per_day"));
        }
        if (own == null && gain == null) {
            row.refuse(
                    "gain_kg_per_day",
                    "no gain is given, here or in the costs file (a row gain); kg of live weight a day");
        }
        if (own == null) {
            return gain;
        }
        if (own.isNaN() || slows == null || slows.isNaN()) {
            return own.isNaN() ? null : DayCurve.constant(own);
        }
        return row.parsedOrNull("gain_slows_kg_per_day", text -> DayCurve.falling(own, slows));
    }

    private void checkTag(CsvRow row) {
        String tag = row.text("tag");
        if (tag.isEmpty()) {
            row.refuse("tag", "every animal has a tag");
            return;
        }
        Long before = tags.putIfAbsent(tag, row.line());
        if (before != null) {
            row.refuse("tag", "an animal with this tag stands in line " + before);
        }
    }

    private @Nullable Age age(CsvRow row) {
        String born = row.day("born");
        Double months = row.optionalNumber("age_months");
        if (!born.isEmpty() && months != null) {
            row.refuse("age_months", "a row says " + row.name("born") + " or " + row.name("age_months") + ", not both");
            return null;
        }
        if (!born.isEmpty()) {
            LocalDate day = today;
            if (day == null) {
                row.refuse(
                        "born",
                        "the day of the forecast isn't given (in the command by --day), so that a day of birth says no age");
                return null;
            }
            return row.parsedOrNull("born", text -> Age.born(LocalDate.parse(born), day));
        }
        return months == null || months.isNaN() ? null : row.parsedOrNull("age_months", text -> Age.months(months));
    }

    private interface Change<T> {
        FinishAnimal of(FinishAnimal animal, T value);
    }

    private static <T> @Nullable FinishAnimal with(
            CsvRow row, String column, @Nullable FinishAnimal animal, @Nullable T value, Change<T> change) {
        return animal == null || value == null ? animal : row.parsedOrNull(column, text -> change.of(animal, value));
    }
}
