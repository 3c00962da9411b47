# Makes written.txt, the figures that style_test.go compares with:
#     python3 written.py > written.txt
# Python 3, fractions and decimal (ROUND_HALF_UP): exact, and none of our code.
# Lines: mm TEXT | millimetres to 0.1 | feet and inches to 1/16 | inches to 1/64 | metres to 0.001
#    or: deg TEXT | degrees to 0.1 | degrees and minutes
import random
from decimal import Decimal, ROUND_HALF_UP, localcontext
from fractions import Fraction

random.seed(5)

def half_up(f):
    """to the nearest whole number, half away from zero (f >= 0)"""
    with localcontext() as c:
        c.prec = 80
        return int((Decimal(f.numerator) / Decimal(f.denominator)).quantize(Decimal(1), ROUND_HALF_UP))

def thin(n):
    return "{:,}".format(n).replace(",", "\u2009") if n >= 10000 else str(n)

def metric(f, places):
    n = half_up(f * 10 ** places)
    whole, part = divmod(n, 10 ** places)
    tail = str(part).rjust(places, "0").rstrip("0")
    return thin(whole) + ("." + tail if tail else "")

def inch(f, d, feet):
    n = half_up(f / Fraction("25.4") * d)
    ft = n // (12 * d) if feet else 0
    n -= ft * 12 * d
    whole, part = Fraction(n // d), Fraction(n % d, d)
    words = []
    if whole or ft or not part:
        words.append(thin(int(whole)))
    if part:
        words.append(str(part))
    return (thin(ft) + "'-" if ft else "") + " ".join(words) + '"'

texts = ["0.05", "0.15", "0.25", "2400", "9999.95", "9999.94", "10000", "1000000", "304.8", "304.79", "304.0", "2438.146"]
texts += ["%.*f" % (random.randint(0, 6), random.choice([1, 10, 300, 5000, 20000, 999999]) * random.random()) for _ in range(200)]
texts += ["%d.%d5" % (random.randint(0, 12000), random.randint(0, 9)) for _ in range(60)]
for _ in range(100):  # halves of sixteenths, thirty-seconds ... exactly
    f = Fraction(random.randint(1, 40000), random.choice([8, 16, 32, 64, 128])) * Fraction("25.4")
    texts.append(format(Decimal(f.numerator) / Decimal(f.denominator), "f"))
for t in texts:
    f = Fraction(t)
    print("mm", t, "|", metric(f, 1), "|", inch(f, 16, True), "|", inch(f, 64, False), "|", metric(f / 1000, 3))
texts = ["89.95", "89.949", "59.9917", "35.25", "0.05", "179.95", "179.94", "12.0083", "44.9999", "0.5"]
texts += ["%.*f" % (random.randint(0, 5), random.uniform(0.1, 179.9)) for _ in range(150)]
texts += ["%d.%d5" % (random.randint(0, 179), random.randint(0, 9)) for _ in range(60)]
for t in texts:
    f = Fraction(t)
    m = half_up(f * 60)
    print("deg", t, "|", metric(f, 1) + "°", "|", "%d°%02d′" % divmod(m, 60))
