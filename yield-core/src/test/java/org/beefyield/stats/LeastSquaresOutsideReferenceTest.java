package org.beefyield.stats;

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
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The solver on the NIST Statistical Reference Datasets, linear regression (www.itl.nist.gov/div898/strd). The files are
 * NIST's own, unchanged but for their line ends; each names the source of its data.
 */
class LeastSquaresOutsideReferenceTest {
    private static List<String> lines(String name) {
        try (InputStream in = Objects.requireNonNull(LeastSquaresOutsideReferenceTest.class.getResourceAsStream(name));
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            return reader.lines().toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static final Pattern BLANKS = Pattern.compile(" +");
    private static final Pattern LINES = Pattern.compile("\\(lines (\\d+) to (\\d+)\\)");

    /** A file of the datasets as NIST lays it out: it says itself which of its lines hold what. */
    private static final class Dataset {
        final List<double[]> data;
        /** Estimate and its standard deviation, by parameter. */
        final List<double[]> parameters = new ArrayList<>();

        double residualSd;
        double r2;

        Dataset(String name) {
            List<String> lines = lines("nist/" + name + ".dat");
            data = part(lines, "Data ").stream()
                    .map(line -> BLANKS.splitAsStream(line.strip())
                            .mapToDouble(Double::parseDouble)
                            .toArray())
                    .toList();
            for (String line : part(lines, "Certified Values")) {
                List<String> words = BLANKS.splitAsStream(line.strip()).toList();
                if (words.get(0).matches("B\\d+")) {
                    assertThat(words.get(0)).isEqualTo("B" + parameters.size());
                    parameters.add(new double[] {number(words, 1), number(words, 2)});
                } else if (line.strip().startsWith("Standard Deviation ")) {
                    residualSd = number(words, 2);
                } else if (words.get(0).equals("R-Squared")) {
                    r2 = number(words, 1);
                }
            }
        }

        private static double number(List<String> words, int index) {
            return Double.parseDouble(words.get(index));
        }

        private static List<String> part(List<String> lines, String title) {
            String head = lines.stream()
                    .filter(line -> line.strip().startsWith(title) && line.contains("(lines "))
                    .findFirst()
                    .orElseThrow();
            Matcher range = LINES.matcher(head);
            assertThat(range.find()).as(head).isTrue();
            return lines.subList(Integer.parseInt(range.group(1)) - 1, Integer.parseInt(range.group(2)));
        }
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
        "Norris, 36, 1, 12, 12",
        "Longley, 16, 0, 11, 11",
        "Wampler1, 21, 5, 9, 0",
        "Wampler2, 21, 5, 12, 0",
        "Wampler3, 21, 5, 9, 12",
        "Wampler4, 21, 5, 7.5, 12",
        "Wampler5, 21, 5, 5.5, 12"
    })
    void theSolverGivesTheCertifiedFigures(
            String name, int observations, int power, double digits, double errorDigits) {
        Dataset dataset = new Dataset(name);
        List<double[]> x = new ArrayList<>();
        List<double[]> y = new ArrayList<>();
        for (double[] row : dataset.data) {
            y.add(new double[] {row[0]});
            double[] terms = power == 0 ? row.clone() : new double[power + 1];
            terms[0] = 1;
            for (int k = 1; k <= power; k++) {
                terms[k] = Math.pow(row[1], k);
            }
            x.add(terms);
        }
        double[][] design = LeastSquaresTest.turned(x.toArray(double[][]::new));
        double[][] responses = LeastSquaresTest.turned(y.toArray(double[][]::new));
        LeastSquares solved = new LeastSquares(design, responses);
        int p = design.length;
        double[][] none = new double[p][1];
        double[] weights = new double[x.size()];
        Arrays.fill(weights, 1);
        Regression regression =
                new Regression(design, responses, new double[1][x.size()], weights, none, new double[0][0], 0);

        assertThat(solved.dependent()).isEmpty();
        assertThat(dataset.parameters).hasSize(p);
        assertThat(x).hasSize(observations);
        for (int j = 0; j < p; j++) {
            double found = solved.coefficients()[j][0];
            assertThat(digits(found, dataset.parameters.get(j)[0]))
                    .as("B%d of %s: %s", j, name, found)
                    .isGreaterThanOrEqualTo(digits);
            double error = regression.sd(0) * Math.sqrt(solved.unscaledCovariance()[j][j]);
            if (errorDigits > 0) {
                assertThat(digits(error, dataset.parameters.get(j)[1]))
                        .as("standard error of B%d of %s: %s", j, name, error)
                        .isGreaterThanOrEqualTo(errorDigits);
            } else {
                // exact data: nothing but noise
                assertThat(error).isLessThan(1e-8);
            }
        }
        assertThat(digits(regression.r2(0), dataset.r2)).isGreaterThanOrEqualTo(12);
        if (errorDigits > 0) {
            assertThat(digits(regression.sd(0), dataset.residualSd)).isGreaterThanOrEqualTo(11);
        }
    }
}
