"""What is dragged moves with the hand, and changes the job file by as much."""

from functools import cache
from io import BytesIO

import numpy as np
import pytest
from PIL import Image
from shapely import LineString, Point

from jigs.asked.edited import BadEdit, edited
from jigs.forms.solve import shaped
from jigs.page.drawing import drawing_of, picture_of, section_of
from jigs.page.edits import read_changes
from jigs.page.reading import read
from tests.conftest import CONFIGS, JOBS

STEP = 0.5  # mm
read_once = cache(read)


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


def after(way, mm):
    """The number that the page asks for, as `web/ways.js`."""
    return way.value + mm * way.rate


def dragged(text, file, way, mm):
    reading = read_once(text, file)
    change = change_of(way, after(way, mm))
    return drawn(edited(text, read_changes([change], reading.source, reading.unit)), file)[1]


@pytest.mark.parametrize("file", JOBS, ids=[file.stem for file in JOBS])
def test_each_handle_goes_as_far_as_it_is_dragged(file):
    text = file.read_text("utf-8")
    reading, drawing = drawn(text, file)
    each_follows(text, file, reading, drawing.handles)


def each_follows(text, file, reading, handles):
    step = STEP if reading.unit == "mm" else 25.4 / 16
    for handle in handles:
        for way in handle.ways:
            there = dragged(text, file, way, step)
            moved = next(one for one in there.handles if one.id == handle.id)
            along = (moved.x - handle.x) * way.along[0] + (moved.y - handle.y) * way.along[1]
            assert along == pytest.approx(step, abs=0.15 * step), (handle.id, way.label)


def of_the_blank(drawing):
    """All but the points of its outside, which lie as they are stated whatever they are turned from."""
    return [handle for handle in drawing.handles if not handle.id.startswith("outside")]


def test_rings_beside_staves_are_dragged():
    file = CONFIGS / "sorrel.toml"
    text = file.read_text("utf-8") + "\n[staves]\nlow = 60\nhigh = 120\ncount = 16\n"
    reading, drawing = drawn(text, file)
    found = [handle.id for handle in drawing.handles if handle.id.startswith("joint")]
    assert found == ["joint-1", "joint-2", "joint-4", "joint-5"]
    each_follows(text, file, reading, of_the_blank(drawing))


def test_joints_over_a_floating_base_are_dragged():
    file = CONFIGS / "sorrel.toml"
    text = (
        file.read_text("utf-8").replace("heights = 21", "heights = [12, 21]")
        + 'base = "floating"\n[foot]\nrecess_diameter = 40\nrecess_depth = 4\n'
    )
    reading, drawing = drawn(text, file)
    assert shaped(reading.job).stack.floating
    assert "joint-1" in [handle.id for handle in drawing.handles]
    each_follows(text, file, reading, of_the_blank(drawing))


def test_a_dragged_joint_states_heights_that_were_chosen():
    file = CONFIGS / "tumbler.toml"
    text = file.read_text("utf-8")
    reading, drawing = drawn(text, file)
    joint = next(one for one in drawing.handles if one.id == "joint-2")
    assert "no longer chosen" in joint.label
    change = change_of(joint.ways[0], joint.ways[0].value + 25.4 / 16)
    fresh = edited(text, read_changes([change], reading.source, reading.unit))
    stated = read(fresh, file).job.rings.heights
    assert stated == pytest.approx([*joint.ways[0].listed[:1], change["list"][1], change["list"][2],
                                    *joint.ways[0].listed[3:]], abs=25.4 / 128)  # fmt: skip


def test_a_drawn_profile_says_where_it_is_changed():
    file = CONFIGS / "tumbler.toml"
    _, drawing = drawn(file.read_text("utf-8"), file)
    assert [one for one in drawing.without if "tumbler.dxf" in one]
    assert not [one for one in drawing.handles if one.id.startswith("outside")]


@pytest.mark.parametrize(("job", "words", "handle"), [
    ("millwheel", "The tube follows", "tube"), ("acorn-lid", "The wall is what lies between", "wall"),
    ("acorn", "The floor is as thick", "floor"), ("acorn", "Arcs of the outside keep", "outside-arc-1"),
    ("acorn-lid", "The knob has no handles", "knob-1"), ("garland", "The ring is as small", "ring"),
])  # fmt: skip
def test_what_has_no_handle_says_why(job, words, handle):
    _, drawing = drawn((CONFIGS / f"{job}.toml").read_text("utf-8"), CONFIGS / f"{job}.toml")
    assert [one for one in drawing.without if one.startswith(words)]
    assert handle not in [one.id for one in drawing.handles]


@pytest.mark.parametrize(("job", "name"), [("sorrel", "wall"), ("sorrel", "floor"), ("acorn", "wall")])
def test_the_wall_and_the_floor_show_where_they_come_to(job, name):
    """The finished section bent as the page bends it, beside the one that is then drawn."""
    file = CONFIGS / f"{job}.toml"
    text = file.read_text("utf-8")
    _, drawing = drawn(text, file)
    [way] = next(one for one in drawing.handles if one.id == name).ways
    corners = loop_of(drawing, "finished")
    for k, out, up in way.bend.shifts:
        x, y = corners[k]
        corners[k] = [x + STEP * out, y + STEP * up]
    there = dragged(text, file, way, STEP)
    line = LineString([*loop_of(there, "finished"), loop_of(there, "finished")[0]])
    worst = max(line.distance(Point(x, y)) for x, y in corners)
    assert len(way.bend.shifts) > 2
    assert worst < 0.35 * STEP  # unmoved it would be all of it


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


def test_an_ellipse_shows_its_height_and_keeps_it_while_its_width_is_dragged(tmp_path):
    file = tmp_path / "hoop.toml"
    sizes = "outer_diameter = 250\ntube_diameter = 54\ntube_height = 40\n"
    text = f'title = "Hoop"\nunit = "mm"\n[form]\n{sizes}wedge_rings = 18\nsegments = 8\ncore_opening = 12\n'
    _, drawing = drawn(text, file)
    for id in ("rim", "hole", "tube-height"):
        [way] = next(one for one in drawing.handles if one.id == id).ways
        there = loop_of(dragged(text, file, way, STEP), "finished")
        shown = bent(loop_of(drawing, "finished"), way.bend, STEP)
        for k, least_or_most in ((0, min), (0, max), (1, min), (1, max)):
            want = least_or_most(point[k] for point in there)
            assert least_or_most(point[k] for point in shown) == pytest.approx(want, abs=0.02), id


def loop_of(drawing, role):
    return [point[:2] for loop in drawing.loops if loop.role == role for point in loop.points]


def bent(points, bend, mm):
    """As `web/bend.js` does for a share that is the same at every height."""
    by, high = 1 + bend.grow * mm, 1 + bend.rise * mm
    out = bend.out[0][1] if bend.out else 0.0
    return [
        (bend.centre[0] + (x - bend.centre[0]) * by + out * mm, bend.centre[1] + (y - bend.centre[1]) * high)
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


def test_a_lid_is_shown_with_its_top_up_and_its_knob_on_it():
    file = CONFIGS / "acorn-lid.toml"
    shape = shaped(read(file.read_text("utf-8"), file).job)
    drawing = drawing_of(shape, coarse=True)
    assert drawing.form.over
    assert min(drawing.form.height) == pytest.approx(-24)  # over the top, planned upside down
    [knob] = [loop.points for loop in drawing.section.loops if loop.role == "knob"]
    assert (min(y for _, y, _ in knob), max(y for _, y, _ in knob)) == pytest.approx((-24, 8))
    shown = np.asarray(Image.open(BytesIO(picture_of(shape))).convert("RGB")).astype(int)
    ground = np.abs(shown - shown[0, 0]).sum(axis=2) < 12
    wide = (~ground).sum(axis=1)
    rows = np.flatnonzero(wide)
    high, low = (wide[rows[int(share * (len(rows) - 1))]] for share in (0.1, 0.7))
    assert 0 < high < 0.5 * low
