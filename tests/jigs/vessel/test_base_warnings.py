"""Warnings about a vessel's base, its rim's joint and the woods round its rings."""

import re
from dataclasses import replace

import pytest

from jigs.asked.defaults import WIDE_DISC
from jigs.asked.jobfile import parse
from jigs.asked.woods import SPECIES
from jigs.dryfit.vessel.rings import solids_of
from jigs.dryfit.vessel.work import work_of
from jigs.stages.finished_form.check.section import shape_findings
from jigs.stages.finished_form.solve import thinnest
from jigs.stages.solids.check.base import base_findings, moves
from jigs.stages.stack.check import middle_findings
from tests.jigs.vessel.held import made, number, solved


def warned(asked):
    section, stack, _ = solved(asked)
    return {f.code: f for f in base_findings(asked, section, stack, thinnest(section))}


def disc(width, species="maple", base="solid"):
    return parse(
        f'title = "Disc"\n[profile]\nedges = [[0, {width}], [90, {width}]]\n[wall]\nthickness = 6\nfloor = 10\n'
        f'[rings]\nheights = 20\nsegments = 12\nspecies = "{species}"\n'
        + (f'base = "{base}"\n' if base else ""),
        "disc.toml",
    )


def test_a_wide_disc_says_how_far_it_moves():
    found = warned(disc(100))["disc-moves"]
    assert found.severity == "warning"
    # 100 mm of sugar maple, 8 % of moisture: 100 * 0.00353 * 8 (GTR-190, table 13-5).
    assert moves(100, "maple") == pytest.approx(2.824)
    assert "2.82 mm" in found.message
    assert 'base = "segmented"' in found.remedy
    # A strain of .009 (Mecklenburg, Tumosa and Erhardt, 1998) over .00353.
    assert "2.5 % drier" in found.message


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("width", [74.9, 75.6, 76.3])
def test_the_dry_fit_looks_for_a_disc_where_the_job_has_one(unit, width):
    asked = replace(disc(width, base=""), unit=unit)
    _, stack, _ = solved(asked)
    discs = [layer.number for layer in stack.layers if layer.kind == "disc"]
    assert [solid.number for solid in solids_of(work_of(asked))] == discs
    assert discs == ([1] if width < WIDE_DISC[unit] else [])


@pytest.mark.parametrize(("wide", "told"), [(160, True), (60, False)])
def test_staves_say_how_far_they_move_in_a_ring_that_does_not(wide, told):
    """Their grain runs along the axis: round 152 mm of walnut, 8 % of moisture, by 152 * 0.00274 * 8."""
    text = (
        f'title = "Staved"\n[profile]\nedges = [[0, {wide}], [120, {wide}]]\n[wall]\nthickness = 8\nfloor = 10\n'
        '[rings]\nheights = [20, 20]\nsegments = 12\nspecies = "maple"\nbase = "segmented"\n'
        '[staves]\nlow = 17\nhigh = 100\ncount = 12\nspecies = ["walnut"]\n'
    )
    found = warned(parse(text, "staved.toml")).get("staves-move")
    assert (found is not None) == told
    if found:
        assert found.severity == "warning"
        assert "160.0 mm across where ring" in found.message
        assert "3.33 mm" in found.message


@pytest.mark.parametrize("upright", [False, True])
def test_staves_on_a_disc_move_where_it_lies_along_its_grain(upright):
    """Wood hardly moves lengthwise; the staves' grain, and an upright disc's, runs along the axis."""
    text = (
        'title = "Staved"\n[profile]\nedges = [[0, 150], [150, 80]]\n[wall]\nthickness = 8\nfloor = 12\n'
        f'[rings]\nheights = 20\nsegments = 12\nspecies = "maple"\nbase = "solid"\n{"upright = [1]" * upright}\n'
        '[staves]\nlow = 17\nhigh = 117\ncount = 12\nspecies = ["walnut"]\n'
    )
    found = warned(parse(text, "staved.toml"))
    assert "segments across" not in found["disc-moves"].message
    assert ("of staves" in found["disc-moves"].message) == (not upright)
    message = found["staves-move"].message
    assert f"ring {3 if upright else 1} is glued" in message
    assert upright or "2.93 mm" in message  # (142.07 - 8.35) * 0.00274 * 8
    assert ("runs round" if upright else "along its grain") in message


def test_a_wood_that_is_not_known_is_taken_as_the_liveliest():
    """Overcup oak, tangentially: 0.00462 (GTR-190, table 13-5)."""
    assert moves(100, "greenheart") == pytest.approx(100 * 8 * 0.00462)
    assert moves(100, "greenheart") > max(moves(100, name) for name in SPECIES)
    assert "liveliest" in warned(disc(100, "greenheart"))["disc-moves"].message


def test_a_disc_no_wider_than_that_is_let_be():
    assert not set(warned(disc(WIDE_DISC["mm"])))
    assert set(warned(disc(WIDE_DISC["mm"] + 1))) == {"disc-moves"}


def test_a_segmented_base_ends_the_warning():
    assert 'base = "segmented"' in warned(disc(100))["disc-moves"].remedy
    assert not set(warned(disc(100, base="segmented")))


@pytest.mark.parametrize("width", [40, WIDE_DISC["mm"], WIDE_DISC["mm"] + 1, 100, 250, 310])
def test_what_the_job_gets_without_asking_is_not_warned_about(width):
    asked = disc(width, base=None)
    section, stack, _ = solved(asked)
    assert stack.layers[0].kind == ("disc" if width <= WIDE_DISC["mm"] else "segments")
    assert (stack.layers[0].plug > 0) == (width > WIDE_DISC["mm"])
    found = [
        *base_findings(asked, section, stack, thinnest(section)),
        *middle_findings(asked, section, stack),
    ]
    assert not [one.code for one in found]


@pytest.mark.parametrize(
    ("width", "kind"), [(262, "segments"), (300, "segments"), (315, "segments"), (340, "disc")]
)
def test_a_base_left_open_is_no_solid_disc_while_a_plug_keeps_its_segments_as_deep_as_usual(width, kind):
    asked = disc(width, base=None)
    _, stack, _ = solved(asked)
    base = stack.layers[0]
    assert base.kind == kind
    assert ("disc-moves" in warned(asked)) == (kind == "disc")
    if kind == "segments":
        assert base.ring.outer - base.ring.core <= 130.0
        assert base.plug <= WIDE_DISC["mm"]  # so that it is not felt to move itself
        assert base.plug == 14 or base.ring.outer - base.ring.core > 129.0
    assert [solid.number for solid in solids_of(work_of(asked))] == ([1] if kind == "disc" else [])


def test_the_ring_glued_across_the_grain_is_the_one_over_the_disc():
    asked = disc(100)
    _, stack, _ = solved(asked)
    found = warned(asked)["disc-moves"]
    numbers = [int(n) for n in re.findall(r"ring (\d+)", found.message)]
    kinds = [layer.kind for number in numbers for layer in stack.layers if layer.number == number]
    assert kinds == ["disc", "segments"]
    assert "100.0 mm across, half of its segments across its grain" in found.message


def rim(wall, least=3.0):
    return made([[0, 90], [90, 90]], wall=wall, extra=f"least_glue = {least}")


@pytest.mark.parametrize(
    ("wood", "thin", "least"), [("maple", 3.5, 3.6), ("white pine", 3.8, 3.9), ("fir", 4.9, 5.0)]
)
def test_a_wall_that_a_push_at_one_place_breaks_says_how_thick_would_stand_it(wood, thin, least):
    """6 x 30 / 10 / (0.6 x 2.4) is 3.54 squared: 2.0 of pine, 1.2 of fir. One piece of twenty breaks at 0.6 of that."""

    def of(wall):
        return warned(
            replace(rim(wall, least=1.0), rings=replace(rim(wall, least=1.0).rings, species=((wood,),)))
        )

    found = of(thin)["poked-wall"]
    assert found.severity == "warning"
    assert number(found.remedy, "make it at least") == least
    assert "poked-wall" not in of(least)


@pytest.mark.parametrize("woods", [(("maple",), ("fir",)), (("fir",), ("maple",))])
def test_a_wall_as_thick_as_the_thinnest_is_judged_where_its_wood_is_weaker(woods):
    job = rim(4.9, least=1.0)
    found = warned(replace(job, rings=replace(job.rings, species=woods)))["poked-wall"]
    assert number(found.remedy, "make it at least") == 5.0


@pytest.mark.parametrize(
    ("high", "wood", "thin", "least"),
    [(90, "walnut", 7.5, 7.6), (90, "fir", 10.3, 10.4), (70, "fir", 7.3, 7.4)],
)
def test_a_push_bends_staves_across_their_grain_at_a_free_rim_most(high, wood, thin, least):
    """6 x 30 x 0.46 / (0.6 x 2.4) is 7.6 squared, 0.43 of fir 10.4; 0.21 under a ring of 20 mm 7.4."""

    def of(wall):
        staves = f'[staves]\nlow = 20\nhigh = {high}\ncount = 12\nspecies = ["{wood}"]'
        return warned(made([[0, 90], [90, 90]], wall=wall, extra=f"least_glue = 1\n{staves}"))

    found = of(thin)["poked-wall"]
    assert "bends the staves there across their grain" in found.message
    height = number(found.message, "at height")
    assert height >= 90 - 2 * thin if high == 90 else height <= high
    assert number(found.remedy, "make it at least") == least
    assert "poked-wall" not in of(least)


@pytest.mark.parametrize(("rim", "told"), [(7.0, True), (8.0, False)])
def test_of_staves_only_the_wall_at_their_rim_is_held_as_a_free_rim(rim, told):
    staves = '[staves]\nlow = 20\nhigh = 90\ncount = 12\nspecies = ["walnut"]'
    job = made([[0, 90], [90, 90]], extra=f"least_glue = 1\n{staves}")
    rows = ((0.0, 6.0), (60.0, 6.0), (75.0, rim), (90.0, rim))
    assert ("poked-wall" in warned(replace(job, wall=replace(job.wall, by_height=rows)))) == told


def test_a_floor_close_under_the_rim_asks_for_a_thicker_wall_and_is_named():
    def of(wall, high):
        return warned(made([[0, 150], [high, 150]], wall=wall, corner=1, extra="least_glue = 1"))

    found = of(3.7, 20)["poked-wall"]
    assert "at the floor, only 10.0 mm under the rim" in found.message
    least = number(found.remedy, "make it at least")
    assert "poked-wall" not in of(least, 20)
    assert "poked-wall" in of(round(least - 0.1, 1), 20)
    assert "poked-wall" not in of(3.7, 40)
    assert "floor" not in of(2.7, 90)["poked-wall"].message


def test_a_thin_rim_joint_says_how_much_thicker_the_wall_has_to_be():
    found = warned(rim(4.0))["thin-rim-joint"]
    more = number(found.remedy, "make the wall")
    assert more == 0.5
    assert "thin-rim-joint" not in warned(rim(4.0 + more))
    assert "thin-rim-joint" not in warned(rim(4.0, least=2.6))


def pattern(count, woods=("ash", "walnut", "cherry", "beech", "maple")):
    names = ", ".join(f'"{name}"' for name in woods)
    return parse(
        f'title = "Pattern"\n[profile]\nedges = [[0, 90], [90, 90]]\n[wall]\nthickness = 6\nfloor = 10\n'
        f'[rings]\nheights = 20\nsegments = {count}\nspecies = ["ash", [{names}]]\n',
        "pattern.toml",
    )


def test_woods_that_do_not_close_round_a_ring_are_noted_with_the_counts_that_do():
    found = warned(pattern(24))["open-pattern"]
    assert found.severity == "note"
    counts = [int(n) for n in re.findall(r"\d+", found.remedy)]
    assert counts == [20, 25]
    assert found.message.endswith("24 pieces of rings 2 to 5")
    for count in counts:
        assert "open-pattern" not in warned(pattern(count))


def test_a_hollow_that_cuts_through_a_flat_outside_is_refused():
    def tray(across, deep):
        return parse(
            'title = "Tray"\n[profile]\nedges = [[0, 220], [3, 180], [60, 200]]\n[wall]\nthickness = 5\nfloor = 9\n'
            f"[foot]\nrecess_diameter = {across}\nrecess_depth = {deep}\n"
            '[rings]\nheights = 22\nsegments = 12\nspecies = "maple"\n',
            "tray.toml",
        )

    for across in (200, 180):
        (found,) = shape_findings(tray(across, 2.5))
        assert (found.code, found.key) == ("no-foot", "foot.recess_diameter")
        assert "under the outside" in found.message
        most = re.search(r"at most ([\d.]+) mm", found.remedy)
        assert most is not None
        assert not list(shape_findings(tray(float(most[1]), 2.5)))
    assert not list(shape_findings(tray(150, 2.5)))
