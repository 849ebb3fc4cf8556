"""The pressure of a press fit, by finite differences.

It shares nothing with the program it checks: it knows no closed form, only the
equilibrium of a thin ring. It reads a JSON list of fits from standard input, each
{"inside", "diameter", "outside", "interference", "inner": [E, nu], "outer": [E, nu]}
in mm and MPa (inside 0: solid), and prints a JSON list of {"pressure", "hoop",
"inner"}: the pressure, the hoop stress of the outer ring at its bore, and the
greatest stress by von Mises of the inner one.

In each ring the radial displacement u satisfies u'' + u'/r - u/r² = 0 in plane
stress; the free faces bear nothing, the two rings press equally on each other, and
their displacements differ by half the interference. Central differences with
ghost points beyond the faces, on two grids, carried on to a step of nothing.
"""

import json
import sys

import numpy as np
from scipy.sparse import lil_matrix
from scipy.sparse.linalg import spsolve

STEPS = 2000


def stresses(e, nu, r, u, slope):
    """Radial and hoop stress in plane stress."""
    k = e / (1 - nu * nu)
    return k * (slope + nu * u / r), k * (u / r + nu * slope)


def ring(matrix, row, first, radii):
    """The equilibrium at every point of one ring, ghosts at both ends."""
    h = radii[1] - radii[0]
    for i, r in enumerate(radii):
        left, here, right = first + i, first + i + 1, first + i + 2
        matrix[row + i, left] += 1 / h**2 - 1 / (2 * r * h)
        matrix[row + i, here] += -2 / h**2 - 1 / r**2
        matrix[row + i, right] += 1 / h**2 + 1 / (2 * r * h)


def traction(matrix, row, first, i, radii, e, nu, sign=1.0):
    """Adds the radial stress at point i of a ring to a row, over E of 1 MPa."""
    h = radii[1] - radii[0]
    k = sign * e / (1 - nu * nu) / 1e5
    matrix[row, first + i] -= k / (2 * h)
    matrix[row, first + i + 2] += k / (2 * h)
    matrix[row, first + i + 1] += k * nu / radii[i]


def solve(fit, steps):
    a, b, c = fit["inside"] / 2, fit["diameter"] / 2, fit["outside"] / 2
    inner = np.linspace(a if a > 0 else b / 1e3, b, steps + 1)
    outer = np.linspace(b, c, steps + 1)
    points = steps + 3
    matrix, right = lil_matrix((2 * points, 2 * points)), np.zeros(2 * points)
    ring(matrix, 0, 0, inner)
    ring(matrix, steps + 1, points, outer)
    row = 2 * (steps + 1)
    if a > 0:
        traction(matrix, row, 0, 0, inner, *fit["inner"])
    else:  # about the axis a solid ring is displaced in proportion to r
        h = inner[1] - inner[0]
        matrix[row, 0], matrix[row, 2], matrix[row, 1] = -1 / (2 * h), 1 / (2 * h), -1 / inner[0]
    traction(matrix, row + 1, points, steps, outer, *fit["outer"])
    traction(matrix, row + 2, 0, steps, inner, *fit["inner"])
    traction(matrix, row + 2, points, 0, outer, *fit["outer"], sign=-1.0)
    matrix[row + 3, points + 1], matrix[row + 3, steps + 1] = 1, -1
    right[row + 3] = fit["interference"] / 2
    u = spsolve(matrix.tocsc(), right)

    def at(first, i, radii, metal):
        h = radii[1] - radii[0]
        slope = (u[first + i + 2] - u[first + i]) / (2 * h)
        return stresses(*metal, radii[i], u[first + i + 1], slope)

    radial, hoop = at(points, 0, outer, fit["outer"])
    worst = max(np.sqrt(s * s - s * t + t * t) for s, t in (at(0, i, inner, fit["inner"]) for i in (0, steps)))
    return np.array([-radial, hoop, worst])


def main():
    answers = []
    for fit in json.load(sys.stdin):
        coarse, fine = solve(fit, STEPS), solve(fit, 2 * STEPS)
        pressure, hoop, inner = fine + (fine - coarse) / 3
        answers.append({"pressure": pressure, "hoop": hoop, "inner": inner})
    json.dump(answers, sys.stdout)


main()
