package org.beefyield.data.json;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.file.Excerpt;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.exc.InputCoercionException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.MapperFeature;
import tools.jackson.databind.cfg.CoercionAction;
import tools.jackson.databind.cfg.CoercionInputShape;
import tools.jackson.databind.exc.InvalidFormatException;
import tools.jackson.databind.exc.MismatchedInputException;
import tools.jackson.databind.exc.UnrecognizedPropertyException;
import tools.jackson.databind.exc.ValueInstantiationException;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.type.LogicalType;

/** Writes the forms of {@code org.beefyield.json} as JSON and reads them back. */
public final class Json {
    private static final int SHOWN = 200;

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
            .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
            .withCoercionConfig(
                    LogicalType.Textual,
                    text -> text.setCoercion(CoercionInputShape.Boolean, CoercionAction.Fail)
                            .setCoercion(CoercionInputShape.Integer, CoercionAction.Fail)
                            .setCoercion(CoercionInputShape.Float, CoercionAction.Fail))
            .disable(MapperFeature.SORT_PROPERTIES_ALPHABETICALLY)
            .build();

    private Json() {}

    /**
     * Writes a form.
     *
     * @param form a record of {@code org.beefyield.json}
     * @return one line of JSON, its components in the order in which they are documented
     */
    public static String text(Record form) {
        return MAPPER.writeValueAsString(Objects.requireNonNull(form, "form"));
    }

    /**
     * Reads a form.
     *
     * @param name what problems call the text, such as the name of a file
     * @param text JSON
     * @param type the record that it is
     * @return the form
     * @param <T> the record that it is
     * @throws InvalidDataException if the text isn't JSON, or has a component that the form lacks, one of another type or
     *     one twice; it names line, component and value
     */
    public static <T extends Record> T read(String name, String text, Class<T> type) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(text, "text");
        Objects.requireNonNull(type, "type");
        if (text.isBlank()) {
            throw new InvalidDataException(
                    List.of(new Problem(name, 0, "", "", "the text is empty; " + words(type) + " is needed")));
        }
        T form;
        try {
            form = MAPPER.readValue(text, type);
        } catch (JacksonException e) {
            throw new InvalidDataException(List.of(problem(name, e)), e);
        }
        if (form == null) {
            throw new InvalidDataException(
                    List.of(new Problem(name, 1, "", "null", "null stands here; " + words(type) + " is needed")));
        }
        return form;
    }

    private static Problem problem(String name, JacksonException e) {
        String value = "";
        String message;
        if (e instanceof UnrecognizedPropertyException unknown) {
            message = "there is no component " + Excerpt.quote(unknown.getPropertyName()) + "; components: "
                    + unknown.getKnownPropertyIds().stream()
                            .map(String::valueOf)
                            .collect(Collectors.joining(", "));
        } else if (e instanceof InvalidFormatException wrong) {
            value = Excerpt.clip(String.valueOf(wrong.getValue()), SHOWN);
            message = Excerpt.quote(value) + " stands here; " + words(wrong.getTargetType()) + " is needed";
        } else if (e instanceof ValueInstantiationException lacking
                && lacking.getCause() instanceof NullPointerException missing) {
            message = "the component " + missing.getMessage() + " is missing";
        } else if (e instanceof MismatchedInputException wrong && wrong.getTargetType() != null) {
            message = words(wrong.getTargetType()) + " is needed here";
        } else if (e instanceof InputCoercionException) {
            message = "the number is too large";
        } else if (e.getOriginalMessage().startsWith("Duplicate")) {
            message = "a component stands twice";
        } else {
            message = "from character " + Math.max(1, e.getLocation().getColumnNr()) + " on this is no JSON";
        }
        long line = Math.max(0, e.getLocation().getLineNr());
        return new Problem(name, line, component(e), value, message);
    }

    private static String component(JacksonException e) {
        StringBuilder path = new StringBuilder();
        for (JacksonException.Reference step : e.getPath()) {
            if (step.getPropertyName() == null) {
                path.append('[').append(step.getIndex()).append(']');
            } else {
                path.append(path.isEmpty() ? "" : ".").append(step.getPropertyName());
            }
        }
        return path.toString();
    }

    private static String words(Class<?> type) {
        if (Record.class.isAssignableFrom(type)) {
            return "a JSON object";
        }
        if (type == String.class) {
            return "text in quotes";
        }
        if (type == Boolean.class || type == boolean.class) {
            return "true or false";
        }
        if (type == Integer.class || type == Long.class || type == long.class) {
            return "a whole number";
        }
        return List.class.isAssignableFrom(type) ? "a list" : "a number";
    }
}
