"""Gap gauges of a vessel: a plate with a gap at either end, for the last two stages of a station's diameter.

x across the gaps from their middle; the gap of the last stage opens downward from y = 0, the other upward.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from geometry.measuring.turned import Station
from geometry.plane.contour import Contour, rectangle
from jigs.parts.codes import code_of
from jigs.parts.part import Dimension, Part, Point
from jigs.parts.places import MARGIN, WHOLE, block_height, block_width, hang_hole, lettered
from jigs.parts.plate import closed, cut_part
from jigs.parts.probes import EdgeGap
from jigs.plans.vessel import VesselPlan
from jigs.stages.sizes.plan.vessel import GapGauge, StageSize

TEXT, SMALL_TEXT = 4.0, 3.0  # cap height; the smaller where rows would have to be broken
ROOM = 4.0  # round lettering besides its margin
HANG_ROOM = 12.0
LEAST_WIDTH = 50.0  # of lettering; where ends are narrower, the plate juts out beside them
PAST = 4.0  # mm that the tips reach past the middle of the work that touches the gap's end
TAPER = 20.0  # length of a tip's taper, half the leg at most
TIP = 0.6  # of the leg's width, left at its tip
SEEN = 0.05  # mm worth telling
CAUTION = f"LATHE{WHOLE}STOPPED, REST{WHOLE}AWAY"


def gap_gauges(plan: VesselPlan) -> list[Part]:
    """One for each station that is narrow enough."""
    return [_gauge(plan, gap) for gap in plan.sizes.gaps]


def _gauge(plan: VesselPlan, gap: GapGauge) -> Part:
    name = f"gap-gauge-{slug(gap.station.name)}"
    what = f"{code_of(name)} GAP GAUGE"
    rows = end_rows(plan, gap.go, gap.before, station_rows(plan, what, gap.station, gap.over_faceplate))
    purpose = f"diameter at {gap.station.place}, over the work from the side"
    return gap_plate(plan, name, purpose, gap, rows, ("GO", "NOT YET"), _notes(plan, gap))


def gap_plate(
    plan: VesselPlan, name: str, purpose: str, gap: GapGauge, rows: Sequence[str], ends: tuple[str, str],
    notes: Sequence[str],
) -> Part:  # fmt: skip
    """The plate; `ends` name its lower gap and its upper one."""
    text, height = fitted(rows, 2 * gap.reach - text_border())
    half = max(gap.reach, (block_width(text, height) + text_border()) / 2)
    web = rectangle(-half, 0.0, half, block_height(text, height) + 2 * MARGIN + ROOM + HANG_ROOM)
    outline = _outline(gap, web)
    hole = hang_hole(web, (), (half, 0.0))
    return cut_part(
        plan,
        name,
        purpose,
        outline,
        (hole,),
        lettered(web, (hole,), (), text, height=height),
        _dimensions(gap, web.bounds[3], ends),
        notes,
        thickness=plan.sizes.plate,
    )


def _outline(gap: GapGauge, web: Contour) -> Contour:
    """The right side from the lower gap's end up to the upper's, and the left one back."""
    _, _, half, top = web.bounds
    right = [*_leg(gap, gap.go, half), (half, 0.0)]
    right += [(half, top), *((x, top - y) for x, y in reversed(_leg(gap, gap.before, half)))]
    return closed([*right, *((-x, y) for x, y in reversed(right))])


def _leg(gap: GapGauge, size: StageSize | None, half: float) -> list[Point]:
    """The right leg of the lower gap, from the gap's end round the tip to where the leg leaves the web."""
    if size is None:
        return []
    inner, depth = gap_radius(gap, size), gap_radius(gap, size) + PAST
    tip = (inner + TIP * gap.leg, -depth)
    root = [(gap.reach, 0.0)] if half > gap.reach else []
    return [(inner, 0.0), (inner, -depth), tip, (gap.reach, min(TAPER, depth / 2) - depth), *root]


def gap_radius(gap: GapGauge, size: StageSize) -> float:
    """Half the width of a gap."""
    return size.diameter / 2 + gap.fit


def _dimensions(gap: GapGauge, top: float, ends: tuple[str, str]) -> list[Dimension]:
    """Of both gaps, the width and the depth."""
    found: list[Dimension] = []
    for name, size, foot, way in ((ends[0], gap.go, 0.0, -1), (ends[1], gap.before, top, 1)):
        if size is not None:
            x, tip = gap_radius(gap, size), foot + way * (gap_radius(gap, size) + PAST)
            middle = (foot + tip) / 2
            found += [
                Dimension(f"gap {name}, {size.label.lower()}", 2 * x, EdgeGap((x, middle), (-x, middle))),
                Dimension(
                    f"depth {name}", abs(tip - foot), EdgeGap((0.0, foot), (x + TIP * gap.leg / 2, tip))
                ),
            ]
    return found


def _notes(plan: VesselPlan, gap: GapGauge) -> list[str]:
    plate = plan.job.show(plan.sizes.plate)
    notes = [f"The plate covers {plate} of height, half to either side of the station: part down all of it."]
    if gap.wider >= SEEN:
        more = plan.job.show(gap.wider)
        notes.append(
            f"Its sizes are the largest within that height: on the slope {more} more than at the station itself."
        )
    if gap.fit:
        notes.append(
            f"Each gap is {plan.job.show(2 * gap.fit)} wider than the size lettered on it, to slide."
        )
    return notes


def station_rows(plan: VesselPlan, what: str, station: Station, over_faceplate: float) -> list[str]:
    """Title, what it is and where it is held."""
    foot, faceplate = (_whole(plan.job.show(z, exact=True)) for z in (station.height, over_faceplate))
    return [
        plan.job.title.upper(),
        f"{what}: {station.name.upper()}",
        f"{foot} OVER FOOT",
        f"{faceplate} OVER FACEPLATE",
    ]


def end_rows(plan: VesselPlan, go: StageSize, before: StageSize | None, rows: Sequence[str]) -> list[str]:
    """The rows between what is said of either end."""
    upper = [f"↑{WHOLE}NOT{WHOLE}YET {size_words(plan, before)}"] if before else []
    return [*upper, *rows, CAUTION, f"↓{WHOLE}GO {size_words(plan, go)}"]


def size_words(plan: VesselPlan, size: StageSize) -> str:
    """Its stage and diameter as they are lettered."""
    return f"{_whole(size.label)}, Ø{_whole(plan.job.show(size.diameter, exact=True))}"


def _whole(length: str) -> str:
    """A length that no line break parts."""
    return length.upper().replace(" ", WHOLE)


def slug(name: str) -> str:
    """A name for files."""
    return "-".join(re.findall("[a-z0-9]+", name.lower()))


def text_border() -> float:
    """What lettering needs beside it, both sides together."""
    return 2 * MARGIN + ROOM


def fitted(rows: Sequence[str], width: float) -> tuple[list[str], float]:
    """The rows and their height: in the usual size where each fits into the width, else smaller and broken."""
    plain = [row.replace(WHOLE, " ") for row in rows]
    if block_width(plain, TEXT) <= width:
        return plain, TEXT
    return [line for row in rows for line in _broken(row, max(width, LEAST_WIDTH))], SMALL_TEXT


def _broken(row: str, width: float) -> list[str]:
    """A row in lines of at most this width, where its words allow that."""
    return [line.replace(WHOLE, " ") for line in packed(row.split(" "), " ", width, SMALL_TEXT)]


def packed(words: Sequence[str], between: str, width: float, height: float) -> list[str]:
    """What follows each other on one line, as far as that is wide enough."""
    lines: list[str] = []
    for word in words:
        longer = f"{lines[-1]}{between}{word}" if lines else word
        if lines and block_width([longer.replace(WHOLE, " ")], height) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
