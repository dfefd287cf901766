package org.beefyield.data.derivation;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.TableWriter;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/** The definition of the edition, and its files as the library writes them. */
final class ShippedTableFiles {
    static final String NAME = "boneless-2026";
    static final String VERSION = "1.0.0";
    static final List<String> CATEGORIES = List.of("C", "E", "A", "B", "D");
    private static final String DIGEST = "\\s*\"digest\": \"[0-9a-f]{64}\",";

    /** Sums over 14 primals must be 0 to a millionth of the largest. */
    private static final int COVARIANCE_DECIMALS = 6;

    private final ShippedTableDerivation derivation;
    private final ReferenceFigures figures;
    private final Term.Hinge fatHinge;
    private final Term.Hinge conformationHinge;

    ShippedTableFiles(ShippedTableDerivation derivation) {
        this.derivation = derivation;
        this.figures = derivation.figures();
        this.fatHinge = hinge("fat_below_", Variable.FAT, Term.Side.BELOW, "fat_hinge_knot");
        this.conformationHinge =
                hinge("conformation_above_", Variable.CONFORMATION, Term.Side.ABOVE, "conformation_hinge_knot");
    }

    private Term.Hinge hinge(String column, Variable variable, Term.Side side, String factor) {
        double knot = figures.factor(factor);
        return new Term.Hinge(column + number(knot), variable, side, (int) knot);
    }

    /** The files by name. The edition states no digest: it is there to be copied and changed. */
    Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        try {
            Path folder = Files.createTempDirectory(NAME).resolve(NAME);
            TableWriter.write(YieldTable.of(definition()), folder);
            try (Stream<Path> written = Files.list(folder)) {
                for (Path file : written.sorted().toList()) {
                    files.put(
                            file.getFileName().toString(),
                            Files.readString(file).replaceFirst(DIGEST, ""));
                    Files.delete(file);
                }
            }
            Files.delete(folder);
            Files.delete(folder.getParent());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return files;
    }

    TableDefinition definition() {
        TableDefinition.Builder table = TableDefinition.builder(NAME, VERSION)
                .about(
                        "Boneless yields of graded beef carcasses, edition 2026",
                        "Meat, fat trim, bone and loss of a carcass by conformation, fat class and cold weight, the meat"
                                + " broken down to primals and the primals to retail cuts. README.md says what the figures"
                                + " rest on.")
                .license(new License("Apache-2.0", "https://www.apache.org/licenses/LICENSE-2.0", "Apache License 2.0"))
                .levels("tissue", "primal", "retail")
                .reference(
                        figures.factor("reference", "conformation"),
                        figures.factor("reference", "fat"),
                        figures.factor("reference", "weight_kg"))
                .ranges(ranges("fitted"), ranges("allowed"))
                .widthFit(figures.factor("width_fit"))
                .term(fatHinge)
                .term(conformationHinge)
                .categories(CATEGORIES.stream().map(Category::parse).toArray(Category[]::new))
                .basis(Basis.NOT_STATED
                        .withQuartering("10-rib forequarter")
                        .withFatCoverMm(0.0)
                        .withBoneless(true))
                .decimals(TableColumn.LEVEL_G_PER_KG, BreakdownRow.LEVEL_DECIMALS)
                .decimals(TableColumn.SD_G_PER_KG, BreakdownRow.SD_DECIMALS);
        for (SharedBy by : SharedBy.values()) {
            table.decimals(TableColumn.sharedSd(by), BreakdownRow.SD_DECIMALS);
        }
        for (String column : List.of(
                TableColumn.PER_CONFORMATION_POINT,
                TableColumn.PER_FAT_POINT,
                TableColumn.PER_100_KG,
                fatHinge.column(),
                conformationHinge.column())) {
            table.decimals(column, BreakdownRow.SLOPE_DECIMALS);
        }
        derivation.cuts().forEach(cut -> table.cut(cut(cut)));
        derivation.breakdown().forEach(row -> table.row(row(row)));
        derivation
                .specifications()
                .forEach((name, ways) -> ways.forEach((primal, way) -> table.specification(name, primal, way)));
        for (Map<String, String> row : ReferenceFigures.rows("quartering.csv")) {
            table.quartering(new QuarteringRow(
                    row.get("quartering"),
                    row.get("cut"),
                    Double.parseDouble(row.get("fore_share")),
                    row.get("source")));
        }
        derivation.breakdown().stream().flatMap(row -> notes(row).stream()).forEach(table::coefficientNote);
        primalCovariances().forEach(table::covariance);
        for (Map<String, String> row : ReferenceFigures.rows("table-expectations.csv")) {
            table.expectation(expectation(row));
        }
        sources().forEach(table::source);
        return table.build();
    }

    /** Shortest decimal form, no exponent. */
    static String number(double value) {
        String text = BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
        return text.equals("-0") ? "0" : text;
    }

    private TableRange ranges(String name) {
        return new TableRange(range(name, "conformation"), range(name, "fat"), range(name, "weight_kg"));
    }

    private Range range(String name, String variable) {
        return new Range(figures.factor(name + "_min", variable), figures.factor(name + "_max", variable));
    }

    private Cut cut(Map<String, String> cut) {
        String code = cut.get("cut");
        boolean primal = cut.get("kind").equals("primal");
        boolean piece = !cut.get("pieces_per_side").isEmpty();
        Double fat = null;
        if (primal) {
            fat = figures.factor("lean_trim_fat_pct", code);
        } else if (code.equals(ShippedTableDerivation.FAT_TRIM)) {
            fat = figures.factor("fat_trim_fat_pct");
        }
        return Cut.of(code, cut.get("name"), cut.get("level"), CutKind.parse(cut.get("kind")))
                .withPiecesPerSide(piece ? Double.valueOf(cut.get("pieces_per_side")) : null)
                .withSideSplitSdPct(piece ? Double.valueOf(figures.factor("side_split_sd_pct")) : null)
                .withFatPct(fat)
                .withUnece(cut.get("unece"))
                .withNote(primal ? primalNote(cut.get("note"), piece) : cut.get("note"));
    }

    private static String primalNote(String note, boolean piece) {
        String start = note.isEmpty() ? "" : note + ". ";
        return start + "UNECE item not checked against the original; "
                + (piece
                        ? "fat content of lean trim and side split are assumptions"
                        : "fat content of lean trim is an assumption");
    }

    private static org.beefyield.table.definition.BreakdownRow row(BreakdownRow row) {
        return new org.beefyield.table.definition.BreakdownRow(
                row.category(),
                row.way(),
                row.parent(),
                row.cut(),
                List.of(
                        row.level(),
                        row.perConformationPoint(),
                        row.perFatPoint(),
                        row.per100Kg(),
                        row.belowFatKnot(),
                        row.aboveConformationKnot()),
                row.sd(),
                SharedSds.of(row.lotSd(), row.runSd(), row.hallSd()),
                row.source());
    }

    /** Terms and SDs whose source differs from their row's, and standard errors. */
    private List<CoefficientNote> notes(BreakdownRow row) {
        List<CoefficientNote> notes = new ArrayList<>();
        switch (row.source()) {
            case "grange-derived", "sex-derived", "cows" -> tissueNotes(notes, row);
            case "boning-loss" -> shared(notes, row, "tissue-lot-sd", "run-sd", "tissue-hall-sd");
            case "primal-derived", "bull-primals", "heifer-primals" -> {
                notes.add(note(
                        row,
                        TableColumn.PER_CONFORMATION_POINT,
                        slopeError(row, BreakdownRow::perConformationPoint),
                        "primal-slopes"));
                notes.add(note(
                        row, TableColumn.PER_FAT_POINT, slopeError(row, BreakdownRow::perFatPoint), "primal-slopes"));
                notes.add(note(row, TableColumn.PER_100_KG, slopeError(row, BreakdownRow::per100Kg), "primal-weight"));
                notes.add(note(row, TableColumn.SD_G_PER_KG, null, "primal-sd"));
                shared(notes, row, "lot-run-sd", "lot-run-sd", "primal-hall-sd");
            }
            case "retail-derived" -> {
                notes.add(fatSlopeNote(row));
                notes.add(note(row, TableColumn.SD_G_PER_KG, null, "retail-sd"));
                shared(notes, row, "lot-run-sd", "lot-run-sd", "retail-hall-sd");
            }
            default -> notes.add(fatSlopeNote(row));
        }
        return notes;
    }

    private void tissueNotes(List<CoefficientNote> notes, BreakdownRow row) {
        if (!row.category().equals(ShippedTableDerivation.ANY) && !row.cut().equals(ShippedTableDerivation.BONE)) {
            notes.add(named(
                    row,
                    TableColumn.LEVEL_G_PER_KG,
                    derivation.levelStandardError(row.category()),
                    "level-" + row.category()));
        }
        notes.add(note(row, TableColumn.PER_CONFORMATION_POINT, standardError(row, "conformation"), "grange-derived"));
        notes.add(note(row, TableColumn.PER_FAT_POINT, standardError(row, "fat"), "grange-derived"));
        if (row.source().equals("sex-derived")) {
            notes.add(named(
                    row,
                    TableColumn.PER_FAT_POINT,
                    figures.factor("category_fat_slope_error"),
                    "fat-slope-" + row.category()));
        }
        if (row.belowFatKnot() != 0) {
            notes.add(note(row, fatHinge.column(), slopeError(row, BreakdownRow::belowFatKnot), "lean-carcass-hinges"));
            notes.add(note(
                    row,
                    conformationHinge.column(),
                    slopeError(row, BreakdownRow::aboveConformationKnot),
                    "lean-carcass-hinges"));
        }
        shared(notes, row, "tissue-lot-sd", "run-sd", "tissue-hall-sd");
    }

    private CoefficientNote fatSlopeNote(BreakdownRow row) {
        return note(row, TableColumn.PER_FAT_POINT, slopeError(row, BreakdownRow::perFatPoint), "retail-fat-slope");
    }

    private static CoefficientNote named(BreakdownRow row, String term, double standardError, String errorId) {
        return new CoefficientNote(
                row.category(), row.way(), row.parent(), row.cut(), term, standardError, errorId, row.source());
    }

    private List<CovarianceRow> primalCovariances() {
        List<String> primals =
                derivation.primals().stream().map(cut -> cut.get("cut")).toList();
        double[][] covariances = derivation.primalCovariances();
        List<CovarianceRow> rows = new ArrayList<>();
        for (int k = 0; k < primals.size(); k++) {
            for (int m = 0; m <= k; m++) {
                rows.add(CovarianceRow.residual(
                        ShippedTableDerivation.MEAT,
                        primals.get(k),
                        primals.get(m),
                        BreakdownRow.round(covariances[k][m], COVARIANCE_DECIMALS)));
            }
        }
        return rows;
    }

    private static void shared(List<CoefficientNote> notes, BreakdownRow row, String lot, String run, String hall) {
        notes.add(note(row, TableColumn.LOT_SD_G_PER_KG, null, lot));
        notes.add(note(row, TableColumn.RUN_SD_G_PER_KG, null, run));
        notes.add(note(row, TableColumn.HALL_SD_G_PER_KG, null, hall));
    }

    /** The standard error of a row's slope among those of all children of its breakdown. */
    private double slopeError(BreakdownRow row, ToDoubleFunction<BreakdownRow> slope) {
        List<BreakdownRow> children = derivation.breakdown().stream()
                .filter(other -> other.parent().equals(row.parent())
                        && other.way().equals(row.way())
                        && other.category().equals(ShippedTableDerivation.ANY))
                .toList();
        List<Double> errors = derivation.slopeStandardErrors(
                children.stream().map(slope::applyAsDouble).toList());
        return errors.get(children.stream().map(BreakdownRow::cut).toList().indexOf(row.cut()));
    }

    private double standardError(BreakdownRow row, String variable) {
        double exact = derivation.tissueSlopeStandardError(row.cut(), variable);
        return BigDecimal.valueOf(exact)
                .setScale(BreakdownRow.SLOPE_DECIMALS, RoundingMode.HALF_UP)
                .doubleValue();
    }

    private static CoefficientNote note(BreakdownRow row, String term, Double standardError, String source) {
        return new CoefficientNote(row.category(), row.way(), row.parent(), row.cut(), term, standardError, source);
    }

    private static Expectation expectation(Map<String, String> row) {
        return new Expectation(
                row.get("cut").isEmpty() ? null : row.get("cut"),
                row.get("kind").isEmpty() ? null : CutKind.parse(row.get("kind")),
                row.get("level"),
                Variable.valueOf(constant(row.get("variable"))),
                Expectation.Direction.valueOf(constant(row.get("direction"))),
                Boolean.parseBoolean(row.get("strict")),
                Expectation.Over.valueOf(constant(row.get("over"))),
                row.get("note"));
    }

    private static String constant(String word) {
        return word.toUpperCase(Locale.ROOT);
    }

    /** Citations come from sources.csv of the reference figures unless table-sources.csv holds one of its own. */
    static List<SourceRow> sources() {
        Map<String, Map<String, String>> cited = new LinkedHashMap<>();
        ReferenceFigures.rows("sources.csv").forEach(row -> cited.put(row.get("source"), row));
        List<SourceRow> sources = new ArrayList<>();
        for (Map<String, String> row : ReferenceFigures.rows("table-sources.csv")) {
            Map<String, String> from = row.get("citation").isEmpty() ? cited.get(row.get("source")) : row;
            if (from == null) {
                throw new IllegalStateException("no citation for source " + row.get("source"));
            }
            sources.add(new SourceRow(
                    row.get("source"), SourceKind.parse(from.get("kind")), from.get("citation"), row.get("note")));
        }
        return sources;
    }
}
