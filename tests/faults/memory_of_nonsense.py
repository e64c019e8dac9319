#!/usr/bin/env python3
"""A document that is nothing but faults takes little more memory than its text asks for."""
import argparse
import pathlib
import subprocess
import sys
import tempfile

SIZE = 5_000_000  # bytes of text
MOST_A_BYTE = 40  # bytes of memory a byte of text: a value of two bytes is one of the parser's, doubled as its list grows
FIXED = 64 << 20
HEAD = '{"format":"likelihet-colony","version":1,"animals":[],"clutches":[],"observations":['


def documents():
    yield "numbers", HEAD + "1," * (SIZE // 2) + "1]}"
    yield "empty objects", HEAD + "{}," * (SIZE // 3) + "{}]}"
    yield "empty arrays", HEAD + "[]," * (SIZE // 3) + "[]]}"
    yield "unknown fields", HEAD + '{"a":1},' * (SIZE // 8) + '{"a":1}]}'
    yield "keys", '{"format":"likelihet-colony","version":1' + "".join(f',"k{n}":1' for n in range(SIZE // 12)) + "}"
    yield "an unfinished list", HEAD + "1," * (SIZE // 2)
    yield "open brackets", "[" * SIZE


def peak_of(program, folder, name):
    """Exit status and bytes at most in memory, in a process of its own so that peaks do not mix."""
    script = ("import resource, subprocess, sys\n"
              "run = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)\n"
              "print(run.returncode, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss * 1024)\n")
    run = subprocess.run([sys.executable, "-c", script, program, "import", "some.book", name], cwd=folder,
                         capture_output=True, text=True, check=True)
    status, peak = run.stdout.split()
    return int(status), int(peak)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--likelihet", required=True)
    parser.add_argument("--model", required=True)
    asked = parser.parse_args()
    wrong = []
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        subprocess.run([asked.likelihet, "init", "some.book", "--model", asked.model], cwd=folder, check=True,
                       stdout=subprocess.DEVNULL)
        for name, text in documents():
            (folder / "nonsense.json").write_text(text, encoding="utf-8")
            status, peak = peak_of(asked.likelihet, folder, "nonsense.json")
            print(f"{name}: exit {status}, {peak >> 20} MiB of {len(text) / 1e6:.0f} MB of text")
            if status != 3 or peak > FIXED + MOST_A_BYTE * len(text):
                wrong.append(name)
    sys.exit(f"too much, or not refused: {', '.join(wrong)}" if wrong else 0)


if __name__ == "__main__":
    main()
