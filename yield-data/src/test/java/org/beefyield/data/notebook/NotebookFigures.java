package org.beefyield.data.notebook;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.beefyield.boning.TrialSet;
import org.beefyield.calibrate.BreakdownFit;
import org.beefyield.calibrate.Calibration;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.boning.TrialReader;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.trade.PaymentGridReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.Valuer;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Numbers;

/**
 * What a reader has to find in the outputs of the notebooks, by cell. Sums are taken carcass by carcass here, where the
 * notebooks have whole lots; figures of one carcass and of the trials are those that the guide's samples and
 * {@code TrialReaderTest} hold too.
 */
final class NotebookFigures {
    private static final Pattern COMMA = Pattern.compile(",");
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();

    private NotebookFigures() {}

    /**
     * The figures of a notebook.
     *
     * @param notebook its name
     * @param examples the folder with the sample files
     */
    static Map<String, List<String>> of(String notebook, Path examples) throws IOException {
        return switch (notebook) {
            case "what-will-this-lot-yield" -> lot(examples);
            case "our-own-table" -> table(examples);
            case "a-year-of-carcasses" -> year();
            case "what-did-the-hall-do" -> season();
            case "whom-to-cut-for" -> plan(examples);
            case "hold-or-sell" -> pen();
            default -> throw new IllegalArgumentException("no notebook \"" + notebook + '"');
        };
    }

    private static Map<String, List<String>> lot(Path examples) throws IOException {
        List<Carcass> carcasses =
                KillSheetReader.read(examples.resolve("tarrowmere-2026-11.csv")).carcasses();
        YieldEstimator estimator =
                YieldEstimator.of(SHIPPED).withSpecification("steaks").with(MinceTarget.fatPercent(15));
        Valuer valuer = Valuer.of(PriceListReader.read(examples.resolve("tarrowmere-prices.csv")), estimator);
        PaymentGrid grid = PaymentGridReader.read(examples.resolve("tarrowmere-grid.csv"));
        double kg = 0;
        List<String> sheet = Files.readAllLines(examples.resolve("tarrowmere-2026-11.csv"));
        for (String line : sheet.subList(1, sheet.size())) {
            kg += Double.parseDouble(COMMA.split(line, -1)[7]);
        }
        double fillet = sum(carcasses, carcass -> estimator.estimate(carcass).kg("fillet-steak"));
        double worth = sum(carcasses, carcass -> valuer.value(carcass).amount());
        BigDecimal paid = carcasses.stream()
                .map(carcass -> grid.paid(carcass).money().amount())
                .reduce(BigDecimal.ZERO, BigDecimal::add);
        long overfat = carcasses.stream()
                .filter(carcass -> carcass.fatClass().position() > 11) // 4= and 4 count as 4L
                .count();
        Map<String, List<String>> figures = new LinkedHashMap<>();
        figures.put("files", List.of(carcasses.size() + " carcasses, 0 rows with a problem"));
        figures.put(
                "messy",
                List.of(
                        "7 carcasses can be used",
                        "14 cold_weight_kg cold weight 0 kg is not above 0 and at most 1200 kg"));
        figures.put("carcass", List.of("Striploin 16.25 4.8 11.64 20.87", "Total 340.00 100.0"));
        figures.put(
                "lot",
                List.of(
                        "200 carcasses, " + Numbers.fixed(kg, 1) + " kg cold",
                        "Total " + tens(kg) + " 100.0",
                        "Fillet steak " + tens(fillet)));
        figures.put("becomes", List.of("What a carcass becomes", "Rump steak 15.8"));
        figures.put("by-grade", List.of("Saleable meat by grade"));
        figures.put("intervals", List.of("Fillet steak 6.0, 4.2 to 7.8"));
        figures.put("grades", List.of("Value by grade", "Value less payment by grade"));
        figures.put("suppliers", List.of("Total " + Numbers.fixed(kg, 2)));
        figures.put(
                "every-carcass",
                List.of(carcasses.get(0).id().orElseThrow(), "cold weight, kg meat, kg meat share, %"));
        // kinds are rounded so that they add up to the printed total: one may be a ten off
        figures.put("cutting", List.of("kind steaks, kg joints, kg trim, kg Steak", "Total 66870 66870 66870"));
        // no more of the worth of a lot than its interval leaves sure
        figures.put(
                "worth",
                List.of(
                        "Worth " + Numbers.fixed(1000 * Math.rint(worth / 1000), 0) + " EUR",
                        "Total " + Numbers.fixed(worth, 2)));
        figures.put("margin", List.of(Numbers.fixed(worth, 0) + ' ' + Numbers.fixed(paid.doubleValue(), 0)));
        figures.put(
                "u-against-o",
                List.of(
                        "The U= 3= steer is worth 255.27 EUR more than the O= 3= steer of the same 340 kg, all of it for"
                                + " conformation: 6.6 kg more steaks, 7.9 kg more joints, 15.0 kg less bone."));
        figures.put("overfat", List.of(overfat + " carcasses are fatter than 4L"));
        return figures;
    }

    /** As kg of the lot are printed. */
    private static String tens(double kg) {
        return Long.toString(10 * Math.round(kg / 10));
    }

    private static double sum(List<Carcass> carcasses, ToDoubleFunction<Carcass> figure) {
        return carcasses.stream().mapToDouble(figure).sum();
    }

    /** The faults that {@code TarrowmereSeason} puts in, and the figures that the guide has of them. */
    private static Map<String, List<String>> season() {
        return Map.of(
                "files",
                List.of("Tarrowmere: 60 runs, 2026-01-05 to 2026-03-27; 3 alarms", "589.3 kg more came out"),
                "alarms",
                List.of(
                        "losses, unweighed 2026-03-04 2026-03-04 2026-03-06 3 6.61",
                        "Fillet steak 2026-03-16 2026-03-16 2026-03-16 1 6.43 43.7 1486.41"),
                "trace",
                List.of("106.2 kg of FILLET boxed, 61.2 kg expected"));
    }

    /** Head and kg as the kill sheet has them, money and missing kg as the guide has them of the same day. */
    private static Map<String, List<String>> plan(Path examples) throws IOException {
        List<Carcass> carcasses =
                KillSheetReader.read(examples.resolve("plan/chill.csv")).carcasses();
        String head = carcasses.size() + " carcasses, ";
        Map<String, List<Carcass>> lots = carcasses.stream()
                .collect(Collectors.groupingBy(carcass -> carcass.lot().orElseThrow()));
        return Map.of(
                "files",
                List.of(head + "7 orders"),
                "plan",
                List.of(
                        head + Numbers.fixed(sum(carcasses, Carcass::coldWeightKg), 0)
                                + " kg cold: 6 of 7 orders expected to be met, 524494 EUR expected",
                        "T-503 Bridge Foods topside-joint 1200 0 1200.0 0 0"),
                "freedom",
                List.of("one cutting specification for all 504748 1174.3"),
                "dropped",
                lots.entrySet().stream()
                        .map(lot -> lot.getKey()
                                + ' '
                                + (carcasses.size() - lot.getValue().size())
                                + ' ')
                        .toList());
    }

    /** As the guide's sample of the command has them. */
    private static Map<String, List<String>> pen() {
        return Map.of(
                "files",
                List.of("14 animals, 0 rows with a problem"),
                "pen",
                List.of("14 animals: 4 are best sold today, the last on day 53.", "27717.11 EUR", "27934.27 EUR"));
    }

    /** The year is drawn in the notebook; it has the same figures wherever it is drawn. */
    private static Map<String, List<String>> year() {
        return Map.of(
                "year",
                List.of("5000 carcasses from 2025-01-02 to 2025-12-25"),
                "estimates",
                List.of(
                        "00108 Tarrow farm 29 2025-01-09 841.30 cold weight 841.3 kg is 241.3 kg outside the allowed range",
                        "Total 1716833.80",
                        "3991 of 4991 rows are left out where the three dots stand"),
                "months",
                List.of("2025-01 439 149963.10 341.60 38.03 290.06 387.82", "Total 4991 1716833.80"),
                "suppliers",
                List.of("Tarrow farm 40 105 36377.70 346.45 36.46"),
                "classes",
                List.of("E 4 9 388.56", "P 5 1 300.70"),
                "files",
                List.of("read back as written", "00134 2025-01-09 347.20"));
    }

    private static Map<String, List<String>> table(Path examples) {
        TrialSet trials = TrialSet.of(
                SHIPPED,
                TrialReader.read(examples.resolve("tarrowmere-trials.csv"), SHIPPED).trials().stream()
                        .filter(trial -> !trial.day().equals("2026-03-19"))
                        .toList());
        BreakdownFit meat = Calibration.of(trials).fit().fit("meat");
        return Map.of(
                "trials",
                List.of("300 trials, 0 rows with a problem"),
                "balance",
                List.of("carcass TH-267: 19.6 kg of 362.2 kg (5.4 %) are missing; at most 2 % may"),
                "calibrate",
                List.of("day 2026-03-19 is off: its 11 carcasses average loss +9.6 g/kg (t = 8.0)"),
                "without-the-day",
                List.of("Breakdown of carcass, " + trials.accepted().size() + " carcasses"),
                "learnt",
                List.of("chuck-neck meat "
                        + Numbers.fixed(meat.priorCoefficient("chuck-neck", "level_g_per_kg"), 1)
                        + ' '
                        + Numbers.fixed(meat.coefficient("chuck-neck", "level_g_per_kg"), 1)),
                "prove",
                List.of("Proved over categories C E A B D"),
                "compare",
                List.of("Largest change of each cut", "chuck-neck primal +5."),
                "ordinary",
                List.of("Topside 23.4 6.0 23.", "Total 340.0 340.0 0.0"),
                "keep",
                List.of("read back as written"),
                "regression",
                List.of("bone +2 g/kg yes", "bone +8 g/kg no meat (tissue), bone (tissue)"));
    }
}
