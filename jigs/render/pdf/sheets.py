"""Pages that are drawn as they are, set from sheets.typ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from geometry.records import dataclass
from jigs.render.pdf.typeset import typeset


@dataclass(frozen=True)
class FullSize:
    """A sheet that is printed as it is, one unit a millimetre: a label sheet, a page of its own."""

    title: str
    svg: str


def sheets_pdf(title: str, paper: tuple[float, float], sheets: Sequence[FullSize]) -> bytes:
    """A page of this size (mm) for each, with a bookmark."""
    content = {"title": title, "paper": paper, "sheets": [asdict(sheet) for sheet in sheets]}
    return typeset("sheets.typ", content)
