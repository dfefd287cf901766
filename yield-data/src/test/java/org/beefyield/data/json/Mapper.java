package org.beefyield.data.json;

/** What a web service has for JSON, just as it comes: no setting, no module, no annotation. */
// mappers don't change once they are made
@SuppressWarnings("ImmutableEnumChecker")
enum Mapper {
    JACKSON_2 {
        private final com.fasterxml.jackson.databind.ObjectMapper mapper =
                new com.fasterxml.jackson.databind.ObjectMapper();

        @Override
        String write(Object value) {
            try {
                return mapper.writeValueAsString(value);
            } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
                throw new IllegalStateException(e);
            }
        }

        @Override
        <T> T read(String text, Class<T> type) {
            try {
                return mapper.readValue(text, type);
            } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
                throw new IllegalArgumentException(e.getOriginalMessage(), e);
            }
        }
    },

    JACKSON_3 {
        private final tools.jackson.databind.json.JsonMapper mapper = new tools.jackson.databind.json.JsonMapper();

        @Override
        String write(Object value) {
            return mapper.writeValueAsString(value);
        }

        @Override
        <T> T read(String text, Class<T> type) {
            try {
                return mapper.readValue(text, type);
            } catch (tools.jackson.core.JacksonException e) {
                throw new IllegalArgumentException(e.getOriginalMessage(), e);
            }
        }
    },

    OURS {
        @Override
        String write(Object value) {
            return Json.text((Record) value);
        }

        @Override
        @SuppressWarnings("unchecked")
        <T> T read(String text, Class<T> type) {
            return (T) Json.read("request", text, type.asSubclass(Record.class));
        }
    };

    abstract String write(Object value);

    abstract <T> T read(String text, Class<T> type);
}
