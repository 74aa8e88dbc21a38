"""Every jig family, in the order in which its jigs are wanted. Adding one is a file and a line here."""

from __future__ import annotations

from collections.abc import Callable

from jigs.families.gauges import gauges
from jigs.families.holding import holding
from jigs.families.sled import sled
from jigs.families.wedges import wedges
from jigs.part import Part
from jigs.plan import Plan

Family = Callable[[Plan], list[Part]]

FAMILIES: tuple[Family, ...] = (wedges, sled, gauges, holding)


def parts_of(plan: Plan) -> list[Part]:
    """All parts of a plan."""
    return [part for family in FAMILIES for part in family(plan)]
