package org.beefyield.estimate;

import java.util.List;
import org.apache.commons.math3.stat.descriptive.DescriptiveStatistics;
import org.apache.commons.math3.stat.descriptive.StatisticalSummary;
import org.beefyield.cut.Cut;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** Drawn carcasses in words. */
final class CarcassSampleText {
    private static final int DECIMALS = 2;

    private CarcassSampleText() {}

    static Blocks blocks(CarcassSample sample) {
        Blocks blocks = new Blocks().sentence(line(sample));
        if (!sample.carcasses().isEmpty()) {
            blocks.add(table(sample));
        }
        sample.notes().forEach(note -> blocks.sentence("Note: " + note));
        return sample.carcasses().isEmpty()
                ? blocks
                : blocks.sentences(Cautions.of(sample.carcasses().get(0).table()));
    }

    private static TextTable table(CarcassSample sample) {
        DrawnCarcass any = sample.carcasses().get(0);
        List<String> levels = any.table().levels();
        String level = levels.get(levels.size() - 1);
        TextTable table = new TextTable(level + " level", "mean, kg", "SD, kg", "smallest, kg", "largest, kg");
        for (CutLine line : any.lines(level)) {
            StatisticalSummary kg = new DescriptiveStatistics(
                    sample.kg(Figure.cut(level, line.cut().code())));
            if (kg.getMax() > 0) {
                table.row(
                        line.cut().name(),
                        Numbers.fixed(kg.getMean(), DECIMALS),
                        kg.getN() < 2 ? "" : Numbers.fixed(kg.getStandardDeviation(), DECIMALS),
                        Numbers.fixed(kg.getMin(), DECIMALS),
                        Numbers.fixed(kg.getMax(), DECIMALS));
            }
        }
        return table;
    }

    static String line(CarcassSample sample) {
        return sample.carcasses().size() + (sample.carcasses().size() == 1 ? " drawn carcass" : " drawn carcasses")
                + ", " + sample.rejected() + (sample.rejected() == 1 ? " breakdown" : " breakdowns")
                + " drawn again for a share below 0";
    }

    static String moved(Cut cut, double expectedKg, double drawnKg) {
        return "shares below 0 were drawn again, which moves the mean of " + cut.name() + " from "
                + Numbers.fixed(expectedKg, DECIMALS) + " to " + Numbers.fixed(drawnKg, DECIMALS) + " kg";
    }
}
