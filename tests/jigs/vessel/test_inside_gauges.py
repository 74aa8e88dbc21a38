"""Gauges for the inside and the wall: they pass the mouth, touch, and go over the rim."""

import numpy as np
import pytest
import shapely
from shapely import affinity

from jigs.asked.jobfile import parse
from jigs.dryfit.vessel.work import work_of as asked_of
from jigs.forms.solve import solve
from jigs.stages.finished_form.solve import solve_section
from jigs.stages.gauging.check.vessel import gauge_findings
from jigs.words.findings import Refused
from tests.examples import parts_of_example
from tests.jigs.inspection import text_of
from tests.jigs.vessel.gauge_jobs import JOBS, RINGS, planned, planned_text
from tests.jigs.vessel.gauge_parts import dense, every_vessel, region, reread
from tests.jigs.vessel.held import made
from tests.jigs.vessel.held import planned as whole
from tests.work.reading import work_for
from tests.work.works import work_of


@every_vessel
def test_inside_edges_are_the_inside_moved_into_the_hollow(name):
    plan = planned(name)
    line = shapely.LineString(dense(plan.section.inner)[0])
    stages = [stage for stage in plan.gauges.stages if stage.inside]
    assert stages
    for stage in stages:
        distance = stage.offset + plan.gauges.fit
        points = shapely.points(dense(stage.inside)[0])
        gaps, along = shapely.distance(points, line), shapely.line_locate_point(line, points)
        beside = (along > 1e-6) & (along < line.length - 1e-6)
        assert beside.sum() > 0.5 * len(points)
        assert np.abs(gaps[beside] - distance).max() < 0.01
        assert gaps.min() > distance - 0.01
        assert stage.inside.end[1] == pytest.approx(plan.section.height)


def test_a_gauge_is_lettered_with_the_depth_that_its_step_sets():
    parts = {part.name: part for part in parts_of_example("sorrel")}
    steps = [step for step in work_of("sorrel").operations if step.id.startswith("inside.")]
    set_to = {step.id.removeprefix("inside."): q for step in steps for q in step.settings if q.id == "depth"}
    assert len(set_to) == 3
    for stage, depth in set_to.items():
        assert f"RIM TO FLOOR {depth.value:.2f} MM" in text_of(parts[f"inside-gauge-{stage}"])


@every_vessel
def test_the_inside_gauge_passes_the_mouth_and_touches(name):
    """Lowered beside the axis, then moved sideways until its edge touches; it never meets the wood of its stage."""
    plan = planned(name)
    gauges = plan.inside
    for stage, part in zip((s for s in plan.gauges.stages if s.inside), gauges, strict=True):
        wood = stage_wood(plan, stage.offset)
        plate = region(part.outline, within=0.01)
        depth = plan.section.height - plan.gauges.reach.low
        shift = next(s for s in np.arange(0.0, 100.0, 1.0) if lowered(plate, wood, s, depth))
        for s in np.linspace(shift, 0.0, 40):
            assert affinity.translate(plate, -s, 0.0).intersection(wood).area < 1e-6
        assert plate.distance(wood) == pytest.approx(0.0, abs=1e-6)  # the hook lies on the rim
        touching = shapely.LineString(dense(stage.inside)[0]).distance(wood)
        assert touching == pytest.approx(plan.gauges.fit, abs=0.02)


def stage_wood(plan, offset):
    """The whole section with what a stage leaves on it, its rim faced."""
    half = region(plan.section.dilated(offset), within=0.01)
    whole = half.union(affinity.scale(half, -1.0, 1.0, origin=(0.0, 0.0)))
    return whole.intersection(shapely.box(-1e3, -1e3, 1e3, plan.section.height))


def lowered(plate, wood, shift, depth):
    lifts = np.linspace(0.0, depth + 2.0, 60)
    return all(affinity.translate(plate, -shift, lift).intersection(wood).area < 1e-6 for lift in lifts)


def test_an_inside_gauge_reaches_the_floor_of_open_vessels_and_only_so_far_into_closed_ones():
    for name in ("vase", "platter", "flared bowl", "tall vase", "cylinder"):
        plan = planned(name)
        assert plan.gauges.unguided is None
        offset = plan.gauges.stages[0].offset + plan.gauges.fit
        assert plan.gauges.reach.low == pytest.approx(plan.section.inner.bottom + offset, abs=1e-6)
        assert {f.code for f in gauge_findings(plan.job, plan.section, plan.gauges)} <= {"deep-inside"}
    for name in ("closed vase", "bottle"):
        plan = planned(name)
        (note,) = gauge_findings(plan.job, plan.section, plan.gauges)
        low, high = plan.gauges.unguided
        assert (note.severity, note.code) == ("note", "inside-unguided")
        assert low == plan.section.inner.bottom
        assert high == plan.gauges.reach.low > low + 10


KNOBBED = """title = "Knobbed"
[profile]
edges = [[0, 20], [10, 24], [22, 15], [26, 66], [34, 92], [60, 92]]
[wall]
thickness = {wall}
inner_corner = 2
[rings]
heights = [12, 30, 24]
segments = 12
species = "maple"
upright = [1, 2]
[reversing]
hold = "none"
"""


def test_a_pocket_under_a_neck_that_lets_in_no_tool_is_refused_and_the_floor_that_ends_over_it_passes():
    """Its wall leaves a neck 1.5 mm across under the knob; the book told to hollow through it."""
    text = KNOBBED.format(wall=6.75)
    with pytest.raises(Refused) as caught:
        solve(parse(text, "knobbed.toml"))
    (found,) = caught.value.findings
    assert found.code == "inside-neck"
    assert "1.5 mm across" in found.message
    assert solve(parse(text.replace("inner_corner", "floor = 26\ninner_corner"), "knobbed.toml"))


NAPKIN = """title = "Napkin"
[profile]
edges = {edges}
[wall]
thickness = {wall}
through = {through}
[rings]
heights = 12
segments = 6
species = "maple"
[reversing]
hold = "none"
"""
WAISTED = "[[0, 60], [24, 24], [48, 60]]"
TWO_NECKS = "[[0, 20], [12, 60], [24, 60], [36, 20]]"


@pytest.mark.parametrize(
    ("edges", "wall", "through", "key", "remedy"),
    [
        (
            "[[0, 60], [12, 60], [24, 60], [36, 20]]",
            6,
            "false",
            "profile",
            "a wider mouth, or a thinner wall",
        ),
        (TWO_NECKS, 6, "true", "profile", "a wider mouth, or a thinner wall"),
        (WAISTED, 8, "true", "profile", "a wider outside there, or a thinner wall"),
        (WAISTED, 8, "false", "wall.floor", "a floor that ends over that height, or an [inside] of its own"),
    ],
)
def test_a_neck_that_lets_in_no_tool_is_refused_where_it_is_hollowed_right_through_too(
    edges, wall, through, key, remedy
):
    """All of it is hollowed from the mouth, down to the waste block."""
    with pytest.raises(Refused) as caught:
        solve(parse(NAPKIN.format(edges=edges, wall=wall, through=through), "napkin.toml"))
    (found,) = (one for one in caught.value.findings if one.code == "inside-neck")
    assert (found.key, found.remedy.lower()) == (key, remedy)


@pytest.mark.parametrize(("wall", "wide"), [(6.5, [10, 10]), (7, [9.5, 9.5]), (5.5, [10, 0]), (3.5, [0, 0])])
def test_a_neck_too_narrow_at_a_stage_is_opened_at_once_for_the_tool(wall, wide):
    """Of 11 mm finished the first stage left 5 mm, through which all below was to be hollowed."""
    text = NAPKIN.format(
        edges="[[0, 40], [20, 60], [40, 60], [60, 24], [72, 24]]", wall=wall, through="false"
    )
    told = work_for(solve(parse(text, "flask.toml"))).operations
    steps = [one for one in told if one.id.startswith("inside.") and "Hollow" in one.does]
    found = [next((size.value for size in one.settings if size.id == "neck"), 0) for one in steps]
    assert found == pytest.approx([*wide, 0], abs=0.01)
    assert [any("open the neck at once" in line for line in one.how) for one in steps] == [
        *map(bool, wide),
        False,
    ]


def test_the_dry_fit_takes_the_hollow_that_a_tool_gets_into():
    """Where a stage's wood closes the neck, the pocket under it is none yet."""
    line = asked_of(parse(KNOBBED.format(wall=6.75), "knobbed.toml")).inside(1.0)
    assert line.bounds[1] > 20
    assert line.bounds[3] == pytest.approx(60)


def test_a_mouth_too_narrow_for_any_plate_gets_a_note_and_no_gauge():
    narrow = """title = "Bud vase"
[profile]
stations = [[0, 60], [50, 90], [100, 28], [130, 26]]
[wall]
thickness = 5
"""
    plan = planned_text(narrow + RINGS.replace("[8, 12, 14]", "8") + '[reversing]\nhold = "none"\n')
    assert plan.inside == []
    (note,) = gauge_findings(plan.job, plan.section, plan.gauges)
    assert note.severity == "note"
    assert "no inside gauge passes" in note.message


def test_a_thick_plate_is_thinned_where_it_would_ride_high():
    """The arris of the full plate would stand p²/8r off a circle of radius r; the land stands less than 0.03."""
    plan = planned("tall vase")
    part = plan.inside[-1]
    assert part.thickness**2 / (8 * plan.section.mouth_radius) > 0.03
    narrowest = min(plan.gauges.stages[-1].inside.points[3:, 0])
    assert part.bevel.land**2 / (8 * narrowest) <= 0.031
    moved = np.abs(part.bevel.top.points - part.outline.points)
    assert moved[:, 0].max() == pytest.approx(part.thickness - part.bevel.land)
    assert moved[:, 1].max() == 0.0
    assert planned("platter").inside[-1].bevel is None


@every_vessel
def test_the_wall_gauge_goes_over_the_wall_of_each_stage_as_deep_as_its_slots(name):
    """The outside is finished but for its sanding before the inside is begun."""
    plan = planned(name)
    slots = plan.gauges.wall
    if slots is None:
        assert plan.wall == []
        assert "no-wall-gauge" in [f.code for f in gauge_findings(plan.job, plan.section, plan.gauges)]
        return
    (part,) = plan.wall
    assert len(slots.widths) == len(plan.gauges.stages)
    for stage, width in zip(plan.gauges.stages, slots.widths, strict=True):
        outside = plan.gauges.stages[-1].offset
        assert width == pytest.approx(slots.wall + outside + stage.offset + 2 * plan.gauges.fit)
        outline = reread(part).contours[0]
        opening = [x for x, y in outline.points.tolist() if abs(y) < 1e-6]
        assert any(
            abs(b - a - width) < 0.01 for a, b in zip(sorted(opening), sorted(opening)[1:], strict=False)
        )
    assert goes_over(plan, slots.wall + 0.2 + 1e-6, slots.depth)
    assert not goes_over(plan, slots.wall - 0.05, slots.depth)


def goes_over(plan, width, depth):
    """Whether a slot of this width, turned this way or that, holds the finished wall as deep as it is."""
    outer, inner, top = plan.section.outer, plan.section.inner, plan.section.height
    points = np.vstack([dense(side.between(top - depth - 1, top), 0.1)[0] for side in (outer, inner)])
    for angle in np.linspace(-1.4, 1.4, 2801):
        along = points @ (np.sin(angle), np.cos(angle))
        held = points[along >= along.max() - depth]
        if np.ptp(held @ (np.cos(angle), -np.sin(angle))) <= width:
            return True
    return False


def test_slots_are_the_wall_at_the_rim():
    assert planned("cylinder").gauges.wall.wall == pytest.approx(6.0)
    assert planned("flared bowl").gauges.wall.wall == pytest.approx(5.0, abs=0.2)
    assert planned("cylinder").gauges.wall.depth == pytest.approx(25.0)


def test_a_gauge_sawn_from_thick_sheet_by_its_paper_pattern_passes_the_mouth_too():
    """It is as thick as the sheet, like one that a cutter makes; a printed plate's thickness says nothing of it."""
    text = '[made]\ngauges = "{}"\n[boards]\nsheet = 20\n[gauges]\nfit = 1.5\n'
    cut, sawn = (planned_text(JOBS["vase"] + RINGS + text.format(way)) for way in ("cut", "paper"))
    assert sawn.gauges.plate == cut.gauges.plate == 20.0
    assert sawn.gauges.reach == cut.gauges.reach


@pytest.mark.parametrize(("height", "told"), [(305, False), (320, True)])
def test_an_inside_deeper_than_hands_hold_a_tool_is_told_before_anything_is_glued(height, told):
    deep = made([[0, 120], [height, 160]], floor=10.0)
    found = gauge_findings(deep, solve_section(deep), whole("vase").gauges)
    assert [one.severity for one in found if one.code == "deep-inside"] == ["warning"] * told
