package org.beefyield.data.command;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Options of a command line: {@code --name value} or {@code --name=value}, and flags without a value. */
final class Options {
    /** An option that can't be understood; the message says what would be valid. */
    static final class UsageException extends RuntimeException {
        private static final long serialVersionUID = 1;

        UsageException(String message) {
            super(message);
        }
    }

    private final Map<String, String> values = new LinkedHashMap<>();

    Options(List<String> arguments, List<String> named, List<String> flags) {
        for (int i = 0; i < arguments.size(); i++) {
            String argument = arguments.get(i);
            int equals = argument.indexOf('=');
            String name = equals < 0 ? argument : argument.substring(0, equals);
            String value;
            if (flags.contains(name) && equals < 0) {
                value = "";
            } else if (!named.contains(name)) {
                throw new UsageException("unknown option \"" + argument + "\"; options: " + String.join(" ", named)
                        + " " + String.join(" ", flags));
            } else if (equals >= 0) {
                value = argument.substring(equals + 1);
            } else if (i + 1 < arguments.size()) {
                value = arguments.get(++i);
                if (named.contains(value) || flags.contains(value)) {
                    throw new UsageException("option " + name + " needs a value, but " + value
                            + " stands behind it; a value that is called so is written as " + name + "=" + value);
                }
            } else {
                throw new UsageException("option " + name + " needs a value");
            }
            if (named.contains(name) && value.isEmpty()) {
                throw new UsageException("option " + name + " has an empty value");
            }
            if (values.put(name, value) != null) {
                throw new UsageException("option " + name + " stands twice");
            }
        }
    }

    /** Options and flags that were given. */
    Set<String> names() {
        return Collections.unmodifiableSet(values.keySet());
    }

    @Nullable
    String value(String name) {
        return values.get(name);
    }

    String valueOr(String name, String other) {
        return values.getOrDefault(name, other);
    }

    @Nullable
    Path optionalPath(String name) {
        String value = values.get(name);
        return value == null ? null : path(value);
    }

    String needed(String name) {
        String value = values.get(name);
        if (value == null) {
            throw new UsageException("option " + name + " is missing");
        }
        return value;
    }

    boolean has(String flag) {
        return values.containsKey(flag);
    }

    static Path path(String value) {
        try {
            return Path.of(value);
        } catch (InvalidPathException e) {
            throw new UsageException("\"" + value + "\" is no file name: " + e.getReason());
        }
    }

    static double number(String name, String value) {
        if (!value.matches("-?[0-9]+(\\.[0-9]+)?")) {
            throw new UsageException(name + " \"" + value + "\" is not a number such as 15");
        }
        return Double.parseDouble(value);
    }
}
