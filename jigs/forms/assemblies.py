"""Sleds and mountings put together, with the work in them. Adding one is a file in its stage and a line here."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from typing import TYPE_CHECKING

from jigs.parts.assembly import Assembly
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan


def assemblies(plan: Plan, parts: Iterable[Part]) -> tuple[Assembly, ...]:
    """Those whose parts are all solids, as the turner has them made, in the order of the work."""
    by_name = {part.name: part for part in parts}
    return tuple(found for one in _of(plan) for found in one(by_name))


def _of(plan: Plan) -> Iterator[Callable[[Mapping[str, Part]], tuple[Assembly, ...]]]:
    from jigs.stages.layup.parts.assembled import assembled as layup

    yield partial(layup, plan)
    yield from by_form(plan, torus=_of_torus, vessel=_of_vessel)


def _of_torus(plan: TorusPlan) -> Iterator[Callable[[Mapping[str, Part]], tuple[Assembly, ...]]]:
    from jigs.stages.flat_segments.parts.assembled import assembled as flat_sled
    from jigs.stages.mountings.parts.assembled import assembled as mountings
    from jigs.stages.segments.assembled import assembled as carrier
    from jigs.stages.wedge_rings.parts.assembled import assembled as ring_sled

    for own in (carrier, flat_sled, ring_sled, mountings):
        yield partial(own, plan)


def _of_vessel(plan: VesselPlan) -> Iterator[Callable[[Mapping[str, Part]], tuple[Assembly, ...]]]:
    from jigs.stages.flat_segments.parts.assembled import assembled as flat_sleds
    from jigs.stages.holding_by_mouth.assembled import assembled as mountings
    from jigs.stages.staves.assembled import assembled as staves

    for own in (flat_sleds, staves, mountings):
        yield partial(own, plan)
