"""Draw rod, jaw and bridge of any sled that its base allows bear what they are drawn, screwed and leant on with."""

import math

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from geometry.hardware.fittings import LEAST_CORE, PER_INCH, bolt_diameter, in_inches
from geometry.hardware.sled_sizes import EdgeGuide
from jigs.stages.held.statics.stiffness import (
    ALLOWED,
    STRESS_AREA,
    SledSheet,
    ring_fence,
    rod_stressed,
    strained,
)
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout
from tests.stages.wedge_rings.test_sled import layouts

FEW = [HealthCheck.filter_too_much]
PITCH = {  # coarse, ISO 261; UNC
    **{"M4": 0.7, "M5": 0.8, "M6": 1.0, "M8": 1.25, "M10": 1.5, "M12": 1.75},
    **{bolt: 25.4 / threads for bolt, threads in PER_INCH.items()},
}


def test_stress_areas_are_those_of_the_formula_of_iso_898_1():
    """A = pi/4 (d - 0.9382 p)^2, in ASME B1.1 (d - 0.9743 p)^2 (both from memory), for every rod that there is."""
    assert set(STRESS_AREA) == set(LEAST_CORE) == set(PITCH)
    for bolt, pitch in PITCH.items():
        share = 0.9743 if in_inches(bolt) else 0.9382
        area = math.pi / 4 * (bolt_diameter(bolt) - share * pitch) ** 2
        assert STRESS_AREA[bolt] == pytest.approx(area, rel=0.003)


@settings(suppress_health_check=FEW)
@given(layouts())
def test_whatever_base_is_stiff_enough_carries_fence_rod_and_jaw(layout):
    assume(layout.rod.fits)
    assume(SledSheet("", -layout.left_edge, None).gives(layout.sheet) <= ALLOWED)
    found = strained(layout)
    assert max(found.rod, found.jaw) < 1
    assert found.fence < ALLOWED
    assert found.bridge is None
    assert found.fence == ring_fence(layout).gives(layout.sheet)


@settings(suppress_health_check=FEW)
@given(layouts(), st.floats(6.0, 18.5))
def test_and_the_bridge_on_a_bandsaw(layout, sheet):
    own = (
        "cut",
        "apothem",
        "core_apothem",
        "mitre",
        "play",
        "kerf",
        "trim",
        "clear_of_blade",
        "hands_clear",
        "fittings",
    )
    kept = {name: getattr(layout, name) for name in (*own, "fittings")}
    sled = BandsawLayout(**kept, sheet=sheet, guide=EdgeGuide(0.01, 200.0, 220.0))
    assume(SledSheet("", -sled.left_edge, None).gives(sheet) <= ALLOWED)
    assert 0 < strained(sled).bridge < 1


@settings(suppress_health_check=FEW)
@given(layouts())
def test_a_rod_drawn_hard_does_not_stretch_for_good(layout):
    assume(layout.rod.fits)
    rod = layout.rod
    tension = 1.5 / (0.25 * rod.diameter / 1000)  # N, by 1.5 N m
    assert rod_stressed(rod) >= tension / STRESS_AREA[rod.bolt] / 240 * 1.25
    assert rod_stressed(rod) < 1
