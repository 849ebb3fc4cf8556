"""Chances of a clearance by numeric integration, apart from the program's own closed form.

Reads a list of {x, u, t} and prints for each the chance that a normal quantity
of standard deviation u plus a rectangular one of ±t lies below x, as the
integral of the normal density times the distribution of the rectangle, cut at
its two corners.
"""

import json
import sys

import numpy
from scipy.integrate import quad
from scipy.stats import norm


def below(x, u, t):
    """Return the integral over e of N(e; 0, u) times P(rectangle < x - e)."""
    corners = numpy.clip([x - t, x + t], -12 * u, 12 * u)
    whole = norm.cdf(corners[0], scale=u)  # there the rectangle lies below x for certain
    rising, _ = quad(
        lambda e: norm.pdf(e, scale=u) * (x - e + t) / (2 * t),
        corners[0],
        corners[1],
        epsabs=1e-14,
        epsrel=1e-12,
        limit=500,
        points=[p for p in (-3 * u, -u, 0, u, 3 * u) if corners[0] < p < corners[1]] or None,
    )
    return whole + rising


print(json.dumps([below(**case) for case in json.load(sys.stdin)]))
