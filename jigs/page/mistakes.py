"""Mistakes of the work put in, within what can be shown."""

from __future__ import annotations

from math import isfinite, radians

from jigs.forms.shape import Shape
from jigs.looks.mistakes import MOST_OF_FORM, MOST_OF_PIECE, MOST_OF_RING, Mistakes
from jigs.page.contract import Wrong
from jigs.page.drawing import pattern_of
from jigs.page.edits import BadEdit
from jigs.page.mistakes_told import told

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
    torus = shape.kind == "torus"
    if torus:
        sizes["ring_turned"] = round(sizes["ring_turned"])
    mistakes = Mistakes(
        ring_size=sizes["ring_size"],
        layup_off=sizes["layup_off"],
        off_centre=sizes["off_centre"],
        ring_turned=0.0 if torus else sizes["ring_turned"],
        segments_on=int(sizes["ring_turned"]) if torus else 0,
        upside_down=sizes["ring_flipped"] > 0,
        mitre=sizes["mitre"],
        wedge=sizes["wedge"],
    )
    return Wrong(pattern_of(shape, mistakes=mistakes), [*told(shape, sizes)])


def limits(shape: Shape) -> dict[str, float]:
    """The most of each mistake: mm, radians, or whole segments; 0 where this form cannot have it."""
    torus = shape.kind == "torus"
    pieces = [min(one.layup.a, one.layup.b) for one in shape.layups]
    if shape.kind == "torus":
        thin, across = shape.blank.thick_edge, shape.job.form.outer_diameter
        turned: float = shape.blank.segments // 2
    else:
        thin = min(one.ring.height for one in shape.stack.layers)
        across = 2 * shape.section.outer.radii(0.0, shape.section.height)[1]
        turned = radians(10.0)
    return {
        "mitre": ANGLE,
        "wedge": ANGLE * torus,
        "first_cut": ANGLE * torus,
        "lean": ANGLE * torus,
        "half_end": HALF_END * torus,
        "ring_size": MOST_OF_RING * thin,
        "ring_turned": turned,
        "ring_flipped": float(torus),
        "off_centre": MOST_OF_FORM * across,
        "layup_off": MOST_OF_PIECE * min(pieces, default=0.0),
    }


def _shares(raw: object) -> dict[str, float]:
    if not isinstance(raw, dict) or not set(raw) <= set(NAMES):
        raise BadEdit("mistakes have names")
    for share in raw.values():
        if isinstance(share, bool) or not isinstance(share, int | float) or not isfinite(share):
            raise BadEdit("a mistake is from 0 to 1")
    return {name: min(1.0, max(0.0, float(raw.get(name, 0.0)))) for name in NAMES}
