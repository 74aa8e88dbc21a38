"""The plug that holds the vessel by its mouth: its section to turn to, a gauge for its side, its discs.

The section and the gauge lie as the plug sits in the finished vessel: x is the radius from the axis, y the
height above the foot, the faceplate up.
"""

from __future__ import annotations

from collections.abc import Callable
from math import degrees

from geometry.hardware.fittings import called
from geometry.plane.contour import circle
from geometry.plane.contour import outline as contour
from geometry.readback.free_edge import FreeEdge
from jigs.parts.gauges.plate import HANG, MARGIN, gauge_panel, hang_hole, printed_gauge
from jigs.parts.part import Dimension, Part
from jigs.parts.plate import Plate
from jigs.parts.probes import EdgeAngle, EdgeLength, Extent, ProfileForm
from jigs.parts.turned import section
from jigs.plans.vessel import VesselPlan
from jigs.stages.holding_by_mouth.plan import MouthPlug

HOOK = 18.0  # of the gauge under the plug's front face
HOOK_DEPTH = 8.0


def reversing(plan: VesselPlan) -> list[Part]:
    """Section, gauge and discs of the plug; nothing where the mouth holds no plug."""
    plug = plan.reversing.plug
    if plug is None:
        return []
    return [_section(plan, plug), _gauge(plan, plug), *_layers(plan, plug)]


def _section(plan: VesselPlan, plug: MouthPlug) -> Part:
    """Right of the axis: the side that goes into the mouth, the neck, the flange."""
    bore, (neck, _) = plug.hole / 2, plug.bearing.end
    side = [(x, y, bulge) for x, y, bulge in plug.bearing.vertices.tolist()]
    meets = () if plug.bearing.end[1] >= plug.face else ((neck, plug.face),)
    flange = ((plug.flange, plug.face), (plug.flange, plug.back), (bore, plug.back))
    front = plug.bearing.start[0] - bore
    return section(
        plan,
        "mouth-plug-section",
        f"plug that holds the {plan.job.called.whole} by its {plan.job.called.mouth}: turn it to this section",
        (plug.front_layers + plug.back_layers, plug.layer_thickness),
        contour((bore, plug.tip), *side, *meets, *flange),
        _section_words(plan, plug),
        (
            Dimension("bearing, farthest out", 0.0, ProfileForm(tuple(side))),
            *_taper_angle(plug, bore),
            Dimension("front face", front, EdgeLength((bore + front / 2, plug.tip))),
            Dimension("height", plug.back - plug.tip, Extent("y")),
            Dimension("radius of the flange less its hole's", plug.flange - bore, Extent("x")),
        ),
    )


def _taper_angle(plug: MouthPlug, bore: float) -> tuple[Dimension, ...]:
    """Of the side of a jammed plug with its front face."""
    if plug.way != "taper":
        return ()
    (x0, y0), (x1, y1) = plug.bearing.start, plug.bearing.end
    side = ((x0 + x1) / 2, (y0 + y1) / 2)
    probe = EdgeAngle(((bore + x0) / 2, plug.tip), side)
    return (Dimension("side on the front face", 90 + degrees(plug.slope), probe),)


def _section_words(plan: VesselPlan, plug: MouthPlug) -> tuple[str, ...]:
    mm = _exact(plan)
    layers = f"{plug.front_layers} + {plug.back_layers} LAYERS"
    bolt = (f"BOLT {called(plug.bolt.thread)}, HOLE Ø {mm(plug.hole)}",) if plug.bolt else ()
    return (
        "MOUTH PLUG",
        *_bearing_words(plan, plug),
        f"IN THE MOUTH {mm(plan.section.height - plug.tip)}",
        f"FLANGE Ø {mm(2 * plug.flange)}, {layers}",
        *bolt,
        "FACEPLATE ↑",
        "CURED, TURNED ONCE BY HAND, LOWEST SPEED FIRST",
    )


def _bearing_words(plan: VesselPlan, plug: MouthPlug) -> tuple[str, ...]:
    mm = _exact(plan)
    if plug.way == "taper":
        return (
            f"JAMS AT Ø {mm(plug.jam_diameter)}",
            f"TAPER {degrees(plug.slope):g}°, {mm(plug.press)} PRESSED",
        )
    if plug.stands:
        return "RIM ON FLANGE", f"SPIGOT Ø {mm(plug.jam_diameter)}"
    return f"TOUCHES AT Ø {mm(plug.jam_diameter)}", f"DOWN TO Ø {mm(2 * plug.bearing.start[0])}"


def _gauge(plan: VesselPlan, plug: MouthPlug) -> Part:
    """Twin of the plug's side from outside; its hook lies on the plug's front face, its upper end at the bearing's."""
    edge, height = plug.gauge_edge, plug.high - plug.tip
    panel = gauge_panel(plan, "MOUTH PLUG GAUGE", *_bearing_words(plan, plug), "FACEPLATE ↑", "HOOK ON FACE")
    width, tall = panel.size
    (x0, y0), (x1, y1) = edge.start, edge.end
    widest = max(x0, x1)
    left, right = x0 - min(HOOK, x0 / 2), widest + width
    low = min(y0 - HOOK_DEPTH, y1 - tall)
    rows = [(x, y, bulge) for x, y, bulge in edge.reversed().vertices.tolist()]
    outline = contour(*rows, (left, y0), (left, low), (right, low), (right, y1))
    where = "the rim's plane" if plug.stands else "the bearing's upper end"
    return printed_gauge(
        plan,
        "mouth-plug-gauge",
        f"side of the plug that holds the {plan.job.called.whole} by its {plan.job.called.mouth}",
        outline,
        hang_hole(right - MARGIN - HANG, y1 - MARGIN - HANG),
        panel.lettering(widest, y1),
        (
            Dimension("edge, farthest out", 0.0, ProfileForm(tuple((x, y, b) for x, y, b in edge.vertices.tolist()))),
            Dimension("hook", x0 - left, EdgeLength(((left + x0) / 2, y0))),
        ),
        (
            f"Lay the hook on the plug's front face: the upper edge is {where}, {plan.job.show(height)} "
            "from that face. It shows shape and depth; measure the diameter.",
        ),
    )  # fmt: skip


def _layers(plan: VesselPlan, plug: MouthPlug) -> list[Part]:
    """Discs of the plug and of its flange."""
    return [
        _disc(plan, plug, "mouth-plug-layer", "PLUG", plug.front_blank, plug.front_layers),
        _disc(plan, plug, "mouth-plug-flange-layer", "FLANGE", plug.back_blank, plug.back_layers),
    ]


def _disc(plan: VesselPlan, plug: MouthPlug, name: str, what: str, diameter: float, count: int) -> Part:
    """As much lettering as a small disc has room for."""
    plate = Plate(plan, circle((0.0, 0.0), diameter / 2))
    plate.hole((0.0, 0.0), plug.hole, "hole")
    short = (f"MOUTH {what} LAYER", f"{count} TO GLUE")
    plate.letter(*short, instead=(short, short[1:]))
    return plate.part(
        name,
        "one layer of the mouth plug" + ("" if what == "PLUG" else "'s flange"),
        quantity=count,
        stack=count,
        free=tuple(FreeEdge(edge.midpoint, 1.0, 20.0) for edge in plate.outline.edges()),
        thickness=plug.layer_thickness,
        material="board, as measured",
    )


def _exact(plan: VesselPlan) -> Callable[[float], str]:
    return lambda mm: plan.job.show(mm, exact=True)
