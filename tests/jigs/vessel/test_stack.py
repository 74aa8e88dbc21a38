"""The stack of rings against the section it holds, and what refuses it."""

import itertools
from math import cos, pi

import numpy as np
import pytest

from jigs.asked.jobfile import parse
from jigs.asked.woods import weight
from jigs.figures.items import Shape
from jigs.figures.turning.stacking import LIFT, ring_on
from jigs.forms.form import parts_of
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.sets.rack import draw
from jigs.stages.finished_form.solve import solve_section
from jigs.stages.stack.check import stack_findings, staves_findings
from jigs.stages.stack.solve.whole import solve_stack
from jigs.words.findings import Refused
from tests.jigs.vessel.jobs import JOBS, job, text

ANGLES = np.linspace(0, 2 * pi, 721)


def stacked(asked):
    section = solve_section(asked)
    return section, solve_stack(asked, section)


def apothem_to(angle, count):
    """How far a regular polygon's side lies in a direction, for an apothem of 1."""
    return 1 / np.cos((angle + pi / count) % (2 * pi / count) - pi / count)


@pytest.mark.parametrize("name", JOBS)
def test_the_finished_wall_and_its_allowance_lie_in_the_wood_all_round(name):
    asked = job(name)
    section, stack = stacked(asked)
    allowance = asked.rings.turning_allowance
    for layer in stack.layers:
        ring = layer.ring
        for z in np.linspace(ring.bottom + 1e-6, ring.top - 1e-6, 41):
            need = section.needs(z, z, allowance)
            if need is None:
                continue
            outer, inner = ring.outer, layer.filled.core
            if layer.kind == "staves":
                outer, inner = stack.staves.outer_at(z), stack.staves.inner_at(z)
            if not ring.segments:
                assert need[1] <= outer + 1e-6
                continue
            assert (need[1] <= outer * apothem_to(ANGLES, ring.segments) + 1e-6).all()
            assert (need[0] >= inner * apothem_to(ANGLES, ring.segments) - 1e-6).all() or need[
                0
            ] == inner == 0


@pytest.mark.parametrize("name", JOBS)
def test_rings_stand_on_each_other_from_under_the_foot_to_over_the_rim(name):
    section, stack = stacked(job(name))
    assert stack.bottom == -stack.allowance
    for lower, upper in zip(stack.layers, stack.layers[1:], strict=False):
        assert upper.ring.bottom == pytest.approx(lower.ring.top)
        assert upper.number == lower.number + 1
    assert stack.layers[-1].ring.bottom < section.height <= stack.top


@pytest.mark.parametrize("name", JOBS)
def test_every_joint_keeps_its_glue_face(name):
    asked = job(name)
    section, stack = stacked(asked)
    for joint in stack.joints:
        assert joint.finished >= asked.rings.least_glue
        assert joint.rough >= joint.finished - 1e-6
    assert not [f for f in stack_findings(asked, section, stack) if f.severity == "refused"]


def test_a_wall_too_thin_to_glue_is_refused_and_the_remedy_works():
    thin = (
        text("vase")
        .replace("thickness = 7", "thickness = 7")
        .replace('thickness = "7 mm"', 'thickness = "2.5 mm"')
    )
    asked = parse(thin, "vase.toml")
    found = [f for f in stack_findings(asked, *stacked(asked)) if f.severity == "refused"]
    assert {f.code for f in found} == {"no-glue-face"}
    mended = parse(thin.replace("[rings]", "[rings]\nleast_glue = 2"), "vase.toml")
    assert not [f for f in stack_findings(mended, *stacked(mended)) if f.severity == "refused"]


def test_gaps_that_leave_no_glue_face_are_refused_and_the_remedy_works():
    wide = text("open").replace('gap = "5 mm"', 'gap = "14 mm"')
    asked = parse(wide, "open.toml")
    (finding,) = [f for f in stack_findings(asked, *stacked(asked)) if f.severity == "refused"]
    most = finding.remedy.partition("at most ")[2].partition(",")[0]
    mended = parse(wide.replace('gap = "14 mm"', f'gap = "{most}"'), "open.toml")
    assert not [f for f in stack_findings(mended, *stacked(mended)) if f.severity == "refused"]


@pytest.mark.parametrize(
    ("change", "key"), [(("segments = 8", "segments = [8, 8, 10, 8]"), "rings.segments"),
                        (('species = "maple"', 'species = "maple"\nturn = 0'), "rings.turn"),
                        (('species = "maple"', 'species = "maple"\nturn = 0.1'), "rings.turn")]
)  # fmt: skip
def test_open_rings_that_nothing_ties_are_refused(change, key):
    asked = parse(text("open").replace(*change), "open.toml")
    assert key in {f.key for f in stack_findings(asked, *stacked(asked)) if f.severity == "refused"}


def test_heights_are_those_of_the_list_and_its_last_goes_on():
    _, stack = stacked(
        parse(text("vase").replace('heights = "20 mm"', "heights = [15, 30, 25]"), "vase.toml")
    )
    heights = [layer.ring.height for layer in stack.layers]
    assert heights[:2] == [15, 30]
    assert set(heights[2:]) == {25}


def test_a_list_of_heights_that_does_more_than_fill_the_vessel_is_refused():
    asked = parse(text("cup").replace('heights = "12 mm"', f"heights = {[12] * 12}"), "cup.toml")
    with pytest.raises(Refused, match="Leave the last"):
        stacked(asked)


STOCK = '[stock]\nboards = [{species = "maple", thickness = 12}, {species = "maple", thickness = 30}]'


def test_fewest_rings_are_fewer_and_least_wood_is_less_than_the_other_choice():
    found = {}
    for choice in ("fewest rings", "least wood"):
        asked = parse(
            text("vase", more=STOCK).replace('heights = "20 mm"', f'heights = "{choice}"'), "vase.toml"
        )
        found[choice] = stacked(asked)[1]
    fewest, least = found["fewest rings"], found["least wood"]
    assert len(fewest.layers) < len(least.layers)
    assert least.wood < fewest.wood
    assert fewest.choice.other_rings == len(least.layers)
    assert {layer.ring.height for layer in least.layers} <= {11.7, 29.7}


TWO_WOODS = """[stock]
boards = [
  {species = "walnut", thickness = 19, width = 150, length = 600},
  {species = "maple", thickness = 12, width = 150, length = 900, count = 2},
  {species = "maple", thickness = 26},
]"""


def of_two_woods(boards=TWO_WOODS):
    asked = text("vase", more=boards).replace('heights = "20 mm"', 'heights = "least wood"')
    return parse(asked.replace('"maple"\n', '["walnut", "maple"]\n'), "vase.toml")


def test_each_ring_is_as_high_as_a_board_of_its_wood():
    _, stack = stacked(of_two_woods())
    assert stack.layers[0].ring.height == 18.7
    assert {layer.ring.height for layer in stack.layers[1:]} <= {11.7, 25.7}


def test_a_wood_of_which_no_board_is_listed_is_named():
    with pytest.raises(Refused, match="no boards of walnut are listed"):
        stacked(of_two_woods(TWO_WOODS.replace("walnut", "cherry")))


@pytest.mark.parametrize("choice", ["fewest rings", "least wood"])
def test_a_ring_that_would_only_be_faced_away_over_the_rim_is_not_counted(choice):
    # Nine rings of 20 mm, flattened, end at 177 mm, the vessel at 176.5; its facing would ask for a tenth.
    asked = text("vase", more='[stock]\nboards = [{ species = "maple", thickness = "20.3 mm" }]\n')
    asked = asked.replace('heights = "20 mm"', f'heights = "{choice}"').replace("180", "176.5")
    _, stack = stacked(parse(asked, "vase.toml"))
    assert stack.layers[-1].ring.top - stack.bottom == pytest.approx(180)
    assert stack.choice.rings == len(stack.layers) == 9
    assert stack.choice.wood == pytest.approx(stack.wood)


def test_the_choice_counts_the_wood_that_the_stack_takes():
    _, stack = stacked(of_two_woods())
    assert stack.choice.wood == pytest.approx(stack.wood)


def test_a_ring_planed_to_nothing_under_staves_is_refused_and_the_remedy_works():
    thin = text("staved").replace('low = "45 mm"', 'low = "38 mm"')
    asked = parse(thin, "staved.toml")
    (finding,) = [f for f in stack_findings(asked, *stacked(asked)) if f.severity == "refused"]
    for low in (
        finding.remedy.partition("at ")[2].partition(",")[0],
        finding.remedy.rpartition("at ")[2].partition(" or")[0],
    ):
        mended = parse(thin.replace('low = "38 mm"', f'low = "{low}"'), "staved.toml")
        assert not [f for f in stack_findings(mended, *stacked(mended)) if f.severity == "refused"]


def test_choosing_from_boards_without_boards_is_refused():
    with pytest.raises(Refused, match="no boards are listed"):
        stacked(parse(text("vase").replace('heights = "20 mm"', 'heights = "least wood"'), "vase.toml"))


@pytest.mark.parametrize("name", [name for name in JOBS if name != "open"])
def test_the_weights_of_all_woods_are_that_of_the_finished_volume(name):
    section, stack = stacked(job(name))
    assert sum(volume for _, volume, _ in stack.weights) == pytest.approx(section.volume, rel=1e-6)
    assert stack.weight == pytest.approx(sum(weight(name, volume) for name, volume, _ in stack.weights))


def test_gaps_weigh_nothing():
    section, stack = stacked(job("open"))
    assert sum(volume for _, volume, _ in stack.weights) < 0.97 * section.volume


def test_the_centre_of_gravity_moves_towards_the_heavier_wood():
    heavy_foot = parse(text("vase").replace('"maple"', '["white oak", "white oak", "basswood"]'), "vase.toml")
    section, stack = stacked(heavy_foot)
    assert stack.centre_height < section.centre_height - 1
    assert stacked(job("vase"))[1].centre_height == pytest.approx(section.centre_height)


def test_an_unknown_wood_is_named_with_what_may_be_meant():
    asked = parse(text("vase").replace('"maple"', '"mapel"'), "vase.toml")
    (note,) = [f for f in solve(asked).notes if f.code == "unknown-wood"]
    assert note.severity == "note"
    assert 'did you mean "maple"?' in note.remedy


def test_segments_as_cut_close_their_ring_after_sanding():
    asked = job("bottle")
    _, stack = stacked(asked)
    for layer in stack.layers:
        if layer.cut is None:
            continue
        sanded = layer.cut.outer_edge - 2 * asked.rings.joint_sanding / cos(layer.ring.mitre)
        strip = layer.ring.spacer / cos(layer.ring.mitre)
        assert (sanded + strip) / 2 == pytest.approx(layer.ring.outer * np.tan(layer.ring.mitre))


def test_segments_beside_gaps_are_cut_to_their_size_for_nothing_sands_their_ends():
    """Put round by hand, ends 5 mm apart: corner to corner along the outside, the ring is as wide as planned."""
    plan = solve(job("open"))
    lines = {ring: line for line in plan.wood.lines for ring in plan.wood.lot(line.lot).rings}
    opened = [layer for layer in plan.stack.layers if layer.kind == "open"]
    assert opened
    for layer in opened:
        mitre, out = layer.ring.mitre, layer.ring.outer
        corner = np.array([layer.cut.outer_edge / 2, out])
        next_end = np.array(
            [np.sin(2 * mitre), np.cos(2 * mitre)]
        ) * out - layer.cut.outer_edge / 2 * np.array([np.cos(2 * mitre), -np.sin(2 * mitre)])
        across_gap = (next_end - corner) @ np.array([np.cos(mitre), -np.sin(mitre)])
        assert across_gap == pytest.approx(5, abs=1e-9)
        assert lines[layer.number].sanded == 0
        assert lines[layer.number].longer == pytest.approx(layer.cut.outer_edge)
    assert not any(
        ".sand" in one.id for one in work(plan, draw(plan).parts).operations if one.id.startswith("flat_")
    )


def test_half_the_rings_are_turned_by_half_a_segment():
    _, stack = stacked(job("vase"))
    assert [layer.turned for layer in stack.layers[1:]] == pytest.approx([pi / 12, 0] * 4 + [pi / 12])


def test_staves_end_where_they_are_asked_to_and_rings_below_are_planed_to_meet_them():
    _, stack = stacked(job("staved"))
    (band,) = [layer.ring for layer in stack.layers if layer.kind == "staves"]
    assert (band.bottom, band.top) == pytest.approx((45, 95))
    assert stack.layers[band.number - 2].ring.top == pytest.approx(45)


def test_staves_over_the_floor_are_refused():
    with pytest.raises(Refused, match="stave"):
        stacked(parse(text("staved").replace('low = "45 mm"', 'low = "5 mm"'), "staved.toml"))


def test_staves_over_the_rim_are_refused_and_the_remedy_works():
    high = text("staved").replace('high = "95 mm"', 'high = "300 mm"')
    asked = parse(high.replace('low = "45 mm"', 'low = "250 mm"'), "staved.toml")
    (finding,) = staves_findings(asked)
    most = finding.remedy.partition("at ")[2].partition(" or")[0]
    assert not list(staves_findings(parse(high.replace('low = "45 mm"', f'low = "{most}"'), "staved.toml")))


def test_a_blank_too_large_for_the_lathe_is_refused_and_the_remedy_works():
    small = "[lathe]\nswing_over_bed = 200"
    asked = parse(text("bowl", more=small), "bowl.toml")
    (finding,) = [f for f in stack_findings(asked, *stacked(asked)) if f.severity == "refused"]
    assert finding.code == "swing"
    swing = finding.remedy.partition("at least ")[2].partition(",")[0]
    mended = parse(text("bowl", more=small.replace("200", f'"{swing}"')), "bowl.toml")
    assert not [f for f in stack_findings(mended, *stacked(mended)) if f.severity == "refused"]


def test_a_blank_turns_clear_of_the_bed():
    """At least 3 mm all round."""
    plain = parse(text("bowl"), "bowl.toml")
    across = 2 * stacked(plain)[1].largest_radius
    for swing, codes in ((across + 2 * 3 - 0.1, ["swing"]), (across + 10.1, [])):
        asked = parse(text("bowl", more=f"[lathe]\nswing_over_bed = {swing}"), "bowl.toml")
        found = stack_findings(asked, *stacked(asked))
        assert [f.code for f in found if f.severity == "refused"] == codes


def test_boards_are_planed_thicker_by_what_flattening_takes():
    plain, thick = (
        text("vase").replace("segments = 12", f"segments = 12\nflattening = {f}") for f in (0, 0.5)
    )
    for asked, taken in ((plain, 0), (thick, 0.5)):
        plan = solve(parse(asked, "vase.toml"))
        for lot in plan.wood.lots:
            heights = {plan.stack.layers[number - 1].ring.height for number in lot.rings}
            assert {round(lot.thickness - height, 9) for height in heights} == {taken}
        assert plan.stack.top - plan.stack.bottom == pytest.approx(
            sum(la.ring.height for la in plan.stack.layers)
        )


@pytest.mark.parametrize("over", [0.0, 0.4])
def test_rings_that_end_at_the_rim_leave_nothing_to_face_and_the_remedy_works(over):
    def tall(height):
        edges = f"[[0, 80], [60, 140], [{180 - over}, 100]]"
        return parse(
            f'title = "T"\n[profile]\nedges = {edges}\n[wall]\nthickness = 6\n[rings]\nheights = [61, 61, {height}]\n'
            'segments = 12\nspecies = "maple"\n',
            "tall.toml",
        )

    def told(asked):
        section, stack = stacked(asked)
        assert len(stack.layers) == 3
        return [found for found in stack_findings(asked, section, stack) if found.code == "nothing-to-face"]

    (found,) = told(tall(61))
    assert found.severity == "refused"
    assert f"ends {over:.1f} mm over the rim" in found.message
    higher = float(found.remedy.split("at least ")[1].split(" mm")[0])
    assert not told(tall(higher))
    assert stacked(tall(higher))[1].top == pytest.approx(181.0 - over)


@pytest.mark.parametrize("low", [25, 45, 65])
def test_courses_of_one_count_are_turned_by_half_a_piece_on_the_one_below_staves_among_them(low):
    asked = parse(
        text("staved").replace('low = "45 mm"', f"low = {low}").replace("count = 16", "count = 12"), "s.toml"
    )
    _, stack = stacked(asked)
    courses = [layer for layer in stack.layers if layer.kind != "disc"]
    assert any(layer.kind == "staves" for layer in courses)
    for lower, upper in itertools.pairwise(courses):
        assert lower.ring.segments == upper.ring.segments == 12
        pitch = 2 * pi / 12
        assert (upper.turned - lower.turned) % pitch == pytest.approx(pitch / 2)


def rimmed(heights, boards=()):
    stock = f"[stock]\nboards = [{', '.join(boards)}]\n" if boards else ""
    return parse(
        'title = "Rim"\n[profile]\nedges = [[0, 90], [80, 90]]\n[wall]\nthickness = 7\n'
        f'[rings]\nheights = {heights}\nsegments = 12\nspecies = "maple"\n{stock}',
        "rim.toml",
    )


def test_a_top_ring_that_facing_takes_off_is_refused():
    _, stack = stacked(rimmed("[27.5, 27.5, 27.5, 20]"))  # its last joint is 0.5 mm under the rim
    assert stack.layers[-1].ring.bottom == pytest.approx(79.5)
    with pytest.raises(Refused, match=r"only 0.5 mm of ring 4"):
        solve(rimmed("[27.5, 27.5, 27.5, 20]"))
    assert solve(rimmed("[27.5, 27.5, 26, 20]"))


@pytest.mark.parametrize("choice", ["fewest rings", "least wood"])
def test_heights_are_chosen_without_such_a_ring_where_boards_allow_it(choice):
    boards = [
        f'{{species = "maple", thickness = {t}, width = 200, length = 3000}}' for t in (27.8, 24.3, 15.3)
    ]
    _, stack = stacked(rimmed(f'"{choice}"', boards))
    left = 80 - stack.layers[-1].ring.bottom
    assert left >= 1.0


@pytest.mark.parametrize(("third", "thin"), [(14, False), (4, True)])
def test_a_plate_thicker_than_its_ring_holds_it_off_nothing(third, thin):
    """Flush with the lower face it stands out above; it would else push on a solid ring below."""
    wanted = text("vase").replace('heights = "20 mm"', f"heights = [20, 20, {third}, 20]")
    plan = solve(parse(wanted, "vase.toml"))
    assert (third < plan.job.workshop.boards.sheet) == thin
    plates = [part for part in parts_of(plan) if part.name.startswith("centring-plate")]
    assert all(any("lower face" in note for note in part.notes) == thin for part in plates)
    figure = ring_on(plan)
    ring = plan.stack.layers[2].ring
    plate = next(item for item in figure.items if isinstance(item, Shape) and item.fill == "jig")
    assert plate.box[1] >= ring.bottom + LIFT - 1e-9
    assert ("lower face" in figure.alt) == thin
