package org.beefyield.estimate;

import java.util.function.Function;
import org.beefyield.carcass.Carcass;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;

/** The columns that say of which carcass a row is. */
final class CarcassHeads {
    private static final Column KILL_DATE = Column.text("kill date").of(Column.Type.DATE);
    private static final Column CONFORMATION = Column.text("conformation").of(Column.Type.CONFORMATION);
    private static final Column FAT_CLASS = Column.text("fat class").of(Column.Type.FAT_CLASS);
    private static final Column CLASS = Column.text("class").of(Column.Type.CONFORMATION);

    /** Name and version of the table, and its digest. */
    static final String TABLE = "table";

    private CarcassHeads() {}

    static <T> Frame.Builder<T> add(Frame.Builder<T> rows, Function<T, Carcass> carcass, Function<T, String> table) {
        return rows.text("carcass", row -> carcass.apply(row).id().orElse(""))
                .text("lot", row -> carcass.apply(row).lot().orElse(""))
                .text("supplier", row -> carcass.apply(row).supplier().orElse(""))
                .text(KILL_DATE, row -> carcass.apply(row).killDate().orElse(""))
                .text("hall", row -> carcass.apply(row).hall().orElse(""))
                .text("category", row -> carcass.apply(row).category().letter())
                .text(CONFORMATION, row -> carcass.apply(row).conformation().toString())
                .text(FAT_CLASS, row -> carcass.apply(row).fatClass().toString())
                .text(CLASS, row -> {
                    GradeCell cell = GradeCell.of(carcass.apply(row));
                    return cell.conformation() + " " + cell.fatClass();
                })
                .text(TABLE, table);
    }
}
