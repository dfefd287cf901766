package org.beefyield.data.file;

import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;

/** What an exception of the file system means, in words. */
public final class Reason {
    private Reason() {}

    /**
     * Why a file can't be opened, read or written.
     *
     * @param e what was thrown
     * @return a clause without a full stop
     */
    public static String of(Exception e) {
        if (e instanceof AccessDeniedException) {
            return "access is denied";
        }
        if (e instanceof NoSuchFileException missing) {
            return "there is no file " + missing.getFile();
        }
        if (e instanceof FileSystemException failed && failed.getReason() != null) {
            return failed.getReason();
        }
        return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    }
}
