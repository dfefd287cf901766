package org.beefyield.data;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.boning.Trace;
import org.beefyield.boning.TrialSet;
import org.beefyield.calibrate.Calibration;
import org.beefyield.calibrate.RunCalibration;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.boning.TrialReader;
import org.beefyield.data.samples.TarrowmereTrials;
import org.beefyield.data.solver.OjAlgoSolver;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.trade.PaymentGridReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.data.trade.SizeWindowReader;
import org.beefyield.estimate.CarcassPart;
import org.beefyield.estimate.CarcassSample;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Frames;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.FeedbackSheets;
import org.beefyield.feedback.Overfat;
import org.beefyield.finish.Assumptions;
import org.beefyield.finish.DayCurve;
import org.beefyield.finish.FinishAnimal;
import org.beefyield.finish.HoldOrSell;
import org.beefyield.market.MarketSpecification;
import org.beefyield.market.MarketSummary;
import org.beefyield.pack.PackFit;
import org.beefyield.pack.PackSummary;
import org.beefyield.pay.GradeDifferentials;
import org.beefyield.pay.MarginReport;
import org.beefyield.pay.Overpayment;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.plan.Order;
import org.beefyield.plan.Planner;
import org.beefyield.price.Attribution;
import org.beefyield.price.TwoTables;
import org.beefyield.price.Valuer;
import org.beefyield.reconcile.Halls;
import org.beefyield.reconcile.Reconciler;
import org.beefyield.reconcile.Season;
import org.beefyield.report.Compared;
import org.beefyield.report.Comparison;
import org.beefyield.report.Day;
import org.beefyield.report.TrimmedParts;
import org.beefyield.report.Unexplained;
import org.beefyield.table.TableComparison;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Shown;
import org.beefyield.text.TextTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Document;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** Every type of result as people see it: one of each, of a carcass whose id, lot and supplier would break a page. */
class ShownTest {
    private static final String HOSTILE = "<b>&\"Mere\"'</b>";
    private static final Pattern BLANKS = Pattern.compile("\\s+");
    private static final Map<String, Shown> SHOWN = shown();

    private static Path example(String file) {
        return Path.of(System.getProperty("basedir", ""), "examples", file);
    }

    private static Map<String, Shown> shown() {
        YieldTable table = ShippedTables.boneless2026();
        YieldEstimator estimator = YieldEstimator.of(table).with(MinceTarget.fatPercent(5));
        Valuer valuer = Valuer.of(
                PriceListReader.read(example("tarrowmere-prices.csv")),
                YieldEstimator.of(table).with(MinceTarget.fatPercent(15)));
        PaymentGrid grid = PaymentGridReader.read(example("tarrowmere-grid.csv"));
        MarketSpecification market =
                MarketSpecification.builder(HOSTILE).coldWeightKg(270, 380).build();
        Carcass steer = Carcass.of(Category.STEER, Conformation.parse("U="), FatClass.parse("4H"), 520)
                .withAgeMonths(26)
                .withId(HOSTILE)
                .withLot(HOSTILE)
                .withSupplier(HOSTILE);
        Carcass other = Carcass.of(Category.STEER, Conformation.parse("O="), FatClass.parse("3="), 340)
                .withSupplier(HOSTILE);
        YieldEstimate estimate = estimator.estimate(steer);
        PackFit packs = PackFit.of(valuer, SizeWindowReader.read(example("tarrowmere-windows.csv")));
        Overfat overfat = Overfat.against(valuer, FatClass.parse("4L")).withFeed(8, 3);
        MarginReport.Collector margins = MarginReport.collector(valuer, grid);
        Overpayment.Collector overpaid = Overpayment.collector(valuer, grid);
        MarketSummary.Collector inMarket = MarketSummary.collector(market);
        PackSummary.Collector inPacks = PackSummary.collector(packs);
        FeedbackSheets.Collector sheets = FeedbackSheets.builder(valuer.estimator())
                .market(market)
                .overfat(overfat)
                .shownPrices(valuer)
                .collector();
        for (Carcass carcass : List.of(steer, other)) {
            margins.add(carcass);
            overpaid.add(carcass);
            inMarket.add(carcass);
            inPacks.add(carcass);
            sheets.add(carcass);
        }
        CarcassSample sample = estimate.sample(new Random(1), 20);
        TrialSet trials = TrialSet.of(
                table, TrialReader.read(example(TarrowmereTrials.FILE), table).trials());
        TwoTables.Collector twoTables = TwoTables.collector(valuer, valuer);
        twoTables.add(steer);
        Product steaks = Product.of("S", HOSTILE, "striploin-steak");
        BoningRun run = new BoningRun(
                HOSTILE,
                "2026-11-03",
                IntakeWeighing.COLD_WEIGHED,
                List.of(Intake.of(steer, IntakePart.CARCASS, 515, Movement.BONED, HOSTILE)),
                List.of(Box.of("1", "S", HOSTILE, 21, 1)),
                List.of(Rest.of(RestKind.BONE, 90)));
        BoningRun elsewhere =
                new BoningRun("Mereside", run.day(), run.weighing(), run.intake(), run.boxes(), run.rest());
        Season season = Season.of(List.of(run), valuer, List.of(steaks));
        Trace trace = Trace.of(List.of(run));
        HoldOrSell holdOrSell =
                HoldOrSell.builder(grid).market(market).valuer(valuer).days(14).build();
        FinishAnimal animal = FinishAnimal.ofLiveKg(
                        Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 620, DayCurve.constant(1.2))
                .withId(HOSTILE);
        Map<String, Shown> shown = new LinkedHashMap<>();
        for (Shown one : List.of(
                estimate,
                estimator.estimateLot(List.of(steer, other)),
                sample,
                sample.carcasses().get(0),
                estimate.minus(estimator.estimate(other), Figure.cut("striploin")),
                estimate.support(),
                estimate.part(CarcassPart.side()),
                trace,
                trace.ofBoxes(List.of("1")),
                Reconciler.reconcile(run, valuer, List.of(steaks)),
                season,
                RunCalibration.of(List.of(run), YieldEstimator.of(table), List.of(steaks))
                        .fit(),
                Halls.of(List.of(season, Season.of(List.of(elsewhere), valuer, List.of(steaks)))),
                estimate.mince().orElseThrow(),
                valuer.value(steer),
                twoTables.result(),
                Planner.builder(YieldEstimator.of(table), valuer.prices(), OjAlgoSolver.create())
                        .orders(List.of(Order.builder(HOSTILE, "striploin-steak")
                                .customer(HOSTILE)
                                .kg(5, 10)
                                .build()))
                        .build()
                        .plan(List.of(steer, other)),
                Attribution.of(valuer.value(steer), valuer.value(other)),
                margins.result(),
                overpaid.result().since(overpaid.result()),
                Day.builder(HOSTILE)
                        .rows(4, 1, 1)
                        .refusals(Map.of(HOSTILE, 1L))
                        .lot(valuer.estimator().estimateLot(List.of(steer, other)))
                        .value(valuer.value(valuer.estimator().estimateLot(List.of(steer, other))), 5000)
                        .margins(margins.result())
                        .overpayment(overpaid.result())
                        .market(inMarket.result())
                        .promise(0.9)
                        .build(),
                Comparison.of(List.of(
                        new Compared(HOSTILE, valuer, valuer.estimator().estimateLot(List.of(steer)), null),
                        new Compared(
                                "Mereside",
                                valuer,
                                valuer.estimator().estimateLot(List.of(other)),
                                new Unexplained(0.1, 0.02, 9)))),
                TrimmedParts.collector(estimator)
                        .add(other, Map.of(TrimmedParts.Region.FLANK, 3.0))
                        .result(),
                grid.paid(steer),
                GradeDifferentials.classes(valuer, other).beside(grid),
                GradeDifferentials.classes(valuer, other).marginals(),
                inMarket.result(),
                inPacks.result(),
                packs.value(steer),
                packs.best(steer),
                overfat.cost(steer).orElseThrow(),
                sheets.result().sheet(HOSTILE),
                holdOrSell.forecast(animal),
                holdOrSell.pen(List.of(animal)),
                Assumptions.shipped(),
                table.proof(),
                TableComparison.of(table, table),
                Calibration.of(trials).fit(),
                Frames.longForm(List.of(estimate)).select("lot", "cut", "kind", "weight", "share"),
                new TextTable("lot <", "kg").row(HOSTILE, "1"),
                new Blocks().sentence(HOSTILE).add(new TextTable("lot", "kg").row(HOSTILE, "1")))) {
            shown.put(one.getClass().getSimpleName(), one);
        }
        return shown;
    }

    static Stream<String> names() {
        return SHOWN.keySet().stream();
    }

    private static Shown named(String name) {
        return Objects.requireNonNull(SHOWN.get(name));
    }

    @Test
    void oneOfEveryTypeIsLookedAt() {
        List<String> types = new ClassFileImporter()
                .withImportOption(new ImportOption.DoNotIncludeTests()).importPackages("org.beefyield").stream()
                        .filter(type -> type.isAssignableTo(Shown.class)
                                && !type.getModifiers().contains(JavaModifier.ABSTRACT))
                        .map(JavaClass::getSimpleName)
                        .toList();
        assertThat(types).containsExactlyInAnyOrderElementsOf(SHOWN.keySet()).hasSizeGreaterThan(20);
    }

    private static Document parsed(String html) throws ParserConfigurationException, IOException, SAXException {
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader("<body>" + html + "</body>")));
    }

    /** Words and figures without the rules of tables; what runs over columns and lines is sorted. */
    private static List<String> words(String text) {
        return BLANKS.splitAsStream(text)
                .filter(word -> !word.isEmpty() && !word.matches("-{3,}"))
                .sorted()
                .toList();
    }

    private static void collect(Node node, List<String> texts) {
        if (node.getNodeType() == Node.TEXT_NODE) {
            texts.add(node.getTextContent());
        }
        NodeList children = node.getChildNodes();
        for (int i = 0; i < children.getLength(); i++) {
            collect(children.item(i), texts);
        }
    }

    @ParameterizedTest
    @MethodSource("names")
    void theHtmlIsWellFormedAndSaysWhatTheTextSays(String name) throws Exception {
        List<String> texts = new ArrayList<>();
        collect(parsed(named(name).toHtml()).getDocumentElement(), texts);
        assertThat(words(String.join(" ", texts))).isEqualTo(words(named(name).toText()));
    }

    @ParameterizedTest
    @MethodSource("names")
    void itHoldsNoElementOfACallersNorAnythingFromElsewhere(String name) throws Exception {
        NodeList all = parsed(named(name).toHtml()).getElementsByTagName("*");
        for (int i = 0; i < all.getLength(); i++) {
            assertThat(all.item(i).getNodeName()).matches("body|h[123]|p|ul|li|div|table|thead|tbody|tr|th|td");
        }
    }

    @ParameterizedTest
    @MethodSource("names")
    void everyTableScrollsByItselfAndItsFiguresStandRight(String name) throws Exception {
        NodeList tables = parsed(named(name).toHtml()).getElementsByTagName("table");
        for (int i = 0; i < tables.getLength(); i++) {
            assertThat(style(tables.item(i).getParentNode())).containsPattern("overflow(-x)?:auto");
        }
        NodeList cells = parsed(named(name).toHtml()).getElementsByTagName("td");
        for (int i = 0; i < cells.getLength(); i++) {
            if (cells.item(i).getTextContent().matches("-?[0-9]+[.][0-9]+")) {
                assertThat(style(cells.item(i)))
                        .as(cells.item(i).getTextContent())
                        .contains("text-align:right");
            }
        }
    }

    private static String style(Node node) {
        return node.getAttributes().getNamedItem("style").getNodeValue();
    }

    @ParameterizedTest
    @MethodSource("names")
    void aStringOfItIsOneLine(String name) {
        assertThat(named(name).toString()).doesNotContain("\n");
    }

    @Test
    void notesAndCautionsAreInBothForms() {
        YieldEstimate estimate = (YieldEstimate) named("YieldEstimate");
        assertThat(estimate.notes()).hasSizeGreaterThanOrEqualTo(2);
        List<String> said = new ArrayList<>(estimate.notes());
        said.addAll(Cautions.of(estimate.table()));
        for (String sentence : said) {
            assertThat(estimate.toText()).contains(sentence);
            assertThat(estimate.toHtml()).contains(TextTable.escape(sentence));
        }
    }

    @Test
    void aDrawnCarcassIsCertain() {
        assertThat(named("YieldEstimate").toText()).contains("90 % sure");
        assertThat(named("DrawnCarcass").toText()).doesNotContain("90 % sure").contains("% of cold weight");
    }
}
