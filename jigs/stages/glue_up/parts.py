"""Clamping blocks, and what trues quarters and halves: carrier, sanding board on its base, wedge for end rings.

The blocks give clamps faces parallel to a joint; they are sawn off after the glue-up.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, cos, degrees, floor, tan

from geometry.hardware.sled_sizes import GUSSET_DEPTH, GUSSET_TAB, TAB
from geometry.plane.contour import Contour, polygon, rectangle
from geometry.readback.free_edge import FreeEdge
from geometry.records import replace
from jigs.parts.part import Line, Part
from jigs.parts.places import lettered
from jigs.parts.plate import Plate, middle, straight_edge, with_tabs
from jigs.parts.sleds.uprights import HIGHER, gusset, stop_cheek
from jigs.parts.sleds.wedge import sled_wedge
from jigs.plans.torus import TorusPlan
from jigs.stages.glue_up.layout import FRONT, INSET, Cheek, ClampBlocks, TruingLayout

TICK = 2.0  # length of a mark at either end of the pull line
SAW_ABOVE = 2.0  # the line above a rim block's foot along which it is sawn off


def clamping(plan: TorusPlan) -> list[Part]:
    """Blocks for the flats above and below and, where the ring has a flat there, for the rim."""
    blocks = plan.clamping
    if not blocks.made:
        return []
    rim = [] if plan.blank.arris_out else [_rim_block(plan, blocks)]
    return [_flat_block(plan, blocks), *rim]


def _joints(plan: TorusPlan) -> int:
    """Joints at quarters and halves."""
    return 4 if plan.truing.quarter else 2


def _flat_block(plan: TorusPlan, blocks: ClampBlocks) -> Part:
    """Lies on a flat. x runs along the joint from the torus axis, y square to it, both less an even shift."""
    shift = blocks.flat_corners[3][0]
    a, b, c, d = ((x - shift, y) for x, y in blocks.flat_corners)
    plate, pull = Plate(plan, polygon([a, b, c, d])), blocks.pull_radius - shift
    for y in (blocks.set_back + 0.5, blocks.flat_far - TICK - 0.5):
        plate.marks.append(Line(((pull, y), (pull, y + TICK)), "pull line"))
    _letter_joint(plate)
    layers = ceil(blocks.height / plan.job.workshop.boards.sheet)
    near, far, side = middle(a, b), middle(c, d), middle(b, c)
    plate.angle("side to clamp face", 90 + degrees(plan.blank.half_wedge), side, far)
    plate.gap("joint edge to clamp face", blocks.deep, near, far, "differ")
    return plate.part(
        "clamp-block-flat",
        "gives clamps parallel faces on the flats above and below each joint of quarters and halves",
        quantity=4 * _joints(plan) * layers,
        stack=layers,
        free=(FreeEdge(far, 5.0, 0.4), FreeEdge(side, 3.0, 0.4), FreeEdge(middle(a, d), 3.0, 0.4)),
    )


def _letter_joint(plate: Plate) -> None:
    """Which edge lies along the joint: in words, by an arrow, or, on the smallest blocks, by its line alone."""
    plate.letter("JOINT ↓", titled=False, instead=(("↓",),))


def _rim_block(plan: TorusPlan, blocks: ClampBlocks) -> Part:
    """Stands on the rim's flat; drawn in the joint's frame, moved so that its foot ends at the origin."""
    x0, y0 = blocks.rim_corners[0]
    shape = [(x - x0, y - y0) for x, y in blocks.rim_corners]
    w = plan.blank.half_wedge
    lift = SAW_ABOVE / cos(w)
    plate = Plate(plan, polygon(shape).ccw())
    saw = tuple((lift - y * tan(w), y) for y in (-0.5, shape[1][1] + 0.5))
    plate.marks.append(Line(saw, "saw here"))
    _letter_joint(plate)
    foot, face = middle(shape[0], shape[1]), (blocks.height / 2, 0.0)
    plate.angle("foot to clamp face", degrees(blocks.face_angle), foot, face)
    plate.edge("clamp face", blocks.height, face)
    layers = max(1, floor((plan.blank.flat_width - 2 * INSET) / plan.job.workshop.boards.sheet))
    return plate.part(
        "clamp-block-rim",
        "gives a clamp parallel faces on the rim at each joint of quarters and halves",
        quantity=2 * _joints(plan) * layers,
        stack=layers,
    )


BAR_WIDTH = 40.0
BOLT = "M6"  # passes through a small hole too


def truing(plan: TorusPlan) -> list[Part]:
    """All parts; the sanding board stands on its base, the carrier slides on the base too."""
    layout = plan.truing
    uprights = [_board(plan, layout), *_gussets(plan), *_cheeks(plan, layout)]
    return [
        _carrier(plan, layout),
        _base(plan, layout),
        *uprights,
        _bar(plan, layout),
        half_check(plan),
        *_wedge(plan),
    ]


def _cheek_slot(plan: TorusPlan, layout: TruingLayout, cheek: Cheek) -> Contour:
    """As on the sled, the working edge is true when the cheek is pressed away from the ring."""
    t, play = layout.sheet, layout.play
    start = layout.blank.outer_radius + plan.sled.cheek_tab
    radial, across = (
        (start - play, start + TAB),
        (cheek.offset - t / 2 - play / 2, cheek.offset + t / 2 + play / 2),
    )
    corners = ((radial[0], across[0]), (radial[1], across[0]), (radial[1], across[1]), (radial[0], across[1]))
    return polygon([layout.place(cheek, *corner) for corner in corners])


def _carrier_outline(layout: TruingLayout) -> Contour:
    """Feet to the left and to the right of the abrasive, as far out as the abrasive is thick."""
    wide, foot, out = layout.half_width, layout.foot_start, -layout.abrasive
    return polygon(
        [
            (-wide, out),
            (-foot, out),
            (-foot, FRONT),
            (foot, FRONT),
            (foot, out),
            (wide, out),
            (wide, layout.depth),
            (-wide, layout.depth),
        ]
    )


def _carrier(plan: TorusPlan, layout: TruingLayout) -> Part:
    slots = [_cheek_slot(plan, layout, cheek) for cheek in layout.cheeks]
    plate = Plate(plan, _carrier_outline(layout), slots)
    plate.hole((0.0, layout.bolt), plan.job.fittings.bolt_hole)
    plate.marks += [_ring_line(layout, cheek) for cheek in layout.cheeks if cheek.offset >= 0]
    plate.letter(
        "TRUING CARRIER",
        f"HALF: {layout.half} RINGS",
        *([f"QUARTER: {layout.quarter} RINGS, THE ODD CHEEK IN"] if layout.quarter else []),
        "FEET MEET THE BARE BOARD",
        "↓ ABRASIVE",
    )
    foot, before = (layout.foot_start + layout.half_width) / 2, FRONT + layout.abrasive
    for side, x in (("left", -foot), ("right", foot)):
        plate.gap(f"{side} foot before the edge", before, (0.0, FRONT), (x, -layout.abrasive))
    quarter = ", or of a quarter," if layout.quarter else ""
    purpose = f"brings the ends of a half{quarter} square to the abrasive, up to the planned line"
    return plate.part("truing-carrier", purpose)


def _ring_line(layout: TruingLayout, cheek: Cheek) -> Line:
    """Where a ring's outer flat comes."""
    reach, r = 0.4 * layout.blank.thick_edge, layout.blank.outer_radius
    middle = Cheek(cheek.angle, 0.0)
    low = layout.place(middle, r, -reach)
    start = low if low[1] > FRONT + 1 else layout.place(middle, r, 0.0)
    name = "outer flat, quarter" if cheek.for_quarter else "outer flat"
    return Line((start, layout.place(middle, r, reach)), name)


def _board_gussets(layout: TruingLayout) -> tuple[float, float]:
    """x of the middles of the sanding board's gussets."""
    return (-0.4 * layout.half_width, 0.4 * layout.half_width)


def _board_tabs(layout: TruingLayout) -> tuple[float, ...]:
    """x at which the sanding board's tabs start."""
    wide = layout.half_width
    return (-wide + 10, -TAB / 2, wide - 10 - TAB)


def _board(plan: TorusPlan, layout: TruingLayout) -> Part:
    """The sanding board, seen from the carrier; x as on the carrier, y the height above the base."""
    wide, height = layout.half_width, plan.sled.fence_height
    top = [(wide, 0.0), (wide, height), (-wide, height), (-wide, 0.0)]
    foot, half, t = plan.sled.gusset_mortise, layout.play / 2, layout.sheet
    mortises = [
        rectangle(x - t / 2 - half, foot - half, x + t / 2 + half, foot + TAB + half)
        for x in _board_gussets(layout)
    ]
    plate = Plate(plan, with_tabs(top, _board_tabs(layout), layout.sheet), mortises)
    edge = layout.foot_start - 3
    plate.marks += [Line(((x, 2.0), (x, height - 2)), "abrasive ends") for x in (-edge, edge)]
    abrasive = plan.job.show(layout.abrasive).upper()
    plate.letter("SANDING BOARD", f"ABRASIVE {abrasive} THICK", "BARE BESIDE THE LINES")
    plate.gap("foot to top", height, (0.25 * wide, 0.0), (0.0, height), "differ")
    return plate.part(
        "truing-board",
        "carries the abrasive; bare at both ends for the carrier's feet",
        ("Prove it straight, and square to the base, before every half.",),
        free=(FreeEdge((0.0, height), 2.0, HIGHER),),
    )


def _base(plan: TorusPlan, layout: TruingLayout) -> Part:
    """Board, gussets and carrier stand on it; the board's bare face is y = -abrasive."""
    t, half, face = layout.sheet, layout.play / 2, -layout.abrasive
    rear, wide = face - t - GUSSET_DEPTH - 15, layout.half_width + 15
    board = [rectangle(x - half, face - t, x + TAB + half, face + layout.play) for x in _board_tabs(layout)]
    behind = face - t - GUSSET_TAB
    gussets = [
        rectangle(x - t / 2 - half, behind - TAB - half, x + t / 2 + half, behind + half)
        for x in _board_gussets(layout)
    ]
    plate = Plate(plan, rectangle(-wide, rear, wide, layout.depth + 30), [*board, *gussets])
    plate.letter("TRUING BASE", "CARRIER SLIDES HERE")
    return plate.part("truing-base", "keeps the sanding board square to the carrier")


def _gussets(plan: TorusPlan) -> Iterator[Part]:
    upright = gusset(plan)
    yield replace(
        upright,
        name="truing-gusset",
        words=lettered(upright.outline, upright.holes, (), ("GUSSET", "FOOT ↓", "← BOARD")),
        purpose="holds the sanding board square to its base",
        quantity=2,
    )


def _cheeks(plan: TorusPlan, layout: TruingLayout) -> Iterator[Part]:
    cheek = stop_cheek(plan)
    odd = ("Only push the odd one in: it is for quarters.",) if layout.quarter else ()
    bears = "ARRIS" if plan.blank.arris_out else "OUTER FLAT"
    text = (plan.job.title.upper(), "TRUING CHEEK", f"← {bears}")
    yield replace(
        cheek,
        name="truing-cheek",
        purpose="the half's outer side leans on it",
        words=lettered(cheek.outline, cheek.holes, (), text),
        quantity=len(layout.cheeks),
        making=odd,
        notes=(),
    )


def _bar(plan: TorusPlan, layout: TruingLayout) -> Part:
    half, middle = layout.bar_length / 2, BAR_WIDTH / 2
    plate = Plate(plan, rectangle(-half, 0.0, half, BAR_WIDTH))
    plate.hole((0.0, middle), plan.job.fittings.bolt_hole, "bolt hole")
    plate.letter("CLAMP BAR")
    return plate.part(
        "truing-bar",
        "clamps the half to the carrier, one bolt through the hole",
        ("Lay it across both sides of the half.",),
        quantity=2,
        stack=2,
        free=tuple(FreeEdge((x, middle), 1.5, 50.0) for x in (-half, half)),
    )


def _wedge(plan: TorusPlan) -> Iterator[Part]:
    """The sled's wedge, thinner: it leaves the ends of halves what is sanded off there, which no glue face loses."""
    cut, spare = plan.ring_cut, plan.job.form.end_spare
    if plan.job.form.half_sanding == 0:
        return
    thinner = replace(cut, ring_thickness=cut.ring_thickness - 2 * spare / cos(cut.half_wedge))
    wedge = sled_wedge(replace(plan, ring_cut=thinner), "end-wedge", "HALF ENDS")
    yield replace(
        wedge,
        purpose=f"the sled's wedge for rings {', '.join(map(str, sorted(plan.half_ends)))}: the ends of halves",
    )


HEIGHT = 55.0
RELIEF = 3.0  # over the hole


def half_check(plan: TorusPlan) -> Part:
    """A straight edge over both ends of a half, clear of the hole between them. y = 0 is the plane of the ends."""
    blank, c = plan.blank, cos(plan.blank.half_wedge)
    wide, gap = blank.outer_radius / c + 8, blank.inner_radius / c - 3
    plate, land = Plate(plan, straight_edge(wide, gap, RELIEF, HEIGHT)), (wide + gap) / 2
    plate.hang((wide, HEIGHT))
    plate.letter("HALF: BOTH ENDS IN ONE PLANE", "STRAIGHT EDGE ↓")
    for side, x in (("left", -land), ("right", land)):
        plate.gap(f"{side} land below the middle", RELIEF, (0.0, RELIEF), (x, 0.0))
    plate.edge("land", wide - gap, (land, 0.0), "differ")
    return plate.part(
        "half-check",
        "a straight edge for both ends of a half: no light under it",
        free=(
            *(FreeEdge((x, HEIGHT / 2), 5.0, 50.0) for x in (-wide, wide)),
            *(FreeEdge((x, RELIEF / 2), 1.5, 20.0) for x in (-gap, gap)),
            FreeEdge((0.0, RELIEF), 2.0, 1.0),
        ),
    )
