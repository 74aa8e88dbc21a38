"""Vessels whose hollow goes right through: shades, napkin rings."""

from math import pi
from pathlib import Path

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.section import Section
from geometry.bodies.surface_area import vessel_surface
from geometry.plane.profile import profile
from jigs.asked.jobfile import load, parse
from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.torus import dry_fit
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.looks.solid import vessel_solid
from jigs.plans.vessel import VesselPlan
from jigs.words.findings import Refused
from tests.jigs.inspection import text_of
from tests.unset import jigs_made

SHADE = """title = "Shade"
[profile]
stations = [[0, 150], [40, 140], [80, 110], [110, 80]]
[wall]
thickness = 6
through = true
[rings]
heights = 18
segments = 16
species = "maple"
"""


def asked(text: str = SHADE) -> VesselJob:
    read = parse(text, "shade.toml")
    assert isinstance(read, VesselJob)
    return read


@pytest.fixture(scope="module")
def shade() -> VesselPlan:
    plan = solve(asked())
    assert isinstance(plan, VesselPlan)
    return plan


@given(st.floats(20, 80), st.floats(20, 80), st.floats(30, 120), st.floats(2, 12))
def test_the_section_of_a_cone_without_a_floor_is_a_band(
    r: float, top: float, height: float, wall: float
) -> None:
    section = Section(profile((r, 0), (top, height)), profile((r - wall, 0), (top - wall, height)))
    volume = (
        pi
        * height
        / 3
        * sum(sign * (a * a + a * b + b * b) for sign, a, b in ((1, r, top), (-1, r - wall, top - wall)))
    )
    assert section.through
    assert section.contour.area == pytest.approx(wall * height)
    assert section.volume == pytest.approx(volume)
    assert section.volume_between(0, height) == pytest.approx(volume)
    assert section.capacity == 0
    assert section.wall_at(0) == pytest.approx((r - wall, r))
    assert vessel_surface(section).foot == pytest.approx(pi * (r**2 - (r - wall) ** 2))


@given(st.floats(30, 80), st.floats(30, 80), st.floats(30, 120), st.floats(3, 12), st.floats(0.5, 5))
def test_what_a_ring_has_to_hold_is_the_band_grown_all_round(
    r: float, top: float, height: float, wall: float, allowance: float
) -> None:
    section = Section(profile((r, 0), (top, height)), profile((r - wall, 0), (top - wall, height)))
    band = shapely.Polygon([(r, 0), (top, height), (top - wall, height), (r - wall, 0)]).buffer(
        allowance, quad_segs=64
    )
    for low, high in ((-allowance, height / 3), (height / 3, height), (height - 1, height + allowance)):
        part = band.intersection(shapely.box(0, low, 1000, high))
        assert section.needs(low, high, allowance) == pytest.approx(
            (part.bounds[0], part.bounds[2]), abs=0.02
        )


def test_every_ring_is_open_in_the_middle(shade: VesselPlan) -> None:
    assert all(layer.kind == "segments" and layer.ring.core > 0 for layer in shade.stack.layers)
    assert shade.stack.bottom == -shade.stack.allowance
    low = shade.stack.layers[0].ring
    assert low.core_radius <= shade.section.inner.radii(0, low.top)[0] - shade.stack.allowance + 1e-6


def test_the_joint_to_the_waste_block_stands_a_push_at_the_rim(shade: VesselPlan) -> None:
    """A round tube's section modulus, π (D⁴ - d⁴)/32D; 0.6 N/mm² is a quarter of the weakest usual hardwood's
    strength across the grain, 2.4 (USDA Wood Handbook, from memory)."""
    arm = shade.section.height - shade.stack.bottom
    across, hole = shade.waste.least, 2 * shade.section.inner.start[0]
    modulus = pi * (across**4 - hole**4) / (32 * across)
    assert 30.0 * arm / modulus <= 0.6 + 1e-9
    assert across > hole


def test_a_tall_thin_one_is_refused_where_that_joint_would_break() -> None:
    tall = SHADE.replace("[[0, 150], [40, 140], [80, 110], [110, 80]]", "[[0, 44], [200, 60], [400, 70]]")
    with pytest.raises(Refused) as refused:
        solve(asked(tall.replace("thickness = 6", "thickness = 3").replace("segments = 16", "segments = 8")))
    assert "slim-foot" in {finding.code for finding in refused.value.findings}


def test_nothing_tells_of_a_floor_or_a_plug(shade: VesselPlan) -> None:
    parts = parts_of(shade)
    assert not [part.name for part in parts if part.name.startswith("mouth-plug")]
    assert not [part.name for part in parts if "FLOOR" in text_of(part)]
    told = work(shade, parts)
    words = [
        text
        for one in told.operations
        for text in (one.does, *one.how, *(s.label for s in one.settings), *(c.if_not for c in one.checks))
        if one.stage in ("inside", "reversing", "waste_block", "outside")
    ]
    assert not [text for text in words if "floor" in text.lower() and "no floor" not in text]
    assert "rubbed flat by hand" in told.verdict
    assert not [fact for fact in told.facts if fact.id == "floor"]
    deep = next(
        s for one in told.operations if one.stage == "inside" for s in one.settings if s.id == "depth"
    )
    assert deep.value == pytest.approx(shade.section.height + shade.stack.allowance)


def test_its_picture_has_a_hole_right_through(shade: VesselPlan) -> None:
    solid = vessel_solid(shade.section)
    assert solid.z[0] == pytest.approx(0)
    assert np.asarray(solid.radii).min() > 30


@pytest.mark.parametrize(
    ("more", "key"),
    [("floor = 5", "wall.floor"), ('[reversing]\nhold = "taper"', "reversing.hold"),
     ("[foot]\nrecess_diameter = 40\nrecess_depth = 2", "foot.recess_diameter")],
)  # fmt: skip
def test_what_needs_a_floor_is_refused(more: str, key: str) -> None:
    place = "through = true\n"
    text = SHADE.replace(place, f"{place}{more}\n") if "[" not in more else SHADE + more + "\n"
    with pytest.raises(Refused) as refused:
        asked(text)
    assert key in {finding.key for finding in refused.value.findings}


def test_an_inside_of_its_own_may_go_right_through() -> None:
    own = SHADE.replace("[wall]\nthickness = 6\n", "[wall]\n") + "[inside]\nedges = [[0, 136], [110, 66]]\n"
    plan = solve(asked(own))
    assert isinstance(plan, VesselPlan)
    assert plan.section.inner.start == pytest.approx((68, 0))
    assert plan.section.through


def test_an_open_one_begins_with_a_closed_ring() -> None:
    plan = solve(asked(SHADE.replace("segments = 16", "segments = 8\ngap = 3")))
    assert isinstance(plan, VesselPlan)
    assert [layer.kind for layer in plan.stack.layers[:3]] == ["segments", "open", "open"]
    assert plan.stack.layers[0].ring.spacer == 0


def test_a_twisted_one_fits_its_own_files(tmp_path: Path) -> None:
    """Made and read back: gauges down to the foot, rings turned on one another by a quarter of a segment."""
    small = SHADE.replace(
        "[[0, 150], [40, 140], [80, 110], [110, 80]]", "[[0, 64], [20, 58], [40, 62]]"
    ).replace(
        'segments = 16\nspecies = "maple"', 'segments = 8\nspecies = [["maple", "walnut"]]\nturn = 0.25'
    )
    file = tmp_path / "shade.toml"
    file.write_text(small, "utf-8")
    job = load(file)
    found = dry_fit(job, jigs_made(job, tmp_path), sheets=False)
    assert not found.misfits + found.faults
    assert not found.faults
    assert len(found.checks) > 200
