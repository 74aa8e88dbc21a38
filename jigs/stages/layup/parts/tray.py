"""The mirrored glue-up tray: two fences at right angles, witness lines where seams and plies must come."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, rectangle
from jigs.parts.part import Line, Part
from jigs.parts.plate import Plate, with_tabs
from jigs.plans.plan import Plan, by_form
from jigs.stages.layup.layout.tray import CORNER, LayupTrayLayout
from jigs.stages.layup.plan import LayupJigs, LayupPlan
from jigs.words.lengths import show_length

TICK, LONG_TICK = 4.0, 8.0  # of a ply, of a joint between strips
SEAM_PAST = 12.0  # of a seam's line past the work
APART = 0.4  # mm: ticks nearer than this run into one another
BELOW_TOP = 0.5  # of a fence's ticks
CLEAR = 0.5  # of a mark from slots and edges


def layup_tray(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> list[Part]:
    """Base and two fences, as often as blocks are in clamps at a time."""
    tray, end = jigs.tray, jigs.suffix
    lower, _, left, _ = (thinned(found) for found in tray.meetings(tray.boundaries()))
    wide, tall = tray.size
    parts = [
        _base(plan, layup, tray, end),
        _fence(plan, tray, f"layup-tray-fence-a{end}", tray.fences[0], lower, _seams(wide, tray.columns)),
        _fence(plan, tray, f"layup-tray-fence-b{end}", tray.fences[1], left, _seams(tall, tray.rows)),
    ]
    return [replace(part, quantity=layup.trays) for part in parts]


def thinned(places: Sequence[float]) -> list[float]:
    """Those that do not run into the one before."""
    kept: list[float] = []
    for place in places:
        if not kept or place - kept[-1] >= APART:
            kept.append(place)
    return kept


def _seams(length: float, count: int) -> list[float]:
    return [length / 2] if count == 2 else []


def _slots(tray: LayupTrayLayout) -> list[Contour]:
    half, t = tray.play / 2, tray.sheet
    along = [rectangle(x - half, -t, x + TAB + half, tray.play) for x in tray.tabs(tray.fences[0])]
    up = [rectangle(-t, y - half, tray.play, y + TAB + half) for y in tray.tabs(tray.fences[1])]
    return [*along, *up]


def _base(plan: Plan, layup: LayupPlan, tray: LayupTrayLayout, end: str) -> Part:
    unit, (wide, tall) = plan.job.unit, tray.size
    left, low, right, high = tray.bounds
    plate = Plate(plan, rectangle(*tray.bounds), _slots(tray))
    plate.marks += _lines(tray)
    size = f"{show_length(wide, unit, exact=True)} × {show_length(tall, unit, exact=True)}".upper()
    upward, middle = _upward(plan, layup), (left + right) / 2
    plate.letter("LAYUP TRAY, GLUED AND SANDED", size, *upward, "WAX PAPER UNDER", near=(middle, low))
    x, y = (tray.tabs(end)[1] + TAB / 2 for end in tray.fences)
    foot, t = (x, -tray.sheet), tray.sheet
    plate.angle("fence to fence", 90.0, foot, (-t, y))
    plate.gap("fence a to the far edge", high + t, foot, (middle, high))
    return plate.part(
        f"layup-tray{end}",
        "glues a segment's pieces up mirrored, seams in the middle"
        if layup.per_segment > 1
        else "shows how the plies of a segment run",
        _use(plan, layup, tray),
        making=("Lay wax paper on it under the work; put tape on the fences.",),
    )


def _lines(tray: LayupTrayLayout) -> tuple[Line, ...]:
    (wide, tall), gap = tray.size, tray.play + CLEAR
    outline = [((wide, gap), (wide, tall), (gap, tall))]
    seams = [((x, gap), (x, tall + SEAM_PAST)) for x in _seams(wide, tray.columns)]
    seams += [((gap, y), (wide + SEAM_PAST, y)) for y in _seams(tall, tray.rows)]
    return (
        *(Line(points, "outline as glued", witness=True) for points in outline),
        *(Line(points, "seam", witness=True) for points in seams),
        *_ply_lines(tray),
        *_ticks(tray),
    )


def _ply_lines(tray: LayupTrayLayout) -> list[Line]:
    """Where strips of the stack meet, on the work's place, short of the fences."""
    gap = tray.play + CLEAR
    found = []
    for start, end in tray.lines(tray.joints()):
        cut = _inside(start, end, gap)
        if cut:
            found.append(Line(cut, "strips meet", witness=True))
    return found


def _inside(
    start: tuple[float, float], end: tuple[float, float], gap: float
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """What of a line has x and y of at least `gap`."""
    low, high = 0.0, 1.0
    for a, b in zip(start, end, strict=True):
        if max(a, b) <= gap:
            return None
        if min(a, b) < gap:
            t = (gap - a) / (b - a)
            low, high = (max(low, t), high) if a < b else (low, min(high, t))
    if high - low < 1e-3:
        return None
    (x0, y0), (x1, y1) = start, end
    return ((x0 + low * (x1 - x0), y0 + low * (y1 - y0)), (x0 + high * (x1 - x0), y0 + high * (y1 - y0)))


def _ticks(tray: LayupTrayLayout) -> list[Line]:
    """Outside the work, at its upper and its right edge: every ply, and longer where strips meet."""
    (wide, tall), gap = tray.size, tray.play + CLEAR
    found = []
    for distances, length, name in ((tray.boundaries(), TICK, "ply"), (tray.joints(), LONG_TICK, "strip")):
        _, upper, _, right = tray.meetings(distances)
        found += [
            Line(((x, tall), (x, tall + length)), name, witness=True) for x in thinned(upper) if x > gap
        ]
        found += [
            Line(((wide, y), (wide + length, y)), name, witness=True) for y in thinned(right) if y > gap
        ]
    return found


def _upward(plan: Plan, layup: LayupPlan) -> tuple[str, ...]:
    """Which way a segment is up, as the tape layouts have it; on faces a tray shows no height."""
    if layup.plane == "face":
        return ()
    return by_form(plan, torus=lambda _: ("FACE 1 ↓",), vessel=lambda _: ("UP ↑",))


def _use(plan: Plan, layup: LayupPlan, tray: LayupTrayLayout) -> tuple[str, ...]:
    pieces = tray.columns * tray.rows
    sanding = show_length(layup.sanding, plan.job.unit, exact=True)
    mirrored = {
        1: ("One piece is a whole segment: the tray only shows how its plies run.",),
        2: ("Lay two pieces, one of them turned over: their plies meet at the seam.",),
        4: (
            "Lay four pieces: the two on one diagonal as cut, the other two turned over; plies meet at both seams.",
        ),
    }[pieces]
    return (*mirrored, f"The outline is the work after each glued face was sanded by {sanding}.")


def _fence(
    plan: Plan, tray: LayupTrayLayout, name: str, end: float, plies: Sequence[float], seams: Sequence[float]
) -> Part:
    """Along the work's side from the corner, y the height above the base."""
    height = tray.fence_height
    corners = [(end, 0.0), (end, height), (CORNER, height), (CORNER, 0.0)]
    plate = Plate(plan, with_tabs(corners, tray.tabs(end), tray.sheet))
    top = height - BELOW_TOP
    for places, tick, what in ((plies, TICK, "ply"), (seams, LONG_TICK, "seam")):
        inside = (x for x in places if CORNER < x < end - CLEAR)
        plate.marks += [Line(((x, top - tick), (x, top)), what, witness=True) for x in inside]
    plate.letter(f"SIDE {name.split('-')[3].upper()}", "← CORNER", titled=False)
    plate.gap("foot to top", height, (CORNER + 2, 0.0), ((CORNER + end) / 2, height))
    return plate.part(
        name,
        "what the pieces are pressed to; its ticks show seam and plies",
        making=("Press it to the walls of its slots that are away from the work, ticks towards the work.",),
    )
