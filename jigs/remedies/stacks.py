"""Changes of a vessel's stack that are more than one number."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from jigs.remedies.change import typed
from jigs.remedies.ladder import Rung
from jigs.remedies.lever import Lever, View
from jigs.vessel_job import VesselJob

USUAL_HEIGHTS = (
    20.0,
    15.0,
    25.0,
    12.0,
)  # mm: rings for a vessel whose boards are not listed. Common practice


def _one_height(view: View) -> Sequence[Rung]:
    """Heights of the boards that are listed, those of most woods first; else usual ones."""
    job = view.job
    if not isinstance(job, VesselJob):
        return []
    flat = job.rings.flattening
    listed = Counter(round(board.thickness - flat, 2) for board in job.workshop.stock.boards)
    heights = [height for height, _ in listed.most_common() if height >= 2] or list(USUAL_HEIGHTS)
    return [Rung({"rings.heights": typed(height, job.unit)}, 0.1 * k) for k, height in enumerate(heights)]


def _one_wood(view: View) -> Sequence[Rung]:
    """All rings of one wood whose boards are listed."""
    woods = dict.fromkeys(board.species for board in view.job.workshop.stock.boards)
    return [Rung({"rings.species": name}, 0.0) for name in woods]


def _no_staves(view: View) -> Sequence[Rung]:
    if not isinstance(view.job, VesselJob) or view.job.staves is None:
        return []
    return [
        Rung({f"staves.{name}": None for name in ("low", "high", "count", "species")
              if view.raw(f"staves.{name}") is not None}, 0.0)
    ]  # fmt: skip


def _fewer_heights(view: View) -> Sequence[Rung]:
    """A list of heights without its last."""
    heights = view.raw("rings.heights")
    if not isinstance(heights, list):
        return []
    return [
        Rung({"rings.heights": heights[:k] if k > 1 else heights[0]}, 0.1)
        for k in range(len(heights) - 1, 0, -1)
    ]


ONE_HEIGHT = Lever("rings.heights", _one_height, None, False)
ONE_WOOD = Lever("rings.species", _one_wood, None, False)
NO_STAVES = Lever("staves.low", _no_staves, None, False, 2.0)
FEWER_HEIGHTS = Lever("rings.heights", _fewer_heights, None, False)
