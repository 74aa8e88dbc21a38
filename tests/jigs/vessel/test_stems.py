"""Thin stems: what they bear, pieces with their grain upright, and the order of the work."""

from dataclasses import replace
from functools import cache
from math import pi

import numpy as np
import pytest
import shapely

from geometry.statics.hoop import bending, least_diameter
from jigs.asked.jobfile import load, parse
from jigs.dryfit.report import fit_picture
from jigs.dryfit.torus import dry_fit
from jigs.figures.svg import figure_svg
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.paper.tape_labels import label_pages
from jigs.stages.finished_form.solve import solve_section
from jigs.stages.held.strength import ALLOWED, ALLOWED_ALONG, SAFETY, SIDE
from jigs.stages.solids.check.stem import stem_findings
from jigs.stages.stack.solve.whole import solve_stack
from jigs.stages.waste_block import steps as waste_block
from jigs.words.findings import Refused
from jigs.work.model import Rack
from tests.jigs.remedies.pasted import pasted
from tests.jigs.remedies.test_remedies import offered
from tests.jigs.vessel import jobs
from tests.jigs.vessel.gauge_parts import region
from tests.jigs.vessel.held import hangs, number
from tests.jigs.vessel.jobs import planned
from tests.unset import jigs_made

GOBLET = """title = "Goblet"
[profile]
stations = [[0, 70], [5, 66], [14, {wide}], [30, {slim2}], [70, {slim}], [90, {wide}], [105, 54], [130, 76], [165, 70]]
[wall]
thickness = 4
floor = 96
inner_corner = 3
[reversing]
hold = "none"
[rings]
heights = {heights}
segments = 12
species = "maple"
{more}
"""


def text(heights="[12, 16, 20, 20, 20, 17, 17]", slim=16, more=""):
    return GOBLET.format(heights=heights, slim=slim, slim2=slim + 2, wide=slim + 10, more=more)


def goblet(*args, **more):
    return parse(text(*args, **more), "goblet.toml")


@cache
def upright():
    return solve(goblet(**UPRIGHT))


UPRIGHT = {"heights": "[13, 90, 16]", "more": "upright = [2]"}


def test_bending_is_the_moment_of_a_round_over_its_section_modulus():
    r = np.linspace(-12.0, 12.0, 200_001)
    strip = 2 * np.sqrt(12.0**2 - r**2)
    stress = bending(30.0, 100.0, 12.0)
    assert np.trapezoid(stress * r / 12.0 * strip * r, r) == pytest.approx(30.0 * 100.0, rel=1e-6)
    assert bending(30.0, 100.0, least_diameter(30.0, 100.0, 0.6) / 2) == pytest.approx(0.6)
    assert bending(30.0, 100.0, 12.0, 6.0) == pytest.approx(stress / (1 - 0.5**4))


def test_a_thin_stem_across_the_grain_is_refused_with_what_would_do():
    with pytest.raises(Refused) as caught:
        solve(goblet())
    (found,) = (f for f in caught.value.findings if f.code == "slim-stem")
    assert "across" not in found.remedy
    assert "reach from 10.2 mm or lower to 94.8 mm or higher" in found.remedy
    least = float(found.remedy.split("at least ")[1].split(" mm")[0])
    z = float(found.message.split("thick, ")[1].split(" mm from the foot")[0])
    moment = SIDE * (165 - z) + hangs(solve_section(goblet()), z)
    assert moment > 1.01 * SIDE * (165 - z)
    assert 32 * moment / (pi * least**3) == pytest.approx(ALLOWED, rel=0.005)


def test_a_joint_that_is_the_weak_place_is_named_with_its_stress():
    """Ring 2, upright, ends where the stem is slim: its wood would bear the push, its joint with ring 3 does not."""
    asked = goblet(heights="[13, 57, 33, 16]", more="upright = [2, 3]")
    with pytest.raises(Refused) as caught:
        solve(asked)
    (found,) = (f for f in caught.value.findings if f.code == "slim-stem")
    assert "the joint of rings 2 and 3" in found.message
    assert "clear wood" not in found.message
    section = solve_section(asked)
    z = 13 + 57 - asked.rings.turning_allowance
    stress = bending(1.0, SIDE * (165 - z) + hangs(section, z), section.wall_at(z)[1])
    assert f"the weight above bend it with {stress:.1f} N/mm²" in found.message
    assert f"{ALLOWED:.1f} N/mm² is the most" in found.message


def test_the_ring_that_is_offered_makes_the_stem():
    plan = upright()
    assert not [note for note in plan.notes if note.code == "slim-stem"]
    slim = plan.stack.slimmest
    assert slim.stress <= slim.allowed


def test_upright_pieces_with_joints_in_the_thin_part_are_refused_all_the_same():
    """A joint of end grain holds no better than wood across the grain."""
    with pytest.raises(Refused) as caught:
        solve(goblet(more="upright = [2, 3, 4, 5]"))
    assert "slim-stem" in {found.code for found in caught.value.findings}


def test_one_upright_ring_for_the_stem_is_offered_and_was_tried():
    refused = text()
    first = offered(refused)[0]
    assert any(line.startswith("upright = [2]") for line in first)
    plan = solve(parse(pasted(refused, first), "goblet.toml"))
    assert plan.stack.layers[1].upright


def test_the_ring_that_is_offered_stands_the_heavy_side_of_its_cup_too():
    halves = ", ".join(['"walnut"'] * 6 + ['"basswood"'] * 6)
    uneven = text(slim=24, more="turn = 0\nrepeat = true").replace('"maple"', f"[[{halves}]]")
    plan = solve(parse(pasted(uneven, offered(uneven)[0]), "goblet.toml"))
    assert not [note for note in plan.notes if note.code == "slim-stem"]


def test_a_piece_hollowed_into_is_asked_for_more_than_it_has():
    halves = ", ".join(['"walnut"'] * 6 + ['"basswood"'] * 6)
    more = "turn = 0\nrepeat = true\nupright = [2]"
    uneven = text("[13, 85, 17]", 16, more).replace('"maple"', f"[[{halves}]]")
    slim = solve(parse(uneven, "goblet.toml")).stack.slimmest
    assert slim.height > 96.0  # over the floor
    assert slim.stress > slim.allowed
    assert slim.least > slim.diameter


def test_between_the_two_it_is_a_warning():
    plan = solve(goblet(slim=26))
    (told,) = (note for note in plan.notes if note.code == "slim-stem")
    assert told.severity == "warning"
    assert 1.0 < plan.stack.slimmest.stress / plan.stack.slimmest.allowed <= SAFETY


@pytest.mark.parametrize("name", ["vase", "bowl", "platter", "bottle"])
def test_a_vessel_on_a_foot_of_its_own_is_not_bothered(name):
    plan = planned(name)
    assert not plan.stack.stemmed
    assert not [note for note in plan.notes if note.code == "slim-stem"]


def test_an_upright_piece_stands_in_the_cut_list_the_steps_the_grain_and_the_labels():
    plan = upright()
    (lot,) = (lot for lot in plan.wood.lots if lot.piece == "upright")
    across = 2 * plan.stack.layers[1].ring.outer
    assert lot.count * lot.thickness == pytest.approx(lot.width)
    assert lot.width >= across
    # Spurs and point mark both ends, which are glue faces: they stand in stubs that are sawn off.
    assert lot.longer == pytest.approx(90 + 2 * 12)
    assert ("upright piece", "along the axis") in {(g.piece, g.runs) for g in plan.wood.grain.pieces}
    ends = [j for j in plan.wood.grain.joints if min(j.angles) == 0.0]
    assert {ring for joint in ends for ring in joint.rings} == {1, 2, 3}
    assert any("grain upright" in figure_svg(page) for page in label_pages(plan))


def test_a_ring_that_there_is_not_cannot_be_upright():
    cup = jobs.text("cup")
    with pytest.raises(Refused) as caught:
        solve(parse(cup.replace("heights", "upright = [40]\nheights"), "cup.toml"))
    (found,) = caught.value.findings
    assert (found.code, found.key) == ("no-such-ring", "rings.upright")


def test_wood_along_the_grain_bears_more():
    assert ALLOWED_ALONG > 10 * ALLOWED


def test_a_goblet_passes_its_dry_fit(tmp_path):
    file = tmp_path / "goblet.toml"
    file.write_text(text(**UPRIGHT))
    job = load(file)
    folder = jigs_made(job, tmp_path)
    found = dry_fit(job, folder, sheets=False)
    assert found.checks
    assert not found.misfits + found.faults
    picture = fit_picture(job, folder, found)
    for solid in (1, 2):
        assert f"<title>ring {solid}, solid</title>" in picture


def test_the_cup_is_gauged_while_the_stem_is_as_thick_as_it_was_glued():
    """Its gauges come up to it: no piece that it uses reaches down to where rings not yet turned stand out."""
    plan = upright()
    parts, floor = parts_of(plan), plan.section.inner.bottom
    made = {part.name: region(part.outline) for part in parts if part.name.startswith("outside-gauge")}
    rings = [layer.ring for layer in plan.stack.layers if layer.ring.bottom < floor]
    stem = shapely.union_all([shapely.box(0.0, one.bottom, one.outer, min(one.top, floor)) for one in rings])
    used = [
        [made[use.part] for use in one.jigs if use.part in made]
        for one in work(plan, parts).operations
        if one.stage == "outside"
    ]
    assert sum(map(bool, used)) == len(plan.gauges.stages)
    for gauges in filter(None, used):
        assert all(gauge.intersection(stem).area < 1e-6 for gauge in gauges)
        assert shapely.union_all(gauges).bounds[1::2] == pytest.approx((floor, plan.section.height))


@pytest.mark.parametrize("name", ["platter", "bottle", "bowl"])
def test_the_waste_blocks_joint_stands_a_push_at_the_widest_place_and_the_weight(name):
    """By a stranger's arithmetic: 30 N from the side or along the axis, all rings as heavy as maple or lighter."""
    plan = planned(name)
    foot, section = plan.stack.bottom, plan.section
    places = np.linspace(0.0, section.height, 200)
    push = 30.0 * max(np.hypot(z - foot, section.outer.radius_at(z)) for z in places.tolist())
    hangs = sum(
        layer.wood * 700e-9 * 9.81 * ((layer.ring.bottom + layer.ring.top) / 2 - foot)
        for layer in plan.stack.layers
    )
    across = plan.waste.least
    assert across == plan.waste.most or (push + hangs) / (pi * across**3 / 32) <= 0.6 * 1.001


def test_a_waste_block_that_needs_the_whole_ring_states_one_size():
    """At least and at most, each rounded to its own side, would leave no size between."""
    plan = planned("bowl")
    slim = replace(plan, waste=replace(plan.waste, least=plan.waste.most))
    for one, sizes in ((plan, ["across.least", "across.most"]), (slim, ["across.most"])):
        saw = waste_block.operations(one, Rack(parts_of(plan)))[0]
        assert [size.id for size in saw.settings if size.id.startswith("across")] == sizes


@pytest.mark.parametrize(("foot", "high", "severity"), [(30, 120, "warning"), (24, 290, "refused")])
def test_a_joint_to_the_block_that_is_too_slim_for_a_push_is_told(foot, high, severity):
    """The foot is upright, so that its wood stands what end grain glued to the block does not."""
    text = (
        f'title = "Bud"\n[profile]\nedges = [[0, {foot}], [{high - 60}, 34], [{high}, 60]]\n[wall]\nthickness = 6\n'
        f"floor = {high - 50}\n[rings]\nheights = [12, {high - 52}, 18]\nsegments = 12\nupright = [1, 2]\n"
        'base = "solid"\nspecies = "maple"\n[reversing]\nhold = "none"\n'
    )
    asked = parse(text, "bud.toml")
    section = solve_section(asked)
    stack = solve_stack(asked, section)
    (told,) = (found for found in stem_findings(asked, section, stack) if found.code == "slim-block")
    across = 2 * stack.layers[0].ring.outer
    assert (30 * np.hypot(high + 3, 30)) / (pi * across**3 / 32) > 0.6  # the push alone
    assert told.severity == severity
    wider = text.replace(f"[0, {foot}]", f"[0, {number(told.remedy, 'foot at least')}]")
    asked = parse(wider, "bud.toml")
    section = solve_section(asked)
    found = stem_findings(asked, section, solve_stack(asked, section))
    assert "slim-block" not in {one.code for one in found}


TRUMPET = """title = "Trumpet"
[profile]
edges = [[0, 100], [100, {waist}], [120, {waist}], [380, 180]]
[wall]
{wall}
floor = 10
[rings]
heights = 20
segments = 12
species = "maple"
{more}
"""


def weak_wall(waist, more="", wall="thickness = 5"):
    asked = parse(TRUMPET.format(waist=waist, more=more, wall=wall), "trumpet.toml")
    section = solve_section(asked)
    stack = solve_stack(asked, section)
    return (
        section,
        stack,
        [found for found in stem_findings(asked, section, stack) if found.code == "slim-wall"],
    )


@pytest.mark.parametrize(("waist", "severity"), [(34, "refused"), (44, "warning"), (72, None)])
def test_a_hollow_waist_of_segments_that_a_push_at_the_rim_breaks_is_told(waist, severity):
    """Across the grain clear wood breaks at 2.4 N/mm²; a quarter of that is allowed."""
    section, _, told = weak_wall(waist)
    (a, b), z = section.wall_at(101.0), 101.0
    stress = (SIDE * (380 - z) + hangs(section, z)) / (pi * (b**4 - a**4) / (4 * b))
    assert (stress > 2.4, stress > 0.6) == (severity == "refused", severity is not None)
    assert [one.severity for one in told] == [severity] * (severity is not None)
    if told:
        assert number(told[0].message, "bend it with") == pytest.approx(stress, abs=0.1)
        assert not weak_wall(number(told[0].remedy, "make it at least") + 0.5)[2]


def test_a_thicker_wall_is_offered_only_where_it_stands_the_push():
    (told,) = weak_wall(60)[2]
    thick = number(told.remedy, "make the wall at least")
    flared = "by_height = [[0, {0}], [180, {0}], [220, 5]]"
    assert not weak_wall(60, wall=f"thickness = {thick}")[2]
    assert not weak_wall(60, wall=flared.format(thick))[2]
    assert weak_wall(60, wall=flared.format(0.65 * thick))[2]
    assert "make the wall" not in weak_wall(44)[2][0].remedy  # solid it would bend too far as well


def test_gaps_take_their_share_of_what_a_hollow_waist_stands():
    closed, gapped = (weak_wall(60, more)[1].slimmest for more in ("", "gap = 5"))
    assert gapped.stress > 1.5 * closed.stress


def test_staves_stand_along_their_grain_what_segments_at_a_waist_do_not():
    staves = "[staves]\nlow = 40\nhigh = 200\ncount = 12\n"
    assert weak_wall(44)[2]
    assert not weak_wall(44, staves)[2]


def test_a_stem_to_be_upright_is_offered_though_no_plug_holds_the_cup_either():
    """Two things refuse it, and both are known when the first remedy is looked for."""
    cup = (
        'title = "Cup"\n[profile]\nstations = [[0, 80], [8, 78], [30, 26], [60, 22], [90, 44], [110, 60]]\n'
        "[wall]\nthickness = 6\nfloor = 80\n[rings]\nheights = 14\nupright = [3, 4, 5]\nsegments = 8\n"
        'species = ["maple"]\n'
    )
    with pytest.raises(Refused) as caught:
        solve(parse(cup, "cup.toml"))
    assert {"slim-stem", "not-held-at-all"} <= {found.code for found in caught.value.findings}
    assert "upright = [2]" in " ".join(offered(cup, most=1)[0])


FEW = """title = "Goblet"
[profile]
stations = [[0, 70], [20, {slim}], [70, {slim}], [90, 60], [150, 70]]
[wall]
thickness = 6
floor = 80
[rings]
heights = 20
segments = 12
species = "maple"
"""


def test_a_curve_of_few_stations_that_passes_the_axis_is_refused_by_name() -> None:
    with pytest.raises(Refused) as caught:
        solve(parse(FEW.format(slim=14), "goblet.toml"))
    (found,) = caught.value.findings
    assert found.code == "meets-axis"
    assert "between the stations at 20.0 mm and 70.0 mm is past the axis" in found.message


def test_a_stem_thinner_than_its_stations_is_refused_by_that_and_offered_as_thick_as_they_state() -> None:
    few = FEW.format(slim=20)
    with pytest.raises(Refused) as caught:
        solve(parse(few, "goblet.toml"))
    (found,) = (one for one in caught.value.findings if one.code == "slim-stem")
    assert "14.35 mm less than either station" in found.message
    plan = solve(parse(pasted(few, offered(few)[0]), "goblet.toml"))
    assert plan.section.outer.radii(20, 70)[0] == pytest.approx(10, abs=1)


def test_a_stem_that_its_two_stations_make_thinner_is_first_offered_as_thick_as_they_state() -> None:
    """One upright ring for a stem of 18.8 mm passes too, and is cheaper: it is not what 30 and 30 ask for."""
    stem = (
        'title = "Stem"\n[profile]\nstations = [[0, 70], [15, 30], [60, 30], [100, 80], [140, 90]]\n'
        "[wall]\nthickness = 6\nfloor = 70\ninner_corner = 2\n[rings]\nheights = 16\nsegments = 12\n"
        'species = "walnut"\n'
    )
    first, *others = offered(stem)
    plan = solve(parse(pasted(stem, first), "stem.toml"))
    assert plan.section.outer.radii(15, 60)[0] == pytest.approx(15, rel=0.1)
    assert any("upright" in " ".join(lines) for lines in others)
