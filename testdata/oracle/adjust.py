"""An adjustment of job files that shares nothing with the program it checks.

Written from the description of the job file ("How error is counted") and the
gauging catalogue. It reads a JSON list of {"file", "start"} from standard
input, where start maps the ids of sizes, holes and places to start values (mm,
degrees; [x, y] for a place), and prints a JSON list of results. Unknowns are
the sizes, the pieces with a tolerance, the zeros of the instruments, departures
from form, feels and the places of holes, circles and lines. Derivatives are
exact by a complex step, the minimum is scipy.optimize.least_squares's.
"""

import json
import math
import sys
from cmath import cos, sin, sqrt
from fractions import Fraction

import numpy as np
import scipy.linalg
import scipy.optimize
import yaml
from scipy.stats import norm

import methods
from written import ANGLE, LENGTH, NUMBER, Expression, inside, length, outside, read, size_dimension

STEP = 1e-20  # of the complex step
OPEN = 1e-10  # a direction in which the observations change by no more than this is not determined
CHECKED = 1e-6  # the redundancy from which on a test is reckoned
CATCHABLE = norm.isf(0.001 / 2) + norm.isf(1 - 0.8)  # α 0.001 two-sided, power 0.8

# ± in mm where an instrument states nothing; a coarse caliper and the protractor apart.
USUAL = {"caliper": 0.03, "micrometer": 0.005, "depth-micrometer": 0.01, "height-gauge": 0.05,
         "bore-gauge": 0.015, "dial": 0.015, "rule": 0.25, "readout": 0.01}


class Observation:
    """One observed figure. misclosure(x): what the unknowns imply less what was observed."""

    def __init__(self, kind, id_, indices, dimension, sigma, misclosure):
        self.kind, self.id, self.indices, self.dimension = kind, id_, indices, dimension
        self.sigma, self.misclosure = sigma, misclosure


class Model:
    """A job as unknowns, observations and constraints."""

    def __init__(self, job, start):
        self.job, self.inch = job, job.get("units") == "in"
        self.sizes, self.kit = job.get("sizes") or {}, job.get("kit") or {}
        self.unknowns, self.x0 = {}, []
        self.exact, self.dimensions = {}, {}
        self.observations, self.constraints, self.predictions = [], [], []
        for id_, size in self.sizes.items():
            self.add_size(id_, size, start)
        for id_, thing in self.kit.items():
            self.add_kit(id_, thing)
        self.add_places(start)
        for reading in job.get("readings") or []:
            self.add_reading(reading)
        for index, relation in enumerate(job.get("relations") or []):
            self.add_relation(index, relation)

    def unknown(self, key, start):
        self.unknowns[key] = len(self.x0)
        self.x0.append(start)
        return self.unknowns[key]

    def prior(self, kind, id_, column, value, sigma, dimension=LENGTH):
        self.observations.append(Observation(kind, id_, [0], dimension, sigma, lambda x: x[column] - value))

    def given(self, text, dimension):
        return inside(read(text, dimension, self.inch), dimension)

    def spread(self, thing, dimension):
        """Return the standard uncertainty stated by `within` or `u`, 0 for none."""
        if "within" in thing:
            return self.given(thing["within"], dimension) / math.sqrt(3)
        return self.given(thing["u"], dimension) if "u" in thing else 0.0

    def add_size(self, id_, size, start):
        dimension = self.dimensions[id_] = size_dimension(size["kind"])
        known = self.given(size["known"], dimension) if "known" in size else None
        sigma = self.spread(size, dimension)
        if known is not None and sigma == 0:
            self.exact[id_] = known
            return
        column = self.unknown(id_, inside(start[id_], dimension))
        if known is not None:
            self.prior("known", id_, column, known, sigma, dimension)

    def add_kit(self, id_, thing):
        if "size" not in thing:
            # The zero of a readout is its user's own: touches leave it out.
            used = any(r.get("with") == id_ and r["by"] != "touch" for r in self.job.get("readings") or [])
            _, _, zero = self.error(id_)
            if used and zero > 0:
                self.prior("kit", id_, self.unknown(id_, 0.0), 0.0, zero, self.kit_dimension(id_))
            return
        self.dimensions[id_] = LENGTH
        size = self.given(thing["size"], LENGTH)
        if "tolerance" in thing:
            self.prior("kit", id_, self.unknown(id_, size), size, self.given(thing["tolerance"], LENGTH) / math.sqrt(3))
        else:
            self.exact[id_] = size

    def kit_dimension(self, id_):
        return ANGLE if self.kit[id_]["kind"] == "protractor" else LENGTH

    def error(self, id_):
        """Return (resolution, repeat, zero) of an instrument."""
        instrument, dimension = self.kit[id_], self.kit_dimension(id_)
        state = {key: self.given(instrument[key], dimension)
                 for key in ("resolution", "mpe", "zero", "repeat") if key in instrument}
        resolution = state.get("resolution", 0.0)
        usual = resolution if dimension == ANGLE else USUAL.get(instrument["kind"])
        if instrument["kind"] == "caliper" and resolution >= 0.05:
            usual = 0.05
        if usual is None and not {"zero", "repeat"} <= state.keys():
            usual = state["mpe"]  # this kind must state it
        share = state.get("mpe", usual or 0.0) / math.sqrt(6)
        return resolution, state.get("repeat", share), state.get("zero", share)

    def add_places(self, start):
        for plan in (self.job.get("plans") or {}).values():
            for n, hole in enumerate(plan["holes"]):
                for axis in range(2):
                    if n > axis:
                        self.unknown((hole, axis), start[hole][axis])
                    else:
                        self.exact[hole, axis] = 0.0
        for id_, place in (self.job.get("places") or {}).items():
            line = place["kind"] == "line"
            self.unknown((id_, 0), math.radians(start[id_][0]) if line else start[id_][0])
            self.unknown((id_, 1), start[id_][1])

    def value(self, x, key, reading=None):
        """Return what a size, piece or coordinate is; where a reading touches it, with its departure from form."""
        if key in self.exact:
            return complex(self.exact[key])
        departure = self.unknowns.get(("form", key, reading))
        return x[self.unknowns[key]] + (0 if departure is None else x[departure])

    def touches(self, id_, reading):
        """Give a reading a departure of its own from a size's form."""
        key = ("form", id_, reading)
        if "form" in self.sizes.get(id_, {}) and key not in self.unknowns:
            sigma = self.given(self.sizes[id_]["form"], LENGTH) / math.sqrt(3)
            self.prior("form", id_, self.unknown(key, 0.0), 0.0, sigma)

    def argument(self, reading, text, kind):
        """Return what stands in a role as a function of the unknowns."""
        if text not in self.dimensions:
            plain = complex(self.given(text, methods.role_dimension(kind)))
            return lambda x: plain
        self.touches(text, reading["id"])
        factor = methods.role_factor(kind, self.sizes.get(text, {}).get("kind"))
        return lambda x: factor * self.value(x, text, reading["id"])

    def distance(self, reading):
        a, b = reading["of"]["from"], reading["of"]["to"]
        return lambda x: sqrt(sum((self.value(x, (a, k)) - self.value(x, (b, k))) ** 2 for k in range(2)))

    def forward(self, reading):
        """Return a reading's model as a function of the unknowns, and its dimension."""
        if reading["by"] == "formula":
            formula = Expression(reading["that"], self.dimensions, self.inch)
            for name in formula.names:
                self.touches(name, reading["id"])
            return (lambda x: formula.root.value({n: self.value(x, n, reading["id"]) for n in formula.names}),
                    formula.root.dimension)
        arguments = []
        for name, kind, default in methods.roles(reading["by"]):
            if name == "centres" and "from" in reading["of"]:
                arguments.append(self.distance(reading))
            else:
                arguments.append(self.argument(reading, reading["of"].get(name, default), kind))
        model = methods.METHODS[reading["by"]][1]
        return lambda x: model(*(a(x) for a in arguments)), ANGLE if reading["by"] == "protractor" else LENGTH

    def add_reading(self, reading):
        if reading["by"] == "touch":
            self.add_touches(reading)
            return
        model, dimension = self.forward(reading)
        if "goes" in reading:
            self.add_limits(reading, model)
            return
        resolution, repeat, zero = self.error(reading["with"])
        scale = 1 / 25.4 if dimension == NUMBER and self.inch else 1.0
        feel = self.given(reading["feel"], dimension) if "feel" in reading else 0.0
        model = self.with_zero(model, reading["with"], scale)
        if "seated" in reading and feel:
            model, feel = self.with_seating(model, reading["id"], feel), 0.0
        values, kept = self.values(reading, dimension)
        self.predictions += [(reading["id"], i, model, dimension) for i in range(len(values))]
        self.observe(reading, values, kept, model, dimension, resolution * scale, math.hypot(repeat * scale, feel),
                     repeat < resolution / 3)

    def with_zero(self, model, id_, scale):
        column = self.unknowns.get(id_)
        return model if column is None else lambda x: model(x) + scale * x[column]

    def with_seating(self, model, id_, feel):
        column = self.unknown(("feel", id_), 0.0)
        self.prior("feel", id_, column, 0.0, feel)
        return lambda x: model(x) + x[column]

    def values(self, reading, dimension):
        """Return all values as exact fractions and the indices of those not set aside."""
        saw = reading["saw"] if isinstance(reading["saw"], list) else [reading["saw"]]
        values = [read(text, dimension, self.inch) for text in saw]
        aside = reading.get("set-aside", [])
        return values, [i for i in range(len(values)) if aside != "all" and str(i) not in aside]

    def observe(self, reading, values, kept, model, dimension, resolution, each, coarse):
        def observation(indices, saw, n):
            sigma = math.sqrt(each**2 / n + resolution**2 / 12)
            return Observation("reading", reading["id"], indices, dimension, sigma, lambda x: model(x) - saw)

        step = read(self.kit[reading["with"]].get("resolution", "0"), self.kit_dimension(reading["with"]), self.inch)
        if dimension == NUMBER and self.inch:
            step /= Fraction(254, 10)
        shown = [values[i] for i in kept]
        if kept and coarse and max(shown) - min(shown) <= step:
            mean = inside(sum(shown) / len(shown), dimension)
            self.observations.append(observation(kept, mean, len(kept)))
            return
        for i in kept:
            self.observations.append(observation([i], inside(values[i], dimension), 1))

    def add_limits(self, reading, model):
        """A gauge that goes and one that does not: their mean, a rectangle between them."""
        goes, stops = reading["goes"], reading["stops"]

        def limit(text, x=None):
            if text not in self.dimensions:
                return self.given(text, LENGTH)
            return self.given(self.kit[text]["size"], LENGTH) if x is None else self.value(x, text)

        sigma = abs(limit(stops) - limit(goes)) / math.sqrt(12)
        self.observations.append(Observation(
            "reading", reading["id"], [0], LENGTH, sigma, lambda x: model(x) - (limit(goes, x) + limit(stops, x)) / 2))
        self.predictions.append((reading["id"], 0, model, LENGTH))

    def add_touches(self, reading):
        of, id_ = reading["of"], reading["id"]
        place = of.get("circle") or of.get("line")
        stylus = self.argument(reading, of["stylus"], "diameter")
        side = float(of.get("side", "1"))
        circle = None
        if "circle" in of:
            circle = self.argument(reading, self.job["places"][place]["diameter"], "diameter")
        resolution, repeat, _ = self.error(reading["with"])
        sigma = math.hypot(repeat, resolution / math.sqrt(12))
        if "feel" in reading:
            sigma = math.hypot(sigma, self.given(reading["feel"], LENGTH))
        pairs = reading["saw"] if isinstance(reading["saw"][0], list) else [reading["saw"]]
        for i, pair in enumerate(pairs):
            px, py = (float(length(text, self.inch)) for text in pair)

            # The misclosure is the left side less the right: that is what was seen less what is implied.
            def miss(x, px=px, py=py):
                u, v = self.value(x, (place, 0)), self.value(x, (place, 1))
                if circle is None:
                    return px * cos(u) + py * sin(u) - v - side * stylus(x) / 2
                return sqrt((px - u) ** 2 + (py - v) ** 2) - circle(x) / 2 - side * stylus(x) / 2

            self.observations.append(Observation("reading", id_, [i], LENGTH, sigma, lambda x, miss=miss: -miss(x)))

    def add_relation(self, index, relation):
        left = Expression(relation["that"], self.dimensions, self.inch)
        right = Expression(relation["is"], self.dimensions, self.inch)
        dimension = right.root.dimension if left.root.bare else left.root.dimension
        a, b = left.root.like(dimension, self.inch), right.root.like(dimension, self.inch)

        def apart(x):
            env = {name: self.value(x, name) for name in left.names | right.names}
            return a.value(env) - b.value(env)

        sigma = self.spread(relation, dimension)
        if sigma == 0:
            self.constraints.append(apart)
        else:
            self.observations.append(Observation("relation", index, [0], dimension, sigma, apart))


def evaluate(functions, x):
    return np.array([f(list(map(complex, x))).real for f in functions])


def jacobian(functions, x):
    j = np.zeros((len(functions), len(x)))
    for column in range(len(x)):
        z = list(map(complex, x))
        z[column] += 1j * STEP
        j[:, column] = [f(z).imag / STEP for f in functions]
    return j


def least(a, b):
    """Return the least-squares solution of a·x = b."""
    return np.linalg.lstsq(a, b, rcond=None)[0]


class Solution:
    """The minimum, found in coordinates t along the constraints: x = scale·(y0 + Z t + Y s(t))."""

    def __init__(self, model):
        self.model = model
        sigma = np.array([o.sigma for o in model.observations])
        functions = [o.misclosure for o in model.observations]
        self.start = np.array(model.x0)
        self.residuals = lambda x: evaluate(functions, x) / sigma
        self.design = lambda x: jacobian(functions, x) / sigma[:, None]
        steep = np.linalg.norm(self.design(self.start), axis=0)
        self.scale = 1 / np.where(steep > 0, steep, 1)
        ties = jacobian(model.constraints, self.start) * self.scale
        n = len(self.start)
        self.along = scipy.linalg.null_space(ties) if len(ties) else np.eye(n)
        self.across = scipy.linalg.orth(ties.T) if len(ties) else np.zeros((n, 0))
        self.solve()

    def point(self, t):
        """Return the unknowns at t, back on the constraints by Newton's method."""
        y = self.start / self.scale + self.along @ t
        for _ in range(30 if len(self.model.constraints) else 0):
            ties = jacobian(self.model.constraints, y * self.scale) * self.scale
            y -= self.across @ least(ties @ self.across, evaluate(self.model.constraints, y * self.scale))
        return y * self.scale

    def tangent(self, x):
        """Return dx/dt."""
        if not self.model.constraints:
            return self.along * self.scale[:, None]
        ties = jacobian(self.model.constraints, x) * self.scale
        back = least(ties @ self.across, ties @ self.along)
        return (self.along - self.across @ back) * self.scale[:, None]

    def solve(self):
        def slope(t):
            x = self.point(t)
            return self.design(x) @ self.tangent(x)

        t = scipy.optimize.least_squares(lambda t: self.residuals(self.point(t)), np.zeros(self.along.shape[1]), slope,
                                         method="trf", x_scale="jac", xtol=1e-15, ftol=1e-15, gtol=1e-15).x
        for _ in range(4):
            t = t - least(slope(t), self.residuals(self.point(t)))
        self.x = self.point(t)
        self.r = self.residuals(self.x)
        reduced = slope(t)
        inverse = np.linalg.pinv(reduced, rcond=OPEN)
        loose = scipy.linalg.null_space(reduced, rcond=OPEN)
        moved = self.tangent(self.x) @ loose / self.scale[:, None]
        self.determined = np.abs(moved).max(axis=1, initial=0) < 1e-6
        half = self.tangent(self.x) @ inverse
        self.covariance = half @ half.T
        self.redundancy = 1 - np.einsum("ij,ji->i", reduced, inverse)
        self.dof = len(self.r) - (reduced.shape[1] - loose.shape[1])


class Result:
    """A solution in the words of the job, for JSON."""

    def __init__(self, model):
        self.m, self.s = model, Solution(model)

    def u(self, column):
        return math.sqrt(self.s.covariance[column, column])

    def entry(self, key, dimension, word="value"):
        column = self.m.unknowns.get(key)
        if column is None:
            return {word: outside(self.m.exact.get(key, 0.0), dimension), "u": 0.0, "determined": True}
        return {word: outside(self.s.x[column], dimension), "u": outside(self.u(column), dimension),
                "determined": bool(self.s.determined[column])}

    def test(self, k):
        """Return how an observation stands; residual: observed less predicted."""
        o, r = self.m.observations[k], max(self.s.redundancy[k], 0.0)
        found = {"id": o.id, "redundancy": r, "normalised": None, "catchable": None}
        found["residual"] = outside(-self.s.r[k] * o.sigma, o.dimension)
        found["sigma"] = outside(o.sigma, o.dimension)
        if r > CHECKED:
            found["normalised"] = -self.s.r[k] / math.sqrt(r)
            found["catchable"] = found["sigma"] * CATCHABLE / math.sqrt(r)
        return found

    def tests(self, kind):
        return [self.test(k) for k, o in enumerate(self.m.observations) if o.kind == kind]

    def readings(self):
        """Return the test of every value in use, and what is predicted of all but touches."""
        found = {}
        for k, o in enumerate(self.m.observations):
            if o.kind == "reading":
                found.update({(o.id, i): self.test(k) | {"index": i} for i in o.indices})
        x = list(map(complex, self.s.x))
        for id_, i, model, dimension in self.m.predictions:
            found.setdefault((id_, i), {"id": id_, "index": i})["predicted"] = outside(model(x).real, dimension)
        return list(found.values())

    def extents(self):
        """Least and most of every size out of form that two readings or more touched."""
        places = {}
        for key, column in self.m.unknowns.items():
            if key[0] == "form":
                places.setdefault(key[1], []).append(self.s.x[self.m.unknowns[key[1]]] + self.s.x[column])
        return {id_: {"least": min(at), "most": max(at)} for id_, at in places.items() if len(at) > 1}

    def places(self):
        found = {}
        for plan in (self.m.job.get("plans") or {}).values():
            for hole in plan["holes"]:
                found[hole] = [self.entry((hole, 0), LENGTH), self.entry((hole, 1), LENGTH)]
        for id_, place in (self.m.job.get("places") or {}).items():
            first = ANGLE if place["kind"] == "line" else LENGTH
            found[id_] = [self.entry((id_, 0), first), self.entry((id_, 1), LENGTH)]
        return found

    def json(self):
        kit = {}
        for id_, thing in self.m.kit.items():
            piece = "size" in thing
            kit[id_] = self.entry(id_, LENGTH if piece else self.m.kit_dimension(id_), "value" if piece else "zero")
        return {
            "sizes": {id_: self.entry(id_, self.m.dimensions[id_]) for id_ in self.m.sizes},
            "extents": self.extents(), "places": self.places(), "kit": kit,
            "chi2": float(self.s.r @ self.s.r), "dof": int(self.s.dof), "readings": self.readings(),
            "kit_tests": self.tests("kit"), "known": self.tests("known"), "relations": self.tests("relation"),
        }


def main():
    results = []
    for request in json.load(sys.stdin):
        with open(request["file"], encoding="utf-8-sig") as file:
            job = yaml.load(file, yaml.BaseLoader)
        results.append(Result(Model(job, request["start"])).json())
    json.dump(results, sys.stdout)


if __name__ == "__main__":
    main()
