"""A remounting that runs out: whose error it is, and where to tap or to shim."""

from __future__ import annotations

from collections.abc import Iterator
from math import tau
from typing import TYPE_CHECKING

import numpy as np

from geometry.measuring.harmonics import Harmonic, Wobble, shim, without, wobble
from geometry.plane.edges import FloatArray
from jigs.measured.advice import LEAST_LEAF, NOTHING, Advice, Verdict, Words
from jigs.words.quantity import Quantity
from jigs.work.lathe import EIGHT

if TYPE_CHECKING:
    from geometry.lathe.turning import Runout
    from jigs.plans.plan import Plan

TOPIC = "wobble"
IN_HOLE = "braced_mounting"  # braces stand round its rim
# One of eight readings typed wrong by s moves the runout found by s/2, and spreads what two waves round the work do not
# explain, the second of them an oval, by 0.68 s. So much more than may run out is not corrected by.
STRAY = 0.68 * 2
WAYS = ("radial", "axial")
BACK = ", turn it back to where it sat first"  # half round, what is off lies at the opposite angle


def wobble_advice(plan: Plan, limits: Runout, mountings: tuple[str, ...]) -> Iterator[Advice]:
    """Of every mounting whose dial was read at all its angles, or whose whole runout was."""
    for mounting in mountings:
        found = [advice for way in WAYS for advice in _way(plan, limits, mounting, way)]
        yield from found or _total(plan, limits, mounting)


def _total(plan: Plan, limits: Runout, mounting: str) -> Iterator[Advice]:
    """Of the total reading alone, the largest of those written down."""
    readings, words = plan.job.readings, Words(plan.job.unit)
    read = [abs(one.value) for one in readings.each(f"{mounting}.start.runout", "dial") if one is not None]
    if not read:
        return
    total = max(read)
    told = (Quantity("total", "Runs out by", total, "calliper"),)
    id, out = f"{TOPIC}.{mounting}.runout", f"It runs out by {words.fine(total)}"
    sands_out = total <= words.limit(limits.accepted)
    if total > words.limit(limits.most):
        says: tuple[str, ...] = (
            f"{out}, more than {words.fine(limits.most)}: do not start the lathe. Seat the work again and measure.",
            f"If it stays, read the dial at {EIGHT} equal angles: they show where to tap or to shim.",
        )
        yield Advice(id, TOPIC, "unclear", told, says)
        return
    more = f"more than the {words.fine(limits.accepted)} that sand out: seat it again, or blend the step by hand."
    says = (f"{out}: it sands out. Leave it." if sands_out else f"{out}, {more}",)
    yield Advice(id, TOPIC, "right" if sands_out else "correct", told, says)


def _read(plan: Plan, id: str) -> FloatArray | None:
    read = [one for one in plan.job.readings.each(id, "dial") if one is not None]
    return np.array([one.value for one in read]) if len(read) == EIGHT else None


def _way(plan: Plan, limits: Runout, mounting: str, way: str) -> Iterator[Advice]:
    readings, words, of = plan.job.readings, Words(plan.job.unit), f"{mounting}.start"
    names = (way, f"{way}-turned", f"board-{way}")
    counts = [
        len([one for one in readings.each(f"{of}.{name}", "dial") if one is not None]) for name in names
    ]
    if any(counts) and (not counts[0] or any(read not in (0, EIGHT) for read in counts)):
        says: tuple[str, ...] = (f"Read the dial at {EIGHT} equal angles for each; one is left out.",)
        yield Advice(f"{TOPIC}.{mounting}.{way}", TOPIC, "unclear", (), says)
        return
    first, turned, own = (_read(plan, f"{of}.{name}") for name in names)
    if first is None:
        return
    read = zip(names, (first, turned, own), strict=True)
    odd = ((name, without(one, 0, 1, 2)) for name, one in read if one is not None)
    if stray := next((one for one in odd if np.ptp(one[1]) > STRAY * limits.most), None):
        name, left = stray
        what, cure = ("board", "turn it true") if name == names[2] else ("work", "blend it by hand")
        says = (
            f"The {name} reading at angle {int(np.argmax(np.abs(left))) + 1} is far from the others: read it again. "
            "Nothing is corrected.",
            f"If it stays, the {what} is not {'flat' if way == 'axial' else 'round'} there: {cure}, then read "
            "all of them again.",
        )
        yield Advice(f"{TOPIC}.{mounting}.{way}", TOPIC, "unclear", (), says)
        return
    accuracy = next(one.accuracy for one in readings.each(f"{of}.{way}", "dial") if one is not None)
    where = "face" if way == "axial" else "hole" if mounting == IN_HOLE else "rim"
    if where == "hole":  # it comes nearer to the dial where the work lies away from it
        first, turned = -first, None if turned is None else -turned
    found = wobble(first, turned, own, accuracy)
    verdict, says = _says(found, limits, where, BACK if turned is not None else "", words)
    yield Advice(f"{TOPIC}.{mounting}.{way}", TOPIC, verdict, tuple(_told(found)), says)


def _told(found: Wobble) -> Iterator[Quantity]:
    for id, label, vector in (
        ("whole", "Off by", found.whole),
        ("board", "of which the board", found.board),
        ("work", "and the work on it", found.torus),
    ):
        if vector is not None:
            yield Quantity(id, label, vector.amplitude, "calliper")
            yield Quantity(f"{id}.at", "highest at", vector.angle % tau, "angle")
    yield Quantity("accuracy", "give or take", found.accuracy, "calliper")
    yield Quantity("roundness", "Not round, from lowest to highest", found.roundness, "calliper")


def _says(
    found: Wobble, limits: Runout, where: str, back: str, words: Words
) -> tuple[Verdict, tuple[str, ...]]:
    blend = (
        (f"What no centring takes away is {words.fine(found.roundness)} at the {where}: blend it by hand.",)
        if found.roundness > NOTHING
        else ()
    )
    total = 2 * found.whole.amplitude
    if total <= limits.accepted or found.whole.amplitude <= found.accuracy:
        uneven = (
            found.roundness > limits.accepted + 2 * found.accuracy
        )  # an oval, or a slip that hides the rest
        if uneven:
            again = "Read all angles again: now, for one may have slipped, and before you start the lathe."
            return "correct", (f"The {where} runs out by {words.fine(total)} as a whole.", again, *blend)
        return "right", (f"The {where} runs out by {words.fine(total)}: it sands out. Leave it.", *blend)
    if found.torus is None or found.board is None:
        return "unclear", (
            f"The {where} runs out by {words.fine(total)}, {'outward' if where == 'hole' else 'highest'} at angle "
            f"{_place(found.whole)}.",
            "Turn the work half round on its board and read again: that shows which of the two is to blame.",
        )
    return "correct", (
        *_blame(found.board, found, "board", where, back, words),
        *_blame(found.torus, found, "work", where, back, words),
        *blend,
    )


def _blame(
    vector: Harmonic, found: Wobble, whose: str, where: str, back: str, words: Words
) -> tuple[str, ...]:
    if vector.amplitude <= found.accuracy:
        return (f"The {whose} is right, as well as you can measure.",)
    if (shim(vector) if where == "face" else vector.amplitude) < LEAST_LEAF / 2:
        return (f"The {whose} is right, as well as it can be set.",)
    far, place = words.fine(vector.amplitude), _place(vector)
    if whose == "board":
        cure = "true it where it stands" if where != "face" else "face it where it stands"
        return (f"The board's seat is out by {far}, highest at angle {place}: take the work off and {cure}.",)
    if where != "face":
        return (
            f"The work sits {far} off centre: slacken it{back}, and tap its rim by that at angle {place}.",
        )
    return (
        f"The work stands {far} high at angle {place}: slacken it{back}, and put {words.fine(shim(vector))} of paper "
        "under it opposite that, if it rests as far from the axis as the dial stood; farther in or out, in proportion.",
    )


def _place(vector: Harmonic) -> str:
    """The nearest of those that were read, from 1."""
    return str(round(vector.angle % tau / (tau / vector.count)) % vector.count + 1)
