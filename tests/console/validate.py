#!/usr/bin/env python3
"""Reads a JSON document from standard input and validates it against a schema of models/schema/."""
import json
import pathlib
import sys

import jsonschema

SCHEMAS = pathlib.Path(__file__).resolve().parent.parent.parent / "models" / "schema"


def no_repeats(pairs):
    """RFC 8259 leaves repeated names open; we print none."""
    names = [name for name, _ in pairs]
    if len(set(names)) != len(names):
        raise ValueError(f"a name is there twice among {names}")
    return dict(pairs)


def refuse(word):
    raise ValueError(f"{word} is not a JSON number")


def main():
    name = sys.argv[1]
    document = json.load(sys.stdin, object_pairs_hook=no_repeats, parse_constant=refuse)
    schema = json.loads((SCHEMAS / f"{name}.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    errors = list(jsonschema.Draft202012Validator(schema).iter_errors(document))
    for error in errors:
        print(f"/{'/'.join(map(str, error.absolute_path))}: {error.message}")
    if document.get("format") != name or document.get("version") != 1:
        print("its format and version are not those of the schema")
        errors.append(None)
    if errors:
        sys.exit(1)
    print(f"a valid {name}")


if __name__ == "__main__":
    main()
