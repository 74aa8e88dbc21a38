"""The shop measured, before anything is cut to it: the operations."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import inf, radians

from geometry.grouping import gathered
from geometry.records import Record, replace
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form
from jigs.stages.shop.assumed import cut_to, cut_to_assumed
from jigs.words.quantity import Kind, Quantity, ruled
from jigs.work.minutes import MARKING, each
from jigs.work.model import Check, JigUse, Operation, Place, Rack, Reading, Stage

ID = "shop"
THROAT = "saw.throat"
# What is asked for only where a jig is cut to it, or the throat judged by it.
OF_SLEDS = {"saw.slot_width", "saw.slot_depth", "saw.slot_distance", "saw.table_front", THROAT, "saw.tilts"}
SLOWEST = "slowest"  # what the lathe may turn at, at its slowest
ENOUGH = "A lathe that is smaller than listed below, or faster at its slowest, will not do for this work."
MEASURING = 3.0  # minutes for one value
TWICE = Check(
    "twice", "Measure each twice: both readings agree", if_not="measure a third time and take the middle one"
)
TOLD = Check(
    "told",
    "Look at the top of the new listing: none of these values is assumed any more",
    if_not="look for the key that is still named there, and state it",
)


class Measured(Record):
    """A shop value: its key, and what is measured, from where to where."""

    key: str
    what: str
    kind: Kind = "calliper"
    side: str = ""  # "across" or "deep": of a key with both
    how: str = ""

    @property
    def id(self) -> str:
        return f"{self.key}.{self.side}" if self.side else self.key


class Machine(Record):
    """What is measured at one place, and how."""

    id: str
    place: Place
    does: str
    how: tuple[str, ...]
    values: tuple[Measured, ...]
    cautions: tuple[str, ...] = ()


TABLE_SAW = Machine(
    "table-saw",
    "table saw",
    "Measure the table saw.",
    (),
    (
        Measured(
            "saw.kerf", "Kerf", how="Kerf: cut a groove in scrap with your blade and measure its width."
        ),
        Measured("saw.blade_diameter", "Blade, across", "rule"),
        Measured(
            "saw.blade_height",
            "Blade above the table, most",
            "rule",
            how="Raise the blade fully: measure the top tooth over the table.",
        ),
        Measured(
            "saw.slot_width",
            "Mitre slot, wide",
            how="Mitre slot: measure its width at both ends and in the middle, and take the least; then its depth.",
        ),
        Measured("saw.slot_depth", "Mitre slot, deep"),
        Measured(
            "saw.slot_distance",
            "Blade to slot",
            how="Blade to slot: from a tooth set towards the slot to the slot's near edge, the blade upright.",
        ),
        Measured(
            "saw.table_front",
            "Table's front edge to the blade's axle",
            "rule",
            how="Table's front to axle: mark where the teeth leave the table, front and back; measure to the middle "
            "between.",
        ),
        Measured(
            THROAT,
            "Clear beside the blade",
            "rule",
            how="Clear beside the blade: from it to what a sled would hit first on its left.",
        ),
        Measured(
            "saw.tilts",
            "Blade's top tilts to the",
            "text",
            how="Tilt the blade and look from the front; write down to which side its top leans.",
        ),
    ),
    ("table-saw",),
)
BANDSAW = Machine(
    "bandsaw",
    "bandsaw",
    "Measure the bandsaw, with the blade that will cut.",
    (
        "Kerf: cut into scrap and measure the width of the cut.",
        "Raise the guides fully: measure from the table to them. Measure from the blade to the column.",
        "Drift: draw a line along a board, cut along it freehand half-way, stop, and hold the board there.",
        "Draw the table's left edge on that board. The angle between the two lines is the drift, + to the left.",
        "Measure from the blade to the table's left edge, and from the teeth to its front edge.",
    ),
    (
        Measured("bandsaw.kerf", "Kerf"),
        Measured("bandsaw.height", "Under the guides, most", "rule"),
        Measured("bandsaw.throat", "Blade to column", "rule"),
        Measured("bandsaw.drift", "Drift, + to the left", "angle"),
        Measured("bandsaw.table_left", "Blade to the table's left edge", "rule"),
        Measured("bandsaw.table_front", "Teeth to the table's front edge", "rule"),
    ),
    ("bandsaw",),
)
PLAY = Measured("boards.play", "Play of a slot over the sheet")
TRIED = "Play: how much wider than the sheet a slot must be, so that a tab enters by hand. Try it in scrap."
SHEETS = Machine(
    "sheets",
    "shop",
    "Measure the sheet and the board that the jigs are cut from.",
    (
        "Calliper each at four places, near the edges and away from a knot; take the mean.",
        "Sort out what differs by more than a tab's play: slots are cut to one thickness.",
    ),
    (Measured("boards.sheet", "Sheet, thick"), Measured("boards.thickness", "Board for what spins, thick")),
)
LATHE = Machine(
    "lathe",
    "lathe",
    "Measure the lathe.",
    ("Measure from the spindle's centre to the bed, and double it.",),
    (Measured("lathe.swing_over_bed", "Swing over the bed", "rule"),),
)
MAKERS = Machine(
    "printer-and-cutter",
    "shop",
    "Look up what your printer and your cutter can do.",
    (
        "Measure what of each bed is free of clips.",
        "Cutter's kerf: 0 where the cutter's own program offsets the path. Else half of it is added to every line.",
        "Cut a square out of scrap: what it is short of its drawing is the kerf.",
    ),
    (
        Measured("printer.bed", "Printer's bed, across", "rule", "across"),
        Measured("printer.bed", "Printer's bed, deep", "rule", "deep"),
        Measured("printer.nozzle", "Nozzle"),
        Measured("printer.layer", "Layer"),
        Measured("cutter.bed", "Cutter's bed, across", "rule", "across"),
        Measured("cutter.bed", "Cutter's bed, deep", "rule", "deep"),
        Measured("cutter.kerf", "Cutter's kerf"),
    ),
)


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """One for each machine; what no file states has a box, with the jigs that wait for it."""
    waiting = cut_to_assumed(plan.job, rack.parts)
    found = [_measure(plan, machine, waiting) for machine in _machines(plan, rack)]
    boxes = sum(len(operation.readings) for operation in found)
    return [*found, *([_state(boxes)] if boxes else [])]


def _state(boxes: int) -> Operation:
    """What is measured has to come into the files before anything is cut to it."""
    return Operation(
        id=f"{ID}.state",
        place="shop",
        does="Write what you measured into the job or workshop file, then make all files again.",
        how=(
            "Write each value under its key, in the section of the file that the box names.",
            "Run make. Only what a value changed is made anew.",
            "Throw away older drawings of the jigs that waited.",
        ),
        checks=(TOLD,),
        minutes=each(boxes, MARKING, MARKING),
    )


def _machines(plan: Plan, rack: Rack) -> Iterator[Machine]:
    """Those that the job uses; the sheet's coupon tells the play of its slots."""
    if _table_saw_used(plan):
        unread = OF_SLEDS - cut_to(rack.parts) - ({THROAT} if _throat_judged(plan) else set())
        yield replace(TABLE_SAW, values=tuple(one for one in TABLE_SAW.values if one.key not in unread))
    if plan.bandsaw_used:
        yield BANDSAW
    coupon = rack.named("sheet-coupon")
    yield SHEETS if coupon else replace(SHEETS, how=(*SHEETS.how, TRIED), values=(*SHEETS.values, PLAY))
    yield from (LATHE, MAKERS)


def _table_saw_used(plan: Plan) -> bool:
    """Boards that are strips as they are, and pieces sawn by hand or at the bandsaw, ask for none."""
    ripped = any(not board.ready for of in plan.wood.classes for board in of.boards)
    square = any(lot.way in ("square", "bevelled") and not lot.held for lot in plan.wood.lots)
    segments = by_form(plan, torus=lambda own: own.cutting.segments_on == "table saw", vessel=lambda _: False)
    return _throat_judged(plan) or segments or ripped or square


def _throat_judged(plan: Plan) -> bool:
    """Whether a sled on the table saw reaches far beside the blade."""
    return bool(plan.layups) or by_form(
        plan,
        torus=lambda own: own.cutting.rings_on == "table saw",
        vessel=lambda own: bool(own.saws.sleds or own.saws.staves),
    )


def _measure(plan: Plan, machine: Machine, waiting: Mapping[str, Sequence[Part]]) -> Operation:
    known = [(value, _quantity(plan, value)) for value in machine.values]
    stated = [found for value, found in known if value.key in plan.job.places]
    open_ = [(value, found) for value, found in known if value.key not in plan.job.places]
    asked = [value.how for value in machine.values if value.how]
    how, needs = (machine.how, ()) if machine is not LATHE else _lathe(plan)
    return Operation(
        id=f"{ID}.{machine.id}",
        place=machine.place,
        does=machine.does,
        how=(*asked, *how, *_stated([value for value, _ in known if value.key in plan.job.places])),
        settings=tuple(stated),
        known=needs,
        jigs=_waits(waiting, [value.key for value, _ in open_]),
        checks=(_same(plan) if machine is MAKERS else TWICE,),
        cautions=machine.cautions,
        readings=tuple(Reading(value.id, _where(value), found) for value, found in open_),
        minutes=each(len(open_), MEASURING, MARKING),
    )


def _same(plan: Plan) -> Check:
    """The kerf is taken off once: in the files, or by the cutter's program."""
    kerf = plan.job.workshop.cutter.kerf
    return Check(
        "same",
        "The program that slices has the same bed, nozzle and layer in its own settings; the one that cuts has the "
        f"same bed and {'offsets no path' if kerf else 'offsets its path by half of the kerf'}",
        if_not="change their settings or the job: its files are drawn for these numbers",
    )


def _lathe(plan: Plan) -> tuple[tuple[str, ...], tuple[Quantity, ...]]:
    """How it is measured, and what the work needs of it."""
    long, length = by_form(
        plan,
        torus=lambda _: ((), ()),  # its point meets the board, in the hole
        vessel=lambda own: (
            ("Draw the tailstock right back. Measure from the faceplate to its point.",),
            (ruled("length", "Faceplate to tailstock's point, at least", own.least_length, "least"),),
        ),
    )
    swing = ruled("swing", "Swing over the bed, at least", plan.least_swing, "least")
    speed = Quantity(SLOWEST, "Lowest speed, at most", plan.reversed_speed[0], "speed", "most")
    return (*LATHE.how, *long, "Look up its lowest speed.", ENOUGH), (swing, *length, speed)


def with_lowest_speed(done: Sequence[Operation]) -> Iterator[Operation]:
    """All of them; the lathe is asked for a speed that each can turn at, pieces on paper and waste blocks too."""
    most = min((q.value for one in done for q in one.settings if q.id == "speed.to"), default=inf)
    for one in done:
        if one.id == f"{ID}.{LATHE.id}":
            known = (replace(q, value=min(q.value, most)) if q.id == SLOWEST else q for q in one.known)
            yield replace(one, known=tuple(known))
        else:
            yield one


def _stated(values: Sequence[Measured]) -> tuple[str, ...]:
    """The keys of what the files state already, by section."""
    parted = (value.key.partition(".") for value in values)
    tables = gathered((table, name) for table, _, name in parted)
    keys = (f"Keys in [{table}]: {', '.join(dict.fromkeys(names))}." for table, names in tables.items())
    return (" ".join(["Where one listed above differs, change it in the file.", *keys]),) if tables else ()


def _where(value: Measured) -> str:
    table, _, name = value.key.partition(".")
    return f"{value.what}: {name} in [{table}]"


def _waits(waiting: Mapping[str, Sequence[Part]], keys: Iterable[str]) -> tuple[JigUse, ...]:
    """Each part once, with all that it waits for."""
    found: dict[str, tuple[Part, list[str]]] = {}
    for key in keys:
        for part in waiting.get(key, ()):
            found.setdefault(part.name, (part, []))[1].append(key.partition(".")[2])
    return tuple(
        JigUse(part.name, part.quantity, f"cut to an assumed {', '.join(names)}: wait until it is measured")
        for part, names in found.values()
    )


def _quantity(plan: Plan, value: Measured) -> Quantity:
    table, _, name = value.key.partition(".")
    found = getattr(getattr(plan.job.workshop, table), name)
    if value.side:
        found = found[0 if value.side == "across" else 1]
    if value.kind == "text":
        return Quantity(value.id, value.what, str(found), "text")
    number = float(found or 0.0)
    return Quantity(value.id, value.what, radians(number) if value.kind == "angle" else number, value.kind)


STAGE: Stage[Plan] = Stage(ID, "Measure the shop", operations, in_a_run=True)
