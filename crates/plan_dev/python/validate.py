"""Checks JSON files against a JSON Schema with the `jsonschema` package, which nobody here wrote.

usage: validate.py SCHEMA accepts|refuses FILE...

Prints one line for every file that does not do what is expected, and then exits with 1.
"""

import json
import sys

from jsonschema.exceptions import SchemaError, best_match
from jsonschema.validators import validator_for


def read(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file)


def validator(schema):
    kind = validator_for(schema)
    kind.check_schema(schema)
    return kind(schema)


def complaint(checker, expected, path):
    """What is wrong with the file at `path`, or None."""
    try:
        document = read(path)
    except (OSError, ValueError) as error:
        return f"cannot be read as JSON: {error}"
    fault = best_match(checker.iter_errors(document))
    if expected == "accepts" and fault is not None:
        return f"refused at {fault.json_path}: {fault.message}"
    if expected == "refuses" and fault is None:
        return "accepted, but it should be refused"
    return None


def main(arguments):
    if len(arguments) < 2 or arguments[1] not in ("accepts", "refuses"):
        print(__doc__, file=sys.stderr)
        return 2
    schema_path, expected, *paths = arguments
    try:
        checker = validator(read(schema_path))
    except (OSError, ValueError, SchemaError) as error:
        print(f"{schema_path}: not a JSON Schema: {error}")
        return 1
    complaints = [(path, complaint(checker, expected, path)) for path in paths]
    for path, text in complaints:
        if text is not None:
            print(f"{path}: {text}")
    return int(any(text is not None for _, text in complaints))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
