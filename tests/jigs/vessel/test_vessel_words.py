"""What the report tells of sawing, gluing and mounting a vessel: what is there, what is left out, what holds."""

import re
from math import ceil, cos, pi, sin

import numpy as np
import pytest

from geometry.staves import blade_tilt, gauge_angle
from jigs.families.vessel.flat_sleds import flat_sleds
from jigs.solve import solve
from jigs.words.report import report_text
from jigs.words.vessel.lathe import first_mounting_section
from jigs.words.vessel.saws import glue_up_section, saw_sections, stave_steps
from tests.jigs.vessel.jobs import job


def names(section):
    return [row.name for row in section.rows]


def test_open_rings_have_no_clamp_band_and_their_own_sentences():
    section = glue_up_section(solve(job("open")))
    said = " ".join(section.cautions)
    assert not any("band" in name for name in names(section))
    assert "one by one" in said
    assert "edges catch tools, cloth and fingers" in said
    assert "trued" not in said  # halves


def test_closed_rings_have_a_band_each_and_nothing_of_open_ones():
    plan = solve(job("vase"))
    section = glue_up_section(plan)
    bands = [name for name in names(section) if "clamp band" in name]
    assert len(bands) == sum(layer.kind == "segments" for layer in plan.stack.layers)
    assert "catch" not in " ".join(section.cautions)


def test_a_vessel_with_both_tells_of_both():
    plan = solve(job("open", more='base = "segmented"'))
    closed = [layer.number for layer in plan.stack.layers if layer.kind == "segments"]
    section = glue_up_section(plan)
    bands = [name for name in names(section) if "clamp band" in name]
    assert bands == [f"ring {number}: clamp band" for number in closed]
    said = " ".join(section.cautions)
    assert "one by one" in said
    assert "halves trued" in said


def test_the_strips_between_segments_are_in_the_cut_list():
    plan = solve(job("bottle"))
    rows = {row.name: row.value for section in saw_sections(plan) for row in section.rows}
    spaced = [layer for layer in plan.stack.layers if layer.ring.spacer]
    assert spaced
    for layer in spaced:
        ring = layer.ring
        (name,) = [
            name for name in rows if "between" in name and layer.number in map(int, re.findall(r"\d+", name))
        ]
        corners = ring.outer / cos(pi / ring.segments), ring.core / cos(pi / ring.segments)
        long = ceil(corners[0] - corners[1]) + 2
        assert f"of walnut, 2.0 mm x {ring.height + 0.3:.1f} mm x {long:.1f} mm" in str(rows[name])


@pytest.mark.parametrize("name", ["vase", "open"])
def test_gaps_and_plain_joints_have_no_strips(name):
    assert not [n for s in saw_sections(solve(job(name))) for n in names(s) if "between" in n]


def test_counts_of_segments_are_said_to_be_without_spares():
    (sled,) = saw_sections(solve(job("vase")))
    assert any("without spares" in said and "cut list" in said for said in sled.cautions)


def test_staves_are_told_in_numbered_steps_with_what_must_not_be_held_by_hand():
    plan = solve(job("staved"))
    said = saw_sections(plan)[-1].cautions
    assert [line[:2] for line in said[:5]] == ["1.", "2.", "3.", "4.", "5."]
    assert "300 mm are never held by hand" in said[0]
    band = plan.stack.staves
    wide = "lower" if band.outer_width(band.low) > band.outer_width(band.high) else "upper"
    assert re.search(rf"wide end, which will be the {wide} one", said[2])


def test_upright_staves_have_no_wide_end():
    first, second = stave_steps(0.0, "mm")[2:4]
    assert "one end on the toe" in first
    assert "the other end on the toe" in second


@pytest.mark.parametrize("count", [5, 12, 24])
@pytest.mark.parametrize("lean", [0.05, 0.3, -0.2])
def test_the_steps_give_edges_whose_planes_meet_in_the_axis(count, lean):
    """Both edges as the steps say: outer face up, the blade leaning away, wide end then narrow end on the toe.

    In the piece u runs to the narrow end, w out of the outer face. The planes of a stave's joints make the angle
    between neighbours and meet in the axis, which comes nearer to the face towards the narrow end by the lean.
    """
    tilt, turn = blade_tilt(lean, pi / count), abs(gauge_angle(lean, pi / count))
    kept = np.array(
        [cos(tilt), 0.0, sin(tilt)]
    )  # blade at x = 0, its top to the left, the piece on the right
    up = np.array([0.0, 0.0, 1.0])
    first = np.array(
        [-sin(turn), cos(turn), 0.0]
    )  # square to a gauge as its plate sets it: wide end at the gauge
    second = -np.array([sin(turn), cos(turn), 0.0])  # gauge to the other side, narrow end at it
    one, two = (np.array([kept @ u, kept @ np.cross(up, u), kept @ up]) for u in (first, second))
    assert one @ two == pytest.approx(-cos(2 * pi / count))
    axis = np.cross(one, two) / np.linalg.norm(np.cross(one, two))
    axis *= np.sign(axis[0])
    assert axis == pytest.approx([cos(lean), 0.0, sin(abs(lean))], abs=1e-12)


@pytest.mark.parametrize("name", ["vase", "open", "staved", "bowl"])
def test_the_first_mounting_comes_between_gluing_and_gauges(name):
    plan = solve(job(name))
    text = report_text(plan, (), ())
    places = [
        text.index(title) for title in ("Gluing rings", "First mounting", "Profile gauges", "Holding by the")
    ]
    assert places == sorted(places)
    rows = {row.name: row.value for row in first_mounting_section(plan).rows}
    assert rows["waste block, thickness"] == plan.job.rings.waste_block
    assert rows["waste block, across at most"] <= 2 * plan.stack.layers[0].ring.radius + 1e-9


@pytest.mark.parametrize(
    "caution",
    ["waste block only", "24 hours", "tapped", "by hand", "tailstock", "lowest speed first", "maker's rating",
     "out of the plane", "face shield"],
)  # fmt: skip
def test_before_it_spins_nothing_is_left_unsaid(caution):
    assert caution in " ".join(first_mounting_section(solve(job("vase"))).cautions)


def test_a_hold_down_stands_on_each_fence():
    holds = [part for part in flat_sleds(solve(job("vase"))) if part.name.startswith("plan-angle-hold")]
    assert [part.quantity for part in holds] == [2]
    assert "before each cut" in " ".join(holds[0].notes)
