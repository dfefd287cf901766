package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.beefyield.boning.Product;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.boning.ProductReader;
import org.beefyield.data.file.HtmlPage;
import org.beefyield.data.frame.FrameFile;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.picture.Pictures;
import org.beefyield.data.solver.OjAlgoSolver;
import org.beefyield.data.trade.LabourRateReader;
import org.beefyield.data.trade.MarketSpecificationReader;
import org.beefyield.data.trade.OrderReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.data.trade.SizeWindowReader;
import org.beefyield.data.trade.StockReader;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.lp.UnsolvedProgramException;
import org.beefyield.market.MarketSpecification;
import org.beefyield.plan.LabourRate;
import org.beefyield.plan.Plan;
import org.beefyield.plan.PlanFreedom;
import org.beefyield.plan.Planner;
import org.beefyield.price.PriceList;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** What to cut for whom: tomorrow's carcasses against orders. */
final class PlanCommand {
    static final String USAGE = """
            Plans a day: which cut of which carcasses goes which way, for which order.
              plan --killsheet FILE        the carcasses that can be cut (CSV)
              --orders FILE                orders (CSV), a row for each
              --prices FILE                price list (CSV): what brings what no order takes
              --stock FILE                 what lies in the chill already (CSV)
              --market FILE                market specifications (CSV) that orders name as their carcasses
              --windows FILE               pack sizes (CSV): pieces that can't go the way that needs the size
              --products FILE              the hall's products (CSV), if orders name them
              --labour FILE                how fast the hall cuts (CSV)
              --hours HOURS                hours of all people together that day; needs --labour
              --hour-price AMOUNT          what an hour costs; needs --labour
              --margin PERCENT             cut so much more for each order than it asks for at least, as far as it takes it
              --promise PERCENT            how sure a promise is; else 95
              --choose piece|primal|carcass|fixed   what may be chosen: a way for each cut by the weight of its piece, for each
                                           cut, a specification for each carcass, or nothing; else piece
              --less                       say too what the day brings if less may be chosen
              --prices-of-limits           say too what a kg more or less of each order, and an hour, is worth
              --own-hall                   your hall cuts as the table does: chances and promises leave out that halls differ
              --cells NUMBER               how finely carcasses are told apart; else 40
              --table FOLDER|ZIP           yield table, or the name of a shipped edition; else the edition boneless-2026
              --specification NAME         the specification it is compared with; else the table's first
              --list FILE                  where the list of the hall goes (CSV), a row for each carcass, cut and way
              --out FILE                   where the orders go (CSV), a row for each
              --report FILE                write what is printed as a page (HTML), with a picture
            If the kill sheet hasn't grades in thirds and a row for each carcass:
            """ + KillSheetOptions.USAGE + """
            If the files aren't comma-separated UTF-8 with decimal points:
            """ + FormOptions.USAGE + """
            Exit code 0: all good; 4: some rows are refused, or orders that may not be short can't be met; 2: it could not run.
            """;

    private static final List<String> FILES =
            List.of("--orders", "--prices", "--stock", "--market", "--windows", "--products", "--labour");
    private static final List<String> OUTPUTS = List.of("--list", "--out", "--report");
    private static final List<String> NAMED = Stream.of(
                    FILES,
                    OUTPUTS,
                    List.of(
                            "--killsheet",
                            "--hours",
                            "--hour-price",
                            "--margin",
                            "--promise",
                            "--choose",
                            "--cells",
                            "--table",
                            "--specification"),
                    KillSheetOptions.NAMED,
                    FormOptions.NAMED)
            .flatMap(List::stream)
            .toList();
    private static final List<String> FLAGS = Stream.of(
                    List.of("--help", "--own-hall", "--less", "--prices-of-limits"),
                    KillSheetOptions.FLAGS,
                    FormOptions.FLAGS)
            .flatMap(List::stream)
            .toList();

    private final Path killSheet;
    private final Map<String, Path> files = new LinkedHashMap<>();
    private final Map<String, Path> outputs = new LinkedHashMap<>();
    private final double hours;
    private final double hourPrice;
    private final double margin;
    private final double promised;
    private final PlanFreedom freedom;
    private final boolean ownHall;
    private final boolean less;
    private final boolean limits;
    private final int cells;
    private final @Nullable NamedTable table;
    private final @Nullable String specification;
    private final CsvForm form;
    private final KillSheetFormat format;

    PlanCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, FLAGS);
        killSheet = Options.path(options.needed("--killsheet"));
        options.needed("--orders");
        options.needed("--prices");
        keep(options, FILES, files);
        keep(options, OUTPUTS, outputs);
        for (String needing : List.of("--hours", "--hour-price")) {
            if (options.value(needing) != null && !files.containsKey("--labour")) {
                throw new Options.UsageException(needing + " needs --labour");
            }
        }
        hours = number(options, "--hours", Double.POSITIVE_INFINITY);
        hourPrice = number(options, "--hour-price", 0);
        margin = number(options, "--margin", 0) / 100;
        if (margin < 0) {
            throw new Options.UsageException(
                    "--margin \"" + options.value("--margin") + "\" is below 0; give per cent, such as 3");
        }
        promised = number(options, "--promise", 100 * Planner.USUAL_PROMISE) / 100;
        if (!(promised > 0 && promised < 1)) {
            throw new Options.UsageException("--promise \"" + options.value("--promise")
                    + "\" is outside 0 to 100 (both excluded); give per cent, such as 95");
        }
        freedom = freedom(options.valueOr("--choose", "piece"));
        ownHall = options.has("--own-hall");
        less = options.has("--less");
        limits = options.has("--prices-of-limits");
        double most = number(options, "--cells", Planner.USUAL_CELLS);
        if (most < 1 || most > Integer.MAX_VALUE || most != Math.rint(most)) {
            throw new Options.UsageException(
                    "--cells \"" + options.value("--cells") + "\" is no whole number of 1 or more, such as 40");
        }
        cells = (int) most;
        table = NamedTable.optional(options, "--table");
        specification = options.value("--specification");
        form = FormOptions.form(options);
        format = KillSheetOptions.format(options, form);
    }

    private static void keep(Options options, List<String> names, Map<String, Path> kept) {
        for (String name : names) {
            Path path = options.optionalPath(name);
            if (path != null) {
                kept.put(name, path);
            }
        }
    }

    private static double number(Options options, String name, double otherwise) {
        String value = options.value(name);
        return value == null ? otherwise : Options.number(name, value);
    }

    private static PlanFreedom freedom(String name) {
        for (PlanFreedom one : PlanFreedom.values()) {
            if (one.name().toLowerCase(Locale.ROOT).equals(name)) {
                return one;
            }
        }
        throw new Options.UsageException("--choose \"" + name + "\" is none of piece, primal, carcass, fixed");
    }

    int run(PrintStream print) {
        try (Outputs written = new Outputs()) {
            written.input("--killsheet", killSheet);
            files.forEach(written::input);
            if (table != null) {
                table.claim(written);
            }
            outputs.forEach(written::file);
            return run(print, written);
        }
    }

    private int run(PrintStream print, Outputs written) {
        YieldTable yieldTable = NamedTable.readOrShipped(table);
        List<String> head = new ArrayList<>();
        KillSheet sheet = KillSheetReader.read(Source.of(killSheet), format);
        head.add("Kill sheet " + killSheet + ": "
                + Numbers.counted(sheet.carcasses().size(), "carcass", "carcasses")
                + (sheet.problems().isEmpty()
                        ? ""
                        : "; " + Numbers.counted(sheet.problems().size(), "refusal", "refusals") + ":"));
        sheet.problems().forEach(problem -> head.add("  " + problem));
        Planner planner = bound(() -> planner(yieldTable, head));
        Plan plan = solved(() -> planner.plan(sheet.carcasses()));
        Blocks body = plan.blocks();
        if (less) {
            body.sentence("What the day brings by what may be chosen:")
                    .add(plan.besideTable(lessFreedom(planner, sheet)));
        }
        if (limits) {
            body.sentence("What limits cost:").add(plan.limitsTable(planner.limits(sheet.carcasses())));
        }
        List<String> said = write(written, head, plan, body);
        written.finish();
        head.forEach(print::println);
        print.println();
        print.print(body.toText());
        if (!said.isEmpty()) {
            print.println();
            said.forEach(print::println);
        }
        return sheet.problems().isEmpty()
                        && plan.refused().isEmpty()
                        && plan.conflict().isEmpty()
                ? ExitCode.GOOD
                : ExitCode.SOME_REFUSED;
    }

    private List<Plan> lessFreedom(Planner planner, KillSheet sheet) {
        List<Plan> plans = new ArrayList<>();
        for (PlanFreedom chosen : PlanFreedom.values()) {
            if (chosen.compareTo(freedom) < 0) {
                plans.add(0, solved(() -> planner.choosing(chosen).plan(sheet.carcasses())));
            }
        }
        return plans;
    }

    private Planner planner(YieldTable yieldTable, List<String> head) {
        PriceList prices = PriceListReader.read(source("--prices"), form, note -> head.add("  " + note));
        List<MarketSpecification> markets =
                files.containsKey("--market") ? MarketSpecificationReader.read(source("--market"), form) : List.of();
        OrderReader.Orders orders = OrderReader.read(source("--orders"), form, markets);
        if (!orders.currency().isEmpty()) {
            prices.checkCurrency(orders.currency());
        }
        List<Product> products = files.containsKey("--products")
                ? ProductReader.read(source("--products"), form, yieldTable)
                : List.of();
        List<LabourRate> labour =
                files.containsKey("--labour") ? LabourRateReader.read(source("--labour"), form) : List.of();
        YieldEstimator estimator = YieldEstimator.of(yieldTable, specification(yieldTable));
        return Planner.builder(ownHall ? estimator.inOwnHall() : estimator, prices, OjAlgoSolver.create())
                .orders(orders.orders())
                .stock(files.containsKey("--stock") ? StockReader.read(source("--stock"), form) : List.of())
                .windows(files.containsKey("--windows") ? SizeWindowReader.read(source("--windows"), form) : List.of())
                .products(products)
                .labour(labour, hours, hourPrice)
                .margin(margin)
                .promised(promised)
                .freedom(freedom)
                .cells(cells)
                .build();
    }

    private Source source(String option) {
        return Source.of(Objects.requireNonNull(files.get(option), option));
    }

    private CuttingSpecification specification(YieldTable yieldTable) {
        if (specification != null) {
            return yieldTable.specification(specification);
        }
        List<CuttingSpecification> all = yieldTable.specifications();
        return all.isEmpty() ? CuttingSpecification.NONE : all.get(0);
    }

    private static <T> T bound(Supplier<T> binding) {
        try {
            return binding.get();
        } catch (InvalidDataException e) {
            throw e;
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
    }

    private Plan solved(Supplier<Plan> planning) {
        try {
            return planning.get();
        } catch (IllegalArgumentException | UnsolvedProgramException e) {
            throw new InvalidDataException(
                    List.of(new Problem(killSheet.toString(), 0, "", "", String.valueOf(e.getMessage()))), e);
        }
    }

    private List<String> write(Outputs written, List<String> head, Plan plan, Blocks body) {
        List<String> said = new ArrayList<>();
        Path list = outputs.get("--list");
        if (list != null) {
            FrameFile.write(plan.cutsToFrame(), list, written);
            said.add("List of the hall written to " + list);
        }
        Path out = outputs.get("--out");
        if (out != null) {
            FrameFile.write(plan.toFrame(), out, written);
            said.add("Orders written to " + out);
        }
        Path report = outputs.get("--report");
        if (report != null) {
            Blocks found =
                    new Blocks().sentences(head.stream().map(String::strip).toList());
            written.write(
                    report,
                    HtmlPage.of(
                            "Plan of " + killSheet.getFileName(),
                            found.toHtml() + "<p>" + Pictures.orders(plan).toSvg() + "</p>\n" + body.toHtml()));
            said.add("Page written to " + report);
        }
        return said;
    }
}
