#!/usr/bin/env python3
"""Draws three lists of forecasts with outcomes: audit_forecasts_1.csv, _2 and _3, in this folder.

They stand in for lists that the program writes, in the same columns. Made to be awkward: many ties, forecasts of
exactly 0 and 1, a confident forecast that is wrong, one list that is too extreme and one too timid. Run from this
folder: python3 audit_forecasts.py
"""
import csv
import math

# A linear congruential generator (Park and Miller 1988, minimal standard).
state = 753


def uniform():
    global state
    state = 16807 * state % 2147483647
    return state / 2147483647


def logistic(x):
    return 1 / (1 + math.exp(-x))


def drawn(number, count, slope, shift):
    """Rows whose true log odds are `slope` times those given, and `shift`."""
    rows = []
    for i in range(count):
        prior = (0.5, 0.5, 2 / 3, 1 / 3, 0.25)[int(uniform() * 5)]
        given = prior
        if uniform() < 0.6:  # a mark was looked at
            given = logistic(math.log(prior / (1 - prior)) + 4 * (uniform() - 0.5))
        given = round(given, 4)
        true = logistic(slope * math.log(given / (1 - given)) + shift)
        rows.append([f"L{number}-{i + 1}", f"K{number}-{i // 6 + 1}", ("tarnbrook", "wendlespar")[i % 2], given,
                     int(uniform() < true)])
    return rows


def main():
    lists = {1: drawn(1, 64, 1.0, 0.0), 2: drawn(2, 100, 0.6, -0.4), 3: drawn(3, 148, 1.6, 0.3)}
    lists[1][10][3:] = [0.999, 0]  # confident and wrong
    lists[2][20][3:] = [0.0, 0]
    lists[2][21][3:] = [1.0, 1]
    lists[2][22][3:] = [0.0005, 1]
    for number, rows in lists.items():
        with open(f"audit_forecasts_{number}.csv", "w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(["animal", "clutch", "locus", "probability", "outcome"])
            writer.writerows(rows)


if __name__ == "__main__":
    main()
