"""Mistakes of the work put in, within what can be shown."""

from __future__ import annotations

from math import isfinite, radians

from jigs.looks.mistakes import MOST_OF_FORM, MOST_OF_PIECE, MOST_OF_RING, Mistakes
from jigs.page.contract import Wrong
from jigs.page.drawing import pattern_of
from jigs.page.edits import BadEdit
from jigs.page.mistakes_told import told
from jigs.plans.plan import Shape, by_form
from jigs.plans.shape import TorusShape, VesselShape

NAMES = (
    "mitre", "wedge", "first_cut", "lean", "half_end", "ring_size", "ring_turned", "ring_flipped", "off_centre",
    "layup_off",
)  # fmt: skip
ANGLE = radians(1.0)  # the most of one that is out
HALF_END = 2.0  # mm, the most by which the end wedge is


def wrong_of(shape: Shape, raw: object) -> Wrong:
    """`raw` has shares by name, 0 to 1, of the most that is shown. Raises BadEdit where it is none."""
    most = limits(shape)
    sizes = {name: share * most[name] for name, share in _shares(raw).items()}
    asked = sizes["ring_turned"]
    angle, segments = by_form(
        shape, torus=lambda _: (0.0, round(asked)), vessel=lambda _: (asked, 0)
    )  # a wedge ring turns by whole segments
    sizes["ring_turned"] = angle or segments
    mistakes = Mistakes(
        ring_size=sizes["ring_size"],
        layup_off=sizes["layup_off"],
        off_centre=sizes["off_centre"],
        ring_turned=angle,
        segments_on=segments,
        upside_down=sizes["ring_flipped"] > 0,
        mitre=sizes["mitre"],
        wedge=sizes["wedge"],
    )
    return Wrong(pattern_of(shape, mistakes=mistakes), [*told(shape, sizes)])


def limits(shape: Shape) -> dict[str, float]:
    """The most of each mistake: mm, radians, or whole segments; 0 where this form cannot have it."""
    pieces = [min(one.layup.a, one.layup.b) for one in shape.layups]
    own = by_form(shape, torus=_of_torus, vessel=_of_vessel)
    return {"mitre": ANGLE, **own, "layup_off": MOST_OF_PIECE * min(pieces, default=0.0)}


def _of_torus(shape: TorusShape) -> dict[str, float]:
    return {
        "wedge": ANGLE,
        "first_cut": ANGLE,
        "lean": ANGLE,
        "half_end": HALF_END,
        "ring_size": MOST_OF_RING * shape.blank.thick_edge,
        "ring_turned": shape.blank.segments // 2,
        "ring_flipped": 1.0,
        "off_centre": MOST_OF_FORM * shape.job.form.outer_diameter,
    }


def _of_vessel(shape: VesselShape) -> dict[str, float]:
    across = 2 * shape.section.outer.radii(0.0, shape.section.height)[1]
    return {
        "wedge": 0.0,
        "first_cut": 0.0,
        "lean": 0.0,
        "half_end": 0.0,
        "ring_size": MOST_OF_RING * min(one.ring.height for one in shape.stack.layers),
        "ring_turned": radians(10.0),
        "ring_flipped": 0.0,
        "off_centre": MOST_OF_FORM * across,
    }


def _shares(raw: object) -> dict[str, float]:
    if not isinstance(raw, dict) or not set(raw) <= set(NAMES):
        raise BadEdit("mistakes have names")
    for share in raw.values():
        if isinstance(share, bool) or not isinstance(share, int | float) or not isfinite(share):
            raise BadEdit("a mistake is from 0 to 1")
    return {name: min(1.0, max(0.0, float(raw.get(name, 0.0)))) for name in NAMES}
