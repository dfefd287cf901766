package org.beefyield.data.command;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.market.MarketSummary;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** Who is in each market specification, and who misses what. */
final class MarketLists {
    /** Carcasses that are listed one by one. */
    static final int LISTED = 1000;

    private final List<MarketSpecification> specifications;
    private final List<MarketSummary.Collector> collectors;
    private final TextTable table;
    private long carcasses;

    MarketLists(List<MarketSpecification> specifications) {
        this.specifications = List.copyOf(specifications);
        this.collectors = specifications.stream().map(MarketSummary::collector).toList();
        List<String> header = new ArrayList<>(List.of("carcass", "supplier", "grade", "cold, kg"));
        specifications.forEach(specification -> header.add(specification.name()));
        table = new TextTable(header.toArray(String[]::new));
    }

    /** What a list of carcasses says of each. */
    static List<String> heads(Carcass carcass) {
        return List.of(
                carcass.id().orElse(""),
                carcass.supplier().orElse(""),
                carcass.category() + " " + carcass.conformation() + " " + carcass.fatClass(),
                kg(carcass.coldWeightKg()));
    }

    /** As recorded, but with a decimal, so that weights stand below each other. */
    private static String kg(double kg) {
        String brief = Numbers.brief(kg);
        return Numbers.grouped(brief.indexOf('.') < 0 ? Numbers.fixed(kg, 1) : brief);
    }

    void add(Carcass carcass) {
        collectors.forEach(collector -> collector.add(carcass));
        if (carcasses++ < LISTED) {
            List<String> row = new ArrayList<>(heads(carcass));
            for (MarketSpecification specification : specifications) {
                List<MarketFault> faults = specification.check(carcass);
                row.add(
                        faults.isEmpty()
                                ? "in"
                                : "misses "
                                        + faults.stream()
                                                .map(fault -> fault.limit().words())
                                                .distinct()
                                                .collect(Collectors.joining(", ")));
            }
            table.row(row);
        }
    }

    List<MarketSummary> summaries() {
        return collectors.stream().map(MarketSummary.Collector::result).toList();
    }

    /** Which limits are missed, then every carcass. */
    Blocks blocks() {
        Blocks blocks = new Blocks();
        summaries().forEach(blocks::add);
        blocks.add(table);
        return carcasses > LISTED ? blocks.sentence("and " + (carcasses - LISTED) + " more carcasses") : blocks;
    }
}
