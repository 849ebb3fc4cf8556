"""Reads a DXF file with ezdxf, audits it, and prints what is in it as JSON."""
import json
import sys

import ezdxf
from ezdxf import recover
from ezdxf.lldxf.encoding import decode_dxf_unicode

_, auditor = recover.readfile(sys.argv[1])
doc = ezdxf.readfile(sys.argv[1])
faults = [str(fault.message) for audit in (auditor, doc.audit()) for fault in [*audit.errors, *audit.fixes]]
found = {
    "faults": faults, "version": doc.dxfversion,
    "units": doc.header["$INSUNITS"], "metric": doc.header["$MEASUREMENT"],
    "lines": [], "arcs": [], "areas": 0, "texts": [], "dimensions": [],
    "layers": {layer.dxf.name: [layer.dxf.linetype, layer.dxf.lineweight] for layer in doc.layers},
    "patterns": {kind.dxf.name: [t.value for t in kind.pattern_tags.tags if t.code == 49] for kind in doc.linetypes},
}


def xy(point):
    return [point.x, point.y]


def take(entities):
    for e in entities:
        kind = e.dxftype()
        if kind == "LINE":
            found["lines"].append(xy(e.dxf.start) + xy(e.dxf.end))
        elif kind == "CIRCLE":
            found["arcs"].append(xy(e.dxf.center) + [e.dxf.radius, 0, 360])
        elif kind == "ARC":
            found["arcs"].append(xy(e.dxf.center) + [e.dxf.radius, e.dxf.start_angle, e.dxf.end_angle])
        elif kind in ("SOLID", "HATCH"):
            found["areas"] += 1
        elif kind == "TEXT":
            at = e.dxf.align_point if e.dxf.halign else e.dxf.insert
            found["texts"].append({"words": decode_dxf_unicode(e.dxf.text), "height": e.dxf.height, "at": xy(at)})
        elif kind == "DIMENSION":
            found["dimensions"].append({
                "kind": e.dimtype, "words": decode_dxf_unicode(e.dxf.text),
                "measures": e.get_measurement(), "stated": e.dxf.actual_measurement,
            })
            take(doc.blocks.get(e.dxf.geometry))
        else:
            raise SystemExit("unexpected " + kind)


take(doc.modelspace())
print(json.dumps(found))
