"""Profiles of very many points are read as few arcs; those that stay many are solved or refused."""

import math

import ezdxf
import numpy as np
import pytest
import shapely

from jigs.asked.jobfile import load, parse
from jigs.forms.solve import solve
from jigs.words.findings import Refused

HEAD = 'title = "Many"\n[wall]\nthickness = 6\nfloor = 9\n[rings]\nheights = 20\nsegments = 12\nspecies = "maple"\n'
HEIGHT = 180.0


def points(count, rough=0.0):
    z = np.linspace(0.0, HEIGHT, count)
    d = 100 + 60 * np.sin(math.pi * z / HEIGHT) - z / 18
    d[1::2] += rough
    return np.column_stack((z, d))


def stated(key, rows):
    return HEAD + f"[profile]\n{key} = [{', '.join(f'[{z:.4f}, {d:.4f}]' for z, d in rows)}]\n"


def off(profile, rows):
    line = shapely.LineString([edge.point_at(k / 50) for edge in profile.edges() for k in range(51)])
    return float(shapely.distance(line, shapely.points(rows[:, 1] / 2, rows[:, 0])).max())


@pytest.mark.parametrize("key", ["stations", "edges"])
def test_thousands_of_points_are_few_arcs_within_the_tolerance(key):
    """Stated ones; ten thousand are drawn below."""
    rows = points(3_000)
    job = parse(stated(key, rows), "many.toml")
    assert len(job.outside.profile) < 100
    assert off(job.outside.profile, rows) < job.outside.within + 1e-3
    assert job.outside.within == 0.005


def test_a_drawing_of_ten_thousand_points_says_what_became_of_them(tmp_path):
    rows = points(10_000)
    drawing = ezdxf.new("R2010", units=4)
    drawing.modelspace().add_lwpolyline([(d / 2, z) for z, d in rows])
    drawing.saveas(tmp_path / "many.dxf")
    file = tmp_path / "many.toml"
    file.write_text(HEAD + '[profile]\ndrawing = "many.dxf"\naxis = 0\n')
    shape = load(file).outside
    assert len(shape.profile) < 100
    assert off(shape.profile, rows) < 0.006
    assert any(said.startswith("Its 9999 edges became") for said in shape.said)


def test_a_thousand_points_are_solved():
    plan = solve(parse(stated("stations", points(1000)), "many.toml"))
    assert plan.wall[0] == pytest.approx(6.0, abs=1e-4)
    assert len(plan.gauges.stations) < 50  # nobody measures at a thousand


def test_some_hundred_rough_edges_are_solved_as_they_are():
    rows = points(300, rough=0.05)
    job = parse(stated("edges", rows), "many.toml")
    assert len(job.outside.profile) == 300
    assert solve(job).wall[0] == pytest.approx(6.0, abs=1e-3)


def test_points_too_rough_for_any_work_are_refused():
    with pytest.raises(Refused, match="it is rough"):
        parse(stated("edges", points(4000, rough=0.1)), "many.toml")
