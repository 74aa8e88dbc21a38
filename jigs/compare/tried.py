"""Candidates tried as job files: read, solved, every jig drawn; and written as the turner's own file, changed.

Only what passes is named, with what is set side by side of it: sizes, cuts, wood, time and what may go wrong. What is
written is read again first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from geometry.blanks.sawing import included_angle_error
from geometry.records import Record
from jigs.asked import toml_source
from jigs.asked.change import Change, Changes, changed
from jigs.asked.jobfile import job_of
from jigs.asked.toml_source import Source
from jigs.asked.values import name_like
from jigs.compare.wish import PIECES, By, Wish
from jigs.files.swap_in import swap_in
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.plans.plan import by_form
from jigs.progress import Progress
from jigs.sets.rack import draw
from jigs.words.findings import Finding, Refused
from jigs.words.quantity import Quantity, calliper, ruled

if TYPE_CHECKING:
    from jigs.plans.plan import Plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

MOST_TRIALS = 40


class Compared(Record):
    """One way to build the work. `changes` is nothing for the job as it is."""

    changes: Changes
    figures: tuple[Quantity, ...]


def compared(
    source: Source, path: Path, every: Iterable[Changes], wish: Wish, progress: Progress
) -> list[Compared]:
    """The best of those that pass, in order: twice as many as are wanted are tried, for estimates are not figures."""
    passed: list[Compared] = []
    for changes in islice(every, MOST_TRIALS):
        if len(passed) == 2 * wish.best:
            break
        progress(len(passed), 2 * wish.best, "trying other ways")
        one = tried(source, path, changes, wish)
        passed += [one] if one else []
    passed.sort(key=lambda one: _figure(one, wish.by))
    return passed[: wish.best]


def _figure(one: Compared, by: By) -> float:
    """What is ordered by; less is better."""
    value = next(figure.value for figure in one.figures if figure.id == FIGURE[by])
    assert not isinstance(value, str)
    return -value if by == "piece" else value


def tried(source: Source, path: Path, changes: Changes, wish: Wish) -> Compared | None:
    """A job with changes, or None where it is refused."""
    try:
        return Compared(changes, tuple(figures(solve(job_of(changed(source, changes), path)), wish)))
    except Exception:  # refused; and what breaks the tool is none that anybody is offered
        return None


FIGURE: Mapping[By, str] = {"wood": "taken", "cuts": "cuts", "time": "work", "gap": "gap", "piece": "piece",
                            "cost": "cost"}  # fmt: skip


def figures(plan: Plan, wish: Wish) -> Iterator[Quantity]:
    """Raises Refused where a jig cannot be drawn."""
    proof = draw(plan)
    facts = {fact.id: fact for fact in work(plan, proof.parts, proof.notes).facts}
    yield from by_form(plan, torus=lambda own: _of_torus(own, wish), vessel=lambda own: _of_vessel(own, wish))
    classes = plan.wood.classes
    taken = [*(one.volumes.stock for one in classes), *(layup.volumes.stock for layup in plan.layups)]
    yield Quantity("taken", "Boards and plies taken", sum(taken), "timber")
    yield Quantity("bought", "Boards bought", sum(one.least for one in classes), "count")
    yield from (facts[id] for id in ("work", "days", "cost") if id in facts)


def _of_torus(plan: TorusPlan, wish: Wish) -> Iterator[Quantity]:
    blank = plan.blank
    yield Quantity("wedge-rings", "Wedge rings", blank.wedge_rings, "count")
    yield Quantity("segments", "Segments in a ring", blank.segments, "count")
    yield ruled("board", "Board, as planed", plan.segment.depth)
    yield ruled("core", "Core, across flats", 2 * blank.core_apothem)
    yield from _mirrored(plan)
    yield Quantity(
        "cuts", "Cuts on the sleds", _times(plan, plan.segments_total) + 2 * blank.wedge_rings, "count"
    )
    yield calliper("piece", "Smallest edge held", min(plan.segment.outer_edge, blank.thin_edge))
    yield ruled(
        "segment-height", "Height of the cut above the table, segments", plan.cutting.carrier.blade_height
    )
    yield ruled("ring-height", "Height of the cut above the table, rings", plan.sled.saw_height)
    yield calliper("gap", "Last joint may open", included_angle_error(blank, wish.saw_error))
    yield Quantity("used", "Wood in the blank", blank.volume, "timber")


def _of_vessel(plan: VesselPlan, wish: Wish) -> Iterator[Quantity]:
    """Discs and staves have no segments on the flat sled."""
    stack, flat = plan.stack, plan.job.rings.flattening
    own = [layer.ring for layer in stack.layers if layer.cut is not None]
    heights = sorted({round(ring.height, 2) for ring in own})
    yield Quantity("rings", "Rings", len(stack.layers), "count")
    counts = sorted({ring.segments for ring in own})
    if len(counts) == 1:
        yield Quantity("segments", "Segments in a ring", counts[0], "count")
    else:
        yield Quantity("segments", "Segments in a ring", " or ".join(map(str, counts)), "text")
    yield ruled("ring", "Highest ring", heights[-1])
    yield ruled("board", "Its board, as planed", heights[-1] + flat)
    yield from _mirrored(plan)
    yield Quantity("cuts", "Cuts on the sleds", _times(plan, sum(ring.segments for ring in own)), "count")
    yield calliper("piece", "Smallest edge held", min(ring.outer_edge for ring in own))
    height = max(sled.layout.saw_height for sled in plan.saws.sleds)
    yield ruled("segment-height", "Blade above the table", height)
    closed = (one.ring for one in stack.layers if one.kind == "segments")  # open rings have no last joint
    widest = max((ring.radius * ring.segments for ring in closed), default=0.0)
    yield calliper("gap", "Last joint of a ring may open", widest * wish.saw_error)
    yield calliper("glue", "Rings meet on, as glued", min(joint.rough for joint in stack.joints))
    yield Quantity("used", "Wood in the blank", stack.wood, "timber")


def _mirrored(plan: Plan) -> Iterator[Quantity]:
    if plan.job.layup:
        yield Quantity("mirrored", "Layup mirrored", plan.job.layup.mirrored, "text")


def _times(plan: Plan, segments: int) -> int:
    """Cuts: of segments, and of the pieces of their layup before."""
    parts = PIECES[plan.job.layup.mirrored] if plan.job.layup else 1
    return segments * (1 + parts if parts > 1 else 1)


STACK = (("n", "rings.segments"), ("h", "rings.heights"))


def file_name(job: Path, one: Compared) -> str:
    """hoop-18x10.toml; hoop-18x10-22_5.toml with another core; vase-n16-h21_7.toml with 16 segments in rings of that
    height; the way of the layup behind it where that is another."""
    known = {key: str(value).removesuffix(" in").replace(".", "_") for key, value in one.changes.items()}
    parts = [
        f"{known['form.wedge_rings']}x{known['form.segments']}" if "form.wedge_rings" in known else "",
        known.get("form.core_opening", ""),
        *(f"{letter}{known[key]}" for letter, key in STACK if key in known),
        known.get("layup.mirrored", "").replace(" ", "-"),
    ]
    return "-".join([job.stem, *(part for part in parts if part)]) + ".toml"


def write_all(source: Source, job: Path, found: list[Compared]) -> list[Path]:
    """Beside the job, so that it names the same workshop file: all of them or none.

    Raises Refused where a file is there or cannot be.
    """
    files = [job.with_name(file_name(job, one)) for one in found]
    if there := [file for file in files if file.exists()]:
        raise Refused([Finding("exists", f"{file} is there already", "Move it away first") for file in there])
    texts = [job_text(source, job, one.changes, file.stem) for one, file in zip(found, files, strict=True)]
    for file, text in zip(files, texts, strict=True):
        try:
            swap_in(file, text.encode())
        except OSError as error:
            for one in files:
                one.unlink(missing_ok=True)
            message = f"{file}: {error.strerror}"
            raise Refused([Finding("cannot-write", message, "Make room beside the job")]) from error
    return files


def job_text(source: Source, job: Path, changes: Changes, name: str) -> str:
    """The file's text with these keys changed, and its own name where it states one. Raises Refused."""
    from jigs.asked.edited import edited  # loads tomlkit

    whole = {**changes, **({"name": name_like(name)} if "name" in source.data else {})}
    asked = [Change(*one) for one in whole.items()]
    lines = job.read_text("utf-8-sig").replace("\r\n", "\n").split("\n")
    for change in asked:  # a default, such as a layup's way: behind its section's heading
        heading = source.lines.get(change.table)
        if change.key not in source.lines and heading and lines[heading - 1].lstrip().startswith("["):
            lines[heading - 1] += f"\n{change.line}"
    text = edited("\n".join(lines), asked)
    job_of(toml_source.parse(text, str(job)), job.with_name(f"{name}.toml"))
    return text
