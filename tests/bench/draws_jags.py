#!/usr/bin/env python3
"""Times JAGS on the herd of draws.cpp: python3 tests/bench/draws_jags.py BUILD [ANIMALS [DRAWS]].

Prints milliseconds a draw, the best of three chains: of all genotypes at known tables, and of
genotypes, levels, rows, scorer and frequency together. Needs R with rjags (Plummer 2003, "JAGS: a
program for analysis of Bayesian graphical models using Gibbs sampling"). The herd is written by
BUILD/tests/bench/write_herd; results are left out, as there. At known tables what was seen of an
animal is one likelihood over its genotypes, which is the quickest form for JAGS. Chains start from
states that are possible: JAGS refuses others.
"""
import json
import os
import subprocess
import sys
import tempfile

GENOTYPES = ["+/+", "+/e", "e/e"]
SCORER_WORTH = 20  # of what is believed of a scorer, as in the program

R = """
suppressMessages(library(rjags))
source("data.R")
for (kind in c("known", "learned")) {
  best <- Inf
  for (seed in 1:3) {
    start <- c(inits[[kind]], list(.RNG.name = "base::Mersenne-Twister", .RNG.seed = seed))
    model <- jags.model(paste0(kind, ".bug"), data[[kind]], start, n.chains = 1, n.adapt = 100,
                        quiet = TRUE)
    update(model, 50, progress.bar = "none")
    seconds <- system.time(update(model, draws, progress.bar = "none"))[["user.self"]]
    best <- min(best, 1000 * seconds / draws)
  }
  cat(sprintf("tables %s: %.3f ms a draw\\n", kind, best))
}
"""

DESCENT = """
  for (i in 1:founders) { g[i] ~ dcat(prior) }
  for (i in (founders + 1):animals) { g[i] ~ dcat(offspring[g[dam[i]], g[sire[i]], ]) }
"""
KNOWN = "model {" + DESCENT + """
  for (i in 1:animals) { seen[i] ~ dbern(chance[i, g[i]]) }
}
"""
LEARNED = "model {" + DESCENT + """
  q ~ dbeta(counts.q[1], counts.q[2])
  prior[1] <- (1 - q) * (1 - q)
  prior[2] <- 2 * q * (1 - q)
  prior[3] <- q * q
  sure ~ dbeta(counts.sure[1], counts.sure[2])
  for (k in 1:3) {
    row[k, 1:3] ~ ddirch(counts.row[k, ])
    for (l in 1:3) { reads[k, l] <- sure * equals(k, l) + (1 - sure) / 2 * (1 - equals(k, l)) }
  }
  for (i in 1:animals) {
    shows[i] ~ dbern(equals(g[i], 3))
    level[i] ~ dcat(row[g[i], ])
    read[i] ~ dcat(reads[level[i], ])
  }
}
"""


def load(tool, *words):
    return json.loads(subprocess.run([tool, *words], check=True, capture_output=True).stdout)


def rows_of(marker):
    """The row that holds for no, one and two copies of the trait's allele."""
    return [next(r for r in marker["rows"] if r["at"].get("tarnbrook", key) == key) for key in GENOTYPES]


def seen_of(model, colony):
    """What each animal shows and the level read of its one marker, counted from 1."""
    levels = model["markers"][0]["levels"]
    shows, read = {}, {}
    for o in colony["observations"]:
        if o["kind"] == "appearance":
            shows[o["animal"]] = int(o["shows"] == "tarnbrook")
        elif o["kind"] == "score":
            read[o["animal"]] = levels.index(o["level"]) + 1
    return shows, read


def likelihood(shows, read, rows, sure):
    """P(what was seen | copies of the trait's allele), the true level summed out."""
    out = []
    for g in range(3):
        wrong = (1 - sure) / (len(rows[g]["expect"]) - 1)
        level = sum(p * (sure if k + 1 == read else wrong) for k, p in enumerate(rows[g]["expect"]))
        out.append(level if (g == 2) == bool(shows) else 0.0)
    return out


def numbers(values):
    return "c(" + ",".join(f"{v:.10g}" for v in values) + ")"


def offspring():
    pass_on = [0.0, 0.5, 1.0]
    return {(d, s, c): [(1 - pass_on[d]) * (1 - pass_on[s]),
                        pass_on[d] * (1 - pass_on[s]) + (1 - pass_on[d]) * pass_on[s],
                        pass_on[d] * pass_on[s]][c]
            for d in range(3) for s in range(3) for c in range(3)}


def r_list(entries):
    return "list(" + ", ".join(f"{name}={value}" for name, value in entries.items()) + ")"


def write(folder, model, colony, draws):
    clutches = {c["id"]: c for c in colony["clutches"]}
    animals = sorted(colony["animals"], key=lambda a: "clutch" in a)  # founders first, else as told
    place = {a["id"]: i + 1 for i, a in enumerate(animals)}
    parents = {"dam": [], "sire": []}
    for a in animals:
        clutch = clutches.get(a.get("clutch"))
        parents["dam"].append(place[clutch["dam"]] if clutch else 0)
        parents["sire"].append(place[clutch["sires"][0]["id"]] if clutch else 0)
    shows, read = seen_of(model, colony)
    rows, sure = rows_of(model["markers"][0]), model["scorers"][0]["sure"]
    chances = [likelihood(shows[a["id"]], read[a["id"]], rows, sure) for a in animals]
    origin = model["origins"][0]
    q = origin["frequencies"]["tarnbrook"]["e"]
    table = offspring()
    cells = [table[d, s, c] for c in range(3) for s in range(3) for d in range(3)]
    descent = {"animals": len(animals), "founders": sum("clutch" not in a for a in animals),
               "offspring": f"array({numbers(cells)}, c(3, 3, 3))",
               "dam": numbers(parents["dam"]), "sire": numbers(parents["sire"])}
    known = descent | {
        "prior": numbers([(1 - q) ** 2, 2 * q * (1 - q), q ** 2]),
        "chance": f"matrix({numbers([c[g] for g in range(3) for c in chances])}, ncol=3)",
        "seen": f"rep(1, {len(animals)})"}
    counts = [r["worth"] * r["expect"][k] for k in range(3) for r in rows]
    learned = descent | {
        "counts.q": numbers([origin["worth"] * q, origin["worth"] * (1 - q)]),
        "counts.sure": numbers([SCORER_WORTH * sure, SCORER_WORTH * (1 - sure)]),
        "counts.row": f"matrix({numbers(counts)}, ncol=3)",
        "shows": numbers([shows[a["id"]] for a in animals]),
        "read": numbers([read[a["id"]] for a in animals])}
    # A carrier unless it shows the trait; the level that was seen.
    start = {"g": numbers([3 if shows[a["id"]] else 2 for a in animals])}
    starts = {"known": r_list(start), "learned": r_list(start | {"level": learned["read"]})}
    with open(os.path.join(folder, "data.R"), "w", encoding="utf-8") as out:
        out.write(f"draws <- {draws}\n")
        out.write(f"data <- {r_list({'known': r_list(known), 'learned': r_list(learned)})}\n")
        out.write(f"inits <- {r_list(starts)}\n")


def main():
    tool = os.path.join(os.path.abspath(sys.argv[1]), "tests", "bench", "write_herd")
    animals = sys.argv[2] if len(sys.argv) > 2 else "2000"
    draws = int(sys.argv[3]) if len(sys.argv) > 3 else 2000
    model = load(tool, "model", "1")
    colony = load(tool, "colony", "1", animals, "ana")
    with tempfile.TemporaryDirectory() as folder:
        write(folder, model, colony, draws)
        for name, text in (("known.bug", KNOWN), ("learned.bug", LEARNED), ("time.R", R)):
            with open(os.path.join(folder, name), "w", encoding="utf-8") as out:
                out.write(text)
        printed = subprocess.run(["Rscript", "time.R"], cwd=folder, check=True, capture_output=True,
                                 text=True)
    print(printed.stdout, end="")


main()
