package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.beefyield.table.YieldTable;

/** What every output for people says about its own limits. */
public final class Cautions {
    /** What an estimate is for and what it does not replace. */
    public static final String PLANNING =
            "Estimates are for planning and comparison; they do not replace official classification by licensed"
                    + " classifiers, plant weighing, contracts or settlement.";

    /** What figures in money are not. */
    public static final String NO_SETTLEMENT =
            "This is no settlement: payment follows the contract and the official weights and grades.";

    /** What bone-in cuts of older cattle may hold: Regulation (EC) No 999/2001, Annex V. */
    public static final String RISK_MATERIAL =
            "Bone-in cuts of older cattle may contain specified risk material (vertebral column over 30 months, depending"
                    + " on a country's status: Regulation (EC) No 999/2001, Annex V); local rules and the official"
                    + " veterinarian decide.";

    private Cautions() {}

    /**
     * The cautions that belong to a table's figures.
     *
     * @param table the table
     * @return sentences; the one on risk material unless the table says that it is boneless
     */
    public static List<String> of(YieldTable table) {
        Objects.requireNonNull(table, "table");
        List<String> cautions = new ArrayList<>(List.of(PLANNING));
        if (!Boolean.TRUE.equals(table.definition().basis().boneless())) {
            cautions.add(RISK_MATERIAL);
        }
        return cautions;
    }
}
