"""Reads an exported CSV file in pandas with the types that its description declares, and holds every cell to what stands in the
file. Arguments: the file, and a file to write the types to, for R. Exit code 1: something came in otherwise."""
import csv
import json
import os
import sys

import pandas as pd

file, types_file = sys.argv[1:3]
with open(file, encoding="utf-8", newline="") as written:
    rows = list(csv.reader(written))
header, rows = rows[0], rows[1:]
beside = file.removesuffix(".csv") + ".datapackage.json"
if os.path.exists(beside):
    with open(beside, encoding="utf-8") as description:
        types = {field["name"]: field["type"] for field in json.load(description)["resources"][0]["schema"]["fields"]}
else:
    # estimates have no description: their numbers are kg, SDs and intervals, the rest is text, but for the day
    types = {name: "date" if name == "kill_date" else
             "number" if name.endswith(("_kg", "_low", "_high")) or name == "kg" else "string" for name in header}
assert list(types) == header, f"{file}: the description has other columns than the file"
with open(types_file, "w", encoding="utf-8") as out:
    out.writelines(kind + "\n" for kind in types.values())

texts = {name: "string" for name, kind in types.items() if kind not in ("number", "integer", "date")}
days = [name for name, kind in types.items() if kind == "date"]
frame = pd.read_csv(file, dtype=texts, parse_dates=days, keep_default_na=False, na_values=[""],
                    float_precision="round_trip")
problems = []
for place, (name, kind) in enumerate(types.items()):
    stands = [row[place] for row in rows]
    column = frame[name]
    if kind == "date":
        came = column.dt.strftime("%Y-%m-%d").fillna("").tolist() if any(stands) else stands
        same = came == stands
    elif kind in ("number", "integer"):
        same = all((text == "" and pd.isna(value)) or (text != "" and float(text) == float(value))
                   for text, value in zip(stands, column))
    else:
        same = column.fillna("").tolist() == stands
    if not same:
        problems.append(f"{name} ({kind})")
kinds = ", ".join(f"{sum(kind == one for kind in types.values())} {one}" for one in sorted(set(types.values())))
print(f"  {os.path.basename(file)}: {len(frame)} rows in pandas, columns: {kinds}")
if problems or len(frame) != len(rows):
    sys.exit(f"FAILED: {file}: otherwise in pandas: {', '.join(problems) or 'the number of rows'}")
