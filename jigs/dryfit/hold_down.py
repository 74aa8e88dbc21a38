"""Hold-downs put together from their drawings: slide on its plate, cam in the window, fingers on the wood."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, pi

import numpy as np

from geometry.plane.contour import Contour
from geometry.records import Record
from jigs.asked.job import Job
from jigs.dryfit.bench import OVER, SLACK, over_sheet, tabs
from jigs.dryfit.bolts import bolt_in, thread_checks
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn, Drill

LEVEL = 0.3  # mm, of the wood's top where the cam is half turned
LEAST_LIFT = 1.5  # mm: pins come out of the wood
HOLDS = 0.2  # low friction of wood on wood: a cam off its middle by less of its radius stays
WINDOW = 30.0  # mm: smaller holes with four corners are mortises
LEAST_FOOT = 5.0  # mm, thickness of a thinned foot
FOOT = 2.5  # mm of a foot of wood from the blade at least
BRASS = 6.0  # mm of a pin from the blade at least
LEVER_DOWN = 1.1  # mm: the lever, turned on below level, presses wood so much thinner, clear of the base


class Place(Record):
    """One hold-down on its plate; one drawing for all of its fingers, or one for each from the blade on, or none.

    `way` is the side on which its slide runs away from the blade, along the plate's x; `blade` is the x of the
    blade's near side at the wood's top. `woods` are the tops above the plate's foot of all wood that it has
    to press, `width` how far the wood reaches out from its face.
    """

    plate: Drawn
    slide: Drawn
    fingers: tuple[Drawn, ...]
    way: int
    blade: float
    woods: Sequence[float]
    width: float
    clear: float = FOOT
    foot: Drawn | None = None  # between finger and wood, in the base's coordinates

    @property
    def bolts(self) -> tuple[Drill, Drill]:
        ours = sorted(self.slide.drills, key=lambda d: d.centre)
        return ours[0], ours[-1]

    @property
    def pivots(self) -> list[Drill]:
        return sorted((d for d in self.slide.drills if d not in self.bolts), key=lambda d: d.centre[1])

    @property
    def window(self) -> Contour:
        """Of several on a plate, the first one on the side to which the slide runs. Raises ValueError without one."""
        found = sorted(windows(self.plate), key=lambda h: self.way * h.centroid[0])
        if not found:
            raise ValueError(f"{self.plate.name} lacks the window of a cam")
        return next((h for h in found if self.way * (h.centroid[0] - self.blade) > 0), found[-1])

    @property
    def slots(self) -> list[Contour]:
        """The two on either side of the window."""
        rounds = [h for h in self.plate.holes if any(e.is_arc for e in h.edges())]
        x = self.window.centroid[0]
        return sorted(sorted(rounds, key=lambda h: abs(h.centroid[0] - x))[:2], key=lambda h: h.centroid)

    def on_plate(self, x: float) -> float:
        """Of a place on the slide, the x on its plate."""
        ours = (self.bolts[0].centre[0] + self.bolts[1].centre[0]) / 2
        theirs = sum(slot.centroid[0] for slot in self.slots) / 2
        return theirs + self.way * (x - ours)

    @property
    def under(self) -> float:
        """How far the fingers reach below the slide's lower edge."""
        if not self.fingers:
            return 0.0
        low = _tenon(self.fingers[0])[0] - self.fingers[0].outline.bounds[1]
        return low - min((h.bounds[1] for h in self.mortises), default=0.0)

    @property
    def mortises(self) -> list[Contour]:
        """Of its fingers, in the slide."""
        return sorted((h for h in self.slide.holes if len(h) == 4), key=lambda h: h.bounds[0])


def windows(plate: Drawn) -> list[Contour]:
    """The windows of cams in a plate."""
    return [h for h in plate.holes if len(h) == 4 and min(_size(h)) > WINDOW]


def _size(hole: Contour) -> tuple[float, float]:
    x0, y0, x1, y1 = hole.bounds
    return x1 - x0, y1 - y0


def hold_checks(job: Job, files: Files, place: Place, cam: str, lever: str) -> list[Check]:
    """Slide, cam, lever and fingers of one hold-down; `cam` and `lever` name the files."""
    disc, handle = files.drawn(cam), files.drawn(lever)
    off = _off(disc)
    return [
        *_cam_checks(job, disc, handle, place, off),
        *_slide_checks(job, place, off),
        *_bearing_checks(job, place),
        *_finger_checks(job, place),
        *_blade_checks(job, place),
    ]


def _off(disc: Drawn) -> float:
    return hypot(*(a - b for a, b in zip(disc.outline.centroid, bolt_in(disc).centre, strict=True)))


def _dowel(plate: Drawn) -> float:
    """Of its hole, from the pivot."""
    pivot = bolt_in(plate)
    others = [d for d in plate.drills if d is not pivot]
    if len(others) != 1:
        raise ValueError(f"{plate.name} has {len(others)} holes for its dowel")
    return hypot(*(a - b for a, b in zip(others[0].centre, pivot.centre, strict=True)))


def _cam_checks(job: Job, disc: Drawn, handle: Drawn, place: Place, off: float) -> list[Check]:
    wide, tall = _size(place.window)
    radius = (disc.outline.bounds[3] - disc.outline.bounds[1]) / 2
    ours = (place.bolts[0].centre[0] + place.bolts[1].centre[0]) / 2
    theirs = place.window.centroid[0] - sum(slot.centroid[0] for slot in place.slots) / 2
    aside = max(abs(d.centre[0] - ours) for d in place.pivots) + abs(theirs)
    long = max(abs(x) for x in handle.outline.bounds[::2])
    return [
        disc.check("lifts the slide by", off, LEAST_LIFT),
        disc.check("off its middle, of its radius", off / radius, 0.0, HOLDS, "ratio"),
        disc.near("round", disc.outline.area / (pi * radius**2), 1.0, 1e-3, "ratio"),
        disc.check("play up and down in the window", tall - 2 * radius, 0.1, 1.0),
        place.plate.near("window in the middle of its slots", theirs, 0.0, OVER),
        disc.check("room to turn in the window", wide / 2 - radius - off - aside, 0.0),
        handle.near("dowel over the cam's", _dowel(handle), _dowel(disc), SLACK),
        handle.check("reaches past the cam", long - radius - off, 40.0),
        *thread_checks(disc.name, "pivot", [bolt_in(disc)], job.fittings.bolt),
        *thread_checks(handle.name, "pivot", [bolt_in(handle)], job.fittings.bolt),
    ]


def _slide_checks(job: Job, place: Place, off: float) -> list[Check]:
    """Guide bolts in their slots over all of the cam's turn, in every hole of the pivot."""
    slide, plate, (first, last) = place.slide, place.plate, place.bolts
    r, middle = job.fittings.bolt_hole / 2, place.window.centroid[1]
    highest, lowest = place.pivots[-1].centre[1], place.pivots[0].centre[1]
    up, apart = middle + first.centre[1], place.slots[1].centroid[0] - place.slots[0].centroid[0]
    return [
        slide.near("bolts as far apart as the plate's slots", last.centre[0] - first.centre[0], apart, OVER),
        slide.near("bolts level", last.centre[1], first.centre[1], OVER),
        *thread_checks(slide.name, "bolt hole", slide.drills, job.fittings.bolt),
        *(
            check
            for slot in place.slots
            for check in (
                plate.near("slot of the hold-down", _size(slot)[0], job.fittings.bolt_hole, SLACK),
                plate.check("slot above the raised bolt", slot.bounds[3] - r - (up - lowest + off), -SLACK),
                plate.check("slot under the lowest bolt", up - highest - off - (slot.bounds[1] + r), -SLACK),
            )
        ),
    ]  # fmt: skip


def _bearing_checks(job: Job, place: Place) -> list[Check]:
    """With the lever level the pivot is as high as the middle of the window."""
    middle, shop = place.window.centroid[1], job.workshop.boards
    glued = shop.play / 2 if place.fingers else 0.0  # the tenon in the middle of its mortise
    under = place.under - glued + (shop.sheet if place.foot else 0.0)
    bears = [middle - d.centre[1] - under for d in place.pivots]
    too_high = [min((bear - wood for bear in bears), key=abs) for wood in place.woods]
    return [
        place.slide.near("presses the thickest wood, lever level", bears[0], max(place.woods), LEVEL),
        *place.slide.all_within("from the wood, lever level, in its best hole", too_high, -LEVEL, LEVER_DOWN),
    ]


def _tenon(finger: Drawn) -> tuple[float, float]:
    """y of its two sides: of the outline's end on the left."""
    left = finger.outline.bounds[0]
    ys = [y for x, y in finger.outline.points if x < left + 0.01]
    return min(ys), max(ys)


def _feet(place: Place) -> list[tuple[float, float]]:
    """x on the slide, from and to, of each finger where it bears."""
    marked = place.slide.lines.get("foot")
    if marked is None:
        return []
    return sorted((float(min(a, b)), float(max(a, b))) for a, b in marked.reshape(-1, 2, 2)[:, :, 0])


def _finger_checks(job: Job, place: Place) -> list[Check]:
    """Tenons in their mortises, the pad on the wood, two pins or more in it."""
    if not place.fingers:
        return []
    mortises = place.mortises
    pins = len(_feet(place)) * len(_pins(place.fingers[0]))
    return [
        place.slide.check("mortises for fingers", len(mortises), 1, 2, "pieces"),
        *([] if place.foot else [place.slide.check("pins in its fingers", pins, 2, unit="pieces")]),
        *(check for finger in place.fingers for check in _one_finger(job, place, finger, mortises)),
    ]


def _one_finger(job: Job, place: Place, finger: Drawn, mortises: Sequence[Contour]) -> list[Check]:
    shop = job.workshop.boards
    low, high = _tenon(finger)
    pad, pins = _pad(finger), _pins(finger)
    most = 2 * shop.play + SLACK
    return [
        *(over_sheet(place.slide.name, "mortise over the sheet", _size(m)[0], job) for m in mortises),
        *place.slide.all_within("mortise over the tenon", [_size(m)[1] - (high - low) for m in mortises], -1e-6, most),
        finger.near("tenon through the slide", _through(finger), shop.sheet, SLACK),
        finger.check("touches the wood from", min(pad), 1.0),
        *_reach_checks(place, finger, max(pad)),
        *finger.all_within("pin within the foot", [min(x - min(pad), max(pad) - x) for x in pins], 1.0),
    ]  # fmt: skip


def _reach_checks(place: Place, finger: Drawn, end: float) -> list[Check]:
    """A finger on a foot may reach past it."""
    if place.foot is not None:
        return []
    return [finger.check("touches the wood up to, of its width", end / place.width, 0.3, 1.0, "ratio")]


def _pad(finger: Drawn) -> list[float]:
    """x of the ends of the lowest edge."""
    low = finger.outline.bounds[1]
    return [float(x) for x, y in finger.outline.points if abs(y - low) < 0.01]


def pad_of(finger: Drawn) -> tuple[float, float]:
    """Out from its plate: where a finger bears, from and to."""
    places = _pad(finger)
    return min(places), max(places)


def foot_places(place: Place) -> list[tuple[float, float]]:
    """x on the plate of both sides of each finger, where it bears."""
    return [(place.on_plate(start), place.on_plate(end)) for start, end in _feet(place)]


def _through(finger: Drawn) -> float:
    """Length of the tenon: from its end to the shoulder."""
    low, _ = _tenon(finger)
    left = finger.outline.bounds[0]
    under = [e for e in finger.straight() if abs(e.midpoint[1] - low) < 0.01 and e.apart[1] < 0.01]
    return max((e.ends[2] - left for e in under), default=0.0)


def _pins(plate: Drawn) -> list[float]:
    marked = plate.lines.get("pin")
    return sorted({round(float(x), 3) for x, _ in marked}) if marked is not None else []


def _blade_checks(job: Job, place: Place) -> list[Check]:
    """Feet clear of the blade, and pins, which are nearer the foot's side away from it."""
    if place.foot is not None or not place.fingers:
        return []
    play = job.workshop.boards.play + SLACK
    found: list[Check] = []
    for (start, end), mortise in zip(_feet(place), place.mortises, strict=False):
        foot, thick = place.way * (place.on_plate(start) - place.blade), end - start
        found += [
            place.slide.check("foot from the blade", foot, place.clear - play),
            place.slide.check("brass pins from the blade", foot + _pin_from(thick), BRASS - play),
            place.slide.check("foot's thickness", thick, LEAST_FOOT, job.workshop.boards.sheet + SLACK),
            place.slide.check("foot under its finger", mortise.bounds[2] - end, -play, play),
        ]
    return found


def _pin_from(thick: float) -> float:
    """Of a pin, from its foot's side nearest the blade."""
    return thick - min(5.0, thick / 2)


def foot_checks(foot: Drawn, blade: float, width: float) -> list[Check]:
    """A foot on a slab: between the blade and the slab's other side, pins on the slab."""
    left, _, right, _ = foot.outline.bounds
    marked = foot.lines.get("pin")
    pins = (
        np.zeros((0, 2))
        if marked is None
        else np.unique(np.round(marked.reshape(-1, 2, 2).mean(axis=1), 3), axis=0)
    )
    return [
        foot.check("from the blade", left - blade, FOOT),
        foot.check("on the slab", width - (right - blade), -SLACK),
        foot.check("pins", len(pins), 2, unit="pieces"),
        *foot.all_within("brass pin from the blade", [x - blade for x, _ in pins], BRASS - SLACK),
        *foot.all_within("brass pin on the slab", [width - (x - blade) for x, _ in pins], 1.0),
    ]  # fmt: skip


def press_checks(
    job: Job, files: Files, suffix: str, base: Drawn, blade: float, heights: Sequence[float], stop: float
) -> list[Check]:
    """The gallows over the segment: feet in the base, clear of the strip, its hold-down on the shortest segment."""
    gallows, press = (files.drawn(f"plan-angle-{name}{suffix}") for name in ("gallows", "press"))
    sheet, most = job.workshop.boards.sheet, 2 * job.workshop.boards.play + SLACK
    slots = gallows_slots(base, blade)
    feet = tabs(gallows)
    left = max((h.bounds[2] for h in slots), default=0.0) - sheet - job.workshop.boards.play / 2
    place = Place(gallows, press, (), 1, -9e9, heights, 1.0)
    marked = base.lines.get("segment's foot")
    start = float(marked[:, 0].mean()) - blade if marked is not None else -1.0
    thick = left - blade - start
    pairs = list(zip(feet, sorted((h.bounds[1], h.bounds[3]) for h in slots), strict=False))
    return [
        gallows.counted("slots found", len(slots), len(feet)),
        *gallows.all_within("foot in its slot, near end", [t[0] - s[0] for t, s in pairs], -1e-6, most),
        *gallows.all_within("foot in its slot, far end", [s[1] - t[1] for t, s in pairs], -1e-6, most),
        *(over_sheet(gallows.name, "slot over the sheet", _size(h)[0], job) for h in slots),
        gallows.check("clear over the thickest strip", _clear_under(gallows) - max(heights), 3.0),
        gallows.check("clear over the stop's arm", _clear_under(gallows) - sheet, 3.0),
        press.check("foot from the blade", start, FOOT),
        press.check("foot's thickness", thick, LEAST_FOOT - SLACK, sheet + SLACK),
        press.check("brass pins from the blade", start + min(5.0, thick / 2), BRASS - SLACK),
        press.check("foot short of the nearest stop by", stop - start - thick, 0.5),
        press.check("pins", len(_pins(press)), 2, unit="pieces"),
        *hold_checks(job, files, place, f"plan-angle-cam{suffix}", f"plan-angle-lever{suffix}"),
    ]


def gallows_slots(base: Drawn, blade: float) -> list[Contour]:
    """Upright slots in the base beyond the blade."""
    return [h for h in base.holes if len(h) == 4 and h.bounds[0] > blade and _size(h)[1] > _size(h)[0]]


def _clear_under(gallows: Drawn) -> float:
    """Height of the level edge between its legs."""
    inside = [e for e in gallows.straight() if e.apart[1] < 1e-6 and e.midpoint[1] > 1]
    return min((e.midpoint[1] for e in inside), default=0.0)
