# Says of each job file named what an independent validator, python3-jsonschema,
# finds wrong with it by the schema on standard input. One JSON object a line:
# the file, whether PyYAML could read it, and what is wrong as each of two readers
# of YAML sees it, one that takes every scalar for text and one that tells
# numbers and truth values as YAML 1.2 does.
import json
import re
import sys

import jsonschema
import yaml


class Core(yaml.BaseLoader):
    """The core schema of YAML 1.2."""


for tag, pattern, first in [
    ("tag:yaml.org,2002:null", r"^(~|null|Null|NULL|)$", ["~", "n", "N", ""]),
    ("tag:yaml.org,2002:bool", r"^(true|True|TRUE|false|False|FALSE)$", list("tTfF")),
    ("tag:yaml.org,2002:int", r"^[-+]?[0-9]+$", list("-+0123456789")),
    ("tag:yaml.org,2002:float", r"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$", list("-+.0123456789")),
]:
    Core.add_implicit_resolver(tag, re.compile(pattern), first)
Core.add_constructor("tag:yaml.org,2002:null", lambda loader, node: None)
Core.add_constructor("tag:yaml.org,2002:bool", lambda loader, node: node.value.lower() == "true")
Core.add_constructor("tag:yaml.org,2002:int", lambda loader, node: int(node.value))
Core.add_constructor("tag:yaml.org,2002:float", lambda loader, node: float(node.value))


class Texts(yaml.BaseLoader):
    """Every scalar is text; only what is not there at all is nothing."""


Texts.add_implicit_resolver("tag:yaml.org,2002:null", re.compile(r"^$"), [""])
Texts.add_constructor("tag:yaml.org,2002:null", lambda loader, node: None)


def named(node):
    """Keys are texts to a validator, whatever they look like."""
    if isinstance(node, dict):
        return {str(key): named(value) for key, value in node.items()}
    if isinstance(node, list):
        return [named(item) for item in node]
    return node


schema = json.load(sys.stdin)
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)
for name in sys.argv[1:]:
    result = {"file": name, "read": True, "wrong": []}
    for loader in Texts, Core:
        try:
            with open(name, "rb") as file:
                document = named(yaml.load(file, loader))
        except (yaml.YAMLError, UnicodeDecodeError, ValueError, TypeError) as error:
            result["read"] = False
            result["wrong"].append([str(error)])
            continue
        errors = sorted(validator.iter_errors(document), key=lambda error: list(map(str, error.absolute_path)))
        result["wrong"].append(["/".join(map(str, e.absolute_path)) + ": " + e.message[:200] for e in errors])
    print(json.dumps(result))
