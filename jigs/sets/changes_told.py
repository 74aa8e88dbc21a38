"""What a make did to a set that stood there before: its jigs, its settings, its wood."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from geometry.grouping import gathered
from jigs.files.manifest import LAST_CHANGE
from jigs.parts.codes import code_of
from jigs.render.lines import shown, shown_to
from jigs.words.file_names import of_job
from jigs.words.quantity import count_text

if TYPE_CHECKING:
    from jigs.sets.keep import Keep
    from jigs.sets.made import Made
    from jigs.words.lengths import Unit
    from jigs.words.quantity import Quantity
    from jigs.work.changes import SettingChange, WorkChanges
    from jigs.work.model import Work

Listed = tuple[str, Sequence[str]]  # a heading and the lines under it

SINCE = "in the rack since the last make"
NOW_WRONG = f"{SINCE}, and now wrong"
STILL = f"{SINCE}, and still good (changed by less than the tolerance, or not in what they do)"
WIDE = 87  # characters of a row of codes
INDENT = "  "
FEW = 3  # jigs with the same reason that are named one by one
MOST = 12  # settings told on the screen
NOT_COMPARED = "not compared: the last make kept no record of them"


def changes_text(made: Made, most: int | None = None) -> str:
    """Jigs remade, still right and now wrong; settings, `most` of them where that is stated; the wood."""
    return "\n".join(
        line
        for head, lines in change_lists(made, most)
        for line in (head, *(INDENT + line for line in lines))
    )


def change_lists(made: Made, most: int | None = None) -> list[Listed]:
    """The same as headings, each with its lines."""
    jigs: list[Listed] = [
        ("remade", made.remade) if made.right or made.wrong or made.near else ("made", _codes(made.remade)),
        ("still right", made.right),
        (NOW_WRONG, by_reason(made.wrong)),
        ("done with: no step uses them after what you have read", _codes(made.done)),
        (STILL, _codes([part for part, _ in made.near])),
        ("still good, and to do", _first([f"{part}: {told}" for part, told in made.to_do], most)),
        ("sleds that serve as they stand", [_sled(made, *pair) for pair in made.sleds]),
        *(pair for keep in made.keep for pair in _keep(keep)),
    ]
    told = work_changes(made.work, made.told, most) if made.told else []
    return [*((head, lines) for head, lines in jigs if lines), *told]


def work_changes(found: WorkChanges, work: Work, most: int | None = None) -> list[Listed]:
    """Settings, old to new, by the step that they belong to now; whether the cut list and the boards are others."""
    if not found.compared:
        return [(f"settings, cut list, boards: {NOT_COMPARED}", ())]
    told = [text for one in found.settings if (text := setting_text(one, work))]
    return [
        (f"settings: {f'{len(told)} changed' if told else 'as before'}", _first(told, most)),
        (f"cut list: {_lots(found, work.job)}", ()),
        (f"boards: {_boards(found, work.job)}", ()),
    ]


def setting_text(one: SettingChange, work: Work) -> str:
    """ "step 4, Stop to blade: 13.4 mm -> 14.1 mm"; nothing where nobody sets it otherwise: both read the same, or are
    nearer to each other than half of what is shown, the last digit turned over by rounding alone."""
    if one.after is None:
        return f"no longer: {one.before.label} {shown(one.before, work.unit)}" if one.before else ""
    before, after = shown(one.before, work.unit) if one.before else "new", shown(one.after, work.unit)
    if before == after or _rounded_apart(one.before, one.after, work.unit):
        return ""
    return f"step {work.number(one.operation)}, {one.after.label}: {before} -> {after}"


def _rounded_apart(before: Quantity | None, after: Quantity, unit: Unit) -> bool:
    if before is None or isinstance(before.value, str) or isinstance(after.value, str):
        return False
    step = shown_to(after.kind, unit)
    return step is not None and abs(after.value - before.value) < step / 2


def _lots(found: WorkChanges, job: str) -> str:
    was, now = found.lots_of
    if not found.lots:
        return "as before" if was == now else f"{count_text(was - now, 'lot')} fewer, the others as before"
    before = f", once {was}" if was != now else ""
    lots = f"{found.lots} of {count_text(now, 'lot')}{before}"
    return f"changed in {lots}; see {of_job(job, 'tables/cut-list.csv')}"


def _boards(found: WorkChanges, job: str) -> str:
    told = {"as before": "as before", "others": "others", "sawn otherwise": "the same ones, sawn otherwise"}
    text = told.get(found.boards, NOT_COMPARED)
    return text if found.boards == "as before" else f"{text}; see {of_job(job, 'tables/stock.csv')}"


def _keep(keep: Keep) -> Iterator[Listed]:
    """The line to paste, and what it saves."""
    yield (
        "keep old jigs: put this line into the job file and make again; tried, and the job passes",
        [f"[{keep.table}]", keep.line],
    )
    yield (
        "these old jigs are then right (go by this list: the next make compares with the drawings made just now)",
        _codes(keep.jigs),
    )


def by_reason(jigs: Iterable[tuple[str, str]]) -> list[str]:
    """Each jig and why; those of a reason that many share by their codes, and the reason once."""
    by_why = gathered((why, jig) for jig, why in jigs)
    return [
        line
        for why, named in by_why.items()
        for line in (_codes(named, why) if len(named) > FEW else [f"{jig}: {why}" for jig in named])
    ]


def _codes(jigs: Sequence[str], each: str = "") -> list[str]:
    """How many they are and each one's code: one line, broken into rows for a terminal."""
    if not jigs:
        return []
    codes = f"{count_text(len(jigs), 'jig')}: {', '.join(map(code_of, jigs))}{each and ';'}"
    rows = textwrap.wrap(codes, WIDE, break_on_hyphens=False)
    return [f"\n{INDENT}".join([*rows, f"each: {each}"] if each else rows)]


def _sled(made: Made, sled: str, job: str) -> str:
    return f"{sled}: keep the old one" if job == made.folder.name else f"{sled}: the one made for {job}"


def last_change_text(title: str, made: Made) -> str:
    """The same as a file, with every setting."""
    return f"{title}: what its last change did to jigs, settings and wood\n\n{changes_text(made)}\n"


def changes_json(found: WorkChanges) -> dict[str, object]:
    """For scripts: ids and values as the model has them."""
    settings = [
        {
            "operation": one.operation,
            "setting": one.setting,
            "before": one.before.value if one.before else None,
            "after": one.after.value if one.after else None,
        }
        for one in found.settings
    ]
    return {"settings": settings, "lots_changed": found.lots, "boards": found.boards}


def _first(lines: Sequence[str], most: int | None) -> Sequence[str]:
    if most is None or len(lines) <= most:
        return lines
    return [*lines[:most], f"and {len(lines) - most} more, all of them in {LAST_CHANGE}"]
