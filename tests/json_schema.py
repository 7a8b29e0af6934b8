"""json_schema.py - judges JSON by its schema, one request after the other: a line `SCHEMA BYTES` on standard input and so
many bytes of JSON are answered by the line `valid`, or by what is wrong."""
import json
import sys

import jsonschema

validators = {}


def validator(path):
    if path not in validators:
        with open(path, encoding="utf-8") as file:
            schema = json.load(file)
        jsonschema.Draft202012Validator.check_schema(schema)
        validators[path] = jsonschema.Draft202012Validator(schema)
    return validators[path]


def judgement(path, data):
    try:
        error = jsonschema.exceptions.best_match(validator(path).iter_errors(json.loads(data)))
    except ValueError as unreadable:
        return f"no JSON: {unreadable}"
    return error.message.splitlines()[0] if error else "valid"


while request := sys.stdin.buffer.readline():
    schema_path, size = request.decode("utf-8").rsplit(" ", 1)
    print(judgement(schema_path, sys.stdin.buffer.read(int(size))), flush=True)
