package org.beefyield.data.derivation;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.beefyield.data.table.ReferenceRows;

/** The figures that the shipped table is made from: the CSVs under {@code reference} in the test resources. */
final class ReferenceFigures {
    private static final Pattern STANDARD_ERROR = Pattern.compile("standard error ([0-9.]+)");

    private final Map<String, Double> factors = new LinkedHashMap<>();
    private final Map<String, Map<String, String>> composition = new LinkedHashMap<>();
    private final Map<String, Map<String, String>> cutFigures = new LinkedHashMap<>();
    private final Map<String, Map<String, String>> strata = new LinkedHashMap<>();

    ReferenceFigures() {
        for (Map<String, String> row : rows("factors.csv")) {
            factors.put(row.get("factor") + '/' + row.get("key"), Double.valueOf(row.get("value")));
        }
        for (Map<String, String> row : rows("composition.csv")) {
            composition.put(row.get("quantity"), row);
        }
        for (Map<String, String> row : rows("cuts.csv")) {
            cutFigures.put(row.get("cut"), row);
        }
        for (Map<String, String> row : rows("strata-full.csv")) {
            strata.put(row.get("cut"), row);
        }
    }

    /** Rows of one file of the folder. */
    static List<Map<String, String>> rows(String file) {
        return ReferenceRows.of(file);
    }

    /** A factor of factors.csv that needs no key. */
    double factor(String name) {
        return factor(name, "");
    }

    /** A factor of factors.csv for one cut, tissue or variable. */
    double factor(String name, String key) {
        return found(factors.get(name + '/' + key), "factor " + name + " of \"" + key + "\"");
    }

    /** A published figure on the composition of the carcass, composition.csv. */
    double composition(String quantity) {
        return Double.parseDouble(compositionRow(quantity).get("value"));
    }

    /** Its standard error as printed. */
    double standardError(String quantity) {
        Matcher matcher = STANDARD_ERROR.matcher(compositionRow(quantity).get("condition"));
        if (!matcher.find()) {
            throw new IllegalArgumentException("no standard error stated for " + quantity);
        }
        return Double.parseDouble(matcher.group(1));
    }

    /** A published figure on one cut, cuts.csv, by the cut's name there. */
    double cut(String referenceName, String column) {
        Map<String, String> row = found(cutFigures.get(referenceName), "cut " + referenceName);
        return Double.parseDouble(found(row.get(column), "column " + column));
    }

    /** The mean of one cut in a stratum, strata-full.csv, by the cut's name there. */
    double strata(String strataName, String column) {
        Map<String, String> row = found(strata.get(strataName), "cut " + strataName);
        return Double.parseDouble(found(row.get(column), "column " + column));
    }

    private Map<String, String> compositionRow(String quantity) {
        return found(composition.get(quantity), "quantity " + quantity);
    }

    private static <T> T found(T value, String what) {
        if (value == null) {
            throw new IllegalArgumentException("no " + what + " among the reference figures");
        }
        return value;
    }
}
