#!/usr/bin/env python3
"""Every command and option that the program's help knows is in docs/commands.md, and the reverse;
every exit status of cli/exit_status.hpp and every schema of models/schema/ is in the documents."""
import pathlib
import re
import subprocess
import sys

PROJECT = pathlib.Path(__file__).resolve().parent.parent.parent


def help_of(program, words):
    return subprocess.run([program, *words, "--help"], capture_output=True, text=True,
                          check=True).stdout


def commands_in(text):
    """The names under the heading "Commands:"."""
    part = text.partition("\nCommands:\n")[2]
    return re.findall(r"^  ([a-z][a-z-]*)", part, re.MULTILINE)


def options_in(text):
    return set(re.findall(r"--[a-z][a-z-]*", text.partition("\nOptions:\n")[2])) - {"--help"}


def sections(document):
    """Heading -> text, for each heading "## likelihet …"."""
    found = re.split(r"^#+ `?likelihet ([a-z -]+?)`?$", document, flags=re.MULTILINE)
    return dict(zip(found[1::2], found[2::2]))


def faults_of_commands(program, document):
    described, seen, faults = sections(document), set(), []
    waiting = [[name] for name in commands_in(help_of(program, []))]
    while waiting:
        words = waiting.pop()
        text = help_of(program, words)
        inner = commands_in(text)
        waiting += [words + [name] for name in inner]
        if inner:
            continue
        name = " ".join(words)
        seen.add(name)
        if name not in described:
            faults.append(f"docs/commands.md has no section '## likelihet {name}'")
            continue
        written = set(re.findall(r"^\| `(--[a-z-]+)", described[name], re.MULTILINE))
        known = options_in(text) - {"--color"}
        faults += [f"likelihet {name}: {o} is not described" for o in sorted(known - written)]
        faults += [f"likelihet {name}: there is no {o}" for o in sorted(written - known)]
        operands = re.findall(r"^  ([A-Z]+)\b", text.partition("\nArguments:\n")[2], re.MULTILINE)
        faults += [f"likelihet {name}: {o} is not described" for o in operands
                   if f"`{o}`" not in described[name]]
    faults += [f"there is no command '{name}'" for name in sorted(set(described) - seen)]
    if "--color" not in document:
        faults.append("--color is not described")
    return faults, len(seen)


def faults_of_statuses(document):
    source = (PROJECT / "cli/exit_status.hpp").read_text(encoding="utf-8")
    statuses = re.findall(r"= (\d+),", source)
    return [f"exit status {n} has no row" for n in statuses
            if not re.search(rf"^\| {n} \|", document, re.MULTILINE)]


def main():
    program = sys.argv[1]
    commands = (PROJECT / "docs/commands.md").read_text(encoding="utf-8")
    documents = (PROJECT / "docs/documents.md").read_text(encoding="utf-8")
    faults, count = faults_of_commands(program, commands)
    faults += faults_of_statuses(commands)
    for schema in sorted((PROJECT / "models/schema").glob("*.schema.json")):
        name = schema.name.removesuffix(".schema.json")
        if f"`{name}`" not in documents:
            faults.append(f"docs/documents.md does not name {name}")
    for fault in faults:
        print(fault)
    if count < 10:
        sys.exit(f"only {count} commands were found in the help")
    print(f"{count} commands compared, {len(faults)} faults")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
