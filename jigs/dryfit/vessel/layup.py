"""The pieces of a layup that a vessel's rings are to be made of."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, tan

from jigs.dryfit.layup_sides import Sides, sides
from jigs.dryfit.vessel.rings import Held
from jigs.dryfit.vessel.work import Work


def vessel_sides(work: Work, rings: Sequence[Held]) -> list[Sides]:
    """Of every ring of segments that has the layup, from the foot up."""
    wish, sanding = work.job.layup, work.job.rings.joint_sanding
    if wish is None:
        return []
    own = [ring for ring in rings if wish.rings is None or ring.number in wish.rings]
    return [
        sides(
            wish,
            2 * ring.most * tan(ring.mitre) + (2 * sanding - ring.spacer) / cos(ring.mitre),
            ring.top - ring.bottom + work.job.rings.flattening,
            ring.most - max(ring.core, 0.0),
        )
        for ring in own
    ]
