"""Drawings of all sets in five programs: what each makes of it encloses the area of its parts.

Each program runs once: over a sixth of a set's drawings, another sixth in the next example, LibreCAD and Inkscape also
over the smallest of its whole sheets, ezdxf over these alone. What is cut, and that each drawing has it, is asked of
all of them in tests/jigs.
"""

import os
import re
import shutil
import subprocess
from collections import defaultdict

import ezdxf
import numpy as np
import pypdf
import pytest
import shapely
from ezdxf import path
from svgelements import Arc, Path

SAME = 1e-3  # of the area
CHORDS = 1e-3  # mm
LAYERS = ("cut", "drill", "section")
PRINTED = {"1 0 0": "cut", "0 1 0": "drill", "0 0 0": "section"}  # LibreCAD's colours
STEP = 2 * 25.4 / 1200  # mm that LibreCAD may round a print's edge aside: a step at either end
JOIN = 6  # of these steps that ends of edges are rounded apart
STEPS = np.linspace(0, 1, 65)[1:]  # along a curve
WIDE = 18
APART = 1000.0  # mm between drawings in OpenSCAD, so that none of its six digits is short
FREECAD = """
import os
import FreeCAD, Part, importDXF

choices = FreeCAD.ParamGet("User parameter:BaseApp/Preferences/Mod/Draft")
choices.SetBool("groupLayers", True)
choices.SetBool("dxfUseLegacyImporter", False)
with open(os.environ["AREAS"], "w") as out:
    for file in os.environ["FILES"].split(os.pathsep):
        FreeCAD.newDocument("drawing")
        importDXF.insert(file, "drawing")
        for layer in FreeCAD.getDocument("drawing").Objects:
            if layer.Label in ("cut", "drill", "section"):
                for edges in Part.sortEdges(layer.Shape.Edges):
                    print(file, Part.Face(Part.Wire(edges)).Area, sep="\\t", file=out)
        FreeCAD.closeDocument("drawing")
os._exit(0)
"""
INKSCAPE = """
import os, sys
sys.path.insert(0, "/usr/share/inkscape/extensions")
from dxf_input import DxfInput

for file in sys.argv[2:]:
    DxfInput().run([file, "--output=" + os.path.join(sys.argv[1], os.path.basename(file) + ".svg")])
"""


@pytest.fixture(scope="module")
def drawings(racks):
    """A sixth of the drawings, each with its part."""
    return {
        file: part
        for first, made in enumerate(racks)
        for part, file in (*made.files("cut"), *made.files("turn"))[first % 6 :: 6]
    }


@pytest.fixture(scope="module")
def smallest(racks):
    """Of each job's whole sheets the one whose file is least: the area of what it holds, by file, mm2."""
    sheets = (min(made.sheets(), key=lambda sheet: sheet[0].stat().st_size) for made in racks)
    return {file: sum(map(area_of, own)) for file, own in sheets}


@pytest.fixture(scope="module")
def wanted(drawings, smallest):
    """The area of what each drawing and each of these sheets holds, by file, mm2."""
    return {**{file: area_of(part) for file, part in drawings.items()}, **smallest}


def area_of(part):
    return abs(part.outline.area) - sum(abs(hole.area) for hole in part.holes)


def enclosed(loops):
    """What loops (k, 2) enclose, holes taken out: every second one from outside in."""
    shapes = [shapely.Polygon(loop) for loop in loops]
    places = shapely.points([loop[0] for loop in loops])
    within, _ = shapely.STRtree(shapes).query(places, "within")
    depth = np.bincount(within, minlength=len(shapes))
    return sum(shape.area * (-1) ** int(deep) for shape, deep in zip(shapes, depth, strict=True))


def astray(wanted, found, step=0.0):
    """Files of which a program makes another area: what it makes, and what it should.

    A program that rounds places to `step` mm may be out by as much all round.
    """
    off = {}
    for file, area in wanted.items():
        loops = found.get(file, [])
        made = enclosed(loops) if loops else 0.0
        round_ = sum(np.hypot(*np.diff(loop, axis=0, append=loop[:1]).T).sum() for loop in loops)
        if made != pytest.approx(area, rel=SAME, abs=step * round_):
            off[file.name] = (made, area)
    return off


def test_ezdxf_finds_nothing_to_fix_on_whole_sheets_and_every_area(smallest):
    """Of single drawings tests/jigs/test_every_part.py asks as much."""
    found = {}
    for file in smallest:
        document = ezdxf.readfile(file)
        audit = document.audit()
        assert not audit.errors, file.name
        assert not audit.fixes, file.name
        outlines = [e for e in document.modelspace() if e.dxf.layer in LAYERS]
        found[file] = [np.array([(p.x, p.y) for p in path.make_path(e).flattening(CHORDS)]) for e in outlines]
    assert not astray(smallest, found)


def test_librecad_prints_every_drawing_whole(wanted, run, tmp_path):
    run("librecad", "dxf2pdf", "-c", "-s", 1, "-t", tmp_path, *wanted)
    assert not astray(wanted, {file: printed(tmp_path / f"{file.stem}.pdf") for file in wanted}, STEP)


def printed(file):
    """The loops of what is cut, drilled or a section on a page, mm."""
    text = pypdf.PdfReader(file).pages[0].get_contents().get_data().decode("latin1")
    unit = float(re.search(r"([\d.]+) 0 0 -[\d.]+ 0 [\d.]+ cm", text)[1]) * 25.4 / 72
    layer, at, lines = None, [], defaultdict(list)
    for row in text.splitlines():
        *numbers, command = row.split() or [""]
        if command == "SCN":
            layer = PRINTED.get(" ".join(numbers))
        elif command == "m":
            at = [tuple(map(float, numbers))]
        elif command == "l":
            at.append(tuple(map(float, numbers)))
        elif command == "c":
            at += cubic(at[-1], np.reshape([float(number) for number in numbers], (3, 2)))
        elif command == "S" and layer:
            lines[layer].append(np.array(at))
    return [loop * unit for own in lines.values() for loop in joined(own)]


def cubic(start, rest):
    p = np.vstack([start, rest])
    t = STEPS[:, None]
    points = p[0] * (1 - t) ** 3 + 3 * p[1] * t * (1 - t) ** 2 + 3 * p[2] * t**2 * (1 - t) + p[3] * t**3
    return [tuple(point) for point in points]


def joined(lines):
    """Lines that meet at their ends, either way round, as closed loops."""
    left, loops = list(lines), []
    while left:
        loop = left.pop(0)
        while left and np.abs(loop[0] - loop[-1]).max() > JOIN:
            ends = np.array([[line[0], line[-1]] for line in left])
            off = np.abs(ends - loop[-1]).max(axis=2)
            k, end = np.unravel_index(off.argmin(), off.shape)
            if off[k, end] > JOIN:
                break
            line = left.pop(int(k))
            loop = np.vstack([loop, line[::-1] if end else line])
        if len(loop) > 2:
            loops.append(loop)
    return loops


def test_inkscape_reads_every_drawing(wanted, run, tmp_path):
    """By its own importer, without its windows."""
    run("inkscape", "--version")
    run("/usr/bin/python3", "-c", INKSCAPE, tmp_path, *wanted)
    assert not astray(wanted, {file: imported(tmp_path / f"{file.name}.svg") for file in wanted})


def imported(file):
    """The loops of an SVG of Inkscape's, at 96 units an inch, mm."""
    loops = []
    for layer, body in re.findall(r'inkscape:label="(\w+)">(.*?)</g>', file.read_text("utf-8"), re.DOTALL):
        for drawn in re.findall(r' d="([^"]*)"', body) if layer in LAYERS else ():
            curves = [Path(one) for one in re.findall(r"M[^M]*", drawn)]
            loops += [points_of(curve) * 25.4 / 96 for curve in curves]
    return loops


def points_of(curve):
    points = []
    for segment in curve:
        if isinstance(segment, Arc):
            points += segment.npoint(STEPS).tolist()
        elif segment.end is not None:
            points.append((segment.end.x, segment.end.y))
    return np.array(points)


def test_openscad_extrudes_every_part(drawings, wanted, run, tmp_path):
    """Those with arcs from their file in lines and arcs: it makes chords of a polyline's."""
    files = list(drawings)
    middles = [np.add(*np.reshape(part.outline.bounds, (2, 2))) / 2 for part in drawings.values()]
    places = {file: (k % WIDE - WIDE // 2, k // WIDE - WIDE // 2) for k, file in enumerate(files)}
    model = "".join(
        f"translate([{APART * x - left}, {APART * y - low}]) difference() {{ {imports(file, ('cut', 'section'))} "
        f"{imports(file, ('drill',))} }}\n"
        for (file, (x, y)), (left, low) in zip(places.items(), middles, strict=True)
    )
    (tmp_path / "all.scad").write_text(model, "utf-8")
    run("openscad", "-D", "$fn=720", "-o", tmp_path / "all.svg", tmp_path / "all.scad")
    loops = [
        np.array(re.findall(r"(\S+),(\S+)", one), dtype=float) * (1, -1)
        for one in re.findall(r"M[^M]*", re.search(r' d="([^"]*)"', (tmp_path / "all.svg").read_text())[1])
    ]
    found = defaultdict(list)
    by_place = {place: file for file, place in places.items()}
    for loop in loops:
        x, y = np.round(loop.mean(axis=0) / APART).astype(int).tolist()
        found[by_place[x, y]].append(loop)
    assert not astray({file: wanted[file] for file in files}, found)


def imports(file, layers):
    again = file.parent / "lines-and-arcs" / f"{file.stem}-lines-and-arcs.dxf"
    which = (again if again.exists() else file).as_posix()
    return "union() { " + " ".join(f'import("{which}", layer="{layer}");' for layer in layers) + " }"


def test_freecad_opens_drawings_with_their_areas(drawings, wanted, tmp_path):
    if shutil.which("freecadcmd") is None:
        pytest.skip("freecadcmd is not installed")
    files = list(drawings)
    (tmp_path / "areas.py").write_text(FREECAD, "utf-8")
    own = {"HOME": str(tmp_path), "AREAS": str(tmp_path / "areas"), "QT_QPA_PLATFORM": "offscreen"}
    subprocess.run(
        ["freecadcmd", tmp_path / "areas.py"], timeout=120, check=False, capture_output=True,
        env={**os.environ, **own, "FILES": os.pathsep.join(map(str, files))},
    )  # fmt: skip
    areas = defaultdict(list)
    for row in (tmp_path / "areas").read_text("utf-8").splitlines():
        file, area = row.split("\t")
        areas[file].append(float(area))
    for file in files:
        own = areas[str(file)]
        assert own, file.name
        assert 2 * max(own) - sum(own) == pytest.approx(wanted[file], rel=SAME), file.name
