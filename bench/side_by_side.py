"""Solve the tapers of a problem with scipy.optimize.least_squares, and time it.

Standard input has {"runs", "problems"} as the Go side writes them; standard
output gets, for each problem, the answer and the middle time with numeric and
with exact derivatives.
"""

import json
import statistics
import sys
import time

import numpy as np
from scipy.optimize import least_squares


class Problem:
    def __init__(self, problem):
        rows, priors = problem["readings"], problem["priors"]
        column = lambda key: np.array([row[key] for row in rows])
        self.start = np.array(problem["start"])
        self.small, self.half, self.zero = column("small_end"), column("half_angle"), column("zero")
        self.roller, self.block = column("roller"), column("block")
        self.stands = self.block >= 0  # on a block
        self.saw, self.sigma = column("saw"), column("sigma")
        self.known = np.array([p["column"] for p in priors])
        self.value = np.array([p["value"] for p in priors])
        self.prior = np.array([p["sigma"] for p in priors])

    def residuals(self, x):
        a, d = x[self.half], x[self.roller]
        h = np.where(self.stands, x[self.block], 0)
        m = x[self.small] + 2 * (h + d / 2) * np.tan(a) + d / np.cos(a) + d + x[self.zero]
        return np.concatenate([(m - self.saw) / self.sigma, (x[self.known] - self.value) / self.prior])

    def jacobian(self, x):
        a, d = x[self.half], x[self.roller]
        h = np.where(self.stands, x[self.block], 0)
        n, rows = len(self.saw), np.arange(len(self.saw))
        j = np.zeros((n + len(self.known), len(x)))
        j[rows, self.small] = 1 / self.sigma
        j[rows, self.half] = (2 * h + d + d * np.sin(a)) / np.cos(a) ** 2 / self.sigma
        j[rows, self.zero] = 1 / self.sigma
        j[rows, self.roller] = (np.tan(a) + 1 / np.cos(a) + 1) / self.sigma
        on = rows[self.stands]
        j[on, self.block[on]] = 2 * np.tan(a[on]) / self.sigma[on]
        j[n + np.arange(len(self.known)), self.known] = 1 / self.prior
        return j

    def solve(self, jacobian):
        found = least_squares(self.residuals, self.start, jacobian, method="trf", x_scale="jac",
                              xtol=1e-12, ftol=1e-12, gtol=1e-12)
        return found.x, np.sqrt(np.diag(np.linalg.inv(found.jac.T @ found.jac)))

    def timed(self, jacobian, runs):
        times = []
        for _ in range(runs):
            start = time.perf_counter()
            x, u = self.solve(jacobian)
            times.append(time.perf_counter() - start)
        return {"milliseconds": 1000 * statistics.median(times), "x": x.tolist(), "u": u.tolist()}


def main():
    asked = json.load(sys.stdin)
    answers = []
    for problem in map(Problem, asked["problems"]):
        answers.append({"numeric": problem.timed("2-point", asked["runs"]),
                        "exact": problem.timed(problem.jacobian, asked["runs"])})
    json.dump(answers, sys.stdout)


main()
