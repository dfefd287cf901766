package org.beefyield.data.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Product;
import org.beefyield.calibrate.RunCalibrated;
import org.beefyield.calibrate.RunCalibration;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Outputs;
import org.beefyield.data.Source;
import org.beefyield.data.boning.BoningRunReader;
import org.beefyield.data.boning.BoningRunSheet;
import org.beefyield.data.boning.ProductReader;
import org.beefyield.estimate.YieldEstimator;
import org.jspecify.annotations.Nullable;

/** Everyday runs that a table is learnt from. */
final class TeachingRuns {
    static final List<String> NAMED = List.of("--intake", "--boxes", "--products", "--rest", "--change");

    private final Path intake;
    private final Path boxes;
    private final Path products;
    private final @Nullable Path rest;
    private final @Nullable String change;

    private TeachingRuns(Path intake, Options options) {
        this.intake = intake;
        this.boxes = Options.path(options.needed("--boxes"));
        this.products = Options.path(options.needed("--products"));
        this.rest = options.optionalPath("--rest");
        this.change = options.value("--change");
    }

    static @Nullable TeachingRuns optional(Options options) {
        Path intake = options.optionalPath("--intake");
        if (intake != null) {
            return new TeachingRuns(intake, options);
        }
        for (String name : NAMED) {
            if (options.value(name) != null) {
                throw new Options.UsageException(name + " needs --intake");
            }
        }
        return null;
    }

    void claim(Outputs outputs) {
        outputs.input("--intake", intake);
        outputs.input("--boxes", boxes);
        outputs.input("--products", products);
        if (rest != null) {
            outputs.input("--rest", rest);
        }
    }

    Path file() {
        return intake;
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
        List<Product> known = ProductReader.read(Source.of(products), form, estimator.table());
        BoningRunSheet sheet = BoningRunReader.read(
                Source.of(intake),
                Source.of(boxes),
                rest == null ? null : Source.of(rest),
                known,
                form,
                estimator.table());
        List<String> leftOut = new ArrayList<>();
        List<BoningRun> runs = ReconcileCommand.usable(sheet, estimator, leftOut);
        List<String> head = new ArrayList<>();
        head.add("Runs: " + sheet);
        sheet.problems().forEach(problem -> head.add("  " + problem));
        sheet.notes().forEach(note -> head.add("Note: " + note));
        head.addAll(leftOut);
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
