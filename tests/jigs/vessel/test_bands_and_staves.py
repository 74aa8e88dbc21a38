"""Sawing and gluing a vessel's rings: clamp bands, strips between segments, staves, hold-downs."""

from math import ceil, cos, pi, sin

import numpy as np
import pytest

from geometry.blanks.staves import blade_tilt, gauge_angle
from geometry.records import replace
from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.stages.flat_segments.parts.flat_sleds import flat_sleds
from jigs.work.model import Work
from tests.jigs.vessel.jobs import planned, text
from tests.work.reading import operation, rows, table, work_for
from tests.work.works import work_of


def banded(told: Work) -> list[int]:
    """The rings that a band is cut for."""
    bands = [one for one in told.tables if one.id == "glue-bands"]
    return [ring for one in bands for row in rows(one) for ring in row["rings"]]


def test_open_rings_have_no_clamp_band():
    assert banded(work_of("open")) == []


@pytest.mark.parametrize("more", ["", 'base = "segmented"'])
def test_closed_rings_have_a_band_each(more):
    plan = planned("open", more=more) if more else planned("vase")
    closed = [layer.number for layer in plan.stack.layers if layer.kind == "segments"]
    assert closed
    assert banded(work_for(plan)) == closed


def test_the_strips_between_segments_are_in_the_cut_list():
    plan, told = planned("bottle"), work_of("bottle")
    lots = [row for row in rows(table(told, "cut-list")) if "between segments" in str(row["pieces"])]
    spaced = [layer for layer in plan.stack.layers if layer.ring.spacer]
    assert spaced
    for layer in spaced:
        ring = layer.ring
        (lot,) = [row for row in lots if layer.number in row["rings"]]
        corners = ring.outer / cos(pi / ring.segments), ring.core / cos(pi / ring.segments)
        assert lot["species"] == "walnut"
        assert lot["width"] == pytest.approx(2.0)
        assert lot["thickness"] == pytest.approx(ring.height + 0.3)
        assert lot["longer"] == ceil(corners[0] - corners[1]) + 2


@pytest.mark.parametrize("name", ["vase", "open"])
def test_gaps_and_plain_joints_have_no_strips(name):
    assert not [
        row for row in rows(table(work_of(name), "cut-list")) if "between segments" in str(row["pieces"])
    ]


def test_both_edges_of_a_stave_are_steps_of_their_own_and_cautioned_about():
    plan, told = planned("staved"), work_of("staved")
    sled = operation(told, "staves.sled")
    assert sled.setting("tilt").value == plan.saws.staves.blade_tilt
    assert sled.setting("taper").value == abs(plan.saws.staves.gauge_angle)
    band = plan.stack.staves_cut
    for id in ("staves.edge-1", "staves.edge-2"):
        assert operation(told, id).cautions
    second = operation(told, "staves.edge-2")
    widths = [second.setting(f"width-{end}").value for end in ("low", "high")]
    assert widths == list(band.board_widths)


LEANING = text("staved").replace('"45 mm"', '"35 mm"').replace('"95 mm"', '"90 mm"')
NARROWING = text("staved").replace('"45 mm"', '"125 mm"').replace('"95 mm"', '"165 mm"')


@pytest.mark.parametrize("job", [LEANING, NARROWING], ids=["widening", "narrowing"])
def test_what_is_callipered_of_a_stave_and_flattened_off_a_band_is_what_the_square_ended_boards_leave(job):
    """A board's four corners laid by hand in the plane through the axis and the stave's middle: x out, z up.

    Ends square, it is just long enough that both faces reach the band's two levels.
    """
    plan = solve(parse(job, "staved.toml"))
    told, cut, band = work_for(plan), plan.saws.staves, plan.stack.staves_cut
    _, long = cut.board
    up = np.array([np.sin(band.lean), np.cos(band.lean)])
    out = np.array([up[1], -up[0]])
    wide_up = band.lean > 0
    wide = np.array([band.outer_at(band.high if wide_up else band.low), band.high if wide_up else band.low])
    outer = [wide - long * up, wide] if wide_up else [wide, wide + long * up]
    inner = [corner - band.thickness * out for corner in outer]
    second, level = operation(told, "staves.edge-2"), operation(told, "staves.level")
    for end, (x, _) in zip(("low", "high"), outer, strict=True):
        assert second.setting(f"width-{end}").value == pytest.approx(2 * x * np.tan(pi / band.count))
    ends = [(outer[k][1], inner[k][1]) for k in (0, 1)]
    assert max(ends[0]) <= band.low + 1e-9
    assert min(ends[1]) >= band.high - 1e-9
    high = max(ends[1]) - min(ends[0])
    (height,) = level.checks[0].sizes
    assert level.setting("flattening").value == pytest.approx(high - height.value)
    assert level.setting("proud").value == pytest.approx(abs(ends[1][0] - ends[1][1]))
    wide_end = outer[1] if wide_up else outer[0], inner[1] if wide_up else inner[0]
    down = (wide_end[1][1] - wide_end[0][1]) / up[
        1
    ]  # along the inside, from its corner to the outer one's level
    assert level.setting("line").value == pytest.approx(abs(down))
    assert (down > 0) == wide_up


@pytest.mark.parametrize(("thick", "sawn"), [("3 mm", False), ("12 mm", True)])
def test_a_large_slant_is_sawn_off_before_it_is_rasped(thick, sawn):
    plan = solve(
        parse(text("staved", "in").replace('"45 mm"', '"35 mm"').replace('"95 mm"', '"90 mm"'), "staved.toml")
    )
    band = replace(plan.stack.staves, thickness=float(thick.removesuffix(" mm")))
    plan = replace(plan, stack=replace(plan.stack, staves=band))
    level = operation(work_for(plan), "staves.level")
    assert (level.setting("proud").value >= 2) == sawn
    assert any("saw that end off" in line for line in level.how) == ("hand-saw" in level.cautions) == sawn
    assert not any(" mm" in line for line in level.how), "the job is in inches"


def test_the_strip_for_trial_staves_gives_all_of_them_and_what_is_held_in_the_last_cut():
    plan = planned("staved")
    (scrap,) = [scrap for scrap in plan.wood.scraps if scrap.of == "staves"]
    lot = next(lot for lot in plan.wood.lots if lot.way == "bevelled")
    assert lot.held > 0
    each = plan.saws.staves.board[1] + plan.job.workshop.saw.kerf
    assert scrap.strip >= plan.stack.staves.count * each + plan.job.workshop.saw.kerf + lot.held - 1e-9


def test_the_cut_list_has_staves_as_wide_and_as_long_as_they_are_glued():
    plan = solve(parse(LEANING, "staved.toml"))
    band, (_, long) = plan.stack.staves_cut, plan.saws.staves.board
    for line in plan.wood.lines:
        if plan.wood.lot(line.lot).way == "bevelled":
            assert line.width == pytest.approx(max(band.board_widths))
            assert line.longer == line.shorter == pytest.approx(long)


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


def test_a_hold_down_stands_on_each_fence():
    holds = [part for part in flat_sleds(planned("vase")) if part.name.startswith("plan-angle-hold")]
    assert [part.quantity for part in holds] == [2]
    assert "before each cut" in " ".join(holds[0].notes)
