#!/usr/bin/env python3
"""Makes oracle.txt.gz: random pieces with allowances, corners and holes, by shapely.

    /usr/bin/python3 oracle.py 2000 | gzip -9n > oracle.txt.gz

Triangles (needles among them), convex and hollow polygons. A line has fields
parted by " | ":

    verdict | x,y of each corner | edges | corners | holes
    | areas of the finished and the cut contour, lengths of both, area of the holes
    | the cut line's ends beside each edge | the centre of each hole

Tokens in a field are parted by ";". Verdicts: ok, or why a piece cannot be made:
meet (corners take more of an edge than it has), spike (cut lines run out too far),
eaten (cut lines run the wrong way), crossed (a contour crosses itself), hole.
A refused piece has no figures. Pieces that are nearly refused are left out.

The way is another than trammel's. Lines are moved with shapely's parallel_offset and
crossed with its intersection; areas, lengths and distances are its own. A rounding's
share is that of the circle: between its two tangents and the arc lie
r2 (tan(w/2) - w/2). Where all allowances are alike the cut polygon is checked
against shapely's mitred buffer as well.
"""
import math
import random
import sys
from shapely.geometry import LineString, Point, Polygon

random.seed(304)
FAR = 30000.0
NEAR = 0.01  # mm: what is closer to a refusal than this is left out


class Refused(Exception):
    pass


class Near(Exception):
    pass


def clear(x, least=NEAR):
    """Whether x is more than nothing; Near where that is not clear."""
    if abs(x) < least:
        raise Near
    return x > 0


def unit(p, q):
    d = math.hypot(q[0] - p[0], q[1] - p[1])
    return ((q[0] - p[0]) / d, (q[1] - p[1]) / d)


def long_line(p, q):
    u = unit(p, q)
    return LineString([(p[0] - FAR * u[0], p[1] - FAR * u[1]), (q[0] + FAR * u[0], q[1] + FAR * u[1])])


def outward(line, by):
    """The line moved to its right-hand side, where it runs counter-clockwise round the piece."""
    if by == 0:
        return line
    moved = line.parallel_offset(abs(by), "right" if by > 0 else "left")
    p, q = line.coords[0], moved.coords[0]
    if math.dist(p, q) > 2 * abs(by):  # some releases turn a line round that they move to the right
        moved = LineString(moved.coords[::-1])
    return moved


def crossing(a, b):
    p = a.intersection(b)
    if p.geom_type != "Point":
        raise Near
    return (p.x, p.y)


def along(a, b, p, q):
    """How far from p to q goes in the direction from a to b."""
    u = unit(a, b)
    return (q[0] - p[0]) * u[0] + (q[1] - p[1]) * u[1]


def turn(p, q, r):
    a, b = unit(p, q), unit(q, r)
    return math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])


def contour(pts, allow, corners, cut):
    """Area, length, ends of the straight parts, and a polygon of chords."""
    n = len(pts)
    a = allow if cut else [0.0] * n
    lines = [outward(long_line(pts[i], pts[(i + 1) % n]), a[i]) for i in range(n)]
    sharp = [crossing(lines[i - 1], lines[i]) for i in range(n)]
    area_more = length_more = 0.0
    runs, chords = [], []
    straights = []
    for i in range(n):
        before, at, after = pts[i - 1], pts[i], pts[(i + 1) % n]
        w = turn(before, at, after)
        s = 1 if w > 0 else -1
        w = abs(w)
        kind, by, own = corners.get(i, ("sharp", 0, None))
        x, y = a[i - 1], a[i]
        run = None
        if kind == "round":
            r = by + s * (x + y) / 2
            if clear(r, 1e-4):
                back = r * math.tan(w / 2)
                u, v = unit(before, at), unit(at, after)
                p, q = sharp[i], sharp[i]
                run = [(p[0] - back * u[0], p[1] - back * u[1]), (q[0] + back * v[0], q[1] + back * v[1])]
                area_more -= s * r * r * (math.tan(w / 2) - w / 2)
                length_more += r * w - 2 * back
                away = r / math.cos(w / 2)
                b = (v[0] - u[0], v[1] - u[1])
                d = math.hypot(*b)
                centre = (sharp[i][0] + away * b[0] / d, sharp[i][1] + away * b[1] / d)
                start = math.atan2(run[0][1] - centre[1], run[0][0] - centre[0])
                steps = 200
                arc = [(centre[0] + r * math.cos(start + s * w * k / steps), centre[1] + r * math.sin(start + s * w * k / steps)) for k in range(steps + 1)]
        elif kind == "cut" or kind == "blunt" and cut:
            if kind == "cut":
                e1, e2 = LineString([at, before]), LineString([at, after])
                p, q = e1.interpolate(by).coords[0], e2.interpolate(by).coords[0]
                across = outward(long_line(p, q), (max(x, y) if own is None else own) if cut else 0)
            else:
                u, v = unit(before, at), unit(at, after)
                b = (u[0] - v[0], u[1] - v[1])
                d = math.hypot(*b)
                p = (at[0] + by * b[0] / d, at[1] + by * b[1] / d)
                across = long_line(p, (p[0] + u[0] + v[0], p[1] + u[1] + v[1]))
            c = across.coords
            # how far the sharp corner lies beyond the line
            beyond = s * ((sharp[i][0] - c[0][0]) * (c[1][1] - c[0][1]) - (sharp[i][1] - c[0][1]) * (c[1][0] - c[0][0])) / math.dist(*c)
            if clear(beyond):
                run = [crossing(lines[i - 1], across), crossing(across, lines[i])]
                arc = run
        if run is None:
            run, arc = [sharp[i], sharp[i]], [sharp[i]]
            if cut:
                larger = max(abs(x), abs(y))
                drawn_back = math.cos(w) < 0 and s * (x + y) < 0
                if larger > 0 and not drawn_back and clear(Point(at).distance(Point(sharp[i])) - max(300, 20 * larger)):
                    raise Refused("spike")
        runs.append(run)
        straights.append([sharp[i]] if kind == "round" else run)
        chords.append(arc)
    ends = []
    for i in range(n):
        j = (i + 1) % n
        if not clear(along(pts[i], pts[j], runs[i][1], runs[j][0])):
            raise Refused("eaten" if cut else "meet")
        ends.append((runs[i][1], runs[j][0]))
    polygon = Polygon([p for c in chords for p in c])
    if not polygon.is_valid:
        raise Refused("crossed")
    # Near a self-crossing a hair decides: the polygon must stay whole when it is moved by one.
    if any(g.geom_type != "Polygon" or len(g.interiors) for g in (polygon.buffer(NEAR), polygon.buffer(-NEAR))):
        raise Near
    whole = Polygon([p for c in straights for p in c])
    if not whole.is_valid:
        raise Near  # it crosses itself but for its roundings: the sum below would not hold
    if cut and not corners and len(set(allow)) == 1 and allow[0] != 0:
        other = Polygon(pts).buffer(allow[0], join_style=2, mitre_limit=1e9)
        if abs(other.area / whole.area - 1) > 1e-9:
            if n == 3 or other.geom_type != "Polygon":
                print("shapely's buffer has", other.area, "not", whole.area, file=sys.stderr)
                sys.exit(1)
            raise Near
    return whole.area + area_more, whole.exterior.length + length_more, ends, polygon


def name(i):
    return "ABCDEFGHJK"[i]


def rounded(x, places=2):
    return float(f"{x:.{places}f}")


def outline():
    kind = random.random()
    size = 10 ** random.uniform(1.8, 3.4)
    if kind < 0.5:
        while True:
            pts = [(rounded(random.uniform(0, size)), rounded(random.uniform(0, size))) for _ in range(3)]
            if random.random() < 0.15:  # a needle
                pts[2] = (rounded(pts[0][0] + (pts[1][0] - pts[0][0]) * random.uniform(-0.2, 1.3) + random.uniform(-0.03, 0.03) * size), rounded(pts[0][1] + (pts[1][1] - pts[0][1]) * random.uniform(-0.2, 1.3)))
            p = Polygon(pts)
            if p.area > 1e-3 * size * size:
                break
    else:
        n = random.randint(4, 9)
        angles = sorted(random.uniform(0, 2 * math.pi) for _ in range(n))
        if kind < 0.7:
            pts = [(rounded(size * math.cos(t)), rounded(0.7 * size * math.sin(t))) for t in angles]
        else:
            pts = [(rounded(size * random.uniform(0.35, 1) * math.cos(t)), rounded(size * random.uniform(0.35, 1) * math.sin(t))) for t in angles]
        p = Polygon(pts)
    if not p.is_valid or p.area < 1e-3 * size * size or min(math.dist(pts[i - 1], pts[i]) for i in range(len(pts))) < 5:
        raise Near
    if not p.exterior.is_ccw:
        pts.reverse()
    if any(abs(turn(pts[i - 1], pts[i], pts[(i + 1) % len(pts)])) < 0.02 for i in range(len(pts))):
        raise Near
    return pts, size


def figure(x):
    return f"{x:.3f}".rstrip("0").rstrip(".")


def piece():
    pts, size = outline()
    n = len(pts)
    base = Polygon(pts)
    inner = 2 * base.area / base.length  # about the radius of what fits inside
    scale = min(900, random.choice([0.02, 0.1, 0.3, 0.9]) * inner)
    allow, edges = [0.0] * n, []
    like = rounded(random.uniform(-1, 1) * scale) if random.random() < 0.35 else None
    for i in range(n):
        if like is not None or random.random() < 0.7:
            allow[i] = like if like is not None else rounded(random.uniform(-0.7, 1) * scale)
            ends = name(i) + name((i + 1) % n)
            edges.append(f"{random.choice([ends, name((i + 1) % n) + name(i)])} allow {figure(allow[i])}")
    corners, words = {}, []
    if random.random() < 0.75:
        for i in range(n):
            if random.random() > 0.5:
                continue
            edge = min(math.dist(pts[i - 1], pts[i]), math.dist(pts[i], pts[(i + 1) % n]))
            w = turn(pts[i - 1], pts[i], pts[(i + 1) % n])
            kind = random.choice(["cut", "round", "cut", "round", "blunt"])
            if kind == "cut":
                by = max(0.5, rounded(edge * random.uniform(0.02, 0.6)))
                own = rounded(random.uniform(-0.5, 1) * scale) if random.random() < 0.3 else None
                words.append(f"{name(i)} cut {figure(by)}" + ("" if own is None else f" allow {figure(own)}"))
            elif kind == "round":
                by, own = max(0.5, rounded(edge * random.uniform(0.02, 0.6) / math.tan(abs(w) / 2))), None
                words.append(f"{name(i)} round {figure(by)}")
            else:
                more = max(allow[i - 1], allow[i])
                if w < 0 or more <= 0:
                    continue
                by, own = max(0.5, rounded(more * random.uniform(1.01, 4)) + 0.01), None
                words.append(f"{name(i)} blunt {figure(by)}")
            corners[i] = (kind, float(figure(by)), own)
    holes, bores = [], []
    for _ in range(random.choice([0, 0, 1, 1, 2, 3])):
        i = random.randrange(n)
        j = (i + 1) % n
        edge = math.dist(pts[i], pts[j])
        d = max(0.5, rounded(inner * random.uniform(0.02, 0.5)))
        if random.random() < 0.5:
            square, far = rounded(inner * random.uniform(0.2, 1.2)), rounded(edge * random.uniform(0.1, 0.9))
            end = random.choice([i, j])
            holes.append(f"{figure(d)} at {name(i)}{name(j)} {figure(square)} from {name(end)} {figure(far)}")
            line = LineString([pts[i], pts[j]]) if end == i else LineString([pts[j], pts[i]])
            foot = line.interpolate(float(figure(far)))
            u = unit(pts[i], pts[j])
            centre = (foot.x - u[1] * float(figure(square)), foot.y + u[0] * float(figure(square)))
        else:
            aim = (pts[i][0] + (pts[j][0] - pts[i][0]) * random.uniform(0.2, 0.8), pts[i][1] + (pts[j][1] - pts[i][1]) * random.uniform(0.2, 0.8))
            r, s = rounded(math.dist(pts[i], aim) + inner * random.uniform(0.01, 0.6)), rounded(math.dist(pts[j], aim) + inner * random.uniform(0.01, 0.6))
            if random.random() < 0.5:
                holes.append(f"{figure(d)} at {name(i)} {figure(r)} {name(j)} {figure(s)}")
            else:
                holes.append(f"{figure(d)} at {name(j)} {figure(s)} {name(i)} {figure(r)}")
            x = ((r - s) * (r + s) / edge + edge) / 2
            if abs(x) > r or r - abs(x) < 1e-3:
                raise Near
            y = math.sqrt((r - x) * (r + x))
            u = unit(pts[i], pts[j])
            centre = (pts[i][0] + u[0] * x - u[1] * y, pts[i][1] + u[1] * x + u[0] * y)
            if abs(Point(centre).distance(Point(pts[i])) - r) > 1e-9 * size:
                sys.exit("a hole is not where it should be")
        bores.append((centre, float(figure(d)) / 2))
    head = [" ".join(f"{figure(x)},{figure(y)}" for x, y in pts), ";".join(edges), ";".join(words), ";".join(holes)]
    try:
        f = contour(pts, allow, corners, False)
        c = contour(pts, allow, corners, True)
        for k, (centre, r) in enumerate(bores):
            p = Point(centre)
            for g in (f[3], c[3]):
                inside = g.contains(p)
                gap = g.exterior.distance(p) * (1 if inside else -1) - r
                if not clear(gap, 0.02 + 1e-4 * size):
                    raise Refused("hole")
            for other, s in bores[:k]:
                if not clear(math.dist(centre, other) - r - s):
                    raise Refused("hole")
    except Refused as why:
        return " | ".join([str(why)] + head)
    figures = [f[0], c[0], f[1], c[1], sum(math.pi * r * r for _, r in bores)]
    return " | ".join(["ok"] + head + [
        " ".join(f"{x:.14g}" for x in figures),
        " ".join(f"{p[0]:.9f},{p[1]:.9f},{q[0]:.9f},{q[1]:.9f}" for p, q in c[2]),
        " ".join(f"{p[0]:.9f},{p[1]:.9f}" for p, _ in bores)])


made, wanted, refused = 0, int(sys.argv[1]), {}
while made < wanted:
    try:
        line = piece()
    except Near:
        continue
    verdict = line.split(" ", 1)[0]
    if verdict != "ok":
        if refused.get(verdict, 0) * 20 > made:  # no more than a twentieth of all is refused for the same reason
            continue
        refused[verdict] = refused.get(verdict, 0) + 1
    print(line)
    made += 1
