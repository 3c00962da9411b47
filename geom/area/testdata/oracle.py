# python3 oracle.py COUNT: pairs of random star-shaped rings of some metres, and by
# shapely (Debian's python3-shapely) the areas of what is common, united, and left of the first.
import math, random, sys
from shapely.geometry import Polygon

random.seed(20261129)

def ring():
    n = random.randint(3, 12)
    at = sorted(random.uniform(0, 2 * math.pi) for _ in range(n))
    x, y = random.uniform(0, 3000), random.uniform(0, 3000)
    return [(x + r * math.cos(a), y + r * math.sin(a)) for a in at for r in [random.uniform(200, 2500)]]

made = 0
while made < int(sys.argv[1]):
    p, q = ring(), ring()
    a, b = Polygon(p), Polygon(q)
    if not (a.is_valid and b.is_valid):
        continue
    made += 1
    flat = lambda r: " ".join("%.17g %.17g" % c for c in r)
    print(flat(p), flat(q), "%.17g" % a.intersection(b).area, "%.17g" % a.union(b).area, "%.17g" % a.difference(b).area, sep=";")
