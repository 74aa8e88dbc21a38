"""How the sled holds a wedge ring: seen from the blade's side, and the plug of the draw rod cut through."""

from __future__ import annotations

from collections.abc import Mapping
from math import pi

from geometry.hardware.draw_rod import BEHIND_FENCE, WASHERS
from geometry.hardware.fittings import NUTS, called
from geometry.plane.contour import regular_polygon
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, area, box, line, moved
from jigs.figures.saws.common import HIDDEN, hidden, outward
from jigs.figures.told import Show, by_calliper, by_rule, labelled
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan

TABLE = 12.0  # mm of the saw's table shown
KNOB = (30.0, 12.0)  # mm across and thick, as drawn
HEAD = 6.0  # mm of a screw's head


def side(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """Along the fence: x is the distance from the apex, y the height over the base."""
    sled, cut = plan.sled, plan.sled.cut
    t, start, end = sled.sheet, sled.fence_start, sled.fence_end
    middle = (cut.stop - cut.half_width, sled.apothem)
    ring = regular_polygon(sled.segments, sled.apothem, -pi / 2, middle)
    core = regular_polygon(sled.segments, sled.core_apothem, -pi / 2, middle)
    cheek, jaw = parts["sled-stop-cheek"].outline, parts["sled-jaw"].outline
    screw, top = sled.jaw_screw[0], jaw.bounds[3]
    items: tuple[Item, ...] = (
        box(start - 30, -t - TABLE, end + 25, -t, fill="metal"),
        box(start - 30, -t, end + 25, 0.0, fill="jig"),
        area(parts["sled-fence"].outline, fill="pale"),
        *moved((area(cheek, fill="jig"),), cut.stop, 0.0),
        area(ring, fill="wood"),
        area(core, fill="paper"),
        *moved((area(jaw, fill="jig"),), cut.stop, 0.0),
        box(screw - 3, sled.ring_height, screw + 3, top + HEAD, fill="metal"),
        box(screw - 5, top, screw + 5, top + HEAD, fill="metal"),
        line((start - 22, -t), (start - 22, sled.saw_height - t), paint="blade", width=0.5),
        Dimension((start - 22, -t), (start - 22, sled.saw_height - t), by_rule(show, sled.saw_height), 6.0),
        labelled("fence", "sled-fence", (start + 10, sled.fence_height - 8), "left"),
        labelled("base", "sled-base", (end + 12, -t / 2), "right"),
        Callout("table", (end + 12, -t - TABLE / 2), "right"),
        labelled("stop", "sled-stop-cheek", (cut.stop + 0.35 * sled.cheek_length, sled.apothem / 2), "right"),
        labelled("jaw", "sled-jaw", (sled.jaw_tail - 4, top - 8), "right"),
        Callout("screw of the jaw", (screw, top + HEAD - 1), "right"),
        Callout("ring, on a flat", (middle[0] - 0.8 * sled.apothem, middle[1]), "left"),
    )
    what = "The blade's height" if plan.cutting.rings_on == "table saw" else "The guides' height"
    return Figure(
        "wedge_rings.side",
        "A wedge ring on its sled, from the blade's side",
        f"The ring stands on a flat, its outer {outward(plan)} against the stop; the jaw's screw presses it down. "
        f"{what} over the table is {by_rule(show, sled.saw_height)}.",
        items,
        height=105.0,
    )


def plug(plan: TorusPlan, show: Show) -> Figure:
    """Cut through along the rod: x is the distance from the fence, y from the rod's middle."""
    sled, rod = plan.sled, plan.sled.rod
    t, thick, half = sled.sheet, plan.sled.cut.ring_thickness, rod.diameter / 2
    high, core = sled.apothem, rod.core_apothem
    nut, washer = NUTS[rod.bolt], WASHERS[rod.bolt][1]
    end, begin = rod.rubber_end, rod.rubber_end - rod.rubber
    across = rod.washer / 2
    below = by_calliper(show, rod.below_face, "least")
    items: tuple[Item, ...] = (
        box(-t, -high, 0.0, high, fill="pale"),
        box(0.0, core, thick, high, fill="wood"),
        box(0.0, -high, thick, -core, fill="wood"),
        box(begin, -core, end, core, fill="grey"),
        box(-t - BEHIND_FENCE, -half, rod.tip, half, fill="metal"),
        *(box(x, -across, x + washer, across, fill="metal") for x in (begin - washer, end)),
        box(end + washer, -nut[0] / 2, end + washer + nut[1], nut[0] / 2, fill="metal"),
        box(-t - KNOB[1] - 3, -KNOB[0] / 2, -t - 3, KNOB[0] / 2, fill="metal"),
        box(-t - 3, -across, -t, across, fill="metal"),
        hidden((rod.tip, 0.0), (rod.tip, high + 4)),
        Dimension((rod.tip, high), (thick, high), below, 6.0),
        labelled("fence", "sled-fence", (-t / 2, -high + 4), "left"),
        Callout("knob, washer", (-t - KNOB[1] / 2, 8.0), "left"),
        Callout(f"threaded rod {called(rod.bolt)}", (-t - BEHIND_FENCE + 3, 0.0), "left"),
        Callout("ring", (thick * 0.8, -(high + core) / 2), "right"),
        Callout("rubber, squeezed", ((begin + end) / 2, core - 1.5), "left"),
        Callout("nut, washer", (end + washer + 1, -across * 0.5), "right"),
        Callout("face that is not cut yet", (thick, core + 0.5 * (high - core)), "right"),
        line((thick, -high - 3), (thick, high + 3), paint="grey", dashes=HIDDEN),
    )
    return Figure(
        "wedge_rings.plug",
        "The draw rod and its plug in a ring, cut through",
        f"The rubber fills the core and is squeezed between two washers; the rod's tip stays "
        f"{below} below the uncut face. The knob draws the ring to the fence.",
        items,
        height=95.0,
    )
