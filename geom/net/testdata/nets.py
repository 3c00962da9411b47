#!/usr/bin/env python3
"""Makes nets.txt.gz: random nets adjusted by SciPy.

    python3 nets.py 200 1 | gzip -9n > nets.txt.gz

The arguments are how many, and the seed. A line is: the outline, |,
measurements with their tolerances, |, for each
point in the order of the alphabet x y sigma_x sigma_y in mm, the first at the
origin and the second on the x axis.

The adjustment is scipy.optimize.least_squares (lm) over residuals divided by
half of the tolerance, from the true places; sigma from the Jacobian by complex
steps at the end.
"""
import sys
import numpy as np
from scipy.optimize import least_squares

how_many, seed = int(sys.argv[1]), int(sys.argv[2])
rng = np.random.default_rng(seed)


def value(kind, at, p):
    """What is measured, of complex places too: p is an array of x + y columns."""
    if kind == "d":
        d = p[at[1]] - p[at[0]]
        return np.sqrt(d[0] * d[0] + d[1] * d[1])
    if kind == "a":
        u, v = p[at[0]] - p[at[1]], p[at[2]] - p[at[1]]
        c, s = u[0] * v[0] + u[1] * v[1], u[0] * v[1] - u[1] * v[0]
        # an angle as arc cosine and arc sine of real numbers; analytic in both
        if s.real < 0:
            s = -s
        h = np.sqrt(c * c + s * s)
        a = np.arctan(s / (h + c)) * 2 if c.real > -0.9 * h.real else np.pi - 2 * np.arctan(s / (h - c))
        return a * 180 / np.pi
    u, v = p[at[2]] - p[at[1]], p[at[0]] - p[at[1]]
    s = u[0] * v[1] - u[1] * v[0]
    if s.real < 0:
        s = -s
    return s / np.sqrt(u[0] * u[0] + u[1] * u[1])


def token(kind, at, v, tol):
    n = [chr(65 + i) for i in at]
    if kind == "d":
        return f"{n[0]}{n[1]}={v:.3f}+-{tol}"
    if kind == "a":
        return f"{n[0]}{n[1]}{n[2]}={v:.5f}deg+-{tol}deg"
    return f"{n[0]}-{n[1]}{n[2]}={v:.3f}+-{tol}"


made = 0
while made < how_many:
    n = rng.integers(3, 11)
    corners = rng.integers(3, n + 1)
    size = 10 ** rng.uniform(3.3, 4.9)
    turn = np.sort((np.arange(corners) + rng.uniform(-0.3, 0.3, corners)) * 2 * np.pi / corners)
    p = np.empty((n, 2))
    p[:corners] = size * np.column_stack([np.cos(turn), np.sin(turn)])
    p[corners:] = rng.uniform(-0.6, 0.6, (n - corners, 2)) * size
    p[:, 0] *= rng.uniform(0.4, 1)
    near = min(np.hypot(*(p[i] - p[j])) for i in range(n) for j in range(i))
    if near < size / 8:
        continue
    # the first at the origin, the second on the x axis
    d = p[1] - p[0]
    c, s = d / np.hypot(*d)
    p = (p - p[0]) @ np.array([[c, -s], [s, c]])
    p[0], p[1, 1] = 0, 0
    if p[2, 1] <= 0:
        continue

    obs, seen = [], set()

    def add(kind, at):
        key = (kind, at[1], *sorted((at[0], at[2]))) if kind == "a" else (kind, at[0], *sorted(at[1:])) if kind == "h" else (kind, *sorted(at))
        if key in seen:
            return
        v = value(kind, at, p)
        if kind == "a" and not 8 < v < 172 or kind == "h" and v < size / 10:
            return
        if kind == "h":
            u = p[at[2]] - p[at[1]]
            t = (p[at[0]] - p[at[1]]) @ u / (u @ u)
            if not -0.5 < t < 1.5:
                return
        seen.add(key)
        tol = rng.choice([0.01, 0.02, 0.1]) if kind == "a" else rng.choice([1, 2, 5])
        obs.append((kind, at, v, tol))

    # each point is hung on two before it, so that the net is fixed; the rest at random
    add("d", (0, 1))
    for i in range(2, n):
        j, k = sorted(rng.choice(i, 2, replace=False))
        add("d", (int(j), i))
        add("d", (int(k), i))
    for _ in range(int(rng.integers(2, 3 * n))):
        kind = str(rng.choice(["d", "d", "a", "h"]))
        at = tuple(int(i) for i in rng.choice(n, 2 if kind == "d" else 3, replace=False))
        add(kind, at)
    if len(obs) <= 2 * n - 3:
        continue
    obs = [obs[i] for i in rng.permutation(len(obs))]
    read = []
    for kind, at, v, tol in obs:
        v = v + rng.normal() * tol / 2
        read.append(round(v, 5 if kind == "a" else 3))

    free = [(1, 0)] + [(i, k) for i in range(2, n) for k in (0, 1)]

    def places(x):
        q = np.zeros((n, 2), dtype=x.dtype)
        for v, (i, k) in zip(x, free):
            q[i, k] = v
        return q

    def off(x):
        q = places(x)
        return np.array([(value(kind, at, q) - r) / (tol / 2) for (kind, at, _, tol), r in zip(obs, read)])

    def jac(x):
        J = np.empty((len(obs), len(x)))
        for i in range(len(x)):
            z = x.astype(complex)
            z[i] += 1e-30j
            J[:, i] = off(z).imag / 1e-30
        return J

    x0 = np.array([p[i, k] for i, k in free])
    J = jac(x0)
    if np.linalg.cond(J) > 3e3:
        continue  # a point that is hardly held
    r = least_squares(off, x0, jac=jac, method="lm", xtol=3e-16, ftol=3e-16, gtol=3e-16)
    x = r.x
    last = np.inf
    for _ in range(200):  # last digits: until the steps no longer shrink
        step = np.linalg.lstsq(jac(x), off(x), rcond=None)[0]
        if max(abs(step)) >= last:
            break
        x, last = x - step, max(abs(step))
    J = jac(x)
    Q = np.linalg.inv(J.T @ J)
    s = np.sqrt(np.diag(Q))
    if max(s) > size / 200:
        continue
    q, sq = places(x), places(s)
    letters = [chr(65 + i) for i in range(n)]
    print(" ".join(letters[:corners]), "|",
          " ".join(token(k, a, v, t) for (k, a, _, t), v in zip(obs, read)), "|",
          " ".join(f"{q[i, 0]:.9f} {q[i, 1]:.9f} {sq[i, 0]:.10g} {sq[i, 1]:.10g}" for i in range(n)))
    made += 1
