"""The first board's section, and the braces: straps, blocks and pads.

The section lies in a plane through the axis, as those of channel and retainer do. Straps, blocks and pads are
seen from the front: the tube's centre is the origin, x runs outward along the brace, the axis is at -R.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import asin, cos, pi, sin, sqrt

from geometry.plane.contour import Contour, circle
from geometry.plane.contour import outline as contour
from geometry.plane.edges import bulge_about
from geometry.strokes.lettering import text_width
from jigs.parts.part import Dimension, Lettering, Line, Part, Point
from jigs.parts.places import LINE_PITCH, block_height, block_width, raised_height, raised_rise, raised_width
from jigs.parts.plate import Plate
from jigs.parts.probes import EdgeGap, EdgeLength, Extent, HoleDiameter, Thickness
from jigs.parts.turned import section
from jigs.plans.torus import TorusPlan

EAR_MARGIN = 3.0  # round the lettering of a pad's ear
EAR_GAP = 2.0
TICK = 4.0
BOARD = "board, as measured"


def mountings(plan: TorusPlan) -> list[Part]:
    """The first board's section and what a brace is made of."""
    blocks = [brace_block(plan)] if plan.mountings.brace.layers else []
    return [first_board_section(plan), brace_strap(plan), *blocks, brace_pad(plan)]


def first_board_section(plan: TorusPlan) -> Part:
    """Section, right of the axis, of the board that the blank is glued to, with its low spigot."""
    held, first = plan.holding, plan.mountings.first
    bore, rim, face = held.bolt_hole / 2, held.board_diameter / 2, -first.centre_height
    back, top = face - first.face_height, face + first.spigot_height
    spigot = first.spigot_radius
    across, scribed, centre = (
        plan.job.show(mm, exact=True) for mm in (2 * spigot, 2 * first.scribed, first.centre_height)
    )
    return section(
        plan,
        "first-board-section",
        "first support board (mounting A): turn its spigot to this section",
        (held.board_layers, held.layer_thickness),
        contour((bore, back), (rim, back), (rim, face), (spigot, face), (spigot, top), (bore, top)),
        ("FIRST BOARD", f"SPIGOT Ø {across}", f"SCRIBED Ø {scribed}", f"TUBE CENTRE {centre} OVER THE FACE"),
        (
            Dimension("board height", held.board_thickness, Extent("y")),
            Dimension("spigot height", first.spigot_height, EdgeGap((rim - 2, face), (bore + 2, top))),
            Dimension("spigot from the bore", spigot - bore, EdgeLength(((bore + spigot) / 2, top))),
            Dimension("board face", rim - spigot, EdgeLength(((rim + spigot) / 2, face))),
        ),
        lines=(Line(((first.scribed, face), (first.scribed, face - TICK)), "scribed circle"),),
    )


def _axis(plan: TorusPlan) -> Point:
    return (-plan.mountings.brace.tip, 0.0)


def _on(plan: TorusPlan, radius: float, y: float) -> Point:
    """The point of a circle about the axis at this distance beside the brace's middle line."""
    return (sqrt(radius**2 - y**2) - plan.mountings.brace.tip, y)


def _bolt(plan: TorusPlan) -> Contour:
    brace = plan.mountings.brace
    return circle((brace.bolt_radius - brace.tip, 0.0), brace.hole / 2).cw()


def _bolt_size(plan: TorusPlan) -> Dimension:
    brace = plan.mountings.brace
    return Dimension("bolt hole", brace.hole, HoleDiameter((brace.bolt_radius - brace.tip, 0.0)))


def _bolted(plan: TorusPlan, inner: float) -> Plate:
    """A bar with straight sides from x = `inner` to the heel, which is an arc about the axis, and its bolt's hole."""
    brace = plan.mountings.brace
    half = brace.width / 2
    low, high = _on(plan, brace.outer, -half), _on(plan, brace.outer, half)
    heel = bulge_about(_axis(plan), low, high, ccw=True)
    plate = Plate(plan, contour((inner, -half), (*low, heel), high, (inner, half)))
    plate.hole((brace.bolt_radius - brace.tip, 0.0), brace.hole, "bolt hole")
    return plate


def brace_strap(plan: TorusPlan) -> Part:
    """Finger over the outer half of the waste flat, heel on the block, bolt between them."""
    brace = plan.mountings.brace
    plate, heel, half = _bolted(plan, 0.0), brace.block_inner - brace.tip, brace.width / 2
    plate.marks.append(Line(((heel, -half + 2), (heel, half - 2)), "the block's inner end", witness=True))
    plate.letter("BRACE", "AXIS ←", near=(0.0, 0.0))
    plate.edge("finger", brace.width, (0.0, 0.0))
    return plate.part(
        "brace-strap",
        "holds the rim by the waste flat while the hole side is turned (mounting C)",
        making=("Its marked line is the inner end of its block.",),
        quantity=plan.holding.braces,
        thickness=brace.thickness,
        material=BOARD,
    )


def brace_block(plan: TorusPlan) -> Part:
    """One layer of the block under a brace's heel."""
    brace = plan.mountings.brace
    plate = _bolted(plan, brace.block_inner - brace.tip)
    plate.letter(near=(0.0, 99.0))
    plate.letter("BLOCK", near=(0.0, -99.0), titled=False)
    return plate.part(
        "brace-block-layer",
        "one layer of the block under a brace",
        quantity=brace.layers * plan.holding.braces,
        stack=brace.layers,
        thickness=brace.thickness,
        material=BOARD,
    )


def brace_pad(plan: TorusPlan) -> Part:
    """Printed to the rest of the height; its lettered end stands beside the strap, which lies flat on it."""
    brace, printer = plan.mountings.brace, plan.job.workshop.printer
    outline, marks = _pad(plan)
    _, low, _, high = outline.bounds
    return Part(
        name="brace-pad",
        purpose="brings a brace's block just under the height of the waste flat",
        process="print",
        material="PLA or PETG, flat on the bed, solid, no supports",
        outline=outline,
        thickness=brace.pad,
        holes=(_bolt(plan),),
        marks=marks,
        dimensions=(
            _bolt_size(plan),
            Dimension("thickness", brace.pad, Thickness()),
            Dimension("length", high - low, Extent("y")),
        ),
        bearing=tuple(edge.midpoint for edge in outline.edges() if edge.is_arc),
        quantity=plan.holding.braces,
        mark_width=raised_width(printer),
        mark_height=raised_rise(printer),
    )


def _sector(plan: TorusPlan, ear: float) -> Contour:
    """Between two circles about the axis; below its middle line as wide as the strap, above it longer by `ear`."""
    brace = plan.mountings.brace
    low = -asin(brace.width / 2 / brace.block_inner)
    high = -low + ear / brace.block_inner

    def at(radius: float, angle: float) -> Point:
        return (radius * cos(angle) - brace.tip, radius * sin(angle))

    a, b = at(brace.outer, low), at(brace.outer, high)
    c, d = at(brace.block_inner, high), at(brace.block_inner, low)
    return contour(
        (*a, bulge_about(_axis(plan), a, b, ccw=True)), b, (*c, bulge_about(_axis(plan), c, d, ccw=False)), d
    )


def _pad(plan: TorusPlan) -> tuple[Contour, tuple[Lettering, ...]]:
    """The pad with an ear as long as its lettering; shorter lettering, or none, where its neighbours stand close."""
    brace, height = plan.mountings.brace, raised_height(plan.job.workshop.printer)
    free = 2 * pi / plan.holding.braces * brace.block_inner - brace.width * 1.1 - EAR_GAP
    short = ("PAD", plan.job.show(brace.pad, exact=True))
    deep = brace.outer - brace.block_inner
    for lines in ((plan.job.title.upper(), *short), short):
        ear = block_width(lines, height) + 2 * EAR_MARGIN
        if ear <= free and block_height(lines, height) + 2 * EAR_MARGIN <= deep:
            end = asin(brace.width / 2 / brace.block_inner) + (ear - EAR_MARGIN) / brace.block_inner
            return _sector(plan, ear), _curved(plan, lines, height, end)
    return _sector(plan, 0.0), ()


def _curved(plan: TorusPlan, lines: Sequence[str], height: float, start: float) -> tuple[Lettering, ...]:
    """Lines along circles about the axis, each from the angle `start` back to the strap, tops outward."""
    top = plan.mountings.brace.outer - EAR_MARGIN
    return tuple(
        letter
        for i, line in enumerate(lines)
        for letter in _along_circle(line, _axis(plan), top - height * (1 + LINE_PITCH * i), start, height)
    )


def _along_circle(
    text: str, centre: Point, radius: float, start: float, height: float
) -> Iterator[Lettering]:
    """One letter after the other, clockwise, each square to its radius."""
    for i, letter in enumerate(text):
        angle = start - text_width(text[: i + 1], height) / radius + text_width(letter, height) / radius
        origin = (centre[0] + radius * cos(angle), centre[1] + radius * sin(angle))
        if letter != " ":
            yield Lettering(letter, origin, height, angle - pi / 2)
