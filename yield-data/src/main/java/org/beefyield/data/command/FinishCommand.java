package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.HtmlPage;
import org.beefyield.data.finish.HoldingReader;
import org.beefyield.data.finish.HoldingSheet;
import org.beefyield.data.finish.PenReader;
import org.beefyield.data.finish.PenSheet;
import org.beefyield.data.finish.PriceMoveReader;
import org.beefyield.data.frame.FrameFile;
import org.beefyield.data.picture.Pictures;
import org.beefyield.data.trade.MarketSpecificationReader;
import org.beefyield.data.trade.PaymentGridReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.finish.Age;
import org.beefyield.finish.DayCurve;
import org.beefyield.finish.FinishAnimal;
import org.beefyield.finish.Forecast;
import org.beefyield.finish.HoldOrSell;
import org.beefyield.finish.PenForecast;
import org.beefyield.market.MarketSpecification;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.Valuer;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/** Hold or sell: an animal near finish, or a pen of them, day by day. */
final class FinishCommand {
    static final String USAGE = """
            Says on which day an animal near finish, or each of a pen, leaves its farmer most.
              finish --pen FILE            animals (CSV), a row for each; or one by options:
              --category LETTER --conformation CLASS --fat-class CLASS
                                           category and grades as seen alive
              --live-kg KG | --cold-kg KG  live weight today, or what its cold carcass would weigh
              --gain KG                    live weight gained a day; goes before the costs file
              --killing-out PERCENT        its own, cold carcass in % of live weight; else assumed for its conformation
              --age-months MONTHS          months today, with a part of a month, such as 27.5
              --tag TAG                    its tag
            What is paid, what it costs:
              --grid FILE | --price PRICE  payment grid (CSV), or one price for a kg of cold carcass in --currency, else EUR
              --costs FILE                 feed, yardage, interest, deaths, the next animal, gain, assumptions (CSV)
              --market FILE                market specification (CSV, the first of the file)
              --moves FILE                 how prices move by day (CSV)
              --edge lower|upper           what a grade on the edge between two halves counts as in grid and market; else lower
            What it is to the hall:
              --prices FILE                price list (CSV)
              --table FOLDER|ZIP           yield table, or the name of a shipped edition; else the edition boneless-2026
              --specification NAME         how primals are cut: a specification of the table; else its first
            What is shown:
              --days DAYS                  how many days are looked at, 0 to 730; else 84
              --day DAY                    today, such as 2026-11-03, from which ages count where the pen has days of birth
              --load HEAD                  part the pen in loads of at most so many animals
              --html FILE                  write what is printed as a page (HTML), with pictures
              --out FILE                   where the figures go (CSV), a row for each animal and day
            If the files aren't comma-separated UTF-8 with decimal points:
            """ + FormOptions.USAGE + """
            Exit code 0: all good; 4: some animals are refused; 2: it could not run.
            """;

    private static final List<String> ONE = List.of(
            "--category",
            "--conformation",
            "--fat-class",
            "--live-kg",
            "--cold-kg",
            "--killing-out",
            "--age-months",
            "--tag");
    private static final List<String> NAMED = Stream.of(
                    ONE,
                    List.of(
                            "--pen",
                            "--gain",
                            "--grid",
                            "--price",
                            "--currency",
                            "--costs",
                            "--market",
                            "--moves",
                            "--edge",
                            "--prices",
                            "--table",
                            "--specification",
                            "--days",
                            "--day",
                            "--load",
                            "--html",
                            "--out"),
                    FormOptions.NAMED)
            .flatMap(List::stream)
            .toList();
    private static final List<String> FLAGS =
            Stream.concat(Stream.of("--help"), FormOptions.FLAGS.stream()).toList();

    private static final int MOST_PICTURES = 6;
    private static final double PER_CENT = 100;

    private final CsvForm form;
    private final Options options;
    private final @Nullable Path pen;
    private final @Nullable Path grid;
    private final @Nullable Path costs;
    private final @Nullable Path market;
    private final @Nullable Path moves;
    private final @Nullable Path prices;
    private final @Nullable NamedTable table;
    private final @Nullable Path html;
    private final @Nullable Path out;
    private final @Nullable Integer load;
    private final EdgeRule edge;

    FinishCommand(List<String> arguments) {
        options = new Options(arguments, NAMED, FLAGS);
        form = FormOptions.form(options);
        pen = options.optionalPath("--pen");
        grid = options.optionalPath("--grid");
        costs = options.optionalPath("--costs");
        market = options.optionalPath("--market");
        moves = options.optionalPath("--moves");
        prices = options.optionalPath("--prices");
        table = NamedTable.optional(options, "--table");
        html = options.optionalPath("--html");
        out = options.optionalPath("--out");
        load = whole("--load");
        edge = EstimateCommand.edge(options.valueOr("--edge", "lower"));
        check();
    }

    private void check() {
        for (String option : ONE) {
            if (pen != null && options.value(option) != null) {
                throw new Options.UsageException(option + " is of one animal, which the rows of --pen say themselves");
            }
        }
        if (pen == null) {
            List.of("--category", "--conformation", "--fat-class").forEach(options::needed);
            if ((options.value("--live-kg") == null) == (options.value("--cold-kg") == null)) {
                throw new Options.UsageException(
                        "an animal needs --live-kg or --cold-kg, one of the two; or give --pen");
            }
            for (String option : List.of("--load", "--day")) {
                if (options.value(option) != null) {
                    throw new Options.UsageException(option + " needs --pen");
                }
            }
        }
        if ((grid == null) == (options.value("--price") == null)) {
            throw new Options.UsageException("what is paid is said by --grid or by --price, one of the two");
        }
        if (options.value("--currency") != null && options.value("--price") == null) {
            throw new Options.UsageException("--currency needs --price");
        }
        for (String option : List.of("--table", "--specification")) {
            if (prices == null && options.value(option) != null) {
                throw new Options.UsageException(option + " needs --prices");
            }
        }
    }

    private @Nullable Integer whole(String option) {
        String text = options.value(option);
        if (text == null) {
            return null;
        }
        if (!text.matches("[0-9]{1,4}")) {
            throw new Options.UsageException(option + " \"" + text + "\" is not a whole number such as 24");
        }
        return Integer.valueOf(text);
    }

    private @Nullable Double number(String option) {
        String text = options.value(option);
        return text == null ? null : Double.valueOf(Options.number(option, text));
    }

    int run(PrintStream print) {
        try (Outputs outputs = new Outputs()) {
            nameFiles(outputs);
            return run(print, outputs);
        }
    }

    /** Says what is read and written, so that a clash is refused before anything is. */
    private void nameFiles(Outputs outputs) {
        Map<String, @Nullable Path> inputs = new LinkedHashMap<>();
        inputs.put("--pen", pen);
        inputs.put("--grid", grid);
        inputs.put("--costs", costs);
        inputs.put("--market", market);
        inputs.put("--moves", moves);
        inputs.put("--prices", prices);
        inputs.forEach((name, path) -> {
            if (path != null) {
                outputs.input(name, path);
            }
        });
        if (table != null) {
            table.claim(outputs);
        }
        Map<String, @Nullable Path> written = new LinkedHashMap<>();
        written.put("--html", html);
        written.put("--out", out);
        written.forEach((name, path) -> {
            if (path != null) {
                outputs.file(name, path);
            }
        });
    }

    private int run(PrintStream print, Outputs outputs) {
        List<Problem> notes = new ArrayList<>();
        PaymentGrid paid = paid();
        HoldingSheet held = costs == null ? null : HoldingReader.read(Source.of(costs), form);
        HoldOrSell decides = decides(paid, held, notes);
        List<String> head = new ArrayList<>();
        notes.forEach(note -> head.add("Note: " + note));
        Shown shown;
        StringBuilder pictures = new StringBuilder();
        List<Problem> problems = List.of();
        if (pen == null) {
            Forecast forecast = bound(() -> decides.forecast(animal(held)));
            shown = forecast;
            pictures.append(Pictures.saleDays(forecast).toSvg()).append('\n');
            if (out != null) {
                FrameFile.write(forecast.toFrame(), out, outputs);
            }
        } else {
            PenSheet sheet = PenReader.read(Source.of(pen), form, gain(held), day());
            problems = sheet.problems();
            head.add("Pen " + pen + ": " + Numbers.counted(sheet.animals().size(), "animal", "animals") + ", "
                    + Numbers.counted(problems.size(), "problem", "problems"));
            problems.forEach(problem -> head.add("  " + problem));
            if (sheet.animals().isEmpty()) {
                throw new InvalidDataException(problems);
            }
            PenForecast forecast = bound(() -> decides.pen(sheet.animals()));
            shown = load == null ? forecast : loads(forecast, load);
            pictures.append(Pictures.saleDays(forecast).toSvg()).append('\n');
            forecast.drawList().stream()
                    .limit(MOST_PICTURES)
                    .forEach(one ->
                            pictures.append(Pictures.saleDays(one).toSvg()).append('\n'));
            if (out != null) {
                FrameFile.write(forecast.daysFrame(), out, outputs);
            }
        }
        List<String> written = new ArrayList<>();
        if (out != null) {
            written.add("Figures written to " + out);
        }
        if (html != null) {
            Blocks found =
                    new Blocks().sentences(head.stream().map(String::strip).toList());
            outputs.write(html, HtmlPage.of(title(), found.toHtml() + shown.toHtml() + pictures));
            written.add("Page written to " + html);
        }
        outputs.finish();
        head.forEach(print::println);
        if (!head.isEmpty()) {
            print.println();
        }
        print.print(shown.toText());
        if (!written.isEmpty()) {
            print.println();
            written.forEach(print::println);
        }
        return problems.isEmpty() ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
    }

    private String title() {
        return pen == null ? "Hold or sell" : "Hold or sell: " + pen.getFileName();
    }

    private Shown loads(PenForecast forecast, int head) {
        try {
            return forecast.blocks(head);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException("--load: " + e.getMessage());
        }
    }

    private @Nullable LocalDate day() {
        String text = options.value("--day");
        if (text == null) {
            return null;
        }
        try {
            return LocalDate.parse(text);
        } catch (DateTimeParseException e) {
            throw new Options.UsageException("--day \"" + text + "\" is not a day such as 2026-11-03");
        }
    }

    private @Nullable DayCurve gain(@Nullable HoldingSheet held) {
        Double own = number("--gain");
        if (own != null) {
            if (Math.abs(own) > FinishAnimal.MOST_GAIN_KG) {
                throw new Options.UsageException("--gain " + Numbers.exact(own) + " kg a day is outside -"
                        + Numbers.exact(FinishAnimal.MOST_GAIN_KG) + " to " + Numbers.exact(FinishAnimal.MOST_GAIN_KG));
            }
            return DayCurve.constant(own);
        }
        return held == null ? null : held.gain().orElse(null);
    }

    private FinishAnimal animal(@Nullable HoldingSheet held) {
        DayCurve gain = gain(held);
        if (gain == null) {
            throw new Options.UsageException("--gain is missing, and no costs file says what animals gain");
        }
        Category category = parsed("--category", () -> Category.parse(options.needed("--category")));
        Conformation conformation =
                parsed("--conformation", () -> Conformation.parse(options.needed("--conformation")));
        FatClass fatClass = parsed("--fat-class", () -> FatClass.parse(options.needed("--fat-class")));
        Double live = number("--live-kg");
        FinishAnimal animal = live != null
                ? parsed("--live-kg", () -> FinishAnimal.ofLiveKg(category, conformation, fatClass, live, gain))
                : parsed(
                        "--cold-kg",
                        () -> FinishAnimal.ofColdKg(
                                category, conformation, fatClass, Objects.requireNonNull(number("--cold-kg")), gain));
        String tag = options.value("--tag");
        FinishAnimal tagged = tag == null ? animal : animal.withId(tag);
        Double killingOut = number("--killing-out");
        FinishAnimal killed = killingOut == null
                ? tagged
                : parsed("--killing-out", () -> tagged.withKillingOut(killingOut / PER_CENT));
        Double months = number("--age-months");
        return months == null ? killed : parsed("--age-months", () -> killed.withAge(Age.months(months)));
    }

    private static <T> T parsed(String option, Supplier<T> parse) {
        try {
            return parse.get();
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(option + ": " + e.getMessage());
        }
    }

    private PaymentGrid paid() {
        if (grid != null) {
            return PaymentGridReader.read(Source.of(grid), form, GradeReading.THIRDS)
                    .with(edge);
        }
        double price = Options.number("--price", options.needed("--price"));
        return parsed(
                "--price",
                () -> PaymentGrid.builder(options.valueOr("--currency", "EUR"))
                        .base(null, price)
                        .grade(null, null, null, 0)
                        .build());
    }

    private HoldOrSell decides(PaymentGrid paid, @Nullable HoldingSheet held, List<Problem> notes) {
        HoldOrSell.Builder builder = HoldOrSell.builder(paid);
        if (held != null) {
            checkCurrency(held, paid);
            builder.costs(held.costs()).assumptions(held.assumptions());
        }
        MarketSpecification wanted = market == null
                ? null
                : MarketSpecificationReader.read(Source.of(market), form).get(0).with(edge);
        if (wanted != null) {
            builder.market(wanted);
        } else if (paid.asksForSpecification()) {
            throw new InvalidDataException(List.of(new Problem(
                    String.valueOf(grid),
                    0,
                    "line",
                    "specification",
                    "the grid has a bonus for being in specification: say with --market what that is")));
        }
        if (moves != null) {
            builder.priceMoves(PriceMoveReader.read(Source.of(moves), form, paid.currency()));
        }
        if (prices != null) {
            builder.valuer(valuer(prices, notes));
        }
        Integer days = whole("--days");
        if (days != null) {
            parsed("--days", () -> builder.days(days));
        }
        return prices == null ? builder.build() : bound(prices, builder::build);
    }

    private void checkCurrency(HoldingSheet held, PaymentGrid paid) {
        if (!held.currency().isEmpty() && !held.currency().equals(paid.currency())) {
            throw new InvalidDataException(List.of(new Problem(
                    String.valueOf(costs),
                    0,
                    "unit",
                    held.currency(),
                    "costs are in " + held.currency() + ", but " + paid.currency() + " is paid; give both in one")));
        }
    }

    private Valuer valuer(Path file, List<Problem> notes) {
        YieldEstimator all = YieldEstimator.of(NamedTable.readOrShipped(table));
        String specification = options.value("--specification");
        YieldEstimator estimator =
                specification == null ? all : parsed("--specification", () -> all.withSpecification(specification));
        var list = PriceListReader.read(Source.of(file), form, notes::add);
        return bound(file, () -> Valuer.of(list, estimator));
    }

    private static <T> T bound(Path file, Supplier<T> binding) {
        try {
            return binding.get();
        } catch (IllegalArgumentException e) {
            throw new InvalidDataException(
                    List.of(new Problem(file.toString(), 0, "", "", String.valueOf(e.getMessage()))), e);
        }
    }

    /** An animal may become what the grid doesn't pay. */
    private <T> T bound(Supplier<T> forecast) {
        Path file = grid != null ? grid : pen;
        return file == null ? parsed("--price", forecast) : bound(file, forecast);
    }
}
