"""What is dragged moves with the hand, and changes the job file by as much."""

import pytest

from jigs.forms.shaped import shaped
from jigs.page.drawing import section_of
from jigs.page.edits import BadEdit, edited, read_changes
from jigs.page.fast import read
from tests.conftest import CONFIGS, JOBS

STEP = 0.5  # mm


def drawn(text, file):
    reading = read(text, file)
    return reading, section_of(shaped(reading.job, coarse=True))


def change_of(way, mm):
    """As the page asks for it."""
    if not way.listed:
        return {"key": way.key, "mm": mm, **({"place": way.place} if way.place else {})}
    sizes = list(way.listed)
    sizes[way.place[0]] = mm
    sizes[way.place[0] + 1] += way.value - mm
    return {"key": way.key, "list": sizes}


def dragged(text, file, way, mm):
    reading, _ = drawn(text, file)
    change = change_of(way, way.value + mm * way.rate)
    return drawn(edited(text, read_changes([change], reading.source, reading.unit)), file)[1]


@pytest.mark.parametrize("file", JOBS, ids=[file.stem for file in JOBS])
def test_each_handle_goes_as_far_as_it_is_dragged(file):
    text = file.read_text("utf-8")
    reading, drawing = drawn(text, file)
    step = STEP if reading.unit == "mm" else 25.4 / 16
    for handle in drawing.handles:
        for way in handle.ways:
            after = dragged(text, file, way, step)
            moved = next(one for one in after.handles if one.id == handle.id)
            along = (moved.x - handle.x) * way.along[0] + (moved.y - handle.y) * way.along[1]
            assert along == pytest.approx(step, abs=0.15 * step), (handle.id, way.label)


@pytest.mark.parametrize("stated", ["outer tube", "outer hole", "hole tube"])
def test_what_shows_at_once_is_what_the_drawing_then_is(stated, tmp_path):
    """A torus's finished circle, bent as the page bends it, whichever two of its sizes the file states."""
    sizes = {"outer": 250, "tube": 54, "hole": 142}
    lines = "".join(f"{name}_diameter = {sizes[name]}\n" for name in stated.split())
    file = tmp_path / "hoop.toml"
    text = f'title = "Hoop"\nunit = "mm"\n[form]\n{lines}wedge_rings = 18\nsegments = 8\ncore_opening = 18\n'
    _, drawing = drawn(text, file)
    for handle in drawing.handles:
        if handle.id == "core":
            continue
        [way] = handle.ways
        want = loop_of(dragged(text, file, way, STEP), "finished")
        for (x, y), (a, b) in zip(bent(loop_of(drawing, "finished"), way.bend, STEP), want, strict=True):
            assert (x, y) == pytest.approx((a, b), abs=1e-6), handle.id


def loop_of(drawing, role):
    return [point[:2] for loop in drawing.loops if loop.role == role for point in loop.points]


def bent(points, bend, mm):
    """As `web/bend.js` does for a share that is the same at every height."""
    by, [(_, out)] = 1 + bend.grow * mm, bend.out
    return [
        (bend.centre[0] + (x - bend.centre[0]) * by + out * mm, bend.centre[1] + (y - bend.centre[1]) * by)
        for x, y in points
    ]


def test_a_dragged_joint_leaves_the_rings_above_where_they_are():
    file = CONFIGS / "sorrel.toml"
    text = file.read_text("utf-8")
    _, before = drawn(text, file)
    way = next(one for one in before.handles if one.id == "joint-3").ways[0]
    after = dragged(text, file, way, 4.0)
    tops = [[loop.points[2][1] for loop in one.loops if loop.role == "blank"] for one in (before, after)]
    assert [round(b - a, 3) for a, b in zip(*tops, strict=True)] == [0, 0, 4, 0, 0, 0, 0, 0, 0]


@pytest.mark.parametrize("change", [
    {"mm": float("inf")}, {"mm": True}, {"list": [1.0, "2"]}, {"list": [20.0] * 1000}, {"list": 3},
    {"mm": 2, "list": [2]},
])  # fmt: skip
def test_what_is_no_size_is_refused(change):
    source = read((CONFIGS / "sorrel.toml").read_text("utf-8"), CONFIGS / "sorrel.toml").source
    with pytest.raises(BadEdit):
        read_changes([{"key": "rings.heights", **change}], source, "mm")
