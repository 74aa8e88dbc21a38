"""A lid: its pot read beside it, and its outside with the flange that fits the pot."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import cos
from pathlib import Path

import numpy as np

from geometry.bodies.lid_fit import LidFit, RimWood, as_narrow, held_out, inner_sag, outer_sag, widened
from geometry.plane.edges import SAME_POINT
from geometry.plane.profile import Profile
from geometry.records import replace
from jigs.asked.defaults import PIECED, WIDE_DISC
from jigs.asked.inside import floor_height, inside_of
from jigs.asked.job import Job
from jigs.asked.jobfile.read import Read
from jigs.asked.keys import KEYS
from jigs.asked.vessel_job import GAPS, LidWish, Pot, StavesWish, VesselJob, by_ring, is_slip, mouths_read
from jigs.asked.woods import movement, tangential_of
from jigs.words.file_names import as_typed
from jigs.words.findings import Finding, Refused

HAIR = 1e-6  # mm over a ledge
LOOKS = 24  # heights at which the wood under a rim is looked at
LEAST_SEAT = next(key.least for key in KEYS if key.path == "lid.seat")


def lid_faults(asked: Read) -> Iterator[Finding]:
    """A lid names its pot; a rebate has a width and a depth."""
    written = sorted(path for path in asked.written if path.startswith("lid."))
    if written and "lid.pot" not in asked.written:
        remedy = 'Give pot = "..." in [lid], the job file of its pot, or leave the section out'
        yield asked.fault("missing-key", "is missing", remedy, "lid.pot", *written)
    knob = sorted(path for path in asked.written if path.startswith("knob."))
    if knob and "lid.pot" not in asked.written:
        message, remedy = "belongs to a lid, and the job is none", "Give [lid], or leave it out"
        yield asked.fault("misplaced-key", message, remedy, knob[0])
    sides = ("rebate.width", "rebate.depth")
    for missing, there in (sides, sides[::-1]):
        if asked.values.get(there) and missing not in asked.written:
            yield asked.fault("missing-key", "is missing", f"Give it beside {there}", missing, there)


def read_pot(
    asked: Read, folder: Path, load: Callable[[Path], Job]
) -> tuple[VesselJob | None, tuple[Finding, ...]]:
    """The pot of a lid, and what is wrong with it; neither where the job is none."""
    named = asked.values.get("lid.pot")
    if named is None:
        return None, ()
    file = folder / f"{str(named).removesuffix('.toml')}.toml"
    if file.resolve() == Path(asked.file).resolve():
        message = "names the lid's own file"
        return None, (asked.fault("no-pot", message, "Name the pot's job file", "lid.pot"),)
    try:
        pot = load(file)
    except Refused as refused:
        return None, tuple(_blamed(asked, fault, file) for fault in refused.findings)
    if not isinstance(pot, VesselJob) or pot.lid is not None:
        what = "a lid" if isinstance(pot, VesselJob) else "a torus"
        remedy = "Name the job file of a vessel"
        return None, (asked.fault("no-pot", f"{file} is {what}", remedy, "lid.pot"),)
    return pot, ()


def _blamed(asked: Read, fault: Finding, file: Path) -> Finding:
    """A missing pot is the fault of the line that names it; others stay where they are."""
    if fault.code != "no-file":
        return fault
    return asked.fault("no-pot", f"{file} {fault.message}", "Name a job file beside this one", "lid.pot")


def with_flange(job: VesselJob, wish: LidWish, pot: VesselJob) -> VesselJob:
    """The lid with its flange added to its outside. Raises Refused where the pot has no inside."""
    try:
        inner = inside_of(pot)
    except ValueError as error:
        remedy = f"see what jigs check {as_typed(pot.source or Path(wish.pot))} tells"
        finding = job.finding("no-pot", f"the pot cannot be made: {error}", key="lid.pot", remedy=remedy)
        raise Refused([finding]) from error
    line = job.outside.profile
    wish = _measured(job, wish, 2 * inner.end[0])
    fit = _fit(job, wish, pot, inner, line.top)
    stands = line.vertices if abs(line.end[0] - fit.flange) > SAME_POINT else line.vertices[:-1]
    flange = [(fit.flange, line.top, 0.0), (fit.flange, line.top + wish.seat, 0.0)]
    shape = replace(job.outside, profile=Profile(np.vstack((stands, flange))))
    return replace(job, outside=shape, lid=wish, pot=Pot(pot, fit))


def through_floor(wish: LidWish, inner: Profile) -> bool:
    """Whether the flange would reach through the floor of a pot with this inside."""
    return wish.seat >= inner.end[1] - inner.bottom


def _measured(job: VesselJob, wish: LidWish, planned: float) -> LidWish:
    """The mouth as it is stated, else the smallest that was read."""
    read = mouths_read(job.readings)
    if wish.mouth_diameter is not None or not read or is_slip(min(read), planned):
        return wish
    return replace(wish, mouth_diameter=min(read))


def _fit(job: VesselJob, wish: LidWish, pot: VesselJob, inner: Profile, top: float) -> LidFit:
    rim = inner.end[1]
    seat = (
        LEAST_SEAT if through_floor(wish, inner) else wish.seat
    )  # one that is refused gets some mouth to be read
    reach = min(seat, pot.rebate.depth or seat)
    low = max(rim - reach + HAIR, inner.bottom)
    mouth = inner.radii(low, rim)[0]
    if wish.mouth_diameter is not None:
        mouth += wish.mouth_diameter / 2 - inner.end[0]

    def level(z: float) -> float:
        return pot.outside.profile.radius_at(z) - inner.radius_at(z)

    wide = max(HAIR, level(low), level(rim))
    wall = widened(wide, mouth, ((low - z, level(z)) for z in _under(low, inner.bottom, mouth)))
    return LidFit(
        mouth=mouth,
        least=GAPS[job.unit][wish.fit] if wish.gap is None else wish.gap,
        pot=rim_wood(pot, wish, low, rim, wall + inner_sag(mouth, _fewest(pot, low, rim)), mouth),
        lid=rim_wood(job, wish, top, top + wish.seat, _wall(job, mouth, top, top + wish.seat), mouth),
    )


def _wall(job: VesselJob, mouth: float, low: float, high: float) -> float:
    """Of the flange, as a narrow ring: at its widest, and with the wood under it that spreads it."""
    wall, floor = _thickness(job, mouth, low, high), floor_height(job)
    if (held := low - held_out(mouth, wall)) < floor:
        inner = 0.0
    elif job.inside is not None:
        inner = mouth - _thickness(job, mouth, held, high)
    else:
        lean_at = job.outside.profile.lean_at
        dome = ((low - z, min(mouth, wall / max(HAIR, cos(lean_at(z))))) for z in _under(low, floor, mouth))
        inner = mouth - widened(wall, mouth, dome)
    return as_narrow(mouth, inner) + outer_sag(mouth, inner, _fewest(job, held, high))


def _under(low: float, least: float, mouth: float) -> list[float]:
    """Heights under a rim, close together, as far down as what lies there may spread it."""
    return [float(z) for z in np.linspace(max(least, low - mouth), low - HAIR, LOOKS)]


def _fewest(job: VesselJob, low: float, high: float) -> int:
    """Segments in a ring between two heights; where staves alone stand, which move as solid wood does, the last's."""
    numbers = [number for number, _ in _rings(job, low, high)]
    return min(by_ring(job.rings.segments, number) for number in numbers or [len(job.rings.segments)])


def _thickness(job: VesselJob, mouth: float, low: float, high: float) -> float:
    """At its widest: as asked, else what an inside of its own leaves."""
    if job.inside is not None:
        own = job.inside.profile
        inner = own.radii(max(low, own.bottom), max(min(high, own.top), own.bottom))[0]
        return min(mouth, max(0.0, mouth - inner))
    return min(mouth, max((job.wall.thickness or 0.0, *(wall for _, wall in job.wall.by_height or ()))))


def rim_wood(job: VesselJob, wish: LidWish, low: float, high: float, width: float, radius: float) -> RimWood:
    """Of a vessel between two heights, of this radius and `width` wide there: solid where any of it is a disc, or
    stands upright.

    Where the rings' heights are chosen from boards, the most that any ring's wood would move.
    """
    rings, staves = list(_rings(job, low, high)), _staves(job, low, high)
    woods = [*(job.woods_of(number) for number, _ in rings), *([staves.species] if staves else [])]
    share = max(tangential_of(name) for names in woods for name in names)
    return RimWood(
        solid=staves is not None or any(_solid(job, number, bottom) for number, bottom in rings),
        width=width,
        shrinks=movement(1.0, share, wish.driest, wish.moisture),
        swells=movement(1.0, share, wish.moisture, wish.wettest),
        round=max((job.grows_round(number, radius) for number, _ in rings), default=0.0),
    )


def _rings(job: VesselJob, low: float, high: float) -> Iterator[tuple[int, float]]:
    """Number and bottom of the rings between two heights; all that are listed where their heights are not known yet.

    The staves count as one ring, which is none of these.
    """
    heights, staves = job.rings.heights, job.staves
    if not isinstance(heights, tuple):
        listed = max(len(job.rings.species), *(job.rings.upright or (1,)), *(job.rings.feature or (1,)))
        yield from ((number, low) for number in range(1, 1 + listed))
        return
    bottom, number, used = -job.rings.turning_allowance, 1, 0
    while bottom < high:
        if staves and staves.low - HAIR <= bottom < staves.high:
            bottom, number = staves.high, number + 1
            continue
        used += 1
        top = bottom + by_ring(heights, used)
        if staves and bottom < staves.low:
            top = min(top, staves.low)
        if top > low:
            yield number, bottom
        bottom, number = top, number + 1


def _solid(job: VesselJob, number: int, bottom: float) -> bool:
    """Whether a ring is one piece: upright, or a disc that closes over the middle."""
    if number in (job.rings.upright or ()):
        return True
    if bottom >= floor_height(job) or job.rings.base == "floating":
        return False
    if job.rings.base is not None:
        return job.rings.base == "solid"
    outer = job.outside.profile
    widest = 2 * outer.radii(outer.bottom, outer.top)[1]
    return not WIDE_DISC[job.unit] < widest <= PIECED[job.unit]


def _staves(job: VesselJob, low: float, high: float) -> StavesWish | None:
    """The staves if any of them stands there: their grain runs along the axis, and so they move round it."""
    return job.staves if job.staves and job.staves.low < high and low < job.staves.high else None
