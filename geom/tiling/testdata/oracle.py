# Layouts by shapely, from standard input: one JSON a line, answers a line each:
# area of the region, of whole tiles, of cut pieces, of dropped ones; counts of whole,
# cut and dropped. Definitions as in the package's comment.
import json, math, sys
import numpy as np
from shapely.geometry import Polygon, MultiPolygon, box
from shapely.affinity import rotate

def parts(g):
    if g.is_empty:
        return []
    if g.geom_type == "Polygon":
        return [g]
    return [p for p in getattr(g, "geoms", []) if p.geom_type == "Polygon"]

def caliper(p):
    h = np.array(p.convex_hull.exterior.coords)
    best = math.inf
    for a, b in zip(h[:-1], h[1:]):
        d = b - a
        n = np.hypot(*d)
        if n < 1e-9:
            continue
        s = ((h - a) @ np.array([-d[1], d[0]])) / n
        best = min(best, s.max() - s.min())
    return best if best < math.inf else 0.0

for line in sys.stdin:
    q = json.loads(line)
    region = Polygon(q["walls"]).buffer(-q["gap"], join_style=2, mitre_limit=4)
    for o in q["openings"]:
        region = region.difference(Polygon(o).buffer(q["gap"], join_style=2, mitre_limit=4))
    area = region.area
    region = rotate(region, -q["angle"], origin=(0, 0), use_radians=True)
    t1, t2, j = q["tile"]
    step, of = q["offset"]
    u, v = q["shift"]
    x0, y0, x1, y1 = region.bounds
    out = [area, 0, 0, 0, 0, 0, 0]
    for r in range(math.floor((y0 - v) / (t2 + j)) - 1, math.ceil((y1 - v) / (t2 + j)) + 1):
        x = u + (r * step) % of / of * (t1 + j)
        for c in range(math.floor((x0 - x) / (t1 + j)) - 1, math.ceil((x1 - x) / (t1 + j)) + 1):
            a, b = x + c * (t1 + j), v + r * (t2 + j)
            tile = box(a, b, a + t1, b + t2)
            if not tile.intersects(region):
                continue
            core = box(a + .5, b + .5, a + t1 - .5, b + t2 - .5)
            if core.area - core.intersection(region).area < 1e-3:
                out[1] += tile.intersection(region).area
                out[4] += 1
                continue
            for p in parts(tile.intersection(region)):
                k = 2 if caliper(p) > .5 else 3
                out[k] += p.area
                if p.area > 1e-6:
                    out[k + 3] += 1
    print(*out)
