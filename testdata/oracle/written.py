"""Written values and expressions, read as the description of the job file says.

Every scalar of a job is text. `length`, `angle` and `number` return exact
fractions of a millimetre, a degree and of one; `inside` turns them into what
the adjustment works with: mm, radians, plain numbers. An `Expression` can be
evaluated with complex numbers, so that a step along the imaginary axis gives
its exact derivative.
"""

import cmath
import math
import re
from fractions import Fraction

INCH = Fraction(254, 10)
LENGTH, ANGLE, NUMBER = (1, 0), (0, 1), (0, 0)  # powers of a length and of an angle


def number(text, inch=False):
    """Return '2.35', '1e-5', '7/32', '2 9/64' or '2-9/64' as a fraction."""
    mixed = re.fullmatch(r"(?:(\d+)[ -])?(\d+)/(\d+)", text.strip())
    if mixed:
        whole, over, under = mixed.groups()
        return Fraction(whole or 0) + Fraction(int(over), int(under))
    return Fraction(text.strip())


def length(text, inch):
    """Return a length in mm; a bare one is in the units of the file."""
    if text.endswith("tpi"):
        return INCH / number(text[:-3])
    for suffix, size in (("mm", 1), ("in", INCH), ('"', INCH)):
        if text.endswith(suffix):
            return number(text[: -len(suffix)]) * size
    return number(text) * (INCH if inch else 1)


def angle(text, inch=False):
    """Return an angle in degrees; a taper, which is on the diameter, gives its half angle."""
    if ":" in text:
        over, under = text.split(":")
        return from_radians(math.atan(number(over) / number(under) / 2))
    if text.endswith("in/ft"):
        return from_radians(math.atan(number(text[:-5]) / 24))
    if text.endswith("rad"):
        return from_radians(float(number(text[:-3])))
    sexagesimal = re.fullmatch(r"(-?)(\d+)d(?: (\d+)m)?(?: (\d+)s)?", text)
    if sexagesimal:
        sign, d, m, s = sexagesimal.groups()
        return (Fraction(d) + Fraction(m or 0) / 60 + Fraction(s or 0) / 3600) * (-1 if sign else 1)
    return number(text.removesuffix("deg"))


def from_radians(x):
    return Fraction(math.degrees(x))


def read(text, dimension, inch):
    return {LENGTH: length, ANGLE: angle, NUMBER: number}[dimension](text, inch)


def inside(value, dimension):
    """Return a value in mm, degrees or one as the adjustment works with it."""
    return math.radians(value) if dimension == ANGLE else float(value)


def outside(value, dimension):
    """Return a value of the adjustment in mm, degrees or one."""
    return math.degrees(value) if dimension == ANGLE else float(value)


def size_dimension(kind):
    return {"angle": ANGLE, "half-angle": ANGLE, "number": NUMBER}.get(kind, LENGTH)


def absolute(z):
    return z if z.real >= 0 else -z


FUNCTIONS = {
    "sqrt": cmath.sqrt, "exp": cmath.exp, "ln": cmath.log, "sin": cmath.sin, "cos": cmath.cos,
    "tan": cmath.tan, "asin": cmath.asin, "acos": cmath.acos, "atan": cmath.atan, "abs": absolute,
    "min": lambda a, b: a if a.real < b.real else b, "max": lambda a, b: a if a.real > b.real else b,
}

FIGURES = r"(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
TOKEN = re.compile(
    rf"\s*(?:(?P<literal>(?:(?:\d+ )?\d+/\d+|{FIGURES})\s*(?:mm|in/ft|in|tpi|deg|rad)\b)"
    rf"|(?P<bare>{FIGURES})|(?P<name>[A-Za-z]\w*)|(?P<sign>[-+*/^(),]))"
)


class Node:
    """Part of an expression: its value as a function of the names' values."""

    def __init__(self, value, dimension=NUMBER, bare=False):
        self.value = value
        self.dimension = dimension
        self.bare = bare  # made of constants without a unit only

    def like(self, dimension, inch):
        """Return the node as an operand beside one of this dimension."""
        if self.bare and dimension == LENGTH:
            return Node(lambda env: self.value(env) * (float(INCH) if inch else 1), LENGTH)
        assert self.dimension == dimension, "unlike things added"
        return self


class Expression:
    """An expression over sizes and pieces. dimensions: of every name."""

    def __init__(self, text, dimensions, inch):
        self.dimensions, self.inch = dimensions, inch
        self.tokens, at = [], 0
        while text[at:].strip():
            match = TOKEN.match(text, at)
            self.tokens.append((match.lastgroup, match.group(match.lastgroup)))
            at = match.end()
        self.tokens.append(("end", ""))
        self.names = {word for kind, word in self.tokens if kind == "name" and word in dimensions}
        self.root = self.sum()
        assert self.tokens == [("end", "")], f"cannot read {text!r}"

    def take(self, *words):
        if self.tokens[0][1] in words:
            return self.tokens.pop(0)[1]
        return None

    def alike(self, a, b, join):
        dimension = b.dimension if a.bare else a.dimension
        a, b = a.like(dimension, self.inch), b.like(dimension, self.inch)
        return Node(lambda env: join(a.value(env), b.value(env)), dimension, a.bare and b.bare)

    def sum(self):
        left = self.product()
        while sign := self.take("+", "-"):
            left = self.alike(left, self.product(), (lambda a, b: a + b) if sign == "+" else (lambda a, b: a - b))
        return left

    def product(self):
        left = self.signed()
        while sign := self.take("*", "/"):
            left = self.times(left, self.signed(), 1 if sign == "*" else -1)
        return left

    @staticmethod
    def times(a, b, power):
        dimension = tuple(p + power * q for p, q in zip(a.dimension, b.dimension))
        if power > 0:
            return Node(lambda env: a.value(env) * b.value(env), dimension, a.bare and b.bare)
        return Node(lambda env: a.value(env) / b.value(env), dimension, a.bare and b.bare)

    def signed(self):
        if self.take("-"):
            a = self.signed()
            return Node(lambda env: -a.value(env), a.dimension, a.bare)
        base = self.atom()
        if not self.take("^"):
            return base
        power = self.signed()
        if base.dimension == NUMBER:
            return Node(lambda env: base.value(env) ** power.value(env), NUMBER, base.bare and power.bare)
        n = power.value({}).real
        return Node(lambda env: base.value(env) ** n, tuple(p * n for p in base.dimension))

    def atom(self):
        kind, word = self.tokens.pop(0)
        if kind == "bare":
            value = complex(float(word))
            return Node(lambda env: value, NUMBER, True)
        if kind == "literal":
            dimension = LENGTH if word.endswith(("mm", "in", "tpi")) else ANGLE
            value = complex(inside(read(word, dimension, self.inch), dimension))
            return Node(lambda env: value, dimension)
        if word == "(":
            node = self.sum()
            assert self.take(")")
            return node
        if word == "pi":
            return Node(lambda env: complex(math.pi))
        if word in FUNCTIONS:
            return self.call(word)
        return Node(lambda env: env[word], self.dimensions[word])

    def call(self, word):
        assert self.take("(")
        a, function = self.sum(), FUNCTIONS[word]
        if word in ("min", "max"):
            assert self.take(",")
            a = self.alike(a, self.sum(), function)
            assert self.take(")")
            return a
        assert self.take(")")
        dimension = NUMBER
        if word == "abs":
            dimension = a.dimension
        elif word == "sqrt":
            dimension = tuple(p / 2 for p in a.dimension)
        elif word in ("asin", "acos", "atan"):
            dimension = ANGLE
        return Node(lambda env: function(a.value(env)), dimension, a.bare)
