#!/usr/bin/env python3
"""Templates put together many times over, with numpy.

    python3 walk.py > walk.txt

Each row of the table is a length measured on a template: how long it is meant to
be (mm), over how many joins it runs, and what is known of the printer (its
uncertainty, of the length, 95 of 100). Pages are laid one after the other by whole
motions of the plane: at each join the next page slips along and across by up to
0.2 mm and turns as stars 200 mm apart let it. Paper and printer stretch, the ends
are read to a quarter of a millimetre. What comes out is how far off the length is
(without reading it, and as read) in 94 and in 96 of 100 templates.
"""
import numpy as np

rng = np.random.default_rng(20260101)
DRAWS = 400_000
SLIP, STARS, END = 0.2, 200.0, 0.25
PAPER = 0.0002  # 95 of 100

def put_together(length, joins, printer):
    """Lengths of DRAWS templates, and the same as read on a rule."""
    stretch = 1 + rng.normal(0, PAPER / 1.959964, DRAWS) + rng.normal(0, printer / 1.959964, DRAWS)
    at = np.zeros(DRAWS, complex)  # where the far end of the page laid last is
    turn = np.zeros(DRAWS)
    each = length / (joins + 1)
    for k in range(joins + 1):
        if k > 0:
            at += np.exp(1j * turn) * (rng.uniform(-SLIP, SLIP, DRAWS) + 1j * rng.uniform(-SLIP, SLIP, DRAWS))
            turn += (rng.uniform(-SLIP, SLIP, DRAWS) - rng.uniform(-SLIP, SLIP, DRAWS)) / STARS
        at += np.exp(1j * turn) * each * stretch
    long = np.abs(at)
    return long, long + rng.uniform(-END, END, DRAWS) + rng.uniform(-END, END, DRAWS)

print("# length joins printer | off in 94 and 96 of 100 | the same as read")
for length, joins in [(150, 0), (250, 1), (450, 2), (600, 3), (1500, 4), (1262, 7), (2070, 11), (7200, 26), (7200, 39), (12000, 66)]:
    for printer in (0, 0.00025, 0.0005):
        off = []
        for l in put_together(length, joins, printer):
            off += list(np.quantile(np.abs(l - length), (0.94, 0.96)))
        print(length, joins, printer, *("%.4f" % v for v in off))
