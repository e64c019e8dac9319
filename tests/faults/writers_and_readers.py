#!/usr/bin/env python3
"""Four processes record in one book while four others read it.

Nothing may crash, every record is there once, every reader gets a whole answer, and what a recording
command told as moved is what `odds` says of the book just before and just after that record: the states
are made anew, each in a book of its own, from the order that the ledger tells.
"""
import argparse
import collections
import json
import os
import random
import shutil
import sqlite3
import subprocess
import sys
import threading

WRITERS = 4
READERS = 4
SAME = 1e-9  # of a chance; both sides print every digit


def arguments():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--likelihet", required=True)
    parser.add_argument("--models", required=True, help="the folder of the demo's documents")
    parser.add_argument("--scratch", required=True, help="a folder that is emptied")
    parser.add_argument("--recordings", type=int, default=96)
    parser.add_argument("--states", type=int, default=6, help="recordings whose states are made anew")
    parser.add_argument("--seed", type=int, default=1)
    return parser.parse_args()


class Trial:
    def __init__(self, asked):
        self.asked = asked
        self.book = os.path.join(asked.scratch, "shared.book")
        self.counts = collections.Counter()
        self.told = {}  # observation id -> its "likelihet-change" document
        self.wrong = []
        self.lock = threading.Lock()
        self.writing = True

    def likelihet(self, *words, book=None):
        return subprocess.run([self.asked.likelihet, *words], capture_output=True, text=True, cwd=self.asked.scratch)

    def blame(self, words, run):
        with self.lock:
            self.wrong.append(f"{' '.join(words)}: exit {run.returncode}: {run.stdout[-300:]}{run.stderr[-600:]}")

    def write(self, number):
        """One writer's share: results, scores and new animals, so that the colony grows under the others."""
        chance = random.Random(self.asked.seed * 1000 + number)
        for turn in range(self.asked.recordings // WRITERS):
            words = self.something_to_record(chance, number, turn)
            run = self.likelihet(*words)
            if run.returncode != 0:
                self.blame(words, run)
                continue
            told = json.loads(run.stdout)
            with self.lock:
                self.counts[words[0]] += 1
                if told.get("observation"):
                    if told["observation"] in self.told:
                        self.wrong.append(f"{told['observation']} was told twice")
                    self.told[told["observation"]] = told

    def something_to_record(self, chance, number, turn):
        if turn % 4 == 0:
            return ["add", "animal", self.book, f"N{number}-{turn}", "--clutch", "late", "--json"]
        animal = chance.choice(self.hatchlings)
        if turn % 4 == 1:
            return ["score", self.book, animal, "bar-break", "one-or-two", "--json"]
        report = chance.choice(["carrier", "non-carrier"])
        return ["result", self.book, animal, "fennglass-test", self.reports[report], "--json"]

    def read(self, number):
        chance = random.Random(self.asked.seed * 1000 + 500 + number)
        while self.writing:
            animal = chance.choice(self.hatchlings)
            words = chance.choice([
                ["odds", self.book, "--json"], ["why", self.book, animal, "--json"],
                ["listing", self.book, animal, "--format", "json"], ["history", self.book, animal, "--json"],
                ["claims", self.book, "--json"], ["check", self.book, "--json"]])
            run = self.likelihet(*words)
            # Records drawn at random may contradict themselves: that is an answer.
            if run.returncode not in (0, 4):
                self.blame(words, run)
            elif run.returncode == 0:
                json.loads(run.stdout)
            with self.lock:
                self.counts["read"] += 1

    def start(self):
        with open(os.path.join(self.asked.models, "model.json"), encoding="utf-8") as file:
            model = json.load(file)
        with open(os.path.join(self.asked.models, "colony.json"), encoding="utf-8") as file:
            colony = json.load(file)
        assay = next(one for one in model["assays"] if one["id"] == "fennglass-test")
        self.reports = {"carrier": assay["reports"][1], "non-carrier": assay["reports"][0]}
        # Untested hatchlings, so that no result contradicts another beyond what an assay's errors allow.
        tested = {one["animal"] for one in colony["observations"] if one["kind"] == "result"}
        self.hatchlings = [one["id"] for one in colony["animals"] if "clutch" in one and one["id"] not in tested]
        parents = colony["clutches"][-1]
        colony["clutches"].append({"id": "late", "dam": parents["dam"], "sires": parents["sires"]})
        start = os.path.join(self.asked.scratch, "start.json")
        with open(start, "w", encoding="utf-8") as file:
            json.dump(colony, file)
        for words in (["init", self.book, "--model", os.path.join(self.asked.models, "model.json")],
                      ["import", self.book, start]):
            run = self.likelihet(*words)
            assert run.returncode == 0, run.stderr
        self.at_first = len(colony["observations"])

    def at_once(self):
        writers = [threading.Thread(target=self.write, args=(n,)) for n in range(WRITERS)]
        readers = [threading.Thread(target=self.read, args=(n,)) for n in range(READERS)]
        for thread in writers + readers:
            thread.start()
        for thread in writers:
            thread.join()
        self.writing = False
        for thread in readers:
            thread.join()

    def every_record_once(self):
        kept = json.loads(self.likelihet("export", self.book).stdout)["observations"]
        ids = [one["id"] for one in kept]
        if len(ids) != len(set(ids)):
            self.wrong.append("an id stands twice")
        added = set(ids[self.at_first:])
        if added != set(self.told):
            self.wrong.append(f"told but not kept or kept but not told: {sorted(added ^ set(self.told))[:10]}")
        run = self.likelihet("check", self.book)
        if run.returncode != 0:
            self.blame(["check"], run)

    def state(self, whole, order, entries):
        """The het chances of a book that holds what the ledger names up to that entry."""
        known = {one for one, number in order.items() if number <= entries}
        document = dict(whole)
        for kind in ("animals", "clutches", "observations"):
            document[kind] = [one for one in whole[kind] if (kind, one["id"]) in known]
        book = os.path.join(self.asked.scratch, "then.book")
        if os.path.exists(book):
            os.remove(book)
        path = os.path.join(self.asked.scratch, "then.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(document, file)
        for words in (["init", book, "--model", os.path.join(self.asked.models, "model.json")],
                      ["import", book, path]):
            run = self.likelihet(*words)
            assert run.returncode == 0, run.stderr
        run = self.likelihet("odds", book, "--json")
        assert run.returncode == 0, run.stderr
        return {one["id"]: one["loci"] for one in json.loads(run.stdout)["animals"]}

    def figures_are_those_of_the_state(self):
        whole = json.loads(self.likelihet("export", self.book).stdout)
        base = sqlite3.connect(self.book)
        kinds = {"animal added": "animals", "clutch added": "clutches", "observation added": "observations"}
        order = {(kinds[what], one): number
                 for number, what, one in base.execute("SELECT number, what, id FROM ledger") if what in kinds}
        base.close()
        moved = sorted(one for one, told in self.told.items() if told.get("moved"))
        chosen = random.Random(self.asked.seed).sample(moved, min(self.asked.states, len(moved)))
        for one in chosen:
            entry = order[("observations", one)]
            before = self.state(whole, order, entry - 1)
            after = self.state(whole, order, entry)
            for move in self.told[one]["moved"]:
                for name, state in (("before", before), ("after", after)):
                    odds = state[move["animal"]][move["locus"]]["posterior"]
                    het = sum(chance for genotype, chance in odds.items()
                              if genotype.split("/").count(move["allele"]) == 1)
                    if abs(het - move[name]) > SAME:
                        self.wrong.append(f"{one} told {move[name]} {name} of {move['animal']}, odds say {het}")
        return len(chosen)


def main():
    asked = arguments()
    shutil.rmtree(asked.scratch, ignore_errors=True)
    os.makedirs(asked.scratch)
    if os.environ.get("LIKELIHET_LONG"):
        asked.recordings, asked.states = 1000, 60
    trial = Trial(asked)
    trial.start()
    trial.at_once()
    trial.every_record_once()
    states = trial.figures_are_those_of_the_state()
    print(f"{len(trial.told)} observations and {trial.counts['add']} animals recorded by {WRITERS} writers beside "
          f"{trial.counts['read']} answers to {READERS} readers; {states} figures made anew; {len(trial.wrong)} wrong")
    for line in trial.wrong[:20]:
        print(line)
    return 1 if trial.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
