"""Whether a sled holds its wedge ring in both cuts, by statics.

Places are (s, u, v) as in the wedge-ring sled's layout: along the fence from the apex, from the fence towards the
blade, up from the base. The operator stands where the cut ends, so the thrust pushes along the fence to the stop and,
by sin w of itself, off the fence. In the second cut ring and wedge stack are two pieces: the stack lies loose between
fence and ring, and is kept there by its peg. Lengths mm, forces N.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi, sin, tan
from typing import Literal

from geometry.blanks.sawing import ARM
from geometry.hardware.draw_rod import PULL
from geometry.hardware.wedge_peg import WedgePeg
from geometry.records import Record
from geometry.statics.contacts import Clamp, Contact, Load, Vector, patch
from geometry.statics.holding import SIDEWAYS, Holding, cutting_loads, hold
from jigs.stages.wedge_rings.layout.sled import SCREW_FORCE, SledBody

Place = tuple[float, float]  # (s, v)
UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
RISING = 1 / 3  # of the cutting force, with which teeth that rise in a closing cut may lift: common practice
_WEDGE = 1  # the stack, as a piece of its own
_CORNERS = 8  # of a ring with many, at most twice as many are looked at
_RELIEF = 2.0  # of a V stop beside the arris
DIRECTIONS: dict[str, Vector] = {  # in which a ring can get away, as a turner calls them
    "along the fence to the apex": (-1.0, 0.0, 0.0),
    "along the fence to the stop": (1.0, 0.0, 0.0),
    "off the fence": (0.0, 1.0, 0.0),
    "into the fence": (0.0, -1.0, 0.0),
    "up": UP,
    "down": DOWN,
}


def ring_holding(
    sled: SledBody,
    second: bool,
    rod: bool = True,
    friction: float = 0.0,
    peg: bool = True,
    thinner: float = 0.0,
) -> Holding:
    """The ring in one cut: first with its face on the fence, second on the wedge, which is held too.

    `rod` and `peg` False leave them out. The wedge is `thinner` than the sled's, as that for the ends of halves is.
    """
    seat = _Seat(sled, sled.cut.wedge_at_stop - thinner if second else None)
    clamps = [_screw(sled), *([_rod(sled, thinner if second else 0.0)] if rod else [])]
    stack = _stack(seat, sled.peg if peg else None) if second else []
    return hold([*_base(seat), *_fence(seat), *_stop(seat), *stack], clamps, _loads(sled), friction=friction)


@lru_cache(maxsize=64)
def ring_holdings(sled: SledBody, thinner: float = 0.0) -> tuple[Holding, ...]:
    """Both cuts, friction not counted; then the second on the end wedge, where that is `thinner`."""
    both = (ring_holding(sled, second=False), ring_holding(sled, second=True))
    return (*both, ring_holding(sled, second=True, thinner=thinner)) if thinner else both


def _middle(sled: SledBody) -> float:
    return sled.cut.stop - sled.cut.half_width


def _corners(sled: SledBody) -> list[Place]:
    """The ring's corners, counter-clockwise from the end of the flat that it stands on."""
    reach, n = sled.apothem / cos(sled.mitre), sled.segments
    turns = [-pi / 2 + sled.mitre * (1 + 2 * i) for i in range(0, n, max(1, n // _CORNERS))]
    return [(_middle(sled) + reach * cos(a), sled.apothem + reach * sin(a)) for a in turns]


class _Seat(Record):
    """What the ring's face lies on: the fence, or a wedge so thick at the stop."""

    sled: SledBody
    at_stop: float | None

    def face(self, s: float) -> float:
        """u of the ring's face."""
        cut = self.sled.cut
        return 0.0 if self.at_stop is None else self.at_stop + (cut.stop - s) * tan(cut.half_wedge)

    @property
    def thin_end(self) -> float:
        """s at which the wedge begins: at the stop, or at its arms."""
        return self.sled.cut.stop - self.sled.arm[0]


def _base(seat: _Seat) -> tuple[Contact, ...]:
    """The flat that the ring stands on, as far as the base goes: to the blade."""
    sled = seat.sled
    half = sled.apothem * tan(sled.mitre)
    ends = (_middle(sled) - half, _middle(sled) + half)
    return patch([(s, u, 0.0) for s in ends for u in (seat.face(s), sled.cut.gap(s))], UP, "base")


def _fence(seat: _Seat) -> tuple[Contact, ...]:
    """All of the ring's face on the fence, or what of it the wedge stack covers."""
    sled, w, corners = seat.sled, seat.sled.cut.half_wedge, _corners(seat.sled)
    if seat.at_stop is None:
        return patch([(s, 0.0, v) for s, v in corners], (0.0, 1.0, 0.0), "fence")
    on = _within(_within(corners, 1, sled.wedge_layers * sled.sheet), 0, seat.thin_end)
    return patch([(s, seat.face(s), v) for s, v in on], (sin(w), cos(w), 0.0), "wedge", on=_WEDGE)


def _stack(seat: _Seat, peg: WedgePeg | None) -> list[Contact]:
    """What touches the wedge stack besides the ring: fence, base, stop, and the peg's hole along all of the fence's
    thickness. The stack is looked at as no longer than what bears on it."""
    sled, thin = seat.sled, seat.thin_end
    thick, tall = sled.cut.stop - 2 * sled.cut.half_width, sled.wedge_layers * sled.sheet
    ends = [(s, u) for s in (thick, thin) for u in (0.0, seat.face(s))]
    touched = [(u, v) for u in (0.0, min(sled.sheet, seat.face(thin))) for v in _stop_heights(sled, tall)]
    found = [
        *patch([(s, 0.0, v) for s in (thick, thin) for v in (0.0, tall)], (0.0, 1.0, 0.0), "fence", _WEDGE),
        *patch([(s, u, 0.0) for s, u in ends], UP, "base", _WEDGE),
        *patch([(thin, u, v) for u, v in touched], (-1.0, 0.0, 0.0), "stop", _WEDGE),
    ]
    if peg:
        ways = ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), UP, DOWN)
        found += [
            Contact((peg.place, u, peg.height), way, "peg", body=_WEDGE)
            for way in ways
            for u in (-sled.sheet, 0.0)
        ]
    return found


def _stop_heights(sled: SledBody, tall: float) -> list[float]:
    """Where the cheek on the fence touches the stack's thin end: along the flat's height, or with its arms' tips."""
    aside = sled.arm[1] or sled.apothem * tan(sled.mitre)
    low, high = sled.apothem - aside, sled.apothem + aside
    return [low, *([high] if high <= tall else [] if sled.arm[1] else [tall])]


def _within(corners: list[Place], axis: Literal[0, 1], most: float) -> list[Place]:
    """What of a convex outline lies no farther along an axis than this."""
    kept: list[Place] = []
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        if a[axis] <= most:
            kept.append(a)
        if (a[axis] <= most) != (b[axis] <= most):
            share = (most - a[axis]) / (b[axis] - a[axis])
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
    return kept


def _stop(seat: _Seat) -> tuple[Contact, ...]:
    """The outer flat on the stop cheeks; an arris in their V by both its flats."""
    sled, mu, apothem, stop = seat.sled, seat.sled.mitre, seat.sled.apothem, seat.sled.cut.stop
    half = apothem * tan(mu)
    if sled.segments % 4 == 0:
        heights = (apothem - half, apothem + half)
        corners = [(stop, u, v) for u in _cheeks(seat, stop) for v in heights]
        return patch(corners, (-1.0, 0.0, 0.0), "stop")
    return tuple(
        Contact(
            (stop - d * sin(mu), u, apothem + side * d * cos(mu)), (-cos(mu), 0.0, -side * sin(mu)), "stop"
        )
        for side in (-1, 1)
        for d in (_RELIEF, ARM * half)
        for u in _cheeks(seat, stop - d * sin(mu))
    )


def _cheeks(seat: _Seat, s: float) -> tuple[float, ...]:
    """u of the first and the last place where the stop's cheeks touch the ring; none where it lies beyond them."""
    face, sheet = seat.face(s), seat.sled.sheet
    behind = [u for u in seat.sled.cheeks if u + sheet > face]
    return (max(behind[0], face), behind[-1] + sheet) if behind else ()


def _screw(sled: SledBody) -> Clamp:
    s, u = sled.jaw_screw
    return Clamp((s, u, sled.ring_height), DOWN, SCREW_FORCE, "jaw's screw", gives=False)


def _rod(sled: SledBody, thinner: float) -> Clamp:
    """It gives: the plug may slip at more than the knob's pull, which has tried it. On a thinner wedge the plug comes
    with its ring nearer to the fence."""
    rod = sled.rod
    along, across = rod.drawn_from(rod.rubber_middle - thinner)
    return Clamp(
        (rod.place, rod.rubber_middle - thinner, sled.apothem), (along, across, 0.0), PULL, "draw rod"
    )


def _loads(sled: SledBody) -> tuple[Load, ...]:
    """All over the cut: at the ring's corners, where the blade's plane meets them. Besides the feed's cone the teeth
    alone, down, or up where they rise behind the middle of a table saw's blade."""
    w = sled.cut.half_wedge
    places = [(_where(sled, s, v), (s, sled.cut.gap(s), v)) for s, v in _corners(sled)]
    aside = (-sin(w) * SIDEWAYS, cos(w) * SIDEWAYS)
    alone = [
        Load(
            place,
            (side * aside[0], side * aside[1], up),
            f"{'rising teeth' if up > 0 else 'down alone'}, {where}",
        )
        for where, place in places
        for up in (-1.0, RISING)
        for side in (-1, 1)
    ]
    return (*cutting_loads(places, DOWN, (cos(w), sin(w), 0.0)), *alone)


def _where(sled: SledBody, s: float, v: float) -> str:
    along = ("at the start", "in the middle", "at the end")[_third(s - _middle(sled), sled.apothem)]
    return f"{along} of the cut, {('low', 'half-way up', 'high')[_third(v - sled.apothem, sled.apothem)]}"


def _third(off: float, half: float) -> int:
    return 0 if off < -half / 3 else 2 if off > half / 3 else 1
