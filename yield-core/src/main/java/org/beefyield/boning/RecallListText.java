package org.beefyield.boning;

import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A recall list in words. */
final class RecallListText {
    private static final double G_PER_KG = 1000;

    private final RecallList list;

    RecallListText(RecallList list) {
        this.list = list;
    }

    static String kg(long grams) {
        return Numbers.fixed(grams / G_PER_KG, 1);
    }

    String line() {
        long grams = list.boxes().stream()
                .mapToLong(traced -> RunBalance.grams(traced.box().netKg()))
                .sum();
        return list.asked() + ": " + Numbers.counted(list.pieces().size(), "piece", "pieces") + " of "
                + Numbers.counted(list.carcasses().size(), "carcass", "carcasses") + ", "
                + Numbers.counted(list.batches().size(), "batch", "batches") + ", "
                + Numbers.counted(list.boxes().size(), "box", "boxes") + " with " + kg(grams) + " kg";
    }

    Frame boxes() {
        return Frame.ofEach(list.boxes())
                .text("run", TracedBox::run)
                .text("box", traced -> traced.box().id())
                .text("product", traced -> traced.box().product())
                .text("batch", traced -> traced.box().batch())
                .number("net, kg", traced -> traced.box().netKg())
                .text("time", traced -> traced.box().time())
                .text("kind", traced -> traced.box().kind().code())
                .text("sure", traced -> yesNo(traced.sure()))
                .frame();
    }

    Frame pieces() {
        return Frame.ofEach(list.pieces())
                .text("run", TracedPiece::run)
                .text("carcass", traced -> traced.piece().id())
                .text("kill date", traced -> traced.piece().carcass().killDate().orElse(""))
                .text("supplier", traced -> traced.piece().carcass().supplier().orElse(""))
                .text("lot", traced -> traced.piece().carcass().lot().orElse(""))
                .text("part", traced -> traced.piece().part().code())
                .text("piece", traced -> traced.piece().piece())
                .text("batch", traced -> traced.piece().batch())
                .text("slaughterhouse", traced -> traced.piece().origin().slaughterhouse())
                .text("born", traced -> traced.piece().origin().born())
                .text("reared", traced -> traced.piece().origin().reared())
                .text("sure", traced -> yesNo(traced.sure()))
                .frame();
    }

    private static String yesNo(boolean sure) {
        return sure ? "yes" : "no";
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentence(line());
        long unsure = list.pieces().stream().filter(traced -> !traced.sure()).count()
                + list.boxes().stream().filter(traced -> !traced.sure()).count();
        if (unsure > 0) {
            blocks.sentence("With \"no\" under sure: " + Numbers.counted(unsure, "piece or box", "pieces and boxes")
                    + " that can't be ruled out, for a batch is missing");
        }
        if (!list.pieces().isEmpty()) {
            TextTable table = new TextTable(
                    "run", "carcass", "kill date", "supplier", "lot", "part", "batch", "slaughterhouse", "sure");
            for (TracedPiece traced : list.pieces()) {
                Intake piece = traced.piece();
                table.row(
                        traced.run(),
                        piece.id(),
                        piece.carcass().killDate().orElse(""),
                        piece.carcass().supplier().orElse(""),
                        piece.carcass().lot().orElse(""),
                        piece.part().code() + (piece.piece().isEmpty() ? "" : " " + piece.piece()),
                        piece.batch(),
                        piece.origin().slaughterhouse(),
                        yesNo(traced.sure()));
            }
            blocks.add(table);
        }
        if (!list.boxes().isEmpty()) {
            TextTable table = new TextTable("run", "box", "product", "batch", "net, kg", "time", "kind", "sure");
            for (TracedBox traced : list.boxes()) {
                Box box = traced.box();
                table.row(
                        traced.run(),
                        box.id(),
                        box.product(),
                        box.batch(),
                        Numbers.fixed(box.netKg(), 3),
                        box.time(),
                        box.kind().code(),
                        yesNo(traced.sure()));
            }
            blocks.add(table);
        }
        return blocks;
    }
}
