"""Simulate the tapers of a problem with numpy, and time it.

Standard input has {"trials", "seed", "problem", "rectangular"} as the Go side
writes them, rectangular being the columns known to within a tolerance; standard
output gets the seconds taken and, for each unknown, mean, standard deviation
and the ends of the 95 % interval.

Trials are solved side by side, as columns of arrays, in blocks that stay in the
cache: by steps with the cofactors of the solution at hand and the gradient of
where each has got to, until the steps that would follow come to no more than
1e-4 of a standard uncertainty. That is what the Go side does, one by one.
"""

import json
import sys
import time

import numpy as np
from scipy.optimize import least_squares

BLOCK = 4096
ENOUGH = 1e-4


class Problem:
    def __init__(self, asked):
        problem = asked["problem"]
        rows, priors = problem["readings"], problem["priors"]
        column = lambda key: np.array([row[key] for row in rows])
        self.start = np.array(problem["start"])
        self.small, self.half, self.zero = column("small_end"), column("half_angle"), column("zero")
        self.roller, self.block = column("roller"), column("block")
        self.stands = (self.block >= 0)[:, None]  # on a block
        self.saw, self.sigma = column("saw")[:, None], column("sigma")[:, None]
        self.known = np.array([p["column"] for p in priors])
        self.value = np.array([[p["value"]] for p in priors])
        self.prior = np.array([[p["sigma"]] for p in priors])
        self.rectangular = np.isin(self.known, asked["rectangular"])
        self.onto = {key: self.places(key) for key in ("small", "half", "zero", "roller", "block")}

    def places(self, key):
        """The matrix that adds what the readings pull to the unknowns they pull at."""
        columns = getattr(self, key)
        matrix = np.zeros((len(self.start), len(columns)))
        matrix[columns, np.arange(len(columns))] = columns >= 0
        return matrix

    def evaluate(self, x):
        a, d, h = x[self.half], x[self.roller], np.where(self.stands, x[self.block], 0)
        tan, sec = np.tan(a), 1 / np.cos(a)
        m = x[self.small] + (2 * h + d) * tan + d * sec + d + x[self.zero]
        slopes = {"half": (2 * h + d) * sec * sec + d * sec * tan, "roller": tan + sec + 1, "block": 2 * tan}
        return (m - self.saw) / self.sigma, (x[self.known] - self.value) / self.prior, slopes

    def pull(self, readings, priors, slopes):
        """The gradient of half of chi-square for these misfits."""
        r = readings / self.sigma
        total = (self.onto["small"] + self.onto["zero"]) @ r
        for key, slope in slopes.items():
            total += self.onto[key] @ (r * slope)
        total[self.known] += priors / self.prior
        return total

    def jacobian(self, x):
        _, _, slopes = self.evaluate(x[:, None])
        rows = self.onto["small"] + self.onto["zero"]
        for key, slope in slopes.items():
            rows = rows + self.onto[key] * slope.T
        priors = np.zeros((len(self.known), len(x)))
        priors[np.arange(len(self.known)), self.known] = 1 / self.prior[:, 0]
        return np.vstack([(rows / self.sigma.T).T, priors])

    def solve(self):
        misfits = lambda x: np.concatenate([v[:, 0] for v in self.evaluate(x[:, None])[:2]])
        found = least_squares(misfits, self.start, self.jacobian, x_scale="jac", xtol=1e-12, ftol=1e-12, gtol=1e-12)
        self.x = found.x[:, None]
        self.cofactors = np.linalg.inv(found.jac.T @ found.jac)
        self.u = np.sqrt(np.diag(self.cofactors))[:, None]
        self.slopes = self.evaluate(self.x)[2]

    def draw(self, random, count):
        readings = random.standard_normal((len(self.saw), count))
        priors = random.standard_normal((len(self.known), count))
        flat = random.random((self.rectangular.sum(), count))
        priors[self.rectangular] = np.sqrt(3) * (2 * flat - 1)
        change = self.cofactors @ self.pull(readings, priors, self.slopes)
        x, last, rate = self.x + change, np.max(np.abs(change) / self.u), 0.1
        while True:
            r, p, slopes = self.evaluate(x)
            step = self.cofactors @ self.pull(r - readings, p - priors, slopes)
            x -= step
            size = np.max(np.abs(step) / self.u)
            rate = max(rate, size / last)
            if size * rate <= ENOUGH * (1 - rate):
                return x
            last, rate = size, max(0.1, size / last)


def main():
    asked = json.load(sys.stdin)
    random, trials = np.random.default_rng(asked["seed"]), asked["trials"]
    start = time.perf_counter()
    problem = Problem(asked)
    problem.solve()
    drawn = np.empty((len(problem.start), trials))
    for first in range(0, trials, BLOCK):
        last = min(trials, first + BLOCK)
        drawn[:, first:last] = problem.draw(random, last - first)
    mean, u = drawn.mean(axis=1), drawn.std(axis=1, ddof=1)
    low, high = np.quantile(drawn, [0.025, 0.975], axis=1)
    seconds = time.perf_counter() - start
    json.dump({"seconds": seconds, "mean": mean.tolist(), "u": u.tolist(), "low": low.tolist(), "high": high.tolist()}, sys.stdout)


main()
