"""Kill sheet to wide estimates with pandas and numpy, the peer of CsvPeer.java: same sheet, table, columns and decimals.

csv_pandas.py FOLDER NAME            reads killsheet.csv and nodes.csv of the folder, writes NAME there
csv_pandas.py --check OURS THEIRS    fails unless every figure agrees within the rounding to 3 decimals
csv_pandas.py --version              says what it runs on

Needs Debian's python3-pandas. It leaves out what the library does beyond that: checks of every row, duplicates, range
notes, and kg that add up to the cold weight as printed.
"""

import sys

import numpy as np
import pandas as pd

C0, F0, W0 = 8.0, 8.0, 340.0
CONFORMATION = {c + s: 3 * k + j + 1 for k, c in enumerate("PORUES") for j, s in enumerate("-=+")}
FAT = {c + s: 3 * k + j + 1 for k, c in enumerate("12345") for j, s in enumerate("-=+")}


def powers(c, f):
    """The products of conformation and fat that three linear steps can have, a column each."""
    return np.column_stack([c**i * f**j for i in range(4) for j in range(4 - i)])


def coefficients(nodes):
    """Cuts, and by category a matrix: one row for each product of conformation, fat and weight, one column a cut."""
    cuts = list(dict.fromkeys(nodes["cut"]))
    by_category = {}
    for category, rows in nodes.groupby("category"):
        grades = rows[rows["cut"] == cuts[0]]
        at = powers(grades["conformation"].to_numpy() - C0, grades["fat"].to_numpy() - F0)
        blocks = []
        for t in ("t0", "t1", "t2", "t3"):
            values = rows[t].to_numpy().reshape(len(grades), len(cuts))
            fitted = np.linalg.lstsq(at, values, rcond=None)[0]
            if np.abs(at @ fitted - values).max() > 1e-12:
                sys.exit("the table's nodes are no polynomial of third degree")
            blocks.append(fitted)
        by_category[category] = np.vstack(blocks)
    return cuts, by_category


def estimate(folder, name):
    cuts, by_category = coefficients(pd.read_csv(f"{folder}/nodes.csv"))
    sheet = pd.read_csv(f"{folder}/killsheet.csv", dtype={"carcass": str, "lot": str})
    weight = sheet["cold_weight_kg"].to_numpy()
    products = powers(
        sheet["conformation"].map(CONFORMATION).to_numpy() - C0, sheet["fat_class"].map(FAT).to_numpy() - F0
    )
    t = (weight - W0) / 100
    design = np.hstack([products * (t**j)[:, None] for j in range(4)])
    kg = np.empty((len(sheet), len(cuts)))
    for category, rows in sheet.groupby("category").indices.items():
        kg[rows] = (design[rows] @ by_category[category]) * weight[rows, None]
    head = sheet[["carcass", "lot", "kill_date"]].assign(
        hall="", cold_weight_kg=weight, notes="", table="boneless-2026", specification="steaks"
    )
    pd.concat([head, pd.DataFrame(kg, columns=cuts)], axis=1).to_csv(
        f"{folder}/{name}", index=False, float_format="%.3f"
    )


def check(ours, theirs):
    rows = 0
    for a, b in zip(pd.read_csv(ours, chunksize=100_000), pd.read_csv(theirs, chunksize=100_000), strict=True):
        if list(a.columns) != list(b.columns) or len(a) != len(b):
            sys.exit("columns or rows differ")
        if not a[["carcass", "lot", "specification"]].equals(b[["carcass", "lot", "specification"]]):
            sys.exit("carcasses differ")
        figures = a.columns[8:].insert(0, "cold_weight_kg")
        # half a unit of theirs and one of ours, which adds up
        off = np.abs(a[figures].to_numpy() - b[figures].to_numpy()).max()
        if not off < 0.0015:
            sys.exit(f"figures differ by {off} kg")
        rows += len(a)
    print(f"{rows} rows agree within rounding")


if __name__ == "__main__":
    if len(sys.argv) == 4 and sys.argv[1] == "--check":
        check(sys.argv[2], sys.argv[3])
    elif sys.argv[1:] == ["--version"]:
        print(f'{{"version": "pandas {pd.__version__}"}}')
    elif len(sys.argv) == 3:
        estimate(sys.argv[1], sys.argv[2])
    else:
        sys.exit(__doc__)
