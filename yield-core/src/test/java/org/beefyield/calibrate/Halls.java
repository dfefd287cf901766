package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.beefyield.boning.Trial;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;

/** Invented trials of an invented hall, drawn from known coefficients. */
final class Halls {
    /** Children of the carcass of {@link TestTables#small()} but its loss, by their true coefficients. */
    static final Map<String, List<Double>> TRUTH = Map.of(
            "meat", List.of(690.0, 9.0, -8.0, 4.0),
            "fat-trim", List.of(120.0, -2.0, 10.0, 1.0),
            "bone", List.of(182.0, -7.0, -2.0, -5.0));

    private Halls() {}

    static YieldTable prior() {
        return YieldTable.of(TestTables.small());
    }

    /** A carcass of a random grade and weight. */
    static Carcass carcass(Random random, int number) {
        return Carcass.of(
                        random.nextInt(3) == 0 ? Category.HEIFER : Category.STEER,
                        Conformation.third(4 + random.nextInt(9)),
                        FatClass.third(4 + random.nextInt(9)),
                        Math.rint(2600 + 1600 * random.nextDouble()) / 10)
                .withId("T-" + number);
    }

    /** What the truth gives of a child for a carcass, g/kg. */
    static double truth(String cut, Carcass carcass) {
        List<Double> b = TRUTH.get(cut);
        return b.get(0)
                + b.get(1) * (carcass.conformation().position() - 8)
                + b.get(2) * (carcass.fatClass().position() - 8)
                + b.get(3) * (carcass.coldWeightKg() - 340) / 100;
    }

    /** Shares of meat, fat trim and bone of a carcass with errors of SD 20, 18 and 8, g/kg; 5 to 11 g/kg are missing. */
    static Map<String, Double> shares(Random random, Carcass carcass) {
        double lean = random.nextGaussian();
        double frame = random.nextGaussian();
        Map<String, Double> shares = new LinkedHashMap<>();
        double loss = random.nextGaussian();
        shares.put("meat", truth("meat", carcass) + 18 * lean - 8 * frame - loss);
        shares.put("fat-trim", truth("fat-trim", carcass) - 18 * lean);
        shares.put("bone", truth("bone", carcass) + 8 * frame);
        return shares;
    }

    static Map<String, Double> kg(Carcass carcass, Map<String, Double> shares) {
        Map<String, Double> kg = new LinkedHashMap<>();
        shares.forEach((cut, share) -> kg.put(cut, share * carcass.coldWeightKg() / 1000));
        return kg;
    }

    /** Trials on days of ten carcasses. */
    static List<Trial> trials(long seed, int count) {
        Random random = new Random(seed);
        List<Trial> trials = new ArrayList<>();
        for (int i = 1; i <= count; i++) {
            Carcass carcass = carcass(random, i);
            trials.add(Trial.of(carcass, kg(carcass, shares(random, carcass)))
                    .withDay(String.format(Locale.ROOT, "2026-10-%02d", 1 + (i - 1) / 10 % 28)));
        }
        return trials;
    }
}
