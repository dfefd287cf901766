package org.beefyield.benchmarks.plan;

import java.util.SplittableRandom;
import org.beefyield.lp.LinearProgram;

/** Invented linear programs of the form of a day's plan: what carcasses are cut into, for which orders. */
final class PlanPrograms {
    private static final double NONE = Double.POSITIVE_INFINITY;

    private PlanPrograms() {}

    /**
     * Whole carcasses by group and cutting specification: each way of a group gives kilograms of many products.
     *
     * @param groups groups of carcasses that are alike
     * @param ways cutting specifications
     * @param products products
     * @param orders orders, each for one product, with a least amount that may be missed at a price
     * @param seed seed of what is invented
     * @return program
     */
    static LinearProgram byGroup(int groups, int ways, int products, int orders, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        LinearProgram.Builder builder = LinearProgram.builder();
        int[] balances = new int[products];
        double[] prices = new double[products];
        boolean[][] makes = new boolean[ways][products];
        double[] supply = new double[products];
        for (int product = 0; product < products; product++) {
            balances[product] = builder.row("product " + product, 0, 0);
            prices[product] = 3 + 10 * random.nextDouble();
            int rest = builder.variable("rest of " + product, 0, NONE, 0.6 * prices[product]);
            builder.add(balances[product], rest, -1);
            for (int way = 0; way < ways; way++) {
                makes[way][product] = random.nextDouble() < 0.4;
            }
        }
        int hours = builder.row("hours", -NONE, 6.0 * groups);
        for (int group = 0; group < groups; group++) {
            int carcasses = 1 + random.nextInt(9);
            int row = builder.row("group " + group, -NONE, carcasses);
            double kg = 280 + 140 * random.nextDouble();
            for (int way = 0; way < ways; way++) {
                int cut = builder.variable("group " + group + " way " + way, 0, NONE, -30 - 20 * random.nextDouble());
                builder.add(row, cut, 1).add(hours, cut, 0.6 + 0.8 * random.nextDouble());
                for (int product = 0; product < products; product++) {
                    if (makes[way][product]) {
                        double made = kg * (0.5 + random.nextDouble()) * 1.75 / products;
                        builder.add(balances[product], cut, made);
                        supply[product] += carcasses * made / ways;
                    }
                }
            }
        }
        for (int order = 0; order < orders; order++) {
            int product = random.nextInt(products);
            double most = supply[product] * products / orders * (0.3 + random.nextDouble());
            int row = builder.row("order " + order, most * 0.6 * random.nextDouble(), NONE);
            int filled =
                    builder.variable("order " + order, 0, most, prices[product] * (0.9 + 0.3 * random.nextDouble()));
            int missed = builder.variable("missed " + order, 0, NONE, -prices[product] * (0.5 + random.nextDouble()));
            builder.add(row, filled, 1).add(row, missed, 1).add(balances[product], filled, -1);
        }
        return builder.build();
    }

    /**
     * Kilograms of each primal by cell and way: products are kept apart by cell, for orders take those of some cells alone;
     * minces are blended from lean trims by primal and fat trim.
     *
     * @param cells carcasses that orders don't tell apart
     * @param orders orders, each for one product from some cells
     * @param seed seed of what is invented
     * @return program
     */
    static LinearProgram byCell(int cells, int orders, long seed) {
        return new ByCell(cells, new SplittableRandom(seed)).build(orders);
    }

    private static final class ByCell {
        private static final int PRIMALS = 12;
        private static final int WAYS = 4;
        private static final double[] MINCES = {0.1, 0.2, 0.3};

        private final LinearProgram.Builder builder = LinearProgram.builder();
        private final SplittableRandom random;
        private final int cells;
        private final int[][] own = new int[PRIMALS][];
        private final int[][] balances;
        private final double[] prices;
        private final double[] supply;

        ByCell(int cells, SplittableRandom random) {
            this.cells = cells;
            this.random = random;
            int products = 0;
            for (int primal = 0; primal < PRIMALS; primal++) {
                own[primal] = new int[2 + random.nextInt(3)];
                for (int product = 0; product < own[primal].length; product++) {
                    own[primal][product] = products++;
                }
            }
            balances = new int[products][cells];
            prices = new double[products];
            supply = new double[products];
        }

        LinearProgram build(int orders) {
            for (int product = 0; product < prices.length; product++) {
                prices[product] = 4 + 14 * random.nextDouble();
                for (int cell = 0; cell < cells; cell++) {
                    balances[product][cell] = builder.row("product " + product + " of " + cell, 0, 0);
                    int rest = builder.variable("rest of " + product + " of " + cell, 0, NONE, 0.6 * prices[product]);
                    builder.add(balances[product][cell], rest, -1);
                }
            }
            int[] lean = new int[PRIMALS];
            for (int primal = 0; primal < PRIMALS; primal++) {
                lean[primal] = builder.row("lean trim of " + primal, -NONE, 0);
            }
            int fat = builder.row("fat trim", -NONE, 0);
            cut(lean, fat);
            blend(lean, fat);
            for (int order = 0; order < orders; order++) {
                order(order, orders);
            }
            return builder.build();
        }

        private void cut(int[] lean, int fat) {
            int[] hours = new int[WAYS];
            for (int team = 0; team < WAYS; team++) {
                hours[team] = builder.row("hours of team " + team, -NONE, 3.2 * cells);
            }
            for (int cell = 0; cell < cells; cell++) {
                double size = 0.3 + 1.4 * random.nextDouble();
                for (int primal = 0; primal < PRIMALS; primal++) {
                    double kg = size * (80 + 20 * primal);
                    int row = builder.row("primal " + primal + " of " + cell, kg, kg);
                    for (int way = 0; way < WAYS; way++) {
                        int variable = builder.variable(
                                "way " + way + " of " + primal + " of " + cell,
                                0,
                                NONE,
                                -0.2 - 0.4 * random.nextDouble());
                        builder.add(row, variable, 1)
                                .add(hours[primal % WAYS], variable, 0.002 + 0.006 * random.nextDouble());
                        double left = products(cell, primal, way, variable, kg);
                        builder.add(lean[primal], variable, -0.75 * left).add(fat, variable, -0.25 * left);
                    }
                }
            }
        }

        /** Pieces inside their window, and outside as what is next best; what is left for trim. */
        private double products(int cell, int primal, int way, int variable, double kg) {
            double left = 0.92;
            for (int product = 0; product < own[primal].length; product++) {
                if ((product + way) % 2 == 0 || random.nextDouble() < 0.3) {
                    double inside = random.nextDouble();
                    double share = left * (0.3 + 0.4 * random.nextDouble());
                    left -= share;
                    builder.add(balances[own[primal][product]][cell], variable, share * inside);
                    if (product > 0) {
                        builder.add(balances[own[primal][product - 1]][cell], variable, share * (1 - inside) / 2);
                    }
                    supply[own[primal][product]] += kg * share * inside / WAYS;
                }
            }
            return left;
        }

        private void blend(int[] lean, int fat) {
            for (int mince = 0; mince < MINCES.length; mince++) {
                int target = builder.row("fat of mince " + mince, -NONE, 0);
                int made = builder.row("mince " + mince, 0, 0);
                for (int primal = 0; primal < PRIMALS; primal++) {
                    int into = builder.variable("lean of " + primal + " into " + mince, 0, NONE, -0.1);
                    builder.add(lean[primal], into, 1)
                            .add(target, into, 0.04 + 0.01 * primal - MINCES[mince])
                            .add(made, into, 1);
                }
                int into = builder.variable("fat into " + mince, 0, NONE, 0);
                builder.add(fat, into, 1)
                        .add(target, into, 0.85 - MINCES[mince])
                        .add(made, into, 1);
                builder.add(made, builder.variable("mince " + mince, 0, NONE, 5.5 - 0.8 * mince), -1);
            }
            builder.add(fat, builder.variable("fat sold", 0, NONE, 0.3), 1);
        }

        private void order(int order, int orders) {
            int product = random.nextInt(prices.length);
            double most = Math.max(20, supply[product] * prices.length / orders * (0.4 + 1.4 * random.nextDouble()));
            double price = prices[product] * (0.9 + 0.3 * random.nextDouble());
            int least = builder.row("least of order " + order, 0.7 * most * random.nextDouble(), NONE);
            int cap = builder.row("most of order " + order, -NONE, most);
            builder.add(
                    least,
                    builder.variable("missed " + order, 0, NONE, -prices[product] * (0.5 + random.nextDouble())),
                    1);
            double taken = 0.3 + 0.7 * random.nextDouble();
            for (int cell = 0; cell < cells; cell++) {
                if (random.nextDouble() < taken) {
                    int filled = builder.variable("order " + order + " from " + cell, 0, NONE, price);
                    builder.add(least, filled, 1).add(cap, filled, 1).add(balances[product][cell], filled, -1);
                }
            }
        }
    }
}
