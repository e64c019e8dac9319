# Holds the published JSON Schemas against sound documents and against every broken one.
import copy
import json
import pathlib
import sys
import unittest

from jsonschema import Draft202012Validator, FormatChecker

ROOT = pathlib.Path(sys.argv.pop(1) if len(sys.argv) > 1 else ".")
CASES = ROOT / "tests" / "documents" / "cases"


def document(name):
    return json.loads((CASES / (name + ".json")).read_text(encoding="utf-8"))


def schema(name):
    path = ROOT / "models" / "schema" / ("likelihet-" + name + ".schema.json")
    return json.loads(path.read_text(encoding="utf-8"))


def validator(name):
    return Draft202012Validator(schema(name), format_checker=FormatChecker(["date"]))


def tokens(pointer):
    """RFC 6901 section 4: ~1 before ~0."""
    return [t.replace("~1", "/").replace("~0", "~") for t in pointer.split("/")[1:]]


def changed(value, change):
    """The three operations of RFC 6902 that the cases use."""
    value = copy.deepcopy(value)
    for step in change:
        path = tokens(step["path"])
        if not path:
            value = step["value"]
            continue
        holder = value
        for token in path[:-1]:
            holder = holder[int(token) if isinstance(holder, list) else token]
        last = int(path[-1]) if isinstance(holder, list) else path[-1]
        if step["op"] == "remove":
            del holder[last]
        elif step["op"] in ("add", "replace"):
            holder[last] = step["value"]
        else:
            raise ValueError(step["op"])
    return value


class Schemas(unittest.TestCase):
    def test_every_schema_is_one(self):
        paths = sorted((ROOT / "models" / "schema").glob("*.schema.json"))
        self.assertGreaterEqual(len(paths), 3)
        ids = set()
        for path in paths:
            with self.subTest(path.name):
                loaded = json.loads(path.read_text(encoding="utf-8"))
                Draft202012Validator.check_schema(loaded)
                self.assertEqual(loaded["$schema"], "https://json-schema.org/draft/2020-12/schema")
                self.assertTrue(loaded["$id"].startswith("urn:likelihet:schema:"))
                self.assertNotIn(loaded["$id"], ids)
                ids.add(loaded["$id"])

    def test_objects_with_named_fields_allow_no_others(self):
        def walk(node, where):
            if isinstance(node, dict):
                if isinstance(node.get("properties"), dict):
                    self.assertIs(node.get("additionalProperties"), False, where)
                for key, value in node.items():
                    walk(value, where + "/" + key)
            elif isinstance(node, list):
                for index, value in enumerate(node):
                    walk(value, where + "/" + str(index))

        for name in ("model", "colony", "policy", "odds"):
            walk(schema(name), name)

    def test_sound_documents_pass(self):
        for name in ("model", "colony", "policy", "odds"):
            with self.subTest(name):
                self.assertEqual(
                    [e.message for e in validator(name).iter_errors(document(name))], [])

    def test_short_documents_pass(self):
        model = {"format": "likelihet-model", "version": 1, "loci": []}
        colony = {"format": "likelihet-colony", "version": 1}
        self.assertTrue(validator("model").is_valid(model))
        self.assertTrue(validator("colony").is_valid(colony))

    def test_what_the_reader_refuses_the_schema_refuses(self):
        cases = document("broken_documents")
        self.assertGreaterEqual(len(cases), 80)
        for case in cases:
            with self.subTest(case["name"]):
                name = case["document"]
                broken = changed(document(name), case["change"])
                self.assertFalse(validator(name).is_valid(broken))

    def test_broken_odds_fail(self):
        changes = [
            [{"op": "remove", "path": "/as_of"}],
            [{"op": "replace", "path": "/tables", "value": "guesses"}],
            [{"op": "replace", "path": "/animals/0/loci/tarnbrook/posterior/+~1e", "value": 1.5}],
            [{"op": "replace", "path": "/animals/0/loci/tarnbrook/het/e/interval", "value": [0.5]}],
            [{"op": "remove", "path": "/animals/0/loci/tarnbrook/scored"}],
            [{"op": "add", "path": "/surprises/0/reason", "value": ""}],
        ]
        for change in changes:
            with self.subTest(change[0]["path"]):
                self.assertFalse(validator("odds").is_valid(changed(document("odds"), change)))


if __name__ == "__main__":
    unittest.main()
