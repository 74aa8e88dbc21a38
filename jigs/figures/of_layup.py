"""The pictures of a layup's work, for either form."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from jigs.figures.bench import layup as bench
from jigs.figures.figure import Figure
from jigs.figures.saws import layup_sled, trim_sled
from jigs.figures.saws.hold_down import hold_down
from jigs.figures.told import Show
from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.layup.plan import LayupJigs, LayupPlan


def figures(plan: Plan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """Of each layup in turn; none without one."""
    for number, (layup, jigs) in enumerate(zip(plan.layups, plan.layup_jigs, strict=True), 1):
        yield from _sleds(layup, jigs, f"-{number}" if number > 1 else "", show)
        end = jigs.suffix
        yield bench.tray(jigs.tray, parts[f"layup-tray{end}"], end, show)
        for holder in jigs.holders:
            yield bench.sanding(holder, parts[f"layup-sanding-pocket-{holder.side}{end}"], end, show)


def _sleds(layup: LayupPlan, jigs: LayupJigs, number: str, show: Show) -> Iterator[Figure]:
    end, sled, trim, cut = jigs.suffix, jigs.sled, jigs.trim, layup.way.cut
    yield layup_sled.built(sled, end, show)
    id = f"building.layup-sled{end}-holds"
    yield hold_down(id, "layup", end, f"layup-hold{end}", sled.hold, sled.fence_height, show)
    yield trim_sled.built(trim, end, cut, show)
    id = f"building.trim-sled{end}-holds"
    yield hold_down(id, "layup-trim", end, f"layup-trim-hold{end}", trim.hold, trim.fence_height, show)
    yield layup_sled.sawn(sled, end, layup.layup.sheet, number, show)
    yield trim_sled.trimmed(trim, end, cut, number, show)
