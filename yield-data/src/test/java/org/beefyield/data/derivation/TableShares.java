package org.beefyield.data.derivation;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Shares of the carcass as the rows of a breakdown give them, in g per kg of carcass, level by level. */
final class TableShares {
    /** A carcass: positions on the 18- and the 15-step scale, cold weight in kg. */
    record Position(double conformation, double fat, double weightKg) {}

    private static final String ANY = "*";

    private final Map<String, List<BreakdownRow>> rowsByParentAndWay = new LinkedHashMap<>();
    private final double conformation;
    private final double fat;
    private final double weightKg;
    private final double fatKnot;
    private final double conformationKnot;

    TableShares(List<BreakdownRow> rows, ReferenceFigures figures) {
        for (BreakdownRow row : rows) {
            rowsByParentAndWay
                    .computeIfAbsent(row.parent() + ' ' + row.way(), key -> new ArrayList<>())
                    .add(row);
        }
        this.conformation = figures.factor("reference", "conformation");
        this.fat = figures.factor("reference", "fat");
        this.weightKg = figures.factor("reference", "weight_kg");
        this.fatKnot = figures.factor("fat_hinge_knot");
        this.conformationKnot = figures.factor("conformation_hinge_knot");
    }

    /** Meat, fat trim, bone and loss. */
    Map<String, Double> tissue(String category, Position position) {
        return children("carcass", ANY, category, position);
    }

    /** The primals, and what passes through: fat trim, bone and loss. */
    Map<String, Double> primal(String category, Position position) {
        Map<String, Double> tissue = tissue(category, position);
        Map<String, Double> shares = new LinkedHashMap<>();
        children("meat", ANY, category, position).forEach((cut, share) -> shares.put(cut, share * meat(tissue) / 1000));
        tissue.forEach((cut, share) -> {
            if (!cut.equals("meat")) {
                shares.put(cut, share);
            }
        });
        return shares;
    }

    /** Retail cuts with one way for each primal; fat trim and loss of the primals are added to those of the carcass. */
    Map<String, Double> retail(String category, Map<String, String> ways, Position position) {
        Map<String, Double> shares = new LinkedHashMap<>();
        primal(category, position).forEach((primal, share) -> {
            String way = ways.get(primal);
            if (way == null) {
                shares.merge(primal, share, Double::sum);
            } else {
                children(primal, way, category, position)
                        .forEach((cut, part) -> shares.merge(cut, share * part / 1000, Double::sum));
            }
        });
        return shares;
    }

    /** g of each child per kg of the parent. */
    private Map<String, Double> children(String parent, String way, String category, Position position) {
        Map<String, Double> children = new LinkedHashMap<>();
        for (BreakdownRow row : rowsByParentAndWay.getOrDefault(parent + ' ' + way, List.of())) {
            // rows for `*` come first, so that a row of the category itself replaces them
            if (row.category().equals(ANY) || row.category().contains(category)) {
                children.put(row.cut(), share(row, position));
            }
        }
        if (children.isEmpty()) {
            throw new IllegalArgumentException("no breakdown of " + parent + " in the way " + way);
        }
        return children;
    }

    private double share(BreakdownRow row, Position position) {
        return row.level()
                + row.perConformationPoint() * (position.conformation() - conformation)
                + row.perFatPoint() * (position.fat() - fat)
                + row.per100Kg() * (position.weightKg() - weightKg) / 100
                + row.belowFatKnot() * Math.max(0, fatKnot - position.fat())
                + row.aboveConformationKnot() * Math.max(0, position.conformation() - conformationKnot);
    }

    private static double meat(Map<String, Double> tissue) {
        return tissue.getOrDefault("meat", 0.0);
    }
}
