"""What is tried in scrap, every piece, and the work in its order."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees

from jigs.cautions import irritants, told
from jigs.job import Job, Unit
from jigs.lengths import show_length
from jigs.plan.wood.lots import Lot
from jigs.plan.wood.steps import CutLine, Scrap, Step
from jigs.plan.wood.whole import WoodPlan
from jigs.words.sections import Row, Section
from jigs.words.wood.numbers import count_text, ring_list, setting_text, sizes
from jigs.words.wood.work import COMES, SAFE, check_of, trial_of, what_of

PROVES = {
    "ring": "closes in a band without light",
    "quarter": "fills the check corner without light",
    "staves": "closes dry in a band without light",
}
MAKES = {"ring": "ring", "quarter": "wedge ring", "staves": "set of staves"}


def scrap_section(job: Job, wood: WoodPlan) -> Section:
    """Before good wood is cut."""
    return Section(
        "Scrap first",
        tuple(_scrap(scrap, job.unit) for scrap in wood.scraps),
        (
            "Scrap as hard, as thick and as wide as the good wood; what it shows wrong is set right before good wood.",
        ),
    )


def _scrap(scrap: Scrap, unit: Unit) -> Row:
    made = count_text(scrap.count, MAKES[scrap.of], "sets of staves" if scrap.of == "staves" else None)
    return Row(
        f"{MAKES[scrap.of]} of {scrap.segments}, for {ring_list(scrap.rings)}",
        f"{made} of {scrap.segments}, {_from(scrap, unit)}: {PROVES[scrap.of]}",
        "text",
    )


def _from(scrap: Scrap, unit: Unit) -> str:
    length, section = show_length(scrap.strip, unit), sizes((scrap.thickness, scrap.width), unit)
    if scrap.strips > 1:
        return f"from {scrap.strips} strips, each {length} of {section}"
    return f"from {length} of {section}"


def cut_list_section(job: Job, wood: WoodPlan) -> Section:
    """Every lot: count, sizes, angles, stop, the step that cuts it."""
    rows = [row for line in wood.lines for row in _lot(wood.lot(line.lot), line, job.unit)]
    count, spares = sum(lot.count for lot in wood.lots), sum(lot.spares for lot in wood.lots)
    total = Row("pieces in all", f"{count} and {spares} to spare", "text")
    return Section(
        "Cut list",
        (*rows, total),
        (
            "Sizes are thickness x width x length along the strip, of slanted ends the longer and the shorter edge; "
            "finished is as glued, rough the thickness of the board and the width of the strip as ripped.",
        ),
    )


def _lot(lot: Lot, line: CutLine, unit: Unit) -> tuple[Row, Row]:
    stop = f", stop at {show_length(lot.stop, unit)}" if lot.stop is not None else ""
    angles = f"blade tilt {degrees(line.tilt):.2f}°, gauge off square {degrees(line.gauge):.2f}°{stop}"
    finished = sizes((lot.thickness, line.width, *_edges(line.longer, line.shorter)), unit)
    rough = " or ".join(sizes(size, unit) for size in line.rough)
    strip = f"{show_length(line.each, unit)} of strip each, {show_length(line.strip, unit)} for all in one"
    return (
        Row(
            f"lot {lot.number}",
            f"{lot.name}, {ring_list(lot.rings)}: {lot.count} and {lot.spares} to spare, finished {finished}",
            "text",
        ),
        Row(
            f"lot {lot.number}, cut in step {line.step}",
            f"{sizes(_edges(lot.longer, lot.shorter), unit)}, {angles}; rough {rough}; {strip}",
            "text",
        ),
    )


def _edges(longer: float, shorter: float) -> tuple[float, ...]:
    return (longer,) if longer == shorter else (longer, shorter)


def order_section(job: Job, wood: WoodPlan) -> Section:
    """The steps: setting, test cut, check; each is tried and checked like the first of its kind."""
    machines = dict.fromkeys(step.machine for step in wood.steps)
    first = {what_of(step): step.number for step in reversed(wood.steps)}
    return Section(
        "Order of the work",
        tuple(row for step in wood.steps for row in _step(step, first[what_of(step)], job.unit)),
        (
            *irritants(weight.species for weight in wood.finish.weights),
            *(told("machines.wear") if machines.keys() - {"bench"} else ()),
            *(caution for machine in machines for caution in told(*SAFE[machine], unit=job.unit)),
            *told("manual"),
        ),
    )


def _step(step: Step, like: int, unit: Unit) -> Iterator[Row]:
    """What, how it is set and with which jigs, how it is tried and checked."""
    number, told = step.number, [setting_text(setting, unit) for setting in step.settings]
    yield Row(f"{number}. {step.machine}", f"{what_of(step)} ({_made(step)})", "text")
    if step.jigs:
        told.append(f"with {', '.join(step.jigs)}")
    if like != number:
        also = [*(["first in scrap"] if step.tested else []), *([] if step.checks else ["checked"])]
        told += [f"{' and '.join(also)} as in step {like}"] if also else []
    if told:
        yield Row(f"{number}. set", ", ".join(told), "text")
    if like == number and step.tested:
        yield Row(f"{number}. first in scrap", trial_of(step), "text")
    if like == number or step.checks:
        yield Row(f"{number}. check", check_of(step, like, unit), "text")


def _made(step: Step) -> str:
    """How many, and of which rings."""
    rings = ring_list(step.rings)
    return f"{count_text(step.pieces, COMES[step.work])}, {rings}" if step.pieces else rings
