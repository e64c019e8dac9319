#!/usr/bin/env python3
"""Runs transcripts: commands a user types, what they print, how they end.

A transcript is text. A line "$ COMMAND" is run by bash in a scratch folder of the transcript's own,
with likelihet and the helpers of this folder on the PATH; a command goes on in the next line after a
final backslash or in lines that start with "> ". The lines after it are what it must print: standard
output as it is, each line of standard error with "! " before it. A last line "exit N" is its exit
status; without one that is 0. "# " starts a comment. In what is expected, a line "..." stands for any
lines, and "[..]" for any text within a line.

In a Markdown document (--document) only the fenced blocks with a line "$ likelihet ..." or
"$ cat ..." are run, in their order, in one folder.
"""
import argparse
import difflib
import os
import pathlib
import re
import shutil
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
PROJECT = HERE.parent.parent
TIME_LIMIT = 120  # seconds, for each command: a hang is a failure


class Step:
    """One command, where it stands, and what it must print."""

    def __init__(self, line, command):
        self.line = line
        self.command = command
        self.expected = []

    def wants(self):
        lines = list(self.expected)
        while lines and not lines[-1].strip():
            lines.pop()
        return lines


def read_steps(text):
    """The steps of a transcript, and the comments and blank lines that stand before each."""
    steps, step, continued = [], None, False
    for number, line in enumerate(text.splitlines(), 1):
        if continued or (step and line.startswith("> ") and not step.expected):
            step.command += "\n" + (line[2:] if line.startswith("> ") else line)
            continued = line.endswith("\\")
        elif line.startswith("$ "):
            step = Step(number, line[2:])
            steps.append(step)
            continued = line.endswith("\\")
        elif step and not line.startswith("# "):
            step.expected.append(line)
    return steps


def read_document(text):
    """The steps of a Markdown document's fenced blocks that run something."""
    lines, inside, keep = [], False, False
    blocks = text.splitlines()
    for number, line in enumerate(blocks):
        if line.startswith("```"):
            inside = not inside
            rest = blocks[number + 1:]
            block = rest[:next((i for i, l in enumerate(rest) if l.startswith("```")), 0)]
            keep = inside and any(re.match(r"\$ (likelihet|cat) ", l) for l in block)
            lines.append("")
        else:
            lines.append(line if inside and keep else "# ")
    return read_steps("\n".join(lines))


def line_matches(expected, line):
    pattern = ".*".join(re.escape(part) for part in expected.split("[..]"))
    return re.fullmatch(pattern, line) is not None


def matches(expected, lines):
    if not expected:
        return not lines
    if expected[0] == "...":
        return any(matches(expected[1:], lines[skip:]) for skip in range(len(lines) + 1))
    return bool(lines) and line_matches(expected[0], lines[0]) and matches(expected[1:], lines[1:])


def run(step, scratch, environment):
    done = subprocess.run(["bash", "-o", "pipefail", "-c", step.command], cwd=scratch,
                          env=environment, stdin=subprocess.DEVNULL, capture_output=True,
                          timeout=TIME_LIMIT, check=False)
    lines = done.stdout.decode("utf-8", "replace").splitlines()
    lines += ["! " + line for line in done.stderr.decode("utf-8", "replace").splitlines()]
    while lines and not lines[-1].strip():
        lines.pop()
    if done.returncode:
        lines.append(f"exit {done.returncode}")
    return [line.rstrip() for line in lines]


def prepare(scratch, binary):
    shutil.rmtree(scratch, ignore_errors=True)
    tools = scratch.parent / (scratch.name + ".bin")
    shutil.rmtree(tools, ignore_errors=True)
    tools.mkdir(parents=True)
    (tools / "likelihet").symlink_to(binary)
    (tools / "validate").symlink_to(HERE / "validate.py")
    (tools / "field").symlink_to(HERE / "field.py")
    shutil.copytree(HERE / "fixtures", scratch)
    (scratch / "models").symlink_to(PROJECT / "models")
    environment = {name: value for name, value in os.environ.items()
                   if name not in ("NO_COLOR", "COLUMNS", "TERM")}
    environment.update(PATH=f"{tools}:{os.environ['PATH']}", LC_ALL="C.UTF-8", TZ="UTC",
                       COLUMNS="80", TERM="dumb", PYTHONDONTWRITEBYTECODE="1")
    return environment


def accept(path, results):
    """Writes what was printed into the transcript; an aid for authors, who then read it."""
    lines = path.read_text(encoding="utf-8").splitlines()
    for step, printed in reversed(results):
        if matches(step.wants(), printed):
            continue
        start = step.line + step.command.count("\n")
        wanted = len(step.wants())
        lines[start:start + wanted] = printed
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--likelihet", type=pathlib.Path, required=True)
    parser.add_argument("--scratch", type=pathlib.Path, required=True)
    parser.add_argument("--document", action="store_true")
    parser.add_argument("--accept", action="store_true", help="write what was printed into it")
    parser.add_argument("transcript", type=pathlib.Path)
    asked = parser.parse_args()

    text = asked.transcript.read_text(encoding="utf-8")
    steps = read_document(text) if asked.document else read_steps(text)
    if not steps:
        sys.exit(f"{asked.transcript} runs nothing")
    environment = prepare(asked.scratch, asked.likelihet.resolve())
    failed, results = 0, []
    for step in steps:
        printed = run(step, asked.scratch, environment)
        results.append((step, printed))
        if matches(step.wants(), printed):
            continue
        failed += 1
        print(f"{asked.transcript.name}:{step.line}: $ {step.command}")
        print("\n".join(difflib.unified_diff(step.wants(), printed, "expected", "printed",
                                             lineterm="")))
    if asked.accept:
        accept(asked.transcript, results)
    print(f"{len(steps)} commands, {failed} not as written")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
