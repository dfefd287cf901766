package org.beefyield.benchmarks.calibrate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.random.RandomGenerator;
import org.beefyield.benchmarks.coverage.Herd;
import org.beefyield.benchmarks.coverage.Outcome;
import org.beefyield.benchmarks.coverage.World;
import org.beefyield.boning.Trial;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;

/** A hall that was drawn: what it does, its days and its suppliers, of each of which it bones one carcass. */
final class Hall {
    private static final double G_PER_KG = 1000;

    private final TableDefinition truth;
    private final World.Draw world;
    private final RandomGenerator random;
    private int lots;
    private int runs;

    private Hall(TableDefinition truth, World.Draw world, RandomGenerator random) {
        this.truth = truth;
        this.world = world;
        this.random = random;
    }

    /** A hall none of whose shares is below 0 in the fitted range; one of which one is, is drawn again. */
    static Hall draw(TableDefinition truth, World world, List<Category> categories, RandomGenerator random) {
        while (true) {
            Hall hall = new Hall(truth, world.draw(random), random);
            if (categories.stream().allMatch(hall::isPossible)) {
                return hall;
            }
        }
    }

    /** Shares are linear in the fitted range, where no hinge counts. */
    private boolean isPossible(Category category) {
        TableRange range = truth.fitted();
        for (double conformation :
                new double[] {range.conformation().low(), range.conformation().high()}) {
            for (double fat : new double[] {range.fat().low(), range.fat().high()}) {
                for (double kg :
                        new double[] {range.weightKg().low(), range.weightKg().high()}) {
                    for (int child = 0; child < children(category); child++) {
                        if (share(category, child, conformation, fat, kg) < 0) {
                            return false;
                        }
                    }
                }
            }
        }
        return true;
    }

    private int children(Category category) {
        return world.coefficients(category, 0).length;
    }

    private double share(Category category, int child, double conformation, double fat, double kg) {
        ReferencePoint reference = truth.reference();
        double[] of = world.coefficients(category, 0)[child];
        return of[0]
                + of[1] * (conformation - reference.conformation())
                + of[2] * (fat - reference.fat())
                + of[3] * (kg - reference.weightKg()) / 100;
    }

    /**
     * What its carcasses of a grade give on average.
     *
     * @return g per kg of the carcass; of a child of the carcass
     */
    double expected(Carcass carcass, int child) {
        return G_PER_KG
                * share(
                        carcass.category(),
                        child,
                        carcass.conformation().position(),
                        carcass.fatClass().position(),
                        carcass.coldWeightKg());
    }

    /** A coefficient as files have it. */
    double coefficient(Category category, int child, int column) {
        return G_PER_KG * world.coefficients(category, 0)[child][column];
    }

    /** Bones trials on days of as many carcasses each as can be, categories in turn. */
    List<Trial> trials(int count, int days, List<Category> categories, String level, List<String> cuts) {
        List<Trial> trials = new ArrayList<>();
        int ofDay = runs;
        for (int i = 0; i < count; i++) {
            Carcass carcass = carcass(categories.get(i / days % categories.size()), random);
            Outcome outcome = bone(List.of(carcass), ofDay + i % days);
            Map<String, Double> kg = new LinkedHashMap<>();
            cuts.forEach(cut -> kg.put(cut, outcome.kg(truth.levels().indexOf(level), cut)));
            trials.add(Trial.of(carcass.withId("T" + i), kg).withDay("day-" + i % days));
        }
        runs += days;
        return trials;
    }

    /** Bones carcasses of as many suppliers on a new day. */
    Outcome bone(List<Carcass> carcasses) {
        return bone(carcasses, runs++);
    }

    private Outcome bone(List<Carcass> carcasses, int run) {
        Herd herd = new Herd();
        carcasses.forEach(carcass -> herd.add(new Herd.Head(carcass, lots++, run, 0)));
        return world.give(herd)[0];
    }

    /** A carcass in thirds of a class: invented, R= 3= on average. */
    static Carcass carcass(Category category, RandomGenerator random) {
        return Carcass.of(
                category,
                Conformation.third(within(2, 14, 8 + 1.7 * random.nextGaussian())),
                FatClass.third(within(3, 13, 8 + 1.5 * random.nextGaussian())),
                Math.max(240, Math.min(450, 340 + 35 * random.nextGaussian())));
    }

    private static int within(int low, int high, double position) {
        return Math.max(low, Math.min(high, (int) Math.round(position)));
    }

    /** Carcasses of as many suppliers. */
    static List<Carcass> carcasses(int count, List<Category> categories, RandomGenerator random) {
        List<Carcass> carcasses = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            carcasses.add(carcass(categories.get(random.nextInt(categories.size())), random)
                    .withLot("L" + i));
        }
        return carcasses;
    }
}
