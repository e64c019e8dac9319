#!/usr/bin/env python3
"""The transcript runner tells what matches from what does not."""
import unittest

import run_transcript


class Reading(unittest.TestCase):
    def test_a_command_has_the_lines_up_to_the_next(self):
        steps = run_transcript.read_steps("# note\n$ one \\\n  more\nout\n\n$ two\nexit 3\n")
        self.assertEqual([s.command for s in steps], ["one \\\n  more", "two"])
        self.assertEqual([s.wants() for s in steps], [["out"], ["exit 3"]])

    def test_of_a_document_only_blocks_that_run_something(self):
        text = "$ likelihet no\n```json\n{}\n```\n```console\n$ likelihet odds\nx\n```\n"
        steps = run_transcript.read_document(text)
        self.assertEqual([(s.line, s.command, s.wants()) for s in steps],
                         [(6, "likelihet odds", ["x"])])


class Matching(unittest.TestCase):
    def test_lines_are_compared_whole(self):
        self.assertTrue(run_transcript.matches(["a", "b"], ["a", "b"]))
        self.assertFalse(run_transcript.matches(["a"], ["a", "b"]))
        self.assertFalse(run_transcript.matches(["a", "b"], ["a"]))
        self.assertFalse(run_transcript.matches(["a.c"], ["abc"]))

    def test_dots_stand_for_lines_and_brackets_for_text(self):
        self.assertTrue(run_transcript.matches(["a", "...", "z"], ["a", "b", "c", "z"]))
        self.assertTrue(run_transcript.matches(["..."], []))
        self.assertFalse(run_transcript.matches(["...", "z"], ["a"]))
        self.assertTrue(run_transcript.matches(["is [..] long"], ["is 3 mm long"]))
        self.assertFalse(run_transcript.matches(["is [..] long"], ["is 3 mm wide"]))


if __name__ == "__main__":
    unittest.main()
