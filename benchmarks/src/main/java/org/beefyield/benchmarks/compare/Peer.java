package org.beefyield.benchmarks.compare;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Another program that computes the same, run as a process of its own; it times itself and prints its times as JSON. */
final class Peer {
    private static final Pattern TIMES = Pattern.compile("\"([^\"]+)\": \\[([^\\]]*)\\]");
    private static final Pattern VERSION = Pattern.compile("\"version\": \"([^\"]*)\"");

    private final String version;
    private final Map<String, Times> times = new HashMap<>();

    private Peer(String output) {
        Matcher matcher = VERSION.matcher(output);
        version = matcher.find() ? matcher.group(1) : "unknown version";
        matcher = TIMES.matcher(output);
        while (matcher.find()) {
            List<Double> values = new ArrayList<>();
            for (String value :
                    Pattern.compile(",").splitAsStream(matcher.group(2)).toList()) {
                values.add(Double.valueOf(value.trim()));
            }
            times.put(matcher.group(1), new Times("ns", values));
        }
    }

    /** Runs a peer; empty, with a word why, if it can't run. */
    static Optional<Peer> run(String name, List<String> command) {
        try {
            Process process = new ProcessBuilder(command)
                    .redirectError(ProcessBuilder.Redirect.INHERIT)
                    .start();
            String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            if (process.waitFor() == 0) {
                return Optional.of(new Peer(output));
            }
            System.out.println("skipped: " + name + " ended with " + process.exitValue()
                    + "; benchmarks/peers/install installs what it needs on Debian");
        } catch (IOException absent) {
            System.out.println("skipped: " + name + " is not installed (" + absent.getMessage()
                    + "); benchmarks/peers/install installs it on Debian");
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
        }
        return Optional.empty();
    }

    String version() {
        return version;
    }

    Times times(String what) {
        Times found = times.get(what);
        if (found == null) {
            throw new IllegalStateException(version + " printed no times of " + what);
        }
        return found;
    }

    /** Checks numbers that a peer wrote, little-endian, against ours. */
    static void checkAgrees(String name, Path file, double[] ours, double tolerance) {
        try {
            ByteBuffer bytes = ByteBuffer.wrap(Files.readAllBytes(file)).order(ByteOrder.LITTLE_ENDIAN);
            if (bytes.remaining() != ours.length * (long) Double.BYTES) {
                throw new IllegalStateException(
                        name + " wrote " + bytes.remaining() / Double.BYTES + " numbers, not " + ours.length);
            }
            for (int i = 0; i < ours.length; i++) {
                double theirs = bytes.getDouble();
                if (!(Math.abs(theirs - ours[i]) <= tolerance * Math.max(1, Math.abs(ours[i])))) {
                    throw new IllegalStateException(
                            name + " doesn't agree: number " + i + " is " + theirs + ", ours " + ours[i]);
                }
            }
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    static void write(Path file, double[] values) throws IOException {
        ByteBuffer bytes = ByteBuffer.allocate(values.length * Double.BYTES).order(ByteOrder.LITTLE_ENDIAN);
        Arrays.stream(values).forEach(bytes::putDouble);
        Files.write(file, bytes.array());
    }
}
