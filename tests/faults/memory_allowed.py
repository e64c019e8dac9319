#!/usr/bin/env python3
"""--memory holds: a locus of many alleles, whose tables grow with the third power of its genotypes, takes no more
than is allowed and what the program takes anyway, or ends with 5."""
import argparse
import json
import pathlib
import subprocess
import sys
import tempfile

FIXED = 48 << 20  # what the program takes besides: itself, its libraries, the book
# Alleles, bytes allowed, whether exact odds fit.
CASES = ((10, 64 << 20, True), (14, 96 << 20, True), (20, 256 << 20, False), (24, 512 << 20, False))
COMMANDS = (["odds", "--draws", "50"], ["why", "H0"], ["listing", "H0"], ["outlook", "D", "S"],
            ["prove-out", "D", "--partner", "S", "--allele", "a1"], ["next-test"], ["audit"])


def documents(alleles):
    names = ["+"] + [f"a{n}" for n in range(1, alleles)]
    model = {"format": "likelihet-model", "version": 1, "name": "series", "sex_chromosomes": "none",
             "loci": [{"id": "brackmoor", "on": "autosome", "alleles": names, "appearance": {"default": "plain"}}],
             "origins": [{"id": "bought", "frequencies": {"brackmoor": {name: 0.01 for name in names[1:]}}}],
             "markers": [], "assays": []}
    hatchlings = [f"H{n}" for n in range(6)]
    colony = {"format": "likelihet-colony", "version": 1,
              "animals": [{"id": "D", "sex": "female", "origin": "bought"},
                          {"id": "S", "sex": "male", "origin": "bought"}]
              + [{"id": name, "clutch": "C"} for name in hatchlings],
              "clutches": [{"id": "C", "dam": "D", "sires": [{"id": "S"}]}],
              "observations": [{"id": f"look-{name}", "kind": "appearance", "animal": name, "locus": "brackmoor",
                                "shows": "plain"} for name in hatchlings]}
    return model, colony


def peak_of(words, folder):
    """Exit status and bytes at most in memory, in a process of its own so that peaks do not mix."""
    script = ("import resource, subprocess, sys\n"
              "run = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)\n"
              "print(run.returncode, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss * 1024)\n")
    run = subprocess.run([sys.executable, "-c", script, *words], cwd=folder, capture_output=True, text=True, check=True)
    status, peak = run.stdout.split()
    return int(status), int(peak)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--likelihet", required=True)
    program = parser.parse_args().likelihet
    wrong = []
    for alleles, allowed, fits in CASES:
        with tempfile.TemporaryDirectory() as scratch:
            folder = pathlib.Path(scratch)
            for name, document in zip(("model.json", "colony.json"), documents(alleles)):
                (folder / name).write_text(json.dumps(document), encoding="utf-8")
            for words in (["init", "some.book", "--model", "model.json"], ["import", "some.book", "colony.json"]):
                subprocess.run([program, *words], cwd=folder, check=True, stdout=subprocess.DEVNULL)
            for name, *options in COMMANDS:
                status, peak = peak_of([program, name, "some.book", *options, "--memory", f"{allowed >> 20}MiB"],
                                       folder)
                print(f"{alleles} alleles, {allowed >> 20} MiB: {name} exit {status}, {peak >> 20} MiB")
                if status != (0 if fits else 5) or peak > allowed + FIXED:
                    wrong.append(f"{name} of {alleles} alleles")
    sys.exit(f"too much, or not told: {', '.join(wrong)}" if wrong else 0)


if __name__ == "__main__":
    main()
