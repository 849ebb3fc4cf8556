"""Gaps and twists of mating shapes, apart from the program's own ways of finding them.

Reads a list of {pair, v, stand, drilled} and prints for each its gap at best and
the twist at which nothing is left of it. A shoe in its groove is a cloud of
boundary points laid by scalar minimisation; a dovetail is laid by a linear
programme; bolts are laid by sequential quadratic programming in x, y and twist.
"""

import json
import sys

import numpy
from scipy.optimize import brentq, linprog, minimize, minimize_scalar

POINTS = 4001


def turned(points, twist):
    c, s = numpy.cos(twist), numpy.sin(twist)
    return points @ numpy.array([[c, s], [-s, c]])


def first_zero(gap, step):
    """Return the first twist at which a gap is used up, found in steps first."""
    low = 0.0
    while gap(low + step) > 0:
        low += step
    return brentq(gap, low, low + step, xtol=1e-12)


def sector(outer, inner, angle, *walls):
    a = numpy.linspace(-angle / 2, angle / 2, POINTS)
    ray = numpy.column_stack([numpy.cos(a), numpy.sin(a)])
    return groove(numpy.vstack([outer * ray, inner * ray]) - [(outer + inner) / 2, 0], *walls)


def straight(width, length, *walls):
    y = numpy.linspace(-length / 2, length / 2, POINTS)
    x = numpy.full(POINTS, width / 2)
    return groove(numpy.vstack([numpy.column_stack([x, y]), numpy.column_stack([-x, y])]), *walls)


def groove(shoe, outer, inner):
    def at(twist):
        points = turned(shoe, twist)

        def used(x):
            r = numpy.hypot(points[:, 0] + x, points[:, 1])
            return max(r.max() - outer, inner - r.min())

        middle = (outer + inner) / 2
        return -minimize_scalar(used, bounds=(middle - 2, middle + 2), method="bounded", options={"xatol": 1e-11}).fun

    return {"gap": at(0), "twist": first_zero(at, 1e-3)}


def dovetail(male, female, angle, gib, height):
    wide, foot = male / 2 + height / numpy.tan(angle), male / 2
    corners = numpy.array([[-wide, 0], [wide, 0], [foot, height], [-foot, height]])
    s, c = numpy.sin(angle), numpy.cos(angle)
    normals = numpy.array([[0, -1], [-s, c], [s, c]])
    walls = numpy.array([0, female / 2 * s, female / 2 * s - gib])

    def at(twist):
        reach = (turned(corners, twist) @ normals.T).max(axis=0)
        free = [(None, None)] * 3
        return -linprog([0, 0, -1], A_ub=numpy.column_stack([normals, numpy.ones(3)]), b_ub=walls - reach, bounds=free).fun

    # Standing on its flat, as much is left to each flank as to both together.
    upright = linprog([0, -1], A_ub=[[-s, 1], [s, 1]], b_ub=walls[1:] - wide * s, bounds=[(None, None)] * 2)
    return {"gap": -upright.fun, "twist": first_zero(at, 1e-4)}


def bolts(stand, drilled, hole, bolt):
    stand, drilled = numpy.array(stand), numpy.array(drilled)
    middle = drilled.mean(axis=0)

    def squares(x):
        laid = turned(drilled - middle, x[2] / 100) + middle + x[:2]
        return ((laid - stand) ** 2).sum(axis=1)

    start = [0, 0, 0, squares([0, 0, 0]).max()]
    best = minimize(
        lambda x: x[3],
        start,
        constraints={"type": "ineq", "fun": lambda x: x[3] - squares(x)},
        method="SLSQP",
        options={"ftol": 1e-15, "maxiter": 1000},
    )
    return {"gap": (hole - bolt) / 2 - numpy.sqrt(squares(best.x).max()), "twist": None}


def answer(case):
    if case["pair"] == "bolts-in-holes":
        return bolts(case["stand"], case["drilled"], *case["v"])
    return {"sector-shoe-in-groove": sector, "straight-shoe-in-groove": straight, "dovetail-with-gib": dovetail}[case["pair"]](*case["v"])


print(json.dumps([answer(case) for case in json.load(sys.stdin)]))
