#!/usr/bin/env python3
"""What every option that names a file to write does with what is there already.

OUTPUTS has a row for each such option. Every option and operand of the program that could name a file
has to be in OUTPUTS, INPUTS or WORDS, so that a new one is seen here."""
import os
import pathlib
import re
import shutil
import sqlite3
import stat
import subprocess
import sys
import tempfile
import unittest

HERE = pathlib.Path(__file__).resolve().parent
FIXTURES = HERE.parent / "console" / "fixtures"
PROGRAM = ""

# Command and option -> the words before the file's name.
OUTPUTS = {
    ("audit", "--html"): ["audit", "demo.book", "--resamples", "40", "--html"],
    ("audit", "--csv"): ["audit", "demo.book", "--resamples", "40", "--csv"],
    ("sheet", "--html"): ["sheet", "demo.book", "H0301", "--html"],
}
# Those that make a book: nothing is ever replaced by one.
BOOKS = {
    ("init", "BOOK"): (["init"], ["--model", "model.json"]),
    ("copy", "TO"): (["copy", "demo.book"], []),
}
INPUTS = {("init", "--model"), ("simulate", "--like"), ("simulate", "MODEL"), ("import", "FILE")}
WORDS = {"ALLELE", "ANIMAL", "APPEARANCE", "ASSAY", "CLUTCH", "CODE", "COUNT", "DAM", "ID", "LEVEL", "LOCUS", "MARKER", "OBSERVATION",
         "PARTNER", "REPORT", "SHOWS", "SIRE", "WHAT", "A", "B"}


def run(words, folder, **more):
    return subprocess.run([PROGRAM, *words], cwd=folder, capture_output=True, text=True, timeout=120, check=False,
                          **more)


def help_of(words):
    return run([*words, "--help"], ".").stdout


def leaves(words=()):
    """Every command that has none of its own."""
    inner = re.findall(r"^  ([a-z][a-z-]*)", help_of(words).partition("\nCommands:\n")[2], re.MULTILINE)
    if not inner:
        yield list(words)
    for name in inner:
        yield from leaves([*words, name])


def possible_files(words):
    text = help_of(words)
    operands = re.findall(r"^  ([A-Z]+)\b", text.partition("\nArguments:\n")[2], re.MULTILINE)
    options = re.findall(r"^  (?:-\w,)?(--[a-z-]+) \[?FILE\b", text.partition("\nOptions:\n")[2], re.MULTILINE)
    return operands + options


class EveryFileIsKnown(unittest.TestCase):
    def test_options_and_operands_are_in_a_table(self):
        found = set()
        for words in leaves():
            name = " ".join(words)
            for what in possible_files(words):
                found.add((name, what))
                known = ((name, what) in OUTPUTS or (name, what) in BOOKS or (name, what) in INPUTS or what in WORDS
                         or what == "BOOK")
                self.assertTrue(known, f"likelihet {name}: is {what} a file that is written? Put it into a table here")
        self.assertLessEqual(set(OUTPUTS) | set(BOOKS) | INPUTS, found, "a row is of no option")


class Files(unittest.TestCase):
    """Each test has a folder with a book, and goes through every option."""

    @classmethod
    def setUpClass(cls):
        cls.made = tempfile.TemporaryDirectory()
        folder = pathlib.Path(cls.made.name)
        for name in ("model.json", "colony.json"):
            shutil.copy(FIXTURES / name, folder / name)
        for words in (["init", "demo.book", "--model", "model.json"], ["import", "demo.book", "colony.json"]):
            assert run(words, folder).returncode == 0
        shutil.copy(folder / "demo.book", folder / "other.book")

    @classmethod
    def tearDownClass(cls):
        cls.made.cleanup()

    def each(self):
        """The words before the name, and a fresh folder."""
        for words in OUTPUTS.values():
            with tempfile.TemporaryDirectory() as scratch:
                folder = pathlib.Path(scratch)
                for name in ("demo.book", "other.book", "colony.json"):
                    shutil.copy(pathlib.Path(self.made.name) / name, folder / name)
                yield words, folder

    def assert_refused(self, words, folder, kept, says, status=3):
        before = {name: (folder / name).read_bytes() for name in kept}
        names = sorted(os.listdir(folder))
        ended = run(words, folder)
        self.assertEqual(ended.returncode, status, ended)
        self.assertIn(says, ended.stderr)
        self.assertEqual(ended.stdout, "")
        for name in kept:
            self.assertEqual((folder / name).read_bytes(), before[name], name)
        self.assertEqual(sorted(os.listdir(folder)), names)

    def test_a_new_file_is_written_whole_and_nothing_else(self):
        for words, folder in self.each():
            before = set(os.listdir(folder))
            self.assertEqual(run([*words, "new.txt"], folder).returncode, 0)
            self.assertGreater((folder / "new.txt").stat().st_size, 0)
            self.assertEqual(set(os.listdir(folder)) - before, {"new.txt"})

    def test_books_are_never_written_over(self):
        for words, folder in self.each():
            os.link(folder / "demo.book", folder / "hard")
            os.symlink("demo.book", folder / "soft")
            (folder / "inner").mkdir()
            os.symlink(folder, folder / "inner" / "up")
            for name in ("demo.book", "./demo.book", "inner/../demo.book", "inner/up/demo.book", "hard", "soft",
                         "other.book", str(folder / "demo.book")):
                for force in ([], ["--force"]):
                    self.assert_refused([*words, name, *force], folder, ["demo.book", "other.book"], "book")

    def test_any_sqlite_file_counts_as_a_book(self):
        for words, folder in self.each():
            with sqlite3.connect(folder / "theirs.db") as theirs:
                theirs.execute("create table t (a)")
            theirs.close()
            self.assert_refused([*words, "theirs.db", "--force"], folder, ["theirs.db"], "SQLite")

    def test_files_that_belong_to_a_book_are_kept(self):
        for words, folder in self.each():
            for suffix in ("-wal", "-journal", "-shm"):
                self.assert_refused([*words, "other.book" + suffix, "--force"], folder, ["other.book"], "belongs to")

    def test_other_files_need_force(self):
        for words, folder in self.each():
            self.assert_refused([*words, "colony.json"], folder, ["colony.json"], "--force")
            self.assertEqual(run([*words, "colony.json", "--force"], folder).returncode, 0)
            self.assertNotIn(b"likelihet-colony", (folder / "colony.json").read_bytes())

    def test_symbolic_links_are_not_followed(self):
        for words, folder in self.each():
            os.symlink("colony.json", folder / "link")
            os.symlink("nowhere", folder / "loose")
            for force in ([], ["--force"]):
                self.assert_refused([*words, "link", *force], folder, ["colony.json"], "symbolic link")
                self.assert_refused([*words, "loose", *force], folder, [], "symbolic link")

    def test_folders_and_pipes_are_refused(self):
        for words, folder in self.each():
            (folder / "inner").mkdir()
            os.mkfifo(folder / "pipe")
            for name in ("inner", "inner/", ".", "pipe"):
                self.assert_refused([*words, name, "--force"], folder, [], "is not a file", 2)
            if "--html" in words:  # without a name --csv prints
                self.assert_refused([*words, ""], folder, [], "names no file", 2)

    def test_modes(self):
        for words, folder in self.each():
            old = os.umask(0o027)
            try:
                run([*words, "new.txt"], folder)
            finally:
                os.umask(old)
            self.assertEqual(stat.S_IMODE((folder / "new.txt").stat().st_mode), 0o640)
            (folder / "new.txt").chmod(0o604)
            self.assertEqual(run([*words, "new.txt", "--force"], folder).returncode, 0)
            self.assertEqual(stat.S_IMODE((folder / "new.txt").stat().st_mode), 0o604)

    def test_a_dash_is_standard_output_alone(self):
        for words, folder in self.each():
            run([*words, "new.txt"], folder)
            printed = subprocess.run([PROGRAM, *words, "-"], cwd=folder, capture_output=True, check=False)
            self.assertEqual(printed.returncode, 0)
            self.assertEqual(printed.stdout, (folder / "new.txt").read_bytes())
            self.assertFalse((folder / "-").exists())

    def test_a_full_disk_leaves_nothing(self):
        for words, folder in self.each():
            before = sorted(os.listdir(folder))
            ended = subprocess.run(["bash", "-c", "ulimit -f 0; trap '' XFSZ; exec \"$0\" \"$@\"", PROGRAM, *words,
                                    "new.txt"], cwd=folder, capture_output=True, text=True, check=False)
            self.assertNotEqual(ended.returncode, 0)
            self.assertEqual(sorted(set(os.listdir(folder)) - {"demo.book-wal", "demo.book-shm"}), before)


class Books(unittest.TestCase):
    def test_nothing_is_replaced_by_a_book(self):
        for (command, _), (before, after) in BOOKS.items():
            with self.subTest(command=command), tempfile.TemporaryDirectory() as scratch:
                folder = pathlib.Path(scratch)
                shutil.copy(FIXTURES / "model.json", folder / "model.json")
                run(["init", "demo.book", "--model", "model.json"], folder)
                os.symlink("nowhere", folder / "loose")
                (folder / "inner").mkdir()
                names = sorted(os.listdir(folder))
                for name in ("demo.book", "model.json", "loose", "inner"):
                    text = (folder / name).read_bytes() if (folder / name).is_file() else None
                    self.assertEqual(run([*before, name, *after], folder).returncode, 3)
                    if text is not None:
                        self.assertEqual((folder / name).read_bytes(), text)
                self.assertEqual(sorted(os.listdir(folder)), names)


class TwoOutputs(unittest.TestCase):
    def test_two_results_need_two_places(self):
        with tempfile.TemporaryDirectory() as scratch:
            folder = pathlib.Path(scratch)
            shutil.copy(FIXTURES / "model.json", folder / "model.json")
            run(["init", "demo.book", "--model", "model.json"], folder)
            audit = ["audit", "demo.book", "--resamples", "40"]
            for html, csv in (("-", "-"), ("one", "one"), ("one", "./one")):
                ended = run([*audit, "--html", html, "--csv", csv, "--force"], folder)
                self.assertEqual(ended.returncode, 2, ended)
                self.assertEqual(ended.stdout, "")
                self.assertFalse((folder / "one").exists())


if __name__ == "__main__":
    PROGRAM = os.path.abspath(sys.argv.pop())
    unittest.main()
