package org.beefyield.plan;

import java.util.LinkedHashMap;
import java.util.Map;

/** What goes from each pool and from stock to orders, into mince and to sale, kg. */
final class Allocation {
    /** What goes from a pool. */
    static final class FromPool {
        private final double[] toOrders;
        private final double[] intoMinces;

        FromPool(int orders, int minces) {
            toOrders = new double[orders];
            intoMinces = new double[minces];
        }

        /** By order, as it is. */
        double[] toOrders() {
            return toOrders;
        }

        /** By kind of mince. */
        double[] intoMinces() {
            return intoMinces;
        }
    }

    final Map<Outlets.Pool, FromPool> fromPools = new LinkedHashMap<>();
    final Map<Outlets.Pool, Double> sold = new LinkedHashMap<>();
    /** By stock and order. */
    final double[][] fromStock;
    /** By order, what is missing of its least. */
    final double[] shortKg;

    Allocation(int orders, int minces, int stock) {
        fromStock = new double[stock][orders];
        shortKg = new double[orders];
    }

    void add(Outlets.Pool pool, FromPool from, double soldKg) {
        fromPools.put(pool, from);
        sold.put(pool, soldKg);
    }

    /** What an order gets from stock. */
    double stockKg(int order) {
        double sum = 0;
        for (double[] of : fromStock) {
            sum += of[order];
        }
        return sum;
    }
}
