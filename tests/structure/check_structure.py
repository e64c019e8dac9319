#!/usr/bin/env python3
"""Checks one rule of the tree: check_structure.py RULE PROJECT. Prints each breach."""
import pathlib
import re
import sys

TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "lib", "cli", "models",
             "tests", "docs", "build"}
MOST_LINES = 500
SQL = re.compile(r"\b(SELECT\b.+\bFROM|INSERT\s+(OR\s+\w+\s+)?INTO|UPDATE\s+\w+\s+SET|DELETE\s+FROM"
                 r"|CREATE\s+(TABLE|TRIGGER|INDEX)|(?<!#)PRAGMA)\b|sqlite3?\.h|SQLiteCpp", re.IGNORECASE)
PRINTS = re.compile(r"\b(std::cout|std::cerr|std::clog|fmt::print|std::print)\b|<iostream>|<cstdio>"
                    r"|\b(printf|fprintf|puts|fputs|putchar|perror)\s*\(")


def sources(root, *folders):
    for folder in folders:
        for path in sorted((root / folder).rglob("*")):
            if path.suffix in (".cpp", ".hpp", ".cmake") and path.is_file():
                yield path


def lines_of(path):
    return path.read_text(encoding="utf-8").splitlines()


def matching(root, paths, pattern):
    return [f"{path.relative_to(root)}:{number}: {line.strip()}"
            for path in paths for number, line in enumerate(lines_of(path), 1)
            if pattern.search(line)]


def layers(root):
    """Name -> the layers it declares, in the order of lib/CMakeLists.txt."""
    text = (root / "lib/CMakeLists.txt").read_text(encoding="utf-8")
    names = re.search(r"set\(likelihet_layers ([^)]*)\)", text).group(1).split()
    uses = {}
    for name in names:
        declared = (root / "lib" / name / "layer.cmake").read_text(encoding="utf-8")
        words = re.sub(r"#.*", "", declared).replace("(", " ").replace(")", " ").split()
        uses[name] = {word for word in words[2:] if word in names}
    return uses


def layer_includes(root, name):
    for path in sources(root, f"lib/{name}"):
        for number, line in enumerate(lines_of(path), 1):
            found = re.match(r'\s*#\s*include\s*[<"]likelihet/(\w+)/', line)
            if found and found.group(1) != name:
                yield f"{path.relative_to(root)}:{number}", found.group(1)


def reach(uses, name):
    """What a layer sees: what it declares, and what those see."""
    seen, waiting = set(), list(uses[name])
    while waiting:
        other = waiting.pop()
        if other not in seen:
            seen.add(other)
            waiting += uses[other]
    return seen


def lib_is_silent(root):
    return matching(root, sources(root, "lib"), PRINTS)


def sql_only_in_book(root):
    paths = [p for p in sources(root, "lib", "cli")
             if p.suffix != ".cmake" and p.relative_to(root).parts[:2] != ("lib", "book")]
    return matching(root, paths, SQL)


def top_level(root):
    return [f"{path.name} does not belong at the top" for path in sorted(root.iterdir())
            if not path.name.startswith(".") and path.name not in TOP_LEVEL
            and not path.name.startswith("build-")]


def includes_point_down(root):
    paths = list(sources(root, "lib", "cli", "tests"))
    breaches = matching(root, paths, re.compile(r'#\s*include\s*[<"][^>"]*\.\./'))
    order = list(layers(root))
    for name in order:
        breaches += [f"{place}: '{name}' includes '{other}', which is not below it"
                     for place, other in layer_includes(root, name)
                     if other not in order[:order.index(name)]]
    return breaches


def layers_declare_what_they_use(root):
    uses = layers(root)
    return [f"{place}: '{name}' does not declare '{other}'" for name in uses
            for place, other in layer_includes(root, name) if other not in reach(uses, name)]


def sources_are_not_included(root):
    """Sources are compiled together by files that CMake writes, never by one another."""
    return matching(root, list(sources(root, "lib", "cli", "tests")),
                    re.compile(r'#\s*include\s*[<"][^>"]*\.cpp[>"]'))


def short_files(root):
    return [f"{path.relative_to(root)} has {len(lines_of(path))} lines, over {MOST_LINES}"
            for path in sources(root, "lib", "cli") if len(lines_of(path)) > MOST_LINES]


def nothing_names_this_machine(root):
    """Paths of the machine that a file was written on have no place in it."""
    pattern = re.compile(r"(?<![\w.])/(?:root|work|home/\w+|Users/\w+)/")
    paths = [p for folder in ("lib", "cli", "tests", "docs", "models") if (root / folder).exists()
             for p in sorted((root / folder).rglob("*"))
             if p.suffix in (".cpp", ".hpp", ".cmake", ".md", ".py", ".sh", ".json", ".txt")
             and p.is_file() and p.name != pathlib.Path(__file__).name]
    return matching(root, paths, pattern)


def every_test_is_built(root):
    """A test that no list of tests names is never run."""
    lists = "".join(path.read_text(encoding="utf-8")
                    for path in sorted((root / "tests").glob("*/tests.cmake")))
    return [f"{path.relative_to(root)} is in no tests.cmake"
            for path in sorted((root / "tests").rglob("*_test.cpp"))
            if f"{path.parent.name}/{path.name}" not in lists]


# What is never said, and what it is called (docs/model.md). A laboratory's answers and documents' own
# fields keep their names.
NEVER = {
    r'(?<!byte-order )(?<!question )(?<!")\bmarks?\b(?! the\b)': "marker",
    r"\byoung\b": "offspring, hatchling",
    r"\bhalf-sibs?\b|\bsibs?\b|\bbrothers and sisters\b": "siblings",
    r"\bovertaken\b": "out of date",
    r"\bnothing unusual\b": "normal-looking",
    r"\bto mend it:": "fix:",
    r"\bbelief only\b|\bmostly belief\b": "as assumed",
    r"\bwhat was sold\b|\bsold as\b": "seller's description",
    r"\bMind:": "Warning:",
}
NEVER_PRINTED = {
    r"(?<!not a )(?<!not )(?<!-)\bcarriers?\b(?! \(sample)(?!$)(?!,)": "het, carries it",
    r"\bproved\b": "turned out, proven by",
    r"(?<![Tt]here )\bis no (?!better|longer|more|worse|part|such)\w+": "is not a",
    r"(?<!tested )(?<!came back )(?<!: )\bclear\b(?!,)": "tested clear, non-visual, not a carrier",
    r"(?<!')\breadings?\b": "score",
}
FOR_PROGRAMS = re.compile(r"--json|--csv|--format (html|json|markdown)|\bexport\b|\bsheet\b.*--html"
                          r"|^\$ (grep|cat|head|sed|field|python3)\b|\bfield\b")


def printed_lines(root):
    """What the program prints as text, in transcripts: file, line number, command, line."""
    for path in sorted((root / "tests" / "console").glob("*.transcript")):
        command = ""
        for number, line in enumerate(lines_of(path), 1):
            if line.startswith(("$ ", "> ")) or command.endswith("\\"):
                command = line if line.startswith("$ ") else command.rstrip("\\") + line
            elif command and not line.startswith("# ") and not FOR_PROGRAMS.search(command):
                yield path.relative_to(root), number, line.removeprefix("! ")


def printed_lines_fit(root):
    """What the program prints as text is at most 80 columns wide. Documents, pages and tables of
    values are for programs; words of more than 60 columns are somebody's ids."""
    return [f"{path}:{number}: {len(line)} columns" for path, number, line in printed_lines(root)
            if len(line) > 80 and max(map(len, line.split())) <= 60]


def one_word_for_one_thing(root):
    """No text has a word that another is kept for: what is printed, documents, public headers."""
    texts = [(path, number, line, {**NEVER, **NEVER_PRINTED})
             for path, number, line in printed_lines(root)]
    others = [path for path in sources(root, "lib") if path.suffix == ".hpp"]
    others += [root / "README.md", *sorted((root / "docs").glob("*.md")),
               *sorted((root / "models").rglob("*.schema.json"))]
    for path in others:
        if path.is_file() and path.name not in ("CHANGELOG.md", "evidence.md"):
            texts += [(path.relative_to(root), number, line, NEVER)
                      for number, line in enumerate(lines_of(path), 1)]
    return [f"{path}:{number}: not '{found.group()}' but {word}: {line.strip()}"
            for path, number, line, never in texts for pattern, word in never.items()
            if (found := re.search(pattern, line))]


RULES = {rule.__name__: rule for rule in (
    lib_is_silent, sql_only_in_book, top_level, includes_point_down, layers_declare_what_they_use,
    sources_are_not_included, short_files, nothing_names_this_machine, every_test_is_built,
    printed_lines_fit, one_word_for_one_thing)}


def main():
    breaches = RULES[sys.argv[1]](pathlib.Path(sys.argv[2]).resolve())
    for breach in breaches:
        print(breach)
    sys.exit(1 if breaches else 0)


if __name__ == "__main__":
    main()
