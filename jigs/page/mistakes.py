"""Mistakes of the work put in, within what can be shown, and what those come to that cannot."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, degrees, isfinite, pi, radians

from jigs.forms.shape import Shape
from jigs.looks.mistakes import MOST_OF_FORM, MOST_OF_PIECE, MOST_OF_RING, Mistakes
from jigs.page.contract import Wrong
from jigs.page.drawing import pattern_of
from jigs.page.edits import BadEdit
from jigs.words.lengths import show_length

NAMES = ("ring_size", "layup_off", "off_centre", "ring_turned", "mitre", "wedge")


def wrong_of(shape: Shape, raw: object) -> Wrong:
    """`raw` has shares by name, 0 to 1, of the most that is shown. Raises BadEdit where it is none."""
    shares = _shares(raw)
    most = limits(shape)
    sizes = {name: share * most[name] for name, share in shares.items()}
    mistakes = Mistakes(
        sizes["ring_size"], sizes["layup_off"], sizes["off_centre"], ring_turned=sizes["ring_turned"]
    )
    return Wrong(pattern_of(shape, mistakes=mistakes), [*_said(shape, sizes)])


def limits(shape: Shape) -> dict[str, float]:
    """The most of each mistake, mm or radians; 0 where this form cannot have it."""
    pieces = [min(one.layup.a, one.layup.b) for one in shape.layups]
    layup = MOST_OF_PIECE * min(pieces, default=0.0)
    if shape.kind == "torus":
        thin, across = shape.blank.thick_edge, shape.job.form.outer_diameter
    else:
        thin, across = (
            min(one.ring.height for one in shape.stack.layers),
            2 * shape.section.outer.radii(0.0, shape.section.height)[1],
        )
    return {
        "ring_size": MOST_OF_RING * thin,
        "layup_off": layup,
        "off_centre": MOST_OF_FORM * across,
        "ring_turned": radians(10.0) if shape.kind == "vessel" else 0.0,
        "mitre": radians(1.0),
        "wedge": radians(1.0) if shape.kind == "torus" else 0.0,
    }


def open_joint(radius: float, ends: int, error: float) -> float:
    """How far the last joint stays open at a radius where so many ends are each out by an angle, for small angles."""
    return radius * ends * error


def _shares(raw: object) -> dict[str, float]:
    if not isinstance(raw, dict) or not set(raw) <= set(NAMES):
        raise BadEdit("mistakes have names")
    for share in raw.values():
        if isinstance(share, bool) or not isinstance(share, int | float) or not isfinite(share):
            raise BadEdit("a mistake is from 0 to 1")
    return {name: min(1.0, max(0.0, float(raw.get(name, 0.0)))) for name in NAMES}


def _said(shape: Shape, sizes: dict[str, float]) -> Iterator[str]:
    def show(mm: float) -> str:
        return show_length(mm, shape.job.unit)

    if sizes["ring_size"]:
        yield f"Rings are up to {show(sizes['ring_size'])} too thick or too thin."
    if sizes["layup_off"]:
        yield f"The layup's seams lie {show(sizes['layup_off'])} off the middle."
    if sizes["off_centre"]:
        yield f"The blank was mounted {show(sizes['off_centre'])} off centre."
    if sizes["ring_turned"]:
        yield f"The middle ring is turned {degrees(sizes['ring_turned']):.1f}° too far."
    if sizes["mitre"]:
        radius, segments = _widest(shape)
        gap = open_joint(radius, 2 * segments, sizes["mitre"])
        yield (
            f"Each segment end is {degrees(sizes['mitre']):.2f}° out: the last joint of a ring of {segments} "
            f"stays open by {show(gap)} at the outside, or at the inside."
        )
    if sizes["wedge"] and shape.kind == "torus":
        blank = shape.blank
        gap = open_joint(blank.swing_radius, blank.wedge_rings, sizes["wedge"])
        yield (
            f"Each wedge ring is {degrees(sizes['wedge']):.2f}° out: the last joint stays open by {show(gap)} "
            "at the rim, or in the hole."
        )


def _widest(shape: Shape) -> tuple[float, int]:
    """Radius of the corners and number of segments of a ring; of a stack's, the widest."""
    if shape.kind == "torus":
        return shape.blank.apothem / cos(shape.blank.mitre), shape.blank.segments
    rings = [one.ring for one in shape.stack.layers if one.ring.segments]
    if not rings:
        return 0.0, 0
    widest = max(rings, key=lambda one: one.outer)
    return widest.outer / cos(pi / widest.segments), widest.segments
