package org.beefyield.data.finish;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.finish.Assumption;
import org.beefyield.finish.Assumptions;
import org.beefyield.finish.DayCurve;
import org.beefyield.finish.Feed;
import org.beefyield.finish.FinishAnimal;
import org.beefyield.finish.HoldingCosts;
import org.beefyield.finish.NetEnergy;
import org.beefyield.finish.Quantity;
import org.beefyield.finish.Replacement;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.text.Names;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Reads what it costs to hold animals, what they gain and what is assumed of them: a CSV file, a row for each figure, of which
 * any may be left out. Columns:
 *
 * <ul>
 *   <li>{@code item}: what the figure is, see below
 *   <li>{@code value}: the figure
 *   <li>{@code unit}: its unit, word for word, so that nobody takes a tonne for a kg; in place of EUR the currency, the same in
 *       every row
 *   <li>{@code kind}: how solid the figure is: {@code published}, {@code derived}, {@code common-practice}, {@code unverified},
 *       {@code assumption}; of costs it may be blank
 *   <li>{@code source}: where it comes from; of costs it may be blank
 * </ul>
 *
 * <p>Costs: {@code feed-kg-per-day} in {@code kg a day}, or {@code feed-digestible} in {@code % of gross energy} and {@code
 * mature-weight} in {@code kg}, by which feed is counted by energy, with {@code feed-gross-energy} in {@code MJ a kg} (else 18.45)
 * and {@code activity} in {@code of maintenance} (else 0); {@code feed-price} in {@code EUR a kg}; {@code yardage} in {@code EUR a
 * day}; {@code interest} and {@code deaths} in {@code % a year}; {@code next-margin} in {@code EUR a head}, {@code next-days} and
 * {@code empty-days} in {@code days}, the animal that comes to the place; {@code haulage} in {@code EUR a load}.
 *
 * <p>Gain: {@code gain} in {@code kg a day}, and {@code gain-slows} in {@code kg a day a day}.
 *
 * <p>Assumptions: the codes of {@link Quantity} in its units, with kind and source.
 */
public final class HoldingReader {
    private static final List<String> COLUMNS = List.of("item", "value", "unit", "kind", "source");
    private static final String MONEY = "EUR";
    private static final String GAINS = "-" + Numbers.exact(FinishAnimal.MOST_GAIN_KG) + " to "
            + Numbers.exact(FinishAnimal.MOST_GAIN_KG) + " kg a day";
    private static final Pattern AMOUNT = Pattern.compile("(\\S+)( a (?:kg|day|head|load))");

    /** What a row may say beside an assumption. */
    private enum Item {
        FEED_KG_PER_DAY("kg a day"),
        FEED_DIGESTIBLE("% of gross energy"),
        FEED_GROSS_ENERGY("MJ a kg"),
        MATURE_WEIGHT("kg"),
        ACTIVITY("of maintenance"),
        FEED_PRICE("EUR a kg"),
        YARDAGE("EUR a day"),
        INTEREST("% a year"),
        DEATHS("% a year"),
        NEXT_MARGIN("EUR a head"),
        NEXT_DAYS("days"),
        EMPTY_DAYS("days"),
        HAULAGE("EUR a load"),
        GAIN("kg a day"),
        GAIN_SLOWS("kg a day a day");

        private final String unit;

        Item(String unit) {
            this.unit = unit;
        }

        String code() {
            return Names.code(this);
        }
    }

    private final Map<Item, CsvRow> rows = new EnumMap<>(Item.class);
    private final Map<Item, Double> values = new EnumMap<>(Item.class);
    private final Map<String, Long> lines = new LinkedHashMap<>();
    private String currency = "";
    private long currencyLine;
    private Assumptions assumptions = Assumptions.shipped();

    private HoldingReader() {}

    /**
     * Reads a costs file of the standard form.
     *
     * @param file the file
     * @return what it holds
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static HoldingSheet read(Path file) {
        return read(Source.of(file), CsvForm.standard());
    }

    /**
     * Reads a costs file.
     *
     * @param source the file
     * @param form how it is written
     * @return what it holds
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static HoldingSheet read(Source source, CsvForm form) {
        Objects.requireNonNull(source, "source");
        Objects.requireNonNull(form, "form");
        HoldingReader reader = new HoldingReader();
        SmallCsv.read(source, form, COLUMNS, row -> {
            reader.row(row);
            return row.isBad() ? null : row;
        });
        return reader.sheet();
    }

    private void row(CsvRow row) {
        String code = row.text("item");
        Optional<Item> item = Arrays.stream(Item.values())
                .filter(one -> one.code().equals(code))
                .findFirst();
        Optional<Quantity> quantity = Arrays.stream(Quantity.values())
                .filter(one -> one.code().equals(code))
                .findFirst();
        if (item.isEmpty() && quantity.isEmpty()) {
            row.refuse(
                    "item",
                    Excerpt.quote(code) + " is none of "
                            + Stream.concat(
                                            Arrays.stream(Item.values()).map(Item::code),
                                            Arrays.stream(Quantity.values()).map(Quantity::code))
                                    .collect(Collectors.joining(" ")));
            return;
        }
        Long before = lines.putIfAbsent(code, row.line());
        if (before != null) {
            row.refuse("item", "this item stands in line " + before);
        }
        double value = row.number("value");
        checkUnit(
                row,
                item.map(one -> one.unit).orElseGet(() -> quantity.orElseThrow().unit()));
        SourceKind kind = row.optional("kind", SourceKind::parse);
        if (quantity.isPresent() && !row.isBad()) {
            assume(row, quantity.orElseThrow(), value, kind);
        }
        if (item.isPresent() && !row.isBad()) {
            rows.put(item.orElseThrow(), row);
            values.put(item.orElseThrow(), value);
        }
    }

    private void assume(CsvRow row, Quantity quantity, double value, @Nullable SourceKind kind) {
        if (kind == null) {
            row.refuse("kind", "an assumption says its kind: published derived common-practice unverified assumption");
        } else if (row.text("source").isEmpty()) {
            row.refuse("source", "an assumption says where it comes from");
        } else {
            Assumption assumed =
                    row.parsedOrNull("value", text -> new Assumption(quantity, value, kind, row.text("source")));
            assumptions = assumed == null ? assumptions : assumptions.with(assumed);
        }
    }

    private void checkUnit(CsvRow row, String unit) {
        String given = row.text("unit");
        if (!unit.startsWith(MONEY)) {
            if (!given.equals(unit)) {
                row.refuse("unit", "unit " + Excerpt.quote(given) + " is not \"" + unit + "\", that of this item");
            }
            return;
        }
        Matcher amount = AMOUNT.matcher(given);
        if (!amount.matches() || !amount.group(2).equals(unit.substring(MONEY.length()))) {
            row.refuse(
                    "unit",
                    "unit " + Excerpt.quote(given) + " is not a currency and" + unit.substring(MONEY.length())
                            + ", such as " + unit);
        } else if (currency.isEmpty()) {
            currency = amount.group(1);
            currencyLine = row.line();
        } else if (!currency.equals(amount.group(1))) {
            row.refuse(
                    "unit",
                    "currency " + Excerpt.quote(amount.group(1)) + " differs from " + Excerpt.quote(currency)
                            + " in line " + currencyLine + "; a file has one");
        }
    }

    private HoldingSheet sheet() {
        List<Problem> problems = new ArrayList<>();
        HoldingCosts.Builder costs = HoldingCosts.builder();
        feed(problems).ifPresent(costs::feed);
        set(Item.YARDAGE, costs::yardagePerDay, problems);
        set(Item.INTEREST, costs::interestPercentPerYear, problems);
        set(Item.DEATHS, costs::deathsPercentPerYear, problems);
        set(Item.HAULAGE, costs::haulagePerLoad, problems);
        if (values.containsKey(Item.NEXT_MARGIN) || values.containsKey(Item.NEXT_DAYS)) {
            if (needs(Item.NEXT_MARGIN, Item.NEXT_DAYS, problems)
                    && needs(Item.NEXT_DAYS, Item.NEXT_MARGIN, problems)) {
                made(
                                Item.NEXT_DAYS,
                                () -> new Replacement(
                                        value(Item.NEXT_MARGIN, 0),
                                        value(Item.NEXT_DAYS, 0),
                                        value(Item.EMPTY_DAYS, 0)),
                                problems)
                        .ifPresent(costs::replacement);
            }
        } else {
            needs(Item.EMPTY_DAYS, Item.NEXT_MARGIN, problems);
        }
        Optional<DayCurve> gain = gain(problems);
        if (!problems.isEmpty()) {
            throw new InvalidDataException(problems);
        }
        return new HoldingSheet(currency, costs.build(), assumptions, gain);
    }

    private Optional<Feed> feed(List<Problem> problems) {
        boolean byEnergy = values.containsKey(Item.FEED_DIGESTIBLE);
        boolean byKg = values.containsKey(Item.FEED_KG_PER_DAY);
        if (byEnergy && byKg) {
            problems.add(problem(Item.FEED_KG_PER_DAY, "feed is counted by kg or by energy, not both"));
            return Optional.empty();
        }
        boolean whole = needs(Item.FEED_DIGESTIBLE, Item.MATURE_WEIGHT, problems);
        whole &= needs(Item.FEED_DIGESTIBLE, Item.FEED_PRICE, problems);
        whole &= needs(Item.FEED_KG_PER_DAY, Item.FEED_PRICE, problems);
        if (!byEnergy) {
            for (Item item : List.of(Item.FEED_GROSS_ENERGY, Item.ACTIVITY, Item.MATURE_WEIGHT)) {
                whole &= needs(item, Item.FEED_DIGESTIBLE, problems);
            }
        }
        if (!byEnergy && !byKg) {
            whole &= needs(Item.FEED_PRICE, Item.FEED_KG_PER_DAY, problems);
        }
        if (!whole || (!byEnergy && !byKg)) {
            return Optional.empty();
        }
        return byKg
                ? made(
                        Item.FEED_KG_PER_DAY,
                        () -> Feed.kgPerDay(value(Item.FEED_KG_PER_DAY, 0), value(Item.FEED_PRICE, 0)),
                        problems)
                : made(
                        Item.FEED_DIGESTIBLE,
                        () -> Feed.byEnergy(
                                new NetEnergy.Diet(
                                        value(Item.FEED_DIGESTIBLE, 0),
                                        value(Item.FEED_GROSS_ENERGY, NetEnergy.USUAL_GROSS_MJ_PER_KG),
                                        value(Item.MATURE_WEIGHT, 0),
                                        value(Item.ACTIVITY, 0)),
                                value(Item.FEED_PRICE, 0)),
                        problems);
    }

    private Optional<DayCurve> gain(List<Problem> problems) {
        if (!needs(Item.GAIN_SLOWS, Item.GAIN, problems) || !values.containsKey(Item.GAIN)) {
            return Optional.empty();
        }
        double gain = value(Item.GAIN, 0);
        if (Math.abs(gain) > FinishAnimal.MOST_GAIN_KG) {
            problems.add(Objects.requireNonNull(rows.get(Item.GAIN))
                    .problem("value", "live gain " + Numbers.exact(gain) + " kg a day is outside " + GAINS));
            return Optional.empty();
        }
        return values.containsKey(Item.GAIN_SLOWS)
                ? made(Item.GAIN_SLOWS, () -> DayCurve.falling(gain, value(Item.GAIN_SLOWS, 0)), problems)
                : made(Item.GAIN, () -> DayCurve.constant(gain), problems);
    }

    private double value(Item item, double otherwise) {
        return values.getOrDefault(item, otherwise);
    }

    private Problem problem(Item item, String message) {
        return Objects.requireNonNull(rows.get(item)).problem("item", message);
    }

    /** Whether a row that makes another one necessary has it. */
    private boolean needs(Item item, Item other, List<Problem> problems) {
        if (values.containsKey(item) && !values.containsKey(other)) {
            problems.add(problem(item, item.code() + " needs a row " + other.code()));
            return false;
        }
        return true;
    }

    private <T> Optional<T> made(Item item, Supplier<T> made, List<Problem> problems) {
        try {
            return Optional.of(made.get());
        } catch (IllegalArgumentException e) {
            CsvRow row = Objects.requireNonNull(rows.get(item));
            problems.add(row.problem("value", String.valueOf(e.getMessage())));
            return Optional.empty();
        }
    }

    private void set(Item item, Function<Double, HoldingCosts.Builder> set, List<Problem> problems) {
        Double value = values.get(item);
        if (value != null) {
            made(item, () -> set.apply(value), problems);
        }
    }
}
