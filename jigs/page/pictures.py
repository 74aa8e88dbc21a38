"""Pictures that are asked for by themselves: with mistakes put in, in more pixels, for a browser without 3D.

Mistakes are put in within what can be shown.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from math import isfinite
from typing import TypeVar

from jigs.asked.edited import BadEdit
from jigs.forms.solve import shaped
from jigs.looks.mistakes import MOST_OF_FORM, MOST_OF_PIECE, MOST_OF_RING, Mistakes, said
from jigs.page.contract import PatternView, Wrong
from jigs.page.drawing import FINE, pattern_of, picture_of
from jigs.page.live import Live, NotDone
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


P = TypeVar("P")


async def wrong(live: Live, raw: object) -> Wrong:
    """How the work looks with mistakes put in. Raises NotDone."""
    try:
        return await _drawn(live, lambda shape: wrong_of(shape, raw))
    except BadEdit as bad:
        raise NotDone(400, str(bad)) from bad


async def fine(live: Live) -> PatternView:
    """The surface laid flat in more pixels, for when nothing is dragged. Raises NotDone."""
    return await _drawn(live, lambda shape: pattern_of(shape, FINE))


async def picture(live: Live) -> bytes:
    """The finished form drawn here, for a browser that draws no 3D. Raises NotDone."""
    return await _drawn(live, picture_of)


async def _drawn(live: Live, draw: Callable[[Shape], P]) -> P:
    """Raises NotDone where the form cannot be drawn."""
    async with live.turn:
        job = live.reading.job
        if job is None or live.fast.drawing is None:
            raise NotDone(409, "The form cannot be drawn yet.")
        return await asyncio.to_thread(lambda: draw(shaped(job)))
