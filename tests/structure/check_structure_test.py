#!/usr/bin/env python3
"""Each rule finds its breach in a small tree, and none in the same tree without it."""
import pathlib
import tempfile
import unittest

import check_structure as structure

SOUND = {
    "CMakeLists.txt": "",
    "lib/CMakeLists.txt": "set(likelihet_layers low middle high)\n",
    "lib/low/layer.cmake": "likelihet_layer(low\n  HEADERS low.hpp)\n",
    "lib/middle/layer.cmake": "likelihet_layer(middle\n  HEADERS m.hpp\n  PUBLIC_USES low)\n",
    "lib/high/layer.cmake": "likelihet_layer(high\n  SOURCES h.cpp\n  PRIVATE_USES middle)\n",
    "lib/low/low.hpp": "// Low.\n#pragma once\n",
    "lib/middle/m.hpp": "#include <likelihet/low/low.hpp>\n",
    "lib/high/h.cpp": "#include <likelihet/middle/m.hpp>\n#include <likelihet/low/low.hpp>\n",
    "lib/book/rows.cpp": 'const char* text = "SELECT id FROM animals";\n',
    "cli/main.cpp": "// Selects what is shown from the book.\n",
    "tests/low/low_test.cpp": "// A test.\n",
    "tests/low/tests.cmake": "likelihet_test(low_tests SOURCES ${here}/low/low_test.cpp)\n",
    "docs/model.md": "Words.\n",
    "models/a.json": "{}\n",
}

BREACHES = {
    "lib_is_silent": ("lib/low/low.hpp", "#include <iostream>\n"),
    "sql_only_in_book": ("cli/main.cpp", 'auto q = "select id from animals";\n'),
    "top_level": ("notes.txt", "\n"),
    "includes_point_down": ("lib/low/low.hpp", "#include <likelihet/middle/m.hpp>\n"),
    "layers_declare_what_they_use": ("lib/high/h.cpp", "#include <likelihet/book/book.hpp>\n"),
    "sources_are_not_included": ("cli/main.cpp", '#include "other.cpp"\n'),
    "short_files": ("lib/low/low.hpp", "\n" * 501),
    "every_test_is_built": ("tests/low/other_test.cpp", "// Another.\n"),
    "printed_lines_fit": ("tests/console/a.transcript",
                          "$ likelihet odds a.book --json\n" + "x " * 41 + "\n"
                          "$ likelihet odds a.book\n" + "x " * 41 + "\n" + "x" * 81 + "\n"),
    "one_word_for_one_thing": ("tests/console/b.transcript",
                               "$ likelihet odds a.book\nThree young.\nResult: clear\n"
                               "Not a carrier, tested clear.\n"),
    "nothing_names_this_machine": ("docs/model.md", "See /" + "home/me/notes.\n"),
}


def breaches(rule, files):
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        for name, text in files.items():
            path = root / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return structure.RULES[rule](root)


class Rules(unittest.TestCase):
    def test_a_sound_tree_passes_every_rule(self):
        for rule in structure.RULES:
            self.assertEqual(breaches(rule, SOUND), [], rule)

    def test_every_rule_finds_its_breach(self):
        self.assertEqual(set(BREACHES), set(structure.RULES))
        for rule, (name, text) in BREACHES.items():
            self.assertEqual(len(breaches(rule, {**SOUND, name: text})), 1, rule)


if __name__ == "__main__":
    unittest.main()
