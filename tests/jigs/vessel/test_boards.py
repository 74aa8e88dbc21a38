"""Glue-up boards, the truing of halves and centring plates, against the rings they are for."""

import itertools
from dataclasses import replace
from math import cos, pi

import numpy as np
import pytest
from shapely import LineString, Polygon

from geometry.blanks.ring_stack import Ring
from jigs.parts.part import Line
from jigs.stages.flat_rings.parts import glue_up_boards, ring_truing
from jigs.stages.flat_rings.solve import APART, LOOSE, PLAY, ring_boards, same_rings
from jigs.stages.stack.parts import centring_plates
from tests.jigs.inspection import text_of
from tests.jigs.vessel.jobs import JOBS, planned


@pytest.fixture(scope="module", params=JOBS)
def plan(request):
    return planned(request.param)


def rings_of(plan) -> list[Ring]:
    return [layer.ring for layer in plan.stack.layers if layer.cut is not None]


def closed_rings(plan) -> list[Ring]:
    return [layer.ring for layer in plan.stack.layers if layer.kind == "segments"]


def outlines(part) -> list[Line]:
    return [mark for mark in part.marks if isinstance(mark, Line) and mark.name.startswith("outside of")]


def test_every_closed_ring_has_its_outline_on_one_board_and_no_open_one(plan):
    found = [n for board in plan.ring_boards.glue_up for same in board.sizes for n in same.rings]
    assert sorted(found) == sorted(ring.number for ring in closed_rings(plan))


def test_an_outline_is_the_outside_of_its_ring(plan):
    rings = {ring.number: ring for ring in rings_of(plan)}
    for board, part in zip(plan.ring_boards.glue_up, glue_up_boards(plan), strict=True):
        for same, line in zip(board.sizes, outlines(part), strict=True):
            drawn = Polygon(line.points)
            for number in same.rings:
                ring = rings[number]
                assert drawn.area == pytest.approx(
                    ring.segments * ring.outer**2 * np.tan(pi / ring.segments), rel=2e-3
                )
                assert drawn.exterior.distance(LineString([(0, 0), (0, -1)])) == pytest.approx(
                    ring.outer - 1, abs=0.06
                )


def test_outlines_on_a_board_leave_room_for_their_numbers(plan):
    for part in glue_up_boards(plan):
        lines = [LineString(line.points) for line in outlines(part)]
        for outer, inner in itertools.pairwise(lines):
            assert outer.distance(inner) >= APART - 1e-9


def test_every_outline_and_letter_stays_on_its_board(plan):
    for part in [*glue_up_boards(plan), *ring_truing(plan), *centring_plates(plan)]:
        plate = Polygon(part.outline.points)
        for mark in part.marks:
            places = mark.points if isinstance(mark, Line) else [mark.origin]
            assert all(plate.buffer(1e-6).covers(LineString([place, place])) for place in places), part.name


def test_a_centring_plate_goes_into_its_openings_and_hardly_moves_there(plan):
    rings = {ring.number: ring for ring in rings_of(plan)}
    for plate, part in zip(plan.ring_boards.centring, centring_plates(plan), strict=True):
        shape = Polygon(part.outline.points)
        reach = float(np.hypot(*np.array(part.outline.points).T).max())
        for number in plate.rings:
            ring = rings[number]
            assert shape.bounds[1] >= -ring.core  # its flat is down, as the opening's
            assert reach < ring.core_radius
            assert PLAY - 1e-9 <= ring.core - plate.apothem <= PLAY + LOOSE + 1e-9


def test_a_ring_has_one_centring_plate_at_most(plan):
    found = [n for plate in plan.ring_boards.centring for n in plate.rings]
    assert len(set(found)) == len(found)
    assert {*found} <= {ring.number for ring in rings_of(plan)}


def test_the_truing_boards_ticks_stand_where_the_tips_of_halves_lie(plan):
    if plan.ring_boards.truing is None:
        assert all(ring.segments % 2 for ring in closed_rings(plan))
        return
    rings = {ring.number: ring for ring in rings_of(plan)}
    board, _, check = ring_truing(plan)
    ticks = [m for m in board.marks if isinstance(m, Line) and m.name.startswith("tip of")]
    for radius, numbers in plan.ring_boards.truing.tips:
        assert any(m.points[0][0] == pytest.approx(radius) for m in ticks)
        assert all(abs(rings[n].outer / cos(rings[n].mitre) - radius) < 2.0 for n in numbers)
    widest = max(ring.radius for ring in closed_rings(plan) if ring.segments % 2 == 0)
    x0, _, x1, _ = check.outline.bounds
    assert x0 < -widest < widest < x1


def test_boards_say_which_rings_they_are_for():
    plan = planned("vase")
    for part in [*glue_up_boards(plan), *centring_plates(plan)]:
        assert "RING" in text_of(part)


MIXED = 'base = "segmented"\n'  # the floor's rings are closed, the others open


def test_open_rings_have_neither_board_nor_truing():
    plan = planned("open")
    assert {layer.kind for layer in plan.stack.layers} == {"disc", "open"}
    assert plan.ring_boards.glue_up == ()
    assert plan.ring_boards.truing is None
    assert glue_up_boards(plan) == ring_truing(plan) == []


def test_among_closed_rings_the_open_ones_are_left_out_of_boards_and_ticks():
    plan = planned("open", more=MIXED)
    closed = {ring.number for ring in closed_rings(plan)}
    assert closed
    assert closed < {ring.number for ring in rings_of(plan)}
    assert {n for board in plan.ring_boards.glue_up for same in board.sizes for n in same.rings} == closed
    assert {n for _, numbers in plan.ring_boards.truing.tips for n in numbers} == closed


def test_rings_with_strips_share_no_outline_with_one_without():
    """A ring round a core plug has none, though its outside may be that of the next: its joints lie elsewhere."""
    ring = closed_rings(planned("vase"))[0]
    alike = [replace(ring, number=n, spacer=s) for n, s in ((1, 0.0), (2, 0.6), (3, 0.0))]
    assert [same.rings for same in same_rings(alike)] == [(1, 3), (2,)]


def test_open_and_closed_rings_never_share_a_plate():
    plan = planned("open", more=MIXED)
    layers = plan.stack.layers
    alike = [replace(layer, ring=replace(layers[3].ring, number=layer.number)) for layer in layers[:4]]
    kinds = ("segments", "open", "segments", "open")
    alike = [replace(layer, kind=kind, plug=0.0) for layer, kind in zip(alike, kinds, strict=True)]
    plates = ring_boards(plan.job, replace(plan.stack, layers=tuple(alike))).centring
    assert [(plate.rings, plate.gap) for plate in plates] == [((1, 3), 0.0), ((2, 4), 5.0)]


def test_the_marks_of_an_open_rings_plate_stand_where_its_segments_end():
    plan = planned("open")
    rings = {ring.number: ring for ring in rings_of(plan)}
    assert plan.ring_boards.centring
    for plate, part in zip(plan.ring_boards.centring, centring_plates(plan), strict=True):
        marks = [LineString(mark.points) for mark in part.marks if isinstance(mark, Line)]
        assert len(marks) == 2 * plate.segments
        for number in plate.rings:
            drawn = [LineString(ends) for ends in segment_ends(rings[number], plate.apothem)]
            for end in drawn:  # each is carried on by one mark, square to the flat
                near = min(marks, key=end.distance)
                assert near.distance(LineString([end.coords[0]] * 2)) == pytest.approx(1.0, abs=2e-3)
                assert near.length == pytest.approx(5.0)
        said = text_of(part)
        if plate.apothem > 25:  # room for letters of a readable size between the marks
            assert "SEGMENTS BETWEEN MARKS" in said.replace(",", "")


def segment_ends(ring, apothem):
    """From each corner of each segment's inner flat, bearing on the plate, one millimetre out."""
    edge = (2 * ring.core * np.tan(pi / ring.segments)) - ring.spacer / cos(pi / ring.segments)
    for k in range(ring.segments):
        turn = -pi / 2 + 2 * pi * k / ring.segments
        out, along = np.array([np.cos(turn), np.sin(turn)]), np.array([-np.sin(turn), np.cos(turn)])
        for t in (-edge / 2, edge / 2):
            yield [apothem * out + t * along, (apothem + 1) * out + t * along]


def test_a_closed_rings_plate_has_no_marks_and_other_notes():
    opened, closed = (centring_plates(planned(name)) for name in ("open", "vase"))
    assert not [mark for part in closed for mark in part.marks if isinstance(mark, Line)]
    assert all("weight or light clamp" in " ".join(part.notes) for part in opened)
    assert not any("weight" in " ".join(part.notes) for part in closed)


@pytest.mark.parametrize(("name", "turned"), [("vase", True), ("platter", False)])
def test_joints_are_said_to_stand_over_the_middles_only_where_rings_are_turned(name, turned):
    plan = planned(name)
    assert (plan.job.rings.turn is None) is turned
    for part in centring_plates(plan):
        assert ("over the middles" in " ".join(part.notes)) is turned


@pytest.mark.parametrize("core", [1.0, 2.6, 5.0, 40.0])
def test_the_half_check_reaches_the_opening_however_small(core):
    """Its lands cover the ends up to the opening; between them it is relieved."""
    plan = planned("vase")
    layers = tuple(
        replace(layer, ring=replace(layer.ring, core=core)) if layer.cut is not None else layer
        for layer in plan.stack.layers
    )
    boards = ring_boards(plan.job, replace(plan.stack, layers=layers))
    assert 0 < boards.truing.land_from <= core - min(1.0, core / 2)
