"""Boards, braces and standing gauges: in every mounting nothing stands in the way of anything else."""

from __future__ import annotations

from math import cos, hypot, pi, sin
from xml.etree import ElementTree

import numpy as np
import pytest
import shapely

from geometry.hardware.fittings import bolt_diameter, head_place
from geometry.lathe.turning import TAIL
from geometry.plane.contour import Contour, circle
from geometry.plane.sample import sample
from jigs.asked.jobfile import load, parse
from jigs.figures.svg import figure_svg
from jigs.figures.turning.holding_plan import holding_plan
from jigs.files.drawing import box_of, drawing, marked
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.parts.readback import ReadBack, measure
from jigs.plans.torus import TorusPlan
from jigs.stages.gauging.parts.profile import channel_gauge
from jigs.stages.gauging.parts.standing import standing
from jigs.stages.mountings.parts.braces import first_board_section, mountings
from jigs.stages.mountings.parts.holding import channel_section, retainer_section
from jigs.stages.mountings.plan import BESIDE_CAP
from jigs.stages.roughing.parts import flats_gauge
from jigs.words.findings import Refused
from tests.conftest import TORI
from tests.examples import plan_of_example
from tests.geometry.validity import problems
from tests.work.reading import operation, work_for

TOUCH = 0.01  # mm: what sampling by chords may overlap


def shape(contour: Contour, dx: float = 0.0) -> shapely.Polygon:
    return shapely.Polygon(sample(contour.moved(dx, 0.0), 0.01))


def lowest_on_a_flat(plan: TorusPlan) -> float:
    """Least distance of any flat from the middle of the tube, all round every ring: cut by planes through the axis."""
    blank, major = plan.blank, plan.job.form.major_radius
    a = -pi / 2 + 2 * pi / blank.segments * np.arange(blank.segments)
    round_the_ring = np.linspace(0, blank.half_wedge, 200)[:, None]
    x = np.cos(round_the_ring) * np.cos(a)
    away = blank.centre * np.cos(a) + blank.apothem - major * x
    return float((away / np.hypot(x, np.sin(a))).min())


def turned_off_each_flat(plan: TorusPlan) -> float:
    told = operation(work_for(plan), "roughing.sizes").settings
    return next((float(one.value) for one in told if one.id == "flats"), 0.0)


def brace(plan: TorusPlan) -> shapely.Polygon:
    """Strap and block beside the tube in mounting C."""
    b, low = plan.mountings.brace, -plan.holding.channel.centre_height
    high, major = plan.mountings.setting.flat_height, plan.job.form.major_radius
    strap = shapely.box(b.tip - major, high, b.outer - major, high + b.thickness)
    return strap | shapely.box(b.block_inner - major, low, b.outer - major, high)


def capped_bolt(plan: TorusPlan) -> shapely.Polygon:
    """In mounting C it stands in the hole, its head in the board's back, its cap as low as the board's face."""
    low, major = -plan.holding.channel.centre_height, plan.job.form.major_radius
    sunk = head_place(plan.holding.bolt)[1]
    end = low + plan.mountings.centre_bolt + sunk - plan.holding.board_thickness
    return shapely.box(-major, low, plan.mountings.cap / 2 - major, end)


def both_sides(side: shapely.Geometry, plan: TorusPlan) -> shapely.Geometry:
    """A section and the one across the axis."""
    return side | shapely.affinity.scale(side, -1, 1, origin=(-plan.job.form.major_radius, 0))


def stands_among(plan: TorusPlan, gauge: Part) -> shapely.Geometry:
    """Board, and what holds beside it, in the gauge's own coordinates."""
    major = plan.job.form.major_radius
    if "-a-" in gauge.name:
        return both_sides(shape(first_board_section(plan).outline, -major), plan)
    side = shape(channel_section(plan).outline, -major)
    if "-c-" in gauge.name:
        return both_sides(side | brace(plan) | capped_bolt(plan), plan)
    return both_sides(side | shape(retainer_section(plan).outline, -major), plan)


def waste(plan: TorusPlan, gauge: Part) -> shapely.Geometry:
    """What is left under the flat: in mounting A between the ends of the arc, in mounting C behind the tool room."""
    s = plan.mountings.setting
    if "-a-" in gauge.name:
        radius = plan.gauges.stages[-1].edge.wide
        end, low = radius * cos(TAIL), -radius * sin(TAIL)
        back = plan.mountings.first.turned_back - plan.job.form.major_radius
        return shapely.box(-max(end, s.flat_inner), -s.flat_height, max(end, back), low)
    if "-c-" in gauge.name:
        return shapely.box(-s.tool_room, 0, s.flat_outer, s.flat_height)
    return shapely.Polygon()


def assert_standing_gauges_touch_the_tube_and_nothing_else(plan: TorusPlan) -> None:
    tube = shape(circle((0.0, 0.0), plan.job.form.tube_radius))
    across = shapely.affinity.translate(tube, -2 * plan.job.form.major_radius, 0)
    for gauge in standing(plan):
        plate = shape(gauge.outline)
        for other in (stands_among(plan, gauge), tube, across, waste(plan, gauge)):
            assert plate.intersection(other).buffer(-TOUCH).is_empty, gauge.name
        ground = stands_among(plan, gauge)
        assert plate.distance(ground) < TOUCH, gauge.name  # it stands


def assert_standing_gauges_show_all_that_their_mounting_turns(plan: TorusPlan) -> None:
    radius = plan.gauges.stages[-1].edge.wide
    by_mounting = {"a": ("A", 1), "c": ("C", -1), "d": ("D", -1)}
    for key, (name, way) in by_mounting.items():
        turns = plan.mountings.named(name).turns
        plates = [shape(g.outline) for g in standing(plan) if f"-{key}-" in g.name]
        for step in range(101):
            angle = way * (turns.start + (turns.end - turns.start) * step / 100)
            place = shapely.Point(radius * cos(angle), radius * sin(angle))
            assert min(plate.distance(place) for plate in plates) < TOUCH, (key, angle)
            inside = shapely.Point((radius - 0.2) * cos(angle), (radius - 0.2) * sin(angle))
            assert not any(plate.contains(inside) for plate in plates)


def assert_inner_gauges_pass_the_rough_hole(plan: TorusPlan) -> None:
    form = plan.job.form
    opening = 2 * (form.major_radius - form.tube_radius - form.turning_allowance)
    for gauge in standing(plan):
        if gauge.name.endswith("inner"):
            below = shape(gauge.outline) & shapely.box(-999, -999, 0, 0)
            x0, _, x1, _ = below.bounds
            assert x1 - x0 < opening, gauge.name


def assert_every_part_is_sound_and_measures_as_it_says(plan: TorusPlan) -> None:
    for part in [*mountings(plan), *standing(plan), *flats_gauge(plan)]:
        for contour in (part.outline, *part.holes):
            assert problems(contour) == (), part.name
        if part.bevel:
            assert problems(part.bevel.top) == (), part.name
            assert len(part.bevel.top) == len(part.outline)
            grown = shape(part.outline).buffer(TOUCH)
            assert grown.contains(shape(part.bevel.top)), part.name
        measure(part, ReadBack((part.outline, *part.holes), part.thickness, 0.001))


def assert_braces_reach_the_waste_flat_and_not_past_the_board(plan: TorusPlan) -> None:
    b, held = plan.mountings.brace, plan.holding
    assert b.layers * b.thickness + b.pad == pytest.approx(b.height - 0.5), (
        "a heel as high takes all the pull"
    )
    assert b.pad > 0
    assert b.height == pytest.approx(held.channel.centre_height + plan.mountings.setting.flat_height)
    for part in mountings(plan):
        if part.name.startswith("brace"):
            reach = max(hypot(x + b.tip, y) for x, y in sample(part.outline, 0.01))
            assert reach < held.board_diameter / 2
    # Neighbours do not run into each other, nor into the tube.
    pieces = [shape(part.outline, b.tip) for part in mountings(plan) if part.name.startswith("brace")]
    one = shapely.union_all(pieces)
    other = shapely.affinity.rotate(one, 360 / held.braces, origin=(0, 0))
    assert one.distance(other) > 0
    low = [p for p in mountings(plan) if p.name in ("brace-block-layer", "brace-pad")]
    finished = plan.job.form.outer_diameter / 2
    assert all(shape(p.outline, b.tip).distance(shapely.Point(0, 0)) > finished for p in low)


def assert_mountings_right(plan: TorusPlan) -> None:
    """Of any plan; of random ones in `test_random_jobs`, which solves them."""
    for right in (
        assert_standing_gauges_touch_the_tube_and_nothing_else,
        assert_standing_gauges_show_all_that_their_mounting_turns,
        assert_inner_gauges_pass_the_rough_hole,
        assert_every_part_is_sound_and_measures_as_it_says,
        assert_braces_reach_the_waste_flat_and_not_past_the_board,
    ):
        right(plan)


def test_the_blank_goes_over_the_spigot_and_stands_on_the_circle() -> None:
    for file in TORI:
        plan = solve(load(file))
        first, blank = plan.mountings.first, plan.blank
        n = blank.segments
        corner = blank.apothem / cos(pi / n)
        turns = [-pi / 2 + pi / n * (2 * k + 1) for k in range(n)]
        ring = [(corner * cos(turn), corner * sin(turn)) for turn in turns]
        section = shapely.Polygon([(x + blank.centre, y + first.centre_height) for x, y in ring])
        low = section & shapely.box(0, 0, 9999, first.spigot_height)
        clearance = low.bounds[0] - first.spigot_radius
        assert clearance == pytest.approx(plan.job.workshop.holding.spigot_clearance)
        foot = section & shapely.LineString([(0, 1e-6), (9999, 1e-6)])
        if not blank.ring_spacer:  # strips keep the corners off the joint
            assert foot.bounds[2] / cos(blank.half_wedge) == pytest.approx(first.scribed, abs=1e-3)


@pytest.mark.parametrize(("rings", "cut"), [(6, True), (18, False)])
def test_flats_whose_corners_are_turned_back_still_hold_and_the_board_stands_just_past_them(
    rings: int, cut: bool
) -> None:
    """Both as they lie glued to the board, flat by flat."""
    source = text(segments="6").replace("wedge_rings = 18", f"wedge_rings = {rings}")
    plan = solve(parse(source.replace("tube_diameter = 54", "tube_diameter = 70"), "few.toml"))
    first, blank, w = plan.mountings.first, plan.blank, pi / rings
    half = blank.apothem * np.tan(blank.mitre)
    low, high = blank.centre - half, blank.centre + half
    flat = [
        (low, -low * np.tan(w)),
        (high, -high * np.tan(w)),
        (high, high * np.tan(w)),
        (low, low * np.tan(w)),
    ]
    left = shapely.Polygon(flat) & shapely.Point(0, 0).buffer(first.turned_back, quad_segs=500)
    farthest = np.hypot(*shapely.get_coordinates(left).T).max()
    assert (farthest < first.scribed - 1) == cut
    assert first.left - first.saw_short == pytest.approx(farthest, abs=0.01)
    assert (
        rings * left.area >= 2 * pi * blank.centre * plan.mountings.waste_flat
    )  # by which its glue is judged
    assert first.turned_back >= high  # to which a brace's finger is taken to bear, in the middle of a ring


def text(**changes: str) -> str:
    keys = {
        "outer_diameter": "250",
        "tube_diameter": "54",
        "segments": "8",
        "holding": "",
        "bolts": "",
    } | changes
    return (
        f"[form]\nouter_diameter = {keys['outer_diameter']}\ntube_diameter = {keys['tube_diameter']}\n"
        f"wedge_rings = 18\nsegments = {keys['segments']}\ncore_opening = 9\nleast_wall = 3\n"
        f"[holding]\n{keys['holding']}\n[bolts]\n{keys['bolts']}\n[saw]\nblade_height = 120\n"
    )


def refusal(source: str, code: str) -> str:
    with pytest.raises(Refused) as caught:
        solve(parse(source, "hoop.toml"))
    return next(str(f) for f in caught.value.findings if f.code == code)


def test_an_arc_that_no_tool_reaches_is_named_and_less_room_reaches_it() -> None:
    told = refusal(text(holding="tool_room = 8"), "arc-not-reached")
    assert (
        "from 253° to 256° round the tube nothing is turned, neither in mounting C nor in mounting D" in told
    )
    solve(parse(text(holding="tool_room = 4"), "hoop.toml"))
    refusal(text(holding="tool_room = 5"), "arc-not-reached")


def test_an_overlap_a_trace_too_small_is_not_shown_as_the_least_itself() -> None:
    solve(parse(text(holding="tool_room = 4.849"), "hoop.toml"))
    told = refusal(text(holding="tool_room = 4.8492"), "arc-not-reached")
    assert "overlap by 9.9° only, from 250° to 260° round the tube, less than 10°" in told


def test_a_flat_too_narrow_for_glue_is_refused_with_the_widest_there_is() -> None:
    told = refusal(text(holding="least_flat = 40"), "flat-too-narrow")
    widest = float(told.split("least flat of at most ")[1].split(" mm")[0])
    plan = solve(parse(text(holding=f"least_flat = {widest}"), "hoop.toml"))
    assert plan.mountings.waste_flat == pytest.approx(widest)
    left = plan.blank.apothem - plan.mountings.sanded - plan.job.form.tube_radius
    assert plan.job.gauges.sanding_allowance <= left < plan.job.form.turning_allowance
    refusal(text(holding=f"least_flat = {widest + 0.1}"), "flat-too-narrow")


def test_braces_that_run_into_each_other_are_refused_with_how_many_fit() -> None:
    told = refusal(text(bolts="braces = 24"), "too-many-braces")
    most = int(told.split("Use at most ")[1].removesuffix(" braces"))
    solve(parse(text(bolts=f"braces = {most}"), "hoop.toml"))
    refusal(text(bolts=f"braces = {most + 1}"), "too-many-braces")


def test_a_board_without_room_for_blocks_is_refused_with_the_one_that_has() -> None:
    told = refusal(text(holding="beyond_rim = 30"), "no-room-for-blocks")
    least = told.split("holding.beyond_rim of at least ")[1].split(" mm")[0]
    assert "hoop.toml" in told
    assert "holding.beyond_rim: " in told
    assert "swing" not in told, "the lathe has swing enough"
    solve(parse(text(holding=f"beyond_rim = {least}"), "hoop.toml"))


def test_a_hole_without_room_beside_the_capped_bolt_is_refused_with_the_least_that_has_it() -> None:
    def small(hole: float) -> str:
        return text(outer_diameter=str(hole + 2 * 54)).replace("wedge_rings = 18", "wedge_rings = 8")

    told = refusal(small(42), "no-room-beside-bolt")
    least = float(told.split("a hole of at least ")[1].split(" mm")[0])
    plan = solve(parse(small(least), "hoop.toml"))
    rough = least - 2 * plan.job.gauges.stages[0]
    assert (rough - plan.mountings.cap) / 2 == pytest.approx(BESIDE_CAP)
    assert plan.mountings.cap >= bolt_diameter(plan.holding.bolt) + 8 - 1e-9
    refusal(small(least - 0.1), "no-room-beside-bolt")


def test_gauges_beside_the_capped_bolt_of_a_small_torus_keep_off_it() -> None:
    """The channel's and the hole's gauge stand on the channel board, the cap spinning within their reach."""
    job = (
        'title = "Small"\n[form]\nouter_diameter = 140\ntube_diameter = 36\nwedge_rings = 10\nsegments = 8\n'
    )
    plan = solve(parse(f'{job}core_opening = 8.5\nleast_wall = 6\n[bolts]\ncentre = "M6"\n', "small.toml"))
    assert isinstance(plan, TorusPlan)
    for gauge in (channel_gauge(plan), next(one for one in standing(plan) if "-c-" in one.name)):
        assert shape(gauge.outline).disjoint(both_sides(capped_bolt(plan), plan)), gauge.name


@pytest.mark.parametrize("file", TORI, ids=lambda file: file.stem)
def test_the_picture_is_drawn_to_the_plan(file) -> None:
    plan = solve(load(file))
    picture = figure_svg(holding_plan(plan))
    assert picture == figure_svg(holding_plan(plan))
    root = ElementTree.fromstring(picture)
    words = " ".join(e.text or "" for e in root.iter() if e.tag.endswith("text"))
    for name in ("A", "B", "C", "D", "A + C: 10°", "D + A: 10°", "turns 325° over 0° to 215°"):
        assert name in words
    turned = [e for e in root.iter() if e.get("fill") == "url(#turned)"]
    assert len(turned) == 3


@pytest.mark.parametrize("file", TORI, ids=lambda file: file.stem)
def test_mountings_follow_one_another_and_flats_have_the_plans_sizes(file) -> None:
    plan = solve(load(file))
    told = work_for(plan)
    stages = list(dict.fromkeys(one.stage for one in told.operations if one.stage.endswith("_mounting")))
    assert stages == ["first_mounting", "reversed_mounting", "braced_mounting", "last_mounting"]
    for stage in ("first", "reversed", "braced", "last"):
        assert operation(told, f"{stage}_mounting.start").cautions[0].startswith("lathe.turn-")
    unbraced = operation(told, "last_mounting.retainer")
    assert "only then take the braces off" in unbraced.does
    assert any("push its bolt out" in line for line in unbraced.how), (
        "a bolt left in the board spins beside the rim"
    )
    turning = [
        one for one in told.operations if one.stage == "last_mounting" and one.id != "last_mounting.off"
    ]
    sizes = [
        size for one in turning for size in (*one.settings, *(s for check in one.checks for s in check.sizes))
    ]
    assert not [size for size in sizes if size.id.startswith("tube")], (
        "channel and retainer hide an end of each width"
    )
    back, finest = operation(told, "last_mounting.turn").setting("back").value, plan.gauges.stages[-1].edge
    seat = plan.mountings.brace.height - plan.mountings.setting.flat_height
    assert back == pytest.approx(seat + finest.high - plan.job.gauges.fit)
    if not plan.job.form.tube.round:
        assert not plan.mountings.flats
        return
    assert lowest_on_a_flat(plan) - turned_off_each_flat(plan) == pytest.approx(
        plan.mountings.flats[0].radius, abs=0.051
    )
    flats = [one for one in told.operations if one.id.startswith("roughing.flats")]
    for step, one in zip(plan.mountings.flats, flats, strict=True):
        assert (one.setting("new-flat").value, one.setting("along").value) == (step.new_flat, step.along)


def test_a_flat_that_few_rings_make_uneven_is_not_turned_into_the_form() -> None:
    """Its rings' middle lies 1.95 mm inside the tube's: 2.7 mm off a flat at 30 degrees would leave 19.3 mm of 20."""
    plan = solve(
        parse(
            "[form]\nouter_diameter = 180\ntube_diameter = 40\nwedge_rings = 8\nsegments = 6\ncore_opening = 8.5\n"
            "turning_allowance = 2\n[saw]\nblade_height = 80\n",
            "few.toml",
        )
    )
    assert isinstance(plan, TorusPlan)
    assert turned_off_each_flat(plan) == pytest.approx(0.943, abs=1e-3)
    assert 21 <= lowest_on_a_flat(plan) - turned_off_each_flat(plan) < 21.1


def test_a_files_notes_stand_below_the_words_beside_a_short_section() -> None:
    """Seven rows of words beside a retainer of 37 mm reach below it."""
    part = retainer_section(plan_of_example("quoit"))
    words = [shape for mark in part.marks for shape in marked("note", mark)]
    _, low, _, _ = box_of(words)
    assert low < part.outline.bounds[1]
    _axis, *notes = [shape for shape in drawing(part) if shape.layer == "note"][len(words) :]
    assert box_of(notes)[3] < low
