"""A rebate: a step turned into the inside of a vessel's rim, whose ledge a lid lies on. Lengths mm."""

from __future__ import annotations

import numpy as np

from geometry.plane.profile import Profile


def rebated(inner: Profile, width: float, depth: float) -> Profile:
    """An inside with its last `depth` below the rim wider than the place under it by `width`.

    Raises ValueError where the ledge would not be under the rim and over the floor, or the mouth is wider already.
    """
    top = inner.end[1]
    if not inner.bottom < top - depth:
        raise ValueError(f"a rebate {depth:.6g} mm deep leaves no inside under its ledge")
    below = inner.between(inner.bottom, top - depth)
    side = below.end[0] + width
    if inner.radii(top - depth, top)[1] > side:
        raise ValueError(
            f"a rebate {width:.6g} mm wide is no wider than the mouth is already: the inside flares"
        )
    return Profile(np.vstack((below.vertices, [(side, top - depth, 0.0), (side, top, 0.0)])))
