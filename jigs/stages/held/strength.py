"""What wood stands across its grain, and what presses on the work at the lathe. N and N/mm²."""

from __future__ import annotations

from collections.abc import Iterable

from geometry.statics.lathe_holding import MOST_PULL
from jigs.asked.woods import kind_of

# Tension perpendicular to the grain at 12 % moisture: basswood, the weakest of the usual hardwoods, 2.4; cherry 3.9,
# walnut 4.8, red oak 5.5 (USDA Wood Handbook, FPL-GTR-190, table 5-3a, seen in a copy). Weaker woods: `KINDS`.
ACROSS = 2.4
# For a catch, a thin glue line, a hidden check: common practice, no source.
SAFETY = 4.0
ALLOWED = ACROSS / SAFETY
# Of a floor of the weakest wood under the tailstock or a bolt, its thread waxed: no tool catches it, and its push is
# measured. Common practice, no source.
FLOOR_SAFETY = 1.4
# Bending along the grain at 12 % moisture: basswood 60, most hardwoods 80 to 110 (the same table).
ALONG = 60.0
ALLOWED_ALONG = ALONG / SAFETY
# A butt joint of end grain reaches a quarter of the wood's strength along the grain at best (USDA Wood Handbook,
# adhesive bonding, from memory): so do mitres of ten and more segments, which are nearly that.
MITRE = 1 / 4
ALLOWED_MITRE = MITRE * ALLOWED_ALONG
# A light cut, or a hand that steadies the work, pushes its rim sideways by so much: common practice, no source.
SIDE = 30.0
# A tailstock or a bolt hand-tight presses a plug at least so much: common practice, no source.
PUSH = 300.0
NUT_FACTOR = 0.25  # torque over pull and bolt diameter, dry thread: common practice
LOW_NUT_FACTOR = 0.15  # of a waxed or oiled thread: from memory
# Of its reading, that a torque wrench up to 10 N m errs by at most: ISO 6789, from memory. A scale on a lever does no
# worse: common practice, no source.
WRENCH_ERRS = 0.06
# Of a push learned on a bathroom scale, that a hand at the tailstock misses by: common practice, no source. More than
# that is within the safety of what is pressed.
PUSH_ERRS = 0.05
SHEET_TAKES = 8.0  # bending, common plywood the weaker way: common practice


def allowed_across(species: Iterable[str]) -> float:
    """N/mm² across the grain of the weakest of these woods; one that is not named here is taken as the usual."""
    kinds = filter(None, map(kind_of, species))
    return min([ACROSS, *(kind.across for kind in kinds)]) / SAFETY


def allowed_along(species: Iterable[str]) -> float:
    """N/mm² of bending along the grain of the weakest of these woods, as above."""
    kinds = filter(None, map(kind_of, species))
    return min([ALONG, *(kind.along for kind in kinds)]) / SAFETY


def nut_torque(newtons: float, bolt: float) -> float:
    """N m at the nut that draws a bolt of so many mm with so many newtons."""
    return NUT_FACTOR * newtons * bolt / 1000


def turned_pull(newtons: float) -> float:
    """N with which a bolt may pull whose nut is turned for so many newtons on a dry thread, for it may be waxed.

    The wrench is set so high that it reaches them even where it errs, and it may err the other way.
    """
    return newtons * NUT_FACTOR / LOW_NUT_FACTOR * (1 + WRENCH_ERRS) / (1 - WRENCH_ERRS)


def pushed(newtons: float) -> float:
    """N with which a hand may push that means to push with at least so many: it may miss either way."""
    return newtons * (1 + PUSH_ERRS) / (1 - PUSH_ERRS)


def most_pull(least: float) -> float:
    """N that nobody has to draw a bolt beyond: what a hand does, or what the least takes on any thread."""
    return max(MOST_PULL, turned_pull(least))


def most_torque(newtons: float, bolt: float) -> float:
    """N m at the nut with which a bolt of so many mm pulls no more than so many newtons, its thread waxed or not."""
    return LOW_NUT_FACTOR * newtons * bolt / 1000
