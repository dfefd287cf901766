"""Solves a linear program by HiGHS, as SciPy has it: plan_highs.py FILE ROUNDS prints solver, maximum and seconds of each round."""
import sys
import time

import numpy as np
import scipy
from scipy.optimize import linprog
from scipy.sparse import csr_matrix, vstack

with open(sys.argv[1], encoding="utf-8") as file:
    lines = [line.replace("Infinity", "inf").split() for line in file]
variables, rows = map(int, lines[0])
columns = np.array(lines[1 : variables + 1], float)
starts, places, coefficients, low, high = [0], [], [], [], []
for row in lines[variables + 1 : variables + 1 + rows]:
    low.append(float(row[0]))
    high.append(float(row[1]))
    places += map(int, row[3::2])
    coefficients += map(float, row[4::2])
    starts.append(len(places))
a = csr_matrix((coefficients, places, starts), shape=(rows, variables))
low, high = np.array(low), np.array(high)
equal = low == high
above, below = ~equal & np.isfinite(high), ~equal & np.isfinite(low)
for method in "highs-ds", "highs-ipm":
    seconds = []
    for _ in range(int(sys.argv[2]) + 1):
        started = time.perf_counter()
        result = linprog(
            -columns[:, 2],
            A_ub=vstack([a[above], -a[below]]),
            b_ub=np.concatenate([high[above], -low[below]]),
            A_eq=a[equal] if equal.any() else None,
            b_eq=low[equal] if equal.any() else None,
            bounds=columns[:, :2],
            method=method,
        )
        seconds.append(time.perf_counter() - started)
    if not result.success:
        sys.exit(result.message)
    print(f"SciPy {scipy.__version__} {method},{-result.fun!r}," + ",".join(map(str, seconds)))
