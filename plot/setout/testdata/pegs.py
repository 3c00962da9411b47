# Places in a grid by numpy alone: the plane is turned and shifted as a rigid body
# found from the two ends of the baseline (numpy.linalg.solve), rounded to 1 µm.
#
#   python3 pegs.py >pegs.txt
#
# A line: zero end, other end, origin, bearing in degrees, point, place in the grid.
import numpy as np

r = np.random.default_rng(4)
for i in range(200):
    zero, end, at = r.uniform(-50000, 50000, (3, 2))
    origin = r.uniform(-1, 1, 2) * 10.0 ** r.integers(0, 10)
    bearing = float(r.integers(0, 360)) if i % 2 else r.uniform(0, 360)
    v = end - zero
    # A turn by t maps (vx, vy) to (c vx - s vy, s vx + c vy): two equations for c, s.
    goal = np.hypot(*v) * np.array([np.sin(np.radians(bearing)), np.cos(np.radians(bearing))])
    c, s = np.linalg.solve([[v[0], -v[1]], [v[1], v[0]]], goal)
    p = origin + np.array([[c, -s], [s, c]]) @ (at - zero)
    print(*[repr(float(x)) for x in (*zero, *end, *origin, bearing, *at)], *["%.3f" % x for x in p])
