"""Sleds and mountings put together, with the work in them. Adding one is a file in its stage and a line here."""

from __future__ import annotations

from collections.abc import Iterable

from jigs.forms.plan import Plan
from jigs.parts.assembly import Assembly
from jigs.parts.part import Part


def assemblies(plan: Plan, parts: Iterable[Part]) -> tuple[Assembly, ...]:
    """Those whose parts are all solids, as the turner has them made."""
    if plan.kind == "vessel":
        return ()
    from jigs.stages.mountings.parts.assembled import assembled as mountings
    from jigs.stages.wedge_rings.parts.assembled import assembled as ring_sled

    by_name = {part.name: part for part in parts}
    return tuple(found for one in (ring_sled, mountings) for found in one(plan, by_name))
