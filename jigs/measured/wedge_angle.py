"""The wedge rings' included angle, from the check corner: what the sled's wedge has to be."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan, degrees, radians
from typing import TYPE_CHECKING

from geometry.blanks.sawing import WedgeRingCut, included_angle_error
from geometry.blanks.truing import half_error, to_line, wood_left
from geometry.bodies.torus import Blank, least_wood, rings_in_check
from geometry.measuring import wedge_angle
from geometry.measuring.estimate import Estimate, agree, lit_twice
from geometry.records import Record
from jigs.asked.readings.readings import Readings
from jigs.measured.advice import LEAST_LEAF, Advice, Verdict, Words, estimated, sentences
from jigs.measured.planned import paper_length
from jigs.measured.since import rings_glued
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.asked.job import TorusJob
    from jigs.plans.torus import TorusPlan

TOPIC = "wedge-angle"
TRIAL, GOOD = "wedge_rings.trial", "wedge_rings.second"
MOST = radians(1.0)  # a wedge that is out by more lies wrong, or is another's
PAPER = 0.1  # mm: a sheet of writing paper, for the ratio
LETTERED = 1000  # parts of a degree to which a wedge is lettered


class WedgeFound(Record):
    """What the rings in the check corner say. Angles in radians."""

    of: str  # the operation that the readings belong to
    rings: int
    at_rim: Estimate | None
    at_hole: Estimate | None
    error: Estimate  # of all of them together, + where they span too much
    by_chord: Estimate | None
    misread: bool  # no rings with these thick edges have such a chord
    used: float  # angle of the wedge that they were cut on, with the paper under it
    lettered: float  # without it

    @property
    def lit_twice(self) -> bool:
        """Light at both ends of one face: it is not flat, or something lies between."""
        return lit_twice(self.at_rim, self.at_hole)

    @property
    def clear(self) -> bool:
        """Whether the readings agree among themselves."""
        agreed = self.by_chord is None or agree(self.error, self.by_chord)
        return agreed and not self.lit_twice and not self.misread

    @property
    def papered(self) -> bool:
        """Whether paper lies under their wedge."""
        return self.used != self.lettered

    @property
    def turn(self) -> float:
        """By how much each ring's angle has to grow: nothing that the readings are not sure of."""
        return -self.error.value / self.rings if self.error.sure else 0.0

    @property
    def right(self) -> float:
        """The wedge's angle that cuts rings as planned, as it can be lettered."""
        return radians(round(degrees(self.used + self.turn) * LETTERED) / LETTERED)


def wedge_found(job: TorusJob, blank: Blank, cut: WedgeRingCut) -> WedgeFound | None:
    """From the good rings where they were read, else from the trial's."""
    readings = job.readings
    for of in (GOOD, TRIAL):
        rim, hole = (readings.length(f"{of}.gap-at-{where}", "feeler") for where in ("rim", "hole"))
        if rim is not None or hole is not None:
            length = paper_length(job, cut, blank)
            by_chord, misread = _by_chord(readings, of, blank)
            named, paper = readings.angle(f"{of}.wedge-angle", "eye"), readings.length(f"{of}.paper")
            lettered = named.value if named else blank.half_wedge
            return WedgeFound(
                of=of,
                rings=rings_in_check(blank.wedge_rings),
                at_rim=rim,
                at_hole=hole,
                error=wedge_angle.error_from_gap(blank, rim, hole),
                by_chord=by_chord,
                misread=misread,
                used=lettered + (atan(paper.value / length) if paper else 0.0),
                lettered=lettered,
            )
    return None


def wedge_turn(job: TorusJob, blank: Blank, cut: WedgeRingCut) -> float:
    """By how much the sled's wedge is made larger than pi/N; nothing where the readings do not say so clearly."""
    found = wedge_found(job, blank, cut)
    if found is None or not found.clear:
        return 0.0
    turn = found.right - blank.half_wedge
    return turn if abs(turn) <= MOST else 0.0


def _by_chord(readings: Readings, of: str, blank: Blank) -> tuple[Estimate | None, bool]:
    """The second way where both are read, and whether they cannot be right."""
    chord, thick = readings.length(f"{of}.chord"), readings.length(f"{of}.thick-edge")
    if chord is None or thick is None:
        return None, False
    try:
        return wedge_angle.error_from_chord(blank, rings_in_check(blank.wedge_rings), chord, thick), False
    except ValueError:
        return None, True


def wedge_advice(plan: TorusPlan) -> Iterator[Advice]:
    """What to do to the wedge, and what the rings that are cut already are good for."""
    found, words = wedge_found(plan.job, plan.blank, plan.ring_cut), Words(plan.job.unit)
    if found is None:
        yield from _no_light(plan.job.readings)
        return
    read = estimated("error", f"{found.rings} rings span more than planned by", found.error, "angle")
    if not found.clear:
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", read, _unclear(found, words))
        return
    if abs(found.right - plan.blank.half_wedge) > MOST:
        says = (
            f"The wedge would have to be {words.angle(found.right)}: more than 1° from its plan.",
            "Look whether the wedge lies the right way round and is this job's; then measure again.",
        )
        yield Advice(f"{TOPIC}.too-much", TOPIC, "unclear", read, says)
        return
    verdict: Verdict = "correct" if found.error.sure and not _too_fine(plan, found) else "right"
    yield Advice(
        f"{TOPIC}.wedge", TOPIC, verdict, (*read, *_of_wedge(plan, found)), _wedge(plan, found, words)
    )
    if found.of == GOOD and found.error.sure and not rings_glued(plan.job.readings):
        yield _cut_already(plan, found, words)


def _no_light(readings: Readings) -> Iterator[Advice]:
    """The chord is the second way: it proves the light, and is not so sure that it could stand for it."""
    for of in (GOOD, TRIAL):
        if f"{of}.chord" in readings:
            says = (
                f"The chord under [{of}] is not used alone: it only proves the light.",
                "Read the light at the rim or at the hole of the last face too; write 0 where there is none.",
            )
            yield Advice(f"{TOPIC}.no-light", TOPIC, "unclear", (), says)
            return


def _of_wedge(plan: TorusPlan, found: WedgeFound) -> tuple[Quantity, ...]:
    shim = _shim(plan, found)
    return (
        Quantity("turn", "Second cut's angle, change", found.turn, "angle"),
        Quantity("wedge-angle", "Sled's wedge", found.right, "angle"),
        Quantity("shim.thick-end", "Under the wedge's thick end", shim.thick_end, "calliper"),
        Quantity("shim.thin-end", "or under its thin end", shim.thin_end, "calliper"),
        Quantity("shim.stop", "with so much planed off the stop", shim.stop, "calliper"),
        Quantity(
            "remains", "At the rim of the last joint there may remain", _remains(plan, found), "calliper"
        ),
    )


def _shim(plan: TorusPlan, found: WedgeFound) -> wedge_angle.WedgeShim:
    return wedge_angle.wedge_shim(plan.blank, paper_length(plan.job, plan.ring_cut, plan.blank), found.turn)


def _too_fine(plan: TorusPlan, found: WedgeFound) -> bool:
    """Whether no paper is so thin: it would turn the wedge as far past as it is short."""
    return abs(_shim(plan, found).thick_end) < LEAST_LEAF / 2


def _remains(plan: TorusPlan, found: WedgeFound) -> float:
    left = abs(found.turn) if _too_fine(plan, found) else 0.0
    return included_angle_error(plan.blank, left + found.error.accuracy / found.rings)


def _unclear(found: WedgeFound, words: Words) -> tuple[str, ...]:
    if found.lit_twice:
        return (
            "Light at both ends of the last face: it is not flat, or dust or a bit of waste lies in the corner.",
            "Brush the faces, push the rings home again, and read the light at its widest end.",
        )
    if found.by_chord is None:
        return (
            "No rings with these thick edges have such a chord: one of the two is misread. Read both again.",
        )
    by_chord = found.by_chord
    return (
        f"The light says {words.angle_within(found.error)}; chord and thick edges say {words.angle_within(by_chord)}.",
        "The two do not agree, so nothing is corrected. Read both again; look whether the edges are whole.",
    )


def _wedge(plan: TorusPlan, found: WedgeFound, words: Words) -> tuple[str, ...]:
    remains = f"the last joint may open by up to {words.fine(_remains(plan, found))} at the rim."
    used = (
        f"That is so if these rings were cut on a wedge of {degrees(found.used):.3f}°, its paper counted. If not, "
        "write the wedge and its paper under wedge-angle and paper, and ask again."
    )
    lies = plan.job.readings.length(f"{found.of}.paper")
    if not found.error.sure:
        out = f"{found.rings} rings are out by {words.angle_within(found.error.size)}: no more than you can measure."
        if not found.papered:
            return (out, f"Leave the wedge as it is; {remains}", used)
        return (
            out,
            f"Leave the wedge and the paper under it as they are; {remains}",
            f"A new wedge of {degrees(found.right):.3f}°, no paper under it, does the same: make draws it so.",
            used,
        )
    size = f"each is {words.angle(abs(found.turn))} too {_size(found.error)}"
    new = f"a new wedge of {degrees(found.right):.3f}°, no paper under it: make draws it so."
    if _too_fine(plan, found):
        papered = " with its paper" if found.papered else ""
        return (
            f"{found.rings} rings are out by {words.angle_within(found.error.size)}: {size}.",
            f"Leave the wedge{papered} as it is: the thinnest paper, {words.fine(LEAST_LEAF)}, sets it no better; "
            f"{remains}",
            f"Closer than that is only {new}",
            used,
        )
    length, shim = paper_length(plan.job, plan.ring_cut, plan.blank), _shim(plan, found)
    per_paper = wedge_angle.face_length(plan.blank) * found.rings / length * PAPER
    return sentences(
        f"{found.rings} rings span {words.angle(abs(found.error.value))} too {_much(found.error)}, give or take "
        f"{words.angle(found.error.accuracy)}: {size}.",
        *_what_to_do(shim.thick_end, shim.thin_end, shim.stop, lies.value if lies else 0.0, words),
        f"{words.fine(PAPER)} at the thick end changes the light by {words.fine(per_paper)}.",
        f"Or make {new}",
        "Do the same to the end wedge." if plan.job.form.half_sanding else "",
        f"After it {remains}",
        used,
    )


def _much(error: Estimate) -> str:
    return "little" if error.value < 0 else "much"


def _size(error: Estimate) -> str:
    return "small" if error.value < 0 else "large"


def _what_to_do(thick_end: float, thin_end: float, stop: float, lies: float, words: Words) -> tuple[str, ...]:
    """`lies` is the paper under the thick end already, mm."""
    if thick_end > 0:
        more = " more" if lies else ""
        return (f"Light at the rim: put {words.fine(thick_end)}{more} of paper under the wedge's thick end.",)
    if lies and -thick_end - lies < words.least:
        return (
            f"Light at the hole: take {words.fine(-thick_end)} of the paper out from under the thick end.",
        )
    first = "take the paper out, then " if lies else ""
    return (
        f"Light at the hole: {first}plane {words.fine(-thick_end - lies)} off the wedge's thick end, nothing at its "
        "thin end.",
        f"Or put {words.fine(thin_end)} of paper under its thin end, and plane {words.fine(stop)} off the stop's "
        "edges: the paper pushes the ring towards the blade.",
    )


def _cut_already(plan: TorusPlan, found: WedgeFound, words: Words) -> Advice:
    """Rings that are cut: as they are, if truing the halves makes that good; else each face sanded to a taper."""
    blank, form = plan.blank, plan.job.form
    half = half_error(blank, found.error.value / found.rings)
    trued = to_line(blank, half, form.half_sanding)
    left = wood_left(least_wood(blank, form.major_radius, form.tube), trued)
    taper = wedge_angle.face_taper(blank, found.turn)
    where, off = ("hole", taper.at_hole) if taper.at_hole else ("rim", taper.at_rim)
    sanded = (
        f"{words.fine(off)} at the {where}'s edge, tapering to nothing at the other. Their middles then lie "
        f"{words.fine(taper.centre)} from the axis, planned {words.fine(blank.centre)}."
    )
    says = (
        (
            f"Rings cut already serve as they are: true both halves to the line. {words.comes_off(trued.inner)} comes "
            f"off at the hole, {words.comes_off(trued.outer)} at the rim; {words.fine(left)} of wood is left round the "
            "form.",
            *([f"Or sand both faces of each of them: {sanded}"] if off >= words.least else []),
        )
        if half > -plan.errors.most_short
        else (
            "Rings cut already do not close as they are: halves of them are shorter than the form allows.",
            f"Sand both faces of each of them: {sanded}",
        )
    )
    return Advice(
        f"{TOPIC}.cut-already",
        TOPIC,
        "correct",
        (
            Quantity("half-error", "A half of them spans more by", half, "angle"),
            Quantity("left", "Wood left round the form, halves trued", left, "calliper"),
            Quantity("taper.hole", "or off each face at the hole", taper.at_hole, "calliper"),
            Quantity("taper.rim", "at the rim", taper.at_rim, "calliper"),
            Quantity("centre", "Middle of the rings from the axis then", taper.centre, "calliper"),
        ),
        says,
    )
