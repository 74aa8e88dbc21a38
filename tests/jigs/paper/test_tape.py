"""Tape layouts: every ring's pieces in their order, true to size, edge to edge."""

from dataclasses import replace
from itertools import pairwise
from math import cos, dist, pi, tan

import numpy as np
import pytest

from geometry.bodies.torus import flat_normals
from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.paper.page import page
from jigs.paper.rows import rows_of
from jigs.paper.strips import Strip
from jigs.paper.tape import by_rule, drawn_row, tape_pages
from tests.jigs.paper.sheets import ALL, TORI, VESSELS, box, kept_to, pieces, plan_of, sheet, strips, tapes

DRAWN = [name for name in ALL if name != "dish"]
BANDS = ("widening", "narrowing")


def as_cut(plan):
    """Each ring's outer edge with the sanding of its two ends, what stands between two, and its count, by formula."""
    if plan.kind == "torus":
        blank, sanded = plan.blank, plan.job.form.joint_sanding
        edge = 2 * blank.apothem * tan(pi / blank.segments) + 2 * sanded / cos(pi / blank.segments)
        return {k: (edge, 0.0, blank.segments) for k in range(1, blank.wedge_rings + 1)}
    found = {}
    for layer in plan.stack.layers:
        ring, sanded = layer.ring, plan.job.rings.joint_sanding
        if layer.kind == "segments":
            half = pi / ring.segments
            gap = ring.spacer
            edge = 2 * ring.outer * tan(half) + (2 * sanded - gap) / cos(half)
            found[layer.number] = (edge, gap, ring.segments)
        elif layer.kind == "staves":
            band = plan.stack.staves_cut
            widest = 2 * max(band.outer_at(band.low), band.outer_at(band.high)) * tan(pi / band.count)
            found[layer.number] = (widest, 0.0, band.count)
    return found


@pytest.mark.parametrize("name", ALL)
def test_every_ring_has_its_place_on_one_tape(name):
    placed = [ring for rings in strips(name) for ring in rings]
    assert sorted(placed) == sorted(as_cut(plan_of(name)))


@pytest.mark.parametrize("name", DRAWN)
def test_pieces_are_as_wide_as_they_are_cut_and_as_long_all_round(name):
    sizes = as_cut(plan_of(name))
    for rings, sheets in strips(name).items():
        for ring in rings:
            edge, gap, count = sizes[ring]
            drawn = [max(dist(*p[:2]), dist(*p[2:])) for p, _ in pieces(name)[rings]]
            gaps = [b[2] - b[0] for one in sheets for b in map(box, [*one.shaded, *one.dashed])]
            between = [width for width in gaps if abs(width - gap) < 0.01] if gap else []
            assert drawn == pytest.approx([edge] * count, abs=0.01)
            assert len(between) == (count if gap else 0)
            assert sum(drawn) + sum(between) == pytest.approx(count * (edge + gap), abs=0.01 * count)


@pytest.mark.parametrize("name", DRAWN)
def test_pieces_lie_side_by_side_at_that_spacing_from_left_to_right(name):
    sizes = as_cut(plan_of(name))
    for rings, placed in pieces(name).items():
        _, gap, _ = sizes[rings[0]]
        for (a, _), (b, _) in pairwise(placed):
            if b[0][0] > a[0][0]:  # in one row
                top, foot = dist(a[1], b[0]), dist(a[2], b[3])
                assert (top, foot) == pytest.approx((gap, gap), abs=0.01)


@pytest.mark.parametrize("name", [name for name in DRAWN if name not in BANDS])
def test_segments_are_as_high_as_their_ring_where_that_leaves_room_for_words(name):
    plan = plan_of(name)
    thick = plan.ring_cut.ring_thickness if plan.kind == "torus" else 0.0
    heights = {} if thick else {layer.number: layer.ring.height for layer in plan.stack.layers}
    for rings, placed in pieces(name).items():
        wanted = max(8.0, heights.get(rings[0], thick))
        assert all(p[2][1] - p[1][1] == pytest.approx(wanted, abs=0.01) for p, _ in placed)


@pytest.mark.parametrize("name", BANDS)
def test_staves_are_true_all_along_and_fan_out_edge_to_edge(name):
    plan = plan_of(name)
    band = plan.stack.staves_cut
    (rings,) = [rings for rings, sheets in strips(name).items() if " staves of " in " ".join(sheets[0].texts)]
    for p, _ in pieces(name)[rings]:
        assert dist(p[0], p[1]) == pytest.approx(band.board_widths[1], abs=0.01)
        assert dist(p[2], p[3]) == pytest.approx(band.board_widths[0], abs=0.01)
        middle = dist(np.mean(p[:2], axis=0), np.mean(p[2:], axis=0))
        assert middle == pytest.approx(band.stock_length, abs=0.01)
        assert dist(p[0], p[3]) == pytest.approx(dist(p[1], p[2]), abs=0.01)


@pytest.mark.parametrize("name", [name for name in DRAWN if name not in ("trellis", "hands", "turned")])
def test_every_piece_says_its_number_and_its_wood(name):
    plan = plan_of(name)
    woods = (
        dict(enumerate(plan.species, 1))
        if plan.kind == "torus"
        else {layer.number: layer.species for layer in plan.stack.layers}
    )
    for rings, sheets in strips(name).items():
        told = [texts for _, texts in pieces(name)[rings]]
        said = " ".join(sheets[0].texts)
        for ring in rings:
            for k, (species, texts) in enumerate(zip(woods[ring], told, strict=True), 1):
                number, wood = texts
                assert number == str(k)
                assert wood == species or f"{wood}: {species}" in said


def test_rings_of_other_woods_have_sheets_of_their_own_and_rings_alike_share_theirs():
    assert len(tapes("mixed")) == 2
    assert [one.title for one in tapes("garland")] == ["Garland: tape for rings 1 to 18"]
    assert "Sorrel: tape for ring 5" in [one.title for one in tapes("sorrel")]
    assert [one.title for one in tapes("millwheel")] == [
        f"Millwheel: tape for rings 1 to 24, page {k} of 2" for k in (1, 2)
    ]


def test_flat_rings_alike_in_size_and_woods_share_a_sheet():
    straight = "[profile]\nstations = [[0, 100], [120, 100]]\n[wall]\nthickness = 8\n"
    plan = solve(parse(f'{straight}[rings]\nheights = 20\nsegments = 12\nspecies = "ash"\n', "tube.toml"))
    alike = {}
    for layer in plan.stack.layers:
        if layer.cut:
            size = (round(layer.cut.outer_edge, 3), round(layer.ring.height, 3))
            alike.setdefault(size, []).append(layer.number)
    assert len(tape_pages(plan)) == len(alike) < sum(map(len, alike.values()))


@pytest.mark.parametrize("name", DRAWN)
def test_each_row_says_which_row_it_meets(name):
    for rings, sheets in strips(name).items():
        told = [text for one in sheets for text in one.texts]
        lefts = [p for p, _ in pieces(name)[rings]]
        rows = 1 + sum(b[0][0] <= a[0][0] + 1e-6 for a, b in pairwise(lefts))
        total = len(lefts)
        assert f"1 closes on {total}" in told
        assert f"{total} closes on 1" in told
        for row in range(1, rows):
            assert sum(text.startswith(f"row {row} meets row {row + 1},") for text in told) == 1
            assert sum(text.startswith(f"row {row + 1} meets row {row},") for text in told) == 1
        assert not any(text.startswith(f"row {rows} meets row {rows + 1}") for text in told)


@pytest.mark.parametrize("name", [name for name in DRAWN if name not in BANDS])
def test_the_tape_starts_before_the_first_segment_with_an_overlap(name):
    for rings, sheets in strips(name).items():
        first = box(pieces(name)[rings][0][0])
        tails = [box(p) for p in sheets[0].dashed if box(p)[2] == pytest.approx(first[0], abs=0.01)]
        assert any(tail[0] < first[0] and first[1] <= tail[1] <= tail[3] <= first[3] for tail in tails)
        assert sum("tape" in text and "starts" in text for text in sheets[0].texts) >= 1


def test_strips_between_segments_are_shaded_and_open_rings_have_no_tape():
    layers = {layer.number: layer for layer in plan_of("tumbler").stack.layers}
    for rings, sheets in strips("tumbler").items():
        between = layers[rings[0]].ring.spacer > 0
        assert all(bool(one.shaded) == between for one in sheets)
        assert all(("strips of walnut" in " ".join(one.texts)) == between for one in sheets)
    assert any(one.shaded for one in tapes("tumbler"))
    assert not tapes("open")


@pytest.mark.parametrize("name", [*TORI, *VESSELS])
def test_sizes_are_told_as_cut_with_what_is_left_once_ends_are_sanded(name):
    plan = plan_of(name)
    sanding = plan.job.form.joint_sanding if plan.kind == "torus" else plan.job.rings.joint_sanding
    assert sanding > 0
    for one in tapes(name):
        told = " ".join(one.texts)
        assert "as cut" in told
        assert "sanded off each end" in told or " staves of " in told


def test_numbers_run_round_the_tube_as_its_flats_do_with_the_arrow_to_face_1():
    assert "to the side of face 1" in " ".join(tapes("garland")[0].texts)
    first, second = flat_normals(8)[:2]
    up = np.array([0.0, -1.0, 0.0])  # radial, along the tube to face 2, up: face 1 lies at -y
    out = np.array([np.cos(first), 0.0, np.sin(first)])
    right = np.cross(up, out)  # of one who looks at that outer face
    assert right @ [np.cos(second), 0.0, np.sin(second)] > 0


def test_segments_of_the_other_hand_lie_as_on_a_chessboard():
    placed = pieces("hands").items()
    boards = {ring: [texts[1] for _, texts in found] for rings, found in placed for ring in rings}
    (layup,) = plan_of("hands").layups
    assert sum(woods.count("layup, other hand") for woods in boards.values()) == layup.seams.other_hand
    for ring in range(1, 18):
        assert all(a != b for a, b in pairwise(boards[ring]))
        assert all(a != b for a, b in zip(boards[ring], boards[ring + 1], strict=True))


def test_segments_that_alternate_by_being_turned_say_so():
    (layup,) = plan_of("turned").layups
    assert layup.seams.alternate_segments
    assert not layup.seams.other_hand
    (placed,) = pieces("turned").values()
    assert [texts[1] for _, texts in placed] == ["layup", "layup, top down"] * 4


def test_a_segment_wider_than_the_paper_is_marked_by_rule():
    plan = plan_of("dish")
    for rings, sheets in strips("dish").items():
        layer = next(layer for layer in plan.stack.layers if layer.number == rings[0])
        told = [text for one in sheets for text in one.texts]
        assert any("mark the tape by rule" in text and f"{layer.cut.outer_edge:.2f}" in text for text in told)
        (start,) = [text.split()[-2] for text in told if text.startswith("segment 8, ash: from ")]
        assert float(start) == pytest.approx(7 * layer.cut.outer_edge, abs=0.01)
        assert not any(one.drawn for one in sheets)


def tall_staves(height):
    """Staves that narrow downward, as no example has them."""
    return Strip((4,), ("ash",) * 12, 14.0, 30.0, height, 0.0, "", 0.0, 360.0, "stave", "up")


def test_rows_of_a_single_narrow_piece_keep_their_words_on_the_paper():
    strip = tall_staves(220.0)
    rows = rows_of(strip, 186.0, 220.01, "mm")
    assert [len(row.numbers) for row in rows] == [1] * 12
    for k in range(12):
        drawn = drawn_row(strip, rows, k, {"ash": "ash"}, (10.0, 34.0))
        assert kept_to(sheet(page("A4", "mm", "Heading", "", drawn)))


def test_staves_larger_than_the_paper_are_marked_by_rule_at_both_ends():
    strip = tall_staves(400.0)
    assert rows_of(strip, 186.0, 230.0, "mm") == []
    (drawn,) = by_rule(plan_of("sorrel"), strip)
    told = sheet(page("A4", "mm", "Heading", "", drawn)).texts
    assert any("by rule, every 30.0 mm" in text for text in told)
    assert any("lower end" in text and "every 14.0 mm" in text for text in told)
    assert "stave 12, ash: from 330.0 mm" in told


@pytest.mark.parametrize(
    ("name", "tail", "told"), [("sorrel", 30.0, "30.0 mm"), ("quoit", 31.75, "1 1/4 in")]
)
def test_the_tape_starts_a_round_length_before_the_first_piece_in_either_unit(name, tail, told):
    first = tapes(name)[0]
    assert f"it starts {told} before segment 1" in " ".join(first.texts)
    straight = replace(tall_staves(40.0), lower=tall_staves(40.0).upper)
    assert rows_of(straight, 186.0, 220.0, plan_of(name).job.unit)[0].tail == tail
