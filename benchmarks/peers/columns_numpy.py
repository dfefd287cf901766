"""Every cut of every level, and power sums by node, with NumPy: what somebody without the library would write.

Usage: columns_numpy.py FOLDER ROUNDS. Reads model.csv, columns.csv, conformation.bin, fat.bin, cold_kg.bin; writes
numpy-kg.bin (the first 1000 carcasses) and numpy-sums.bin to be compared, and prints nanoseconds a carcass as JSON.
"""
import csv
import json
import os
import sys
import time

for threads in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[threads] = "1"
import numpy as np

folder, rounds = sys.argv[1], int(sys.argv[2])
C0, F0, W0 = 8.0, 8.0, 340.0


def rows(name):
    with open(os.path.join(folder, name), encoding="utf-8") as file:
        return list(csv.DictReader(file))


model = rows("model.csv")
terms = list(model[0])[3:]
order = [(row["level"], row["cut"]) for row in rows("columns.csv")]
place = {column: k for k, column in enumerate(order)}
levels = list(dict.fromkeys(level for level, _ in order))
steps = {}
for row in model:
    cuts, coefficients = steps.setdefault((row["level"], row["parent"]), ([], []))
    cuts.append(row["cut"])
    coefficients.append([float(row[term]) for term in terms])
steps = {key: (cuts, np.array(b).T.copy()) for key, (cuts, b) in steps.items()}

conformation = np.fromfile(os.path.join(folder, "conformation.bin"), np.int8)
fat = np.fromfile(os.path.join(folder, "fat.bin"), np.int8)
cold = np.fromfile(os.path.join(folder, "cold_kg.bin"), "<f8")
n = len(cold)


def design(c, f, w):
    x = np.empty((len(w), len(terms)))
    x[:, 0] = 1
    x[:, 1] = c - C0
    x[:, 2] = f - F0
    x[:, 3] = (w - W0) / 100
    for j, term in enumerate(terms[4:], 4):
        variable, side, knot = term.split("_")
        value = f if variable == "fat" else c
        x[:, j] = np.maximum(0, int(knot) - value if side == "below" else value - int(knot))
    return x


def estimate(c, f, w, out):
    x = design(c.astype(float), f.astype(float), w)
    standing = {"carcass": w}
    for level in levels:
        following = {}
        for parent, kg in standing.items():
            step = steps.get((level, parent))
            if step is None:
                following[parent] = following[parent] + kg if parent in following else kg
                continue
            cuts, b = step
            children = x @ b
            children *= kg[:, None]
            for k, cut in enumerate(cuts):
                following[cut] = following[cut] + children[:, k] if cut in following else children[:, k]
        for cut, kg in following.items():
            out[:, place[level, cut]] = kg
        standing = following
    return out


def all_columns(chunk):
    out = np.zeros((n, len(order)))
    started = time.perf_counter_ns()
    for start in range(0, n, chunk):
        part = slice(start, min(n, start + chunk))
        estimate(conformation[part], fat[part], cold[part], out[part])
    return (time.perf_counter_ns() - started) / n, out


def power_sums(powers):
    started = time.perf_counter_ns()
    node = (conformation.astype(np.intp) - 1) * 15 + fat - 1
    t = (cold - W0) / 100
    sums = np.empty((powers, 270))
    power = np.ones(n)
    for j in range(powers):
        sums[j] = np.bincount(node, weights=power, minlength=270)
        power = power * t
    return (time.perf_counter_ns() - started) / n, sums


def times(work):
    work()
    return [work()[0] for _ in range(rounds)]


# as many rows at once as serve it best
best = min((2048, 8192, 65536), key=lambda chunk: min(all_columns(chunk)[0] for _ in range(2)))
_, kg = all_columns(best)
kg[:1000].astype("<f8").tofile(os.path.join(folder, "numpy-kg.bin"))
del kg
power_sums(7)[1].astype("<f8").tofile(os.path.join(folder, "numpy-sums.bin"))
print(json.dumps({
    "version": "NumPy " + np.__version__,
    "columns": times(lambda: all_columns(best)),
    "totals": times(lambda: power_sums(4)),
    "totals with intervals": times(lambda: power_sums(7)),
}))
