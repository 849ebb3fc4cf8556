"""Surveys of upkeep, worked out again by scipy.

It shares nothing with the program it checks: it reads the job file itself, writes
each survey as residuals of its own unknowns, lets scipy find them with differences
for derivatives, and takes covariances from J'J. What is derived from the unknowns has
its uncertainty by central differences. It prints, for each survey id, the findings as
[value, u] in mm and radians.
"""

import json
import math
import re
import sys

import numpy as np
import yaml
from scipy.optimize import least_squares

INCH = 25.4
MPE = {"micrometer": 0.005, "dial": 0.015}


def mm(text):
    text = str(text)
    match = re.fullmatch(r"\s*(-?[0-9.e-]+)\s*(mm|in|tpi|deg)?\s*", text)
    value, name = float(match[1]), match[2]
    return {"in": value * INCH, "tpi": INCH / value if value else 0, "deg": math.radians(value)}.get(name, value)


def listed(value):
    return [mm(v) for v in value] if isinstance(value, list) else [mm(value)]


class Survey:
    """Unknowns by name, and observations (function of the unknowns, value, sigma)."""

    def __init__(self, kit):
        self.kit, self.names, self.start, self.observed = kit, {}, [], []

    def unknown(self, name, start=0.0):
        if name not in self.names:
            self.names[name] = len(self.start)
            self.start.append(start)
        return name

    def known(self, name, value, sigma):
        self.unknown(name, value)
        self.observed.append((lambda x, n=name: x[n], value, sigma))

    def read(self, tool, values, model, apart=0.0):
        t = self.kit[tool]
        resolution = mm(t.get("resolution", 0))
        mpe = mm(t["mpe"]) if "mpe" in t else MPE.get(t["kind"], math.nan)
        zero = mm(t["zero"]) if "zero" in t else mpe / math.sqrt(6)
        repeat = mm(t["repeat"]) if "repeat" in t else mpe / math.sqrt(6)
        shift = "zero of " + tool
        if shift not in self.names and zero > 0:
            self.known(shift, 0.0, zero)
        place = None
        if apart:
            place = "place %d" % len(self.names)
            self.known(place, 0.0, apart)

        def shows(x):
            return model(x) + (x[shift] if zero > 0 else 0) + (x[place] if place else 0)

        if repeat < resolution / 3 and max(values) - min(values) <= resolution * (1 + 1e-9):
            sigma = math.sqrt(repeat**2 / len(values) + resolution**2 / 12)
            self.observed.append((shows, sum(values) / len(values), sigma))
            return
        for v in values:
            self.observed.append((shows, v, math.hypot(repeat, resolution / math.sqrt(12))))

    def solve(self):
        def named(x):
            return {n: x[i] for n, i in self.names.items()}

        def residuals(x):
            at = named(x)
            return np.array([(f(at) - v) / s for f, v, s in self.observed])

        fit = least_squares(residuals, self.start, jac="3-point", x_scale="jac", xtol=1e-15, ftol=1e-15, gtol=1e-15)
        covariance = np.linalg.inv(fit.jac.T @ fit.jac)

        def derived(f):
            gradient = np.zeros(len(fit.x))
            for i in range(len(fit.x)):
                h = 1e-5
                up, down = fit.x.copy(), fit.x.copy()
                up[i] += h
                down[i] -= h
                gradient[i] = (f(named(up)) - f(named(down))) / (2 * h)
            return [f(named(fit.x)), math.sqrt(gradient @ covariance @ gradient)]

        return derived, named(fit.x)


def stations(s):
    return sorted((mm(k), listed(v)) for k, v in s["at"].items())


def lost_motion(s, kit):
    m, places = Survey(kit), stations(s)
    m.unknown("float")
    m.unknown("nut")
    m.read(s["with"], listed(s["end-float"]), lambda x: x["float"])
    for i, (_, saw) in enumerate(places):
        if i in (0, len(places) - 1):
            m.read(s["with"], saw, lambda x: x["float"] + x["nut"])
            continue
        name = m.unknown("screw %d" % i)
        m.read(s["with"], saw, lambda x, n=name: x["float"] + x["nut"] + x[n])
    of, x = m.solve()
    worst = max((n for n in x if n.startswith("screw")), key=x.get)
    return {
        "end_float": of(lambda x: x["float"]),
        "nut_wear": of(lambda x: x["nut"]),
        "screw_wear": of(lambda x: x[worst]),
        "lost_motion": of(lambda x: x["float"] + x["nut"] + x[worst]),
        "with_new_nut": of(lambda x: x["float"] + x[worst]),
        "with_collar_adjusted": of(lambda x: x["nut"] + x[worst]),
    }


def screw_pitch(s, kit):
    m, places, pitch = Survey(kit), stations(s), mm(s["pitch"])
    for name in ("k", "a", "A", "B"):
        m.unknown(name)
    for at, saw in places:
        turn = 2 * math.pi * at / pitch
        shown = [v - (at if s.get("reads") == "travel" else 0) for v in saw]
        m.read(s["with"], shown, lambda x, at=at, t=turn: x["a"] + x["k"] * at + x["A"] * math.cos(t) + x["B"] * math.sin(t))
    of, _ = m.solve()
    return {
        "pitch": of(lambda x: pitch * (1 + x["k"])),
        "mean_error": of(lambda x: x["k"] * (places[-1][0] - places[0][0])),
        "periodic_error": of(lambda x: math.hypot(x["A"], x["B"])),
    }


def straightness(s, kit):
    m, places = Survey(kit), stations(s)
    for i, (_, saw) in enumerate(places):
        name = m.unknown("height %d" % i)
        m.read(s["with"], saw, lambda x, n=name: x[n], mm(s.get("reference", 0)) / math.sqrt(3))
    of, _ = m.solve()
    at = np.array([p for p, _ in places])

    def out(x, weights):
        heights = np.array([x["height %d" % i] for i in range(len(at))])
        left = heights - np.polyval(np.polyfit(at, heights, 1, w=weights), at)
        return left.max() - left.min()

    ends = np.full(len(at), 1e-9)
    ends[[0, -1]] = 1
    return {"straightness": of(lambda x: out(x, None)), "by_ends": of(lambda x: out(x, ends))}


def slide_play(s, kit):
    m, places = Survey(kit), stations(s)
    sine = math.sin(mm(s["angle"])) if s.get("reads") == "dial" else 1.0
    m.unknown("near gap")
    m.unknown("far gap")
    first, last = places[0][0], places[-1][0]

    def gap(x, at):
        part = (at - first) / (last - first)
        return x["near gap"] * (1 - part) + x["far gap"] * part

    for at, saw in places:
        m.read(s["with"], saw, lambda x, at=at: gap(x, at) / sine)
    for end in ("near", "far"):
        if "gib-" + end in s:
            name = m.unknown(end)
            m.read(s["gib-with"], listed(s["gib-" + end]), lambda x, n=name: x[n])
    of, _ = m.solve()
    left = mm(s.get("clearance", 0.02))
    return {
        "near": of(lambda x: x["near gap"] + x.get("near", 0) - left),
        "far": of(lambda x: x["far gap"] + x.get("far", 0) - left),
        "play": of(lambda x: max(x["near gap"], x["far gap"])),
    }


def two_collar(s, kit):
    m = Survey(kit)
    for end in ("near", "far"):
        name = m.unknown(end, 40.0)
        m.read(s["with"], listed(s[end]), lambda x, n=name: x[n])
    of, _ = m.solve()
    apart = mm(s["apart"])
    return {
        "difference": of(lambda x: x["near"] - x["far"]),
        "angle": of(lambda x: math.atan2(x["near"] / 2 - x["far"] / 2, apart)),
        "offset": of(lambda x: x["near"] / 2 - x["far"] / 2),
    }


def test_bar(s, kit):
    """Each place of the bar is read at two places of the spindle half a turn apart."""
    m = Survey(kit)
    places = ("up-near", "up-far", "side-near", "side-far")
    for place in places:
        first, second = m.unknown(place + " first"), m.unknown(place + " second")
        for name, value in zip((first, second), listed(s[place])):
            m.read(s["with"], [value], lambda x, n=name: x[n])
    of, _ = m.solve()

    def middle(x, place):
        return (x[place + " first"] + x[place + " second"]) / 2

    def runs(x, end):
        return math.hypot(*(x[plane + end + " first"] - x[plane + end + " second"] for plane in ("up-", "side-")))

    return {
        "up": of(lambda x: middle(x, "up-far") - middle(x, "up-near")),
        "side": of(lambda x: middle(x, "side-far") - middle(x, "side-near")),
        "run_out_near": of(lambda x: runs(x, "near")),
        "run_out_far": of(lambda x: runs(x, "far")),
    }


def facing(s, kit):
    m = Survey(kit)
    for place in ("centre", "rim"):
        name = m.unknown(place)
        m.read(s["with"], listed(s[place]), lambda x, n=name: x[n])
    of, _ = m.solve()
    return {
        "hollow": of(lambda x: (x["rim"] - x["centre"]) / 2),
        "angle": of(lambda x: math.atan2(x["rim"] - x["centre"], 2 * mm(s["across"]))),
    }


def ram(s, kit):
    m, places = Survey(kit), stations(s)
    m.unknown("k")
    m.unknown("a")
    for at, saw in places:
        m.read(s["with"], saw, lambda x, at=at: x["a"] + x["k"] * at)
    of, _ = m.solve()
    return {
        "rise": of(lambda x: x["k"] * (places[-1][0] - places[0][0])),
        "packing": of(lambda x: abs(x["k"]) * mm(s["feet"])),
    }


def dovetail(s, kit):
    """A roller touches the block and the flank: its middle lies radius from both."""
    m = Survey(kit)
    m.unknown("angle", math.radians(60))
    for r in s["rollers"]:
        piece = kit[r["roller"]]
        if r["roller"] not in m.names:
            m.known(r["roller"], mm(piece["size"]), mm(piece["tolerance"]) / math.sqrt(3))
        width = m.unknown("width %g" % mm(r["at"]), 90.0)

        def over(x, n=width, roller=r["roller"], raised=mm(r.get("raised", 0))):
            radius = x[roller] / 2
            middle = x[n] / 2 + (radius + (raised + radius) * math.cos(x["angle"])) / math.sin(x["angle"])
            return 2 * (middle + radius)

        m.read(s["with"], listed(r["saw"]), over)
    of, _ = m.solve()
    return {
        "angle": of(lambda x: x["angle"]),
        "near": of(lambda x: x["width 0"]),
        "far": of(lambda x: x["width 300"]),
        "parallel": of(lambda x: x["width 300"] - x["width 0"]),
        "hollow": of(lambda x: (x["width 0"] + x["width 300"]) / 2 - x["width 150"]),
    }


KINDS = {
    "lost-motion": lost_motion,
    "screw-pitch": screw_pitch,
    "straightness": straightness,
    "slide-play": slide_play,
    "two-collar": two_collar,
    "test-bar": test_bar,
    "facing": facing,
    "ram": ram,
    "dovetail": dovetail,
}


def main():
    job = yaml.load(sys.stdin, Loader=yaml.BaseLoader)
    answers = {s["id"]: KINDS[s["kind"]](s, job["kit"]) for s in job["surveys"] if s["kind"] in KINDS}
    json.dump(answers, sys.stdout)


main()
