"""Whether a plate can be cut as it is drawn: every hole lies in it, clear of the others."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import points_along
from jigs.parts.part import Part

ALONG = np.arange(8) / 8  # of every edge


def faults(part: Part) -> Iterator[str]:
    """What is wrong with its holes, in words; looked at in eight places along each of their edges."""
    if not part.holes:
        return
    start, end = (np.concatenate([getattr(hole, at) for hole in part.holes]) for at in ("points", "ends"))
    sweep = np.concatenate([hole.sweeps for hole in part.holes])
    rims = points_along(start[:, None], end[:, None], sweep[:, None], ALONG)
    owner = np.repeat(np.arange(len(part.holes)), [len(hole) for hole in part.holes])
    inside = part.outline.contains(rims).reshape(len(rims), -1).all(axis=1)
    for k in sorted(set(owner[~inside].tolist())):
        yield f"hole {k + 1} leaves the outline"
    for (i, one), (j, other) in combinations(enumerate(part.holes), 2):
        if _near(one, other) and (
            one.contains(rims[owner == j]).any() or other.contains(rims[owner == i]).any()
        ):
            yield f"holes {i + 1} and {j + 1} meet"


def _near(one: Contour, other: Contour) -> bool:
    """Whether their boxes meet."""
    (left, low, right, high), (x0, y0, x1, y1) = one.bounds, other.bounds
    return left < x1 and x0 < right and low < y1 and y0 < high
