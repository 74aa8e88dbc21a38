"""The wood as tables for spreadsheets: mm, degrees, cm2, grams; for jobs in inches also inches."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from math import degrees

from jigs.job import Unit
from jigs.lengths import MM_PER_INCH, show_length
from jigs.plan import Plan
from jigs.plan.wood.lots import Lot
from jigs.plan.wood.steps import CutLine
from jigs.plan.wood.stock import BoardCut, BoardsTaken, Offcut, StripCut, WoodClass
from jigs.plan.wood.whole import WoodPlan
from jigs.words.layup.csv import layup_records
from jigs.words.wood.work import check_of, trial_of, what_of

Cell = str | int | float | tuple[float, ...] | None
Record = dict[str, Cell]
FORMULAS = ("=", "+", "-", "@", "\t", "\r")  # how a cell begins that spreadsheets reckon with


def tables(plan: Plan) -> dict[str, str]:
    """File name to text, of the tables that have rows.

    A column ending in _mm is a length; jobs in inches have it as _in beside it.
    """
    wood = plan.wood
    found: dict[str, Sequence[Mapping[str, Cell]]] = {
        "cut-list.csv": [_lot(wood.lot(line.lot), line) for line in wood.lines],
        "settings.csv": _settings(wood, plan.job.unit),
        "stock.csv": _stock(wood, plan.job.unit),
        "layup.csv": layup_records(plan.job, plan.layups),
        "glue.csv": [*_faces(wood), *_bands(wood), *_stages(wood)],
    }
    return {name: _text(records, plan.job.unit) for name, records in found.items() if records}


def _text(records: Sequence[Mapping[str, Cell]], unit: Unit) -> str:
    """One header row; every record's columns, empty where it has none."""
    written = [_in_unit(record, unit) for record in records]
    columns = list(dict.fromkeys(column for record in written for column in record))
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(written)
    return out.getvalue()


def _in_unit(record: Mapping[str, Cell], unit: Unit) -> dict[str, str]:
    """Numbers as text, lengths to 0.01 mm as in the listing; where the job is in inches to 0.001 mm, and behind them
    their inches."""
    found: dict[str, str] = {}
    for name, cell in record.items():
        if name.endswith("_mm"):
            found[name] = _lengths(cell, 1.0, 2 if unit == "mm" else 3)
            if unit == "in":
                found[f"{name[:-3]}_in"] = _lengths(cell, MM_PER_INCH, 3)
        else:
            found[name] = f"{cell:.3f}" if isinstance(cell, float) else _harmless(cell)
    return found


def _harmless(cell: Cell) -> str:
    """A name that a spreadsheet would take for a formula gets a quote in front, as one types it there."""
    if isinstance(cell, str) and cell.startswith(FORMULAS):
        return f"'{cell}"
    return "" if cell is None else str(cell)


def _lengths(cell: Cell, of: float, places: int) -> str:
    """One length, or what it may be, in units of so many mm."""
    if cell is None or isinstance(cell, str):
        return _harmless(cell)
    sizes = cell if isinstance(cell, tuple) else (cell,)
    return " or ".join(dict.fromkeys(f"{size / of:.{places}f}" for size in sizes))


def _numbers(rings: Iterable[int]) -> str:
    return " ".join(map(str, rings))


def _lot(lot: Lot, line: CutLine) -> Record:
    return {
        "step": line.step,
        "lot": lot.number,
        "pieces": lot.name,
        "rings": _numbers(lot.rings),
        "species": lot.species,
        "count": lot.count,
        "spares": lot.spares,
        "way": lot.way,
        "tilt_deg": degrees(line.tilt),
        "gauge_off_square_deg": degrees(line.gauge),
        "stop_mm": lot.stop,
        "thickness_mm": lot.thickness,
        "width_mm": lot.width,
        "finished_width_mm": line.width,
        "finished_longer_edge_mm": line.longer,
        "finished_shorter_edge_mm": line.shorter,
        "sanded_each_face_mm": line.sanded,
        "cut_longer_edge_mm": lot.longer,
        "cut_shorter_edge_mm": lot.shorter,
        "rough_thickness_mm": tuple(thickness for thickness, _ in line.rough),
        "rough_width_mm": tuple(width for _, width in line.rough),
        "strip_each_mm": line.each,
        "strip_all_mm": line.strip,
    }


def _settings(wood: WoodPlan, unit: Unit) -> list[Record]:
    """A row for each thing that is set; a step without any has one row."""
    return [
        {
            "step": step.number,
            "machine": step.machine,
            "work": what_of(step),
            "rings": _numbers(step.rings),
            "lots": _numbers(step.lots),
            "pieces": step.pieces or None,
            "setting": setting.label if setting else "",
            "value_mm": setting.value if setting and setting.kind in ("length", "rule", "calliper") else None,
            "value_deg": degrees(float(setting.value)) if setting and setting.kind == "angle" else None,
            "value": setting.value if setting and setting.kind in ("count", "text") else None,
            "first_in_scrap": trial_of(step) if step.tested else "",
            "check": check_of(step, step.number, unit),
            "jigs": " ".join(step.jigs),
        }
        for step in wood.steps
        for setting in (step.settings or (None,))
    ]


def _stock(wood: WoodPlan, unit: Unit) -> list[Record]:
    """For each wood what its plan comes to, then whole boards, how each length is ripped, what is left over."""
    records: list[Record] = []
    for of in wood.classes:
        records += [_summary(of), *_taken(of, unit)]
        records += [_strip(of, board, strip, unit) for board in of.boards for strip in board.strips]
        records += [
            {
                **_of("offcut", of),
                "count": offcut.count,
                "thickness_mm": offcut.thickness,
                "width_mm": offcut.width,
                "length_mm": offcut.length,
                "note": "keep" if offcut.kept else "too small to hold safely",
            }
            for offcut in of.offcuts
        ]
        records += [_passed_on(of, offcut) for offcut in of.passed_on]
    return records


def _of(what: str, of: WoodClass) -> Record:
    return {"what": what, "species": of.species, "planed_thickness_mm": of.thickness}


def _summary(of: WoodClass) -> Record:
    return {
        **_of("plan", of),
        "sawn_cm2": of.area / 100,
        "least_possible_cm2": of.bound / 100,
        "wood_cm3": of.volumes.stock / 1000,
        "pieces_cm3": (of.volumes.pieces + of.volumes.spares) / 1000,
        "least_bought": of.least,
        "would_do_wide_mm": of.would_do[0] if of.would_do else None,
        "would_do_long_mm": of.would_do[1] if of.would_do else None,
        "note": f"planned {of.by}",
    }


def _taken(of: WoodClass, unit: Unit) -> list[Record]:
    return [
        {
            **_of("board", of),
            "count": board.count,
            "thickness_mm": board.thickness,
            "width_mm": board.width,
            "length_mm": board.length,
            "crosscut_to_mm": board.lengths,
            "stays_whole_mm": board.rest or None,
            "note": _whose(board, unit),
        }
        for board in of.taken
    ]


def _whose(board: BoardsTaken, unit: Unit) -> str:
    if board.rest_of is not None:
        return f"left over from the boards for {show_length(board.rest_of, unit)}"
    return "buy, at least so large" if board.bought else "at hand"


def _passed_on(of: WoodClass, rest: Offcut) -> Record:
    return {
        **_of("rest", of),
        "count": rest.count,
        "thickness_mm": rest.thickness,
        "width_mm": rest.width,
        "length_mm": rest.length,
        "note": "sawn for thinner strips",
    }


def _strip(of: WoodClass, board: BoardCut, strip: StripCut, unit: Unit) -> Record:
    return {
        **_of("strip", of),
        "count": board.count * strip.strips,
        "thickness_mm": of.thickness,
        "width_mm": strip.width,
        "length_mm": strip.length,
        "lot": strip.lot,
        "pieces_each": strip.pieces,
        "note": "as it is" if board.ready else f"from a board {show_length(board.width, unit)} wide",
    }


def _faces(wood: WoodPlan) -> list[Record]:
    return [
        {
            "what": "faces",
            "name": faces.name,
            "rings": _numbers(faces.rings),
            "count": faces.count,
            "area_cm2": faces.area / 100,
            "glue_g": faces.grams,
        }
        for faces in wood.glue.faces
    ]


def _bands(wood: WoodPlan) -> list[Record]:
    return [
        {
            "what": "band",
            "name": "ring" if band.rings else "whole blank",
            "rings": _numbers(band.rings),
            "length_mm": band.length,
        }
        for band in wood.glue.bands
    ]


def _stages(wood: WoodPlan) -> list[Record]:
    return [
        {
            "what": "batches",
            "name": f"{stage.assembly}: {stage.what}",
            "rings": _numbers(stage.rings),
            "count": stage.count,
            "joints_each": stage.joints,
            "at_once": stage.at_once,
            "batches": stage.batches,
            "clamps_h": stage.batches * wood.glue.clamp_time,
        }
        for stage in wood.glue.stages
    ]
