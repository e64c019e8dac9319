#!/usr/bin/env python3
"""Runs JAGS on the demo colony: python3 tests/reference/demo_jags.py [BATCHES] rewrites demo_jags.csv.

Reads models/demo/*.json and builds JAGS's data from them on its own, without the program under test.
Needs R with rjags (Plummer 2003, "JAGS: a program for analysis of Bayesian graphical models using
Gibbs sampling"). Takes a few minutes; the seeds are fixed, so the same JAGS gives the same file.
"""
import json
import os
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
DEMO = os.path.join(HERE, "..", "..", "models", "demo")


def load(name):
    with open(os.path.join(DEMO, name), encoding="utf-8") as file:
        return json.load(file)


MODEL = load("model.json")
COLONY = load("colony.json")
LOCI = MODEL["loci"]
ANIMALS = {a["id"]: a for a in COLONY["animals"]}
CLUTCHES = {c["id"]: c for c in COLONY["clutches"]}
FOUNDERS = [a for a in COLONY["animals"] if "clutch" not in a]
BREEDING = {c["dam"] for c in COLONY["clutches"]} | {
    s["id"] for c in COLONY["clutches"] for s in c["sires"]}
# Animals with young (and founders) are sampled; the others are summed out.
PARENTS = FOUNDERS + [a for a in COLONY["animals"] if "clutch" in a and a["id"] in BREEDING]
HATCHLINGS = [a for a in COLONY["animals"] if "clutch" in a and a["id"] not in BREEDING]
PARENT = {a["id"]: i for i, a in enumerate(PARENTS)}
# Founders sampled together: one of them carries Orrelwood, and their young hardly tell which.
MATES = [PARENT["Tansy"], PARENT["Lorimer"]]


def keys(locus):
    first, second = locus["alleles"]
    return [f"{first}/{first}", f"{first}/{second}", f"{second}/{second}"]


def shown_words(locus):
    return ["plain", next(w for k, w in locus["appearance"].items() if k != "default")]


def appearance(locus):
    table = []
    for key in keys(locus):
        word = locus["appearance"].get(key, locus["appearance"]["default"])
        table.append([1.0 if word == w else 0.0 for w in shown_words(locus)])
    return table


def founder_prior(animal, locus):
    origin = next(o for o in MODEL["origins"] if o["id"] == animal["origin"])
    q = origin["frequencies"].get(locus["id"], {}).get(locus["alleles"][1], 0.0)
    prior = [(1 - q) ** 2, 2 * q * (1 - q), q * q]
    for claim in animal.get("bought_as", []):
        if claim["locus"] == locus["id"]:
            trust = claim["trust"]
            odds = [claim["odds"].get(key, 0.0) for key in keys(locus)]
            prior = [trust * o + (1 - trust) * p for o, p in zip(odds, prior)]
    return prior


def young():
    pass_on = [0.0, 0.5, 1.0]
    return [[[(1 - pass_on[d]) * (1 - pass_on[s]),
              pass_on[d] * (1 - pass_on[s]) + (1 - pass_on[d]) * pass_on[s],
              pass_on[d] * pass_on[s]] for s in range(3)] for d in range(3)]


def shown(animal, locus):
    for o in COLONY["observations"]:
        if o["kind"] == "appearance" and o["animal"] == animal["id"] and o["locus"] == locus["id"]:
            return shown_words(locus).index(o["shows"])
    raise ValueError("every animal of the demo has its appearance recorded")


def line_of(animal):
    return animal.get("line") or CLUTCHES[animal["clutch"]].get("line", "")


def rows_for(marker, animal):
    """The rows that apply to an animal; None where the mark can't be read on it."""
    for context in marker["contexts"]:
        when = context["when"]
        if "line" in when:
            holds = line_of(animal) == when["line"]
        else:
            locus = next(l for l in LOCI if l["id"] == when["locus"])
            holds = shown_words(locus)[shown(animal, locus)] == when["shows"]
        if holds:
            return None if context["use"] == "ignore" else context["rows"]
    return marker["rows"]


def level_table(rows):
    """P(level | genotype at the first locus, genotype at the second)."""
    table = []
    for first in keys(LOCI[0]):
        table.append([])
        for second in keys(LOCI[1]):
            here = {LOCI[0]["id"]: first, LOCI[1]["id"]: second}
            row = next(r for r in rows if all(here[l] == g for l, g in r["at"].items()))
            table[-1].append(row["expect"])
    return table


def counting(kind, animal):
    return [o for o in COLONY["observations"] if o["kind"] == kind and o["animal"] == animal["id"]]


def marks(animal):
    """P(all readings | genotypes at the first two loci); one true level a mark."""
    out = [[1.0] * 3 for _ in range(3)]
    sure_of = {s["id"]: s["sure"] for s in MODEL["scorers"]}
    for marker in MODEL["markers"]:
        readings = [o for o in counting("score", animal)
                    if o["marker"] == marker["id"] and o["level"] is not None]
        rows = rows_for(marker, animal)
        if not readings or rows is None:
            continue
        assert marker["weight"] == 1.0
        table = level_table(rows)
        for a in range(3):
            for b in range(3):
                total = 0.0
                for level, p in zip(marker["levels"], table[a][b]):
                    for o in readings:
                        sure = sure_of[o["scorer"]]
                        others = len(marker["levels"]) - 1
                        p *= sure if o["level"] == level else (1 - sure) / others
                    total += p
                out[a][b] *= total
    return out


def result_table(observation):
    """The locus tested, and P(report | genotype) with samples that are mixed up."""
    assay = next(a for a in MODEL["assays"] if a["id"] == observation["assay"])
    column = [row["expect"][assay["reports"].index(observation["report"])]
              for row in assay["rows"]]
    mean = sum(column) / len(column)
    mixed = [(1 - assay["mix_up"]) * p + assay["mix_up"] * mean for p in column]
    return next(i for i, l in enumerate(LOCI) if l["id"] == assay["locus"]), mixed


def seen(animal):
    """Likelihood over the first two loci, and over the third; each scaled to at most 1."""
    two = marks(animal)
    by_locus = [[row[shown(animal, l)] for row in appearance(l)] for l in LOCI]
    for o in counting("result", animal):
        locus, table = result_table(o)
        by_locus[locus] = [p * q for p, q in zip(by_locus[locus], table)]
    two = [[two[a][b] * by_locus[0][a] * by_locus[1][b] for b in range(3)] for a in range(3)]
    most = max(max(row) for row in two)
    return [[p / most for p in row] for row in two], by_locus[2]


def starting_genotypes(priors, transmit):
    """A state of the parents that their own appearances allow: one copy wherever it can be."""
    start = []
    for j, animal in enumerate(PARENTS):
        start.append([])
        for l, locus in enumerate(LOCI):
            if j < len(FOUNDERS):
                weights = priors[j][l]
            else:
                clutch = CLUTCHES[animal["clutch"]]
                dam, sire = PARENT[clutch["dam"]], PARENT[clutch["sires"][0]["id"]]
                weights = transmit[start[dam][l]][start[sire][l]]
            start[-1].append(next(g for g in (1, 0, 2) if weights[g] > 0
                                  and appearance(locus)[g][shown(animal, locus)] > 0))
    return start


def array(values):
    """An R array, filled with the first index fastest."""
    shape = []
    inner = values
    while isinstance(inner, list):
        shape.append(len(inner))
        inner = inner[0]
    flat = []

    def collect(fixed):
        if len(fixed) == len(shape):
            cell = values
            for index in reversed(fixed):
                cell = cell[index]
            flat.append(str(cell))
            return
        for index in range(shape[len(shape) - 1 - len(fixed)]):
            collect(fixed + [index])

    collect([])
    if len(shape) == 1:
        return "c(" + ", ".join(flat) + ")"
    return "array(c(" + ", ".join(flat) + "), dim = c(" + ", ".join(map(str, shape)) + "))"


def r_list(values):
    parts = [f"{name} = {array(v) if isinstance(v, list) else v}" for name, v in values.items()]
    return "list(" + ",\n  ".join(parts) + ")"


def write_data(path):
    priors = [[founder_prior(a, l) for l in LOCI] for a in FOUNDERS]
    start = starting_genotypes(priors, young())
    bred = [CLUTCHES[a["clutch"]] if "clutch" in a else None for a in PARENTS]
    assert all(c is None or len(c["sires"]) == 1 for c in bred)
    clutches = [CLUTCHES[a["clutch"]] for a in HATCHLINGS]
    assert all(len(c["sires"]) == 1 or c["paternity"] == "mixed" for c in clutches)
    most = max(len(c["sires"]) for c in clutches)

    def padded(values, filler):
        return values + [filler] * (most - len(values))

    single = [j for j in range(len(FOUNDERS)) if j not in MATES]
    data = {
        "single": [j + 1 for j in single], "singles": len(single), "mates": [j + 1 for j in MATES],
        "both_prior": [[priors[MATES[0]][l][a] * priors[MATES[1]][l][b]
                        for a in range(3) for b in range(3)] for l in range(3)],
        "founders": len(FOUNDERS), "parents": len(PARENTS), "hatchlings": len(HATCHLINGS),
        "founder_prior": priors, "young": young(),
        "parent_dam": [1 if c is None else PARENT[c["dam"]] + 1 for c in bred],
        "parent_sire": [1 if c is None else PARENT[c["sires"][0]["id"]] + 1 for c in bred],
        "parent_seen": [seen(a)[0] for a in PARENTS],
        "parent_seen_third": [seen(a)[1] for a in PARENTS],
        "parent_one": [1] * len(PARENTS),
        "dam": [PARENT[c["dam"]] + 1 for c in clutches],
        "sires": [len(c["sires"]) for c in clutches],
        "sire": [padded([PARENT[s["id"]] + 1 for s in c["sires"]], 1) for c in clutches],
        "share": [padded([s["share"] / sum(t["share"] for t in c["sires"])
                          for s in c["sires"]], 0.0) for c in clutches],
        "seen": [seen(a)[0] for a in HATCHLINGS],
        "seen_third": [seen(a)[1] for a in HATCHLINGS],
        "one": [1] * len(HATCHLINGS),
    }
    inits = {"parent": [["NA" if j in MATES else g + 1 for g in genotypes]
                        for j, genotypes in enumerate(start)],
             "both": [3 * start[MATES[0]][l] + start[MATES[1]][l] + 1 for l in range(3)]}
    with open(path, "w", encoding="utf-8") as file:
        file.write("data <- " + r_list(data) + "\ninits <- " + r_list(inits) + "\n")


def main():
    batches = sys.argv[1] if len(sys.argv) > 1 else "200"
    with tempfile.TemporaryDirectory() as scratch:
        data, counts = os.path.join(scratch, "data.R"), os.path.join(scratch, "counts.csv")
        write_data(data)
        subprocess.run(["Rscript", os.path.join(HERE, "demo_jags.R"),
                        os.path.join(HERE, "demo_jags.bug"), data, counts, batches], check=True)
        with open(counts, encoding="utf-8") as file:
            rows = [line.split(",") for line in file.read().split()]
    names = {"parent": PARENTS, "hatchling": HATCHLINGS}
    with open(os.path.join(HERE, "demo_jags.csv"), "w", encoding="utf-8") as file:
        file.write("animal,locus,genotype,mean,error\n")
        for kind, animal, locus, genotype, mean, error in rows:
            at = LOCI[int(locus) - 1]
            file.write(",".join([names[kind][int(animal) - 1]["id"], at["id"],
                                 keys(at)[int(genotype) - 1], mean, error]) + "\n")


if __name__ == "__main__":
    main()
