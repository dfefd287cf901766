package org.beefyield.finish;

import java.util.List;
import org.beefyield.text.Checks;

/**
 * Animals that go to the plant together.
 *
 * @param day days from today
 * @param animals their forecasts, in the order in which to draw them
 * @param net what all of them leave on that day, the load's haulage not taken off
 * @param given what they leave less than if each went on its own best day within the limits
 */
public record Load(int day, List<Forecast> animals, double net, double given) {
    /** Copies the list. */
    public Load {
        Checks.noNullIn(animals, "animals");
        animals = List.copyOf(animals);
    }
}
