"""Cut parts' SVG against SVG 1.1 (W3C Recommendation, second edition, 2011), by section: the elements and attributes
that such a drawing may have, the grammar of path data, lengths with their unit, arcs that are arcs."""

import io
import re
from xml.etree import ElementTree

import pytest

from jigs.files.svg import write_svg
from tests.jigs.plates import gauge, wedge
from tests.jigs.test_step import racked

NAMESPACE = "{http://www.w3.org/2000/svg}"
PAINT = {"fill", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin"}
ATTRIBUTES = {  # 5.1, 5.2, 5.4, 8.3, 9.3; presentation attributes 6.1
    "svg": {"width", "height", "viewBox", "version"},
    "title": set(),
    "desc": set(),
    "g": {"id", *PAINT},
    "path": {"id", "d", *PAINT},
    "circle": {"id", "cx", "cy", "r", *PAINT},
}
NUMBER = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
PAIR = rf"\s*{NUMBER}(?:\s*,\s*|\s+){NUMBER}"
ARC = rf"\s*{NUMBER}[\s,]+{NUMBER}[\s,]+{NUMBER}[\s,]+[01][\s,]+[01][\s,]+{NUMBER}[\s,]+{NUMBER}"
PATH = re.compile(rf"(?:\s*M{PAIR}(?:\s*(?:L{PAIR}|A{ARC}|Z))*)+\s*")  # 8.3.9, of the commands that are used
COLOUR = re.compile(r"#[0-9a-f]{6}|none")  # 4.4
LENGTH = re.compile(rf"{NUMBER}mm")  # 4.2: of the outermost element with its unit


def faults(text):
    """Every rule that is broken."""
    root = ElementTree.fromstring(text)
    if root.tag != f"{NAMESPACE}svg":
        yield "5.1 no svg in its namespace"
    if not all(LENGTH.fullmatch(root.get(name, "")) for name in ("width", "height")):
        yield "4.2 width and height"
    box = [float(one) for one in root.get("viewBox", "").split()]
    if len(box) != 4 or min(box[2:]) <= 0:
        yield "7.7 viewBox"
    ids = [one.get("id") for one in root.iter() if one.get("id")]
    if len(set(ids)) != len(ids):
        yield "5.10 ids that are not unique"
    for one in root.iter():
        yield from element(one)


def element(one):
    name = one.tag.removeprefix(NAMESPACE)
    if name not in ATTRIBUTES:
        yield f"an element of no section: {name}"
        return
    if extra := one.attrib.keys() - ATTRIBUTES[name]:
        yield f"attributes of {name}: {sorted(extra)}"
    if name not in ("svg", "g") and len(one):
        yield f"5.1 elements inside {name}"
    yield from (
        f"4.4 {at}" for at in ("fill", "stroke") if at in one.attrib and not COLOUR.fullmatch(one.get(at))
    )
    if name == "path":
        if not PATH.fullmatch(one.get("d", "")):
            yield "8.3.9 path data"
        radii = re.findall(rf"A\s*({NUMBER})[\s,]+({NUMBER})", one.get("d", ""))
        if any(float(r) <= 0 for pair in radii for r in pair):
            yield "8.2.4 an arc without a radius"
    if name == "circle" and not float(one.get("r", "-1")) > 0:
        yield "9.3 a circle without a radius"


def text_of(plate):
    stream = io.BytesIO()
    write_svg(plate, stream)
    return stream.getvalue().decode("utf-8")


def test_every_cut_part_keeps_to_the_recommendation():
    plates = [one for one in racked("garland")[1].values() if one.process == "cut"]
    assert len(plates) > 20
    for plate in (gauge(), wedge(), *plates):
        assert list(faults(text_of(plate))) == [], plate.name


@pytest.mark.parametrize(
    ("was", "becomes", "told"),
    [
        ('d="M', 'd="L', "8.3.9"),
        ("mm\" viewBox", "\" viewBox", "4.2"),
        ('stroke="#', 'stroke="', "4.4"),
        ("<title>", '<title colour="x">', "attributes of title"),
        ('xmlns="http://www.w3.org/2000/svg"', 'xmlns="http://www.w3.org/2000/xvg"', "5.1"),
    ],
)  # fmt: skip
def test_a_drawing_that_breaks_it_is_found(was, becomes, told):
    text = text_of(gauge())
    assert was in text
    assert any(one.startswith(told) for one in faults(text.replace(was, becomes)))
