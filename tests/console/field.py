#!/usr/bin/env python3
"""Prints the values of a JSON document from standard input that JSON Pointers (RFC 6901) name."""
import json
import sys


def at(value, pointer):
    for part in pointer.split("/")[1:]:
        part = part.replace("~1", "/").replace("~0", "~")
        value = value[int(part)] if isinstance(value, list) else value[part]
    return value


def main():
    document = json.load(sys.stdin)
    for pointer in sys.argv[1:]:
        value = at(document, pointer)
        print(f"{pointer} {value:.12g}" if isinstance(value, float)
              else f"{pointer} {json.dumps(value, ensure_ascii=False)}")


if __name__ == "__main__":
    main()
