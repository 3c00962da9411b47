#!/usr/bin/env python3
"""Makes oracle.txt.gz: 10,000 triangles by mpmath at 60 digits.

    python3 oracle.py | gzip -9n > oracle.txt.gz

A line is: kind, three measurements, |, BC CA AB, the angles A B C in degrees,
the heights from A B C, the area, each to 20 digits (mm, degrees, mm2).

Lines "given": the triangle has sides of at most ten digits and the three
measurements are any of the 77 triples that determine a triangle, written to 34
digits, so that the triangle is known without solving for it.
Lines "short": sides, angles as measured (0.1 mm, 0.01 degree), solved by the
laws of sines and cosines.
"""
import random
from itertools import combinations
from mpmath import mp, mpf, acos, asin, cos, degrees, nstr, radians, sin, sqrt

mp.dps = 60
random.seed(20260)
NAMES = ["BC", "CA", "AB", "BAC", "CBA", "ACB", "A-BC", "B-CA", "C-AB"]


def nine(s):
    a, b, c = s
    p = (a + b + c) / 2
    area = sqrt(p * (p - a) * (p - b) * (p - c))
    A = acos((b * b + c * c - a * a) / (2 * b * c))
    B = acos((c * c + a * a - b * b) / (2 * c * a))
    C = acos((a * a + b * b - c * c) / (2 * a * b))
    return [a, b, c, degrees(A), degrees(B), degrees(C), 2 * area / a, 2 * area / b, 2 * area / c], area


def dependent(t):
    kinds, corners = [q // 3 for q in t], [q % 3 for q in t]
    return kinds == [1, 1, 1] or kinds == [0, 1, 2] and len(set(corners)) == 3


TRIPLES = [t for t in combinations(range(9), 3) if not dependent(t)]
assert len(TRIPLES) == 77


def sound(s, t):
    """Whether the triple changes with the sides to first order: at a right
    angle, or where two answers meet, 34 digits do not decide."""
    e = mpf(10) ** -40
    base, _ = nine(s)
    changes = []  # by side, then by quantity
    for k in range(3):
        moved = list(s)
        moved[k] *= 1 + e
        n, _ = nine(moved)
        changes.append([(n[q] - base[q]) / (e * base[q]) for q in t])
    a, b, c = ([x / max(map(abs, q)) for x in q] for q in zip(*changes))
    det = (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]))
    return abs(det) > mpf(10) ** -12


def decimal(x, places):
    return mpf(str(round(x, places)))


def shape(kind):
    size = 10 ** random.uniform(0.3, 5.9)
    places = max(0, 9 - len(str(int(size))))
    u = random.uniform
    if kind == "any":
        s = [size * u(0.05, 1) for _ in range(3)]
    elif kind == "right":
        m, n = random.sample(range(1, 60), 2)
        s = [abs(m * m - n * n), 2 * m * n, m * m + n * n]
        places = 1
    elif kind == "isosceles":
        s = [size, size, size * u(0.001, 1.999)]
    elif kind == "equilateral":
        s = [size] * 3
    elif kind == "needle":  # one side short beside the others
        short = 10 ** u(0, 1) * max(1, size * 1e-6)
        s = [size, size + short * u(-0.99, 0.99), short]
        places = 6
    else:  # flat: two sides hardly reach across the third
        x = size * u(0.05, 0.95)
        s = [x, size - x + size * 10 ** u(-10, -3), size]
        places = 9
    random.shuffle(s)
    return [decimal(x, places) for x in s]


def triangle(s):
    a, b, c = sorted(s)
    return a >= 1 and c <= 10 ** 6 and a + b > c


def text(q, v, digits):
    return NAMES[q] + "=" + nstr(v, digits, strip_zeros=True, min_fixed=-99, max_fixed=99) + ("deg" if q // 3 == 1 else "")


def line(kind, tokens, s):
    values, area = nine(s)
    # sides of few digits are exact: no need for zeros
    out = [nstr(v, 20, min_fixed=-99, max_fixed=99).removesuffix(".0") for v in values + [area]]
    print(kind, *tokens, "|", *out)


def given(kind):
    while True:
        s, t = shape(kind), random.choice(TRIPLES)
        if triangle(s) and sound(s, t):
            values, _ = nine(s)
            return line("given-" + kind, [text(q, values[q], 34) for q in t], s)


def short():
    while True:
        a, b = (decimal(10 ** random.uniform(1, 5), 1) for _ in range(2))
        A, B = (decimal(random.uniform(0.5, 179), 2) for _ in range(2))
        case = random.choice(["SSS", "SAS", "ASA", "AAS", "SSA"])
        if case == "SSS":
            c = decimal(random.uniform(float(abs(a - b)), float(a + b)), 1)
            s, t, v = [a, b, c], (0, 1, 2), (a, b, c)
        elif case == "SAS":  # b and c about A
            s, t, v = [sqrt(a * a + b * b - 2 * a * b * cos(radians(A))), a, b], (1, 2, 3), (a, b, A)
        elif case == "ASA" or case == "AAS":
            if A + B >= 180:
                continue
            C = 180 - A - B
            side = 2 if case == "ASA" else 0
            k = a / sin(radians([A, B, C][side]))
            s = [k * sin(radians(x)) for x in (A, B, C)]
            t, v = (side, 3, 4), (a, A, B)
        else:
            x = b * sin(radians(A)) / a
            if x >= 1:
                continue
            B = degrees(asin(x))
            if random.random() < 0.5:
                B = 180 - B
            C = 180 - A - B
            if C <= 0:
                continue
            s, t, v = [a, b, a * sin(radians(C)) / sin(radians(A))], (0, 1, 3), (a, b, A)
        if triangle(s):
            return line("short-" + case, [text(q, x, 12) for q, x in zip(t, v)], s)


for kind, n in (("any", 2500), ("right", 1000), ("isosceles", 1000), ("equilateral", 100), ("needle", 1500), ("flat", 1400)):
    for _ in range(n):
        given(kind)
for _ in range(2500):
    short()
