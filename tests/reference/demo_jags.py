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
FOUNDERS = [a for a in COLONY["animals"] if "clutch" not in a]
HATCHLINGS = [a for a in COLONY["animals"] if "clutch" in a]
CLUTCHES = {c["id"]: c for c in COLONY["clutches"]}
FOUNDER = {a["id"]: i for i, a in enumerate(FOUNDERS)}
HATCHLING = {a["id"]: i for i, a in enumerate(HATCHLINGS)}


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
    """The number of the context that applies (None: the marker's own rows), and its rows."""
    for number, context in enumerate(marker["contexts"]):
        when = context["when"]
        if "line" in when:
            holds = line_of(animal) == when["line"]
        else:
            locus = next(l for l in LOCI if l["id"] == when["locus"])
            holds = shown_words(locus)[shown(animal, locus)] == when["shows"]
        if holds:
            return number, None if context["use"] == "ignore" else context["rows"]
    return None, marker["rows"]


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


def marks():
    """Level tables, one (table, hatchling) a sign that was read, and the readings."""
    tables, number_of, signs, sign_of, readings = [], {}, [], {}, []
    scorers = [s["id"] for s in MODEL["scorers"]]
    for o in COLONY["observations"]:
        if o["kind"] != "score" or o["level"] is None:
            continue
        marker = next(m for m in MODEL["markers"] if m["id"] == o["marker"])
        assert marker["weight"] == 1.0 and "sure" not in o
        animal = HATCHLINGS[HATCHLING[o["animal"]]]
        context, rows = rows_for(marker, animal)
        if rows is None:
            continue
        if (marker["id"], context) not in number_of:
            number_of[marker["id"], context] = len(tables)
            tables.append(level_table(rows))
        if (animal["id"], marker["id"]) not in sign_of:
            sign_of[animal["id"], marker["id"]] = len(signs)
            signs.append((number_of[marker["id"], context], HATCHLING[animal["id"]]))
        readings.append((sign_of[animal["id"], marker["id"]], scorers.index(o["scorer"]),
                         marker["levels"].index(o["level"])))
    return tables, signs, readings


def results():
    out, tables = [], []
    for o in COLONY["observations"]:
        if o["kind"] == "result":
            assay = next(a for a in MODEL["assays"] if a["id"] == o["assay"])
            expect = [row["expect"] for row in assay["rows"]]
            mean = [sum(column) / len(expect) for column in zip(*expect)]
            mixed = [[(1 - assay["mix_up"]) * p + assay["mix_up"] * m for p, m in zip(row, mean)]
                     for row in expect]
            locus = next(i for i, l in enumerate(LOCI) if l["id"] == assay["locus"])
            tables.append(mixed)
            out.append((HATCHLING[o["animal"]], locus, assay["reports"].index(o["report"])))
    assert all(table == tables[0] for table in tables)  # both tests of the demo err alike
    return out, tables[0]


def starting_genotypes(priors, transmit):
    """A state that the pedigree and the appearances allow, found animal by animal."""
    everyone = FOUNDERS + HATCHLINGS
    start, sire_choice = {}, [0] * len(HATCHLINGS)

    def possible(animal, locus, genotype):
        l = LOCI.index(locus)
        return appearance(locus)[genotype][shown(animal, locus)] > 0

    def place(number):
        if number == len(everyone):
            return True
        animal = everyone[number]
        sires = [None]
        if "clutch" in animal:
            sires = CLUTCHES[animal["clutch"]]["sires"]
        for k, sire in enumerate(sires):
            chosen = []
            for l, locus in enumerate(LOCI):
                for g in (1, 0, 2):  # one copy leaves the most open
                    if sire is None:
                        weight = priors[number][l][g]
                    else:
                        dam = CLUTCHES[animal["clutch"]]["dam"]
                        weight = transmit[start[dam][l]][start[sire["id"]][l]][g]
                    if weight > 0 and possible(animal, locus, g):
                        chosen.append(g)
                        break
            if len(chosen) == len(LOCI):
                start[animal["id"]] = chosen
                if sire is not None:
                    sire_choice[number - len(FOUNDERS)] = k
                return place(number + 1)
        raise ValueError("no starting state found for " + animal["id"])

    sys.setrecursionlimit(10000)
    place(0)
    return start, sire_choice


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
            flat.append(repr(cell))
            return
        for index in range(shape[len(shape) - 1 - len(fixed)]):
            collect(fixed + [index])

    collect([])
    if len(shape) == 1:
        return "c(" + ", ".join(flat) + ")"
    return "array(c(" + ", ".join(flat) + "), dim = c(" + ", ".join(map(str, shape)) + "))"


def plus_one(values):
    return [plus_one(v) for v in values] if isinstance(values, list) else values + 1


def r_list(values):
    parts = [f"{name} = {array(v) if isinstance(v, list) else v}" for name, v in values.items()]
    return "list(" + ",\n  ".join(parts) + ")"


def write_data(path):
    priors = [[founder_prior(a, l) for l in LOCI] for a in FOUNDERS]
    start, choice = starting_genotypes(priors, young())
    clutch_of = [CLUTCHES[a["clutch"]] for a in HATCHLINGS]
    most = max(len(c["sires"]) for c in clutch_of)
    of_founder, of_hatchling = [], []
    sire, share = [], []
    for i, clutch in enumerate(clutch_of):
        assert len(clutch["sires"]) == 1 or clutch["paternity"] == "mixed"
        sires = clutch["sires"] + [clutch["sires"][0]] * (most - len(clutch["sires"]))
        total = sum(s["share"] for s in clutch["sires"])
        share.append([s["share"] / total for s in clutch["sires"]]
                     + [0.0] * (most - len(clutch["sires"])))
        if sires[0]["id"] in FOUNDER:
            of_founder.append(i)
            sire.append([FOUNDER[s["id"]] for s in sires])
        else:
            of_hatchling.append(i)
            sire.append([0] * most)
    tables, signs, readings = marks()
    tested, reports = results()
    confusion = []
    for scorer in MODEL["scorers"]:
        other = (1 - scorer["sure"]) / 2
        confusion.append([[scorer["sure"] if a == b else other for b in range(3)]
                          for a in range(3)])
    data = {
        "founders": len(FOUNDERS), "hatchlings": len(HATCHLINGS), "loci": len(LOCI),
        "most_sires": most, "by_founder": len(of_founder), "by_hatchling": len(of_hatchling),
        "signs": len(signs), "readings": len(readings), "results": len(tested),
        "founder_prior": priors, "young": young(),
        "appearance": [appearance(l) for l in LOCI],
        "founder_shown": plus_one([[shown(a, l) for l in LOCI] for a in FOUNDERS]),
        "hatchling_shown": plus_one([[shown(a, l) for l in LOCI] for a in HATCHLINGS]),
        "dam": plus_one([FOUNDER[c["dam"]] for c in clutch_of]),
        "sire": plus_one(sire), "share": share,
        "of_founder": plus_one(of_founder), "of_hatchling": plus_one(of_hatchling),
        "hatchling_sire": plus_one([HATCHLING[clutch_of[i]["sires"][0]["id"]]
                                    for i in of_hatchling]),
        "expect": tables, "sign_table": plus_one([s[0] for s in signs]),
        "sign_animal": plus_one([s[1] for s in signs]),
        "reads": confusion, "reading_sign": plus_one([r[0] for r in readings]),
        "reading_scorer": plus_one([r[1] for r in readings]),
        "read": plus_one([r[2] for r in readings]),
        "reports": reports, "result_animal": plus_one([t[0] for t in tested]),
        "result_locus": plus_one([t[1] for t in tested]),
        "report": plus_one([t[2] for t in tested]),
    }
    inits = {"founder": plus_one([start[a["id"]] for a in FOUNDERS]),
             "hatchling": plus_one([start[a["id"]] for a in HATCHLINGS]),
             "which_sire": plus_one(choice)}
    with open(path, "w", encoding="utf-8") as file:
        file.write("data <- " + r_list(data) + "\ninits <- " + r_list(inits) + "\n")


def main():
    batches = sys.argv[1] if len(sys.argv) > 1 else "100"
    with tempfile.TemporaryDirectory() as scratch:
        data, counts = os.path.join(scratch, "data.R"), os.path.join(scratch, "counts.csv")
        write_data(data)
        subprocess.run(["Rscript", os.path.join(HERE, "demo_jags.R"),
                        os.path.join(HERE, "demo_jags.bug"), data, counts, batches], check=True)
        with open(counts, encoding="utf-8") as file:
            rows = [line.split(",") for line in file.read().split()]
    names = {"founder": FOUNDERS, "hatchling": HATCHLINGS}
    with open(os.path.join(HERE, "demo_jags.csv"), "w", encoding="utf-8") as file:
        file.write("animal,locus,genotype,mean,error\n")
        for kind, animal, locus, genotype, mean, error in rows:
            at = LOCI[int(locus) - 1]
            file.write(",".join([names[kind][int(animal) - 1]["id"], at["id"],
                                 keys(at)[int(genotype) - 1], mean, error]) + "\n")


if __name__ == "__main__":
    main()
