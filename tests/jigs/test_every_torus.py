"""Every torus family against every torus in configs/: what a user is to hold has its shape, and says what it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import atan2, cos, degrees, hypot, pi, sin
from pathlib import Path

import ezdxf
import numpy as np
import pytest

from geometry.plane.contour import Contour
from geometry.readback.measure import straight_edge
from jigs.asked.jobfile import load
from jigs.forms.torus.form import TORUS
from jigs.parts.part import Part
from jigs.parts.places import LATHE_CAUTION, SAW_CAUTION
from jigs.parts.probes import ArcRadius, EdgeAngle, HoleDiameter
from jigs.words.lengths import show_length
from tests.jigs.inspection import text_of
from tests.jigs.shops import (
    CONFIGS,
    FILE_TOLERANCE,
    TORI,
    bulged,
    document,
    each_round,
    each_torus,
    floor_edges,
    mesh,
    shop,
)

FAMILIES = tuple(family for stage in TORUS.stages for family in stage.jigs)

DEMO = CONFIGS / "garland.toml"
ON_REQUEST = (
    "plan_angle_sled",
    "bandsaw_sled",
    "layup",
    "slip_box",
    "flats_gauge",
)  # some jobs in configs/ do not ask for them
ANGLE_TOLERANCE = 0.001  # degrees


def sort_of(part: Part) -> str:
    """What kind of jig it is, by its name."""
    return next((kind for kind in ("gauge", "wedge", "plate", "corner", "sled") if kind in part.name), "")


def test_there_are_three_jobs_one_in_inches_one_large_one_small():
    forms = [load(path) for path in TORI]
    assert len(forms) >= 3
    assert {job.unit for job in forms} == {"mm", "in"}
    assert min(job.form.outer_diameter for job in forms) < 200
    assert max(job.form.outer_diameter for job in forms) > 500


@each_torus
@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.__name__)
def test_every_family_gives_its_own_named_parts_and_says_nothing(path, family, capsys):
    parts = family(shop(path).plan)
    assert parts or family.__name__ in ON_REQUEST
    assert len({part.family for part in parts}) <= 1
    assert capsys.readouterr() == ("", "")


@each_torus
def test_gauges_wedges_and_plates_have_a_hole_to_hang_by(path):
    hung = [part for name in ("gauges", "standing", "sizes", "angles") for part in shop(path).family(name)]
    assert {"sled-wedge", "check-corner", "channel-gauge", "outer-stick"} <= {part.name for part in hung}
    for part in hung:
        assert any(hole_diameter(hole) >= 2.4 for hole in part.holes), part.name


def hole_diameter(hole: Contour) -> float:
    """Of a round hole, else 0."""
    x0, y0, x1, y1 = hole.bounds
    round_one = all(edge.is_arc for edge in hole.edges()) and abs((x1 - x0) - (y1 - y0)) < 1e-9
    return x1 - x0 if round_one else 0.0


@each_round
def test_gauges_are_lettered_with_job_kind_size_stage_direction_and_caution(path):
    plan, unit = shop(path).plan, shop(path).plan.job.unit
    for part in shop(path).family("gauges"):
        text = text_of(part)
        radius = next(d.value for d in part.dimensions if isinstance(d.probe, ArcRadius))
        assert plan.job.title.upper() in text
        assert " ".join(part.name.split("-")[:2]).upper() in text
        assert f"R {show_length(radius, unit, exact=True)}" in text
        assert " ".join(LATHE_CAUTION) in text
    for stage in plan.gauges.stages:
        named = [part for part in shop(path).family("gauges") if part.name.endswith(stage.name)]
        assert len(named) == 2
        assert all(stage.label in text_of(part) for part in named)


@each_torus
def test_wedges_and_plates_are_lettered_with_their_angle_and_which_edge_bears(path):
    for part in shop(path).parts:
        if sort_of(part) not in ("wedge", "plate", "corner"):
            continue
        angle = next(d.value for d in part.dimensions if isinstance(d.probe, EdgeAngle))
        assert f"{angle:.3f}".rstrip("0").rstrip(".") + "°" in text_of(part), part.name
        assert any(word in text_of(part) for word in ("EDGE", "FACE", "JOINT")), part.name


@each_torus
def test_parts_at_the_saw_carry_their_cautions(path):
    for part in shop(path).parts:
        if part.name in ("sled-base", "sled-stop-cheek", "sled-jaw", "sled-fence", "sled-wedge"):
            assert " ".join(SAW_CAUTION) in text_of(part).replace(",", ""), part.name


@each_torus
def test_every_vertex_and_chord_middle_of_a_working_edge_is_on_the_nominal_curve(path):
    for part in shop(path).of("print"):
        seen = mesh(part)
        for dimension in part.dimensions:
            if isinstance(dimension.probe, ArcRadius):
                ends = floor_edges(seen) - np.array(dimension.probe.centre)
                worst, swept = along_arc(ends, dimension.probe, dimension.value)
                assert worst <= FILE_TOLERANCE, part.name
                assert swept == pytest.approx(dimension.probe.end - dimension.probe.start, abs=1e-4), (
                    part.name
                )


def along_arc(ends: np.ndarray, probe: ArcRadius, radius: float) -> tuple[float, float]:
    """How far edges of the sector near the radius stray from it, chord middles too; the angle they sweep."""
    away = np.hypot(ends[..., 0], ends[..., 1])
    angles = (np.arctan2(ends[..., 1], ends[..., 0]) - probe.start + 1e-5) % (2 * pi)
    within = (angles <= probe.end - probe.start + 2e-5).all(axis=1)
    near = within & (np.abs(away - radius) < 0.25).all(axis=1) & (np.abs(np.diff(angles)) < 0.6)[:, 0]
    middles = ends[near].mean(axis=1)
    off = np.concatenate([away[near].ravel(), np.hypot(*middles.T)]) - radius
    return float(np.abs(off).max()), float(np.abs(np.diff(angles[near])).sum())


def measured(path: Path, *probes: type) -> Iterator[tuple[Part, ezdxf.document.Drawing]]:
    """Parts that are drawn and have such a dimension, with their drawings; those without lettering, most of it."""
    for part in (*shop(path).of("cut"), *shop(path).of("turn")):
        if any(isinstance(dimension.probe, probes) for dimension in part.dimensions):
            yield part, document(replace(part, marks=()))


@each_torus
def test_angles_in_the_drawings_are_the_nominal_ones(path):
    checked = 0
    for part, drawn in measured(path, EdgeAngle):
        segments = straight_segments(drawn)
        for dimension in part.dimensions:
            if isinstance(dimension.probe, EdgeAngle):
                first, second = (
                    line_near(segments, p) for p in (dimension.probe.first, dimension.probe.second)
                )
                between = angle_between(first, second)
                assert (
                    min(abs(between - dimension.value), abs(180 - between - dimension.value))
                    <= ANGLE_TOLERANCE
                )
                checked += 1
    assert checked >= 7


def straight_segments(drawn: ezdxf.document.Drawing) -> np.ndarray:
    """Straight pieces (m, 2, 2) of the closed polylines, as ezdxf gives them."""
    pieces = []
    for line in drawn.modelspace().query("LWPOLYLINE"):
        if line.dxf.layer in ("cut", "section"):
            rows = line.get_points("xyb")
            pairs = zip(rows, [*rows[1:], rows[0]], strict=True)
            pieces += [(a[:2], b[:2]) for a, b in pairs if a[2] == 0]
    return np.array(pieces)


def line_near(segments: np.ndarray, point: tuple[float, float]) -> np.ndarray:
    """The piece nearest to a point."""
    start, along = segments[:, 0], segments[:, 1] - segments[:, 0]
    t = ((np.array(point) - start) * along).sum(axis=1) / (along**2).sum(axis=1)
    foot = start + np.clip(t, 0, 1)[:, None] * along
    return segments[np.hypot(*(foot - np.array(point)).T).argmin()]


def angle_between(first: np.ndarray, second: np.ndarray) -> float:
    """In degrees, 0 to 180."""
    (ax, ay), (bx, by) = first[1] - first[0], second[1] - second[0]
    return abs(degrees(atan2(ax * by - ay * bx, ax * bx + ay * by)))


@each_torus
def test_the_radii_and_holes_that_are_stated_are_those_of_the_drawings(path):
    for part, drawn in measured(path, ArcRadius, HoleDiameter):
        for dimension in part.dimensions:
            if isinstance(dimension.probe, ArcRadius):
                assert any(
                    hypot(x - dimension.probe.centre[0], y - dimension.probe.centre[1]) < 1e-4
                    and radius == pytest.approx(dimension.value, abs=1e-4)
                    for x, y, radius in bulged(drawn)
                ), part.name
            if isinstance(dimension.probe, HoleDiameter):
                circles = drawn.modelspace().query('CIRCLE[layer=="drill"]')
                x, y = dimension.probe.centre
                diameters = [
                    2 * c.dxf.radius for c in circles if hypot(c.dxf.center.x - x, c.dxf.center.y - y) < 1e-4
                ]
                assert diameters == pytest.approx([dimension.value], abs=1e-4), part.name


@each_round
def test_the_gauges_edge_is_the_tube_with_its_stage_and_fit(path):
    plan = shop(path).plan
    form, fit = plan.job.form, plan.job.gauges.fit
    wanted = [form.tube_radius + offset + fit for offset in plan.job.gauges.stages for _ in range(2)]
    wanted += [form.tube_radius + form.lining - fit] * 2
    radii = [
        d.value for p in shop(path).family("gauges") for d in p.dimensions if isinstance(d.probe, ArcRadius)
    ]
    assert radii == pytest.approx(wanted)


@each_round
def test_the_hole_gauge_passes_the_hole_it_is_used_in(path):
    form = shop(path).plan.job.form
    rough_hole = 2 * (form.major_radius - form.tube_radius - form.turning_allowance)
    for part in shop(path).of("print"):
        if part.name.startswith("hole-gauge"):
            at_tube = [p for p in part.outline.points if p[1] < form.tube_radius]
            radius = next(d.value for d in part.dimensions if isinstance(d.probe, ArcRadius))
            widest = max(p[0] for p in at_tube) - min(p[0] for p in at_tube)
            assert min(p[0] for p in at_tube) < -radius
            assert widest < rough_hole, part.name


@each_round
def test_retainer_and_channel_sections_match_the_tube(path):
    plan = shop(path).plan
    form = plan.job.form
    channel = next(part for part in shop(path).parts if part.name == "channel-section")
    retainer = next(part for part in shop(path).parts if part.name == "retainer-section")
    for part in (channel, retainer):
        arcs = [edge for edge in part.outline.edges() if edge.is_arc]
        assert arcs
        for arc in arcs:
            assert arc.centre == pytest.approx((form.major_radius, 0.0), abs=1e-6)
            assert arc.radius == pytest.approx(form.tube_radius + form.lining)
    neck = straight_edge((retainer.outline,), (plan.holding.retainer.neck_radius, 0.0))
    clear = plan.job.workshop.holding.neck_clearance  # 1.5 mm, in an inch shop 1/16 in
    assert neck.start[0] == pytest.approx(form.major_radius - form.tube_radius - clear)


@each_torus
def test_the_retainer_gauge_keeps_clear_of_the_faceplate_on_the_plugs_back_and_of_its_bolts_cap(path):
    """Laid on the plug as it turns: no wider faceplate is in its way, and its hook ends beside the cap."""
    plan = shop(path).plan
    gauge = next(part for part in shop(path).parts if part.name == "retainer-gauge")
    left, _, _, top = gauge.outline.bounds
    assert top <= plan.holding.retainer.top + FILE_TOLERANCE
    assert plan.holding.retainer.major + left > plan.mountings.cap / 2


@each_torus
def test_the_check_corner_takes_the_rings_that_come_nearest_to_a_right_angle(path):
    plan = shop(path).plan
    count = plan.check.rings
    step = 360 / plan.blank.wedge_rings
    assert all(abs(count * step - 90) <= abs(other * step - 90) + 1e-9 for other in (count - 1, count + 1))
    corner = next(part for part in shop(path).parts if part.name == "check-corner")
    angle = next(d.value for d in corner.dimensions if isinstance(d.probe, EdgeAngle))
    assert angle == pytest.approx(count * step)


def test_an_edge_off_its_curve_is_seen_by_these_tests():
    """The measure above can fail: a gauge half a tenth too large strays by that."""
    part = shop(DEMO).of("print")[0]
    probe = next(d.probe for d in part.dimensions if isinstance(d.probe, ArcRadius))
    radius = next(d.value for d in part.dimensions if isinstance(d.probe, ArcRadius)) + 0.05
    angles = np.linspace(probe.start, probe.end, 200)
    points = np.column_stack(
        [radius * np.array([cos(a) for a in angles]), radius * np.array([sin(a) for a in angles])]
    )
    worst, _ = along_arc(np.stack([points[:-1], points[1:]], axis=1), probe, radius - 0.05)
    assert worst == pytest.approx(0.05, abs=1e-3)
