#!/usr/bin/env python3
"""wide_loops_stay_apart.py NM OBJECT...: files compiled for newer processors share no function.

Of equal inline functions in several files a linker keeps any one. Were it one of these files', a
program would end on an older processor. So each may define its table of loops and nothing weak.
"""
import pathlib
import subprocess
import sys


def shared(nm, path):
    listed = subprocess.run([nm, "--defined-only", "-C", path], check=True, capture_output=True,
                            text=True).stdout
    rows = [line.split(maxsplit=2) for line in listed.splitlines()]
    return [name for _, kind, name in rows
            if kind.isupper() and not (kind == "T" and name.endswith("_loops()"))
            or kind in "uvw"]


nm, *objects = sys.argv[1:]
wide = [path for path in objects if pathlib.Path(path).name.startswith("loops_avx")]
if not wide:
    sys.exit("no such files among the objects")
breaches = [f"{pathlib.Path(path).name}: {name}" for path in wide for name in shared(nm, path)]
print("\n".join(breaches))
sys.exit(1 if breaches else 0)
