"""What a torus job states beside its workshop."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, cast

from jigs.asked.defaults import default_allowance
from jigs.asked.job import Form, TorusJob
from jigs.asked.jobfile.read import Read
from jigs.asked.jobfile.workshop import Known, gauges_of, layup_of, record_of, wood_named, workshop_of
from jigs.asked.key import Value
from jigs.asked.keys import DIAMETERS
from jigs.words.findings import Finding
from jigs.words.lengths import Unit, limit_length, show_length

_AGREE = 0.01  # mm: three diameters may differ by this, from rounding
_FLATTEST, _TALLEST = 2 / 3, 3 / 2  # of the tube's width: beyond, too much of a regular ring is waste
_HEIGHT = "form.tube_height"


def torus_faults(asked: Read) -> Iterator[Finding]:
    """Diameters that make no torus."""
    given = [path for path in DIAMETERS if path in asked.written]
    if len(given) < 2:
        names = ", ".join(path.partition(".")[2] for path in DIAMETERS)
        message = "alone does not fix the torus" if given else "states no size"
        yield asked.fault("missing-key", message, f"Give any two of {names}", *(given or ["form"]))
    elif all(path in asked.values for path in given):
        yield from _size_faults(asked, given)
    yield from _turn_faults(asked)
    yield from _strip_faults(asked)


def _strip_faults(asked: Read) -> Iterator[Finding]:
    """A layup's plies are to meet at the joints, where a strip parts them."""
    for name in ("spacer", "ring_spacer"):
        if asked.values.get(f"form.{name}") and "layup.plies" in asked.written:
            message = "no strips stand in the joints of a layup: its plies meet there"
            yield asked.fault("too-many", message, f"Leave {name} out, or leave [layup] out", f"form.{name}")


def _turn_faults(asked: Read) -> Iterator[Finding]:
    """A ring lies on a flat as its faces are sawn, so its woods can be turned by whole segments only."""
    turns = cast("tuple[float, ...]", asked.values.get("form.turn", ()))
    part = next((turn for turn in turns if turn != round(turn)), None)
    if part is not None:
        message = f"a ring of a torus cannot be turned by {part:g} segments: it lies on a flat as it is sawn"
        yield asked.fault(
            "part-of-a-segment", message, f"Give whole segments, such as {round(part) or 1}", "form.turn"
        )


def _size_faults(asked: Read, given: list[str]) -> Iterator[Finding]:
    outer, hole, tube = _diameters(asked.values)
    if len(given) == 3 and abs(outer - hole - 2 * tube) > _AGREE:
        would = show_length(outer - 2 * tube, asked.unit)
        remedy = f"Leave one of the three out, or make the hole {would}"
        message = "does not agree with the other two diameters"
        yield asked.fault("diameters-disagree", message, remedy, "form.hole_diameter")
    elif hole <= 0 or tube <= 0:
        limit = show_length(outer / 2 if hole <= 0 else outer, asked.unit)
        what = "the tube leaves no hole" if hole <= 0 else "the hole leaves no tube"
        message = f"{what} in {show_length(outer, asked.unit)} across"
        yield asked.fault("no-torus", message, f"Make it less than {limit}", given[-1])
    elif (high := cast("float | None", asked.values.get(_HEIGHT))) is not None:
        yield from _height_faults(asked, tube, high)


def _height_faults(asked: Read, tube: float, high: float) -> Iterator[Finding]:
    """An ellipse that a ring with equal sides holds badly."""
    low, top = _FLATTEST * tube, _TALLEST * tube
    if low - _AGREE <= high <= top + _AGREE:
        return
    least, most = limit_length(low, asked.unit, "least"), limit_length(top, asked.unit, "most")
    yield asked.fault(
        "tube-out-of-round",
        f"a tube {show_length(tube, asked.unit)} wide and {show_length(high, asked.unit)} high is too far from round: "
        "too much of its rings, whose sides are equal, would be turned away",
        f"Make it {least} to {most}",
        _HEIGHT,
    )


def _diameters(values: Mapping[str, Value | None]) -> tuple[float, float, float]:
    """Outer, hole and tube diameter from at least two of them."""
    outer, hole, tube = (cast("float | None", values.get(path)) for path in DIAMETERS)
    if outer is None:
        outer = cast(float, hole) + 2 * cast(float, tube)
    if tube is None:
        tube = (outer - cast(float, hole)) / 2
    return outer, outer - 2 * tube if hole is None else hole, tube


def torus_job(known: Known, head: Mapping[str, Any]) -> TorusJob:
    """The job; `head` is what every job states."""
    form = _form(known, head["unit"])
    return TorusJob(
        **head,
        form=form,
        gauges=gauges_of(known, form.turning_allowance, head["unit"]),
        workshop=workshop_of(known),
        layup=layup_of(known),
    )


def _form(known: Known, unit: Unit) -> Form:
    outer, hole, tube = _diameters(known)
    allowance = known["form.turning_allowance"] or default_allowance(outer, unit)
    across = {"outer_diameter": outer, "hole_diameter": hole, "tube_diameter": tube}
    strips = wood_named(known, "form.spacer_species")
    return cast(Form, record_of(known, "form", **across, turning_allowance=allowance, spacer_species=strips))
