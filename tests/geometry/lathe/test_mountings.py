"""The holding plan, held against 3600 places round the tube and the shapes that hold it."""

from __future__ import annotations

import math
from math import pi, radians, tau

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.flats import flat_after
from geometry.bodies.tube import Tube, tube_of
from geometry.lathe.mountings import Arc, Mounting, Setting, faults, holding_mountings
from geometry.lathe.turning import Channel, Retainer

ANGLES = np.arange(3600) * tau / 3600
FAR = 1000.0


@st.composite
def holdings(draw: st.DrawFn) -> Setting:
    """Tubes from slim to stout, round, flat and tall, on flats and with tools of all sizes."""
    wide, allowance = draw(st.floats(4.0, 60.0)), draw(st.floats(0.5, 5.0))
    tube = tube_of(wide, wide * draw(st.sampled_from((1.0, 0.7, 0.9, 1.2, 1.45))))
    apothem = max(tube.wide, tube.high) + allowance + draw(st.floats(0.0, 2.0))
    sanded = draw(st.floats(0.0, allowance))
    flat, shift = flat_after(apothem, 2 * draw(st.integers(3, 12)), sanded), draw(st.floats(-1.0, 1.0))
    return Setting(
        tube, tube.beyond(allowance), apothem - sanded, flat / 2 - shift, flat / 2 + shift,
        contact=radians(draw(st.floats(30.0, 65.0))), lining=draw(st.sampled_from((0.0, 1.0, 3.0))),
        spigot=draw(st.floats(0.5, 3.0)), tool_room=draw(st.floats(0.5, 8.0)),
        least_overlap=radians(draw(st.floats(5.0, 25.0))),
    )  # fmt: skip


def turned(mounting: Mounting) -> np.ndarray:
    """Which of the sampled angles a mounting turns."""
    if mounting.turns is None:
        return np.zeros(len(ANGLES), dtype=bool)
    return np.array([mounting.turns.contains(float(angle)) for angle in ANGLES])


def places(tube: Tube, which: np.ndarray) -> shapely.MultiPoint:
    return shapely.multipoints([tube.at(float(angle)) for angle in ANGLES[which]])


def first_board(setting: Setting) -> shapely.Polygon:
    """Its face, raised everywhere by the spigot, which is more than there is."""
    return shapely.box(-FAR, -FAR, FAR, -setting.flat_height + setting.spigot)


def retainer(setting: Setting) -> shapely.Polygon:
    """The plug in the torus's own frame, where the board of mounting D is above and y is turned over."""
    plug = Retainer(500.0, setting.tube, setting.lining, setting.contact, 1.5, 3.0)
    heights = np.linspace(plug.band_low, plug.band_high, 400)
    band = [(plug.radius_at(z) - 500.0, -z) for z in heights]
    land = (band[-1][0], -plug.top)
    return shapely.Polygon([*band, land, (-400.0, land[1]), (-400.0, -plug.band_low)])


@given(holdings())
def test_a_plan_without_faults_turns_every_place_with_room_and_overlap(setting: Setting) -> None:
    mountings = holding_mountings(setting)
    if faults(mountings, setting.least_overlap):
        return
    by = {m.name: turned(m) for m in mountings}
    assert np.all(by["A"] | by["C"] | by["D"])
    least = math.degrees(setting.least_overlap)
    for one, other in (("A", "C"), ("C", "D"), ("D", "A")):
        assert (by[one] & by[other]).sum() / 10 >= least - 0.11
    room = setting.tool_room - 1e-6
    assert places(setting.rough, by["A"]).distance(first_board(setting)) >= room
    assert places(setting.tube, by["D"]).distance(retainer(setting)) >= room
    # In mounting C the tool comes in along the axis, beside the braces' fingers, whose ends are over the tube's middle.
    assert max((setting.tube.at(float(angle))[0] for angle in ANGLES[by["C"]]), default=-room) <= -room
    held = Channel(500.0, setting.tube, setting.lining, setting.contact, (8.0, 1.0))
    seat = np.abs((ANGLES - pi / 2 + pi) % tau - pi) <= held.half_angle
    assert np.all(by["A"][seat])
    assert not np.any((by["C"] | by["D"])[seat])


@given(holdings())
def test_what_is_never_turned_is_told(setting: Setting) -> None:
    mountings = holding_mountings(setting)
    missed = ANGLES[~np.any([turned(m) for m in mountings], axis=0)]
    told = [fault.arc for fault in faults(mountings, setting.least_overlap) if fault.overlap < 0]
    assert all(any(arc.contains(float(angle)) for arc in told) for angle in missed)
    assert bool(len(missed)) or all(arc.span < radians(0.2) for arc in told)


def usual(**changes: float) -> Setting:
    given = {
        "tube": tube_of(27.0), "rough": tube_of(30.0), "flat_height": 30.6, "flat_inner": 12.7, "flat_outer": 12.7,
        "contact": radians(50), "lining": 0.0, "spigot": 2.0, "tool_room": 3.0, "least_overlap": radians(10),
    }  # fmt: skip
    return Setting(**{**given, **changes})


def test_the_usual_torus_is_turned_in_three_mountings() -> None:
    mountings = holding_mountings(usual())
    assert faults(mountings, radians(10)) == ()
    assert {fault.kind for fault in faults(mountings, radians(10.001))} == {"gap"}
    first, again, braced, drawn = (m.turns for m in mountings)
    assert again is None
    assert (math.degrees(first.start), math.degrees(first.end)) == pytest.approx((-35.0, 215.0))
    assert math.degrees(braced.start) == pytest.approx(205.0)
    assert braced.end == pytest.approx(1.5 * pi - math.asin(3 / 27))
    assert math.degrees(drawn.end) == pytest.approx(335.0)


def test_too_thick_a_tool_leaves_the_flats_inner_side_unturned() -> None:
    setting = usual(tool_room=9.0)
    (fault,) = faults(holding_mountings(setting), setting.least_overlap)
    assert (fault.kind, fault.first, fault.second) == ("gap", "C", "D")
    assert fault.overlap < 0
    assert fault.arc.contains(radians(255))


def test_braces_on_a_flat_that_is_turned_away_are_told() -> None:
    mountings = holding_mountings(usual(flat_outer=60.0))
    assert ("turned-away", "C", "braces") in [
        (f.kind, f.first, f.second) for f in faults(mountings, radians(10))
    ]


def test_a_retainer_on_wood_not_yet_turned_is_told() -> None:
    mountings = holding_mountings(usual(tool_room=17.0))
    kinds = [(f.kind, f.first, f.second) for f in faults(mountings, radians(10))]
    assert ("not-finished", "D", "retainer") in kinds


@given(st.floats(-10, 10), st.floats(0, 6), st.floats(-10, 10), st.floats(0, 6))
def test_what_arcs_share_is_what_sampling_finds(
    start: float, span: float, other: float, width: float
) -> None:
    one, two = Arc(start, start + span), Arc(other, other + width)
    both = [one.contains(a) and two.contains(a) for a in np.linspace(0, tau, 2000, endpoint=False)]
    assert one.shared(two) == pytest.approx(sum(both) * tau / 2000, abs=4 * tau / 2000)
    assert one.within([two]) == (one.shared(two) >= one.span - 1e-9)


def test_two_arcs_cover_what_neither_does_alone() -> None:
    assert Arc(0.0, 3.0).within([Arc(-1.0, 2.0), Arc(1.5 + tau, 3.5 + tau)])
    assert not Arc(0.0, 3.0).within([Arc(-1.0, 2.0), Arc(2.5, 3.5)])
