package org.beefyield.json;

import java.io.Serializable;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.beefyield.BeefyieldException;
import org.beefyield.text.Checks;

/** A form that a client sent and that is no carcass; it has everything that is wrong with it. */
public final class InvalidFormException extends BeefyieldException {
    private static final long serialVersionUID = 1;

    /**
     * What is wrong with one component.
     *
     * @param component name of the component
     * @param value its value as text, empty if it is missing
     * @param message a clause that can stand alone and says what would be valid
     * @serial exclude
     */
    public record Fault(String component, String value, String message) implements Serializable {
        /** Refuses what is missing. */
        public Fault {
            Objects.requireNonNull(component, "component");
            Objects.requireNonNull(value, "value");
            Objects.requireNonNull(message, "message");
        }
    }

    /**
     * What is wrong.
     *
     * @serial one or more
     */
    private final Fault[] faults;

    InvalidFormException(List<Fault> faults) {
        super(faults.stream()
                .map(fault -> fault.value().isEmpty() ? fault.message() : fault.component() + ": " + fault.message())
                .collect(Collectors.joining("; ")));
        Checks.noNullIn(faults, "faults");
        this.faults = faults.toArray(new Fault[0]);
    }

    /**
     * What is wrong, in the order of the components.
     *
     * @return one or more faults
     */
    public List<Fault> faults() {
        return List.of(faults);
    }
}
