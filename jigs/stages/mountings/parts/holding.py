"""Support board with its channel, and the retainer: layers to saw and glue, sections to turn to.

Sections lie in a plane through the axis: x is the radius from the axis, y the height above the tube's
centre, away from the lathe's headstock.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

import numpy as np

from geometry.bodies.tube import Row, Tube
from geometry.hardware.fittings import called
from geometry.lathe.turning import RIM_LAND
from geometry.plane.contour import circle
from geometry.plane.contour import outline as contour
from geometry.readback.free_edge import FreeEdge
from jigs.parts.gauges.plate import tube_dimension, tube_text
from jigs.parts.part import Dimension, Part, Point
from jigs.parts.places import lettered
from jigs.parts.probes import EdgeLength, Extent, HoleDiameter
from jigs.parts.turned import section
from jigs.plans.torus import TorusPlan
from jigs.stages.mountings.plan import OVER_SIZE

SECTION = 0.014  # mm that an older section may be out: beyond that its gauge shows no even gap


def holding(plan: TorusPlan) -> list[Part]:
    """Sections of channel and retainer, and the discs they are glued from."""
    return [channel_section(plan), retainer_section(plan), board_layer(plan), retainer_layer(plan)]


def channel_section(plan: TorusPlan) -> Part:
    """The support board's section, right of the axis, with the channel the finished side seats in."""
    held = plan.holding
    channel, face = held.channel, -held.channel.centre_height
    back, rim, bore = face - held.board_thickness, held.board_diameter / 2, held.bolt_hole / 2
    low, high = _flank(plan)
    return section(
        plan,
        "channel-section",
        "support board: turn its channel to this section",
        (held.board_layers, held.layer_thickness),
        contour((bore, back), (rim, back), (rim, face), *_channel_edge(plan), (bore, face)),
        _channel_words(plan),
        (
            tube_dimension("channel", channel.hollow, low, high, channel.major),
            Dimension("board height", held.board_thickness, Extent("y")),
        ),
        works_to=SECTION,
    )


def _channel_words(plan: TorusPlan) -> tuple[str, ...]:
    held, mm = plan.holding, plan.job.show
    channel = held.channel
    return (
        f"CHANNEL {_told(plan, channel.hollow)}",
        f"ON R {mm(channel.major)}",
        f"DEPTH {mm(channel.depth)}, WIDTH {mm(channel.width)}",
        f"RELIEF {mm(channel.relief_width)} × {mm(channel.relief_depth)}",
        f"BOARD Ø {mm(held.board_diameter)}, {held.board_layers} LAYERS",
        f"BOLT {called(held.bolt)}, HOLE Ø {mm(held.bolt_hole)}",
        "CURED, TURNED ONCE BY HAND, LOWEST SPEED FIRST",
    )


def _plug_words(plan: TorusPlan) -> tuple[str, ...]:
    held, mm = plan.holding, plan.job.show
    plug = held.retainer
    return (
        f"RETAINER {_told(plan, plug.hollow)}",
        f"NECK Ø {mm(2 * plug.neck_radius)}",
        f"RIM Ø {mm(2 * plug.top_radius)}, HEIGHT {mm(plug.height)}",
        f"{held.retainer_layers} LAYERS",
        f"BOLT {called(held.bolt)}, HOLE Ø {mm(held.bolt_hole)}, WASHER Ø {mm(held.washer)}",
        "BOLT HAND-TIGHT ONLY",
    )


def _told(plan: TorusPlan, hollow: Tube) -> str:
    return f"R {plan.job.show(hollow.wide)}" if hollow.round else tube_text(hollow, plan.job.unit)


def _relief(plan: TorusPlan) -> tuple[float, float]:
    """Half width of the relief, and the height at which it meets the groove's arc."""
    channel = plan.holding.channel
    half = channel.relief_width / 2
    return half, -channel.hollow.height_at(half)


def _channel_edge(plan: TorusPlan) -> list[tuple[float, float, float]]:
    """The groove from its outer to its inner rim: two flanks and the relief between them."""
    channel = plan.holding.channel
    face, rim = -channel.centre_height, channel.width / 2
    half, meets = _relief(plan)
    bottom = -channel.hollow.high - channel.relief_depth
    outer = channel.hollow.run((rim, face), (half, meets), ccw=False)
    inner = channel.hollow.run((-half, meets), (-rim, face), ccw=False)
    return [
        *_out(outer, channel.major),
        (channel.major + half, meets, 0.0),
        (channel.major + half, bottom, 0.0),
        (channel.major - half, bottom, 0.0),
        *_out(inner, channel.major),
        (channel.major - rim, face, 0.0),
    ]


def _out(rows: Sequence[Row], major: float) -> list[Row]:
    """About the tube's centre where it lies."""
    return [(major + x, y, bulge) for x, y, bulge in rows]


def _flank(plan: TorusPlan) -> tuple[float, float]:
    """Angles about the tube's centre between which the outer flank lies."""
    channel = plan.holding.channel
    half, _ = _relief(plan)
    return (-pi / 2 + channel.hollow.lean_at_width(half), -pi / 2 + channel.half_angle)


def retainer_section(plan: TorusPlan) -> Part:
    """The retainer's section, right of the axis: straight neck, flared rim that bears in the hole."""
    held = plan.holding
    plug, bore = held.retainer, held.bolt_hole / 2
    foot: Point = (-plug.hollow.width_at(plug.band_low), plug.band_low)
    rim: Point = (plug.top_radius, plug.band_high)
    band = plug.hollow.run(foot, (-plug.hollow.width_at(plug.band_high), plug.band_high), ccw=False)
    outline = contour(
        (bore, plug.bottom),
        (plug.neck_radius, plug.bottom),
        (plug.neck_radius, plug.band_low),
        *_out(band, plug.major),
        rim,
        (plug.top_radius, plug.top),
        (bore, plug.top),
    )
    turn = [plug.hollow.angle_at_height(z) for z in (plug.band_high, plug.band_low)]
    stuck = "it may stick: tap it out" if held.sticks else "it comes free when the bolt is slackened"
    land = EdgeLength((plug.top_radius, plug.band_high + 1))
    return section(
        plan,
        "retainer-section",
        "retainer: turn the plug to this section",
        (held.retainer_layers, held.layer_thickness),
        outline,
        _plug_words(plan),
        (
            tube_dimension("hollow", plug.hollow, pi - turn[0], pi - turn[1], plug.major),
            Dimension("height", plug.height, Extent("y")),
            Dimension("straight land of the rim", RIM_LAND, land),
        ),
        (
            f"The bolt's pull presses its rim with {held.normal_force:.2f} × the pull and spreads the hole with "
            f"{held.spread:.2f} × the pull; {stuck}.",
        ),
        SECTION,
    )


def board_layer(plan: TorusPlan) -> Part:
    """One disc of the support board, with the bolt's hole and the braces' bolt circle."""
    held = plan.holding
    radius = held.board_disc / 2
    angles = np.arange(held.braces) * 2 * pi / held.braces
    places = [(held.brace_circle / 2 * cos(a), held.brace_circle / 2 * sin(a)) for a in angles]
    holes = [((0.0, 0.0), held.bolt_hole), *((p, held.brace_hole) for p in places)]
    mm = plan.job.show
    return _disc(
        plan,
        "support-board-layer",
        "one layer of a support board",
        radius,
        holes,
        (
            "SUPPORT BOARD LAYER",
            f"{held.board_layers} FOR EACH BOARD",
            f"{held.braces} BRACES ON Ø {mm(held.brace_circle)}",
        ),
        quantity=2 * held.board_layers,
        stack=held.board_layers,
    )


def retainer_layer(plan: TorusPlan) -> Part:
    """One disc of the retainer."""
    held = plan.holding
    return _disc(
        plan,
        "retainer-layer",
        "one layer of the retainer",
        held.retainer_blank / 2,
        [((0.0, 0.0), held.bolt_hole)],
        ("RETAINER LAYER", f"{held.retainer_layers} TO GLUE"),
        quantity=held.retainer_layers,
        stack=held.retainer_layers,
    )


def _disc(
    plan: TorusPlan, name: str, purpose: str, radius: float, holes: list[tuple[Point, float]], lines: tuple[str, ...],
    quantity: int, stack: int,
) -> Part:  # fmt: skip
    text = (plan.job.title.upper(), *lines)
    outline = circle((0.0, 0.0), radius)
    cuts = tuple(circle(centre, diameter / 2).cw() for centre, diameter in holes)
    return Part(
        name=name,
        purpose=purpose,
        process="cut",
        material="board, as measured",
        outline=outline,
        thickness=plan.holding.layer_thickness,
        holes=cuts,
        words=lettered(outline, cuts, (), text),
        free=tuple(FreeEdge(edge.midpoint, OVER_SIZE / 4, 20.0) for edge in outline.edges()),
        dimensions=(
            Dimension("diameter", 2 * radius, Extent("x")),
            *(
                Dimension(f"hole {i + 1}", diameter, HoleDiameter(centre))
                for i, (centre, diameter) in enumerate(holes)
            ),
        ),
        quantity=quantity,
        stack=stack,
    )
