# Checks the printed JSON Schema, and the sheets of the samples against it, as an editor would.
#
# usage: schema_check.py --samples DIR BINARY
# in:    what `BINARY schema` prints, every findings.yaml and workshop.yaml below the samples
# exit:  0 the schema is sound, takes every sample and refuses a misspelt field, 1 otherwise
import argparse
import json
import pathlib
import re
import subprocess
import sys

import jsonschema
import yaml

from tally import Tally


class Yaml12(yaml.SafeLoader):
    """Reads scalars by YAML 1.2's core schema: `on` and dates are text."""


Yaml12.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers
            if tag.rpartition(":")[2] in ("null", "int", "float")]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
Yaml12.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("^(true|false)$"), ["t", "f"])


def problems_of(validator, sheet):
    return [f"{'.'.join(map(str, error.absolute_path)) or 'the sheet'}: {error.message[:200]}"
            for error in validator.iter_errors(sheet)]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--samples", type=pathlib.Path, required=True)
    parser.add_argument("binary", type=pathlib.Path)
    args = parser.parse_args()
    tally = Tally()

    printed = subprocess.run([args.binary, "schema", "findings"], capture_output=True, text=True,
                             stdin=subprocess.DEVNULL)
    try:
        schema = json.loads(printed.stdout)
        kind = jsonschema.validators.validator_for(schema)
        kind.check_schema(schema)
    except (json.JSONDecodeError, jsonschema.SchemaError) as cause:
        tally.record("schema", "`schema findings`", [f"{str(cause)[:300]} {printed.stderr}"],
                     "`schema` must print one sound JSON Schema for the findings sheet")
        return tally.close("JSON Schema")
    tally.record("schema", "`schema findings`", [])

    profile = subprocess.run([args.binary, "schema", "workshop"], capture_output=True, text=True,
                             stdin=subprocess.DEVNULL)
    for path in sorted(args.samples.rglob("workshop.yaml")):
        sheet = yaml.load(path.read_text(encoding="utf-8"), Loader=Yaml12)
        tally.record("schema", path, problems_of(kind(json.loads(profile.stdout)), sheet),
                     "the schema and the reader disagree on this profile")
    prices = subprocess.run([args.binary, "schema", "parts"], capture_output=True, text=True,
                            stdin=subprocess.DEVNULL)
    for path in sorted(args.samples.rglob("parts.yaml")):
        sheet = yaml.load(path.read_text(encoding="utf-8"), Loader=Yaml12)
        tally.record("schema", path, problems_of(kind(json.loads(prices.stdout)), sheet),
                     "the schema and the reader disagree on this price list")
    validator = kind(schema)
    paths = sorted(args.samples.rglob("findings.yaml"))
    for path in paths:
        sheet = yaml.load(path.read_text(encoding="utf-8"), Loader=Yaml12)
        tally.record("schema", path, problems_of(validator, sheet),
                     "the schema and the reader disagree on this sheet")
        misspelt = sheet | {"jobb": "X"}
        tally.record("schema", f"{path} with a misspelt field",
                     [] if problems_of(validator, misspelt) else ["taken as good"],
                     "set `additionalProperties` to false in the schema")
    check_output(args, kind, tally)
    return tally.close("JSON Schema")


def check_output(args, kind, tally):
    """What `--format json` prints, against the schema that the program prints of it."""
    def printed(*words):
        run = subprocess.run([args.binary, *words], capture_output=True, text=True,
                             stdin=subprocess.DEVNULL)
        return json.loads(run.stdout)

    schema = printed("schema", "output")
    kind.check_schema(schema)
    validator = kind(schema)
    for words in (["check", args.samples], ["check", "no-such-folder"], ["chekc"]):
        answer = printed(*words, "--format", "json")
        tally.record("schema", f"output of `{words[0]} {words[-1]}`",
                     problems_of(validator, answer), "`schema output` does not say what is printed")
    wrong = answer | {"exit-code": 7}
    tally.record("schema", "output with an exit code that there is not",
                 [] if problems_of(validator, wrong) else ["taken as good"],
                 "name the exit codes in the schema")


if __name__ == "__main__":
    sys.exit(main())
