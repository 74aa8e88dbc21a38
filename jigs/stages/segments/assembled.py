"""The segment carrier put together, a strip on it before the cut, its end at the stop."""

from __future__ import annotations

from collections.abc import Mapping

from geometry.plane.contour import polygon
from jigs.parts.assembly import ACROSS, ALONG, UP, Assembly, Place, Places, plate_of_work, put_together
from jigs.parts.part import Part
from jigs.parts.sleds import placed
from jigs.plans.torus import TorusPlan
from jigs.stages.segments.layout import CarrierLayout
from jigs.stages.segments.parts import HANDED, along, gusset_places

PAST = 40.0  # mm of strip past the base
WOOD = "strip"


def assembled(plan: TorusPlan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """Of either saw."""
    own = plan.cutting.carrier
    strip = plate_of_work(
        WOOD,
        polygon(
            [
                (own.left_edge - PAST, 0.0),
                (own.stop - own.lean, 0.0),
                (own.stop, own.cut.depth),
                (own.left_edge - PAST, own.cut.depth),
            ]
        ),
        own.cut.length,
    )
    lies = Place((0.0, own.cut.length, 0.0), ALONG, UP)
    places = placed.joined([_standing(own), _guided(own, parts)])
    if own.mirrored:
        places = dict(placed.mirrored(places, parts, HANDED))
        lies = placed.turned_over(lies, strip.thickness, handed=False)
    title = "segment carrier, a strip on it before the cut"
    return put_together("segment-carrier", title, parts, places, ((strip, lies),))


def _standing(own: CarrierLayout) -> Places:
    t, (x, y) = own.sheet, own.pivot
    fence = placed.Upright((0.0, 0.0, 0.0), ALONG, (0.0, -1.0, 0.0), t)
    cam, lever, finger = "segment-cam", "segment-lever", "segment-finger"
    back = (0.0, -1.0, 0.0)
    return placed.joined(
        [
            {
                "segment-base": (Place((0.0, 0.0, -t)),),
                "segment-fence": (fence.place,),
                "segment-gusset": tuple(
                    Place((middle + t / 2, -t, 0.0), back, UP) for middle in gusset_places(own)
                ),
                "segment-handle": placed.handle(*own.handle),
                "segment-stop": (Place((x, y, own.packings * t)),),
            },
            {"segment-stop-packing": tuple(Place((x, y, k * t)) for k in range(own.packings))}
            if own.packings
            else {},
            placed.hold_down(
                fence, own.hold, own.strip_hold, own.cut.depth,
                placed.HeldBy("segment-hold-strip", cam, lever, finger), back=True,
            ),
            placed.hold_down(
                fence, own.on_segment, own.segment_hold, own.cut.depth,
                placed.HeldBy("segment-hold-segment", cam, lever, finger),
            ),
        ]
    )  # fmt: skip


def _guided(own: CarrierLayout, parts: Mapping[str, Part]) -> Places:
    """By the mitre slot, or by rail and strip on a bandsaw."""
    low, _ = along(own)
    if own.guide is None:
        return {
            "segment-exit-block": placed.layers(parts.get("segment-exit-block")),
            "segment-runner": placed.runner(own.runner, low, own.sheet, parts.get("segment-runner")),
        }
    return {
        "segment-strip": (Place((own.strip_edge, low, -2 * own.sheet), ACROSS, placed.LEFT),),
        "segment-batten": (placed.batten(own.batten, own.sheet),),
    }
