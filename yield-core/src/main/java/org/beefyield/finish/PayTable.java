package org.beefyield.finish;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.jspecify.annotations.Nullable;

/**
 * What a kg is paid at, and which limits are missed, for carcasses of one category, age and assurance: by third of conformation
 * and fat class and by weight band, within which neither changes. Filled as it is asked. Not thread-safe.
 */
final class PayTable {
    private static final List<Conformation> CONFORMATIONS = Conformation.thirds();
    private static final List<FatClass> FAT_CLASSES = FatClass.thirds();
    private static final double ANY_KG = 300;
    private static final double BESIDE_KG = 1e-3;

    /** What is paid, and the limits missed. */
    record Cell(double perKg, Set<MarketFault.Limit> missed) {}

    private final Setup setup;
    private final Category category;
    private final @Nullable Integer ageMonths;
    private final @Nullable Boolean assured;
    private final double[] edges;
    private final @Nullable Cell[] cells;

    PayTable(Setup setup, Category category, @Nullable Integer ageMonths, @Nullable Boolean assured) {
        this.setup = setup;
        this.category = category;
        this.ageMonths = ageMonths;
        this.assured = assured;
        this.edges = edges(setup);
        this.cells = new @Nullable Cell[(edges.length + 1) * CONFORMATIONS.size() * FAT_CLASSES.size()];
    }

    private static double[] edges(Setup setup) {
        DoubleStream ofGrid = setup.grid().rows().stream()
                .flatMap(row -> Stream.of(row.fromKg(), row.toKg()))
                .filter(Objects::nonNull)
                .mapToDouble(Double::doubleValue);
        return DoubleStream.concat(ofGrid, ofMarket(setup.market()))
                .filter(edge -> edge > 0 && edge < CarcassWeights.HEAVIEST_KG)
                .distinct()
                .sorted()
                .toArray();
    }

    private static DoubleStream ofMarket(@Nullable MarketSpecification market) {
        if (market == null) {
            return DoubleStream.empty();
        }
        return Stream.of(market.fromKg(), market.toKg())
                .flatMapToDouble(OptionalDouble::stream)
                .map(kg -> market.isOfHotWeight() ? kg * 98 / 100 : kg);
    }

    /** The third, counted from 0, in which a position lies. */
    static int third(double position, int thirds) {
        return (int) Math.max(0, Math.min(thirds - 1, Math.floor(position + 0.5) - 1));
    }

    static int conformationThird(double position) {
        return third(position, CONFORMATIONS.size());
    }

    static int fatThird(double position) {
        return third(position, FAT_CLASSES.size());
    }

    Cell cell(double coldKg, int conformation, int fat) {
        int found = Arrays.binarySearch(edges, coldKg);
        if (found >= 0) {
            // right on an edge each limit says itself to which side that counts
            return made(coldKg, conformation, fat);
        }
        int band = -found - 1;
        int index = (band * CONFORMATIONS.size() + conformation) * FAT_CLASSES.size() + fat;
        Cell cell = cells[index];
        if (cell == null) {
            cell = made(inBand(band), conformation, fat);
            cells[index] = cell;
        }
        return cell;
    }

    private double inBand(int band) {
        if (edges.length == 0) {
            return ANY_KG;
        }
        if (band == 0) {
            return edges[0] / 2;
        }
        return band == edges.length
                ? Math.min(CarcassWeights.HEAVIEST_KG, edges[band - 1] + BESIDE_KG)
                : (edges[band - 1] + edges[band]) / 2;
    }

    private Cell made(double coldKg, int conformation, int fat) {
        Carcass carcass = Carcass.of(category, CONFORMATIONS.get(conformation), FAT_CLASSES.get(fat), coldKg);
        if (ageMonths != null) {
            carcass = carcass.withAgeMonths(ageMonths);
        }
        if (assured != null) {
            carcass = carcass.withAssured(assured);
        }
        Set<MarketFault.Limit> missed = EnumSet.noneOf(MarketFault.Limit.class);
        if (setup.market() != null) {
            for (MarketFault fault : setup.market().check(carcass)) {
                missed.add(fault.limit());
            }
        }
        return new Cell(setup.grid().paid(carcass).perKg().doubleValue(), missed);
    }
}
