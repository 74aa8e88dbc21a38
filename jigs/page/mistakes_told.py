"""What mistakes come to, which check of the work finds each, and how small it has to be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import cos, degrees, pi

from geometry.blanks.out_of_true import halves_nearer, moved_out, open_joint, skewed_step
from geometry.blanks.sawing import included_angle_error
from geometry.blanks.truing import largest_error
from geometry.bodies.torus import least_wood
from geometry.measuring.estimate import Estimate
from geometry.measuring.segment_angle import DryRing, tilt_from_ring
from jigs.figures.figure import Figure
from jigs.figures.svg import figure_svg
from jigs.looks.misplaced import wrong_ring
from jigs.measured.segment_angle import LEAST_LEAF
from jigs.page.contract import Mistake
from jigs.page.mistakes_drawn import open_halves, open_ring, open_torus, stepped
from jigs.plans.plan import Shape, by_form
from jigs.plans.shape import TorusShape, VesselShape
from jigs.words.lengths import show_length
from jigs.words.quantity import count_text

Sizes = Mapping[str, float]
IN_WINDOW = "a dry ring of scrap in a band, held to a window: light at the joints"
IN_CORNER = "rings of scrap in the check corner: light along an arm"
DRY = "a rule along the flats, all rings dry in their band: a step at each joint"


def told(shape: Shape, sizes: Sizes) -> Iterator[Mistake]:
    """Of those that are not nothing. Sizes are mm, radians, or whole segments."""
    yield from by_form(shape, torus=lambda own: _torus(own, sizes), vessel=lambda own: _vessel(own, sizes))
    if sizes["layup_off"]:
        off = show_length(sizes["layup_off"], shape.job.unit)
        slip = show_length(2 * sizes["layup_off"], shape.job.unit)
        yield _one(
            "layup_off",
            f"The layup's seams lie {off} off the middle: lines miss one another by {slip} at each joint.",
            "pieces laid mirrored, before they are glued: plies do not meet",
            "layup.blocks",
            "As small as the eye asks for: nothing else depends on it.",
        )


def _torus(shape: TorusShape, sizes: Sizes) -> Iterator[Mistake]:
    blank, form, unit = shape.blank, shape.job.form, shape.job.unit
    wood = least_wood(blank, form.major_radius, form.tube)

    def show(mm: float) -> str:
        return show_length(mm, unit)

    fits = f"Steps of {show(wood)} take all the wood round the finished form."
    if sizes["mitre"]:
        ring = DryRing(blank.segments, blank.apothem - blank.core_apothem)
        yield _mitre(shape, sizes["mitre"], ring, blank.apothem, blank.core_apothem, "segments.trial")
    if sizes["wedge"]:
        gap = included_angle_error(blank, sizes["wedge"])
        most = 2 * largest_error(blank, wood, form.half_sanding) / blank.wedge_rings
        yield _one(
            "wedge",
            f"Each wedge ring spans {_angle(sizes['wedge'])} too little: the last joint stays open by {show(gap)} at "
            "the rim. Too much by as much: it closes at the rim first and stays open in the hole.",
            IN_CORNER,
            "wedge_rings.trial",
            f"Up to {_angle(most)} sanding the two halves into one plane closes the joint and still leaves the whole "
            "form.",
            open_torus(blank, sizes["wedge"], show(gap)),
        )
    if sizes["first_cut"]:
        step = skewed_step(blank, sizes["first_cut"])
        yield _one(
            "first_cut",
            f"The first cut is {_angle(sizes['first_cut'])} out: each ring is skewed, and stands {show(step)} out "
            "from the next. The torus still closes.",
            DRY,
            "glue_up.dry",
            f"Under {_angle(wood / blank.thick_edge)}. {fits}",
            stepped(blank, step, show(step), "Wedge rings from above: the first cut is out"),
        )
    if sizes["lean"]:
        step = skewed_step(blank, sizes["lean"])
        yield _one(
            "lean",
            f"The blade leans by {_angle(sizes['lean'])}: each ring stands {show(step)} above or below the next. "
            "The torus still closes.",
            "scrap cut through, one half turned over and pushed against the other: light at the top or bottom",
            "wedge_rings.set",
            f"Under {_angle(wood / blank.thick_edge)}. {fits}",
            stepped(blank, step, show(step), "Wedge rings from the rim: the blade leans"),
        )
    if sizes["half_end"]:
        yield _half_end(shape, sizes["half_end"], wood)
    if sizes["ring_size"]:
        most = wood / moved_out(blank, 1.0)
        yield _one(
            "ring_size",
            f"Rings are up to {show(sizes['ring_size'])} too thick or too thin at the rim: their middles lie up to "
            f"{show(moved_out(blank, sizes['ring_size']))} farther out or in.",
            "calliper over the thick edge of every third ring",
            "wedge_rings.second",
            f"Under {show(most)}. {fits}",
        )
    k = wrong_ring(blank.wedge_rings)
    alike = not shape.layups and len(set(shape.species[k])) == 1
    number, shows = k + 1, " It is of one wood, so this does not show." if alike else ""
    if sizes["ring_turned"]:
        turned = count_text(int(sizes["ring_turned"]), "segment")
        yield _one(
            "ring_turned",
            f"Ring {number} stood on a wrong flat when it was sawn: its woods are turned by {turned}.{shows}",
            "labels: the tick on segment 1 of each ring, straight down",
            "labels.stick",
            "Not at all: once sawn, the ring fits no other way round.",
        )
    if sizes["ring_flipped"]:
        yield _one(
            "ring_flipped",
            f"Ring {number} is put in upside down: its woods are the mirror image of their neighbours'.{shows}",
            "rings set up in a row by their labels: face 2 of each looks at face 1 of the next",
            "labels.stick",
            "Not at all: turn the ring over before the glue is spread.",
        )
    if sizes["off_centre"]:
        yield _one(
            "off_centre",
            f"The blank was mounted {show(sizes['off_centre'])} off centre.",
            "every outer corner on the scribed circle",
            "first_mounting.glue",
            f"Under {show(wood)}: that much wood lies round the finished form.",
        )


def _vessel(shape: VesselShape, sizes: Sizes) -> Iterator[Mistake]:
    unit, allowance = shape.job.unit, shape.stack.allowance
    rings = [one.ring for one in shape.stack.layers if one.ring.segments]

    def show(mm: float) -> str:
        return show_length(mm, unit)

    if sizes["mitre"] and rings:
        widest = max(rings, key=lambda one: one.outer)
        ring = DryRing(widest.segments, widest.outer - widest.core)
        yield _mitre(shape, sizes["mitre"], ring, widest.outer, widest.core, "flat-segments.trial")
    if sizes["ring_size"]:
        yield _one(
            "ring_size",
            f"Rings are up to {show(sizes['ring_size'])} too thick or too thin.",
            "calliper over the height of each ring at four places",
            "flattening.faces",
            f"All rings below one together under {show(allowance)}, the turning allowance.",
        )
    if sizes["ring_turned"]:
        number, widest_at = (
            len(shape.stack.layers) // 2 + 1,
            shape.section.outer.radii(0.0, shape.section.height)[1],
        )
        yield _one(
            "ring_turned",
            f"Ring {number} is turned {degrees(sizes['ring_turned']):.1f}° too far: where the vessel is widest that "
            f"is {show(widest_at * sizes['ring_turned'])}.",
            "the tick on its label, over the segment that the glue step names",
            "stack.rings",
            "As small as the eye asks for: the stack holds and turns as well.",
        )
    if sizes["off_centre"]:
        yield _one(
            "off_centre",
            f"The blank was mounted {show(sizes['off_centre'])} off centre.",
            "a pencil on the rest: some corners of ring 1 come nearer to it than others",
            "waste_block.ring-1",
            f"Under {show(allowance)}, the turning allowance.",
        )


def _mitre(shape: Shape, error: float, ring: DryRing, outer: float, core: float, step: str) -> Mistake:
    unit, n = shape.job.unit, ring.segments
    gap = show_length(open_joint(outer / cos(pi / n), 2 * n, error), unit)
    trued = "" if n % 2 else " Sanding both ends of a half ring true takes more out."
    most = abs(tilt_from_ring(ring, Estimate(LEAST_LEAF, 0.0), None).value)
    return _one(
        "mitre",
        f"Each segment end is {_angle(error)} too square: the last joint of a ring of {n} stays open by {gap} at the "
        "outside. Too steep by as much: it is open at the core.",
        IN_WINDOW,
        step,
        f"Under {degrees(most):.3f}°, all joints together show less light than the thinnest feeler leaf, "
        f"{show_length(LEAST_LEAF, unit)}.{trued}",
        open_ring(n, outer, core, error, gap),
    )


def _half_end(shape: TorusShape, short: float, wood: float) -> Mistake:
    unit, spare = shape.job.unit, shape.job.form.half_sanding
    nearer = halves_nearer(shape.blank, short, spare)
    comes = f"The end wedge is {show_length(short, unit)} too thick: the ends of both halves are short by as much. "
    comes += (
        f"Each joint between the halves stays open by {show_length(2 * nearer, unit)}; closed, the torus is as much "
        "narrower there."
        if nearer
        else f"Less is sanded off them: {show_length(spare, unit)} was left for that."
    )
    return _one(
        "half_end",
        comes,
        "calliper over the thick edge of the four end rings",
        "wedge_rings.ends",
        f"Under {show_length(spare + wood, unit)}; up to {show_length(spare, unit)} it costs nothing.",
        open_halves(shape.blank, nearer, show_length(2 * nearer, unit)) if nearer else None,
    )


def _angle(error: float) -> str:
    return f"{degrees(error):.2f}°"


def _one(id: str, comes_to: str, found: str, step: str, small: str, figure: Figure | None = None) -> Mistake:
    drawn = figure_svg(figure) if figure else ""
    return Mistake(id, comes_to, f"Found by {found}.", step, small, drawn, figure.alt if figure else "")
