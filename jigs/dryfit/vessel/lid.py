"""A lid on its pot by the written files of both: gauges, gaps as the wood moves, and one section on the other."""

from __future__ import annotations

from math import hypot

import shapely

from geometry.bodies.lid_fit import LidFit
from jigs.asked.vessel_job import KnobWish, LidWish, VesselJob
from jigs.asked.woods import tangential_of
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Plate, depth, spans
from jigs.dryfit.vessel.outside import PITCH, coordinates, guided
from jigs.dryfit.vessel.rings import placed
from jigs.dryfit.vessel.work import Work, points_on, work_of

SLACK = 0.03  # mm
BEARS = 1.0  # mm that the smallest flange lies on in the widest mouth, pushed to one side, at least
DEEP = 3.0  # mm in from a plate's end, where it is cut
TOUCHES = 0.01  # mm
CLOSE = 0.1  # mm beyond its fit, within which a gauge's edge is looked at


def lid_checks(work: Work, files: Files) -> list[Check]:
    """Everything that the set of the lid alone tells."""
    wish, (pot, fit) = _asked(work.job)
    stick, flange = files.plate("lid-mouth-stick"), files.plate("lid-flange-gauge")
    go_mouth, wide_mouth = (hypot(_across(stick, y), stick.thickness) for y in _ends(stick))
    go, small = _flange(flange)
    wanted = wish.mouth_diameter or 2 * work_of(pot).section.mouth_radius
    least, room, narrows = fit.least, (go_mouth - go) / 2, wanted / 2 - fit.mouth
    damp, dry = _moves(work.job, go / 2, 1), _moves(work.job, small / 2, -1)
    return [
        stick.near(f"GO, corners in a mouth of {wanted:.2f}", go_mouth, wanted, SLACK),
        stick.check("TOO WIDE over GO by", wide_mouth - go_mouth, 0.1, 0.5),
        flange.check("TOO SMALL under GO by", go - small, 0.1, 0.5),
        flange.check("all round in the mouth, dampest", room - narrows - damp, least - SLACK, least + 0.1),
        flange.check(
            "lies on the pot, driest, pushed aside", _bears(work, small, wide_mouth, wanted, dry), BEARS
        ),
        *_on_pot(work, work_of(pot)),
        *(knob_checks(work.job.knob, work, files.plate("knob-gauge")) if work.job.knob else []),
    ]


def knob_checks(knob: KnobWish, work: Work, gauge: Plate) -> list[Check]:
    """The gauge along the knob, and the tenon in the lid's floor."""
    fit, places = work.job.gauges.fit, shapely.LineString(points_on(knob.shape.profile)).segmentize(PITCH)
    heights = (0.0, places.bounds[3])
    kept = guided(work, gauge, coordinates(places), heights, fit)
    line = shapely.LineString(coordinates(places)[kept])
    beside = line.buffer(fit + CLOSE, cap_style="flat").intersection(gauge.face.exterior)
    along = shapely.get_coordinates(shapely.segmentize(beside, 0.3))
    ends = (along[:, 1] < TOUCHES) | (along[:, 1] > heights[1] - TOUCHES)  # they are level
    away = shapely.distance(shapely.points(along[~ends]), line)
    return [
        gauge.check("along the knob for", beside.length / line.length, 0.95, 1.1, ""),
        gauge.check("edge off the knob, least", float(away.min()), fit - SLACK, fit + SLACK),
        gauge.check("edge off the knob, most", float(away.max()), fit - SLACK, fit + SLACK),
        Check("knob", "wood under its hole", work.section.floor_thickness - knob.tenon_length, 2.0),
        Check("knob", "shoulder round its tenon", 2 * places.coords[0][0] - knob.tenon_diameter, 2.9),
    ]


def pot_checks(work: Work, files: Files) -> list[Check]:
    """The gauges of both sets on each other; the pot's set has to be there."""
    _, (pot, _) = _asked(work.job)
    stick = files.plate("lid-mouth-stick")
    theirs = Files.of(pot, files.folder.parent / pot.name)
    own = [theirs.plate(name) for name in theirs.numbered("mouth-stick")]
    theirs_go, here = (hypot(_across(plate, _ends(plate)[0]), plate.thickness) for plate in (own[-1], stick))
    sanded = theirs_go + 2 * pot.gauges.stages[-1]
    return [stick.near(f"GO on {pot.name}'s mouth stick, sanded", here, sanded, 2 * SLACK)]


def has_pot(job: VesselJob, files: Files) -> bool:
    """Whether the pot's set was made beside the lid's, with a stick for its mouth, and the lid is made to that."""
    wish, (pot, _) = _asked(job)
    made = Files.of(pot, files.folder.parent / pot.name)
    return bool(made.numbered("mouth-stick")) and wish.mouth_diameter is None


def _asked(job: VesselJob) -> tuple[LidWish, tuple[VesselJob, LidFit]]:
    """What is asked of the lid; its pot, and how it fits that."""
    if job.lid is None or job.pot is None:
        raise ValueError("the job is no lid")
    return job.lid, (job.pot.job, job.pot.fit)


def _ends(plate: Plate) -> tuple[float, float]:
    """Heights at which the lower end is cut, and the upper."""
    _, low, _, high = plate.face.bounds
    return low + DEEP, high - DEEP


def _across(plate: Plate, y: float) -> float:
    parts = spans(plate.face, y)
    return float(parts[-1][1] - parts[0][0])


def _flange(gauge: Plate) -> tuple[float, float]:
    """The diameters that GO and TOO SMALL stand for: gaps, or steps of a stick."""
    low, high = (spans(gauge.face, y) for y in _ends(gauge))
    if len(low) == 2:
        return low[1][0] - low[0][1], high[1][0] - high[0][1]
    _, _, _, top = gauge.face.bounds
    go, small = (spans(gauge.face, top * share)[0] for share in (0.25, 0.75))
    return go[1] - go[0], small[1] - small[0]


def _moves(job: VesselJob, flange: float, way: int) -> float:
    """By how much the gap closes from fitting to the dampest air (+1), or opens to the driest (-1)."""
    wish, (pot, fit) = _asked(job)
    points = wish.wettest - wish.moisture if way > 0 else wish.moisture - wish.driest
    lid = _share(job, wish.seat) * (flange if fit.lid.solid else fit.lid.width / 2 + fit.lid.round) * points
    # Solid wood closes its mouth as it dries.
    other = wish.moisture - wish.driest if way > 0 else wish.wettest - wish.moisture
    share = _share(pot, min(wish.seat, pot.rebate.depth or wish.seat))
    ring = max(fit.pot.width / 2 * points, fit.pot.round * other)
    return lid + share * (fit.mouth * other if fit.pot.solid else ring)


def _share(job: VesselJob, deep: float) -> float:
    """The most that any wood so far down from the top moves across its grain, of a width, for each per cent."""
    rings, low = job.rings, work_of(job).height - deep
    listed = [
        *rings.species,
        *(rings.feature_species or ()),
        job.woods_of(1),
    ]  # heights from boards are not known as it is fitted
    if not isinstance(rings.heights, str):
        listed = [
            job.woods_of(n) for n, bottom, high in placed(work_of(job)) if bottom + high > low + TOUCHES
        ]
    staves = [job.staves.species] if job.staves and job.staves.high > low else []
    return max(tangential_of(name) for names in (*listed, *staves) for name in names)


def _bears(work: Work, small: float, wide: float, mouth: float, dry: float) -> float:
    """On rim or ledge, the smallest flange that the gauges pass in the widest mouth. What lies under a ledge is opened
    no wider than for a mouth as it is wanted.
    """
    wish, (pot, _) = _asked(work.job)
    play = (wide - small) / 2 + dry
    rim = work_of(pot).section.rim_radius
    step = work.height - wish.seat
    own = work.section.outer.radii(step - TOUCHES, step)[1]
    on_rim = min(own, rim) - wide / 2 - play
    ledge = small / 2 - (mouth / 2 - pot.rebate.width) - play if pot.rebate.width else -1.0
    return max(on_rim, ledge)


def _on_pot(work: Work, pot: Work) -> list[Check]:
    """The lid's section turned over and let down on the pot's until it lies."""
    seat = _asked(work.job)[0].seat
    over = shapely.affinity.scale(work.solid, 1.0, -1.0, origin=(0.0, 0.0))
    low, high = pot.height - seat, pot.height + work.height
    for _ in range(50):  # halves the way down until it touches
        middle = (low + high) / 2
        placed = shapely.affinity.translate(over, 0.0, middle + work.height - seat)
        low, high = (low, middle) if not placed.intersects(pot.solid) else (middle, high)
    placed = shapely.affinity.translate(over, 0.0, high + work.height - seat)
    lies = high - (pot.height if _rim(work, pot) else pot.height - pot.job.rebate.depth + seat)
    return [
        Check("lid on its pot", "stands in the pot by", depth(placed, pot.solid), 0.0, SLACK),
        Check("lid on its pot", "from where it lies, by", lies, -SLACK, SLACK),
    ]


def _rim(work: Work, pot: Work) -> bool:
    """Whether the lid stops on the pot's rim, before its flange comes to a ledge."""
    seat = _asked(work.job)[0].seat
    own = work.section.outer.radii(work.height - seat - TOUCHES, work.height - seat)[1]
    overlaps = own > pot.section.mouth_radius
    return overlaps and (not pot.job.rebate.depth or seat <= pot.job.rebate.depth)
