"""A base that floats: its numbers, what refuses it and what then does, its gauges, its steps and its dry fit."""

import re
from functools import cache
from math import hypot, pi

import pytest

from jigs.asked.jobfile import load, parse
from jigs.dryfit.files import Files
from jigs.dryfit.torus import dry_fit
from jigs.dryfit.vessel.floating import floating_checks
from jigs.dryfit.vessel.work import work_of
from jigs.files.stl import write_stl
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.stages.holding_by_mouth.steps.whole import operations
from jigs.words.findings import Refused
from jigs.work.model import Rack
from tests.jigs.inspection import faults
from tests.jigs.remedies.pasted import pasted
from tests.jigs.remedies.test_remedies import findings, offered
from tests.jigs.set_files import in_set
from tests.unset import jigs_made
from tests.work.reading import numbers, table, values, work_for

BOWL = """title = "Medlar"
[profile]
stations = [[0, 110], [12, 118], [50, 168], [90, 190]]
[wall]
thickness = 8
floor = {floor}
inner_corner = 6
[foot]
recess_diameter = {across}
recess_depth = {deep}
[rings]
heights = {heights}
segments = 12
species = "maple"
base = "floating"
[floating]
species = "cherry"
{more}
"""


def text(floor=10, across=72, deep=4, heights="[12, 20]", more=""):
    return BOWL.format(floor=floor, across=across, deep=deep, heights=heights, more=more)


@cache
def plan_of(**asked):
    return solve(parse(text(**asked), "medlar.toml"))


@cache
def work_of_it():
    return work_for(plan_of())


def refusal(**asked):
    with pytest.raises(Refused) as caught:
        plan_of(**asked)
    return {found.code for found in caught.value.findings}


def test_its_room_follows_from_the_wood_handbooks_coefficient():
    base = plan_of().stack.floating.base
    # Black cherry, tangential 0.00248 for each per cent (GTR-190, table 13-5): from 8 % down to 6 and up to 14.
    assert (base.shrinks, base.swells) == (pytest.approx(2 * 0.00248), pytest.approx(6 * 0.00248))
    # The rings round it, of maple, 0.00353, are 59.9 mm in their radius up to the floor, and close by at most 0.16 of
    # what that swells; they open by as much of what it shrinks.
    assert base.closes == pytest.approx(0.16 * 59.9 * 6 * 0.00353, rel=1e-3)
    assert base.opens == pytest.approx(0.16 * 59.9 * 2 * 0.00353, rel=1e-3)
    assert base.tongue == pytest.approx((36 + 2.25 + base.closes + 2 * base.opens) / (1 - 10 * 0.00248))
    assert base.groove == pytest.approx(base.tongue * (1 + 6 * 0.00248) + 0.25 + base.closes)
    assert (base.opening, base.ledge, base.joint, base.floor) == (36, 4, 9, 14)


def test_strips_between_segments_open_the_rings_as_they_swell_and_close_them_as_they_dry():
    """Twelve strips of 2 mm are 3.8 mm of the radius, whose grain does not run round."""
    text_of = text(more="moisture = 10").replace("segments = 12", "segments = 12\nspacer = 2")
    base, grows = solve(parse(text_of, "medlar.toml")).stack.floating.base, 12 * 2 / (2 * pi)
    plain = solve(parse(text(more="moisture = 10"), "medlar.toml")).stack.floating.base
    assert base.closes - plain.closes == pytest.approx(grows * 4 * 0.00353, rel=1e-3)
    assert base.opens == pytest.approx(max(plain.opens, grows * 4 * 0.00353))


@pytest.mark.parametrize(
    ("more", "room"), [("", 1.04), ("moisture = 14", 0.25), ("driest = 8\nwettest = 8", 0.25)]
)
def test_less_swelling_is_less_room(more, room):
    assert plan_of(more=more).stack.floating.base.room == pytest.approx(room, abs=0.01)


def test_strips_and_plies_in_the_ring_round_it_close_it_by_more():
    plain = plan_of().stack.floating.base
    strips = solve(parse(text().replace('base = "floating"', 'base = "floating"\nspacer = 2'), "medlar.toml"))
    more = strips.stack.floating.base.closes - plain.closes
    count = strips.stack.layers[0].ring.segments
    assert more == pytest.approx(count * 2 / (2 * pi) * 6 * 0.00353)


def test_upright_grain_does_not_thicken_and_is_cut_as_a_post():
    across, upright = plan_of(), plan_of(more='grain = "upright"')
    assert upright.stack.floating.base.tongue_thickness > across.stack.floating.base.tongue_thickness
    kinds = [[lot.piece for lot in plan.wood.lots if lot.species == "cherry"] for plan in (across, upright)]
    assert kinds == [["base"], ["upright"]]


def test_rings_round_it_are_open_and_glued_outside_its_groove():
    plan = plan_of()
    base, (lower, upper) = plan.stack.floating.base, plan.stack.layers[:2]
    assert [layer.kind for layer in (lower, upper)] == ["segments", "segments"]
    for layer in (lower, upper):
        assert layer.ring.core_radius == pytest.approx(base.opening - plan.stack.allowance)
    joint = plan.stack.joints[0]
    assert joint.height == pytest.approx(base.joint)
    assert joint.finished == pytest.approx(joint.outer - base.groove)
    assert joint.glue_area == pytest.approx(pi * (joint.outer**2 - base.groove**2))


def test_the_disc_is_weighed_by_itself_and_the_room_round_it_is_air():
    plan = plan_of()
    base = plan.stack.floating.base
    woods = {name: volume for name, volume, _ in plan.stack.weights}
    assert woods["cherry"] == pytest.approx(base.volume)
    air = pi * (base.groove**2 * base.depth + base.opening**2 * base.lip) - base.volume
    assert sum(woods.values()) == pytest.approx(plan.section.volume - air, rel=1e-4)


@pytest.mark.parametrize(
    ("asked", "code"),
    [
        ({"deep": 2.5, "heights": "[11, 20]"}, "floating-ledge"),
        ({"heights": 20}, "floating-joint"),
        ({"heights": "[8, 20]"}, "floating-joint"),
        ({"floor": 6}, "floating-floor"),
        ({"across": 97}, "floating-flat floating-wall"),
        ({"across": 40}, "floating-narrow"),
        ({"across": 0, "deep": 0}, "no-ledge"),
        ({"heights": '"fewest rings"'}, "floating-heights"),
    ],
)
def test_what_would_not_carry_it_is_refused(asked, code):
    assert refusal(**asked) == set(code.split())


def test_without_its_ledge_one_set_of_changes_makes_it_one(tmp_path):
    asked = text(across=0, deep=0, heights=20)
    sets = offered(asked, most=1)
    assert any(line.startswith("recess_depth") for line in sets[0])
    assert findings(pasted(asked, sets[0]), tmp_path) == []


def test_moistures_are_given_in_rising_order():
    with pytest.raises(Refused, match="rising order"):
        parse(text(more="driest = 10"), "medlar.toml")


def test_no_bolt_goes_through_it_and_the_tailstock_stands_on_the_ring():
    plan = plan_of()
    assert plan.reversing.plug is not None
    assert plan.reversing.plug.centre_depth == 0
    (held,) = (one for one in operations(plan, Rack(parts_of(plan))) if one.id == "reversing.held")
    assert "not on the floating base" in " ".join(held.how)
    block = next(
        float(found[1]) for line in held.how if (found := re.search(r"at least ([0-9.]+) mm across", line))
    )
    assert (
        block >= 2 * plan.stack.floating.base.groove
    )  # the ledge under the groove, 4 mm thick, would break off
    assert refusal(more='[reversing]\nhold = "bolt"\nbase_hole = 9') == {"not-held-bolt"}


def test_its_gauges_touch_the_rounds_with_the_corners_of_their_thickness():
    plan = plan_of()
    base, parts = plan.stack.floating.base, {part.name: part for part in parts_of(plan)}
    gauge = parts["groove-gauge"]
    sizes = {one.name: one.value for one in gauge.dimensions}
    assert hypot(sizes["groove"] / 2, gauge.thickness / 2) == pytest.approx(base.groove)
    assert hypot(sizes["opening"] / 2, gauge.thickness / 2) == pytest.approx(base.opening)
    assert sizes["groove, depth"] == pytest.approx(base.depth)
    for name in ("groove-gauge", "tongue-gauge"):
        assert faults(parts[name]) == []
        assert parts[name].process == "print"


def test_it_is_dropped_in_before_the_ring_above_is_glued_and_never_glued_itself():
    plan = plan_of()
    order = [one.id for one in work_of_it().operations]
    own = [f"floating_base.{name}" for name in ("groove", "disc", "finish", "drop")]
    assert [id for id in order if id in own] == own
    stacked = max(k for k, id in enumerate(order) if id.startswith("stack."))
    assert order.index("flattening.faces") < order.index(own[0]) < order.index(own[-1]) < stacked
    assert not [face for face in plan.wood.glue.faces if "base" in face.name]


def test_what_is_turned_and_faced_beside_it_is_its_lip_and_its_ledge():
    """It has its finish when it is laid in: no depth, no thickness is measured in the middle any more."""
    steps = {one.id: one for one in work_of_it().operations}
    hollowed = [one for id, one in steps.items() if id.startswith("inside.")]
    told = [*hollowed, steps["reversing.foot"], steps["reversing.off"]]
    labels = [quantity.label for one in told for quantity in numbers(one)]
    assert not [label for label in labels if "in the middle" in label]
    assert not [check.if_not for one in told for check in one.checks if "floor" in check.if_not]
    assert next(q.value for q in numbers(steps["reversing.foot"]) if q.id == "ledge") == 4


def test_its_sizes_and_how_it_moves_are_a_table():
    plan = plan_of()
    base = plan.stack.floating.base
    told = values(table(work_of_it(), "floating"))
    assert (told["groove"], told["tongue"], told["room"]) == (2 * base.groove, 2 * base.tongue, base.room)
    assert told["swells"] == pytest.approx(2 * base.tongue * 6 * 0.00248)
    assert told["shrinks"] == pytest.approx(2 * base.tongue * 2 * 0.00248)
    assert "moves" not in told
    unknown = solve(parse(text().replace('"cherry"', '"bog oak"'), "medlar.toml"))
    assert "not known" in values(table(work_for(unknown), "floating"))["moves"]


def test_a_solid_base_has_none_of_it():
    plan = solve(parse(re.sub('base = "floating"', 'base = "solid"', text()), "medlar.toml"))
    assert plan.stack.floating is None
    assert [note.key for note in plan.notes if note.code == "no-floating"] == ["floating.species"]
    assert not {"groove-gauge", "tongue-gauge"} & {part.name for part in parts_of(plan)}


def test_its_set_passes_the_dry_fit_and_a_gauge_without_room_to_move_does_not(tmp_path):
    file = tmp_path / "medlar.toml"
    file.write_text(text())
    job = load(file)
    folder = jigs_made(job, tmp_path)
    assert not dry_fit(job, folder, sheets=False).misfits
    work, files = work_of(job), Files.of(job, folder)
    assert all(check.fits for check in floating_checks(work, files))
    (other,) = (
        part for part in parts_of(plan_of(more="driest = 8\nwettest = 8")) if part.name == "groove-gauge"
    )
    write_stl(other, in_set(folder, "print/groove-gauge.stl"))
    failed = [check.what for check in floating_checks(work, Files.of(job, folder)) if not check.fits]
    assert failed == ["lies on its ledge, driest and pushed aside"]


def test_no_plate_is_named_for_the_ring_that_is_bored_round():
    plated = {ring for plate in plan_of().ring_boards.centring for ring in plate.rings}
    assert {1, 3} <= plated
    assert 2 not in plated
