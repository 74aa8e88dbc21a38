"""Labels: one for each piece that could be turned the wrong way, small enough to be stuck on it."""

from math import degrees

import numpy as np
import pytest

from geometry.bodies.places import torus_places
from geometry.bodies.torus import Blank, flat_normals
from tests.jigs.paper.sheets import ALL, TORI, VESSELS, box, label_boxes, label_of, labels, plan_of


@pytest.mark.parametrize("name", ALL)
def test_every_word_lies_on_its_label_and_labels_lie_apart(name):
    for one in labels(name):
        boxes = [box(polygon) for polygon in one.drawn]
        below = [
            word for word in one.words if word.base > min(b[1] for b in boxes) and "100 %" not in word.text
        ]
        assert below
        for word in below:
            assert sum(word.within(b) for b in boxes) == 1, word
        for k, a in enumerate(boxes):
            for b in boxes[:k]:
                assert a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] or b[1] >= a[3]


@pytest.mark.parametrize("name", TORI)
def test_a_wedge_rings_label_is_no_larger_than_its_flat_or_is_tied_on(name):
    plan = plan_of(name)
    for (x0, y0, x1, y1), texts in label_boxes(name):
        if "FACE 1" in texts and "tie on" not in texts:
            assert x1 - x0 <= plan.blank.middle_length
            assert y1 - y0 <= plan.blank.flat_width


def test_labels_of_common_rings_can_be_stuck_on():
    for name in ("quoit", "millwheel", "trellis", "sorrel"):
        assert any("tie on" not in texts for _, texts in label_boxes(name))
    assert not any("tie on" in texts for _, texts in label_boxes("millwheel"))


@pytest.mark.parametrize("name", VESSELS)
def test_a_flat_rings_label_is_no_larger_than_its_first_segment_or_is_tied_on(name):
    plan = plan_of(name)
    layers = {f"RING {layer.number} of {len(plan.stack.layers)}": layer for layer in plan.stack.layers}
    for (x0, y0, x1, y1), texts in label_boxes(name):
        layer = layers.get(texts[0])
        if layer is not None and "tie on" not in texts:
            assert y1 - y0 <= layer.ring.height
            assert x1 - x0 <= (layer.ring.outer_edge or 2 * layer.ring.outer) + 0.3


@pytest.mark.parametrize("name", TORI)
def test_face_2_of_a_ring_meets_face_1_of_the_next_all_round(name):
    total = plan_of(name).blank.wedge_rings
    for ring in range(1, total + 1):
        texts = label_of(name, f"RING {ring} of {total}")
        assert f"meets ring {ring - 1 or total}" in texts
        assert f"meets ring {ring % total + 1}" in texts


@pytest.mark.parametrize("name", TORI)
def test_face_1_stands_on_the_left_where_the_ring_before_lies_seen_from_outside(name):
    plan, total = plan_of(name), plan_of(name).blank.wedge_rings
    (one, *_) = labels(name)
    words = {word.text: word for word in one.words}
    assert words["FACE 1"].right <= words["FACE 2"].left
    # Seen from outside, up being Z, a step to the right is one counter-clockwise: y at the angle 0.
    right = torus_places(
        [plan.blank.centre, 0.9 * plan.blank.centre * np.tan(2 * np.pi / total), 0.0], plan.blank
    )
    assert int(right.ring) == 1
    first = label_of(name, f"RING 1 of {total}")
    assert first.index("meets ring 2") > first.index("FACE 2")


def test_the_four_faces_at_the_ends_of_halves_are_marked():
    marked = {texts[0] for _, texts in label_boxes("garland") if "END WEDGE" in texts}
    assert marked == {"RING 1 of 18", "RING 9 of 18", "RING 10 of 18", "RING 18 of 18"}
    for ring in (1, 10):
        texts = label_of("garland", f"RING {ring} of 18")
        assert texts.index("END WEDGE") < texts.index("FACE 2")
    for ring in (9, 18):
        texts = label_of("garland", f"RING {ring} of 18")
        assert texts.index("END WEDGE") > texts.index("FACE 2")


def test_without_an_end_wedge_the_ends_are_marked_as_such():
    told = [text for _, texts in label_boxes("corner") for text in texts]
    assert told.count("HALF'S END") == 4
    assert "END WEDGE" not in told


@pytest.mark.parametrize("segments", [4, 6, 8, 10, 12, 14, 16, 18, 24])
def test_the_segment_named_on_a_wedge_ring_touches_neither_stop_nor_base_however_it_is_flipped(segments):
    free = Blank(18, segments, 30.0, 12.0, 100.0).free_flat
    lean = np.degrees(flat_normals(segments))
    touching = [
        angle for angle in lean if abs(angle) <= 180 / segments + 1e-9
    ]  # flat, or both beside an arris
    if free is None:
        assert segments in (4, 6)
        return
    own = lean[free - 1]
    assert max(touching) + 1e-6 < own < 90 - 1e-6
    assert np.isclose(
        lean, -own
    ).any()  # where it lies once flipped, below the stop's flats and above the base


@pytest.mark.parametrize("name", TORI)
def test_a_wedge_rings_label_names_that_segment(name):
    free = plan_of(name).blank.free_flat
    texts = label_of(name, f"RING 1 of {plan_of(name).blank.wedge_rings}")
    assert (f"on segment {free}" in texts) == (free is not None)
    assert ("tie on" in texts) or free is not None


@pytest.mark.parametrize("name", ["garland", "trellis"])
def test_spare_rings_have_labels_too(name):
    spares = len(plan_of(name).spare_rings)
    assert spares
    assert sum(texts[0].startswith("SPARE RING") for _, texts in label_boxes(name)) == spares


def test_mixed_woods_are_told_in_their_order_and_one_wood_is_not():
    assert "maple, walnut" in label_of("mixed", "RING 1 of 18")
    assert not any("walnut" in text for text in label_of("mixed", "RING 2 of 18"))
    assert "woods: see its tape" in label_of("long", "RING 1 of 18")


@pytest.mark.parametrize("name", VESSELS)
def test_every_ring_of_a_vessel_has_its_label_and_every_stave(name):
    plan = plan_of(name)
    titles = [texts[0] for _, texts in label_boxes(name)]
    wanted = []
    for layer in plan.stack.layers:
        staves = [f"STAVE {k}" for k in range(1, len(layer.species) + 1)]
        wanted += staves if layer.kind == "staves" else [f"RING {layer.number} of {len(plan.stack.layers)}"]
    assert titles == wanted


@pytest.mark.parametrize("name", VESSELS)
def test_a_ring_tells_its_width_its_height_and_where_its_first_segment_stands(name):
    plan = plan_of(name)
    for layer in plan.stack.layers:
        if layer.cut is None:
            continue
        told = " | ".join(label_of(name, f"RING {layer.number} of {len(plan.stack.layers)}"))
        assert f"{plan.job.show(2 * layer.ring.outer, exact=plan.job.unit == 'in')} across" in told
        assert f"segment 1: {degrees(layer.turned):.4g}°" in told
        if plan.job.unit == "mm":
            assert f"{layer.ring.height:g}" in told.replace(".0 mm", " mm")


def test_a_disc_tells_that_it_is_one():
    discs = [
        (name, f"RING {layer.number} of {len(plan_of(name).stack.layers)}")
        for name in VESSELS
        for layer in plan_of(name).stack.layers
        if layer.kind == "disc"
    ]
    assert discs
    for name, ring in discs:
        assert any(text.startswith("disc") for text in label_of(name, ring))


def test_staves_tell_which_end_is_up_and_which_face_is_the_outer_one():
    for name, up in (("widening", "wide end up"), ("narrowing", "narrow end up")):
        band = plan_of(name).stack.staves
        assert (band.outer_width(band.high) > band.outer_width(band.low)) == (name == "widening")
        texts = label_of(name, "STAVE 3")
        assert up in texts
        assert "outer face" in texts


def test_pieces_of_a_layup_are_sorted_by_labels_with_their_counts():
    (layup,) = plan_of("trellis").layups
    counts = {
        texts[1]: int(texts[0].split()[0]) for _, texts in label_boxes("trellis") if "PIECES" in texts[0]
    }
    assert counts["turned over"] == layup.segments  # one of the two of each segment
    assert counts["as cut"] + counts["turned over"] == layup.pieces


def test_segments_of_the_other_hand_have_a_label_with_their_count():
    (layup,) = plan_of("hands").layups
    counts = {
        texts[1]: int(texts[0].split()[0]) for _, texts in label_boxes("hands") if "SEGMENTS" in texts[0]
    }
    assert layup.seams.other_hand > 0
    assert counts["of the other hand"] == layup.seams.other_hand
    assert sum(counts.values()) == layup.segments
