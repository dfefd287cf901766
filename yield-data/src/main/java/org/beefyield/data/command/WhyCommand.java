package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.Outputs;
import org.beefyield.data.file.HtmlPage;
import org.beefyield.data.frame.FrameFile;
import org.beefyield.data.picture.Pictures;
import org.beefyield.price.Attribution;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.text.Names;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/** Why one animal, farm or lot returned more or less than another: prints the reasons in kg and money. */
final class WhyCommand {
    static final String USAGE = """
            Why one animal, farm or lot is worth more or less than another, in kg and money, by cause and by cut.
              --id ID               an animal, by its carcass id
              --supplier NAME       a farm; with --against last its latest kill day
              --lot NAME            a lot
              --against OTHER       another animal, farm or lot; or
                                    average  what else the hall has, of an animal's category
                                    last     what the farm sent on the kill day before
              --out FILE            the reasons by cut as data (CSV)
            """ + SheetOptions.USAGE + """
            Exit code 0: all good; 4: some rows of the sheet were left out; 2: it could not run.
            """;

    private static final List<String> NAMED = Stream.concat(
                    Stream.of("--id", "--supplier", "--lot", "--against", "--out"), SheetOptions.NAMED.stream())
            .toList();

    /** What is asked about. */
    private enum Of {
        ID("--id", "carcass", Carcass::id),
        SUPPLIER("--supplier", "farm", Carcass::supplier),
        LOT("--lot", "lot", Carcass::lot);

        private final String option;
        private final String words;
        // a function without state of its own
        @SuppressWarnings("ImmutableEnumChecker")
        private final Function<Carcass, Optional<String>> key;

        Of(String option, String words, Function<Carcass, Optional<String>> key) {
            this.option = option;
            this.words = words;
            this.key = key;
        }
    }

    private final SheetOptions sheet;
    private final Of of;
    private final String name;
    private final String against;
    private final @Nullable Path out;

    WhyCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, SheetOptions.FLAGS);
        sheet = new SheetOptions(options);
        List<Of> asked = Stream.of(Of.values())
                .filter(one -> options.value(one.option) != null)
                .toList();
        if (asked.size() != 1) {
            throw new Options.UsageException("give one of --id, --supplier and --lot");
        }
        of = asked.get(0);
        name = options.needed(of.option);
        against = options.needed("--against");
        out = options.optionalPath("--out");
    }

    int run(PrintStream print) {
        try (Outputs outputs = new Outputs()) {
            sheet.claim(outputs);
            if (out != null) {
                outputs.file("--out", out);
            }
            return run(print, outputs);
        }
    }

    private int run(PrintStream print, Outputs outputs) {
        Valuer valuer = sheet.valuer();
        SheetOptions.Read read = sheet.read(sheet.killSheet(), valuer.estimator());
        List<Carcass> mine = mine(read.carcasses());
        Attribution why = Attribution.of(
                value(valuer, mine, name), value(valuer, others(read.carcasses(), mine), otherName(mine)));
        if (out != null) {
            FrameFile.write(why.toFrame(), out, outputs);
        }
        if (sheet.page() != null) {
            outputs.write(
                    sheet.page(),
                    HtmlPage.of(
                            "Why " + name + " returned more or less",
                            "<h1>" + TextTable.escape("Why " + name + " returned more or less") + "</h1>\n"
                                    + Pictures.attribution(why).toSvg() + why.toHtml()));
        }
        outputs.finish();
        print.println(read.sentence());
        print.println();
        print.print(why.toText());
        read.left().forEach(problem -> print.println("Note: " + problem));
        if (sheet.page() != null) {
            print.println();
            print.println("Page written to " + sheet.page());
        }
        return read.left().isEmpty() ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
    }

    private static Value value(Valuer valuer, List<Carcass> carcasses, String title) {
        return carcasses.size() == 1
                ? valuer.value(carcasses.get(0))
                : valuer.value(valuer.estimator().estimateLot(carcasses).withName(title));
    }

    private List<Carcass> mine(List<Carcass> all) {
        List<Carcass> found = named(all, name);
        return of == Of.SUPPLIER && against.equals("last") ? ofDay(found, lastDay(found)) : found;
    }

    private List<Carcass> named(List<Carcass> all, String asked) {
        List<Carcass> found = all.stream()
                .filter(carcass -> of.key.apply(carcass).equals(Optional.of(asked)))
                .toList();
        if (found.isEmpty()) {
            List<String> known = all.stream()
                    .map(of.key)
                    .flatMap(Optional::stream)
                    .distinct()
                    .toList();
            throw new Options.UsageException("no " + of.words + " \"" + asked + "\" with an estimate in "
                    + sheet.killSheet() + (known.isEmpty() ? "" : "; near it: " + Names.nearest(asked, known)));
        }
        if (of == Of.ID && found.size() > 1) {
            throw new Options.UsageException(
                    "carcass \"" + asked + "\" stands " + found.size() + " times in " + sheet.killSheet());
        }
        return found;
    }

    private List<Carcass> others(List<Carcass> all, List<Carcass> mine) {
        return switch (against) {
            case "average" ->
                rest(
                        all,
                        carcass -> !mine.contains(carcass)
                                && (of != Of.ID
                                        || carcass.category() == mine.get(0).category()),
                        "the sheet has nothing else to compare " + name + " with"
                                + (of == Of.ID
                                        ? " of its category " + mine.get(0).category()
                                        : ""));
            case "last" -> dayBefore(all, mine);
            default -> named(all, against);
        };
    }

    private List<Carcass> dayBefore(List<Carcass> all, List<Carcass> mine) {
        String supplier = mine.get(0)
                .supplier()
                .orElseThrow(() -> new Options.UsageException(
                        "--against last needs the supplier of " + name + ", and the sheet names none"));
        String day = lastDay(mine);
        String none = "the sheet has nothing that " + supplier + " sent before " + day;
        List<Carcass> before = rest(
                all,
                carcass -> carcass.supplier().equals(Optional.of(supplier))
                        && carcass.killDate()
                                .filter(date -> date.compareTo(day) < 0)
                                .isPresent(),
                none);
        return ofDay(before, lastDay(before));
    }

    private static List<Carcass> ofDay(List<Carcass> carcasses, String day) {
        return carcasses.stream()
                .filter(carcass -> carcass.killDate().equals(Optional.of(day)))
                .toList();
    }

    private String lastDay(List<Carcass> carcasses) {
        return carcasses.stream()
                .map(Carcass::killDate)
                .flatMap(Optional::stream)
                .max(Comparator.naturalOrder())
                .orElseThrow(() -> new Options.UsageException(
                        "--against last needs the kill day of " + name + ", and the sheet has none"));
    }

    private static List<Carcass> rest(List<Carcass> all, Predicate<Carcass> condition, String ifNone) {
        List<Carcass> rest = all.stream().filter(condition).toList();
        if (rest.isEmpty()) {
            throw new Options.UsageException(ifNone);
        }
        return rest;
    }

    private String otherName(List<Carcass> mine) {
        return switch (against) {
            case "average" ->
                of == Of.ID ? "the hall's other " + mine.get(0).category().plural() : "the rest of the hall";
            case "last" -> "the farm's kill day before";
            default -> against;
        };
    }
}
