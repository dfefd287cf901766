package org.beefyield.data.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Product;
import org.beefyield.calibrate.RunCalibrated;
import org.beefyield.calibrate.RunCalibration;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Outputs;
import org.beefyield.data.boning.BoningRunSheet;
import org.beefyield.estimate.YieldEstimator;
import org.jspecify.annotations.Nullable;

/** Everyday runs that a table is learnt from. */
final class TeachingRuns {
    static final List<String> NAMED =
            Stream.concat(RunFiles.NAMED.stream(), Stream.of("--change")).toList();

    private final RunFiles files;
    private final @Nullable String change;

    private TeachingRuns(Options options) {
        this.files = RunFiles.of(options);
        this.change = options.value("--change");
    }

    static @Nullable TeachingRuns optional(Options options) {
        if (options.value("--intake") != null) {
            return new TeachingRuns(options);
        }
        for (String name : NAMED) {
            if (options.value(name) != null) {
                throw new Options.UsageException(name + " needs --intake");
            }
        }
        return null;
    }

    void claim(Outputs outputs) {
        files.claim(outputs);
    }

    Path file() {
        return files.intake();
    }

    /**
     * What came of runs.
     *
     * @param head what was read, and what of it was left out
     * @param isWhole whether nothing was left out
     */
    record Taught(List<String> head, boolean isWhole, RunCalibrated result) {
        Taught {
            head = List.copyOf(head);
        }
    }

    /** Learns with a table in use. */
    Taught teach(YieldEstimator estimator, CsvForm form) {
        List<Product> known = files.products(form, estimator.table());
        BoningRunSheet sheet = files.sheet(known, form, estimator.table());
        List<String> leftOut = new ArrayList<>();
        List<BoningRun> runs = ReconcileCommand.usable(sheet, estimator, leftOut);
        List<String> head = RunFiles.head(sheet, sheet.notes(), leftOut);
        try {
            RunCalibration calibration = RunCalibration.of(runs, estimator, known);
            RunCalibrated result = (change == null ? calibration : calibration.withChange(change)).fit();
            boolean isWhole = sheet.problems().isEmpty()
                    && leftOut.isEmpty()
                    && result.unbalanced().isEmpty();
            return new Taught(head, isWhole, result);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
    }
}
