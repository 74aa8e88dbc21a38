import io
from math import hypot, pi

import numpy as np
import pytest

from geometry.plane.contour import circle, polygon, rectangle
from geometry.plane.sample import sample
from jigs.files.dxf import read_dxf, write_dxf
from jigs.files.stl import read_stl, write_stl
from jigs.parts import splitting
from jigs.parts.part import Lettering, Line
from jigs.parts.probes import ArcRadius, EdgeAngle, EdgeGap, Extent, HoleDiameter
from jigs.parts.readback import measure
from jigs.parts.splitting import CannotSplit, split_to_bed
from tests.geometry.validity import problems
from tests.jigs.plates import RADIUS, bevelled, gauge, part, wedge

shapely = pytest.importorskip("shapely")
affinity = pytest.importorskip("shapely.affinity")

BED = (100.0, 130.0)
PLAY = 0.1


def big_gauge(**fields):
    """Hung on the left, lettered at the foot, with an arc that any joint in the middle must cross."""
    marks = (Lettering("GAUGE", (-50, 10), 4), Line(((-55, -40), (55, -40)), "base"))
    return gauge(**{"marks": marks, **fields})


def region(contours):
    outline, *holes = (sample(contour, 0.002) for contour in contours)
    return shapely.Polygon(outline, holes)


def reread(piece):
    stream = io.BytesIO()
    write_stl(piece, stream)
    stream.seek(0)
    return read_stl(stream)


def test_a_part_that_fits_stays_as_it_is():
    plate = big_gauge()
    assert split_to_bed(plate, (130, 130), PLAY) == [plate]
    assert split_to_bed(plate, (130, 121), PLAY) == [plate]


@pytest.mark.parametrize("plate", [big_gauge(), bevelled(), gauge()], ids=["lettered", "bevelled", "full"])
def test_the_pieces_fit_hold_every_hole_and_mark_and_measure_back(plate):
    bed = (115.0, 130.0)
    pieces = split_to_bed(plate, bed, PLAY)
    assert [piece.name for piece in pieces] == [f"{plate.name}-a", f"{plate.name}-b"]
    for piece in pieces:
        x0, y0, x1, y1 = piece.outline.bounds
        assert min(x1 - x0, y1 - y0) <= 115
        assert max(x1 - x0, y1 - y0) <= 130
        assert problems(piece.outline) == ()
        measure(piece, reread(piece))
    assert sum(len(piece.holes) for piece in pieces) == len(plate.holes)
    texts = [mark.text for piece in pieces for mark in piece.marks if isinstance(mark, Lettering)]
    own = [mark.text for mark in plate.marks if isinstance(mark, Lettering)]
    assert sorted(texts) == sorted([*own, "A", "B"])


def test_the_working_edge_runs_across_the_joint_on_the_written_meshes():
    pieces = split_to_bed(big_gauge(), BED, PLAY)
    edges = [reread(piece).contours[0] for piece in pieces]
    near = []
    for contour in edges:
        radii = np.hypot(contour.points[:, 0], contour.points[:, 1] - 60)
        near.append(contour.points[np.abs(radii - RADIUS) < 0.5])
        chords = (contour.points + contour.ends) / 2
        on_arc = (np.abs(radii - RADIUS) < 0.5) & (np.abs(np.roll(radii, -1) - RADIUS) < 0.5)
        middles = np.hypot(chords[on_arc, 0], chords[on_arc, 1] - 60)
        assert np.abs(np.concatenate((radii[np.abs(radii - RADIUS) < 0.5], middles)) - RADIUS).max() < 0.01
    gap = np.linalg.norm(near[0][:, None] - near[1], axis=2).min()
    assert gap < 1e-4
    turned = np.sort(np.concatenate([np.arctan2(p[:, 0], 60 - p[:, 1]) for p in near]))
    assert np.ptp(turned) == pytest.approx(pi, abs=1e-4)
    assert np.diff(turned).max() < 0.1


def test_each_piece_says_how_much_of_the_arc_it_has():
    pieces = split_to_bed(big_gauge(), BED, PLAY)
    spans = [
        d.probe.end - d.probe.start
        for piece in pieces
        for d in piece.dimensions
        if isinstance(d.probe, ArcRadius)
    ]
    assert len(spans) == 2
    assert sum(spans) == pytest.approx(pi, abs=1e-6)


def test_the_pieces_go_together_one_way_only():
    first, second = split_to_bed(big_gauge(), BED, PLAY)
    a, b = (region(reread(piece).contours) for piece in (first, second))
    whole = region([big_gauge().outline, *big_gauge().holes])
    assert a.intersection(b).area < 0.01
    assert whole.difference(a.union(b)).area < PLAY * 40  # the key's play alone
    joint = np.array(a.buffer(0.01).intersection(b.buffer(0.01)).minimum_rotated_rectangle.exterior.coords)
    sides = np.diff(joint, axis=0)
    along = sides[np.hypot(*sides.T).argmax()] / np.hypot(*sides.T).max()
    middle = tuple(joint[:4].mean(axis=0))
    turn = float(np.degrees(np.arctan2(along[1], along[0])))
    level = affinity.rotate(b, -turn, origin=middle)
    wrongly = {
        "face down": affinity.rotate(affinity.scale(level, -1, 1, origin=middle), turn, origin=middle),
        "the key piece twice": affinity.rotate(a, 180, origin=middle),
    }
    for name, other in wrongly.items():
        slides = [affinity.translate(other, *(slide * along)) for slide in np.linspace(-2, 2, 9)]
        assert min(a.intersection(slid).area for slid in slides) > 5, name


def test_holes_and_lettering_are_not_cut():
    holes = tuple(circle((x, y), 4).cw() for x in (-20, 0, 20) for y in (-40,))
    plate = part(rectangle(-60, -60, 60, 0), holes=holes, marks=(Lettering("LONG WORDS", (-30, -15), 5),))
    for piece in split_to_bed(plate, (100, 130), PLAY):
        found = region([piece.outline])
        for hole in piece.holes:
            assert found.contains(region([hole]).buffer(1.5))


def test_a_marked_line_is_cut_and_stops_short_of_the_joint():
    pieces = split_to_bed(big_gauge(), BED, PLAY)
    lines = [mark for piece in pieces for mark in piece.marks if isinstance(mark, Line)]
    assert len(lines) == 2
    length = sum(hypot(m.points[1][0] - m.points[0][0], m.points[1][1] - m.points[0][1]) for m in lines)
    assert 105 < length < 110
    assert {mark.name for mark in lines} == {"base"}


def test_a_wedge_keeps_its_angle_on_the_piece_that_has_both_edges():
    pieces = split_to_bed(wedge(marks=()), (90, 60), PLAY)
    assert len(pieces) == 2
    names = [{d.name for d in piece.dimensions} for piece in pieces]
    assert any("angle" in found for found in names)
    assert [("bolt" in found) for found in names].count(True) == 1
    assert [("thick end" in found) for found in names].count(True) == 1
    for piece in pieces:
        stream = io.BytesIO()
        write_dxf(piece, stream)
        stream.seek(0)
        measure(piece, read_dxf(stream))
        for d in piece.dimensions:
            if not isinstance(d.probe, Extent):
                assert isinstance(d.probe, (EdgeAngle, EdgeGap, HoleDiameter)) or d.name in (
                    "thick end",
                    "thickness",
                )


def test_a_part_that_is_a_hair_too_long_is_split_too():
    assert len(split_to_bed(part(rectangle(0, 0, 120.4, 60)), (120, 120), PLAY)) == 2


def test_a_long_bar_comes_in_as_many_pieces_as_it_needs_with_keys_of_their_own():
    bar = part(rectangle(0, 0, 500, 40))
    pieces = split_to_bed(bar, (150, 150), PLAY)
    assert [piece.name[-1] for piece in pieces] == ["a", "b", "c", "d"]
    assert sum(piece.outline.area for piece in pieces) == pytest.approx(bar.outline.area, abs=20)
    regions = [region([piece.outline]) for piece in pieces]
    for i, one in enumerate(regions):
        for other in regions[i + 1 :]:
            assert one.intersection(other).area < 1e-6


def test_a_bevel_is_cut_edge_for_edge():
    plate = bevelled()
    for piece in split_to_bed(plate, (115.0, 130.0), PLAY):
        assert piece.bevel is not None
        assert len(piece.bevel.top) == len(piece.outline)
        write_stl(piece, io.BytesIO())


@pytest.mark.parametrize(
    "plate",
    [
        part(rectangle(0, 0, 200, 10)),
        part(rectangle(0, 0, 200, 40), holes=(rectangle(4, 12, 196, 28).cw(),)),
        part(rectangle(0, 0, 300, 20), marks=(Lettering("M" * 80, (3, 6), 5),)),
    ],
    ids=["too narrow for a key", "a slot all along", "lettered all along"],
)
def test_a_part_without_a_place_for_a_joint_is_refused(plate):
    with pytest.raises(CannotSplit):
        split_to_bed(plate, (120, 120), PLAY)


def test_a_tongue_beside_the_plate_is_no_place_for_a_joint():
    fork = polygon([(0, 0), (160, 0), (160, 30), (60, 30), (60, 60), (160, 60), (160, 90), (0, 90)])
    pieces = split_to_bed(part(fork), (120, 120), PLAY)
    assert all(problems(piece.outline) == () for piece in pieces)
    assert sum(piece.outline.area for piece in pieces) == pytest.approx(fork.area, abs=20)


def test_a_joint_leaves_no_sliver_beside_an_edge():
    tee = polygon([(-150, 0), (150, 0), (150, 40), (31, 40), (31, 180), (-31, 180), (-31, 40), (-150, 40)])
    for piece in split_to_bed(part(tee), (190, 190), PLAY):
        thin = region([piece.outline])
        opened = thin.buffer(-2.5, join_style="mitre").buffer(2.5, join_style="mitre")
        assert thin.difference(opened.buffer(0.01)).area < 1


def test_every_key_of_a_long_bar_has_a_place_of_its_own_even_turned_over():
    pieces = split_to_bed(part(rectangle(0, 0, 800, 40)), (150, 150), PLAY)
    assert len(pieces) > 5
    inner = np.concatenate([piece.outline.points for piece in pieces])
    inner = inner[(inner[:, 1] > 0.1) & (inner[:, 1] < 39.9)]
    inner = inner[inner[:, 0].argsort()]
    joints = np.split(inner, np.flatnonzero(np.diff(inner[:, 0]) > 20) + 1)
    assert len(joints) == len(pieces) - 1
    heights = [joint[:, 1].mean() for joint in joints]
    for k, height in enumerate(heights):
        assert abs(height - 20) > 1
        for other in heights[k + 1 :]:
            assert abs(height - other) > 2 * PLAY
            assert abs(height - (40 - other)) > 2 * PLAY


def test_joints_that_leave_more_over_the_bed_than_one_that_will_do_are_not_tried(monkeypatch):
    tried: list[float] = []
    found = splitting.keys

    def counted(*args):
        for over, key in found(*args):
            tried.append(over)
            yield over, key

    monkeypatch.setattr(splitting, "keys", counted)
    assert len(split_to_bed(part(rectangle(0, 0, 205, 140)), (60, 2000), PLAY)) > 2
    assert len(tried) < 40
    with pytest.raises(CannotSplit):
        split_to_bed(part(rectangle(0, 0, 200, 140), holes=[circle((100, 70), 60)]), (50, 2000), PLAY)
    assert len(tried) < 80
