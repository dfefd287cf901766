package org.beefyield.estimate;

import java.util.List;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** Mince in words. */
final class MinceText {
    private static final int DECIMALS = 2;

    private MinceText() {}

    static String note(Mince mince) {
        double over = mince.fat() - mince.target().fat();
        if (mince.kg() == 0 || Math.abs(over) < Mince.SAME) {
            return "";
        }
        return "mince is " + (over > 0 ? "fatter" : "leaner") + " than asked by "
                + Numbers.fixed(100 * Math.abs(over), DECIMALS) + " points of fat"
                + (over > 0 ? "" : ", for want of fat trim");
    }

    static Blocks blocks(Mince mince) {
        List<String> kg = Rounding.adding(new double[] {mince.leanTrimKg(), mince.fatTrimKg()}, mince.kg(), DECIMALS);
        TextTable table = new TextTable("part", "kg")
                .row("Lean trim", kg.get(0))
                .row("Fat trim", kg.get(1))
                .rule()
                .row("Mince", Numbers.fixed(mince.kg(), DECIMALS));
        Blocks blocks = new Blocks().sentence(line(mince)).add(table);
        return mince.note().isEmpty() ? blocks : blocks.sentence("Note: " + mince.note());
    }

    static String line(Mince mince) {
        return mince.target() + " asked: " + Numbers.fixed(mince.kg(), DECIMALS) + " kg"
                + (mince.kg() == 0 ? "" : " at " + Numbers.fixed(100 * mince.fat(), DECIMALS) + " % fat");
    }
}
