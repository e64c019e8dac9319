#!/usr/bin/env python3
"""Forecasts with outcomes by scikit-learn (1.2.1): reads audit_forecasts_1.csv to _6, writes audit_python.csv in the
form of audit_r.csv. Run from this folder: python3 audit.py
"""
import csv
import math

import numpy
from sklearn.isotonic import IsotonicRegression
from sklearn.linear_model import LogisticRegression
from sklearn.metrics import brier_score_loss, cohen_kappa_score, log_loss, roc_auc_score, roc_curve


def rows_of(number):
    with open(f"audit_forecasts_{number}.csv", encoding="utf-8", newline="") as file:
        rows = [(float(row["probability"]), float(row["outcome"])) for row in csv.DictReader(file)]
    rows = [row for row in rows if row[1] in (0, 1)]
    return numpy.array([p for p, _ in rows]), numpy.array([y for _, y in rows])


def agreement(p, y):
    """Calls and outcomes as two scorers: at 1/2, and in thirds with outcomes at the ends."""
    pairs = {2: ((p >= 0.5).astype(int), y.astype(int)),
             3: ((p >= 1 / 3).astype(int) + (p >= 2 / 3), 2 * y.astype(int))}
    for k, (calls, outcomes) in pairs.items():
        for name, weights in (("kappa", None), ("linear kappa", "linear"), ("quadratic kappa", "quadratic")):
            yield f"{name} of {k}", "", cohen_kappa_score(calls, outcomes, labels=range(k), weights=weights)


def overlap(p, y):
    yes, no = p[y == 1], p[y == 0]
    return yes.size and no.size and no.max() > yes.min() and yes.max() > no.min()


def statistics(p, y):
    """(statistic, at, value) of each."""
    clamped = numpy.clip(p, 1e-6, 1 - 1e-6)
    yield "auc", "", roc_auc_score(y, p)
    yield "brier", "", brier_score_loss(y, p)
    yield "clamped log score", "", log_loss(y, clamped) / math.log(2)
    fit = IsotonicRegression(y_min=0, y_max=1).fit(p, y)
    for at in sorted(set(p)):
        yield "isotonic", repr(float(at)), fit.predict([at])[0]
    false_positive, true_positive, threshold = roc_curve(y, p, drop_intermediate=False)
    for at, false, true in list(zip(threshold, false_positive, true_positive))[1:]:
        yield "false positive", repr(float(at)), false
        yield "true positive", repr(float(at)), true
    yield from agreement(p, y)
    if overlap(clamped, y):
        x = numpy.log(clamped / (1 - clamped)).reshape(-1, 1)
        line = LogisticRegression(penalty=None, tol=1e-12, max_iter=1000, solver="newton-cholesky").fit(x, y)
        yield "intercept", "", line.intercept_[0]
        yield "slope", "", line.coef_[0][0]


def main():
    with open("audit_python.csv", "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(["list", "statistic", "at", "value"])
        for number in range(1, 7):
            for statistic, at, value in statistics(*rows_of(number)):
                writer.writerow([number, statistic, at, f"{float(value):.15g}"])


if __name__ == "__main__":
    main()
