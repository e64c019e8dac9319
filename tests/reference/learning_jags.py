#!/usr/bin/env python3
"""A colony of 200 animals whose tables are unknown, and what JAGS learns from it.

python3 tests/reference/learning_jags.py [BATCHES] rewrites learning_model.json, learning_colony.json
(drawn here, from a fixed seed) and learning_jags.csv. The program under test is not run. Needs R and
rjags (Plummer 2003); takes a minute or two. The file in the tree is of 8 batches, the default.
"""
import json
import os
import random
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
DRAW = random.Random(20260607)
FLECK = ["absent", "faint", "strong"]
THREAD = ["none", "some"]
ASSAY = [[0.97, 0.02, 0.01], [0.02, 0.96, 0.02], [0.01, 0.02, 0.97]]
REPORTS = ["clear", "carrier", "affected"]
TRUTH = {"q": 0.3, "sure": 0.9,
         "fleck": [[0.25, 0.3, 0.45], [0.75, 0.2, 0.05]], "thread": [[0.4, 0.6], [0.8, 0.2]]}
PRIOR = {"q": (0.2, 10), "sure": (0.85, 20), "fleck": ([[0.3, 0.3, 0.4], [0.8, 0.15, 0.05]], 8),
         "thread": ([[0.5, 0.5], [0.7, 0.3]], 6)}
FOUNDERS = 24


def pick(weights):
    return DRAW.choices(range(len(weights)), weights)[0]


def pedigree():
    """(dam, sire) of each animal, founders first; backcrosses and half-sib matings at the end."""
    parents = [None] * FOUNDERS
    pairs = [(2 * c % FOUNDERS, (2 * c + 1) % FOUNDERS) for c in range(12)] + [(0, 3), (4, 7)]
    for dam, sire in pairs:
        parents += [(dam, sire)] * 10
    # A daughter back to her sire, half siblings, full siblings, and an unrelated pair.
    for dam, sire in [(24, 1), (34, 145), (44, 45), (56, 90)]:
        parents += [(dam, sire)] * 9
    return parents


def main():
    parents = pedigree()
    assert len(parents) == 200
    gametes = []
    for i, of in enumerate(parents):
        if of is None:
            gametes.append([int(DRAW.random() < TRUTH["q"]) for _ in range(2)])
        else:
            gametes.append([gametes[p][DRAW.randrange(2)] for p in of])
    copies = [sum(g) for g in gametes]
    dams = {of[0] for of in parents if of}
    names = [f"A{i:03d}" for i in range(200)]
    observations = []

    def observe(**fields):
        observations.append({"id": f"o{len(observations)}", **fields})

    scored, tested = [], []
    said = {"fleck": [], "thread": []}
    for i in range(200):
        observe(kind="appearance", animal=names[i], locus="tarnbrook",
                shows="tarnbrook" if copies[i] == 2 else "plain")
        if i < FOUNDERS:
            continue
        scored.append(i)
        row = 0 if copies[i] == 1 else 1
        for mark, levels in (("fleck", FLECK), ("thread", THREAD)):
            true = pick(TRUTH[mark][row])
            wrong = (1 - TRUTH["sure"]) / (len(levels) - 1)
            heard = pick([TRUTH["sure"] if k == true else wrong for k in range(len(levels))])
            said[mark].append(heard + 1)
            observe(kind="score", animal=names[i], marker=mark, level=levels[heard], scorer="ana")
        if DRAW.random() < 0.3:
            report = pick(ASSAY[copies[i]])
            tested.append((i, report))
            observe(kind="result", animal=names[i], assay="pcr", report=REPORTS[report])

    rows = {mark: [{"at": at, "expect": expect, "worth": PRIOR[mark][1]} for at, expect in
                   zip(({"tarnbrook": "+/e"}, {}), PRIOR[mark][0])] for mark in ("fleck", "thread")}
    model = {
        "format": "likelihet-model", "version": 1, "name": "two marks",
        "loci": [{"id": "tarnbrook", "alleles": ["+", "e"],
                  "appearance": {"default": "plain", "e/e": "tarnbrook"}}],
        "origins": [{"id": "bought", "frequencies": {"tarnbrook": {"e": PRIOR["q"][0]}},
                     "worth": PRIOR["q"][1]}],
        "markers": [{"id": "fleck", "levels": FLECK, "rows": rows["fleck"]},
                    {"id": "thread", "levels": THREAD, "rows": rows["thread"]}],
        "assays": [{"id": "pcr", "locus": "tarnbrook", "reports": REPORTS,
                    "rows": [{"at": key, "expect": row} for key, row in
                             zip(("+/+", "+/e", "e/e"), ASSAY)], "mix_up": 0}],
        "scorers": [{"id": "ana", "sure": PRIOR["sure"][0]}]}
    clutches = sorted({of for of in parents if of})
    animals = [{"id": n, "origin": "bought"} if of is None else
               {"id": n, "clutch": "C{}-{}".format(*of)} for n, of in zip(names, parents)]
    colony = {"format": "likelihet-colony", "version": 1, "animals": animals,
              "clutches": [{"id": "C{}-{}".format(d, s), "dam": names[d],
                            "sires": [{"id": names[s]}]} for d, s in clutches],
              "observations": observations}
    assert not dams & {of[1] for of in parents if of}
    for name, document in (("learning_model.json", model), ("learning_colony.json", colony)):
        with open(os.path.join(HERE, name), "w", encoding="utf-8") as file:
            json.dump(document, file, indent=1)
            file.write("\n")

    def vector(values):
        return "c(" + ",".join("NA" if v is None else str(v) for v in values) + ")"

    def matrix(table):
        flat = [row[k] for k in range(len(table[0])) for row in table]
        return f"matrix({vector(flat)}, nrow = {len(table)})"

    worth = {mark: [[PRIOR[mark][1] * p for p in row] for row in PRIOR[mark][0]]
             for mark in ("fleck", "thread")}
    beta = {name: [PRIOR[name][0] * PRIOR[name][1], (1 - PRIOR[name][0]) * PRIOR[name][1]]
            for name in ("q", "sure")}
    beta["sure"] = [PRIOR["sure"][0] * PRIOR["sure"][1], (1 - PRIOR["sure"][0]) * PRIOR["sure"][1]]
    # P(child | dam, sire), dam fastest, as R fills an array.
    mendel = [{0: (1 - d / 2) * (1 - s / 2), 1: d / 2 * (1 - s / 2) + s / 2 * (1 - d / 2),
               2: d / 2 * s / 2}[child] for child in range(3) for s in range(3) for d in range(3)]
    data = f"""data <- list(animals = 200, founders = {FOUNDERS}, scored = {len(scored)},
  tested = {len(tested)},
  dam = {vector([of[0] + 1 if of else None for of in parents])},
  sire = {vector([of[1] + 1 if of else None for of in parents])},
  visual = {vector([int(c == 2) for c in copies])}, of = {vector([i + 1 for i in scored])},
  said.fleck = {vector(said["fleck"])}, said.thread = {vector(said["thread"])},
  sample = {vector([i + 1 for i, _ in tested])}, report = {vector([r + 1 for _, r in tested])},
  mendel = array({vector(mendel)}, dim = c(3, 3, 3)), assay = {matrix(ASSAY)},
  prior.fleck = {matrix(worth["fleck"])},
  prior.thread = {matrix(worth["thread"])}, prior.q = {vector(beta["q"])},
  prior.sure = {vector(beta["sure"])})
inits <- list(genotype = {vector([c + 1 for c in copies])})
"""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "data.R")
        with open(path, "w", encoding="utf-8") as file:
            file.write(data)
        subprocess.run(["Rscript", os.path.join(HERE, "learning_jags.R"),
                        os.path.join(HERE, "learning_jags.bug"), path,
                        os.path.join(HERE, "learning_jags.csv"),
                        sys.argv[1] if len(sys.argv) > 1 else "8"], check=True)


if __name__ == "__main__":
    main()
