#!/usr/bin/env python3
"""Makes adjust.txt: redundant measurements of 300 triangles, adjusted by SciPy.

    python3 adjust.py > adjust.txt

A line is: the measurements with their tolerances, |, the sides BC CA AB that
make the sum of ((measured - computed)/tolerance)^2 least (scipy.optimize.least_squares).
"""
import random
import numpy as np
from scipy.optimize import least_squares

random.seed(11)
NAMES = ["BC", "CA", "AB", "A", "B", "C", "A-BC", "B-CA", "C-AB"]


def nine(s):
    a, b, c = s
    p = (a + b + c) / 2
    area = np.sqrt(p * (p - a) * (p - b) * (p - c))
    A = np.degrees(np.arctan2(4 * area, b * b + c * c - a * a))
    B = np.degrees(np.arctan2(4 * area, c * c + a * a - b * b))
    C = np.degrees(np.arctan2(4 * area, a * a + b * b - c * c))
    return np.array([a, b, c, A, B, C, 2 * area / a, 2 * area / b, 2 * area / c])


made = 0
while made < 300:
    s = sorted(random.uniform(200, 3000) for _ in range(3))
    if s[0] + s[1] < 1.15 * s[2]:
        continue
    random.shuffle(s)
    which = random.sample(range(9), random.randint(4, 9))
    true = nine(s)
    tol = {q: random.choice([0.05, 0.1, 0.5]) if q // 3 == 1 else random.choice([0.5, 1, 2]) for q in which}
    got = {q: round(true[q] + 0.6 * tol[q] * random.uniform(-1, 1), 3) for q in which}

    def off(x):
        n = nine(x)
        return np.array([(n[q] - got[q]) / tol[q] for q in which])

    r = least_squares(off, s, x_scale=s, xtol=3e-16, ftol=3e-16, gtol=3e-16, method="lm")
    # where the sum of squares has a second valley or a flat one, which is meant is open
    J = r.jac * np.array(s)
    if np.linalg.cond(J) > 1e5:
        continue
    tokens = [f"{NAMES[q]}={got[q]}{'deg' if q // 3 == 1 else ''}+-{tol[q]}" for q in which]
    print(*tokens, "|", *(f"{x:.12f}" for x in r.x))
    made += 1
