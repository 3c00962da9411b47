#!/usr/bin/env python3
"""Makes found.txt.gz: simulated layouts that were set out and measured back.

    python3 found.py 1000 600 3 | gzip -9n > found.txt.gz

The arguments are how many with one peg moved, how many clean ones, and the seed. A
line is: x y of each peg where it should stand, |, the sigma of setting out, |, the
moved peg (- for none), by how many sigma, and dx dy, where it really stands less
where it should, |, all distances as found, |, what SciPy makes of it with that peg
free: dx dy, their variances and covariance, the sum of squares with no peg free and
with this one (0s for a clean one). In mm.

A peg comes to its place with a normal error of sigma along x and y; the moved one
is then moved by 5 to 50 sigma in any direction. A distance is read to 0.1 mm with
the normal error of a tape of class II (0.3 + 0.2 L, L in metres rounded up, a bound),
1 mm for nail and eye (a tolerance) and the rounding (a bound).

The fit is scipy.optimize.least_squares (lm); variances from its Jacobian.
"""
import sys
import numpy as np
from scipy.optimize import least_squares

moved, clean, seed = (int(a) for a in sys.argv[1:4])
rng = np.random.default_rng(seed)


def tape(d):
    return np.sqrt(((0.3 + 0.2 * np.ceil(d / 1000 * (1 - 1e-9))) ** 2 + 0.05 ** 2) / 3 + 0.5 ** 2)


def fit(wanted, sigma, pairs, found, free):
    n = len(wanted)
    held = [i for i in range(n) if i != free]

    def residuals(x):
        p = x.reshape(n, 2)
        d = np.hypot(*(p[pairs[:, 0]] - p[pairs[:, 1]]).T)
        return np.concatenate([((p - wanted) / sigma)[held].ravel(), (d - found) / tape(found)])

    start = wanted.copy().ravel()
    s = least_squares(residuals, start, method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15)
    cov = np.linalg.inv(s.jac.T @ s.jac)
    return s.x.reshape(n, 2), cov, 2 * s.cost


for k in range(moved + clean):
    n = int(rng.integers(4, 9))
    size = 4000 + 16000 * rng.random()
    a = 2 * np.pi * (np.arange(n) + 0.5 * (rng.random(n) - 0.5)) / n
    r = size * (0.5 + 0.5 * rng.random(n))
    wanted = np.round(np.column_stack([r * np.cos(a), r * np.sin(a)]), 1)
    sigma = round(1 + 4 * rng.random(), 2)
    stands = wanted + sigma * rng.standard_normal((n, 2))
    which, by = -1, 0.0
    if k < moved:
        which, by, way = int(rng.integers(n)), 5 + 45 * rng.random(), 2 * np.pi * rng.random()
        stands[which] += by * sigma * np.array([np.cos(way), np.sin(way)])
    pairs = np.array([(i, j) for j in range(n) for i in range(j)])
    true = np.hypot(*(stands[pairs[:, 0]] - stands[pairs[:, 1]]).T)
    found = np.round(true + tape(true) * rng.standard_normal(len(true)), 1)
    name = lambda i: chr(65 + i)
    part = [" ".join("%.1f %.1f" % tuple(w) for w in wanted), "%.2f" % sigma]
    off = stands[which] - wanted[which] if which >= 0 else (0, 0)
    part.append("%s %.3f %.4f %.4f" % (name(which) if which >= 0 else "-", by, *off))
    part.append(" ".join("%s%s=%.1f" % (name(i), name(j), f) for (i, j), f in zip(pairs, found)))
    if which < 0:
        part.append("0 0 0 0 0 0 0")
    else:
        _, _, whole = fit(wanted, sigma, pairs, found, -1)
        p, cov, left = fit(wanted, sigma, pairs, found, which)
        d, i = p[which] - wanted[which], 2 * which
        part.append("%.5f %.5f %.8g %.8g %.8g %.7g %.7g" % (*d, cov[i, i], cov[i + 1, i + 1], cov[i, i + 1], whole, left))
    print("|".join(part))
