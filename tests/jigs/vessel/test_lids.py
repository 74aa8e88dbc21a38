"""Lids: their flange by their pot and the moisture, what refuses them and their steps."""

import re
from math import cos, pi

import pytest

from geometry.bodies.lid_fit import RimWood, as_narrow, held_out, inner_sag, outer_sag
from jigs.asked import toml_source
from jigs.asked.jobfile import load
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.measured.lid import lid_advice
from jigs.remedies.offered import remedies
from jigs.sets.rack import prove, rack
from jigs.words.findings import Refused
from tests.conftest import CONFIGS
from tests.jigs.vessel.lids import LID, REBATE, WHOLE, example, lid_of, plan_of, refusal, written

BOW = 44 * (1 - cos(pi / 12))  # of the mouth between two joints of twelve segments, mm


def test_the_flange_is_what_snug_leaves_between_two_rings_at_their_wettest():
    """Walnut's mouth 8 mm wide, maple's and walnut's flange; GTR-190, table 13-5: walnut 0.00274, maple 0.00353."""
    plan = example()
    flange_wall = 44 - 75 / 2
    inner, _ = plan.job.inside.profile.radii(25 - held_out(44, flange_wall), 33)
    # ring 2, walnut, holds the flange
    more = inner_sag(44, 12) + outer_sag(44, inner, 12)
    swollen = 6 * 0.00274 * (8 + as_narrow(44, inner) + more) / 2
    assert plan.lid.flange / 2 == pytest.approx(44 - 0.15 - swollen, abs=1e-6)
    assert plan.section.rim_radius == pytest.approx(plan.lid.flange / 2)
    assert (plan.lid.rests, plan.section.height) == ("rim", 33)


def test_a_flat_top_of_segments_spreads_the_flange_that_stands_on_it(tmp_path):
    """Closed over the middle, its rim moves by 1 / (1 + k) of its radius's swelling, k^2 = 10 (see `as_narrow`)."""
    flat = ("  [12, 24],\n  [22, 75, 40],\n", "  [21, 75],\n")
    fit = load(written(tmp_path, lid=[flat])).pot.fit
    assert 44 - fit.flange - 0.15 == pytest.approx(
        6 * 0.00274 * (8 / 2 + 44 / (1 + 10**0.5) + 2.8 * BOW), abs=1e-3
    )


def test_a_shallow_dome_of_one_wall_spreads_the_flange_that_stands_on_it(tmp_path):
    """Its wall, 4 mm square to a slope of 5 in 2, is 10.8 mm wide level, where the flange begins."""
    inside, outside = (
        re.search(rf"\[{name}\]\nedges = .*?\n\]\n", LID, re.S)[0] for name in ("inside", "profile")
    )
    cone = "[profile]\nedges = [[0, 20], [20, 96], [22, 106]]\n"
    fit = load(written(tmp_path, [(inside, ""), (outside, cone), ("least = 4", "thickness = 4")])).pot.fit
    level = 4 * (1 + 2.5**2) ** 0.5
    moved = as_narrow(44, 44 - level) + outer_sag(44, 44 - level, 12)
    assert fit.lid.width == pytest.approx(moved, rel=1e-4)
    assert fit.lid.width > 1.5 * (as_narrow(44, 40) + outer_sag(44, 40, 12))


@pytest.mark.parametrize(
    ("more", "round", "wood"),
    [
        # Twelve strips of 2 mm, their grain across the lid, are 24 mm of its rim; walnut moves less than maple.
        ("spacer = 2", 24 / (2 * pi), 0.00274),
        ('spacer = 2\nspacer_species = "maple"', 24 / (2 * pi), 0.00353),
        # Plies that slant by 35 degrees move round the ring by the square of its sine; on the ends they do wholly.
        ('[layup]\nplies = [["beech", 3], ["walnut", 2]]\nangle = 35', 44 * 0.329, 0.00431),
        ('[layup]\nplies = [["beech", 3], ["walnut", 2]]\nangle = 35\nplane = "end"', 44, 0.00431),
        ('[layup]\nplies = [["beech", 3], ["walnut", 2]]\nangle = 35\nrings = [1]', 0, 0.00274),
    ],
)
def test_wood_whose_grain_does_not_run_round_moves_the_flange_by_its_radius(tmp_path, more, round, wood):
    rings = '[rings]\nheights = [20, 18]\nsegments = 12\nspecies = ["maple", "walnut"]\n'
    assert rings in LID
    plain, fit = (
        load(written(tmp_path, lid=[(rings, rings + added)])).pot.fit for added in ("", f"{more}\n")
    )
    assert fit.lid.round == pytest.approx(round, rel=1e-3)
    assert fit.lid.swells == pytest.approx(6 * wood)
    assert fit.gap - fit.least >= plain.gap - plain.least + 6 * wood * round - 1e-6


def test_plies_round_a_mouth_close_it_as_they_dry():
    wood = RimWood(False, 8, 0.02, 0.01, round=20)
    assert wood.closed(44) == pytest.approx(20 * 0.02)
    assert wood.opened(44) == pytest.approx(20 * 0.01)


def test_a_shoulder_near_the_mouth_closes_it_more(tmp_path):
    jar = ("[40, 104, 60],\n  [75, 104]", "[40, 170],\n  [66, 104],\n  [75, 104]")
    straight, shouldered = (load(written(tmp_path, pot=pot)).pot.fit for pot in ([], [jar]))
    assert shouldered.pot.width > straight.pot.width + 2


def test_a_lid_out_of_one_disc_gets_the_room_that_solid_wood_moves(tmp_path):
    plan = plan_of(tmp_path, lid=[WHOLE, ("[rings]", '[rings]\nbase = "solid"')])
    radius = plan.lid.flange / 2
    assert [layer.kind for layer in plan.stack.layers] == ["disc"]
    assert radius * (1 + 6 * 0.00353) + 0.15 + 6 * 0.00274 * (4 + 0.6 * BOW) == pytest.approx(44, abs=1e-6)
    assert "lid-loose" in {note.code for note in plan.notes}


def test_no_change_of_moisture_leaves_the_stated_gap_alone(tmp_path):
    still = "seat = 8\ngap = 0.4\nmoisture = 9\ndriest = 9\nwettest = 9"
    lid = lid_of(tmp_path, lid=[("seat = 8", still)])
    assert (lid.fit.gap, lid.fit.widest) == (pytest.approx(0.4), pytest.approx(0.4))


def test_a_mouth_as_measured_moves_the_flange_with_it(tmp_path):
    lid = lid_of(tmp_path, lid=[("seat = 8", "seat = 8\nmouth_diameter = 88.6")])
    assert lid.flange - example().lid.flange == pytest.approx(0.6, abs=2e-2)  # its wall with it
    assert lid.pot_mouth == 88.6


def test_the_flange_follows_the_mouth_as_it_was_read_by_its_smaller_reading(tmp_path):
    file = written(tmp_path)
    read = tmp_path / "acorn-lid.readings.toml"
    read.write_text("[lid_pot.measure]\nmouth = [88.9, 88.4]\n", "utf-8")
    plan = solve(load(file))
    assert plan.lid.flange - example().lid.flange == pytest.approx(0.4, abs=1e-2)
    (advice,) = lid_advice(plan)
    assert (advice.verdict, len(advice.says)) == ("correct", 2)
    read.write_text("[lid_pot.measure]\nmouth = [8.84]\n", "utf-8")
    slip = solve(load(file))
    assert slip.lid.flange == pytest.approx(example().lid.flange)
    assert [one.verdict for one in lid_advice(slip)] == ["unclear"]
    read.write_text("[lid_pot.measure]\nmouth = [88.0, 88.1]\n", "utf-8")
    assert [one.verdict for one in lid_advice(solve(load(file)))] == ["right"]


def test_a_mouth_that_narrows_below_its_rim_sets_the_flange_by_its_narrowest(tmp_path):
    lid = lid_of(tmp_path, pot=[("[75, 104]", "[75, 106]")])
    inner = lid.pot_section.inner
    assert lid.fit.mouth == pytest.approx(inner.radius_at(67), abs=1e-3)
    assert lid.fit.mouth < lid.pot_section.mouth_radius


def test_a_lid_in_a_rebate_lies_on_its_ledge_or_on_the_rim_by_its_flange(tmp_path):
    on_rim = lid_of(tmp_path, lid=[("seat = 8", "seat = 4")], pot=[REBATE])
    on_ledge = lid_of(tmp_path, pot=[REBATE])
    assert (on_rim.rests, on_rim.over, on_rim.over_floor) == ("rim", 0, 1)
    assert (on_ledge.rests, on_ledge.over) == ("ledge", 3)
    assert on_ledge.fit.mouth == pytest.approx(47)
    assert on_ledge.bears == pytest.approx(on_ledge.fit.flange - 44 - on_ledge.fit.widest)


@pytest.mark.parametrize(
    ("lid", "pot"), [((), [REBATE]), ((), [(REBATE[0], REBATE[1].replace("depth = 5", "depth = 6.9"))])]
)
def test_a_lid_that_stands_off_the_rim_is_warned_about_and_either_remedy_closes_it(tmp_path, lid, pot):
    def off(lid, pot):
        notes = plan_of(tmp_path, lid, pot).notes
        return [one for one in notes if one.code == "lid-stands-off"]

    (told,) = off(lid, pot)
    deep = float(re.search(r"depth = ([\d.]+)", pot[0][1])[1])
    assert f"stands {8 - deep:.1f} mm off the rim" in told.message
    seat, rebate = (float(size) for size in re.findall(r"([\d.]+) mm", told.remedy))
    assert (seat, rebate) == (pytest.approx(deep + 0.3), pytest.approx(7.7))
    assert off([("seat = 8", f"seat = {seat}")], pot) == []
    assert off(lid, [(REBATE[0], REBATE[1].replace("depth = 5", f"depth = {rebate}"))]) == []


@pytest.mark.parametrize(
    ("seat", "depth", "offered"),
    [
        (4, 1, "make the pot's rebate 3.7 mm deep"),  # no seat is as short as 1.3 mm
        (60, 5, "use a seat of 5.3 mm"),  # 59.7 mm down the pot is narrower than a rebate 3 mm wide
        (60, 1, "use a shorter seat, and a deeper rebate in the pot"),
    ],
)
def test_what_a_lid_off_its_rim_is_offered_can_be_had(tmp_path, seat, depth, offered):
    lid, pot = (
        [("seat = 8", f"seat = {seat}")],
        [(REBATE[0], REBATE[1].replace("depth = 5", f"depth = {depth}"))],
    )
    (told,) = [one for one in plan_of(tmp_path, lid, pot).notes if one.code == "lid-stands-off"]
    assert told.remedy == offered


@pytest.mark.parametrize(
    ("lid", "pot", "code", "key"),
    [
        ([('pot = "acorn"', 'pot = "acron"')], [], "no-pot", "lid.pot"),
        ([('pot = "acorn"', 'pot = "acorn-lid"')], [], "no-pot", "lid.pot"),
        ([('pot = "acorn"\n', "")], [], "missing-key", "lid.pot"),
        ([("seat = 8", "seat = 8\ndriest = 10")], [], "bad-order", "lid.driest"),
        ([], [("thickness = 8", "thickness = 60")], "no-pot", "lid.pot"),
        ([("[25, 106]", "[25, 88]")], [], "lid-bears", "profile"),
        ([("seat = 8", "seat = 4.5")], [REBATE], "lid-deep", "lid.seat"),
        ([("seat = 8", "seat = 75")], [], "lid-deep", "lid.seat"),  # through the pot's floor
        ([("seat = 8", "seat = 5")], [REBATE], "lid-twice", "lid.seat"),
        ([], [("[rings]", "[rebate]\nwidth = 3\n\n[rings]")], "missing-key", "rebate.depth"),
        ([], [("[rings]", "[rebate]\nwidth = 9\ndepth = 5\n\n[rings]")], "no-inside", "rebate"),
    ],
)
def test_what_cannot_be_a_lid_is_refused_at_its_key(tmp_path, lid, pot, code, key):
    found = refusal(tmp_path, lid, pot)
    assert code in found
    assert found[code].key == key


def test_a_flange_through_the_pots_floor_is_offered_a_seat_that_passes(tmp_path):
    """As far down as the pot is straight."""
    found = refusal(tmp_path, [("seat = 8", "seat = 75")])["lid-deep"]
    (most,) = re.findall(r"a seat of at most ([\d.]+) mm", found.remedy)
    assert 30 < float(most) <= 35
    assert plan_of(tmp_path, [("seat = 8", f"seat = {most}")]).lid
    narrows = refusal(tmp_path, [("seat = 8", "seat = 75")], [("[75, 104]", "[75, 106]")])["lid-deep"]
    assert narrows.remedy.lower() == "use a shorter seat", "it narrows from its rim: no number holds"


@pytest.mark.parametrize(("seat", "rim"), [(50, 104), (60, 104), (75, 104), (75, 106), (200, 106)])
def test_a_flange_that_reaches_where_the_pot_narrows_is_offered_a_shorter_one(tmp_path, seat, rim):
    """Or through its floor; of 106 mm at the rim it narrows from there."""
    pot = [("[75, 104]", f"[75, {rim}]")]
    file = written(tmp_path, [("seat = 8", f"seat = {seat}")], pot)
    first = remedies(toml_source.read(file), file)[0]
    assert [change.key for change in first.changes] == ["lid.seat"]
    assert plan_of(tmp_path, [("seat = 8", f"seat = {first.changes[0].value}")], pot).lid


def test_a_lids_pot_is_no_lid_and_no_torus(tmp_path):
    written(tmp_path)
    for name in ("acorn-lid", "garland"):
        (tmp_path / "garland.toml").write_bytes((CONFIGS / "garland.toml").read_bytes())
        (tmp_path / "other.toml").write_text(LID.replace('pot = "acorn"', f'pot = "{name}"'), "utf-8")
        with pytest.raises(Refused) as caught:
            load(tmp_path / "other.toml")
        assert [found.code for found in caught.value.findings] == ["no-pot"]


def test_a_lid_warns_that_its_pots_own_job_is_refused_and_why(tmp_path):
    """The pot's shape stands, so that the lid has a mouth to fit; its one ring is too high for the saw."""
    file = written(tmp_path, pot=[("heights = 16", "heights = 160")])
    with pytest.raises(Refused) as of_pot:
        prove(load(tmp_path / "acorn.toml"))
    (warning,) = [note for note in prove(load(file)).notes if note.code == "pot-refused"]
    assert (warning.severity, warning.key) == ("warning", "lid.pot")
    assert of_pot.value.findings[0].message in warning.message
    assert "acorn" in warning.message


def test_a_lid_of_a_pot_that_can_be_made_warns_of_nothing_there():
    assert "pot-refused" not in {note.code for note in rack(example())[1]}


def test_its_steps_measure_the_pot_before_the_outside_and_fit_the_flange_before_it_is_reversed():
    plan = example()
    ids = [operation.id for operation in work(plan, parts_of(plan)).operations]
    measure, outside, fit = (ids.index(id) for id in ("lid_pot.measure", "outside.round", "lid_fit.flange"))
    assert measure < outside < ids.index("inside.sand") < fit < ids.index("reversing.held")
    assert ids[-1] == "lid_on.on"


def test_a_lids_steps_call_its_top_and_its_hollow_by_their_names():
    """Only of the pot is a mouth told."""
    told = work(example(), parts_of(example()))
    lines = [
        line
        for one in told.operations
        if not one.stage.startswith("lid")
        for line in (
            one.does,
            *one.how,
            *(setting.label for setting in one.settings),
            *(text for check in one.checks for text in (check.how, check.if_not)),
            *(note for use in one.jigs for note in use.notes),
        )
    ]
    wrong = re.compile(r"\b(vessel|mouth|floor|finished foot|the foot|a foot)\b", re.IGNORECASE)
    assert [line for line in lines if wrong.search(line)] == []
    assert any("the top" in line for line in lines)
    assert any("the hollow" in line for line in lines)


SLIM = """title = "Slim"
workshop_file = "shed"
[lid]
pot = "acorn"
fit = "snug"
seat = 8
[profile]
edges = [[0, 20], [{0}], [23, 99], [30, 106]]
[inside]
edges = [[25, 12], [28, 74], [30, 75]]
[wall]
least = 2
[rings]
heights = [20, 23]
segments = 12
species = "maple"
"""


@pytest.mark.parametrize(
    ("waist", "place"), [("17, 36", "thick, at the top: "), ("17, 15", "mm from the top: ")]
)
def test_a_slim_place_is_told_from_the_lids_top(tmp_path, waist, place):
    """Where it begins on the lathe; nobody sees a height 0 in a lid."""
    slim = written(tmp_path).with_name("slim.toml")
    slim.write_text(SLIM.format(waist), "utf-8")
    (told,) = [note for note in solve(load(slim)).notes if note.code == "slim-stem"]
    assert place in told.message


def test_a_lid_that_is_not_held_is_told_so_in_a_lids_words(tmp_path):
    """It has a top and a hollow, no foot and no mouth."""
    slim = written(tmp_path).with_name("slim.toml")
    slim.write_text(SLIM.format("17, 36") + '[reversing]\nhold = "taper"\n', "utf-8")
    with pytest.raises(Refused) as caught:
        solve(load(slim))
    (found,) = caught.value.findings
    assert found.message.startswith("a taper jammed into the hollow does not hold it: next to the hollow")
    assert not re.search(r"\b(foot|mouth|floor)\b", f"{found.message} {found.remedy}")
