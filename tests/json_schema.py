"""json_schema.py SCHEMA - is the JSON on standard input valid by this schema? Leaves with 0 for yes, 1 for no."""
import json
import sys

import jsonschema

with open(sys.argv[1], encoding="utf-8") as file:
    schema = json.load(file)
jsonschema.Draft202012Validator.check_schema(schema)
try:
    jsonschema.validate(json.load(sys.stdin), schema, jsonschema.Draft202012Validator)
except (json.JSONDecodeError, jsonschema.ValidationError) as error:
    print(str(error).splitlines()[0])
    sys.exit(1)
