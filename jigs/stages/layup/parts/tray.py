"""The mirrored glue-up tray, and the holder in which a glue face is sanded by what is left to take off."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, rectangle
from geometry.records import replace
from jigs.parts.part import Line, Part
from jigs.parts.places import centred
from jigs.parts.plate import Plate, closed, with_tabs
from jigs.plans.plan import Plan, by_form
from jigs.stages.layup.layout.tray import (
    CORNER,
    FINGER,
    FLOOR,
    GAUGE_HEIGHT,
    NOTCH,
    RELIEF,
    LayupTrayLayout,
    SandingHolder,
)
from jigs.stages.layup.plan import LayupJigs, LayupPlan

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
    (wide, tall) = tray.size
    left, low, right, high = tray.bounds
    plate = Plate(plan, rectangle(*tray.bounds), _slots(tray))
    plate.marks += _lines(tray)
    size = f"{plan.job.show(wide, exact=True)} × {plan.job.show(tall, exact=True)}".upper()
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


def _ply_lines(tray: LayupTrayLayout) -> Iterator[Line]:
    """Where strips of the stack meet, on the work's place, short of the fences."""
    gap = tray.play + CLEAR
    for start, end in tray.lines(tray.joints()):
        cut = _inside(start, end, gap)
        if cut:
            yield Line(cut, "strips meet", witness=True)


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


def _ticks(tray: LayupTrayLayout) -> Iterator[Line]:
    """Outside the work, at its upper and its right edge: every ply, and longer where strips meet."""
    (wide, tall), gap = tray.size, tray.play + CLEAR
    for distances, length, name in ((tray.boundaries(), TICK, "ply"), (tray.joints(), LONG_TICK, "strip")):
        _, upper, _, right = tray.meetings(distances)
        yield from (
            Line(((x, tall), (x, tall + length)), name, witness=True) for x in thinned(upper) if x > gap
        )
        yield from (
            Line(((wide, y), (wide + length, y)), name, witness=True) for y in thinned(right) if y > gap
        )


def _upward(plan: Plan, layup: LayupPlan) -> tuple[str, ...]:
    """Which way a segment is up, as the tape layouts have it; on faces a tray shows no height."""
    if layup.plane == "face":
        return ()
    return by_form(plan, torus=lambda _: ("FACE 1 ↓",), vessel=lambda _: ("UP ↑",))


def _use(plan: Plan, layup: LayupPlan, tray: LayupTrayLayout) -> tuple[str, ...]:
    pieces = tray.columns * tray.rows
    sanding = plan.job.show(layup.sanding, exact=True)
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


STEPS = ("CUT", "HALF", "DONE")


def sanding_holders(plan: Plan, jigs: LayupJigs) -> list[Part]:
    """For each side that is glued to its mirror image: pocket plates, back, bar and a gauge."""
    return [part for holder in jigs.holders for part in _holder(plan, holder, jigs.suffix)]


def _holder(plan: Plan, holder: SandingHolder, end: str) -> list[Part]:
    side = f"{holder.side}{end}"
    return [
        _pocket(plan, holder, f"layup-sanding-pocket-{side}"),
        _back(plan, holder, f"layup-sanding-back-{side}"),
        _bar(plan, holder, f"layup-sanding-bar-{side}"),
        _gauge(plan, holder, f"layup-left-gauge-{side}"),
    ]


def _says(plan: Plan, holder: SandingHolder) -> tuple[str, ...]:
    finished, left = (plan.job.show(mm, exact=True).upper() for mm in (holder.finished, holder.left))
    return (f"SAND SIDE {holder.side.upper()}", f"TO {finished}", f"OFF {left}")


def _pocket(plan: Plan, holder: SandingHolder, name: str) -> Part:
    half, wide, top, r = holder.half, holder.half_width, holder.finished, RELIEF
    right = [(wide, top), (half, top), (half, -r), (half - r, -r), (half - r, 0.0)]
    plate = _bolted(
        plan,
        holder,
        closed([(-wide, -FLOOR), (wide, -FLOOR), *right, *((-x, y) for x, y in reversed(right))]),
    )
    plate.letter(*_says(plan, holder))
    plate.gap("floor to reference edge", top, (0.0, 0.0), ((half + wide) / 2, top))
    plate.gap("pocket width", 2 * half, (half, top / 2), (-half, top / 2))
    return plate.part(
        name,
        "holds a piece, its glue face out by what is left to take off",
        (
            "Hold the holder by its sides, fingers above the reference edge.",
            "Cut new plates when the reference edge is worn.",
        ),
        quantity=holder.layers,
    )


def _bolted(plan: Plan, holder: SandingHolder, outline: Contour, measured: bool = False) -> Plate:
    plate = Plate(plan, outline)
    for number, bolt in enumerate(holder.bolts, 1):
        plate.hole(bolt, holder.bolt_hole, f"bolt hole {number}" if measured else "")
    return plate


def _back(plan: Plan, holder: SandingHolder, name: str) -> Part:
    plate = _bolted(plan, holder, rectangle(-holder.half_width, -FLOOR, holder.half_width, holder.finished))
    plate.letter("BACK", *_says(plan, holder), titled=False)
    return plate.part(name, "the sanding holder's back, on which the piece lies")


def _bar(plan: Plan, holder: SandingHolder, name: str) -> Part:
    (low, high), wide = holder.bar, holder.half_width
    plate = _bolted(plan, holder, rectangle(-wide, low, wide, high), measured=True)
    plate.letter("BAR", titled=False)
    pack = "Pack under the bar where the piece lies lower than the plates."
    return plate.part(name, "presses the piece to the holder's back", (pack,))


def _gauge(plan: Plan, holder: SandingHolder, name: str) -> Part:
    """Three notches from below: as cut, half of it left, finished."""
    right = holder.notches[-1][1] + FINGER
    points = [(0.0, 0.0)]
    for start, end in holder.notches:
        points += [(start, 0.0), (start, NOTCH), (end, NOTCH), (end, 0.0)]
    outline = closed([*points, (right, 0.0), (right, GAUGE_HEIGHT), (0.0, GAUGE_HEIGHT)])
    plate = Plate(plan, outline)
    plate.hang((right, GAUGE_HEIGHT))
    for word, (start, end) in zip(STEPS, holder.notches, strict=True):
        plate.marks.append(centred(word, ((start + end) / 2, NOTCH + 5), 3.0))
        plate.gap(f"notch {word.lower()}", end - start, (start, NOTCH / 2), (end, NOTCH / 2))
    plate.letter(f"LEFT, SIDE {holder.side.upper()}")
    return plate.part(
        name,
        "shows what is left to take off: three notches for the sanded side",
        (
            "A piece as cut enters the first notch only. When it enters the second, half is left to take off; when it "
            "just enters the last, nothing.",
        ),
    )
