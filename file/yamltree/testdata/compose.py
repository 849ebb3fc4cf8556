# Writes documents in many styles of YAML and says what an independent reader,
# PyYAML, finds in each: one JSON array [text, tree] a line. A tree is
# ["s", text, line, column], ["e"] for nothing, ["l", item ...] or
# ["m", key, value ...]. The seed and the number of documents are arguments.
import json
import random
import sys

import yaml

WORDS = """bore|1:20|NO|~|null|2 9/64 in|2-9/64"|6"|it's|a: b|x # y|# c|- z|[q]|{w}|&a|*b|!t|%d|@e|`f`|1e-5 in|0x1F|
+1|.5||trail |multi
line|para

end
|é ⌀|a,b|a:b|:x|x:|?|-|---|...|>|true|2*step|(a-b)/2|<<|=|back\\slash|'q'|"d"|don't: worry|a]b|}x|1.5..2.5 mm""".split("|")
KEYS = ["kind", "set-aside", "a b", "x1", "1:20", "it's", "é", "no:pe", "'q", "k#y", "2"]


def value(depth):
    chance = random.random()
    if depth > 4 or chance < 0.5:
        return random.choice(WORDS)
    if chance < 0.75:
        return [value(depth + 1) for _ in range(random.randint(1, 4))]
    return mapping(depth + 1)


def mapping(depth):
    return {random.choice(KEYS): value(depth) for _ in range(random.randint(1, 4))}


def tree(node):
    if isinstance(node, yaml.ScalarNode):
        if node.value == "" and node.style is None:
            return ["e"]
        return ["s", node.value, node.start_mark.line + 1, node.start_mark.column + 1]
    if isinstance(node, yaml.SequenceNode):
        return ["l"] + [tree(item) for item in node.value]
    return ["m"] + [tree(part) for pair in node.value for part in pair]


random.seed(int(sys.argv[1]))
for _ in range(int(sys.argv[2])):
    text = yaml.dump(
        mapping(0),
        Dumper=yaml.SafeDumper,
        default_flow_style=random.choice([True, False, None]),
        default_style=random.choice([None, None, None, '"', "'", "|"]),
        width=random.choice([30, 80]) if random.random() < 0.5 else 1000,
        indent=random.choice([2, 4]),
        allow_unicode=random.random() < 0.5,
        sort_keys=False,
    )
    print(json.dumps([text, tree(yaml.compose(text, Loader=yaml.BaseLoader))]))
