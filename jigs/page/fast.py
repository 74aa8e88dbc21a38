"""From a job file's text to what the page shows at once: form, section, pattern, verdicts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import cos, pi, sin
from typing import Literal

from geometry.bodies.torus import core_corners, flat_normals
from geometry.hardware.hold_down import LEAST_ROOM
from geometry.lathe.turning import SWING_CLEARANCE
from jigs.asked.job import Job
from jigs.forms.solve import shaped
from jigs.page.contract import Fast, Verdict
from jigs.page.drawing import drawing_of
from jigs.page.reading import Reading, said
from jigs.plans.plan import Shape, by_form
from jigs.plans.shape import TorusShape, VesselShape
from jigs.remedies.glued import as_glued
from jigs.stages.blank.check import blank_findings
from jigs.stages.boards.at_hand import thickest
from jigs.stages.layup.check.layup import layup_findings
from jigs.stages.stack.check import stack_findings
from jigs.stages.stack.plan import Layer
from jigs.stages.wedge_rings.check import sled_findings
from jigs.stages.wedge_rings.layout.sled import SledLayout
from jigs.words.findings import Finding, Refused

FAULT = Finding(
    "fault",
    "this cannot be drawn: a fault of the program",
    "report it with the job file, please; Undo goes on",
)


def fast(reading: Reading, coarse: bool = False) -> Fast:
    """Everything that can be had at once; `coarse` while something is dragged. What cannot be drawn says why."""
    if reading.job is None:
        return _undrawn(reading.faults)
    try:
        shape = shaped(reading.job, coarse)
        drawing, verdicts = drawing_of(shape, coarse), [*by_form(shape, torus=_torus, vessel=_vessel)]
        return Fast(drawing, verdicts, said(as_glued(_known(shape), reading.job.readings)))
    except Refused as refused:
        return _undrawn(as_glued(refused.findings, reading.job.readings))
    except Exception:  # whatever it stumbles over: the page lives on, and the file is as it was
        return _undrawn([FAULT])


def _undrawn(findings: Iterable[Finding]) -> Fast:
    return Fast(None, [], said(findings))


def _known(shape: Shape) -> Iterator[Finding]:
    """What can be said without working out whether pieces are held, the wood and the jigs."""
    yield from by_form(
        shape, torus=_known_of_torus, vessel=lambda own: stack_findings(own.job, own.section, own.stack)
    )
    yield from layup_findings(shape.job, shape.layups)


def _known_of_torus(shape: TorusShape) -> list[Finding]:
    return [*blank_findings(shape.job, shape.blank), *sled_findings(shape.job, shape.blank, shape.sled)]


SLACK = 1e-6  # mm
Place = tuple[float, float]


def _verdict(
    job: Job, id: str, label: str, value: float, limit: float, sense: Literal["at least", "at most"],
    key: str, at: Place | None = None, stops: bool = True,
) -> Verdict:  # fmt: skip
    ok = value >= limit - SLACK if sense == "at least" else value <= limit + SLACK
    texts = job.show(value), job.show(limit)
    return Verdict(id, label, value, limit, sense, ok, *texts, key, at, stops)


def _torus(shape: TorusShape) -> Iterator[Verdict]:
    job, blank, form = shape.job, shape.blank, shape.job.form
    corners = core_corners(blank.centre, blank.core_apothem, blank.segments)
    x, y = max(corners.tolist(), key=lambda at: float((at[0] - form.major_radius) ** 2 + at[1] ** 2))
    yield _verdict(job, "wall", "Wall between core and surface", shape.wall, form.least_wall, "at least",
                   "form.core_opening", (x, y))  # fmt: skip
    yield _verdict(job, "thin-edge", "Thin edge of a wedge ring", blank.thin_edge, form.least_thin_edge, "at least",
                   "form.wedge_rings", (blank.inner_radius, 0.0))  # fmt: skip
    yield _verdict(job, "segment", "Outer edge of a segment", blank.outer_edge, max(form.least_segment, LEAST_ROOM),
                   "at least", "form.segments", (blank.centre, blank.apothem))  # fmt: skip
    margin, angle = min(zip(shape.margins, flat_normals(blank.segments).tolist(), strict=True))
    left = 0.0 if abs(margin) < SLACK else margin  # the least ring that holds the form has nothing to spare
    x, y = blank.centre + blank.apothem * cos(angle), blank.apothem * sin(angle)
    yield _verdict(job, "flat", "Wood beyond the allowance, at the flat with least", left, 0.0, "at least",
                   "form.ring_across_flats", (x, y))  # fmt: skip
    yield _swing(job, 2 * blank.swing_radius, (blank.outer_radius, 0.0))
    shop, on_table = job.workshop, isinstance(shape.sled, SledLayout)
    height, key = (
        (shop.saw.blade_height, "saw.blade_height") if on_table else (shop.bandsaw.height, "bandsaw.height")
    )
    if height is not None:
        yield _verdict(job, "saw-height", "Saw height that a ring needs", shape.sled.saw_height, height, "at most",
                       key, (blank.centre, blank.apothem))  # fmt: skip


def _vessel(shape: VesselShape) -> Iterator[Verdict]:
    job, section, stack = shape.job, shape.section, shape.stack
    wall, height = shape.wall
    near = min(max(height, 0.0), section.height)
    yield _verdict(job, "wall", "Thinnest wall", wall, job.wall.least, "at least",
                   "wall.thickness", (section.outer.radius_at(near), near))  # fmt: skip
    if not section.through:
        yield _verdict(job, "floor", "Floor", section.floor_thickness, job.wall.least, "at least", "wall.floor",
                       (0.0, section.inner.start[1]))  # fmt: skip
    if stack.joints:
        joint = min(stack.joints, key=lambda one: min(one.finished, one.rough))
        yield _verdict(job, "glue", "Narrowest glue face between rings", min(joint.finished, joint.rough),
                       job.rings.least_glue, "at least", "rings.heights", (joint.outer, joint.height))  # fmt: skip
    sawn = [layer.ring for layer in stack.layers if layer.cut is not None]
    if sawn:
        ring = min(sawn, key=lambda one: one.outer_edge)
        least = max(job.rings.least_segment, LEAST_ROOM / cos(pi / ring.segments))
        yield _verdict(job, "segment", f"Outer edge of a segment, ring {ring.number}", ring.outer_edge, least,
                       "at least", "rings.segments", (ring.outer, ring.bottom + ring.height / 2))  # fmt: skip
    yield _swing(job, 2 * stack.largest_radius, None)
    yield from _sawn(shape)


def _sawn(shape: VesselShape) -> Iterator[Verdict]:
    """The ring that needs the highest blade, and the one that is thickest for the boards at hand."""
    job = shape.job
    rings = [(layer, layer.cut) for layer in shape.cut if layer.cut is not None]
    if not rings:
        return
    count, sled = max(shape.sleds.items(), key=lambda one: one[1].saw_height)
    layer, _ = max((one for one in rings if one[0].ring.segments == count), key=lambda one: one[1].length)
    yield _verdict(job, "saw-height", f"Saw height that ring {layer.number} needs", sled.saw_height,
                   job.workshop.saw.blade_height, "at most", "saw.blade_height", _middle(layer))  # fmt: skip
    boards = [
        (cut.length - most, name, most, layer, cut.length)
        for layer, cut in rings
        if not layer.plied(job.layup)
        for name in dict.fromkeys(layer.species)
        if (most := thickest(job, name)) is not None
    ]
    if boards:
        _, name, most, layer, length = max(boards, key=lambda one: one[0])
        yield _verdict(job, "stock", f"Board for ring {layer.number}, thickness: {name} at hand", length, most,
                       "at most", "stock.boards", _middle(layer), stops=False)  # fmt: skip


def _middle(layer: Layer) -> Place:
    ring = layer.ring
    return ring.outer, ring.bottom + ring.height / 2


def _swing(job: Job, across: float, at: Place | None) -> Verdict:
    limit = job.workshop.lathe.swing_over_bed - SWING_CLEARANCE
    return _verdict(
        job, "swing", "Across, as it turns on the lathe", across, limit, "at most", "lathe.swing_over_bed", at
    )
