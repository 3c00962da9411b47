# Makes table.txt, the values that trig_test.go compares with:
#     python3 table.py > table.txt
# mpmath 1.3.0 at 1000 digits; each argument is exact (mantissa p exponent), each value has 100 digits.
# Lines: sin|cos|tan|atan X VALUE, pi BITS HEX (floor(pi*2^BITS)).
import random
from mpmath import mp, mpf, pi, sin, cos, tan, atan, nstr, floor, nint, radians

mp.dps = 1000
random.seed(2)

def exact(x, bits=256):
    """x cut to so many bits: the value and how Go writes it."""
    x = mpf(x)
    m, e = mp.frexp(x)
    n = int(nint(m * mpf(2) ** bits))
    e = int(e) - bits
    return mpf(n) * mpf(2) ** e, "%dp%d" % (n, e)

def show(v):
    return nstr(v, 100, strip_zeros=False, min_fixed=1, max_fixed=0)

args = [exact(radians(d)) for d in (1, 15, 30, 45, 60, 89, 90, 91, 120, 135, 179, 180, 225, 270, 315, 359, 360)]
args += [exact(radians(d), 53) for d in (35, 52, 90, 180, 60.5)]
args += [exact(mpf(2) ** -k) for k in (0, 1, 2, 7, 30, 60, 200, 900)]
args += [exact(radians(180) + mpf(2) ** -k) for k in (20, 100, 250)]
args += [exact(pi * k / 2, b) for k in (1, 2, 3, 17, 123456789) for b in (24, 64, 200)]
args += [exact(random.uniform(-7, 7)) for _ in range(20)]
args += [exact(-radians(d)) for d in (1, 90, 180, 300)]
args += [exact(mpf(10) ** k) for k in (3, 15, 40)]
for v, s in args:
    for name, f in (("sin", sin), ("cos", cos), ("tan", tan)):
        print(name, s, show(f(v)))
ats = [exact(mpf(k) / 12) for k in (1, 4, 7, 12, 24, 144)] + [exact(mpf(2) ** k) for k in (-900, -60, -51, -50, -49, -3, 0, 1, 2, 60, 900)]
ats += [exact(random.uniform(-3, 3)) for _ in range(20)] + [exact(1 + mpf(2) ** -k) for k in (10, 60, 200)]
for v, s in ats:
    print("atan", s, show(atan(v)))
for b in (53, 256, 1022, 3000):
    print("pi", b, "%x" % int(floor(mp.pi * mpf(2) ** b)) if b < 1300 else "%x" % int(floor(mp.atan(1) * 4 * mpf(2) ** b)))
