"""Holds a JSON document against a JSON Schema (draft 2020-12): schema_check.py SCHEMA DOCUMENT

The document must be valid.  Then it is spoilt, one value after the other, and the schema must refuse each of those: a schema
that lets anything pass would say nothing of the output.
"""
import copy
import json
import pathlib
import sys

from jsonschema import Draft202012Validator, RefResolver

MOST_SPOILT = 40  # a document has thousands of values alike; these are spread over the first of them
MOST_ALIKE = 2


def places(value, path=()):
    """The path of every value below the top."""
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in items:
        yield path + (key,)
        yield from places(inner, path + (key,))


def spoilt(document, path):
    """Copies of the document that are wrong at one place: another type, a missing member, a member too many."""
    wrong = copy.deepcopy(document)
    parent = wrong
    for key in path[:-1]:
        parent = parent[key]
    parent[path[-1]] = {"no such member": {}}
    yield "%s is of another type" % (path,), wrong
    if isinstance(parent, dict):
        more = copy.deepcopy(document)
        parent = more
        for key in path[:-1]:
            parent = parent[key]
        parent["no such member"] = {}  # nowhere does a map hold objects
        yield "a member beside %s" % (path,), more


def main(schema_path, document_path):
    with open(schema_path, encoding="utf-8") as file:
        schema = json.load(file)
    with open(document_path, encoding="utf-8") as file:
        document = json.load(file)
    Draft202012Validator.check_schema(schema)
    # A schema may refer to what another file beside it defines.
    resolver = RefResolver(pathlib.Path(schema_path).resolve().as_uri(), schema)
    validator = Draft202012Validator(schema, resolver=resolver)
    errors = sorted(validator.iter_errors(document), key=lambda error: list(map(str, error.absolute_path)))
    for error in errors[:5]:
        print("%s: %s: %s" % (schema_path, "/".join(map(str, error.absolute_path)), error.message[:300]))
    if errors:
        return 1
    for name in document:
        without = {key: value for key, value in document.items() if key != name}
        if validator.is_valid(without):
            print("%s: does not ask for %s" % (schema_path, name))
            return 1
    document = {key: value[:MOST_ALIKE] if isinstance(value, list) else value for key, value in document.items()}
    every = list(places(document))
    step = max(1, len(every) // MOST_SPOILT)
    for path in every[::step]:
        for what, wrong in spoilt(document, path):
            if validator.is_valid(wrong):
                print("%s: would let pass: %s" % (schema_path, what))
                return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
