#!/usr/bin/python3
# Writes distortion.txt: what SciPy makes of distortions and of lengths measured
# under them, to check geom's against. python3-scipy (Debian 1.10), run by hand:
#   python3 distortion.py > distortion.txt
#
# Lines: "map across along skew a b d" is the symmetric square root (scipy.linalg.sqrtm)
# of the Gram matrix of the two printed directions, skew in degrees; "fit n" is
# followed by n lines "x y found step", and a line "is across along skew uncertainty":
# the least-squares fit (scipy.optimize.least_squares, three unknowns), and the 95 %
# point of the largest singular value less 1 over 400 000 random sets of errors.
import numpy as np
from scipy.linalg import sqrtm
from scipy.optimize import least_squares

rng = np.random.default_rng(20240611)


def gram(a, l, k):
    x, y = 1 + a, 1 + l
    return np.array([[x * x, -x * y * np.sin(k)], [-x * y * np.sin(k), y * y]])


def length(p, v):
    return np.sqrt(np.einsum("ij,jk,ik->i", v, gram(*p), v))


for _ in range(40):
    a, l = rng.uniform(-0.03, 0.03, 2)
    k = np.radians(rng.uniform(-1, 1))
    m = sqrtm(gram(a, l, k)).real
    print("map %.17g %.17g %.17g %.17g %.17g %.17g" % (a, l, np.degrees(k), m[0, 0], m[0, 1], m[1, 1]))

for n in range(12):
    w, h = rng.uniform(120, 800, 2)
    v = np.array([[w, 0], [0, h], [w, h], [-w, h]])
    step = np.full(4, 0.25)
    if n % 3 == 1:
        v, step = np.concatenate([v, 0.97 * v]), np.concatenate([step, np.full(4, 0.1)])
    true = np.append(rng.uniform(-0.015, 0.015, 2), np.radians(rng.uniform(-0.3, 0.3)))
    found = np.round(length(true, v) / step) * step
    f = least_squares(lambda p: (length(p, v) - found) / step, [0, 0, 0], xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale=[1e-3] * 3)
    j = f.jac * step[:, None]
    wt = np.diag(1 / step**2)
    g = np.linalg.solve(j.T @ wt @ j, j.T @ wt)
    e = rng.uniform(-0.5, 0.5, (400000, len(v))) * step @ g.T
    # To first order the map is [[across, -skew/2], [-skew/2, along]].
    mid, half = (e[:, 0] + e[:, 1]) / 2, np.hypot((e[:, 0] - e[:, 1]) / 2, e[:, 2] / 2)
    u = np.quantile(np.abs(mid) + half, 0.95)
    print("fit %d" % len(v))
    for p, q, s in zip(v, found, step):
        print("%.17g %.17g %.17g %.17g" % (p[0], p[1], q, s))
    print("is %.17g %.17g %.17g %.6g" % (f.x[0], f.x[1], np.degrees(f.x[2]), u))
