#!/usr/bin/env python3
"""Runs the long checks and the benchmarks of a build, and writes docs/evidence.md from what they say.

usage: write_evidence.py BUILD
"""

import argparse
import datetime
import json
import os
import pathlib
import platform
import re
import statistics
import subprocess
import sys
import tempfile
import time

SOURCE = pathlib.Path(__file__).resolve().parents[2]
RUNS_OF_A_COMMAND = 31


def properties_of(program, only):
    """Runs the cases of a test program in full; (case, recorded properties) of each."""
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / "out.json"
        environment = dict(os.environ, LIKELIHET_LONG="1")
        subprocess.run([program, f"--gtest_filter={only}", f"--gtest_output=json:{out}"],
                       check=True, env=environment, stdout=subprocess.DEVNULL)
        suites = json.loads(out.read_text())["testsuites"]
    known = {"name", "file", "line", "status", "result", "timestamp", "time", "classname"}
    for suite in suites:
        for case in suite["testsuite"]:
            recorded = {k: v for k, v in case.items() if k not in known}
            yield f"{suite['name']}.{case['name']}", recorded, float(case["time"].rstrip("s"))


def long_checks(build):
    yield "| check | figures | seconds |"
    yield "|---|---|---|"
    for program, only in (("property_tests", "RandomColonies.*"),
                          ("learning_tests", "Calibration.*:Starts.*"),
                          ("audited_books_tests", "CalibrationOfForecasts.*:SimulatedMarkers.*"),
                          ("reference_tests", "*")):
        for name, recorded, seconds in properties_of(build / "tests" / program, only):
            figures = ", ".join(f"{k.replace('_', ' ')} {v}" for k, v in recorded.items())
            yield f"| {name} | {figures or 'passed'} | {seconds:.1f} |"


def benchmarks(build):
    """Median of three repetitions of each benchmark, one thread."""
    run = subprocess.run([build / "tests/bench/likelihet_bench", "--benchmark_format=json",
                          "--benchmark_repetitions=3", "--benchmark_report_aggregates_only=true",
                          "--benchmark_min_time=0.2"],
                         check=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    yield "| benchmark | processor time, ms | ns an animal | loops | largest clique |"
    yield "|---|---|---|---|---|"
    for row in json.loads(run.stdout)["benchmarks"]:
        if row.get("aggregate_name") != "median":
            continue
        name = row["run_name"].split("/repeats")[0]
        per_animal = row["cpu_time"] * 1e6 / row["animals"]
        if name.startswith("pass_of_eight"):
            per_animal /= 8
        loops = f"{row['loops']:.0f}" if "loops" in row else ""
        clique = f"{row['largest_clique']:.0f}" if "largest_clique" in row else ""
        yield f"| {name} | {row['cpu_time']:.3g} | {per_animal:.3g} | {loops} | {clique} |"


def whole_process(build):
    """The time of `odds` on the demo's book, from start to end of the process."""
    program = build / "cli/likelihet"
    with tempfile.TemporaryDirectory() as folder:
        book = pathlib.Path(folder) / "demo.book"
        demo = SOURCE / "models/demo"
        quiet = {"check": True, "stdout": subprocess.DEVNULL}
        subprocess.run([program, "init", book, "--model", demo / "model.json"], **quiet)
        subprocess.run([program, "import", book, demo / "colony.json"], **quiet)
        subprocess.run([program, "learn", book], **quiet)
        for words, what in ((("odds", "--tables", "belief"), "1,000 draws for intervals"),
                            (("odds", "--tables", "learned"), "2,000 learned draws")):
            times = []
            for _ in range(RUNS_OF_A_COMMAND):
                start = time.perf_counter()
                subprocess.run([program, words[0], book, *words[1:]], **quiet)
                times.append(1e3 * (time.perf_counter() - start))
            yield (f"- `likelihet {' '.join(words)}` on the demo's book ({what}), the whole process: "
                   f"median {statistics.median(times):.1f} ms of {len(times)} runs, the fastest "
                   f"{min(times):.1f} ms, the slowest {max(times):.1f} ms.")


def coverage():
    report = SOURCE / "build-checked/coverage.txt"
    if not report.exists():
        yield "Line coverage of lib/: not measured on this occasion."
        return
    total = re.search(r"^TOTAL\s+(\d+)\s+(\d+)\s+(\d+)%", report.read_text(), re.MULTILINE)
    yield f"Line coverage of lib/: {total[3]} % ({total[2]} of {total[1]} lines)."


def cases(build):
    listed = subprocess.run(["ctest", "--test-dir", build, "-N"], check=True, text=True,
                            stdout=subprocess.PIPE).stdout
    yield re.search(r"Total Tests: (\d+)", listed)[0] + " in tests/run.sh."


def processor():
    for line in pathlib.Path("/proc/cpuinfo").read_text().splitlines():
        if line.startswith("model name"):
            return line.split(":")[1].strip()
    return platform.machine()


def git(*words):
    return subprocess.run(["git", "-C", SOURCE, *words], check=True, text=True,
                          stdout=subprocess.PIPE).stdout.strip()


def document(build):
    changed = " with changes not committed" if git("status", "--porcelain", "-uno") else ""
    yield "# Evidence"
    yield ""
    yield "Written by `tests/evidence/write_evidence.py`, which `bash tests/run.sh --long` ends with."
    yield "What each check compares with, and where its reference comes from, stands in its source."
    yield ""
    yield f"{datetime.date.today()}, commit {git('rev-parse', '--short=12', 'HEAD')}{changed}, " \
          f"{processor()}, {os.cpu_count()} cores."
    for title, part in (("Tests", cases(build)), ("Coverage", coverage()),
                        ("Checks in full", long_checks(build)),
                        ("Speed of a command", whole_process(build)),
                        ("Benchmarks", benchmarks(build))):
        yield ""
        yield f"## {title}"
        yield ""
        yield from part


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("build", type=pathlib.Path)
    build = parser.parse_args().build.resolve()
    text = "\n".join(document(build)) + "\n"
    (SOURCE / "docs/evidence.md").write_text(text)
    return 0


if __name__ == "__main__":
    sys.exit(main())
