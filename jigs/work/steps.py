"""What several stages do alike: rails split off, faces flattened by hand, turned sides sanded; how ids are numbered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.words.quantity import Quantity, calliper
from jigs.work.minutes import FLATTENED, GRIT, MARKING, SANDED, each, over
from jigs.work.model import Check, Operation, Reading, at_bench, at_lathe, right_if
from jigs.work.supplies import grit
from jigs.work.woods import dusty, irritants

DRY_RING = (
    Reading("ring.light-at-rim", "Light at the rim, all joints together", by="feeler"),
    Reading("ring.light-at-core", "Light at the core, all joints together", by="feeler"),
    Reading(
        "half.light-at-rim",
        "Half of it on a straight edge: light at the rim, both ends together",
        by="feeler",
    ),
    Reading("half.light-at-core", "The same at the core, both ends together", by="feeler"),
)
PLATE = (
    "Lay one end of a segment along an edge of the joint plate, its inner edge at the plate's wide end; calliper "
    "across both near each edge of the segment: both readings agree"
)
COAT = (
    "Wipe off all dust; wet a cloth with the finish and spread it thinly.",
    "Wipe off what has not soaked in before it turns sticky.",
    "Let each coat dry as its maker says; rub with the finest grit between coats.",
    "Spread the rags out to dry outdoors at once.",
)
MOST = 16  # kinds of parts told in one step


def nth(number: int) -> str:
    """What an id ends in: nothing for the first of its kind, then "-2", "-3"."""
    return "" if number == 1 else f"-{number}"


def by_page(parts: Sequence[Part]) -> Iterator[tuple[str, Sequence[Part]]]:
    """As many as one step tells, in their order, with what its id ends in."""
    return ((nth(1 + k // MOST), parts[k : k + MOST]) for k in range(0, len(parts), MOST))


def split(of: str, pieces: int, rings: tuple[int, ...]) -> Operation:
    """For all segments that are cut so."""
    return at_bench(
        f"{of}.split",
        "Split what is left of the rail off each segment.",
        how=(
            "Clamp the segment down, the paper joint upright.",
            "Split along the paper with a chisel, no hand before its edge.",
            "Sand the paper off; the face is flattened again in its ring.",
        ),
        makes=(pieces, "segment"),
        rings=rings,
        checks=right_if(
            "clean", "No paper, no splinter on the face", if_not="sand on a flat board until it is clean"
        ),
        cautions=("chisel",),
        minutes=each(pieces, MARKING + SANDED),
    )


FLAT = "Straight edge across both faces, three ways: no light"
RUBBED = (
    "Scribble pencil over both faces.",
    "Rub the first face on abrasive on a flat board until the pencil is gone.",
    "Rub the second face; press on the side that callipers thicker.",
)


def flattened(
    of: str,
    id: str,
    does: str,
    pieces: tuple[int, str],
    rings: tuple[int, ...],
    off: float,
    settings: tuple[Quantity, ...],
    checks: Sequence[Check],
    more: tuple[str, ...] = (),
    readings: Sequence[Reading] = (),
) -> Operation:
    """Both faces of so many pieces, `off` them together; `more` is what comes after the rubbing."""
    count, comes = pieces
    taken_off = (calliper("flattening", "Take off both faces together", off),) if off else ()
    return at_bench(
        f"{of}.{id}",
        does if off else f"{does.partition(',')[0]} with few strokes: their sizes leave nothing for more.",
        how=(*RUBBED, *more),
        makes=(count, comes),
        rings=rings,
        settings=(*taken_off, *settings),
        checks=tuple(checks),
        cautions=("bench",),
        readings=tuple(readings),
        minutes=each(2 * count, FLATTENED),
    )


HOW = (
    "Take the rest away and run the lathe slowly.",
    "Put extraction beside the work and wear a mask.",
    "Sand with each grit until the scratches of the one before are gone; skip none.",
    "Stop after each grit, wipe the dust off, and look along the light.",
)
INSIDE = "Inside, hold the paper on a padded stick; no hand goes in while it turns."
BASE = "Leave card over the floating base: it has its finish."
STOPPED = ("Stop the lathe and sand by hand, along each segment: the gaps catch paper and fingers.",)
SCRATCHES = Check(
    "scratches",
    "Lathe stopped, a lamp low beside the work: no scratch of the grit before",
    if_not="go back to that grit; a finer one only polishes the scratch",
)


def sanded(
    plan: Plan,
    of: str,
    id: str,
    does: str,
    area: float,
    checks: Iterable[Check] = (),
    stopped: bool = False,
    also: tuple[str, ...] = (),
    caution: str = "lathe.sanding",
) -> Operation:
    """All grits over so many mm2; work with gaps is sanded with the lathe stopped."""
    finish = plan.wood.finish
    return at_lathe(
        f"{of}.{id}",
        does,
        how=(*(STOPPED if stopped else HOW[:1]), *also, *HOW[1:]),
        settings=(
            calliper("allowance", "Sand off, on the radius", finish.allowance),
            Quantity("grits", "Grits", ", ".join(str(g.grit) for g in finish.grits), "text"),
            *irritants(plan),
        ),
        checks=(SCRATCHES, *checks),
        cautions=dusty(plan, caution),
        minutes=over(area, GRIT * len(finish.grits), 5),
        uses_up=tuple(grit(str(g.grit), area, plan.job.unit) for g in finish.grits),
    )
