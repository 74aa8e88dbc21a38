"""What the readings of a job come to, and which jigs in the rack are wrong now.

The sled's wedge in the rack may be another one than the readings take it to be: trial rings were cut on that.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial
from math import degrees, radians
from pathlib import Path
from typing import TYPE_CHECKING, Any

from geometry.records import Record, replace
from jigs.asked import toml_source
from jigs.asked.change import changed
from jigs.asked.job import TorusJob
from jigs.asked.jobfile import job_of
from jigs.asked.toml_source import readings_file
from jigs.files.written import drawn_for
from jigs.forms.form import of_plan
from jigs.measured.advice import Advice
from jigs.measured.arcs import arc_advice
from jigs.measured.blade_lean import lean_advice
from jigs.measured.blank_left import blank_advice
from jigs.measured.first_side import side_advice, turned_advice
from jigs.measured.flattening import flattening_advice
from jigs.measured.glued import TOPIC as GLUED
from jigs.measured.glued import glued_advice
from jigs.measured.halves import halves_advice
from jigs.measured.keys import keys_advice
from jigs.measured.lid import lid_advice
from jigs.measured.others import TOPIC as OTHERS
from jigs.measured.others import Watched, others_advice
from jigs.measured.printer import machine_advice
from jigs.measured.ring_sizes import rings_advice
from jigs.measured.segment_angle import fence_advice, segment_advice
from jigs.measured.since import rings_glued
from jigs.measured.stop import stop_advice
from jigs.measured.vessel import vessel_advice
from jigs.measured.wedge_angle import TOPIC as WEDGE
from jigs.measured.wedge_angle import wedge_advice, wedge_found
from jigs.measured.wobble import wobble_advice
from jigs.parts.part import Part
from jigs.plans.plan import by_form
from jigs.plans.torus import TorusPlan
from jigs.sets.changes_told import INDENT, by_reason
from jigs.sets.old_set import OldSet
from jigs.sets.rack import done_with, prove
from jigs.words.file_names import as_typed
from jigs.words.findings import Finding, Refused, Severity

if TYPE_CHECKING:
    from jigs.asked.job import Job
    from jigs.plans.plan import Plan

WEDGES = ("sled-wedge", "end-wedge")
SAME = 2e-5  # radians: wedges are lettered to 0.001 degrees


def which_wedge(plan: Plan, old: OldSet) -> Iterator[Finding]:
    """What refuses new readings that leave out their wedge, once an earlier correction is in the rack.

    Taken for those of a wedge of pi/N, rings that prove the corrected wedge would undo it. New readings that name
    another wedge than the rack's may be of older rings, or name it still: a warning.
    """
    if drawn := old.size(WEDGES[0], "angle"):
        yield from by_form(plan, torus=lambda torus: _asked(torus, radians(drawn)), vessel=lambda _: iter(()))


def _papered(plan: TorusPlan, old: OldSet) -> bool:
    """Whether the wedge in the rack is right with the paper that lies under it."""
    found = wedge_found(plan.job, plan.blank, plan.ring_cut)
    drawn = old.size(WEDGES[0], "angle")
    if found is None or not drawn or not found.clear or found.error.sure:
        return False
    return found.papered and abs(radians(drawn) - found.lettered) < SAME


def _asked(plan: TorusPlan, rack: float) -> Iterator[Finding]:
    found, readings = wedge_found(plan.job, plan.blank, plan.ring_cut), plan.job.readings
    if found is None or abs(rack - plan.ring_cut.wedge_angle) < SAME:
        return
    of, drawn = found.of, degrees(rack)
    if lettered := readings.angle(f"{of}.wedge-angle", "eye"):
        severity: Severity = "warning"
        cut_on = lettered.value
        message = (
            f"the readings name a wedge of {degrees(cut_on):.3f}° for these rings; the last make drew the sled's "
            f"wedge to {drawn:.3f}°"
        )
        remedy = f"if they were cut on that one, write wedge-angle = {drawn:.3f} and make the set again"
    else:
        severity, cut_on = "refused", plan.blank.half_wedge
        message = (
            f"the readings do not say on which wedge these rings were cut: the last make drew the sled's wedge to "
            f"{drawn:.3f}°, and without a correction it is {degrees(cut_on):.3f}°"
        )
        remedy = (
            "write the angle lettered on that wedge under the readings: "
            f"wedge-angle = {drawn:.3f} or wedge-angle = {degrees(cut_on):.3f}"
        )
    if abs(rack - cut_on) >= SAME:
        line = next(readings.entries[id].line for id in readings.under(f"{of}.gap-at-"))
        yield Finding("which-wedge", message, remedy, f"{of}.wedge-angle", readings.file, line, severity)


def which_rings(plan: Plan, old: OldSet) -> Iterator[Finding]:
    """What refuses another count of wedge rings, or of segments in them, than the last make's, once readings say that
    they are glued."""
    yield from by_form(plan, torus=lambda torus: _glued(torus, old), vessel=lambda _: iter(()))


def _glued(plan: TorusPlan, old: OldSet) -> Iterator[Finding]:
    if not rings_glued(plan.job.readings):
        return
    counts = (
        ("wedge_rings", plan.blank.wedge_rings, old.rings, "rings are glued"),
        ("segments", plan.blank.segments, _segments(old), "segments are in each"),
    )
    for key, wished, made, glued in counts:
        if made not in (0, wished):
            yield plan.job.finding(
                "glued-others",
                f"the readings say that the wedge rings are glued; the last make was for {key} = {made}, and this job "
                f"has {wished}",
                key=f"form.{key}",
                remedy=f"write {key} = {made}; if {wished} {glued}, move {old.folder} away first",
            )


def _segments(old: OldSet) -> int:
    """In each ring of the last make; 0 where it has no joint plate."""
    angle = old.size("joint-plate", "angle")
    return round(360 / angle) if angle else 0


def _blank(plan: TorusPlan) -> Iterator[Advice]:
    return blank_advice(plan, partial(_passes, plan.asked))


def _passes(job: TorusJob, sizes: Mapping[str, str]) -> bool:
    """Whether a job can be made with these sizes, as typed, in its form in place of its own."""
    if job.source is None:
        return False
    changes = {f"form.{name}": size for name, size in sizes.items()}
    try:
        source = changed(toml_source.read(job.source), {**changes, "form.hole_diameter": None})
        prove(job_of(source, job.source))
    except Refused:
        return False
    return True


# In the order in which the readings are taken.
OF_TORUS: tuple[Callable[[TorusPlan], Iterator[Advice]], ...] = (
    segment_advice,
    lean_advice,
    glued_advice,
    stop_advice,
    wedge_advice,
    rings_advice,
    halves_advice,
    _blank,
    flattening_advice,
    turned_advice,
    side_advice,
)


OF_VESSEL = (fence_advice, vessel_advice, lid_advice)


class Measured(Record):
    """`wrong` are jigs of the last make that the readings, or a change of the job since, have made wrong; with why."""

    advice: tuple[Advice, ...]
    read: int  # how many ids the file has
    wrong: tuple[tuple[str, str], ...]
    made: bool  # whether there is a set to compare


def measured(plan: Plan, parts: Sequence[Part], root: Path) -> Measured:
    """What the readings of a plan come to; `root` is where job folders land."""
    old = OldSet(root / plan.job.name)
    advice: Iterable[Advice] = _advice(plan, [part for part in parts if not _is_right(plan.job, part, old)])
    done = done_with(plan, parts)
    wrong: Iterable[tuple[str, str]] = (one for one in now_wrong(plan.job, parts, old) if one[0] not in done)
    if by_form(plan, torus=lambda own: _papered(own, old), vessel=lambda _: False):
        wrong = (one for one in wrong if one[0] not in WEDGES)
    if asked := next(which_wedge(plan, old), None):
        which = Advice(f"{WEDGE}.which", WEDGE, "unclear", (), (f"{asked.said[0].upper()}{asked.said[1:]}.",))
        if asked.severity == "refused":
            advice = (one for one in advice if one.topic != WEDGE)
            wrong = (one for one in wrong if one[0] not in WEDGES)
        advice = (*advice, which)
    if others := next(which_rings(plan, old), None):
        which = Advice("glued.others", GLUED, "unclear", (), (f"{others.said[0].upper()}{others.said[1:]}.",))
        advice = (*advice, which)
    return Measured(tuple(advice), len(plan.job.readings.entries), tuple(wrong), bool(old.entries))


def _advice(plan: Plan, parts: Sequence[Part]) -> Iterator[Advice]:
    """`parts` without those that are drawn for the printer already."""
    watched = Watched(plan.job.readings.entries)
    readings = replace(plan.job.readings, entries=watched)
    job = replace(plan.job, readings=readings)
    plan = by_form(
        plan,
        torus=lambda own: replace(own, job=job, asked=replace(own.asked, readings=readings)),
        vessel=lambda own: replace(own, job=job),
    )
    stages = tuple(stage.id for stage in of_plan(plan).stages if stage.remounts)
    for topic in (
        keys_advice(plan),
        machine_advice(plan.job, parts),
        *by_form(
            plan,
            torus=lambda own: (of(own) for of in OF_TORUS),
            vessel=lambda own: (of(own) for of in OF_VESSEL),
        ),
        wobble_advice(plan, plan.runout, stages),
        arc_advice(readings, plan.job.unit),
    ):
        yield from watched.answering(topic)
    yield from others_advice(watched)


def _is_right(job: Job, part: Part, old: OldSet) -> bool:
    """Whether a print is in the rack that was drawn for the printer as it was measured."""
    drawn = drawn_for(part, job)
    return not drawn.exact and old.drawn_as(part.name, drawn)


def now_wrong(job: Job, parts: Sequence[Part], old: OldSet) -> Iterator[tuple[str, str]]:
    """The jigs of a set that no longer do what parts of their names do, each with why."""
    for part in parts:
        found = old.against(part, job) if part.name in old.jigs else None
        if found is not None and found.wrong:
            yield part.name, "; ".join(found.reasons)


def measured_json(found: Measured) -> Mapping[str, Any]:
    """For scripts; mm and radians."""
    return {
        "verdict": "measured",
        "read": found.read,
        "advice": [
            {"id": one.id, "topic": one.topic, "verdict": one.verdict, "says": list(one.says),
             "found": [{name: getattr(size, name) for name in ("id", "label", "value", "kind")} for size in one.found]}
            for one in found.advice
        ],
        "wrong": dict(found.wrong),
    }  # fmt: skip


def measured_text(found: Measured, job: Path) -> str:
    """For people: topic by topic, then the rack."""
    lines = [line for one in found.advice for line in _told(one)] if found.read else [_unread(job)]
    return "\n".join([*lines, *_rack(found, job)])


def _unread(job: Path) -> str:
    file = readings_file(job)
    if file.is_file():
        return f"no readings yet: write them into {file}, and take away the # in front of their lines"
    return f"no readings yet: jigs measured {as_typed(job)} --blank writes a file for them"


HEADS = {
    "right": "nothing to do",
    "correct": "correct it",
    "unclear": "measure again",
    "short": "does not fit",
}


def head(advice: Advice) -> str:
    """What to do; of a reading that jigs may follow, or that a step's own check answers, not: nothing."""
    return "read" if advice.id.startswith(("keys.", OTHERS)) else HEADS[advice.verdict]


def _told(advice: Advice) -> list[str]:
    return [f"{advice.topic}: {head(advice)}", *(f"  {sentence}" for sentence in advice.says)]


def _rack(found: Measured, job: Path) -> list[str]:
    if not found.wrong:
        return ["no jig in the rack is wrong by these readings"] if found.made and found.read else []
    told = [f"{INDENT}{line}" for line in by_reason(found.wrong)]
    return [f"jigs in the rack that are now wrong; jigs make {as_typed(job)} draws them right:", *told]
