package org.beefyield.boning;

import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A trace in words. */
final class TraceText {
    private static final double G_PER_KG = 1000;

    private final Trace trace;

    TraceText(Trace trace) {
        this.trace = trace;
    }

    String line() {
        return Numbers.counted(trace.runs().size(), "run", "runs") + ": "
                + Numbers.counted(trace.pieceCount(), "piece", "pieces") + " of "
                + Numbers.counted(trace.carcassCount(), "carcass", "carcasses") + ", "
                + Numbers.counted(trace.batches().size(), "batch", "batches") + ", "
                + Numbers.counted(trace.boxCount(), "box", "boxes") + ", "
                + Numbers.counted(trace.findings().size(), "finding", "findings");
    }

    Frame frame() {
        return Frame.ofEach(trace.batches())
                .text("hall", BatchMass::hall)
                .text("batch", BatchMass::batch)
                .text("days", batch -> String.join(" ", batch.days()))
                .number(Column.number("carcasses").totalling(Total.SUM), BatchMass::carcasses)
                .number(Column.number("pieces").totalling(Total.SUM), BatchMass::pieces)
                .number(Column.number("boned, kg").totalling(Total.SUM), batch -> batch.bonedG() / G_PER_KG)
                .number(Column.number("boxes").totalling(Total.SUM), BatchMass::boxes)
                .number(Column.number("boxed, kg").totalling(Total.SUM), batch -> batch.allBoxedG() / G_PER_KG)
                .frame();
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentence(line());
        trace.findings().forEach(finding -> blocks.sentence(finding.words()));
        if (!trace.batches().isEmpty()) {
            TextTable table =
                    new TextTable("hall", "batch", "days", "carcasses", "pieces", "boned, kg", "boxes", "boxed, kg");
            for (BatchMass batch : trace.batches()) {
                table.row(
                        batch.hall(),
                        batch.batch(),
                        String.join(" ", batch.days()),
                        Integer.toString(batch.carcasses()),
                        Integer.toString(batch.pieces()),
                        RecallListText.kg(batch.bonedG()),
                        Integer.toString(batch.boxes()),
                        RecallListText.kg(batch.allBoxedG()));
            }
            blocks.add(table);
        }
        return blocks;
    }
}
