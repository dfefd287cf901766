package org.beefyield;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.io.UncheckedIOException;

/** Java serialization, there and back. */
public final class Serial {
    private Serial() {}

    @SuppressWarnings("unchecked")
    public static <T> T copy(T object) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try {
            try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
                out.writeObject(object);
            }
            return (T) new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray())).readObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException(e);
        }
    }
}
