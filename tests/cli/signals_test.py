#!/usr/bin/env python3
"""Signals end every command with 128 + their number and leave nothing; learn outlasts a lock."""
import os
import pathlib
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
import unittest

PROJECT = pathlib.Path(__file__).resolve().parent.parent.parent
DEMO = PROJECT / "models" / "demo"
FIXTURES = PROJECT / "tests" / "console" / "fixtures"
PROGRAM = ""
# What SQLite may leave beside a book whose reader was ended; the next one takes it away.
OF_SQLITE = {"demo.book-wal", "demo.book-shm"}

# Commands that go on for long, or wait for input.
LONG = [
    ["import", "demo.book", "-"],
    ["init", "new.book", "--model", "-"],
    ["learn", "demo.book", "--most", "100000000", "--chains", "64"],
    ["audit", "demo.book", "--resamples", "100000", "--html", "page.html", "--csv", "table.csv"],
    ["odds", "demo.book", "--draws", "1000000"],
    ["next-test", "demo.book"],
    ["listing", "demo.book", "25-C8-07"],
]


def made_book(folder, source):
    for words in (["init", "demo.book", "--model", source / "model.json"],
                  ["import", "demo.book", source / "colony.json"]):
        subprocess.run([PROGRAM, *words], cwd=folder, check=True, capture_output=True)


class Signals(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.made = tempfile.TemporaryDirectory()
        made_book(cls.made.name, DEMO)

    @classmethod
    def tearDownClass(cls):
        cls.made.cleanup()

    def end(self, words, sent, after):
        """The status a command ended with, and what it left."""
        with tempfile.TemporaryDirectory() as scratch:
            folder = pathlib.Path(scratch)
            shutil.copy(pathlib.Path(self.made.name) / "demo.book", folder / "demo.book")
            with subprocess.Popen([PROGRAM, *words], cwd=folder, stdin=subprocess.PIPE, stdout=subprocess.DEVNULL,
                                  stderr=subprocess.DEVNULL) as running:
                time.sleep(after)
                running.send_signal(sent)
                status = running.wait(60)
                running.stdin.close()
            left = set(os.listdir(folder)) - {"demo.book"}
            checked = subprocess.run([PROGRAM, "check", "demo.book"], cwd=folder, capture_output=True, check=False)
            self.assertEqual(checked.returncode, 0, checked)
            if sent and status == -sent:  # it came before the program's first line: a shell calls that 128 + n
                self.assertEqual(left, set())
                status = 128 + sent
            return status, left

    def test_a_signal_ends_every_long_command(self):
        for words in LONG:
            for sent, status in ((signal.SIGINT, 130), (signal.SIGTERM, 143), (signal.SIGHUP, 129)):
                with self.subTest(words=words, sent=sent):
                    ended, left = self.end(words, sent, 0.3)
                    if words[0] in ("next-test", "listing") and ended == 0:
                        continue  # done before
                    self.assertEqual(ended, status)
                    self.assertLessEqual(left, OF_SQLITE)

    def test_a_file_half_written_is_removed(self):
        dice = random.Random(7)
        words = ["sheet", "demo.book", "25-C8-07", "--html", "page.html"]
        start = time.monotonic()
        self.end(words, 0, 0)  # signal 0 does nothing: how long it takes
        whole = time.monotonic() - start
        for _ in range(40):
            ended, left = self.end(words, signal.SIGINT, dice.uniform(0.01, 1) * whole)
            self.assertIn(ended, (0, 130))
            self.assertLessEqual(left, OF_SQLITE | {"page.html"})


class Locks(unittest.TestCase):
    def learn_while_locked(self, seconds, sent=None):
        with tempfile.TemporaryDirectory() as scratch:
            made_book(scratch, FIXTURES)
            book = os.path.join(scratch, "demo.book")
            holder = sqlite3.connect(book, isolation_level=None, check_same_thread=False)
            holder.execute("begin immediate")
            release = threading.Timer(seconds, lambda: holder.execute("rollback"))
            release.start()
            with subprocess.Popen([PROGRAM, "learn", "demo.book"], cwd=scratch, stdout=subprocess.PIPE,
                                  stderr=subprocess.PIPE, text=True) as running:
                if sent:
                    time.sleep(seconds - 2)
                    running.send_signal(sent)
                _, said = running.communicate(timeout=60)
            release.join()
            kept = holder.execute("select count(*) from learned").fetchone()[0]
            holder.close()
            return running.returncode, said, kept

    def test_learn_waits_for_a_locked_book(self):
        status, said, kept = self.learn_while_locked(9)
        self.assertEqual((status, kept), (0, 1), said)
        self.assertIn("waiting for the book", said)

    def test_learn_can_be_interrupted_while_it_waits(self):
        status, said, kept = self.learn_while_locked(12, signal.SIGINT)
        self.assertEqual((status, kept), (130, 0), said)
        self.assertIn("interrupted", said)


if __name__ == "__main__":
    PROGRAM = os.path.abspath(sys.argv.pop())
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        signal.signal(number, signal.SIG_DFL)
    unittest.main()
