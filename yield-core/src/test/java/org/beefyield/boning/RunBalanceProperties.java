package org.beefyield.boning;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;

/** The balance of made runs, added up here in decimals. */
class RunBalanceProperties {
    private static double kg(Random random, int most) {
        return (1 + random.nextInt(1000 * most)) / 1000.0;
    }

    private static <T> T one(Random random, T[] values) {
        return values[random.nextInt(values.length)];
    }

    private static BigDecimal decimal(double kg) {
        return BigDecimal.valueOf(kg);
    }

    @Property
    void everyRunClosesToTheGramInAnyOrderOfItsRows(@ForAll long seed) {
        Random random = new Random(seed);
        Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);
        List<Intake> intake = new ArrayList<>();
        BigDecimal cameIn = BigDecimal.ZERO;
        BigDecimal change = BigDecimal.ZERO;
        for (int i = random.nextInt(40); i >= 0; i--) {
            Movement movement = one(random, Movement.values());
            IntakePart part = one(random, IntakePart.values());
            double kg = kg(random, 400);
            intake.add(Intake.of(carcass.withId("T-" + i), part, kg, movement, ""));
            cameIn = movement == Movement.TAKEN_FROM_STOCK ? cameIn : cameIn.add(decimal(kg));
            change = movement == Movement.LEFT_IN_STOCK ? change.add(decimal(kg)) : change;
            change = movement == Movement.TAKEN_FROM_STOCK ? change.subtract(decimal(kg)) : change;
        }
        List<Box> boxes = new ArrayList<>();
        BigDecimal boxed = BigDecimal.ZERO;
        for (int i = random.nextInt(400); i >= 0; i--) {
            double tare = random.nextInt(1000) / 1000.0;
            double gross = (1001 + random.nextInt(30_000)) / 1000.0;
            boolean again = random.nextInt(10) == 0;
            boxes.add(new Box("b" + i, "x", "", gross, tare, "", again ? BoxKind.REWORK : BoxKind.FIRST, List.of()));
            boxed = again ? boxed : boxed.add(decimal(gross)).subtract(decimal(tare));
        }
        List<Rest> rest = new ArrayList<>();
        BigDecimal beside = BigDecimal.ZERO;
        for (RestKind kind : RestKind.values()) {
            double kg = kg(random, 9000);
            rest.add(Rest.of(kind, kg));
            beside = beside.add(decimal(kg));
        }
        RunBalance balance = new BoningRun("", "2026-11-03", IntakeWeighing.HOT, intake, boxes, rest).balance();

        assertThat(BigDecimal.valueOf(balance.intakeG(), 3)).isEqualByComparingTo(cameIn);
        assertThat(BigDecimal.valueOf(balance.boxesG(), 3)).isEqualByComparingTo(boxed);
        assertThat(BigDecimal.valueOf(balance.restG(), 3)).isEqualByComparingTo(beside);
        assertThat(BigDecimal.valueOf(balance.stockChangeG(), 3)).isEqualByComparingTo(change);
        assertThat(balance.boxesG() + balance.restG() + balance.stockChangeG() + balance.unexplainedG())
                .isEqualTo(balance.intakeG());
        Collections.shuffle(intake, random);
        Collections.shuffle(boxes, random);
        Collections.shuffle(rest, random);
        assertThat(new BoningRun("", "2026-11-03", IntakeWeighing.HOT, intake, boxes, rest).balance())
                .isEqualTo(balance);
    }
}
