"""Staves and slices of their tubes, held as they would be without a sled of their own, and with points in the wood."""

from dataclasses import replace
from math import radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.holding import Clamp
from geometry.stave_statics import gauged_stave, sliced_ring
from geometry.staves import StaveBand

BAND = StaveBand(12, 30.0, 110.0, 0.0, 70.0, 12.0)


@st.composite
def bands(draw: st.DrawFn) -> StaveBand:
    lean, thick = radians(draw(st.floats(-30, 30))), draw(st.floats(6, 20))
    count, high, outer = draw(st.integers(6, 30)), draw(st.floats(40, 90)), draw(st.floats(90, 150))
    return StaveBand(count, 0.0, high, lean, outer, thick)


@settings(max_examples=30)
@given(bands())
def test_a_stave_under_a_plain_clamp_gets_away_from_its_gauge_and_points_in_the_wood_keep_it(
    band: StaveBand,
) -> None:
    assert not gauged_stave(band).holding().held
    assert gauged_stave(band, pins=True).holding().held


@settings(max_examples=30)
@given(st.integers(3, 20).map(lambda half: 2 * half), st.floats(20, 60), st.floats(15, 60))
def test_a_ring_under_a_plain_clamp_gets_away_from_its_tube_and_points_in_the_wood_keep_it(
    count: int, apothem: float, thickness: float
) -> None:
    assert not sliced_ring(count, apothem, thickness).holding().held
    assert sliced_ring(count, apothem, thickness, pins=True).holding().held


def test_an_upright_stave_slides_into_the_blade() -> None:
    motion = gauged_stave(BAND).holding().motion
    assert motion is not None
    assert motion.kind == "slides"
    assert motion.direction[0] == pytest.approx(-1, abs=0.01)


def test_a_stave_pressed_against_its_stop_hard_enough_would_be_held() -> None:
    """What is lacking is a force away from the blade, and nothing else."""
    piece = gauged_stave(BAND)
    at = (0.0, BAND.slant_length * 0.25, 6.0)
    pushed = Clamp(at, (1.0, 0.0, 0.0), 500.0, "push")
    (stop,) = [contact for contact in piece.contacts if contact.what == "stop"]
    ends = [(y, z) for y in (0.0, BAND.slant_length) for z in (0.0, BAND.thickness)]
    stops = [replace(stop, place=(stop.place[0], y, z)) for y, z in ends]
    held = replace(piece, contacts=(*piece.contacts, *stops), clamps=(*piece.clamps, pushed))
    assert held.holding().held
