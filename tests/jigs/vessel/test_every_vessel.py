"""Every vessel family against every vessel in configs/: what a user is to hold is sound, and says what it is."""

from __future__ import annotations

import io
import json
import re
import shutil
from collections import Counter
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import ezdxf
import numpy as np
import pytest
import shapely
import trimesh
from shapely.ops import substring

from geometry.arcs import points_along
from geometry.profile import Profile
from jigs.families.labels import LATHE_CAUTION, SAW_CAUTION
from jigs.families.places import rewrapped
from jigs.families.vessel import VESSEL_FAMILIES
from jigs.formats import FORMATS
from jigs.jobfile import load
from jigs.lengths import show_length
from jigs.make import Made, make
from jigs.part import EdgeAngle, Lettering, Part, ProfileForm
from jigs.plan.vessel import VesselPlan
from jigs.rack import rack
from jigs.solve import solve
from tests.jigs.inspection import faults, text_of

CONFIGS = Path(__file__).parents[3] / "configs"
JOBS = [CONFIGS / "sorrel.toml", CONFIGS / "tumbler.toml"]
FILE_TOLERANCE, ANGLE_TOLERANCE = 0.01, 0.001  # mm, degrees
DENSE = 0.2  # mm between the places at which an edge is looked at
NEAR = 0.03  # mm from a true offset, within which a corner of a gauge may lie on it


@dataclass(frozen=True)
class Shop:
    """A job's plan and all its parts."""

    plan: VesselPlan
    parts: tuple[Part, ...]

    def of(self, process: str) -> list[Part]:
        return [part for part in self.parts if part.process == process]

    def named(self, *starts: str) -> list[Part]:
        found = [part for part in self.parts if part.name.startswith(starts)]
        assert found, starts
        return found


@cache
def shop(path: Path, gauges: str = "print") -> Shop:
    job = load(path)
    made = replace(job.workshop.made, gauges=gauges)
    plan = solve(replace(job, workshop=replace(job.workshop, made=made)))
    return Shop(plan, tuple(rack(plan)[0]))


each_job = pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)


@cache
def written(part: Part) -> bytes:
    stream = io.BytesIO()
    FORMATS[part.process].write(part, stream, 0.0)
    return stream.getvalue()


@cache
def document(part: Part) -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(written(part).decode()))


@cache
def mesh(part: Part) -> trimesh.Trimesh:
    return trimesh.load(io.BytesIO(written(part)), file_type="stl")


def test_one_is_metric_from_stations_and_one_in_inches_from_a_drawing():
    given = {job.unit: job.outside.way for job in map(load, JOBS)}
    assert given == {"mm": "stations", "in": "drawing"}


@each_job
def test_every_part_can_be_made_and_its_marks_lie_on_it(path):
    assert [fault for part in shop(path).parts for fault in faults(part)] == []


@each_job
@pytest.mark.parametrize("family", VESSEL_FAMILIES, ids=lambda family: family.__name__)
def test_every_family_gives_parts_and_says_nothing(path, family, capsys):
    assert family(shop(path).plan) or family.__name__ == "layup"  # no vessel in configs/ has one
    assert capsys.readouterr() == ("", "")


@each_job
def test_every_part_says_what_it_is_for_of_what_and_how_many(path):
    parts = shop(path).parts
    assert [name for name, count in Counter(part.name for part in parts).items() if count > 1] == []
    for part in parts:
        assert part.purpose, part.name
        assert part.material, part.name
        assert part.process in ("print", "cut", "turn")
        assert part.quantity >= 1
        assert part.notes, part.name
        assert part.dimensions, part.name
        assert len({dimension.name for dimension in part.dimensions}) == len(part.dimensions), part.name
        for dimension in part.dimensions:
            assert (dimension.value == 0) == isinstance(dimension.probe, ProfileForm), part.name


@each_job
def test_whatever_is_held_to_the_work_says_job_kind_and_that_the_lathe_stands_still(path):
    title = shop(path).plan.job.title.upper()
    held = [part for part in shop(path).parts if part.family in ("gauges", "sizes")]
    kinds = {" ".join(part.name.split("-")[:2]) for part in held}
    assert {"outside gauge", "inside gauge", "wall gauge", "gap gauge", "mouth stick", "mouth plug"} <= kinds
    for name, pieces in together(held).items():
        text = " ".join(text_of(piece) for piece in pieces)
        assert title in text, name
        assert " ".join(name.split("-")[:2]).upper() in text, name
        assert all(word in text for word in LATHE_CAUTION), name
        for piece in pieces:
            assert "Stop the lathe and take the rest away" in " ".join(piece.notes), name


def together(parts: list[Part]) -> dict[str, list[Part]]:
    """Parts by name, the lettered pieces of one among each other."""
    found: dict[str, list[Part]] = {}
    for part in parts:
        head, _, tail = part.name.rpartition("-")
        found.setdefault(head if len(tail) == 1 and tail.isalpha() else part.name, []).append(part)
    return found


FRACTION = re.compile(r"\d+/\d+|[+-] \.\d")
LENGTH_TORN = re.compile(r"(\d|[+-]|Ø)$"), re.compile(r"^(IN\b|MM\b|\d+/\d|[+-]? ?\.\d)")


def test_sizes_lettered_in_inches_are_decimals():
    """But for the stages' names, which are those of the job."""
    one = shop(CONFIGS / "tumbler.toml")
    stages = [stage.label for stage in one.plan.gauges.stages]
    for part in one.named(
        "glue-up-board", "gap-gauge", "calliper-stick", "mouth-", "stop-stick", "wall-gauge"
    ):
        text = text_of(part)
        for label in stages:
            text = text.replace(label, "")
        assert not FRACTION.search(text), part.name


@each_job
def test_no_length_is_torn_between_two_rows(path):
    for part in shop(path).parts[1:]:  # the coupon's rows of numbers come first
        rows = [mark.text for mark in part.marks if isinstance(mark, Lettering)]
        for above, below in pairwise(rows):
            torn = LENGTH_TORN[0].search(above) and LENGTH_TORN[1].search(below)
            assert not torn, (part.name, above, below)


@pytest.mark.parametrize(
    "length", ["4 33/64 IN", "4 33/64 + .003 IN", "1.250 IN", "Ø 12.50 MM", "3/4 - .002 IN"]
)
def test_rows_that_are_broken_anew_keep_each_length_whole(length):
    text = ("LONG NAME", f"RING 1, {length} ACROSS", f"OVER FOOT {length}")
    ways = rewrapped(text)
    assert max(map(len, ways)) > 3
    for rows in ways:
        assert " ".join(rows).count(length) == 2
        assert sum(row.count(length) for row in rows) == 2


@each_job
def test_the_profile_gauges_say_their_stage_and_where_they_stand_or_hang(path):
    plan = shop(path).plan
    for kind, ways in (("outside", ("← AXIS", "ON FACEPLATE ↓")), ("inside", ("← AXIS", "HOOK ON RIM →"))):
        for stage in plan.gauges.stages:
            pieces = shop(path).named(f"{kind}-gauge-{stage.name}")
            text = " ".join(text_of(piece) for piece in pieces)
            assert stage.label in text
            assert all(way in text for way in ways), text
    others = shop(path).named("outside-gauge-finished")[1:]
    assert [f"ON PIECE {k} ↓" in text_of(part) for k, part in enumerate(others, 1)] == [True] * len(others)


@each_job
def test_the_diameters_along_the_outside_gauges_are_the_sections(path):
    plan, checked = shop(path).plan, 0
    heights = {f"joint {joint.lower}-{joint.upper}": joint.height for joint in plan.stack.joints}
    heights |= {station.name: station.height for station in plan.gauges.stations}
    for part in shop(path).named("outside-gauge"):
        for name, told in re.findall(r"([a-z]+(?: [\d-]+)?) Ø ([\d.]+)", text_of(part)):
            radius = plan.section.outer.radius_at(max(0.0, heights[name]))
            shown = show_length(2 * radius, plan.job.unit, exact=True).split()[0]
            assert float(told) == pytest.approx(float(shown), abs=0.06), (part.name, name)
            checked += 1
    assert checked >= 12


@each_job
def test_sizes_are_lettered_with_their_diameter_and_the_height_they_are_for(path):
    plan, unit = shop(path).plan, shop(path).plan.job.unit
    for gap in plan.sizes.gaps:
        name = gap.station.name.upper()
        text = next(text_of(p) for p in shop(path).named("gap-gauge") if f"GAP GAUGE: {name} " in text_of(p))
        assert f"Ø{show_length(gap.go.diameter, unit, exact=True)}".upper() in text
        assert f"{show_length(gap.over_faceplate, unit, exact=True)} over faceplate".upper() in text
        assert "GO" in text
        assert "NOT YET" in text


@each_job
def test_what_is_for_some_rings_only_names_them(path):
    plan = shop(path).plan
    for part in shop(path).named("stop-stick", "centring-plate"):
        numbers = part.name.partition("-ring-")[2].split("-")
        assert f"RING{'S' * (len(numbers) > 1)} {', '.join(numbers)}" in text_of(part), part.name
    for sled in plan.saws.sleds:
        for setting in sled.settings:
            stick = next(p for p in shop(path).named("stop-stick") if ring_list(setting.rings) in text_of(p))
            assert show_length(setting.stop, plan.job.unit, exact=True).upper() in text_of(stick)
    boards = " ".join(text_of(part) for part in shop(path).named("glue-up-board"))
    for layer in plan.stack.layers:
        assert layer.cut is None or f"{layer.number}" in boards


def ring_list(numbers: tuple[int, ...]) -> str:
    return f"RING{'S' * (len(numbers) > 1)} {', '.join(map(str, numbers))},"


@each_job
def test_the_joint_plates_are_lettered_with_their_angle_and_which_edges_bear(path):
    for part in shop(path).named("joint-plate"):
        angle = next(d.value for d in part.dimensions if isinstance(d.probe, EdgeAngle))
        assert f"{angle:.3f}".rstrip("0").rstrip(".") + "°" in text_of(part)
        assert "BOTH LONG EDGES BEAR" in text_of(part)


@each_job
def test_parts_at_the_saw_carry_their_cautions(path):
    for part in shop(path).named(
        "plan-angle-base", "plan-angle-fence", "plan-angle-carriage", "stop-stick", "joint-"
    ):
        assert " ".join(SAW_CAUTION) in text_of(part).replace(",", ""), part.name
    for part in shop(path).named("plan-angle-base", "plan-angle-stop"):
        assert "unplug" in " ".join(part.notes)
        assert "never in line with the blade" in " ".join(part.notes)
    for part in shop(path).named("plan-angle-base"):
        assert "↓ OPERATOR" in text_of(part)


@each_job
def test_whatever_spins_carries_the_cautions_before_spinning(path):
    for part in shop(path).named("mouth-plug-section", "mouth-plug-layer", "mouth-plug-flange-layer"):
        assert "one full turn by hand" in " ".join(part.notes), part.name
        assert "lowest speed first" in " ".join(part.notes), part.name
        assert part.process in ("cut", "turn")


@each_job
def test_raised_text_is_large_enough_for_the_nozzle(path):
    nozzle = shop(path).plan.job.workshop.printer.nozzle
    for part in shop(path).of("print"):
        heights = [mark.height for mark in part.marks if hasattr(mark, "height")]
        assert part.mark_width >= 2 * nozzle, part.name
        assert min(heights) >= 4 * part.mark_width, part.name


@each_job
def test_every_mesh_is_one_closed_body_the_right_way_out(path):
    for part in shop(path).of("print"):
        seen = mesh(part)
        assert seen.is_watertight, part.name
        assert seen.is_winding_consistent, part.name
        assert seen.body_count == 1, part.name
        assert seen.volume > 0, part.name


# Working edges, against shapely's own offset of the densely sampled section


def dense(profile: Profile) -> np.ndarray:
    """Places (n, 2) no farther apart than DENSE, from the bulges alone."""
    rows = profile.vertices
    found = [rows[:1, :2]]
    for row, following in pairwise(rows):
        chord = np.hypot(*(following[:2] - row[:2]))
        t = np.linspace(0, 1, max(2, round(chord / DENSE) + 2))[1:]
        ends = np.broadcast_to(row[:2], (len(t), 2)), np.broadcast_to(following[:2], (len(t), 2))
        found.append(points_along(*ends, np.full(len(t), 4 * np.arctan(row[2])), t))
    return np.concatenate(found)


def true_outside(plan: VesselPlan, offset: float) -> shapely.LineString:
    """The outside moved out: the rim of a disc rolled along the section, which goes on straight past both ends."""
    points = dense(plan.section.outer)
    longer = np.concatenate([[beyond(points[1], points[0])], points, [beyond(points[-2], points[-1])]])
    tube = shapely.LineString(longer).buffer(offset, quad_segs=512)
    solid = shapely.Polygon([*longer, (-500, longer[-1, 1]), (-500, longer[0, 1])])
    edge = tube.union(solid).exterior
    return longest(edge.intersection(shapely.box(0.1, 0.0, 1000.0, plan.section.height)))


def true_inside(plan: VesselPlan, offset: float) -> shapely.LineString:
    """The inside moved in: what a disc of that radius leaves free as it rolls along the hollow."""
    points = dense(plan.section.inner)
    longer = np.concatenate([points, [beyond(points[-2], points[-1])]])
    hollow = shapely.Polygon([*(longer * (-1, 1))[::-1], *longer])
    edge = hollow.buffer(-offset, quad_segs=512).exterior
    return longest(edge.intersection(shapely.box(0.0, -1.0, 1000.0, plan.section.height)))


def beyond(before: np.ndarray, end: np.ndarray) -> np.ndarray:
    """A place 30 mm on, straight."""
    along = end - before
    return end + 30 * along / np.hypot(*along)


def longest(lines: shapely.Geometry) -> shapely.LineString:
    merged = shapely.line_merge(lines)
    return max(getattr(merged, "geoms", [merged]), key=lambda line: line.length)


def outline_in_file(part: Part) -> shapely.LinearRing:
    """The outline as another reader has it: round the mesh's faces on z = 0, or the largest closed polyline."""
    if part.process == "print":
        lines = shapely.multilinestrings(floor_edges(mesh(part)))
        return max(
            (shapely.LinearRing(ring.coords) for ring in shapely.line_merge(lines).geoms),
            key=lambda r: r.length,
        )
    lines = [line for line in document(part).modelspace().query("LWPOLYLINE") if line.closed]
    rings = [ezdxf.path.make_path(line).flattening(0.0005) for line in lines]
    return max(
        (shapely.LinearRing([(p.x, p.y) for p in ring]) for ring in rings), key=lambda ring: ring.length
    )


def floor_edges(seen: trimesh.Trimesh) -> np.ndarray:
    """Edges (m, 2, 2) round the faces on z = 0."""
    floor = seen.faces[(seen.vertices[seen.faces][:, :, 2] == 0).all(axis=1)]
    edges = np.sort(np.concatenate([floor[:, [0, 1]], floor[:, [1, 2]], floor[:, [2, 0]]]), axis=1)
    single, counts = np.unique(edges, axis=0, return_counts=True)
    return seen.vertices[single[counts == 1]][:, :, :2]


def strays(part: Part, wanted: shapely.LineString) -> float:
    """The worst distance, both ways, between a part's working edge in its file and the true one."""
    rows = next(d.probe.rows for d in part.dimensions if isinstance(d.probe, ProfileForm))
    on = [shapely.Point(x, y) for x, y, _ in rows if wanted.distance(shapely.Point(x, y)) < NEAR]
    assert len(on) >= 2, part.name
    ring = outline_in_file(part)
    run = between(ring, on[0], on[-1])
    low, high = sorted((wanted.project(on[0]), wanted.project(on[-1])))
    assert run.length == pytest.approx(high - low, rel=2e-3)
    return max(farthest(run, wanted), farthest(substring(wanted, low, high), ring))


def between(ring: shapely.LinearRing, start: shapely.Point, end: shapely.Point) -> shapely.LineString:
    """The shorter way round: a working edge is less than half of its plate's outline or the only smooth way."""
    a, b = sorted((ring.project(start), ring.project(end)))
    return min(
        substring(ring, a, b),
        shapely.line_merge(shapely.union_all([substring(ring, b, ring.length), substring(ring, 0, a)])),
        key=lambda line: line.length,
    )


def farthest(line: shapely.LineString, to: shapely.Geometry) -> float:
    """Its corners, and places between them."""
    return float(shapely.distance(shapely.points(np.array(line.segmentize(DENSE).coords)), to).max())


@each_job
@pytest.mark.parametrize("process", ["print", "cut"])
def test_the_gauges_edges_are_the_sections_true_offset_in_every_format(path, process):
    made, checked = shop(path, process), 0
    for stage in made.plan.gauges.stages:
        off = stage.offset + made.plan.gauges.fit
        for kind, true in (("outside", true_outside), ("inside", true_inside)):
            wanted = true(made.plan, off)
            for part in made.named(f"{kind}-gauge-{stage.name}"):
                assert part.process == process
                if any(isinstance(dimension.probe, ProfileForm) for dimension in part.dimensions):
                    assert strays(part, wanted) <= FILE_TOLERANCE, part.name
                    checked += 1
    assert checked >= 3 * len(made.plan.gauges.stages)


def test_an_edge_off_its_curve_is_seen_by_these_tests():
    """The measure above can fail: a gauge a fiftieth too large strays by that."""
    made = shop(JOBS[0])
    part = made.named("outside-gauge-finished-1")[0]
    off = made.plan.gauges.stages[-1].offset + made.plan.gauges.fit
    assert strays(part, true_outside(made.plan, off + 0.02)) == pytest.approx(0.02, abs=0.01)


# Drawings


def drawn(path: Path) -> list[Part]:
    """Every part that comes as a drawing; those of the gauges that are printed otherwise too."""
    cut = shop(path, "cut")
    return [
        *shop(path).of("cut"),
        *shop(path).of("turn"),
        *(p for p in cut.of("cut") if p.family == "gauges"),
    ]


@each_job
def test_drawings_are_clean_and_in_millimetres_and_their_outlines_closed(path):
    for part in drawn(path):
        audit = document(part).audit()
        assert not audit.errors, part.name
        assert not audit.fixes, part.name
        assert document(part).header["$INSUNITS"] == 4
        assert document(part).header["$MEASUREMENT"] == 1
        cut = [e for e in document(part).modelspace() if e.dxf.layer in ("cut", "drill", "section")]
        assert len(cut) == 1 + len(part.holes), part.name
        assert all(e.dxftype() == "CIRCLE" or e.closed for e in cut), part.name


@each_job
def test_arcs_in_the_drawings_are_arcs_with_the_nominal_radius(path):
    checked = 0
    for part in drawn(path):
        wanted = [(*e.centre, e.radius) for c in (part.outline, *part.holes) for e in c.edges() if e.is_arc]
        found = np.array([*bulged(document(part)), *circled(document(part))]).reshape(-1, 3)
        for arc in wanted:
            # A flat arc's centre is far off: what its file rounds by a millionth moves it by much more.
            assert (np.abs(found - arc).max(axis=1) <= 1e-6 * arc[2] ** 2 + 1e-4).any(), part.name
            checked += 1
    assert checked > 100


def bulged(drawing: ezdxf.document.Drawing) -> list[tuple[float, float, float]]:
    """Centre and radius of each bulged piece."""
    found = []
    for line in drawing.modelspace().query("LWPOLYLINE"):
        rows = line.get_points("xyb")
        for (x0, y0, bulge), (x1, y1, _) in zip(rows, [*rows[1:], rows[0]], strict=True):
            if bulge:
                centre, _, _, radius = ezdxf.math.bulge_to_arc((x0, y0), (x1, y1), bulge)
                found.append((centre.x, centre.y, radius))
    return found


def circled(drawing: ezdxf.document.Drawing) -> list[tuple[float, float, float]]:
    circles = drawing.modelspace().query("CIRCLE")
    return [(c.dxf.center.x, c.dxf.center.y, c.dxf.radius) for c in circles]


@each_job
def test_no_drawing_stands_in_for_an_arc_with_chords(path):
    """A run of many short chords with small turns would be one."""
    for part in drawn(path):
        for contour in (part.outline, *part.holes):
            chords = [edge for edge in contour.edges() if not edge.is_arc]
            assert sum(edge.length < 1.0 for edge in chords) <= 2, part.name
            assert len(chords) <= 40, part.name
            assert len(contour) <= 100, part.name


# Sets


@pytest.fixture(scope="module")
def made_once(tmp_path_factory):
    """The folder into which the set of a job's file was made."""

    @cache
    def made_once(path):
        root = tmp_path_factory.mktemp("once")
        make(load(path), root)
        return root

    return made_once


@each_job
def test_the_same_job_gives_the_same_bytes_and_a_second_make_changes_nothing(path, made_once, tmp_path):
    root = made_once(path)
    again = make(load(path), tmp_path)
    one, other = (
        {f.relative_to(at): f.read_bytes() for f in at.rglob("*") if f.is_file()} for at in (root, tmp_path)
    )
    assert one == other
    assert len(again.files) > 40
    assert make(load(path), root).unchanged


@each_job
def test_every_file_measures_what_it_should(path, made_once):
    manifest = json.loads((made_once(path) / path.stem / "manifest.json").read_text("utf-8"))
    for entry in manifest["files"]:
        for found in entry["dimensions"]:
            if found["measured"] is not None:
                assert found["measured"] == pytest.approx(found["value"], abs=FILE_TOLERANCE), entry["part"]


STAYS = (
    "coupon", "joint-plate", "stop-stick", "glue-up-board", "ring-truing-face", "outside-gauge", "gauge-rail",
    "gap-gauge", "calliper-stick",
)  # fmt: skip
GOES = ("centring-plate", "inside-gauge", "wall-gauge", "mouth-stick", "mouth-plug-section")


@pytest.fixture(scope="module")
def thicker(made_once, tmp_path_factory) -> Made:
    """What a make says that finds the same vessel's set with a wall half a millimetre thinner."""
    folder = tmp_path_factory.mktemp("thicker")
    for name in ("sorrel.toml", "shed.toml"):
        shutil.copy(CONFIGS / name, folder)
    file = folder / "sorrel.toml"
    shutil.copytree(made_once(JOBS[0]), folder / "out")
    text = file.read_text("utf-8")
    assert "thickness = 7\n" in text
    file.write_text(text.replace("thickness = 7\n", "thickness = 7.5\n"), "utf-8")
    return make(load(file), folder / "out")


def test_another_wall_remakes_what_depends_on_it_and_nothing_else(thicker):
    for start in STAYS:
        assert any(name.startswith(start) for name in thicker.right), start
        assert not any(name.startswith(start) for name in thicker.remade), start
    for start in GOES:
        assert any(name.startswith(start) for name in thicker.remade), start
        assert not any(name.startswith(start) for name in thicker.right), start


def test_another_wall_makes_the_old_inside_gauges_wrong_by_as_much(thicker):
    wrong = dict(thicker.wrong)
    for stage in ("stage-1", "stage-2", "finished"):
        told = next(why for name, why in wrong.items() if name.startswith(f"inside-gauge-{stage}"))
        out = float(told.partition("out by ")[2].split()[0])
        assert out >= 0.49, told
    assert not any(name.startswith("outside-gauge") for name in wrong)
