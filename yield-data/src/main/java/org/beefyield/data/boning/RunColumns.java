package org.beefyield.data.boning;

import java.util.List;
import org.beefyield.table.definition.TableColumn;

/** Names of the columns of the files of runs. */
final class RunColumns {
    static final String HALL = "hall";
    static final String DAY = "day";
    static final String WEIGHING = "weighing";
    static final String CARCASS = "carcass";
    static final String CATEGORY = "category";
    static final String CONFORMATION = "conformation";
    static final String FAT_CLASS = TableColumn.FAT_CLASS;
    static final String COLD_WEIGHT_KG = "cold_weight_kg";
    static final String KILL_DATE = "kill_date";
    static final String LOT = "lot";
    static final String SUPPLIER = "supplier";
    static final String AGE_MONTHS = "age_months";
    static final String ASSURED = "assured";
    static final String PART = "part";
    static final String PIECE = "piece";
    static final String WEIGHT_KG = "weight_kg";
    static final String MOVEMENT = "movement";
    static final String BATCH = "batch";
    static final String SLAUGHTERHOUSE = "slaughterhouse";
    static final String BORN = "born";
    static final String REARED = "reared";
    static final String BOX = "box";
    static final String PRODUCT = "product";
    static final String GROSS_KG = "gross_kg";
    static final String TARE_KG = "tare_kg";
    static final String TIME = "time";
    static final String KIND = "kind";
    static final String FROM = "from";
    static final String KG = "kg";
    static final String CUT = "cut";
    static final String NAME = "name";
    static final String SHARE = "share";

    static final RunRows INTAKE = new RunRows(
            List.of(DAY, WEIGHING, CARCASS, CATEGORY, CONFORMATION, FAT_CLASS, COLD_WEIGHT_KG, PART, WEIGHT_KG),
            List.of(
                    HALL,
                    MOVEMENT,
                    BATCH,
                    PIECE,
                    KILL_DATE,
                    LOT,
                    SUPPLIER,
                    AGE_MONTHS,
                    ASSURED,
                    SLAUGHTERHOUSE,
                    BORN,
                    REARED));
    static final RunRows BOXES =
            new RunRows(List.of(DAY, BOX, PRODUCT, GROSS_KG), List.of(HALL, TARE_KG, BATCH, TIME, KIND, FROM));
    static final RunRows REST = new RunRows(List.of(DAY, KIND, KG), List.of(HALL, CUT));
    static final List<String> PRODUCTS = List.of(PRODUCT, NAME, CUT, SHARE);

    private RunColumns() {}
}
