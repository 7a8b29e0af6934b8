"""json_schema.py - judges JSON by its schema, one request after the other: a line `SCHEMA BYTES` on standard input and so
many bytes of JSON are answered by the line `valid`, or by what is wrong. The schema says which draft it is written in; URIs
are held to the characters and the shape of RFC 3986."""
import json
import re
import sys

import jsonschema

REFERENCE = re.compile(r"([A-Za-z0-9._~:/?#\[\]@!$&'()*+,;=-]|%[0-9A-Fa-f]{2})*")
SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")

formats = jsonschema.FormatChecker(formats=())
validators = {}


@formats.checks("uri-reference")
def is_reference(text):
    return not isinstance(text, str) or REFERENCE.fullmatch(text) is not None


@formats.checks("uri")
def is_uri(text):
    return not isinstance(text, str) or (is_reference(text) and SCHEME.match(text) is not None)


def validator(path):
    if path not in validators:
        with open(path, encoding="utf-8") as file:
            schema = json.load(file)
        draft = jsonschema.validators.validator_for(schema)
        draft.check_schema(schema)
        validators[path] = draft(schema, format_checker=formats)
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
