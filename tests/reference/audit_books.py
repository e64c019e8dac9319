#!/usr/bin/env python3
"""Three simulated books and the forecasts that the program's audit exports of them: audit_forecasts_4.csv to _6, of those
with marks, as the book stood. Then run audit.R and audit.py again. From this folder:
python3 audit_books.py --likelihet ../../build/cli/likelihet
"""
import argparse
import csv
import io
import pathlib
import subprocess
import tempfile

MODELS = pathlib.Path(__file__).resolve().parent.parent.parent / "models" / "demo"


def forecasts(likelihet, folder, seed):
    """Rows of `audit --csv` of a book drawn like the demo's."""
    def run(*words):
        return subprocess.run([likelihet, *words], check=True, capture_output=True, text=True).stdout
    demo, drawn, book = folder / "demo.book", folder / f"drawn{seed}.json", folder / f"drawn{seed}.book"
    if not demo.exists():
        run("init", demo, "--model", MODELS / "model.json")
        run("import", demo, MODELS / "colony.json")
    drawn.write_text(run("simulate", MODELS / "model.json", "--like", demo, "--seed", str(seed)),
                     encoding="utf-8")
    run("init", book, "--model", MODELS / "model.json")
    run("import", book, drawn)
    return csv.DictReader(io.StringIO(run("audit", book, "--csv", "--resamples", "40")))


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--likelihet", required=True)
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        for number, seed in ((4, 11), (5, 12), (6, 13)):
            rows = forecasts(arguments.likelihet, pathlib.Path(folder), seed)
            with open(f"audit_forecasts_{number}.csv", "w", encoding="utf-8", newline="") as file:
                writer = csv.writer(file, lineterminator="\n")
                writer.writerow(["animal", "clutch", "locus", "probability", "outcome"])
                # R prints 15 digits: what is compared at a forecast must be the same number there.
                writer.writerows([r["animal"], r["clutch"], r["locus"], f"{float(r['probability']):.10g}", r["outcome"]]
                                 for r in rows if r["basis"] == "scored" and r["scheme"] == "as-it-stood")


if __name__ == "__main__":
    main()
