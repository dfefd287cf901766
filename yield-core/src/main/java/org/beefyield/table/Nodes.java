package org.beefyield.table;

/** The nodes of a grid: whole positions of conformation and fat over the allowed range, numbered through. */
final class Nodes {
    final int lowConformation;
    final int highConformation;
    final int lowFat;
    final int highFat;

    Nodes(TableRange range) {
        lowConformation = (int) Math.ceil(range.conformation().low());
        highConformation = (int) Math.floor(range.conformation().high());
        lowFat = (int) Math.ceil(range.fat().low());
        highFat = (int) Math.floor(range.fat().high());
    }

    /** Work done at a node. */
    interface Visitor {
        void at(int conformation, int fat);
    }

    int size() {
        return (highConformation - lowConformation + 1) * (highFat - lowFat + 1);
    }

    int index(int conformation, int fat) {
        return (conformation - lowConformation) * (highFat - lowFat + 1) + fat - lowFat;
    }

    void forEach(Visitor visitor) {
        for (int c = lowConformation; c <= highConformation; c++) {
            for (int f = lowFat; f <= highFat; f++) {
                visitor.at(c, f);
            }
        }
    }
}
