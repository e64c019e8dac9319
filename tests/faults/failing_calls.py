#!/usr/bin/env python3
"""Fails, or is killed at, each call to the operating system that a command makes on its book.

Whatever fails: the program ends by itself with a message, the book is sound, and a record is in it exactly
where the program said so. A disk that could not be read for a moment is not told as a damaged book.
"""
import argparse
import collections
import json
import os
import random
import shutil
import subprocess
import sys

EIO, ENOSPC = 5, 28
CALLS = {"pread": (EIO,), "pwrite": (EIO, ENOSPC), "fdatasync": (EIO,), "fsync": (EIO,),
         "ftruncate": (EIO,), "unlink": (EIO,), "write": (EIO, ENOSPC)}
KILL = 0


def arguments():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--likelihet", required=True)
    parser.add_argument("--shim", required=True, help="the library that makes calls fail")
    parser.add_argument("--models", required=True, help="the folder of the demo's documents")
    parser.add_argument("--scratch", required=True, help="a folder that is emptied")
    parser.add_argument("--most", type=int, default=4, help="places a call is failed at; 0: all")
    parser.add_argument("--seed", type=int, default=1)
    return parser.parse_args()


class Trial:
    def __init__(self, asked):
        self.asked = asked
        self.counts = collections.Counter()
        self.wrong = []
        self.first = os.path.join(asked.scratch, "first.book")
        self.book = os.path.join(asked.scratch, "now.book")

    def likelihet(self, words, fail=None, at=0, error=0):
        environment = dict(os.environ)
        if fail:
            environment.update(LD_PRELOAD=self.asked.shim, LIKELIHET_FAIL=fail, LIKELIHET_FAIL_AT=str(at),
                               LIKELIHET_FAIL_WITH=str(error))
        return subprocess.run([self.asked.likelihet, *words], capture_output=True, text=True, env=environment,
                              cwd=self.asked.scratch, timeout=300)

    def afresh(self):
        for name in ("now.book", "now.book-wal", "now.book-shm", "now.book-journal"):
            path = os.path.join(self.asked.scratch, name)
            if os.path.exists(path):
                os.remove(path)
        shutil.copy(self.first, self.book)

    def observations(self):
        run = self.likelihet(["export", self.book])
        return len(json.loads(run.stdout)["observations"]) if run.returncode == 0 else None

    def failed_once(self, words, records, fail, at, error):
        """Runs a command with one call failing; whether there was such a call."""
        self.afresh()
        run = self.likelihet(words, fail, at, error)
        what = f"{words[0]}, {fail} {at} with {error}"
        self.counts["killed" if error == KILL else "failed"] += 1
        if error != KILL and (run.returncode < 0 or run.returncode > 5):
            self.wrong.append(f"{what}: ended with {run.returncode}")
        said = " ".join(run.stderr.split())  # lines are broken where the folder's name ends
        if "damaged" in said or ("SQLite finds" in said and "could not be read" not in said):
            self.wrong.append(f"{what}: the book is blamed: {run.stderr[:300]}")
        sound = self.likelihet(["check", self.book])
        if sound.returncode != 0:
            self.wrong.append(f"{what}: left {sound.stderr[:300]}")
        if error != KILL:
            told = run.returncode == 0 or "recorded and stays" in run.stderr
            there = self.observations() == self.kept + records
            if there != (told and records > 0) and records > 0:
                self.wrong.append(f"{what}: {'there' if there else 'not there'}, but told {run.returncode}: "
                                  f"{run.stdout[:100]}{run.stderr[:300]}")

    def calls_made(self, words, fail):
        """How often a command makes this call: the first place at which no failure is felt."""
        least, most = 0, 1
        while self.would_kill(words, fail, most) and most < 1 << 16:
            least, most = most, most * 2
        while most - least > 1:
            middle = (least + most) // 2
            if self.would_kill(words, fail, middle):
                least = middle
            else:
                most = middle
        return least

    def would_kill(self, words, fail, at):
        self.afresh()
        return self.likelihet(words, fail, at, KILL).returncode == -9

    def run(self):
        for words in (["init", self.first, "--model", os.path.join(self.asked.models, "model.json")],
                      ["import", self.first, os.path.join(self.asked.models, "colony.json")]):
            run = self.likelihet(words)
            assert run.returncode == 0, run.stderr
        self.afresh()
        self.kept = self.observations()
        animal = next(one["id"] for one in json.loads(self.likelihet(["export", self.book]).stdout)["animals"]
                      if "clutch" in one)
        commands = [(["check", self.book], 0), (["odds", self.book, "--json"], 0),
                    (["score", self.book, animal, "bar-break", "unbroken"], 1),
                    (["result", self.book, animal, "fennglass-test", "0 copies", "--json"], 1),
                    (["publish", self.book, animal], 0)]
        chance = random.Random(self.asked.seed)
        for words, records in commands:
            for call, errors in CALLS.items():
                made = self.calls_made(words, call)
                places = list(range(1, made + 1))
                if self.asked.most and made > self.asked.most:
                    places = sorted(chance.sample(places, self.asked.most))
                for at in places:
                    for error in (*errors, KILL):
                        self.failed_once(words, records, call, at, error)


def main():
    asked = arguments()
    shutil.rmtree(asked.scratch, ignore_errors=True)
    os.makedirs(asked.scratch)
    if os.environ.get("LIKELIHET_LONG"):
        asked.most = 40
    trial = Trial(asked)
    trial.run()
    print(f"{trial.counts['failed']} calls failed, {trial.counts['killed']} kills, {len(trial.wrong)} wrong")
    for line in trial.wrong[:20]:
        print(line)
    return 1 if trial.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
