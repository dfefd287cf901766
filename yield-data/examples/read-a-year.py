# Reads a frame's CSV in pandas with the types that the description beside it declares, and says what came of ids and dates.
# Usage: python3 read-a-year.py carcasses.csv
# Ends with 1 if an id isn't the text that stands in the file, or a date no date.
import csv
import json
import sys

import pandas as pd


def read(file):
    with open(file.removesuffix(".csv") + ".datapackage.json", encoding="utf-8") as beside:
        fields = json.load(beside)["resources"][0]["schema"]["fields"]
    texts = {field["name"]: "string" for field in fields if field["type"] == "string"}
    days = [field["name"] for field in fields if field["type"] == "date"]
    return pd.read_csv(file, dtype=texts, parse_dates=days, keep_default_na=False, na_values=[""])


frame = read(sys.argv[1])
with open(sys.argv[1], encoding="utf-8", newline="") as written:
    rows = list(csv.DictReader(written))
problems = []
if list(frame["carcass"]) != [row["carcass"] for row in rows]:
    problems.append("an id isn't the text that stands in the file")
if not pd.api.types.is_datetime64_any_dtype(frame["kill date"]) or list(
    frame["kill date"].dt.strftime("%Y-%m-%d")
) != [row["kill date"] for row in rows]:
    problems.append("a kill date isn't the day that stands in the file")
if not pd.api.types.is_float_dtype(frame["cold weight, kg"]):
    problems.append("a weight isn't a number")
print(f"{len(frame)} rows; first id {frame['carcass'].iloc[0]}; {frame['kill date'].min():%Y-%m-%d} to "
      f"{frame['kill date'].max():%Y-%m-%d}; {frame['cold weight, kg'].sum():.1f} kg")
print(frame.groupby(frame["kill date"].dt.month)["cold weight, kg"].agg(["count", "mean", "std"]).round(2).to_string())
print("ids, dates and weights as written" if not problems else "; ".join(problems))
sys.exit(1 if problems else 0)
