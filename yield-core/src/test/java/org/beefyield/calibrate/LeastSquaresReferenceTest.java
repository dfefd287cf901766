package org.beefyield.calibrate;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The solver on the NIST Statistical Reference Datasets; the resources name the source of each. */
class LeastSquaresReferenceTest {
    private static final Pattern COMMA = Pattern.compile(",");

    /** Lines of a resource without comments and header, split at commas. */
    static List<List<String>> read(String name) {
        try (InputStream in = Objects.requireNonNull(LeastSquaresReferenceTest.class.getResourceAsStream(name));
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            List<List<String>> lines = new ArrayList<>();
            reader.lines()
                    .filter(line -> !line.startsWith("#"))
                    .skip(1)
                    .forEach(line -> lines.add(COMMA.splitAsStream(line).toList()));
            return lines;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static double[] numbers(List<String> cells) {
        return cells.stream().mapToDouble(Double::parseDouble).toArray();
    }

    /** Digits in which two figures agree. */
    private static double digits(double found, double certified) {
        double off = certified == 0 ? Math.abs(found) : Math.abs(found - certified) / Math.abs(certified);
        return off == 0 ? 15 : Math.min(15, -Math.log10(off));
    }

    /**
     * Digits are those that doubles can give: the terms of Longley have a condition number of about 5e9, the powers of
     * Wampler of about 6e6, and in Wampler 4 and 5 the residuals are up to 1e4 times what the terms explain, so that noise
     * in the last place of the responses alone costs as many digits of the coefficients.
     */
    @ParameterizedTest
    @CsvSource({
        "norris, 1, 12, 12",
        "longley, 0, 11, 11",
        "wampler1, 5, 9, 0",
        "wampler2, 5, 12, 0",
        "wampler3, 5, 9, 12",
        "wampler4, 5, 7.5, 12",
        "wampler5, 5, 5.5, 12"
    })
    void theSolverGivesTheCertifiedFigures(String name, int power, double digits, double errorDigits) {
        List<List<String>> lines = read("nist-" + name + ".csv");
        List<double[]> x = new ArrayList<>();
        List<double[]> y = new ArrayList<>();
        List<double[]> certified = new ArrayList<>();
        for (List<String> line : lines) {
            List<String> rest = line.subList(1, line.size());
            if (line.get(0).equals("data")) {
                double[] row = numbers(rest);
                y.add(new double[] {row[0]});
                double[] terms = power == 0 ? row.clone() : new double[power + 1];
                terms[0] = 1;
                for (int k = 1; k <= power; k++) {
                    terms[k] = Math.pow(row[1], k);
                }
                x.add(terms);
            } else if (rest.get(0).startsWith("B")) {
                certified.add(numbers(rest.subList(1, 3)));
            }
        }
        double[][] design = x.toArray(double[][]::new);
        double[][] responses = y.toArray(double[][]::new);
        LeastSquares solved = new LeastSquares(design, responses);
        int p = design[0].length;
        double[][] none = new double[p][1];
        double[] weights = new double[design.length];
        Arrays.fill(weights, 1);
        Regression regression = new Regression(design, responses, weights, none, new double[0][0], 0);

        assertThat(solved.dependent()).isEmpty();
        assertThat(certified).hasSize(p);
        for (int j = 0; j < p; j++) {
            double found = solved.coefficients()[j][0];
            assertThat(digits(found, certified.get(j)[0]))
                    .as("B%d of %s: %s", j, name, found)
                    .isGreaterThanOrEqualTo(digits);
            double error = regression.sd(0) * Math.sqrt(solved.unscaledCovariance()[j][j]);
            if (errorDigits > 0) {
                assertThat(digits(error, certified.get(j)[1]))
                        .as("standard error of B%d of %s: %s", j, name, error)
                        .isGreaterThanOrEqualTo(errorDigits);
            } else {
                // exact data: nothing but noise
                assertThat(error).isLessThan(1e-8);
            }
        }
        lines.stream()
                .filter(line -> line.contains("r2"))
                .forEach(line -> assertThat(digits(regression.r2(0), Double.parseDouble(line.get(2))))
                        .isGreaterThanOrEqualTo(12));
        lines.stream()
                .filter(line -> line.contains("residual-sd"))
                .forEach(line -> assertThat(digits(regression.sd(0), Double.parseDouble(line.get(2))))
                        .isGreaterThanOrEqualTo(11));
    }
}
