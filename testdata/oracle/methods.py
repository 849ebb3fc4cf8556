"""The forward models of the gauging catalogue, written from its text alone.

Each method has its roles in order, as name:kind, with ?default where a role is
optional, and the reading as a function of their values. They take complex
numbers, so that a step along the imaginary axis gives exact derivatives.
Kinds: length and angle as they stand; diameter, radius and half, which convert
sizes of the other sort; number.
"""

from cmath import cos, pi, sin, sqrt, tan

from written import ANGLE, LENGTH, NUMBER


def cot(x):
    return 1 / tan(x)


def involute(x):
    return tan(x) - x


def angle_of_involute(inv):
    """Solve tan φ - φ = inv; more steps than needed, so that the imaginary part settles too."""
    phi = (3 * inv) ** (1 / 3)
    for _ in range(40):
        phi -= (involute(phi) - inv) / tan(phi) ** 2
    return phi


def gear_over_pins(M, x, z, alpha, d, f):
    phi = angle_of_involute(d / (z * M * cos(alpha)) + involute(alpha) + 2 * x * tan(alpha) / z - pi / (2 * z))
    odd = cos(pi / 2 / z) if round(z.real) % 2 else 1
    return z * M * cos(alpha) / cos(phi) * odd + d


def gear_span(M, x, z, alpha, k, f):
    return M * cos(alpha) * ((k - 0.5) * pi + z * involute(alpha)) + 2 * x * M * sin(alpha)


def two_balls_stacked(D, d1, d2):
    s = (d1 + d2) / 2
    return s + sqrt(s**2 - (D - s) ** 2)


def thread_ball_tips(E, P, phi, d):
    return sqrt((E + P / 2 * cot(phi / 2) - d / sin(phi / 2)) ** 2 + (P / 2) ** 2) + d


def ball_feet_height(R, c, d, side):
    p = R + side * d / 2
    return p - sqrt(p**2 - c**2 / 4)


def three_rollers(R, d, c, side):
    p = R + side * d / 2
    return p - sqrt(p**2 - c**2)


WALL = "wall:diameter across:diameter "
TAPER = "mouth:diameter half-angle:half ball:diameter"
THREAD = "effective:diameter pitch:length angle:angle "
GEAR = "module:length shift:number teeth:number "

METHODS = {
    "outside": ("size:length", lambda s: s),
    "inside": ("size:length jaw-flat:length?0", lambda s, t: sqrt(s**2 - t**2)),
    "depth": ("size:length", lambda s: s),
    "protractor": ("angle:angle", lambda a: a),
    "wall-thickness": ("outer:diameter inner:diameter", lambda A, B: (A - B) / 2),
    "pitches": ("pitch:length n:number", lambda P, n: n * P),
    "runout": ("offset:length", lambda e: 2 * e),
    "lost-motion": ("backlash:length", lambda b: b),
    "over-two-pins": ("wall:diameter pin:diameter", lambda D, d: D + 2 * d),
    "over-one-pin": (WALL + "pin:diameter", lambda D, A, d: D / 2 + d + A / 2),
    "ball-near": (WALL + "ball:diameter", lambda D, A, d: D / 2 - d - A / 2),
    "ball-far": (WALL + "ball:diameter", lambda D, A, d: D / 2 - d + A / 2),
    "between-two-balls": ("wall:diameter ball:diameter", lambda D, d: D - 2 * d),
    "bridging-pin-near": (WALL + "pin:diameter length:length", lambda D, A, d, L: sqrt(D**2 - L**2) / 2 - d - A / 2),
    "bridging-pin-far": (WALL + "pin:diameter length:length", lambda D, A, d, L: sqrt(D**2 - L**2) / 2 - d + A / 2),
    "two-balls-stacked": ("bore:diameter lower:diameter upper:diameter", two_balls_stacked),
    "ball-on-mouth": ("bore:diameter ball:diameter", lambda D, d: d / 2 + sqrt(d**2 - D**2) / 2),
    "rocking-rod": ("bore:diameter rod:length", lambda D, L: 2 * L * sqrt(1 - L**2 / D**2)),
    "taper-over-rollers": (
        "small-end:diameter half-angle:half roller:diameter block:length?0",
        lambda D, a, d, h: D + 2 * (h + d / 2) * tan(a) + d / cos(a) + d,
    ),
    "taper-ball-depth": (TAPER, lambda D, a, d: (D / 2 - d / (2 * cos(a))) / tan(a) - d / 2),
    "countersink-ball": (TAPER, lambda D, a, d: d / 2 - (D / 2 - d / (2 * cos(a))) / tan(a)),
    "sine-bar": ("angle:angle bar:length", lambda a, L: L * sin(a)),
    "dovetail-over-rollers": ("width:length angle:angle roller:diameter", lambda W, a, d: W + d * (1 + cot(a / 2))),
    "dovetail-between-rollers": ("width:length angle:angle roller:diameter", lambda W, a, d: W - d * (1 + cot(a / 2))),
    "vee-roller": (
        "width:length angle:angle roller:diameter",
        lambda w, a, d: d / 2 * (1 + 1 / sin(a / 2)) - w / 2 * cot(a / 2),
    ),
    "three-wires": (
        THREAD + "wire:diameter major:diameter?0",
        lambda E, P, a, d, major: E + d * (1 + 1 / sin(a / 2)) - P / 2 * cot(a / 2),
    ),
    "thread-ball-tips": (THREAD + "ball:diameter", thread_ball_tips),
    "thread-between-balls": (THREAD + "ball:diameter", lambda E, P, a, d: E + P / 2 * cot(a / 2) - d / sin(a / 2) - d),
    "thread-bore": ("minor:diameter", lambda D: D),
    "over-crests": ("major:diameter", lambda D: D),
    "root": ("minor:diameter", lambda D: D),
    "chord-height": ("radius:radius chord:length", lambda R, c: R - sqrt(R**2 - c**2 / 4)),
    "ball-feet-height": ("radius:radius feet:length ball:diameter side:number", ball_feet_height),
    "three-rollers": ("radius:radius roller:diameter half-chord:length side:number", three_rollers),
    "rollers-on-flat": ("round:diameter roller:diameter", lambda D, d: 2 * sqrt(D * d) + d),
    "over-plugs": ("centres:length plug-1:diameter plug-2:diameter", lambda C, d1, d2: C + (d1 + d2) / 2),
    "between-plugs": ("centres:length plug-1:diameter plug-2:diameter", lambda C, d1, d2: C - (d1 + d2) / 2),
    "edge-to-plug-far": ("edge:length plug:diameter", lambda e, d: e + d / 2),
    "edge-to-plug-near": ("edge:length plug:diameter", lambda e, d: e - d / 2),
    "bolt-circle-chord": (
        "circle:diameter plug:diameter holes:number apart:number",
        lambda B, d, n, k: B * sin(pi * k / n) + d,
    ),
    "keyway-floor": ("shaft:diameter depth:length", lambda D, t: D - t),
    "keyway-floor-edge": (
        "shaft:diameter width:length depth:length",
        lambda D, b, t: D / 2 + sqrt(D**2 - b**2) / 2 - t,
    ),
    "flat-on-round": ("round:diameter width:length", lambda D, b: D / 2 + sqrt(D**2 - b**2) / 2),
    "hex-corners": ("flats:length", lambda s: 2 * s / sqrt(3)),
    "gear-span": (GEAR + "pressure:angle spanned:number addendum:number?1", gear_span),
    "gear-tips": (GEAR + "addendum:number?1", lambda M, x, z, f: M * (z + 2 * f + 2 * x)),
    "gear-tip-to-bore": (
        GEAR + "bore:diameter addendum:number?1",
        lambda M, x, z, B, f: M * (z + 2 * f + 2 * x) / 2 - B / 2,
    ),
    "gear-over-pins": (GEAR + "pressure:angle pin:diameter addendum:number?1", gear_over_pins),
}

# Any method of pins and balls takes the height of the wall, for its validity only.
IGNORED = {"height"}


def roles(method):
    """Return (name, kind, default text or None) of each role."""
    list_ = []
    for word in METHODS[method][0].split():
        name, kind = word.split(":")
        kind, _, default = kind.partition("?")
        list_.append((name, kind, default or None))
    return list_


def role_dimension(kind):
    return {"angle": ANGLE, "half": ANGLE, "number": NUMBER}.get(kind, LENGTH)


def role_factor(role, size):
    """Return how often a size of this kind counts in a role of that kind."""
    return {("diameter", "radius"): 2, ("radius", "diameter"): 0.5, ("half", "angle"): 0.5}.get((role, size), 1)
