# Reads a task a line (kind and three numbers) and writes its answers, by mpmath at 40 digits:
# the corner C is found by mpmath.findroot from what is given, and measured.
import sys
from mpmath import mp, mpf, sqrt, atan2, pi, findroot

mp.dps = 40
deg = pi / 180


def dist(p, q):
    return sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2)


def at_a(p):
    return atan2(p[1], p[0]) / deg


def at_b(p, c):
    return atan2(p[1], c - p[0]) / deg


BY = {
    "SSS": ("BC", "CA"), "ISO": ("BC", "CA"), "SAS": ("A", "CA"), "SASO": ("A", "CA"), "LEGS": ("A", "CA"),
    "ASA": ("A", "B"), "AAS": ("A", "C"), "RHS": ("A", "BC"), "SSA1": ("A", "BC"), "SSA2": ("A", "BC"),
    "BHA": ("A", "H"), "BHS": ("H", "CA"),
}


def measure(q, p, c):
    if q == "BC":
        return dist(p, (c, 0))
    if q == "CA":
        return dist(p, (0, 0))
    if q == "A":
        return at_a(p)
    if q == "B":
        return at_b(p, c)
    if q == "C":
        return 180 - at_a(p) - at_b(p, c)
    return p[1]


for line in sys.stdin:
    kind, c, x, y, box, px, py = line.split()
    c, given = mpf(c), (mpf(x), mpf(y))
    q = BY[kind]

    def off(u, v):
        return [measure(q[0], (u, v), c) - given[0], measure(q[1], (u, v), c) - given[1]]

    p = findroot(off, (mpf(px), mpf(py)))
    print(mp.nstr(measure(box, (p[0], p[1]), c), 25))
