"""What operations use up that is no hardware: boards, sheets, glue, abrasive, finish, filament, bands.

What a square metre takes of finish, how far a sheet of abrasive goes and how much glue is lost: common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import isclose
from typing import TYPE_CHECKING, Literal

from geometry.grouping import grouped
from jigs.files.sheets.nesting import Sheet
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form
from jigs.words.lengths import MM_PER_INCH, Unit
from jigs.words.quantity import Quantity, ruled
from jigs.work.hardware import bolts, pieces, slug
from jigs.work.model import Goods
from jigs.work.printing import printed

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

LOST = 1.0  # of glue, in the pot and squeezed out, for each gram in a joint
COAT = 0.1  # mm3 of finish on a mm2: ten square metres a litre
JOINTS = "120"  # the grit of joints
WEARS = 5.0  # times its own area that a sheet of abrasive sands
PAPER: dict[Unit, tuple[float, float]] = {"mm": (230.0, 280.0), "in": (9 * MM_PER_INCH, 11 * MM_PER_INCH)}


def sizes(thickness: float, width: float, length: float) -> tuple[Quantity, ...]:
    return (
        ruled("thickness", "Thick", thickness),
        ruled("width", "Wide", width),
        ruled("length", "Long", length),
    )


def sheets(of: Iterable[Sheet]) -> tuple[Goods, ...]:
    """As parts are laid out on them: whole ones are as large as the cutter's bed."""
    return tuple(_sheet(sheet) for sheet in of)


def _sheet(sheet: Sheet) -> Goods:
    width, length = sorted(sheet.size)
    what = sheet.material.partition(",")[0]
    size = f"{sheet.thickness:.2f}-{width:.1f}-{length:.1f}"
    return Goods(
        f"{'offcut' if sheet.offcut else slug(what)}.{size}",
        "in stock" if sheet.offcut else "sheets",
        f"offcut of {what}" if sheet.offcut else f"{what} for jigs",
        (
            pieces(1),
            *sizes(sheet.thickness, width, length),
            Quantity("area", "In all", width * length, "spread"),
        ),
    )


def cut_singly(parts: Iterable[Part]) -> tuple[Goods, ...]:
    """Parts that no sheet carries: those larger than the bed, and those of hardwood."""
    return tuple(_single(part) for part in parts)


def _single(part: Part) -> Goods:
    x0, y0, x1, y1 = part.outline.bounds
    width, length = sorted((x1 - x0, y1 - y0))
    what = part.material.partition(",")[0]
    hard = what == "hardwood"
    return Goods(
        f"{slug(what)}.{part.name}",
        "hardwood" if hard else "sheets",
        part.name if hard else f"{what} for {part.name}",
        (
            pieces(part.quantity),
            *sizes(part.thickness, width, length),
            *(() if hard else (Quantity("area", "In all", part.quantity * width * length, "spread"),)),
        ),
    )


def scrap_strip(what: str, strips: int, thickness: float, width: float, length: float) -> Goods:
    """For a trial, of any wood as hard as the good."""
    id = f"scrap.{slug(what)}.{thickness:.1f}-{width:.1f}-{length:.0f}"
    return Goods(
        id, "in stock", f"strip of scrap for {what}", (pieces(strips), *sizes(thickness, width, length))
    )


def block(name: str, thickness: float, across: float) -> tuple[Goods, ...]:
    """A square of hardwood that a round block is sawn from."""
    return (
        Goods(f"hardwood.{slug(name)}", "hardwood", name, (pieces(1), *sizes(thickness, across, across))),
    )


def paper_boards(parts: Iterable[Part]) -> tuple[Goods, ...]:
    """What drawings on paper are glued to: strips of hardwood each for itself, sheet and board by their thickness."""
    kinds = grouped(parts, lambda part: (part.material.partition(",")[0], part.thickness))
    found = list[Goods]()
    for (what, thickness), alike in kinds.items():
        if what == "hardwood":
            found += cut_singly(alike)
            continue
        area = Quantity("area", "In all", sum(part.quantity * _box(part) for part in alike), "spread")
        found.append(
            Goods(
                f"{slug(what)}.paper-{thickness:.2f}",
                "sheets",
                f"{what} under paper drawings",
                (ruled("thickness", "Thick", thickness), area),
            )
        )
    return tuple(found)


def _box(part: Part) -> float:
    x0, y0, x1, y1 = part.outline.bounds
    return float((x1 - x0) * (y1 - y0))


def filament(plan: Plan, parts: Iterable[Part]) -> tuple[Goods, ...]:
    """By the rule that counts their hours."""
    grams = sum(printed(part, plan.job.workshop.printer).grams for part in parts)
    weight = Quantity("weight", "In all", grams, "weight")
    return (Goods("filament", "filament", "PLA or PETG", (weight,)),)


GLUED = {
    "joints": "In the work's joints",
    "layers": "Between layers of jigs",
    "trials": "In scrap rings",
    "lost": "In the pot and squeezed out",
}


def glue(grams: float, where: Literal["joints", "layers", "trials"]) -> tuple[Goods, ...]:
    """What joints of so many grams take out of the bottle, and where it goes."""
    if isclose(grams, 0.0):
        return ()
    shares = {where: grams, "lost": grams * LOST}
    weight = Quantity("weight", "In all", sum(shares.values()), "weight")
    of_it = (Quantity(f"weight.{id}", label, shares.get(id, 0.0), "weight") for id, label in GLUED.items())
    return (Goods("glue", "glue and finish", "wood glue", (weight, *of_it)),)


def trials_glued(plan: TorusPlan, rings: int) -> tuple[Goods, ...]:
    """All joints of scrap rings."""
    faces = rings * plan.blank.segments * (2 if plan.blank.spacer else 1)
    area = faces * plan.blank.joint_depth * plan.segment.length
    return glue(area / 1e6 * plan.job.workshop.glue.spread, "trials")


def layers_glued(plan: Plan, parts: Iterable[Part]) -> tuple[Goods, ...]:
    """Between the layers of parts that are glued from several."""
    area = sum(
        part.quantity * (1 - 1 / part.stack) * abs(part.outline.area) for part in parts if part.stack > 1
    )
    return glue(area / 1e6 * plan.job.workshop.glue.spread, "layers")


def finish(area: float, coats: int) -> tuple[Goods, ...]:
    """For so many mm2."""
    volume = Quantity("volume", "In all", area * coats * COAT, "liquid")
    return (Goods("finish", "glue and finish", "finish", (volume,)),)


def grit(number: str, area: float, unit: Unit) -> Goods:
    """Sheets of abrasive that sand so many mm2."""
    return abrasive(number, area / WEARS, unit)


def abrasive(number: str, area: float, unit: Unit) -> Goods:
    """Sheets of abrasive that so many mm2 are cut from."""
    width, length = PAPER[unit]
    sheets = pieces(area / (width * length))
    size = (ruled("width", "Wide", width), ruled("length", "Long", length))
    return Goods(f"abrasive.{slug(number)}", "abrasives", f"sheet of {number} grit", (sheets, *size))


ROLL, SPARE = 50_000.0, 100.0  # mm of tape on a roll; at each ring's ends


def tape(plan: Plan) -> tuple[Goods, ...]:
    """Once round every ring that is closed in a band."""
    made = by_form(plan, torus=_rings_made, vessel=lambda _: None)
    bands = [band for band in plan.wood.glue.bands if band.rings]
    length = sum((len(band.rings) if made is None else made) * (band.around + SPARE) for band in bands)
    if not length:
        return ()
    run = Quantity("run", "In all", length, "run")
    return (Goods("tape", "tape and linings", "roll of masking tape", (pieces(length / ROLL), run)),)


def _rings_made(plan: TorusPlan) -> int:
    """Whole spare ones and those of scrap among them; all are alike."""
    scrap = sum(scrap.count for scrap in plan.wood.scraps if scrap.of == "quarter")
    return len(plan.left) + len(plan.spare_rings) + scrap + bool(plan.job.form.end_spare)


WAXED_PAPER = Goods("waxed-paper", "tape and linings", "roll of waxed or baking paper", (pieces(1),))
LINING = "cork, leather or felt"


def lining(id: str, where: str, *sizes: Quantity) -> tuple[Goods, ...]:
    """A piece that lines what holds the work."""
    return (Goods(f"lining.{id}", "tape and linings", f"{LINING} for {where}", (pieces(1), *sizes)),)


def glued_on(lining: float, where: str) -> Iterator[str]:
    """The step that lines what is turned for it; none where it stays bare."""
    if lining:
        yield f"Gauge and dial right: glue the lining {where} in short strips, edge to edge, and let it dry."


def of_all(plan: Plan) -> tuple[Goods, ...]:
    """What no one operation is told: the glue of all joints and what sands them, tape, bands, a gauge rail's bolts."""
    rail = by_form(plan, torus=lambda _: (), vessel=_rail)
    wood = plan.wood.glue
    return (
        *glue(wood.grams, "joints"),
        *([grit(JOINTS, wood.sanded, plan.job.unit)] if wood.sanded else []),
        *tape(plan),
        WAXED_PAPER,
        *_bands(plan),
        *rail,
    )


def _rail(plan: VesselPlan) -> tuple[Goods, ...]:
    """Two for each piece of a stage; the next stage has the same ones. None without a rail."""
    gauges = plan.gauges
    if not gauges.railed:
        return ()
    return bolts(
        "rail", "Bolts", 2 * len(gauges.pieces), gauges.body.bolt, 2 * gauges.plate, "wing nut"
    ).goods


def _bands(plan: Plan) -> tuple[Goods, ...]:
    """Round rings, as many as are glued at a time, and round the whole blank."""
    glue = plan.wood.glue
    rings = [band for band in glue.bands if band.rings]
    whole = [band for band in glue.bands if not band.rings]
    at_once = [
        min(stage.at_once, stage.count) for stage in glue.stages if stage.assembly in ("rings", "bands")
    ]
    return (
        *(
            [
                _band(
                    "ring",
                    "band for a ring; fewer take more batches",
                    max(at_once, default=1),
                    max(b.length for b in rings),
                )
            ]
            if rings
            else []
        ),
        *([_band("blank", "band for the blank", 1, max(b.length for b in whole))] if whole else []),
    )


def _band(id: str, what: str, count: int, length: float) -> Goods:
    return Goods(f"band.{id}", "clamps", what, (pieces(count), ruled("length", "Long", length)), again=True)
