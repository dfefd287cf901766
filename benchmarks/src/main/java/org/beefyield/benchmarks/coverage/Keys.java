package org.beefyield.benchmarks.coverage;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.CarcassColumns;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimator;

/** How the library is told which carcasses have their lot, run and hall in common. */
final class Keys {
    private Keys() {}

    /** Supplier, lot, kill date and hall, where no lot is boned in two runs of one hall. */
    static Carcass named(Herd.Head head) {
        return named(head, head.run());
    }

    private static Carcass named(Herd.Head head, int day) {
        return head.carcass()
                .withSupplier("Tarrowmere")
                .withLot("lot " + head.lot())
                .withKillDate("day " + day)
                .withHall("hall " + head.hall());
    }

    static LotEstimate lot(YieldEstimator estimator, Herd herd) {
        return estimator.estimateLot(herd.heads().stream().map(Keys::named).toList());
    }

    /** A season in which two halls bone on each day, each lot in both. */
    static LotEstimate twoHalls(YieldEstimator estimator, Herd herd) {
        return estimator.estimateLot(
                herd.heads().stream().map(head -> named(head, head.run() / 2)).toList());
    }

    /** Numbers of lots and runs in columns: a lot may be boned in several runs of one hall. */
    static LotEstimate numbered(YieldEstimator estimator, Herd herd) {
        List<Herd.Head> heads = herd.heads();
        byte[] categories = new byte[heads.size()];
        double[][] figures = new double[5][heads.size()];
        int[] lots = new int[heads.size()];
        int[] runs = new int[heads.size()];
        for (int i = 0; i < heads.size(); i++) {
            Carcass carcass = heads.get(i).carcass();
            categories[i] = carcass.category().letter().getBytes(StandardCharsets.US_ASCII)[0];
            figures[0][i] = carcass.conformation().position();
            figures[1][i] = carcass.conformation().width();
            figures[2][i] = carcass.fatClass().position();
            figures[3][i] = carcass.fatClass().width();
            figures[4][i] = carcass.coldWeightKg();
            lots[i] = heads.get(i).lot();
            runs[i] = heads.get(i).run();
        }
        CarcassColumns columns = CarcassColumns.positions(
                        categories, figures[0], figures[1], figures[2], figures[3], figures[4])
                .withLots(lots)
                .withRuns(runs);
        LotEstimate.Collector collector = estimator.collector();
        byte[] flags = new byte[columns.size()];
        if (collector.add(columns, 0, columns.size(), flags) > 0) {
            throw new IllegalStateException("the table refuses a carcass of the study");
        }
        return collector.lot();
    }

    /** Wrongly: without kill dates. */
    static LotEstimate withoutDates(YieldEstimator estimator, Herd herd) {
        return estimator.estimateLot(herd.heads().stream()
                .map(head -> head.carcass()
                        .withSupplier("Tarrowmere")
                        .withLot("lot " + head.lot())
                        .withHall("hall " + head.hall()))
                .toList());
    }

    /** Wrongly: all as one lot of one run. */
    static LotEstimate asOneLot(YieldEstimator estimator, Herd herd) {
        LotEstimate.Collector collector = estimator.collector().asOneLot();
        herd.heads().forEach(head -> collector.add(named(head)));
        return collector.lot();
    }

    /** Wrongly: each carcass as a lot of its own. */
    static LotEstimate eachItsOwnLot(YieldEstimator estimator, Herd herd) {
        LotEstimate.Collector collector = estimator.collector();
        int number = 0;
        for (Herd.Head head : herd.heads()) {
            collector.add(named(head).withLot("carcass " + number++));
        }
        return collector.lot();
    }
}
