package org.beefyield.grid;

import org.beefyield.table.definition.TableRange;

/** The nodes of a grid: whole positions of conformation and fat over the allowed range, numbered through. */
public final class Nodes {
    private final int lowConformation;
    private final int highConformation;
    private final int lowFat;
    private final int highFat;

    public Nodes(TableRange range) {
        lowConformation = (int) Math.ceil(range.conformation().low());
        highConformation = (int) Math.floor(range.conformation().high());
        lowFat = (int) Math.ceil(range.fat().low());
        highFat = (int) Math.floor(range.fat().high());
    }

    /** Work done at a node. */
    public interface Visitor {
        void at(int conformation, int fat);
    }

    public int lowConformation() {
        return lowConformation;
    }

    public int highConformation() {
        return highConformation;
    }

    public int lowFat() {
        return lowFat;
    }

    public int highFat() {
        return highFat;
    }

    public int size() {
        return (highConformation - lowConformation + 1) * (highFat - lowFat + 1);
    }

    public int index(int conformation, int fat) {
        return (conformation - lowConformation) * (highFat - lowFat + 1) + fat - lowFat;
    }

    public void forEach(Visitor visitor) {
        for (int c = lowConformation; c <= highConformation; c++) {
            for (int f = lowFat; f <= highFat; f++) {
                visitor.at(c, f);
            }
        }
    }
}
