"""The sled for staves put together, a board in its first stop before the cut."""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, sin

from geometry.plane.contour import Contour, polygon
from jigs.parts.assembly import ALONG, Assembly, Place, Places, plate_of_work, put_together
from jigs.parts.part import Part
from jigs.parts.sleds import placed
from jigs.plans.vessel import VesselPlan
from jigs.stages.staves.layout import StaveSledLayout
from jigs.stages.staves.parts import HANDED


def assembled(plan: VesselPlan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """None without staves."""
    if plan.saws.staves is None:
        return ()
    own = plan.saws.staves.layout
    board, lies = plate_of_work("stave", _board(own), own.height), Place()
    places = _standing(own, parts)
    if plan.job.workshop.saw.tilts == "left":
        places = dict(placed.mirrored(places, parts, HANDED))
        lies = placed.turned_over(lies, board.thickness, handed=False)
    title = "sled for staves, a board on it before its first cut"
    return put_together("stave-sled", title, parts, places, ((board, lies),))


def _board(own: StaveSledLayout) -> Contour:
    """As it was ripped, in the first stop."""
    (x, y), *_ = own.piece(1)
    across, long = own.board
    c, s = cos(-own.taper), sin(-own.taper)
    return polygon(
        [
            (x, y),
            (x + across * c, y + across * s),
            (x + across * c - long * s, y + across * s + long * c),
            (x - long * s, y + long * c),
        ]
    )


def _standing(own: StaveSledLayout, parts: Mapping[str, Part]) -> Places:
    fence = placed.Upright((0.0, 0.0, 0.0), ALONG, (0.0, -1.0, 0.0), own.sheet)
    held = placed.HeldBy("stave-hold", "stave-cam", "stave-lever", "stave-finger")
    return placed.joined(
        [
            {
                "stave-base": (Place((0.0, 0.0, -own.sheet)),),
                "stave-fence": (fence.place,),
                "stave-stop-1": (Place(),),
                "stave-handle": placed.handle(*own.handle),
                "stave-exit-block": placed.layers(parts.get("stave-exit-block")),
                "stave-runner": placed.runner(
                    own.runner, own.operator_edge, own.sheet, parts.get("stave-runner")
                ),
            },
            placed.hold_down(fence, own.hold, own.slide, own.height, held, back=True),
        ]
    )
