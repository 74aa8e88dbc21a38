"""A sheet for each ring: seen along its axis in its woods, cut through, its sizes, settings and boards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, pi, sin

from geometry.grouping import gathered
from geometry.plane.edges import on_circle
from geometry.records import Record, replace
from jigs.figures.colours import colour_of
from jigs.figures.figure import Figure
from jigs.figures.items import Item, Paint, Point, Shape, Words, arc, disc, line, moved, polygon, tube
from jigs.figures.stack import ring_section
from jigs.paper.page import SMALLEST, fitting, outline, page, rectangle, room, words, wrapped
from jigs.paper.ring_facts import Wood, numbers, of_torus, of_vessel, woods_of
from jigs.paper.strips import LAYUP, pieces
from jigs.plans.plan import Plan, by_form
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.render.lines import shown
from jigs.stages.stack.plan import Joint, Layer
from jigs.stages.stack.turned import turned_on
from jigs.words.quantity import Quantity, count_text, ring_list

VIEW = 118.0  # mm of paper that the ring has, each way
SECTION = 62.0  # high, that its section has
GUTTER = 6.0
LABEL, VALUE = 3.1, 3.4  # sizes of words
TICK = 0.06  # of the ring's radius: length of a tick outside it
DOWN = -pi / 2
DARK = 120.0  # of 255, the brightness below which words are light
CUT_THROUGH = "Cut through, the axis on the left: pale wood is turned away."
FROM_ABOVE = "From above, the rim on the left: what is hatched is sawn off its faces."
TOLD = {
    "torus": "Seen from face 2, segment 1 straight down, the rim on the left. ",
    "vessel": "Seen from above as it stands in the stack; the solid tick is the middle of segment 1. ",
}
BELOW = "Long tick: the middle of segment 1 of the ring below; short ones: its joints. "
NOT_TO_SCALE = "Drawings are not to scale."


class Seen(Record):
    """A ring along its axis: `names` are woods, or what a layup's pieces are, in their order round it."""

    names: tuple[str, ...]
    colours: tuple[str, ...]
    outer: float  # apothems; of a disc its radius
    core: float
    spacer: float
    first: float  # direction of the middle of segment 1, radians
    way: int  # +1 where numbers run counter-clockwise


def ring_pages(plan: Plan) -> list[Figure]:
    """One for each ring of a vessel; one for all rings of a torus that are alike."""
    return [*by_form(plan, torus=_of_torus, vessel=_of_vessel)]


def _of_vessel(plan: VesselPlan) -> Iterator[Figure]:
    total = len(plan.stack.layers)
    for layer in plan.stack.to_make:
        joint = next((one for one in plan.stack.joints if one.upper == layer.number), None)
        seen = _seen(plan, layer)
        below = next((one for one in plan.stack.layers if joint and one.number == joint.lower), None)
        facts = [*of_vessel(plan, layer), *(turned_on(joint) if joint else ())]
        yield _page(
            plan,
            f"ring {layer.number} of {total}",
            f"{_made_of(layer)}. {TOLD['vessel']}{BELOW if joint and joint.over else ''}",
            facts,
            woods_of(plan, (layer.number,), seen.names),
            seen,
            (*_view(seen), *_plug(layer), *_finished(plan, layer), *_ticks(seen, below, joint)),
            ring_section(plan, layer),
            CUT_THROUGH,
        )


def _made_of(layer: Layer) -> str:
    if layer.cut is None and layer.kind == "disc":
        return "One piece, its grain upright" if layer.upright else "One disc"
    many = {"staves": "stave", "open": "segment", "segments": "segment"}[layer.kind]
    return count_text(layer.ring.segments, many) + (", apart" if layer.kind == "open" else "")


def _seen(plan: VesselPlan, layer: Layer) -> Seen:
    names = layer.species if layer.kind == "staves" else pieces(layer.number, layer.species, plan.layups)
    return Seen(
        names,
        tuple(_colours(plan, names)),
        layer.ring.outer,
        layer.ring.core,
        layer.ring.spacer,
        DOWN + layer.turned,
        1,
    )


def _of_torus(plan: TorusPlan) -> Iterator[Figure]:
    left = zip(plan.left, plan.species, strict=False)
    alike = gathered((pieces(number, species, plan.layups), number) for number, species in left)
    blank = plan.blank
    for names, rings in alike.items():
        seen = Seen(
            names, tuple(_colours(plan, names)), blank.apothem, blank.core_apothem, blank.spacer, DOWN, -1
        )
        own = plan.job.form.tube
        centre = blank.centre - plan.job.form.major_radius  # of the tube, the rim on the left
        yield _page(
            plan,
            f"{ring_list(rings)} of {blank.wedge_rings}",
            f"{count_text(blank.segments, 'segment')} each. {TOLD['torus']}",
            [*of_torus(plan)],
            woods_of(plan, rings, names),
            seen,
            (*_view(seen), replace(tube(own, centre), dashes=(2.0, 1.0)), *_ticks(seen, None, None)),
            _wedge(plan, seen.colours),
            FROM_ABOVE,
        )


def _wedge(plan: TorusPlan, colours: Sequence[str]) -> tuple[Shape, ...]:
    """A ring from above, the rim on the left: as flattened, and between its sawn faces."""
    blank, thick = plan.blank, plan.ring_cut.ring_thickness
    x0, x1 = -blank.outer_radius, -blank.inner_radius
    outer, inner = blank.thick_edge / 2, blank.thin_edge / 2
    flat = polygon([(x0, -thick / 2), (x1, -thick / 2), (x1, thick / 2), (x0, thick / 2)], fill="waste")
    sawn = polygon([(x0, -outer), (x1, -inner), (x1, inner), (x0, outer)], fill="wood")
    return flat, replace(sawn, colour=colours[0]) if len(set(colours)) == 1 else sawn


def _colours(plan: Plan, names: Sequence[str]) -> Iterator[str]:
    """Of woods; of a layup's pieces its first ply's, and the next one's for those the other way."""
    layup = plan.job.layup
    for name in names:
        if layup and name.startswith(LAYUP):
            ply = layup.plies[0 if name == LAYUP else 1 % len(layup.plies)]
            yield _hex(ply.name, ply.colour)
        else:
            yield _hex(name)


def _hex(name: str, stated: str | None = None) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour_of(name, stated))


def _view(seen: Seen) -> Iterator[Item]:
    """Each segment in its colour with its number; what stands between shows as paper."""
    count = len(seen.names)
    if count == 1:
        yield replace(disc((0.0, 0.0), seen.outer, fill="wood"), colour=seen.colours[0])
        return
    for k, (colour, middle) in enumerate(zip(seen.colours, _middles(seen), strict=True)):
        yield replace(polygon(_corners(seen, middle), fill="wood"), colour=colour)
        at = max((seen.outer + seen.core) / 2, 0.62 * seen.outer)
        yield Words(
            str(k + 1),
            (at * cos(middle), at * sin(middle)),
            anchor="middle",
            size=VALUE,
            bold=True,
            paint=_on(colour),
        )


def _plug(layer: Layer) -> Iterator[Shape]:
    if layer.plug:
        yield replace(disc((0.0, 0.0), layer.plug / 2, fill="wood"), colour=_hex(layer.species[0]))


def _on(colour: str) -> Paint:
    """What is read on this colour."""
    red, green, blue = (int(colour[k : k + 2], 16) for k in (1, 3, 5))
    return "ink" if 0.3 * red + 0.59 * green + 0.11 * blue > DARK else "paper"


def _middles(seen: Seen) -> list[float]:
    count = len(seen.names)
    return [seen.first + seen.way * 2 * pi * k / count for k in range(count)]


def _corners(seen: Seen, middle: float) -> list[Point]:
    """Outer edge, then inner one; without a core they meet in a point, or at half the spacer."""
    mitre, c, s = pi / len(seen.names), cos(middle), sin(middle)

    def at(apothem: float, side: int) -> Point:
        half = max(0.0, apothem * sin(mitre) / cos(mitre) - seen.spacer / (2 * cos(mitre))) * side
        return apothem * c - half * s, apothem * s + half * c

    inner = max(seen.core, seen.spacer / (2 * sin(mitre)))
    return [at(inner, -1), at(seen.outer, -1), at(seen.outer, 1), at(inner, 1)]


def _finished(plan: VesselPlan, layer: Layer) -> Iterator[Shape]:
    """Dashed: the widest of the finished outside within its height, and the narrowest of the inside."""
    need = plan.section.needs(layer.ring.bottom, layer.ring.top, 0.0)
    if need is not None:
        yield from (replace(disc((0.0, 0.0), radius), dashes=(2.0, 1.0)) for radius in need if radius > 0)


def _ticks(seen: Seen, below: Layer | None, joint: Joint | None) -> Iterator[Shape]:
    """Outside the ring: its own first middle; of the ring below the first middle and the joints."""
    count = len(seen.names)
    if count == 1:
        return
    far = seen.outer / cos(pi / count)
    yield line(on_circle(seen.outer, seen.first), on_circle(far * (1 + TICK), seen.first), width=0.7)
    if below is None or joint is None or not joint.over:
        return
    start = seen.first - joint.turn
    low, n = far * (1 + 1.5 * TICK), below.ring.segments
    yield arc((0.0, 0.0), low, 0.0, 2 * pi, paint="grey")
    for k in range(n):
        turn = start + (2 * k + 1) * pi / n
        yield line(on_circle(low, turn), on_circle(low + far * TICK, turn), paint="grey", width=0.4)
    yield line(on_circle(low, start), on_circle(low + 2 * far * TICK, start), width=0.4)


def _page(
    plan: Plan, which: str, told: str, facts: Sequence[Quantity], woods: Sequence[Wood], seen: Seen,
    view: Sequence[Item], section: Sequence[Shape], caption: str,
) -> Figure:  # fmt: skip
    """The view and the facts side by side; below them the section and the woods."""
    paper = plan.job.workshop.paper.size
    left, top, right, bottom = room(paper)
    column = left + VIEW + GUTTER
    under = top + VIEW + 2 * GUTTER
    body = [
        *_within(view, (left, top), VIEW, VIEW),
        *_facts(plan, facts, (column, top), right - column),
        words((left, under - 2.0), caption, LABEL),
        *_within(section, (left, under), VIEW, SECTION),
        *_woods(woods, dict(zip(seen.names, seen.colours, strict=True)), (left, under + SECTION + GUTTER),
                right - left, bottom),
    ]  # fmt: skip
    return page(
        paper, plan.job.unit, f"{plan.job.title}: {which}", told + NOT_TO_SCALE, body, true_size=False
    )


def _within(items: Sequence[Item], corner: Point, width: float, height: float) -> tuple[Item, ...]:
    """As large as it fits, in the middle of its room."""
    boxes = [item.box for item in items if isinstance(item, Shape)]
    x0, y0 = min(box[0] for box in boxes), min(box[1] for box in boxes)
    x1, y1 = max(box[2] for box in boxes), max(box[3] for box in boxes)
    scale = min(width / (x1 - x0), height / (y1 - y0))
    x, y = corner[0] + width / 2, -corner[1] - height / 2
    return moved(items, x - scale * (x0 + x1) / 2, y - scale * (y0 + y1) / 2, scale)


def _facts(plan: Plan, facts: Sequence[Quantity], corner: Point, width: float) -> Iterator[Words]:
    """Each label with its value below."""
    x, y = corner
    for fact in facts:
        value = shown(fact, plan.job.unit)
        for row in wrapped(fact.label, width, LABEL):
            y += 1.2 * LABEL
            yield words((x, y), row, LABEL)
        y += 1.3 * VALUE
        yield replace(words((x, y), value, fitting([value], width, VALUE)), bold=True)
        y += 0.5 * VALUE


def _woods(
    woods: Sequence[Wood], colours: dict[str, str], corner: Point, width: float, bottom: float
) -> Iterator[Item]:
    """A swatch, the wood, its places, its boards; smaller where there are many."""
    x, y = corner
    step = min(7.0, (bottom - y) / max(1, len(woods)))
    for wood in woods:
        yield replace(
            outline(rectangle(x, y, 8.0, 0.7 * step), "wood"),
            colour=colours.get(wood.name) or _hex(wood.name),
        )
        places = f", {numbers(wood.places)}" if wood.places else ""
        told = f"{wood.name}{places}" + "".join(f"; {text}" for text in wood.boards)
        size = max(fitting([told], width - 10.0, 3.2), SMALLEST)
        for row in wrapped(told, width - 10.0, size)[:2]:
            yield words((x + 10.0, y + 0.5 * step), row, size)
            y += 1.25 * size
        y += max(0.0, step - 1.25 * size)
