"""A vessel in common proportions, for a job with much that is wrong."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from jigs.remedies.change import rounded, typed
from jigs.remedies.ladder import Rung
from jigs.remedies.lever import Lever, View
from jigs.remedies.shapes import Rows, points, rows_of

# What a simple vessel leaves to common practice.
_LEFT_OUT = (
    "inside.stations", "inside.edges", "inside.drawing", "inside.layer", "inside.drawing_unit", "inside.axis",
    "wall.by_height", "wall.inner_corner", "wall.least", "foot.recess_diameter", "foot.recess_depth", "rings.gap",
    "rings.spacer", "rings.spacer_species", "rings.base", "rings.half_turn", "rings.turning_allowance",
    "rings.least_glue", "rings.least_segment", "staves.low", "staves.high", "staves.count", "staves.species",
    "reversing.hold", "gauges.stages",
)  # fmt: skip
_WALLS, _FLOOR, _HEIGHTS, _SEGMENTS = (6.0, 8.0, 10.0), 8.0, (20.0, 25.0), 12


def _good_proportions(view: View) -> Sequence[Rung]:
    """The profile as it is, straightened, or as a plain cone; walls, rings and segments as they are common."""
    plain = {key: None for key in _LEFT_OUT if view.raw(key) is not None}
    return [
        Rung({**plain, **shape, **_sizes(view, wall, height)}, 1.0)
        for shape in _shapes(view)
        for wall in _WALLS
        for height in _HEIGHTS
    ]


def _sizes(view: View, wall: float, height: float) -> dict[str, Any]:
    unit = view.job.unit
    lengths = {"wall.thickness": wall, "wall.floor": _FLOOR, "rings.heights": height}
    sizes = {key: typed(rounded(mm, unit), unit) for key, mm in lengths.items()}
    return {**sizes, "rings.segments": _SEGMENTS}


def _shapes(view: View) -> list[dict[str, Any]]:
    """Changes of the profile, the smallest first: none, straight edges, a cone from foot to rim."""
    found: list[dict[str, Any]] = [{}]
    for key in ("profile.stations", "profile.edges"):
        rows = [row[:2] for row in rows_of(view, key)]
        if rows:
            gone = {"profile.stations": None} if key == "profile.stations" else {}
            wide = [[z, max(d, 60.0)] for z, d in rows]
            found += [
                {**gone, "profile.edges": points(view, key, some)} for some in (rows, wide, _cone(rows))
            ]
    return found


def _cone(rows: Rows) -> Rows:
    height, mouth = min(max(rows[-1][0], 50.0), 200.0), min(max(rows[-1][1], 90.0), 220.0)
    return [[0.0, max(60.0, 0.7 * mouth)], [height, mouth]]


GOOD_PROPORTIONS = Lever("rings", _good_proportions, None, False)
