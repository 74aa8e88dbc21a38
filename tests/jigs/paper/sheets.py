"""Plans of many kinds, and their paper as another library reads it."""

import io
import re
from dataclasses import dataclass
from functools import cache

from svgelements import SVG, Desc, Path, Text, Title

from jigs.asked.jobfile import parse
from jigs.figures.clear import text_width
from jigs.figures.svg import figure_svg
from jigs.forms.solve import solve
from jigs.paper.page import MARGIN
from jigs.paper.tape import tape_pages
from jigs.paper.tape_labels import label_pages
from tests.examples import plan_of_example
from tests.jigs.vessel.jobs import text as vessel_text

FORM = """[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = 18
core_opening = 20
"""
PLIES = 'plies = [["maple", 3.0], ["walnut", 2.6]]\nangle = 40\n'
LETTER_PAPER = '[paper]\nsize = "Letter"\n'
LONG = '["maple from an old barn door", "walnut", "cherry heartwood", "bog oak", "ash", "elm", "plum", "yew"]'
TEXTS = {
    "mixed": f'{FORM}segments = 8\nspecies = [["maple", "walnut"], ["walnut"]]\n{LETTER_PAPER}',
    "long": f"{FORM}segments = 8\nspecies = [{LONG}]\n",
    "corner": f"{FORM}segments = 10\nhalf_sanding = 0\n",
    "hands": f'{FORM}segments = 8\n[layup]\n{PLIES}mirrored = "none"\n',
    "turned": f'{FORM}segments = 8\n[layup]\n{PLIES}mirrored = "up and down"\n',
    "letter": vessel_text("cup", "in", LETTER_PAPER),
    "dish": """[profile]
stations = [[0, 500], [60, 700]]
[wall]
thickness = 12
floor = 15
[rings]
heights = 30
segments = 8
turning_allowance = 10
species = "ash"
[lathe]
swing_over_bed = 900
[cutter]
bed = [1500, 1500]
[saw]
blade_height = 120
blade_diameter = 300
""",
    "open": vessel_text("open"),
    "widening": vessel_text("staved").replace('"45 mm"', '"35 mm"').replace('"95 mm"', '"90 mm"'),
    "narrowing": vessel_text("staved").replace('"45 mm"', '"125 mm"').replace('"95 mm"', '"165 mm"'),
}
CONFIGURED = ("garland", "quoit", "millwheel", "trellis", "sorrel", "tumbler")
TORI = ("garland", "quoit", "millwheel", "trellis", "mixed", "long", "corner", "hands", "turned")
VESSELS = ("sorrel", "tumbler", "letter", "dish", "open", "widening", "narrowing")
ALL = (*TORI, *VESSELS)


@cache
def plan_of(name):
    if name in CONFIGURED:
        return plan_of_example(name)
    return solve(parse(TEXTS[name], f"{name}.toml"))


@dataclass(frozen=True)
class Word:
    """A line of text and the room that it takes, as figures reckon it."""

    text: str
    size: float
    left: float
    right: float
    base: float

    def within(self, box):
        x0, y0, x1, y1 = box
        return x0 - 0.01 <= self.left and self.right <= x1 + 0.01 and y0 <= self.base - self.size * 0.6 <= y1


@dataclass(frozen=True)
class Sheet:
    """A page: its size in mm; polygons are as drawn, mm, y down.

    `drawn` are labels, or pieces on a tape; dashed are tails and gaps, shaded are strips between pieces.
    """

    title: str
    size: tuple[float, float]
    drawn: list[list[tuple[float, float]]]
    dashed: list[list[tuple[float, float]]]
    shaded: list[list[tuple[float, float]]]
    lines: list[tuple[float, float, float, float]]
    shapes: list[tuple[float, float, float, float]]  # boxes of all that is drawn but the paper
    words: list[Word]

    @property
    def texts(self):
        return [word.text for word in self.words]


def _word(element):
    size, text = float(element.values["font-size"]), element.text
    wide = text_width(text, size)
    start = float(element.x) - {"start": 0.0, "middle": wide / 2, "end": wide}[element.anchor]
    return Word(text, size, start, start + wide, float(element.y))


def _area(points):
    xs, ys = zip(*points, strict=True)
    return (max(xs) - min(xs)) * (max(ys) - min(ys))


def sheet(page):
    """One of `label_pages` or `tape_pages`, read at 25.4 units an inch."""
    root = SVG.parse(io.StringIO(figure_svg(page)), ppi=25.4)
    kinds = {"solid": [], "dashed": [], "shaded": []}
    lines, shapes, words = [], [], []
    for element in root.elements():
        if isinstance(element, Text):
            words.append(_word(element))
        elif isinstance(element, Path):
            points = [(float(p.x), float(p.y)) for p in element.as_points()]
            if element.fill.value is not None and _area(points) > 0.9 * float(root.width) * float(
                root.height
            ):
                continue  # the paper
            shapes.append(element.bbox(with_stroke=False))
            corners = list(dict.fromkeys(points))
            if len(corners) == 2:
                lines.append((*corners[0], *corners[1]))
            elif element.stroke.value is not None:
                kind = "dashed" if "stroke-dasharray" in element.values else "solid"
                kinds["shaded" if element.fill.value is not None else kind].append(corners)
        else:
            assert isinstance(element, SVG | Title | Desc)
    sized = (float(root.width), float(root.height))
    return Sheet(page.title, sized, kinds["solid"], kinds["dashed"], kinds["shaded"], lines, shapes, words)


def kept_to(one):
    """Whether all that is drawn and written keeps the margins."""
    width, height = one.size
    right, bottom = width - MARGIN + 0.01, height - MARGIN + 0.01
    least = MARGIN - 0.01
    shapes = all(least <= x0 <= x1 <= right and least <= y0 <= y1 <= bottom for x0, y0, x1, y1 in one.shapes)
    words = all(least <= w.left and w.right <= right and least <= w.base <= bottom for w in one.words)
    return shapes and words


@cache
def labels(name):
    return [sheet(page) for page in label_pages(plan_of(name))]


@cache
def tapes(name):
    return [sheet(page) for page in tape_pages(plan_of(name))]


def box(polygon):
    xs, ys = zip(*polygon, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def told(one):
    """Each solid polygon of a sheet with the texts on it, in their order."""
    boxes = [(polygon, box(polygon)) for polygon in one.drawn]
    return [(polygon, [w.text for w in one.words if w.within(around)]) for polygon, around in boxes]


@cache
def label_boxes(name):
    """Each label's box with its texts."""
    return [(box(polygon), texts) for one in labels(name) for polygon, texts in told(one)]


def label_of(name, title):
    """The texts of the label with this title."""
    (texts,) = [texts for _, texts in label_boxes(name) if texts[0] == title]
    return texts


def rings_of(one):
    """The numbers that a tape sheet's heading names."""
    told = re.search(r"tape for rings? ([0-9, to]+)", one.texts[0]).group(1)
    runs = (run.split(" to ") for run in told.strip(", ").split(", "))
    return [ring for run in runs for ring in range(int(run[0]), int(run[-1]) + 1)]


@cache
def strips(name):
    """The sheets of each tape, by its rings."""
    found = {}
    for one in tapes(name):
        found.setdefault(tuple(rings_of(one)), []).append(one)
    return found


@cache
def pieces(name):
    """All pieces of each tape in reading order, with their texts, by its rings."""
    return {rings: [piece for one in sheets for piece in told(one)] for rings, sheets in strips(name).items()}
