"""Mistakes of the work put in, within what can be shown."""

from __future__ import annotations

from math import isfinite

from jigs.looks.mistakes import MOST_OF_FORM, MOST_OF_PIECE, MOST_OF_RING, Mistakes, said
from jigs.page.contract import Wrong
from jigs.page.drawing import pattern_of
from jigs.page.edits import BadEdit
from jigs.plans.plan import Shape, by_form

NAMES = ("ring_size", "layup_off", "off_centre")


def wrong_of(shape: Shape, raw: object) -> Wrong:
    """`raw` has shares by name, 0 to 1, of the most that is shown. Raises BadEdit where it is none."""
    most = limits(shape)
    sizes = {name: share * most[name] for name, share in _shares(raw).items()}
    mistakes = Mistakes(sizes["ring_size"], sizes["layup_off"], sizes["off_centre"])
    return Wrong(pattern_of(shape, mistakes=mistakes), [*said(shape, mistakes)])


def limits(shape: Shape) -> dict[str, float]:
    """The most of each mistake, mm; 0 where this form cannot have it."""
    pieces = [min(one.layup.a, one.layup.b) for one in shape.layups]
    thinnest, across = by_form(
        shape,
        torus=lambda own: (own.blank.thick_edge, own.job.form.outer_diameter),
        vessel=lambda own: (
            min(one.ring.height for one in own.stack.layers),
            2 * own.section.outer.radii(0.0, own.section.height)[1],
        ),
    )
    return {
        "ring_size": MOST_OF_RING * thinnest,
        "layup_off": MOST_OF_PIECE * min(pieces, default=0.0),
        "off_centre": MOST_OF_FORM * across,
    }


def _shares(raw: object) -> dict[str, float]:
    if not isinstance(raw, dict) or not set(raw) <= set(NAMES):
        raise BadEdit("mistakes have names")
    for share in raw.values():
        if isinstance(share, bool) or not isinstance(share, int | float) or not isfinite(share):
            raise BadEdit("a mistake is from 0 to 1")
    return {name: min(1.0, max(0.0, float(raw.get(name, 0.0)))) for name in NAMES}
