"""How work is held in the plane, by scipy's linear programmes.

It shares nothing with the program it checks: normal forces and friction are
unknowns of their own, moments are taken about the origin in N·mm, the friction of
a strap clamp is bounded by 720 straight lines round its circle. It reads a JSON
list of cases from standard input and prints a JSON list of answers.
"""

import json
import math
import sys

import numpy as np
from scipy.optimize import linprog

LINES = 720


def wrench(x, y, fx, fy):
    return [fx, fy, x * fy - y * fx]


class Programme:
    """Unknowns with bounds, equations and inequalities, gathered one by one."""

    def __init__(self):
        self.balance, self.bounds, self.upper, self.sums = [], [], [], []

    def unknown(self, effect, low=0.0, high=None):
        self.balance.append(effect)
        self.bounds.append((low, high))
        return len(self.balance) - 1

    def solve(self, cost, load):
        n = len(self.balance)
        rows, right = list(np.transpose(self.balance)), [-v for v in load]
        for indices, total in self.sums:
            row = np.zeros(n)
            row[indices] = 1
            rows.append(row)
            right.append(total)
        upper = np.zeros((max(1, len(self.upper)), n))
        limit = np.zeros(max(1, len(self.upper)))
        for i, (terms, most) in enumerate(self.upper):
            for j, k in terms:
                upper[i, j] = k
            limit[i] = most
        full = np.zeros(n)
        for j, k in cost:
            full[j] = k
        scale = np.maximum(1, np.abs(rows).max(axis=1))
        return linprog(full, A_ub=upper, b_ub=limit, A_eq=np.array(rows) / scale[:, None],
                       b_eq=np.array(right) / scale, bounds=self.bounds, method="highs")


def places(c):
    """Where a contact pushes; a jaw at both its ends."""
    if c["kind"] != "jaw":
        return [(c["x"], c["y"])]
    dx, dy = -math.sin(c["towards"]) * c["width"] / 2, math.cos(c["towards"]) * c["width"] / 2
    return [(c["x"] - dx, c["y"] - dy), (c["x"] + dx, c["y"] + dy)]


def build(case, mu, standing_mu, shrink=1.0):
    p, normals = Programme(), []
    for c in case["contacts"]:
        own = []
        if c["kind"] == "clamp":
            tx = p.unknown(wrench(c["x"], c["y"], 1, 0), None)
            ty = p.unknown(wrench(c["x"], c["y"], 0, 1), None)
            for k in range(LINES):
                a = 2 * math.pi * k / LINES
                p.upper.append(([(tx, math.cos(a)), (ty, math.sin(a))], shrink * mu * c["toe"]))
            normals.append(own)
            continue
        nx, ny = math.cos(c["towards"]), math.sin(c["towards"])
        friction = mu if c["clamping"] else standing_mu
        for x, y in places(c):
            n = p.unknown(wrench(x, y, nx, ny))
            t = p.unknown(wrench(x, y, -ny, nx), None)
            p.upper += [([(t, 1), (n, -friction)], 0), ([(t, -1), (n, -friction)], 0)]
            own.append(n)
        if c["clamping"]:
            p.sums.append((own, c["clamping"]))
        normals.append(own)
    return p, normals


def wedged(case, mu):
    """Whether what stands still can press the work by itself."""
    still = {"contacts": [c for c in case["contacts"] if c["kind"] != "clamp" and not c["clamping"]]}
    if not still["contacts"]:
        return False
    p, normals = build(still, mu, mu)
    p.sums.append(([n for own in normals for n in own], 1.0))
    return p.solve([], [0, 0, 0]).status == 0


def free(case):
    """The largest motion towards each of some directions, by contacts and by the edges that were found."""
    answers = []
    lines = [(m["v"], m["both"]) for m in case["free"]]
    reach = case["reach"]
    for direction in case["directions"]:
        walls = []
        for c in case["contacts"]:
            if c["kind"] != "clamp":
                for x, y in places(c):
                    w = wrench(x - case["centre"][0], y - case["centre"][1], math.cos(c["towards"]), math.sin(c["towards"]))
                    walls.append([-w[0], -w[1], -w[2] / reach])
        by_contacts = linprog(np.negative(direction), A_ub=walls or None, b_ub=np.zeros(len(walls)) if walls else None,
                              bounds=[(-1, 1)] * 3, method="highs")
        if not lines:
            answers.append([-by_contacts.fun, 0.0])
            continue
        edges = np.transpose([v for v, _ in lines])
        bounds = [(None if both else 0, None) for _, both in lines]
        by_edges = linprog(-(np.array(direction) @ edges), A_ub=np.vstack([edges, -edges]), b_ub=np.ones(6), bounds=bounds, method="highs")
        answers.append([-by_contacts.fun, -by_edges.fun])
    return answers


def held(case):
    mu = case["friction"]
    standing = 0.0 if wedged(case, mu) else mu
    load = wrench(case["x"], case["y"], math.cos(case["towards"]), math.sin(case["towards"]))
    answer = {"balances": True, "factor": [], "free": free(case)}
    for shrink in (math.cos(math.pi / case["sides"]), 1.0):
        p, normals = build(case, mu, standing, shrink)
        if p.solve([], [0, 0, 0]).status == 2:
            return {"balances": False, "factor": [], "free": answer["free"]}
        k = p.unknown(load)
        result = p.solve([(k, -1)], [0, 0, 0])
        if result.status not in (0, 3):
            raise RuntimeError(result.message)
        answer["factor"].append(None if result.status == 3 else -result.fun / case["force"])
    return answer


json.dump([held(case) for case in json.load(sys.stdin)], sys.stdout)
