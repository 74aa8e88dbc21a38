"""Whether a sled holds its wedge ring in both cuts, by statics.

Places are (s, u, v) as in `geometry.sled`: along the fence from the apex, from the fence towards the blade, up from the
base. The operator stands where the cut ends, so the thrust pushes along the fence to the stop and, by sin w of itself,
off the fence. In the second cut ring and wedge stack are two pieces: the stack lies loose between fence and ring, and
is kept there by its peg. Lengths mm, forces N.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi, sin, tan

from geometry.draw_rod import PULL
from geometry.holding import SIDEWAYS, Clamp, Contact, Holding, Load, Vector, cutting_loads, hold, patch
from geometry.sled import SCREW_FORCE, SledBody
from geometry.wedge_peg import WedgePeg

Place = tuple[float, float]  # (s, v)
UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
RISING = 1 / 3  # of the cutting force, with which teeth that rise in a closing cut may lift: common practice
_WEDGE = 1  # the stack, as a piece of its own
_CORNERS = 8  # of a ring with many, at most twice as many are looked at
_RELIEF = 2.0  # of a V stop beside the arris
_V_ARM = 0.8  # of half a flat that a V stop reaches along


def ring_holding(
    sled: SledBody, second: bool, rod: bool = True, friction: float = 0.0, peg: bool = True
) -> Holding:
    """The ring in one cut: first with its face on the fence, second on the wedge, which is held too.

    `rod` and `peg` False leave them out.
    """
    clamps = [_screw(sled), *([_rod(sled)] if rod else [])]
    stack = _stack(sled, sled.peg if peg else None) if second else []
    return hold([*_contacts(sled, second), *stack], clamps, _loads(sled), friction=friction)


@lru_cache(maxsize=64)
def ring_holdings(sled: SledBody) -> tuple[Holding, Holding]:
    """Both cuts, friction not counted."""
    return ring_holding(sled, second=False), ring_holding(sled, second=True)


def directions(sled: SledBody) -> dict[str, Vector]:
    """Ways in which a ring can get away, by what a turner calls them."""
    return {
        "along the fence to the apex": (-1.0, 0.0, 0.0),
        "along the fence to the stop": (1.0, 0.0, 0.0),
        "off the fence": (0.0, 1.0, 0.0),
        "into the fence": (0.0, -1.0, 0.0),
        "up": UP,
        "down": DOWN,
    }


def _middle(sled: SledBody) -> float:
    return sled.cut.stop - sled.cut.half_width


def _corners(sled: SledBody) -> list[Place]:
    """The ring's corners, counter-clockwise from the end of the flat that it stands on."""
    reach, n = sled.apothem / cos(sled.mitre), sled.segments
    turns = [-pi / 2 + sled.mitre * (1 + 2 * i) for i in range(0, n, max(1, n // _CORNERS))]
    return [(_middle(sled) + reach * cos(a), sled.apothem + reach * sin(a)) for a in turns]


def _face(sled: SledBody, second: bool, s: float) -> float:
    """u of the ring's face at the fence or on the wedge."""
    w, cut = sled.cut.half_wedge, sled.cut
    return cut.wedge_at_stop + (cut.stop - s) * tan(w) if second else 0.0


def _contacts(sled: SledBody, second: bool) -> list[Contact]:
    return [*_base(sled, second), *_fence(sled, second), *_stop(sled, second)]


def _base(sled: SledBody, second: bool) -> tuple[Contact, ...]:
    """The flat that the ring stands on, as far as the base goes: to the blade."""
    half = sled.apothem * tan(sled.mitre)
    ends = (_middle(sled) - half, _middle(sled) + half)
    return patch([(s, u, 0.0) for s in ends for u in (_face(sled, second, s), sled.cut.gap(s))], UP, "base")


def _fence(sled: SledBody, second: bool) -> tuple[Contact, ...]:
    w, corners = sled.cut.half_wedge, _corners(sled)
    if not second:
        return patch([(s, 0.0, v) for s, v in corners], (0.0, 1.0, 0.0), "fence")
    on = _below(corners, sled.wedge_layers * sled.sheet)
    return patch([(s, _face(sled, second, s), v) for s, v in on], (sin(w), cos(w), 0.0), "wedge", on=_WEDGE)


def _stack(sled: SledBody, peg: WedgePeg | None) -> list[Contact]:
    """What touches the wedge stack besides the ring: fence, base, stop, and the peg's hole along all of the fence's
    thickness. The stack is looked at as no longer than what bears on it."""
    thin, thick = sled.cut.stop, sled.cut.stop - 2 * sled.cut.half_width
    tall = sled.wedge_layers * sled.sheet
    ends = [(s, u) for s in (thick, thin) for u in (0.0, _face(sled, True, s))]
    found = [
        *patch([(s, 0.0, v) for s in (thick, thin) for v in (0.0, tall)], (0.0, 1.0, 0.0), "fence", _WEDGE),
        *patch([(s, u, 0.0) for s, u in ends], UP, "base", _WEDGE),
        *patch([(s, u, v) for s, u in ends[2:] for v in (0.0, tall)], (-1.0, 0.0, 0.0), "stop", _WEDGE),
    ]
    if peg:
        ways = ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), UP, DOWN)
        found += [
            Contact((peg.place, u, peg.height), way, "peg", body=_WEDGE)
            for way in ways
            for u in (-sled.sheet, 0.0)
        ]
    return found


def _below(corners: list[Place], height: float) -> list[Place]:
    """What of a convex outline lies no higher than this."""
    kept: list[Place] = []
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        if a[1] <= height:
            kept.append(a)
        if (a[1] <= height) != (b[1] <= height):
            share = (height - a[1]) / (b[1] - a[1])
            kept.append((a[0] + share * (b[0] - a[0]), height))
    return kept


def _stop(sled: SledBody, second: bool) -> tuple[Contact, ...]:
    """The outer flat on the stop cheeks; an arris in their V by both its flats."""
    mu, apothem, stop = sled.mitre, sled.apothem, sled.cut.stop
    across = (_face(sled, second, stop), sled.cheeks[-1] + sled.sheet)
    half = apothem * tan(mu)
    if sled.segments % 4 == 0:
        heights = (apothem - half, apothem + half)
        return patch([(stop, u, v) for u in across for v in heights], (-1.0, 0.0, 0.0), "stop")
    return tuple(
        Contact(
            (stop - d * sin(mu), u, apothem + side * d * cos(mu)), (-cos(mu), 0.0, -side * sin(mu)), "stop"
        )
        for side in (-1, 1)
        for u in across
        for d in (_RELIEF, _V_ARM * half)
    )


def _screw(sled: SledBody) -> Clamp:
    s, u = sled.jaw_screw
    return Clamp((s, u, sled.ring_height), DOWN, SCREW_FORCE, "jaw's screw", gives=False)


def _rod(sled: SledBody) -> Clamp:
    """It gives: the plug may slip at more than the knob's pull, which has tried it."""
    along, across = sled.rod.draws
    return Clamp(
        (sled.rod.place, sled.rod.rubber_middle, sled.apothem), (along, across, 0.0), PULL, "draw rod"
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
