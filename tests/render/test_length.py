"""How high a step is said to come out, against what Typst measures, and how wide its letters are, against the fonts."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

import pytest
import typst
from fontTools.ttLib import TTFont

from jigs.render.book.gather import book_of
from jigs.render.pdf.length import MM, step_height
from jigs.render.pdf.letters import ADVANCES, CAPITAL, OTHER
from jigs.render.pdf.paper import content, pinned_height, svg_size, way_of
from jigs.render.pdf.typeset import CHILD, plain
from tests.render.sample import PICTURE, pictures_of, sample
from tests.work.test_every_work import work_of

FONTS = CHILD.parent / "fonts"
MEASURED = """
#let first = [#heading(level: 1, text(11pt, weight: "regular")[X])]
#let steps = book.chapters.map(chapter => chapter.steps).flatten()
#layout(size => {
  let high(body) = measure(block(width: size.width, body)).height.pt()
  let hung(sheet, way) = stack(spacing: way.room * 1mm, ..sheet.steps.map(step => pinned-step(step, way)))
  let found = (
    ..steps.map(step => high(step-body(step, first, content.ways.at(step.id)))),
    ..book.sheets.map(sheet => high(hung(sheet, content.pinned.at(sheet.place)))),
  )
  [#metadata(found)<found>]
})
"""
PAGE = (176, 267)
LINE = 1.3 * 13  # points, of the largest letters


@pytest.mark.parametrize("name", ["sample", "garland", "tumbler"])
def test_a_step_is_never_higher_than_said_and_mostly_as_high(name: str) -> None:
    work = sample() if name == "sample" else work_of(name)
    pictures = pictures_of(work)
    book, high = book_of(work, pictures), svg_size(PICTURE)[1]
    steps = [step for chapter in book.chapters for step in chapter.steps]
    ways = [way_of(step, True, PAGE, high) for step in steps]
    given = content(book, pictures, "A4")
    pinned = [given["pinned"][sheet.place] for sheet in book.sheets]
    room = PAGE[0] * MM
    said = [step_height(step, way, room, high * MM, True) for step, way in zip(steps, ways, strict=True)]
    said += [pinned_height(sheet.steps, way, room) for sheet, way in zip(book.sheets, pinned, strict=True)]
    wide = svg_size(PICTURE)[0]
    given["ways"] = {
        step.id: {**asdict(way), "picture": way.picture * wide} for step, way in zip(steps, ways, strict=True)
    }
    over = [mine - real for mine, real in zip(said, _measured(given), strict=True)]
    assert min(over) > -0.05
    assert max(over) < 3 * LINE
    assert sum(more < 0.1 for more in over) > 0.7 * len(over)


def _measured(given: dict[str, Any]) -> list[float]:
    """In points: each step in its way, then each pinned sheet in its."""
    template = (CHILD.parent / "book.typ").read_text("utf-8")
    source = template[: template.index("#front-page\n#first-page")] + MEASURED
    found: str = typst.query(
        source.encode(),
        "<found>",
        field="value",
        one=True,
        font_paths=[FONTS],
        ignore_system_fonts=True,
        sys_inputs={"content": json.dumps(plain(given))},
    )
    heights: list[float] = json.loads(found)
    return heights


@pytest.mark.parametrize(("bold", "name"), [(False, "Regular"), (True, "Bold")])
def test_letters_are_as_wide_as_in_the_fonts(bold: bool, name: str) -> None:
    font = TTFont(FONTS / f"NotoSans-{name}.ttf")
    glyphs, widths = font.getBestCmap(), font["hmtx"]
    for letter, advance in ADVANCES[bold].items():
        assert widths[glyphs[ord(letter)]][0] == pytest.approx(
            1000 * advance, abs=20 if ord(letter) > 126 else 0
        )
    others = [widths[glyphs[code]][0] for code in range(0xC0, 0x180) if code in glyphs]
    assert sum(width <= 1000 * OTHER for width in others) > 0.95 * len(others)
    assert font["OS/2"].sCapHeight == 1000 * CAPITAL
