"""What may be changed about a vessel that is refused, by the code of what refuses it.

What carries a floating base goes all at once: the foot's hollow, its floor and its lowest ring.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import floor

from geometry.bodies.floating_base import widest_opening
from geometry.records import replace
from jigs.asked.change import typed
from jigs.asked.vessel_job import VesselJob
from jigs.remedies.ladder import Rung, Way, rungs
from jigs.remedies.lever import Lever, View, down, of_vessel, one_of, up, without
from jigs.remedies.shapes import (
    GENTLER_ARCS,
    HIGHER_INSIDE,
    MORE_STATIONS,
    NO_RECESS,
    SMALLER_ALL,
    STEADY_STATIONS,
    STRAIGHT_EDGES,
    THICKER_WALLS,
    THINNER_WALLS,
    WIDER_FOOT,
    WIDER_WALL_INSIDE,
    points,
    rows_of,
)
from jigs.remedies.shared import FEWER_STAGES, LAYUP, MACHINES, STRONGER
from jigs.remedies.stacks import (
    FEWER_HEIGHTS,
    LAST_HIGHER,
    NO_STAVES,
    ONE_HEIGHT,
    ONE_WOOD,
    OTHERS_ABOVE,
    STEADY_UPRIGHT,
    UPRIGHT_STEM,
)
from jigs.words.findings import Refused
from jigs.words.lengths import MM_PER_INCH

LEDGE, TONGUE, LIP = 4.0, 5.0, 4.0  # mm, of a hollow, a groove and a lip that serve
SMALLER = (1.0, 0.9, 0.8, 0.7, 0.6)  # of the widest hollow
USUAL = 20.0  # mm, of rings for a job whose heights are chosen from boards


@of_vessel
def _carried(_: View, job: VesselJob) -> Sequence[Rung]:
    """Hollow, floor and lowest ring of usual sizes, the hollow as wide as the wall leaves it."""
    from jigs.asked.inside import wall_floor

    step = 0.5 if job.unit == "mm" else MM_PER_INCH / 32
    ledge, tongue = (round(size / step) * step for size in (LEDGE, TONGUE))
    thick = max(wall_floor(job), round((TONGUE + LIP) / step) * step)
    keys = _heights(job, ledge + tongue + job.rings.turning_allowance)
    if job.inside is None and thick > wall_floor(job):
        keys = {**keys, "wall.floor": typed(thick, job.unit)}
    found, widest = [], _widest(job, ledge, tongue, thick)
    for share in SMALLER:
        across = floor(2 * share * widest / step) * step
        foot = {"foot.recess_diameter": typed(across, job.unit), "foot.recess_depth": typed(ledge, job.unit)}
        found.append(Rung({**foot, **keys}, 1 - share))
    return found if widest > 0 else []


def _heights(job: VesselJob, first: float) -> dict[str, object]:
    given = job.rings.heights
    others = (given[1:] or given[:1]) if isinstance(given, tuple) else (USUAL,)
    return {"rings.heights": [typed(height, job.unit) for height in (first, *others)]}


def _widest(job: VesselJob, ledge: float, tongue: float, thick: float) -> float:
    """Radius of the widest opening with wall outside its groove, within the floor's flat; 0 where there is none."""
    from jigs.stages.finished_form.solve import solve_section
    from jigs.stages.floating_base.check import flat_radius, wall_wanted
    from jigs.stages.floating_base.groove import moisture_shares, rings_move

    foot = replace(job.foot, recess_diameter=1.0, recess_depth=ledge)
    try:
        section = solve_section(replace(job, foot=foot, wall=replace(job.wall, floor=thick)))
        outside = section.outer.radii(ledge, ledge + tongue)[0]
    except (Refused, ValueError):
        return 0.0
    groove = outside - wall_wanted(job)
    return (
        max(
            0.0,
            min(
                flat_radius(section), widest_opening(groove, *moisture_shares(job), *rings_move(job, section))
            ),
        )
        if groove > 0
        else 0.0
    )


# It is the turner who says that the base floats.
_OTHER = one_of("rings.base", "segmented", None, "solid", dear=6.0)
CARRIED = Lever("foot.recess_diameter", _carried, None, False, 1.0)
FLOATING: dict[str, Sequence[Lever]] = {
    code: (CARRIED, _OTHER)
    for code in ("no-ledge", "floating-heights", "floating-ledge", "floating-floor", "floating-joint",
                 "floating-wall", "floating-flat", "floating-narrow", "floating-upright")
}  # fmt: skip


THINNER, THICKER = down("wall.thickness"), up("wall.thickness")
FEWER, MORE = down("rings.segments"), up("rings.segments")
LOWER, HIGHER = down("rings.heights"), up("rings.heights")
NARROWER = (down("rings.gap"), down("rings.spacer"), without("rings.gap"), without("rings.spacer"))
STAVES = (up("staves.low"), down("staves.low"), NO_STAVES)
ALLOWANCE = (up("rings.turning_allowance"), down("rings.turning_allowance"))
ANY_WALL = (THICKER, THICKER_WALLS, WIDER_WALL_INSIDE, THINNER, THINNER_WALLS)
_HELD = (one_of("reversing.hold", "taper", "inside", "bolt"),)
# It is the turner who says that the foot is finished by hand.
_BY_HAND = one_of("reversing.hold", "none", dear=0.7)


def _by_hand_and_flat(view: View) -> Sequence[Rung]:
    """By hand, and the foot without the hollow that is turned with the mouth held."""
    return [Rung({"reversing.hold": "none", **rung.changes}, 0.0) for rung in NO_RECESS.ladder(view)]


_BY_HAND_FLAT = Lever("reversing.hold", _by_hand_and_flat, None, False, 1.5)


def _bolt_that_holds(view: View) -> Sequence[Rung]:
    """The least hole whose bolt was found to hold; none where none was."""
    key = "reversing.base_hole"
    least = view.finding.wants.get(key)
    if least is None:
        return []
    holes = [rung for rung in rungs(view.job, key, "up") if rung.at >= least - 1e-6]
    return [Rung({"reversing.hold": "bolt", **rung.changes}, 0.0, rung.at) for rung in holes[:1]]


def _taper(way: Way) -> Lever:
    """No less than the inside leans next to the mouth, where it leans too much."""

    @of_vessel
    def ladder(view: View, job: VesselJob) -> Sequence[Rung]:
        lean = view.finding.wants.get("reversing.taper", 0.0)
        return [rung for rung in rungs(job, "reversing.taper", way) if rung.at > lean - 1e-6]

    return Lever("reversing.taper", ladder, way)


_BOLT = Lever("reversing.base_hole", _bolt_that_holds, "up")


@of_vessel
def _floors(view: View, job: VesselJob) -> Sequence[Rung]:
    """From the floor that holds, stated or the wall's, or is wanted, on upwards."""
    from jigs.asked.inside import wall_floor

    least = view.finding.wants.get("wall.floor", wall_floor(job))
    return [] if job.inside else rungs(job, "wall.floor", "up", least)


THICKER_FLOOR = Lever("wall.floor", _floors, "up")

IN_ONE = without("halves.ring")


@of_vessel
def _rings_moved(_: View, job: VesselJob) -> Sequence[Rung]:
    """Each joint alone some rings up or down."""
    own = list(job.halves.ring or ())
    found = []
    for k, ring in enumerate(own):
        for off in (*range(-MOST_MOVED, 0), *range(1, MOST_MOVED + 1)):
            rings = sorted({*own[:k], ring + off, *own[k + 1 :]})
            if rings[0] > 0 and len(rings) == len(own):
                found.append(Rung({"halves.ring": rings if len(rings) > 1 else rings[0]}, abs(off) / ring))
    return sorted(found, key=lambda rung: rung.far)


MOST_MOVED = 8  # rings
OTHER_RING = (Lever("halves.ring", _rings_moved, None, False),)
WIDEST = 60  # steps


def _wider_rim(view: View) -> Sequence[Rung]:
    """The profile's last diameter larger, which lies on the pot."""
    step = 1.0 if view.job.unit == "mm" else MM_PER_INCH / 16
    for key in ("profile.stations", "profile.edges"):
        rows = rows_of(view, key)
        if rows:
            *others, (height, across, *bent) = rows
            wider = (across + step * k for k in range(1, WIDEST))
            return [
                Rung({key: points(view, key, [*others, [height, size, *bent]])}, (size - across) / across)
                for size in wider
            ]
    return []


WIDER_RIM = Lever("profile", _wider_rim, "up")
LIDS: dict[str, Sequence[Lever]] = {
    "lid-bears": (
        WIDER_RIM,
        down("lid.gap"),
        without("lid.gap"),
        one_of("lid.fit", "snug"),
        down("lid.wettest"),
    ),
    "lid-deep": (down("lid.seat"),),
    "lid-twice": (up("lid.seat"),),
    "lid-wood": (one_of("rings.base", "solid"),),
}
LEVERS: Mapping[str, Sequence[Lever]] = {
    "stage-over-allowance": (FEWER_STAGES, up("rings.turning_allowance")),
    "blade-over-half": (replace(down("saw.blade_height"), dear=1.0), up("saw.blade_diameter")),
    "folds": (MORE_STATIONS, GENTLER_ARCS, STRAIGHT_EDGES),
    "no-foot": (down("foot.recess_diameter"), down("foot.recess_depth"), NO_RECESS, WIDER_FOOT),
    "no-boards": (ONE_HEIGHT, ONE_WOOD),
    "too-many": (FEWER_HEIGHTS,),
    "no-staves": STAVES,
    "thin-ring": (HIGHER, down("rings.turning_allowance"), LOWER, *STAVES),
    "too-tight": (down("lid.seat"), THINNER, THINNER_WALLS, GENTLER_ARCS, MORE_STATIONS, STRAIGHT_EDGES),
    "tight-corner": (down("wall.inner_corner"), THINNER),
    "no-inside": (down("lid.seat"), down("wall.inner_corner"), down("wall.floor"), THINNER, THINNER_WALLS,
                  WIDER_WALL_INSIDE, STRAIGHT_EDGES),
    "thin-wall": (down("lid.seat"), down("wall.least"), THICKER, THICKER_WALLS, WIDER_WALL_INSIDE),
    "thin-floor": (THICKER_FLOOR, down("wall.least"), *ANY_WALL),
    "inside-neck": (THINNER, THINNER_WALLS, THICKER_FLOOR),
    "no-glue-face rings.turn": (without("rings.turn"), without("rings.gap")),
    "no-glue-face rings.gap": (down("rings.gap"), FEWER, without("rings.gap")),
    "no-glue-face rings.least_glue": (STEADY_STATIONS, down("rings.least_glue"), THICKER, THICKER_WALLS,
                                      WIDER_WALL_INSIDE),
    "no-glue-face rings.segments": (MORE, LOWER, THICKER, THICKER_WALLS, WIDER_WALL_INSIDE, FEWER, *NARROWER),
    "no-glue-face": (MORE, LOWER, FEWER, THICKER, THICKER_WALLS, WIDER_WALL_INSIDE, *NARROWER),
    "no-ring": (*NARROWER, FEWER, LOWER),
    "strip-too-thick": (LOWER, up("saw.blade_height")),
    "throat": (SMALLER_ALL, up("saw.throat")),
    "short-segment": (FEWER, down("rings.least_segment")),
    "thin-sheet": (up("boards.sheet"),),
    "stave-too-thick": (up("staves.count"), *STAVES, up("saw.blade_height")),
    "stave-not-held": (down("staves.count"), down("staves.high"), down("boards.sheet"), NO_STAVES),
    "meets-axis": (STEADY_STATIONS, STRAIGHT_EDGES),
    "slim-stem": (STEADY_STATIONS, STEADY_UPRIGHT, UPRIGHT_STEM, STRONGER),
    "slim-wall": (THICKER, THICKER_WALLS, WIDER_WALL_INSIDE, STRONGER),
    "slim-block": (WIDER_FOOT, SMALLER_ALL, STRONGER),
    "few-screws": (up("rings.waste_block"), WIDER_FOOT, SMALLER_ALL),
    "slim-foot": (THICKER, THICKER_WALLS, WIDER_FOOT, SMALLER_ALL, STRONGER),
    "nothing-to-face": (OTHERS_ABOVE, LAST_HIGHER, HIGHER, *ALLOWANCE, LOWER),
    "glued-short": (THICKER, THICKER_WALLS, WIDER_WALL_INSIDE, *NARROWER),
    "thin-rim": (OTHERS_ABOVE, LAST_HIGHER, HIGHER, LOWER, *ALLOWANCE, ONE_HEIGHT),
    "no-such-ring": (without("rings.upright"),),
    "core-plug": (up("rings.core_plug"), down("rings.core_plug"), without("rings.core_plug")),
    "swing": (SMALLER_ALL, down("rings.turning_allowance"), up("lathe.swing_over_bed")),
    "not-held": (FEWER, up("rings.turning_allowance"), one_of("layup.mirrored", "none"), without("layup.rings")),
    "not-held-at-all": (_BOLT, _taper("up"), down("wall.floor"), THICKER, _BY_HAND, _BY_HAND_FLAT, STRONGER),
    # All ways were tried: to name one of them does not help.
    "not-held-at-all wall.floor": (THICKER_FLOOR, _BOLT, _BY_HAND, _BY_HAND_FLAT, STRONGER),
    **dict.fromkeys(
        (f"not-held-{way} wall.floor" for way in ("taper", "inside", "bolt")),
        (THICKER_FLOOR, _BOLT, *_HELD, _BY_HAND, _BY_HAND_FLAT),
    ),
    "hollow-by-hand": (NO_RECESS, *_HELD, one_of("reversing.hold", "auto")),
    "not-held-taper": (*_HELD, _BOLT, _taper("up"), _taper("down"), down("wall.floor"), _BY_HAND),
    "not-held-inside": (*_HELD, _BOLT, _BY_HAND),
    "not-held-bolt": (*_HELD, up("reversing.base_hole"), _BY_HAND),
    **FLOATING,
    **LIDS,
    "halves-ring": OTHER_RING,
    "halves-neck": (THINNER, THINNER_WALLS),
    "halves-slim": (*OTHER_RING, STRONGER),
    "halves-wall": (*OTHER_RING, THICKER, THICKER_WALLS),
    "halves-staves": (*OTHER_RING, NO_STAVES),
    "halves-open": (IN_ONE,),
    "knob-deep": (down("knob.tenon_length"), THICKER_FLOOR, HIGHER_INSIDE),
    "knob-shoulder": (down("knob.tenon_diameter"),),
    "knob-stands-over": (WIDER_FOOT,),
    **LAYUP,
}  # fmt: skip

# Tried for whatever else refuses a vessel.
ANY: Sequence[Lever] = (
    FEWER, MORE, LOWER, HIGHER, *ALLOWANCE, *ANY_WALL, up("wall.floor"), down("wall.floor"), down("wall.inner_corner"),
    *NARROWER, NO_STAVES, ONE_HEIGHT, *_HELD, SMALLER_ALL, GENTLER_ARCS, STRAIGHT_EDGES, *MACHINES,
)  # fmt: skip
