package org.beefyield.benchmarks.fuzz;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableWriter;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/** What is mutated: packages that use every resource, few nodes and cuts so that a case takes little time, and sheets. */
final class Seeds {
    private Seeds() {}

    /** A table by coefficients, one by class beside coefficients, and the shipped edition. */
    static List<YieldTable> tables() {
        return List.of(YieldTable.of(byCoefficients()), YieldTable.of(byClass()), ShippedTables.boneless2026());
    }

    /** The files of a table's package, without the digest: with it every change would be refused for that alone. */
    static Map<String, byte[]> files(YieldTable table, Path scratch) throws IOException {
        Path zip = scratch.resolve("seed.zip");
        TableWriter.write(table, zip);
        Map<String, byte[]> files = new LinkedHashMap<>();
        try (ZipFile unzipped = new ZipFile(zip.toFile())) {
            for (ZipEntry entry : unzipped.stream().toList()) {
                try (InputStream in = unzipped.getInputStream(entry)) {
                    files.put(entry.getName(), in.readAllBytes());
                }
            }
        }
        files.computeIfPresent(
                Mutator.DESCRIPTOR,
                (name, content) -> new String(content, StandardCharsets.UTF_8)
                        .replaceAll("\\s*\"digest\": \"[0-9a-f]*\",", "")
                        .getBytes(StandardCharsets.UTF_8));
        return files;
    }

    private static TableDefinition.Builder small(String name) {
        TableRange range = new TableRange(new Range(7, 9), new Range(7, 8), new Range(250, 400));
        return TableDefinition.builder(name, "1.0.0")
                .about("A small table", "Two levels, two ways")
                .license(new License("Apache-2.0", "", "Apache License 2.0"))
                .levels("side", "cuts")
                .ranges(range, range)
                .categories(Category.STEER, Category.HEIFER)
                .basis(Basis.NOT_STATED
                        .withQuartering("10-rib forequarter")
                        .withFatCoverMm(5.0)
                        .withBoneless(true))
                .cut(Cut.of("lean", "Lean", "side", CutKind.MEAT).withFatPct(12.0))
                .cut(Cut.of("fat", "Fat", "side", CutKind.FAT_TRIM)
                        .withFatPct(80.0)
                        .withNote("kept, apart"))
                .cut(Cut.of("bone", "Bone", "side", CutKind.BONE))
                .cut(Cut.of("loin", "Loin \"long\"", "cuts", CutKind.STEAK)
                        .withPiecesPerSide(1.0)
                        .withSideSplitSdPct(2.5)
                        .withUnece("2140 2150"))
                .cut(Cut.of("trim", "Trim", "cuts", CutKind.LEAN_TRIM))
                .source(new SourceRow("trial", SourceKind.DERIVED, "Cutting trial of the Tarrowmere hall", ""))
                .source(new SourceRow("guess", SourceKind.ASSUMPTION, "An assumption", "to be replaced"))
                .name(new CutName("loin", "de", "Roastbeef"));
    }

    private static TableDefinition byCoefficients() {
        return small("small")
                .term(new Term.Product("conformation_fat", Variable.CONFORMATION, Variable.FAT))
                .term(new Term.Hinge("fat_above_7", Variable.FAT, Term.Side.ABOVE, 7))
                .decimals("level_g_per_kg", 1)
                .row("CE", "*", "carcass", "lean", 15, "trial", 700, 2, -3, 1.5, 0.1, -0.5)
                .row("CE", "*", "carcass", "fat", 12, "trial", 120.5, -1, 4, -0.5, -0.1, 0.5)
                .row("CE", "*", "carcass", "bone", 10, "guess", 179.5, -1, -1, -1, 0, 0)
                .row("*", "steaks", "lean", "loin", 4, "trial", 300, 1, 0, 0, 0, 0)
                .row("*", "steaks", "lean", "trim", 4, "trial", 700, -1, 0, 0, 0, 0)
                .row("*", "mince", "lean", "trim", 0, "guess", 1000)
                .specification("fresh", "lean", "steaks")
                .specification("all-trim", "lean", "mince")
                .quartering(new QuarteringRow("straight", "lean", 0.5, "guess"))
                .quartering(new QuarteringRow("straight", "fat", 0.4, "guess"))
                .quartering(new QuarteringRow("straight", "bone", 0.55, "guess"))
                .coefficientNote(new CoefficientNote("CE", "*", "carcass", "lean", "per_fat_point", 0.25, "trial"))
                .coefficientNote(new CoefficientNote("CE", "*", "carcass", "fat", "per_fat_point", 0.2, "trial"))
                .coefficientNote(new CoefficientNote("CE", "*", "carcass", "bone", "per_fat_point", 0.1, "trial"))
                .expectation(new Expectation(
                        "fat",
                        null,
                        "side",
                        Variable.FAT,
                        Expectation.Direction.RISES,
                        true,
                        Expectation.Over.ALLOWED,
                        "fatter carcasses have more of it"))
                .expectation(new Expectation(
                        null,
                        CutKind.BONE,
                        "side",
                        Variable.WEIGHT,
                        Expectation.Direction.FALLS,
                        false,
                        Expectation.Over.FITTED,
                        ""))
                .extraColumn(new ExtraColumn(
                        "breakdown", "checked_by", "string", List.of("AB", "", "a, b", "\"AB\"", " AB ", "C\u00f6")))
                .extraColumn(new ExtraColumn("sources", "year", "string", List.of("2025", "")))
                .provenance(new Provenance("breakdown of lean", Provenance.CODE))
                .build();
    }

    private static TableDefinition byClass() {
        TableDefinition.Builder builder = small("by-class").decimals(TableColumn.G_PER_KG, 1);
        for (String fat : List.of("3")) {
            for (String conformation : List.of("R")) {
                builder.row(cell(conformation, fat, "lean", 690.1))
                        .row(cell(conformation, fat, "fat", 130.4))
                        .row(cell(conformation, fat, "bone", 179.5));
            }
        }
        return builder.row(BreakdownRow.ANY, BreakdownRow.ANY, "lean", "loin", 4, "trial", 300, 1)
                .row(BreakdownRow.ANY, BreakdownRow.ANY, "lean", "trim", 4, "trial", 700, -1)
                .build();
    }

    private static ClassRow cell(String conformation, String fat, String cut, double gPerKg) {
        return new ClassRow("*", "*", "carcass", conformation, fat, cut, gPerKg, 2, "trial");
    }

    /** A sheet with every column, good rows and bad ones. */
    static String sheet() {
        return String.join(
                "\n",
                "carcass,category,conformation,conformation_points,fat_class,fat_points,cold_weight_kg,hot_weight_kg,"
                        + "age_months,lot,supplier,kill_date,assured,dressing,left_kg,right_kg,trimmed_kg,status,remark",
                "1,C,R+,,3=,,341.5,,22,A,T1,2026-11-03,yes,,170.5,171,2.5,passed,",
                "2,A,U-,,2+,,,402.2,18,A,T1,2026-11-03,no,,,,,passed,\"a, b\"",
                "3,E,,8.4,,7.5,288,,30,B,T2,2026-11-04,,,,,,,",
                "4,D,O,,4,,301.25,305,96,B,T2,2026-11-04,,,150,90,,,\"say \"\"moo\"\"\"",
                "5,B,P-,,1-,,512,,40,B,T2,2026-11-04,,,,,,condemned,",
                "6,Z,R=,,3-,,140,,9,B,T2,2026-11-04,maybe,,,,,,",
                "4,C,R=,,3-,,340,,9,B,T2,2026-11-04,,,,,,,twice",
                "");
    }
}
