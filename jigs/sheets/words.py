"""The sheets in words: what lies on which, and how much of each is used."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from jigs.cautions import told
from jigs.job import Unit
from jigs.lengths import show_length
from jigs.part import Part
from jigs.sheets.sheet import Sheet
from jigs.words.sections import Row, Section


def sheet_section(sheets: Sequence[Sheet], left: Sequence[Part], unit: Unit) -> Section:
    """Each sheet with its parts; `left` are those that fit none (jigs.sheets.nesting.left_out)."""
    rows = [Row(sheet.name, _sheet_words(sheet, unit), "text") for sheet in sheets]
    rows += [
        Row(f"{part.code} {part.name}", f"on no sheet: {_size(part, unit)}, larger than the bed", "text")
        for part in left
    ]
    return Section("Sheets for the cutter", tuple(rows), _cautions(sheets))


def _sheet_words(sheet: Sheet, unit: Unit) -> str:
    wide, high, thick = (show_length(side, unit) for side in (*sheet.size, sheet.thickness))
    kind = "offcut" if sheet.offcut else sheet.material
    return f"{kind}, {wide} x {high} x {thick}, {sheet.used:.0%} under parts: {contents(sheet)}"


def contents(sheet: Sheet) -> str:
    """ "3 SG sled-gusset, SB sled-base": each part on a sheet, once, in the order in which they were laid down."""
    counts = Counter(f"{item.part.code} {item.part.name}" for item in sheet.placed)
    return ", ".join(f"{count} {name}" if count > 1 else name for name, count in counts.items())


def _size(part: Part, unit: Unit) -> str:
    x0, y0, x1, y1 = part.outline.bounds
    return f"{show_length(x1 - x0, unit)} x {show_length(y1 - y0, unit)}"


def _cautions(sheets: Sequence[Sheet]) -> tuple[str, ...]:
    if not sheets:
        return ()
    return (*told("laser", "router", "manual"), *_offcuts(sheets))


def _offcuts(sheets: Sequence[Sheet]) -> tuple[str, ...]:
    off = [s.name for s in sheets if s.offcut and s.thickness != s.placed[0].part.thickness]
    if not off:
        return ()
    return (
        f"{', '.join(off)}: the offcut is not as thick as its parts were planned for; try a slot on a scrap of it, "
        "and stack plates by their measured thickness.",
    )
