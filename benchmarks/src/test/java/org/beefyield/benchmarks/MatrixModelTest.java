package org.beefyield.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.math3.linear.RealMatrix;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldColumns;
import org.beefyield.estimate.YieldEstimator;
import org.junit.jupiter.api.Test;

/** Whoever is compared computes the same. */
class MatrixModelTest {
    @Test
    void theMatricesGiveTheKilogramsOfTheColumns() {
        YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
        YieldColumns columns = estimator.columns();
        Herd herd = new Herd(2000);
        int width = columns.columns().size();
        double[] kg = new double[2000 * width];
        assertThat(columns.estimate(herd.columns(), 0, 2000, kg, new byte[2000]))
                .isZero();

        RealMatrix matrices = new MatrixModel(estimator).estimate(herd, 0, 2000);

        for (int i = 0; i < 2000; i++) {
            for (int k = 0; k < width; k++) {
                assertThat(matrices.getEntry(i, k))
                        .as("%s of carcass %d", columns.columns().get(k), i)
                        .isCloseTo(kg[i * width + k], within(1e-9));
            }
        }
    }
}
