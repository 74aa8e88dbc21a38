"""Pictures that are asked for by themselves: with mistakes put in, in more pixels, drawn for a browser without 3D."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import TypeVar

from jigs.forms.solve import shaped
from jigs.page.contract import PatternView, Wrong
from jigs.page.drawing import FINE, pattern_of, picture_of
from jigs.page.edits import BadEdit
from jigs.page.live import Live, NotDone
from jigs.page.mistakes import wrong_of
from jigs.plans.plan import Shape

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
