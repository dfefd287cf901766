package org.beefyield.table;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.TableDefinition;

/** The rows of a definition by what they are looked up by, for a table may have very many. */
final class RowIndex {
    private final Map<String, List<Integer>> coefficients = new HashMap<>();
    private final Map<String, List<Integer>> classes = new HashMap<>();
    /** By coefficient, the standard error of each named error. */
    private final Map<List<String>, Map<String, Double>> standardErrors = new HashMap<>();

    /** By coefficient, the sources of the notes on it. */
    private final Map<List<String>, Set<String>> sources = new HashMap<>();

    private final Map<String, List<CovarianceRow>> covariances = new HashMap<>();

    RowIndex(TableDefinition definition) {
        for (int i = 0; i < definition.breakdown().size(); i++) {
            coefficients
                    .computeIfAbsent(definition.breakdown().get(i).parent(), parent -> new ArrayList<>())
                    .add(i);
        }
        for (int i = 0; i < definition.breakdownByClass().size(); i++) {
            classes.computeIfAbsent(definition.breakdownByClass().get(i).parent(), parent -> new ArrayList<>())
                    .add(i);
        }
        for (CoefficientNote note : definition.coefficientNotes()) {
            List<String> coefficient = List.of(note.category(), note.way(), note.parent(), note.cut(), note.term());
            sources.computeIfAbsent(coefficient, its -> new TreeSet<>()).add(note.source());
            Double error = note.standardError();
            if (error != null) {
                standardErrors
                        .computeIfAbsent(coefficient, its -> new TreeMap<>())
                        .putIfAbsent(note.errorId(), error);
            }
        }
        for (CovarianceRow row : definition.covariances()) {
            covariances
                    .computeIfAbsent(row.parent(), parent -> new ArrayList<>())
                    .add(row);
        }
    }

    /** Covariances of the errors of a parent's children. */
    List<CovarianceRow> covariances(String parent) {
        return covariances.getOrDefault(parent, List.of());
    }

    /** Indexes of the rows of coefficients that have a parent. */
    List<Integer> coefficients(String parent) {
        return coefficients.getOrDefault(parent, List.of());
    }

    /** Indexes of the rows by class that have a parent. */
    List<Integer> classes(String parent) {
        return classes.getOrDefault(parent, List.of());
    }

    /** Standard error of a row's coefficient from an error of a name, which is empty for the usual, in g/kg; 0 if none is stated. */
    double standardError(BreakdownRow row, String column, String errorId) {
        return standardErrors(row, column).getOrDefault(errorId, 0.0);
    }

    /** Names of the errors of a row's coefficient that have a standard error. */
    Set<String> errorIds(BreakdownRow row, String column) {
        return standardErrors(row, column).keySet();
    }

    /** Sources of the notes on a row's coefficient, in order. */
    Set<String> sources(BreakdownRow row, String column) {
        return sources.getOrDefault(coefficient(row, column), Set.of());
    }

    private Map<String, Double> standardErrors(BreakdownRow row, String column) {
        return standardErrors.getOrDefault(coefficient(row, column), Map.of());
    }

    private static List<String> coefficient(BreakdownRow row, String column) {
        return List.of(row.category(), row.way(), row.parent(), row.cut(), column);
    }
}
