"""Mountings at the lathe by statics, against sums that can be done by hand."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.bodies.tube import tube_of
from geometry.lathe.turning import Channel, Retainer
from geometry.statics.contacts import Clamp
from geometry.statics.lathe_holding import (
    MOST_PULL,
    TOOL_FORCE,
    LatheHolding,
    ToolPlace,
    Weight,
    at_lathe,
    glued,
    pressed,
    seat,
)
from geometry.statics.plug_held import HeldVessel, vessel_held
from geometry.statics.torus_held import HeldTorus, torus_holdings

pulls = st.floats(50.0, 1500.0)


def disc(pull: float, tool: ToolPlace, grip: float = 1e9) -> LatheHolding:
    """A disc of radius 100 that stands on a face 80 across and in a spigot, drawn by a bolt in its middle."""
    contacts = [*seat([(40.0, 0.0)], (0.0, 1.0), "face"), *seat([(10.0, -5.0)], (-1.0, 0.0), "spigot")]
    bolt = Clamp((0.0, 0.0, 20.0), (0.0, 0.0, -1.0), pull)
    return at_lathe("disc", contacts, [bolt], [tool], grip, pull)


@given(pulls)
def test_a_press_outside_its_face_tips_a_disc_about_the_faces_edge(pull):
    """Face's edge at 40 under the press, at 40 cos(pi/8) half-way between the places that are looked at."""
    held = disc(pull, ToolPlace("rim", (100.0, 20.0), (0.0, -1.0)))
    edge = 40 * math.cos(math.pi / 8)
    tips = pull * edge / (100 - edge)
    catch = 3 * pull * edge / (100 + edge)
    assert held.seated.strength == pytest.approx(min(tips, catch), rel=0.1)


@given(pulls, st.floats(1.0, 1e5))
def test_the_least_pull_holds_and_less_does_not(pull, grip):
    tool = ToolPlace("rim", (100.0, 20.0), (0.0, -1.0))
    least = disc(pull, tool, grip * pull).least_pull
    assert disc(least, tool, grip * least).strength == pytest.approx(TOOL_FORCE, rel=1e-6)
    assert disc(pull, tool, grip * pull).held == (least <= MOST_PULL)


def test_what_turns_is_held_by_torque_over_the_tools_radius():
    assert disc(300.0, ToolPlace("rim", (100.0, 20.0), (0.0, -1.0)), 5000.0).turning == pytest.approx(50.0)


def test_glue_needs_no_pull():
    contacts, clamps = glued(50.0, 0.0, 4000.0)
    held = at_lathe("glue", contacts, clamps, [ToolPlace("rim", (80.0, 30.0), (-1.0, 0.0))], 4000.0 * 50)
    assert held.held
    assert held.least_pull == 0.0
    weak = at_lathe(
        "glue", *glued(50.0, 0.0, 100.0), [ToolPlace("rim", (80.0, 30.0), (-1.0, 0.0))], 100.0 * 50
    )
    assert not weak.held


def test_presses_share_a_force_evenly():
    clamps = pressed((30.0, 5.0), (0.0, -1.0), 240.0, "ring", 6)
    assert [clamp.force for clamp in clamps] == [40.0] * 6


def torus(major: float, tube: float, **changes: float) -> HeldTorus:
    contact = math.radians(50)
    values = {
        "rough": tube_of(tube + 3), "flat_height": tube + 1, "flat": 22.0, "flat_centre": major,
        "rim": major + tube + 5, "normal": 1.25, "braces": 6, "brace_at": major + 8,
        "brace_share": 0.3, "glue": 0.6, "pull": 300.0,
        "blank": major * tube**2 * 3e-4, "board": Weight(major**2 * 1e-3, tube + 19.0),
    } | changes  # fmt: skip
    channel = Channel(major, tube_of(tube), 0.0, contact, (8.0, 1.0))
    return HeldTorus(channel, Retainer(major, tube_of(tube), 0.0, contact, 1.5, 3.0), **values)  # type: ignore[arg-type]


@settings(max_examples=50)
@given(st.floats(60.0, 180.0), st.floats(0.15, 0.4))
def test_a_usual_torus_is_held_in_every_mounting_by_what_a_hand_draws(major, share):
    """Half a metre across at most; one as thick as 0.4 and 560 mm across takes 1160 N."""
    for held in torus_holdings(torus(major, share * major)):
        assert held.held, held.mounting
        assert held.least_pull < 1000


def test_braces_that_press_on_their_blocks_alone_hold_nothing():
    """What a strap level with its block did: three hundredths of the pull on the finger, and in the worst none."""
    assert torus_holdings(torus(98.0, 27.0, brace_share=0.03))[2].least_pull > 800
    assert not torus_holdings(torus(98.0, 27.0, brace_share=1e-9))[2].held


def vessel(**changes: object) -> HeldVessel:
    values = {
        "band": ((48.0, 180.0), (48.0, 180.0)), "slope": math.radians(3), "rim": None, "normal": 2.5, "foot": 35.0,
        "point": True, "pull": 300.0, "most": MOST_PULL,
    } | changes  # fmt: skip
    return HeldVessel(**values)  # type: ignore[arg-type]


def test_a_jammed_taper_holds_while_the_tailstock_stands_in_the_foot():
    assert vessel_held(vessel()).held
    assert not vessel_held(vessel(point=False)).held, "a line of touch lets the vessel swing about it"


def test_a_drawn_rim_holds_without_the_tailstock():
    held = vessel_held(
        vessel(
            slope=math.pi / 2, rim=(52.0, 180.0), point=False, normal=1.0, band=((48.0, 176.0), (49.0, 180.0))
        )
    )
    assert held.held
    assert held.least_pull > 300, "the foot is far from the rim"


def test_a_vessel_hangs_on_its_bolt_more_than_the_tool_pushes():
    """100 N across at the foot and 50 N half-way up tip it over its rim, 180 mm off and 52 from the middle."""
    line = {
        "slope": math.pi / 2,
        "rim": (52.0, 180.0),
        "point": False,
        "normal": 1.0,
        "band": ((48.0, 180.0),) * 2,
    }
    light, heavy = (
        vessel_held(vessel(**line, weight=Weight(newtons, 90.0))).seated for newtons in (0.01, 50.0)
    )
    assert light.strength == pytest.approx(300 * 52 / 180, rel=0.1)
    assert heavy.strength == pytest.approx(300 * 52 / (180 + 0.5 * 90), rel=0.1)


@given(pulls, st.floats(0.1, 400.0))
def test_weight_off_its_face_tips_a_disc_with_what_the_tool_presses(pull, newtons):
    """A push of 100 across at z = 20 and a weight over z = 60 turn the disc about the edge of its face, at 40."""
    tool = ToolPlace("rim", (100.0, 20.0), (-1.0, 0.0))
    contacts = [*seat([(40.0, 0.0)], (0.0, 1.0), "face"), *seat([(10.0, -5.0)], (-1.0, 0.0), "spigot")]
    bolt = Clamp((0.0, 0.0, 20.0), (0.0, 0.0, -1.0), pull)
    held = at_lathe("disc", contacts, [bolt], [tool], 1e9, pull, weight=Weight(newtons, 60.0))
    turns = 100 * (20 + 5) + newtons * (60 + 5)  # about the spigot, which takes the push
    assert held.seated.strength == pytest.approx(100 * pull * 40 / turns, rel=0.1)


def test_a_large_torus_hangs_on_its_bolt_more_than_the_tool_pushes():
    """Old board and blank of 36 kg overhang the retainer: worked out apart, over a finer seat, 720 N and 1000 N."""
    light, heavy = (
        torus_holdings(torus(392.0, 48.0, blank=blank, board=Weight(board, 70.0)))[1].seated
        for blank, board in ((0.01, 0.01), (180.0, 175.0))
    )
    assert heavy.strength < light.strength / 3
