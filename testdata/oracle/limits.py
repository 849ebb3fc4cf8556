"""Limits of size by ISO 286, from the standard's rules and the tables alone.

Reads a folder with it_grades.csv, delta.csv, shafts_fd.csv and holes_fd.csv and
prints JSON: for every letter and every size of interest eighteen entries, one a
grade, each [lower, upper] in hundredths of a micrometre, or null where the
standard has none. Sizes are in micrometres: the ends of every band, the next
micrometre on both sides, and some below 1 mm. All arithmetic is exact.
"""
import csv
import json
import sys
from decimal import Decimal
from pathlib import Path

folder = Path(sys.argv[1])


def read(name):
    with open(folder / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def micrometres(text):
    return int(Decimal(text) * 1000)


def band(table, size):
    found = [r for r in table if micrometres(r["over_mm"]) < size <= micrometres(r["to_mm"])]
    assert len(found) <= 1, (size, found)
    return found[0] if found else None


def deviations(row, grade, size, tolerance, delta):
    """The two deviations of one row in micrometres, None where there are none."""
    rule, dev = row["rule"], row["dev_um"]
    if size <= 1000 and (grade >= 14 or "not for sizes up to 1 mm" in rule and (grade > 8 or "above IT8" not in rule)):
        return None
    if row["limit"] == "both":
        return -tolerance / 2, tolerance / 2
    dev = Decimal(dev)
    if row.get("add_delta") == "yes":
        if not 3 <= grade <= 8:
            return None
        dev = Decimal(-9) if (row["letter"], grade, row["over_mm"]) == ("M", 6, "250") else dev + delta
    if row["limit"] in ("es", "ES"):
        return dev - tolerance, dev
    return dev, dev + tolerance


def main():
    grades, deltas = read("it_grades.csv"), read("delta.csv")
    rows = read("shafts_fd.csv") + read("holes_fd.csv")
    ends = {micrometres(r[end]) for r in rows + grades for end in ("over_mm", "to_mm")}
    sizes = sorted({end + step for end in ends for step in (-1, 0, 1)} | {500, 999, 1000, 1001})
    cases = []
    for letter in sorted({r["letter"] for r in rows}):
        mine = [r for r in rows if r["letter"] == letter]
        for size in sizes:
            here = [r for r in mine if micrometres(r["over_mm"]) < size <= micrometres(r["to_mm"])]
            tolerances, delta = band(grades, size), band(deltas, size)
            entries = []
            for grade in range(1, 19):
                fits = [r for r in here if int(r["grade_min"]) <= grade <= int(r["grade_max"])]
                assert len(fits) <= 1, (letter, size, grade)
                found = None
                if fits:
                    found = deviations(
                        fits[0], grade, size, Decimal(tolerances[f"IT{grade}"]),
                        Decimal(delta[f"IT{grade}"]) if delta and 3 <= grade <= 8 else Decimal(0),
                    )
                if found and size + found[0] <= 0:
                    found = None  # no such part
                entries.append([int(x * 100) for x in found] if found else None)
            cases.append({"letter": letter, "size": size, "grades": entries})
    json.dump(cases, sys.stdout)


main()
