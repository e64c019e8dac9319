# Holds the published schema of the audit document against the samples and against broken ones.
import copy
import json
import pathlib
import sys
import unittest

from jsonschema import Draft202012Validator, FormatChecker

ROOT = pathlib.Path(sys.argv.pop(1) if len(sys.argv) > 1 else ".")
SAMPLES = sorted((ROOT / "tests" / "publishing").glob("audit_*.json"))


def load(path):
    return json.loads(path.read_text(encoding="utf-8"))


def errors(document):
    schema = load(ROOT / "models" / "schema" / "likelihet-audit.schema.json")
    return list(Draft202012Validator(schema, format_checker=FormatChecker(["date"]))
                .iter_errors(document))


class AuditSchema(unittest.TestCase):
    def test_samples_pass(self):
        self.assertGreaterEqual(len(SAMPLES), 4)
        for path in SAMPLES:
            with self.subTest(path.name):
                self.assertEqual([e.message for e in errors(load(path))], [])

    def test_named_fields_allow_no_others(self):
        def walk(node, where):
            if isinstance(node, dict):
                if isinstance(node.get("properties"), dict):
                    self.assertIs(node.get("additionalProperties"), False, where)
                for key, value in node.items():
                    walk(value, where + "/" + key)
            elif isinstance(node, list):
                for index, value in enumerate(node):
                    walk(value, where + "/" + str(index))

        walk(load(ROOT / "models" / "schema" / "likelihet-audit.schema.json"), "")

    def test_every_field_is_in_the_full_sample(self):
        """What no sample has, no test of the report has seen."""
        schema = load(ROOT / "models" / "schema" / "likelihet-audit.schema.json")
        text = "\n".join(path.read_text(encoding="utf-8") for path in SAMPLES)

        def walk(node):
            if isinstance(node, dict):
                for name in node.get("properties", {}):
                    self.assertIn(f'"{name}"', text)
                for value in node.get("enum", []):
                    if value not in ("relatives", "looks-random", "season", "context"):
                        self.assertIn(json.dumps(value), text)
                for value in node.values():
                    walk(value)
            elif isinstance(node, list):
                for value in node:
                    walk(value)

        walk(schema)

    def test_broken_documents_fail(self):
        full = load(ROOT / "tests" / "publishing" / "audit_full.json")

        def remove(*path):
            def change(document):
                for step in path[:-1]:
                    document = document[step]
                del document[path[-1]]
            return change

        def put(value, *path):
            def change(document):
                for step in path[:-1]:
                    document = document[step]
                document[path[-1]] = value
            return change

        for change in (remove("as_of"), remove("markers", 0, "why"), put(2, "version"),
                       put(1.5, "forecasts", 0, "probability"), put(2, "forecasts", 0, "outcome"),
                       put("guess", "forecasts", 0, "basis"), put([0.5], "scores", 0, "interval"),
                       put("sure", "markers", 0, "verdict"), put("2026-13-01", "as_of"),
                       put(-1, "listings", 0, "n"), put("", "agreement", 0, "marker"),
                       put("more", "flow", 0, "other"), put(["ana"], "agreement", 0, "scorers")):
            document = copy.deepcopy(full)
            change(document)
            self.assertTrue(errors(document))


if __name__ == "__main__":
    unittest.main()
