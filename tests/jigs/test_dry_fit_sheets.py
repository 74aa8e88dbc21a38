"""Whole sheets are what the cutter gets: a piece that is missing, moved together, bent or scaled never passes."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import ezdxf
import pytest

from jigs.dryfit.files import Files
from jigs.dryfit.sheets import sheet_checks
from jigs.words.findings import Refused
from tests.jigs.redrawn import redraw

CONFIGS = Path(__file__).parents[2] / "configs"
Space = ezdxf.layouts.Modelspace


@pytest.fixture(scope="module")
def tumbler(set_of):
    return set_of("tumbler")


def closed(space: Space):
    return [e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer == "cut"]


def largest(space: Space):
    return max(closed(space), key=lambda e: abs(ezdxf.math.area([p[:2] for p in e.get_points("xy")])))


def shift(entity, dx: float, dy: float = 0.0) -> None:
    entity.set_points([(x + dx, y + dy, b) for x, y, b in entity.get_points("xyb")], format="xyb")


def scaled(space: Space) -> None:
    for entity in space:
        entity.scale_uniform(1.002)


def in_inches(space: Space) -> None:
    space.doc.header["$INSUNITS"] = 1


def one_missing(space: Space) -> None:
    space.delete_entity(largest(space))


def one_moved(space: Space) -> None:
    shift(largest(space), 0.5)


def mirrored(space: Space) -> None:
    for entity in space:
        entity.transform(ezdxf.math.Matrix44.scale(-1, 1, 1) @ ezdxf.math.Matrix44.translate(900, 0, 0))


def flipped(space: Space) -> None:
    for entity in closed(space):
        entity.set_points([(900 - x, y, -b) for x, y, b in entity.get_points("xyb")], format="xyb")


def a_hole_moved(space: Space) -> None:
    circle = next(iter(space.query('CIRCLE[layer=="drill"]')))
    circle.dxf.center += (0.3, 0.0)


def a_hole_of_another_size(space: Space) -> None:
    next(iter(space.query('CIRCLE[layer=="drill"]'))).dxf.radius += 0.2


def a_marked_line_moved(space: Space) -> None:
    lines = [e for e in space.query("LWPOLYLINE") if e.has_xdata("JIGS") and len(e) == 2]

    def length(e) -> float:
        return ezdxf.math.Vec2(e[0][:2]).distance(ezdxf.math.Vec2(e[1][:2]))

    shift(max(lines, key=length), 0.4, 0.4)


def an_arc_bent(space: Space) -> None:
    entity = next(e for e in closed(space) if any(p[2] for p in e.get_points("xyb")))
    entity.set_points([(x, y, b * 1.02) for x, y, b in entity.get_points("xyb")], format="xyb")


def over_the_edge(space: Space) -> None:
    for entity in space:
        entity.translate(600, 0, 0)


WRONG = [
    scaled, in_inches, one_missing, one_moved, mirrored, flipped, a_hole_moved, a_hole_of_another_size,
    a_marked_line_moved, an_arc_bent, over_the_edge,
]  # fmt: skip

WHOLE = (
    scaled,
    in_inches,
    mirrored,
    over_the_edge,
)  # its lettering and header too, which takes as long again


def rewrite(file: Path, change: Callable[[Space], None]) -> None:
    document = ezdxf.readfile(file)
    change(document.modelspace())
    document.saveas(file)


def test_good_sheets_fit_and_every_copy_is_on_them(tumbler) -> None:
    job, folder = tumbler
    found = sheet_checks(job, Files.of(job, folder))
    assert all(check.fits for check in found)
    assert sum(check.value for check in found if check.what == "copies on the sheets") > 40


@pytest.mark.parametrize("change", WRONG, ids=lambda change: change.__name__)
def test_a_wrong_sheet_does_not_fit(change: Callable[[Space], None], tumbler) -> None:
    job, folder = tumbler
    file = min((folder / "sheets").glob("*_sheet-*.dxf"), key=lambda sheet: sheet.stat().st_size)
    content = file.read_bytes()
    try:
        (rewrite if change in WHOLE else redraw)(file, change)
        if change in (in_inches, mirrored):
            with pytest.raises(Refused, match=r"millimetres|from below"):
                sheet_checks(job, Files.of(job, folder))
        else:
            assert not all(check.fits for check in sheet_checks(job, Files.of(job, folder)))
    finally:
        file.write_bytes(content)
