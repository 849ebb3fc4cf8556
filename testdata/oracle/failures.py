"""The loads at which the pieces of a joint give way, drawn from shapes.

It shares nothing with the program it checks: it takes each section apart into the
stress that it bears, where the program has closed forms. It reads a JSON list of
{"id", "v": values in the roles} from standard input and prints a JSON list of {"load",
"slope": by each value}. Slopes are by a step along the imaginary axis.
"""

import json
import sys

import numpy as np

SHEAR = 1 / np.sqrt(3)  # of the tensile strength (von Mises)
SPOTS, WEIGHTS = np.polynomial.legendre.leggauss(8)


def integral(f, low, high):
    """Gauss's rule, exact for what is integrated here."""
    middle, half = (high + low) / 2, (high - low) / 2
    return half * sum(w * f(middle + half * s) for s, w in zip(SPOTS, WEIGHTS))


def disc(diameter):
    """The area of rings."""
    return integral(lambda r: 2 * np.pi * r, 0, diameter / 2)


def strips(outward):
    """Turn by turn, a tooth is sheared off at a cylinder.

    It is half the pitch wide at the diameter of its flanks, and grows on both sides
    towards its root: outward in a nut, inward on a screw.
    """

    def load(strength, at, flanks, pitch, angle, length, factor):
        rootward = (at - flanks) / 2 * outward
        tooth = pitch / 2 + 2 * rootward * np.sin(angle) / np.cos(angle)
        return SHEAR * strength * (length / pitch) * (np.pi * at * tooth) * factor

    return load


def by_proof(stress, area, height, major, around):
    full = 0.8 * major
    lower = height / full if np.real(height) < np.real(full) else 1
    return stress * area * lower * around


def bends(stress, width, height, arm):
    """Yield in all the section: the moment of two arms, each bearing half the load."""
    moment = 2 * integral(lambda y: stress * width * y, 0, height / 2)
    return 2 * moment / arm


def breaks(stress, width, height, arm):
    """The stress grows with the distance from the middle and breaks the skin."""
    moment = 2 * integral(lambda y: stress * y / (height / 2) * width * y, 0, height / 2)
    return 2 * moment / arm


FAILURES = {
    "stud breaks by tensile strength": lambda R, A: R * A,
    "nut thread strips by tensile strength": strips(1),
    "nut thread strips by proof stress": by_proof,
    "stud thread strips by tensile strength": strips(-1),
    "head shears by tensile strength": lambda R, d, h: SHEAR * R * integral(lambda a: d / 2 * h, 0, 2 * np.pi),
    "tee shears by tensile strength": lambda R, w, h: SHEAR * R * (w * h + w * h),
    "tee bends by yield": bends,
    "tee breaks by tensile strength": breaks,
    "pin shears by tensile strength": lambda R, n, d: SHEAR * R * n * disc(d),
    "pin crushes by yield": lambda R, d, l: R * d * l,
    "key shears by tensile strength": lambda R, n, w, l: SHEAR * R * n * w * l,
    "key crushes by yield": lambda R, h, l: R * (h - h / 2) * l,
    "press fit slips": lambda mu, p, d, L: integral(lambda a: mu * p * d / 2 * L, 0, 2 * np.pi),
}


def main():
    answers = []
    for asked in json.load(sys.stdin):
        load, v = FAILURES[asked["id"]], asked["v"]
        slope = []
        for i in range(len(v)):
            step = 1e-20 * abs(v[i])
            slope.append((load(*[complex(x, step if j == i else 0) for j, x in enumerate(v)])).imag / step)
        answers.append({"load": float(np.real(load(*v))), "slope": slope})
    json.dump(answers, sys.stdout)


main()
