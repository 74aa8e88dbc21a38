"""Halves of a torus against the half check, and offered to each other."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from geometry.blanks.truing import Trued, to_line, wood_left
from geometry.bodies.torus import least_wood
from geometry.measuring.estimate import Estimate, lit_twice, propagated
from geometry.measuring.halves import HalvesMeet, Taper, halves_meet
from geometry.measuring.wedge_angle import face_length
from jigs.measured.advice import NOTHING, Advice, Verdict, Words, estimated, listed, sentences
from jigs.measured.since import halves_joined
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan

TOPIC = "halves"
CHECKED, OFFERED = "glue_up.check-halves", "glue_up.true-halves"


def halves_advice(plan: TorusPlan) -> Iterator[Advice]:
    """First against the plate, each half by itself; then together; nothing once they are one."""
    if halves_joined(plan.job.readings):
        return
    for number in (1, 2):
        yield from _half(plan, number)
    yield from _together(plan)


def _lights(plan: TorusPlan, of: str, place: int) -> tuple[Estimate | None, Estimate | None]:
    """At the rim and at the hole, of half or joint 1 or 2."""

    def one(where: str) -> Estimate | None:
        read = plan.job.readings.each(f"{of}.light-at-{where}", "feeler")
        return read[place - 1] if len(read) >= place else None

    return one("rim"), one("hole")


def _signed(rim: Estimate | None, hole: Estimate | None) -> Estimate:
    """+ at the rim."""
    return (rim or Estimate(0.0, 0.0)).minus(hole or Estimate(0.0, 0.0))


def _half(plan: TorusPlan, number: int) -> Iterator[Advice]:
    rim, hole = _lights(plan, CHECKED, number)
    if rim is None and hole is None:
        return
    if lit_twice(rim, hole):
        yield _unclear(f"{TOPIC}.half-{number}", f"Half {number}")
        return
    words, blank = Words(plan.job.unit), plan.blank
    error = _error(plan, rim, hole)
    if abs(error.value) > blank.half_wedge:
        says: tuple[str, ...] = (
            f"Half {number} would be out by {words.angle(abs(error.value))}, over half a ring. Measure it again.",
        )
        yield Advice(f"{TOPIC}.half-{number}", TOPIC, "unclear", (), says)
        return
    trued = _trued(plan, error)
    left = wood_left(_wood(plan), trued)
    found = (
        *estimated("error", f"Half {number} spans more by", error, "angle"),
        Quantity("hole", "Comes off each end at the hole", trued.inner, "calliper"),
        Quantity("rim", "at the rim", trued.outer, "calliper"),
        Quantity("left", "Wood left round the form", left, "calliper"),
    )
    fits = error.value > -plan.errors.most_short
    verdict: Verdict = "short" if not fits else "correct" if error.sure else "right"
    says = sentences(
        f"Half {number} spans {words.angle(abs(error.value))} too {'little' if error.value < 0 else 'much'}, give or "
        f"take {words.angle(error.accuracy)}.",
        f"True it to the line: {words.comes_off(trued.inner)} comes off each end at the hole, "
        f"{words.comes_off(trued.outer)} at the rim; {words.fine(left)} of wood is left round the form."
        if fits
        else "Trued, it would not hold the form. Measure the light once more; if it is so, saw it open at a joint and "
        "put a thicker ring in.",
    )
    yield Advice(f"{TOPIC}.half-{number}", TOPIC, verdict, found, says)


def _error(plan: TorusPlan, rim: Estimate | None, hole: Estimate | None) -> Estimate:
    """Of a half's span; half of it at each end."""
    return propagated(lambda g: -2 * g / face_length(plan.blank), _signed(rim, hole))


def _trued(plan: TorusPlan, error: Estimate) -> Trued:
    return to_line(plan.blank, error.value, plan.job.form.half_sanding)


def _wood(plan: TorusPlan) -> float:
    return least_wood(plan.blank, plan.job.form.major_radius, plan.job.form.tube)


def _left(plan: TorusPlan, met: HalvesMeet) -> float:
    """Least wood left round the form once the joints close: each half moves by half of what the torus changes across,
    and its truing moved it nearer to the other before.
    """
    read = [_lights(plan, CHECKED, number) for number in (1, 2)]
    trued = [0.0 if lit_twice(*pair) else _trued(plan, _error(plan, *pair)).shift for pair in read]
    return _wood(plan) - max(abs(nearer - met.oval / 2) for nearer in trued)


def _together(plan: TorusPlan) -> Iterator[Advice]:
    lights = [_lights(plan, OFFERED, joint) for joint in (1, 2)]
    if all(light is None for pair in lights for light in pair):
        return
    if twice := [joint for joint, pair in enumerate(lights, 1) if lit_twice(*pair)]:
        yield _unclear(f"{TOPIC}.together", f"Joint {twice[0]}")
        return
    words = Words(plan.job.unit)
    first, second = (_signed(*pair) for pair in lights)
    open_ = plan.blank.half_wedge * face_length(plan.blank) / 2
    if far := [f"Joint {k}" for k, light in ((1, first), (2, second)) if abs(light.value) > open_]:
        says: tuple[str, ...] = (
            f"{listed(far)}: open by over a quarter of a ring's angle. Measure the light again.",
        )
        yield Advice(f"{TOPIC}.together", TOPIC, "unclear", (), says)
        return
    met = halves_meet(plan.blank, *(light.value if light.sure else 0.0 for light in (first, second)))
    left = _left(plan, met)
    found = (
        Quantity("joint-1", "Off each end at joint 1, at most", met.first.most, "calliper"),
        Quantity("joint-2", "at joint 2", met.second.most, "calliper"),
        Quantity("oval", "Across, square to the joint, larger by", met.oval, "calliper"),
        Quantity("left", "Wood left round the form", left, "calliper"),
    )
    if left < 0:
        says = (
            "Closed, they would not hold the form. Measure the light once more; if it is so, saw one open at a "
            "joint and put a thicker ring in.",
        )
        yield Advice(f"{TOPIC}.together", TOPIC, "short", found, says)
        return
    if not first.sure and not second.sure:
        says = ("Both joints close as well as you can measure: glue them.",)
        yield Advice(f"{TOPIC}.together", TOPIC, "right", found, says)
        return
    offs = [(number, off) for number, off in ((1, met.first), (2, met.second)) if off.most > NOTHING]
    says = (
        *(_at_joint(number, off, words) for number, off in offs),
        "Sand both joints before you offer the halves again: one alone opens the other."
        if len(offs) > 1
        else "That closes both joints.",
        f"The torus is then {words.fine(abs(met.oval))} {'smaller' if met.oval < 0 else 'larger'} across, square to "
        "that joint, than along it; turning takes it off.",
    )
    yield Advice(f"{TOPIC}.together", TOPIC, "correct", found, says)


def _unclear(id: str, what: str) -> Advice:
    says = (
        f"{what}: light at the rim and at the hole. A face is not flat, or dust lies in between; nothing is corrected.",
        "Brush the faces, look at each with the straight edge, and read the light again.",
    )
    return Advice(id, TOPIC, "unclear", (), says)


def _at_joint(number: int, off: Taper, words: Words) -> str:
    at, to = ("hole", "rim") if off.hole > off.rim else ("rim", "hole")
    return f"Joint {number}: sand {words.fine(off.most)} off both ends at the {at}, tapering to nothing at the {to}."
