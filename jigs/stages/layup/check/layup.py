"""Whether a layup can be made: mirrored pieces that make sense, sheets and saws that reach, joints that meet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate
from math import inf, isinf

from jigs.asked.job import Job
from jigs.asked.job_wood import LAYUP, SAME_THICKNESS, Board, LayupWish
from jigs.measured.glued import stated_rings
from jigs.stages.layup.plan import LayupPlan, columns_and_rows, makes_sense
from jigs.words.findings import Finding

SEEN_STEP = 0.2  # mm between two plies that should meet: less is not seen. Common practice, no source


def layup_findings(job: Job, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """What refuses a layup, with the nearest value that works, and what is worth knowing of it."""
    wish = job.layup
    if wish is None:
        return
    if not makes_sense(wish):
        yield _not_mirrored(job, wish)
        return
    yield from (*_looks(job, wish, layups), *_rings(job, wish, layups))
    made = [layup for layup in layups if layup.way.from_hand < layup.way.strips_in_all]
    if made:
        yield from (*_narrow(job, wish, made), *_short(job, wish, made))
    if layups:
        yield from _saw(job, max(layups, key=lambda layup: layup.saw_height))
        yield from (*_at_hand(job, wish, layups), *_strips(job, layups))
    for layup in layups:
        yield from (*_seams(job, layup), *_steps(job, wish, layup))
    if wish.stacking == "staggered" and any(not way.stagger for layup in layups for way in layup.ways):
        yield job.note(
            "no-stagger", "plies that run along a side of the pieces, or nearly so, need no staggered strips: ends are "
            "square",
            key="layup.stacking",
        )  # fmt: skip


def _not_mirrored(job: Job, wish: LayupWish) -> Finding:
    on, runs = (
        ("ends", "along the flat") if wish.plane == "end" else ("faces", "along the tube or the height")
    )
    half = "up and down" if wish.plane == "end" else "left and right"
    return job.finding(
        "not-mirrored",
        f'a pattern on the {on} runs {runs}, so it cannot be mirrored "{wish.mirrored}"',
        key="layup.mirrored",
        remedy=f'use mirrored = "{half}" or "none", or plane = "flat"',
    )


def _looks(job: Job, wish: LayupWish, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """Plies that look alike draw nothing; those that begin beyond the pieces show nowhere."""
    if len({(ply.colour or ply.name).lower() for ply in wish.plies}) == 1:
        yield job.warning(
            "no-pattern", "all plies look alike: they draw no pattern, whatever their angle", key="layup.plies",
            remedy="plies that differ in name or colour, or no [layup], for segments of solid wood",
        )  # fmt: skip
        return
    show, high = job.show, max((layup.layup.height for layup in layups), default=inf)
    begins = accumulate((ply.thickness for ply in wish.plies), initial=0.0)
    hidden = [ply.name for ply, begin in zip(wish.plies, begins, strict=False) if begin >= high]
    if hidden:
        yield job.warning(
            "plies-too-thick",
            f"pieces are {show(high)} high square to the plies, so the sheet's last show nowhere: {', '.join(hidden)}",
            key="layup.plies", remedy="thinner plies, or fewer of them",
        )  # fmt: skip


def _rings(job: Job, wish: LayupWish, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """Rings that were asked for and have no segments."""
    planned = {number for layup in layups for number in layup.rings}
    glued = stated_rings(
        job.readings
    )  # a vessel's from the foot up; a torus's are among those that are planned
    missing = [number for number in wish.rings or () if number not in planned and number > glued]
    if missing or not (layups or glued):
        which = f"ring {', '.join(map(str, missing))}" if missing else "any ring"
        yield job.finding(
            "no-segments",
            f"there are no segments in {which} for a layup to make",
            key="layup.rings",
            remedy="name rings that are glued up from segments, or leave rings out",
        )


def _narrow(job: Job, wish: LayupWish, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """Of several sizes the widest strips are told: a sheet for these serves all."""
    layup, show = max(layups, key=lambda layup: layup.strip_width), job.show
    wide = layup.strip_width + job.workshop.stock.edge_trim
    if wide > wish.sheet_width:
        yield job.finding(
            "sheet-too-narrow",
            f"strips are {show(layup.strip_width)} wide as ripped, from a trimmed edge; a sheet is "
            f"{show(wish.sheet_width)}",
            key="layup.sheet_width",
            remedy=f"a sheet at least {job.at_least(wide)} wide",
        )


def _short(job: Job, wish: LayupWish, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """Of several sizes the longest strips are told."""
    layup, show = max(layups, key=lambda layup: layup.way.strip_length), job.show
    long = layup.way.strip_length + 2 * job.workshop.stock.end_trim
    if long > wish.sheet_length:
        yield job.finding(
            "sheet-too-short",
            f"strips for a single piece are {show(layup.way.strip_length)} long, between trimmed ends; a sheet is "
            f"{show(wish.sheet_length)}",
            key="layup.sheet_length",
            remedy=f"a sheet at least {job.at_least(long)} long",
        )


def _at_hand(job: Job, wish: LayupWish, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """Sheets of plies at hand that no strip can come from, and why."""
    show, thick = job.show, sum(ply.thickness for ply in wish.plies)
    for board in job.workshop.stock.sheets:
        reason = _useless(job, board, thick, layups) if board.species == LAYUP else None
        if reason:
            sizes = [show(size) for size in (board.thickness, board.width, board.length) if size is not None]
            yield job.note(
                "layup-sheet-left",
                f"{board.count} of {' x '.join(sizes)} at hand left out: {reason}",
                key="stock.sheets",
            )  # fmt: skip


def _useless(job: Job, board: Board, thick: float, layups: Sequence[LayupPlan]) -> str | None:
    show, stock = job.show, job.workshop.stock
    if board.width is None or board.length is None:
        return "its width and its length have to be given"
    if abs(board.thickness - thick) > SAME_THICKNESS:
        return f"the plies of this job are {show(thick)} together"
    widest, longest = board.width - stock.edge_trim, board.length - 2 * stock.end_trim
    if all(layup.strip_width > widest for layup in layups):
        return f"strips are {show(min(layup.strip_width for layup in layups))} wide, from a trimmed edge"
    shortest = min(layup.way.strip_length for layup in layups)
    if all(layup.way.strip_length > longest for layup in layups):
        return f"the chosen strips are {show(shortest)} long, between trimmed ends"
    return None


def _saw(job: Job, layup: LayupPlan) -> Iterator[Finding]:
    """The stack lies on its side on the sled, its strips' width upright."""
    show, limit = job.show, job.workshop.saw.blade_height
    if layup.saw_height <= limit:
        return
    room = limit - (layup.saw_height - layup.layup.depth)
    yield job.finding(
        "stack-too-tall",
        f"the layup's strips are {show(layup.layup.depth)} wide and stand so high on their sled: they need a blade "
        f"{job.at_least(layup.saw_height)} high; this saw gives {show(limit)}, for strips of {show(max(0.0, room))}",
        key="saw.blade_height",
        remedy=f"a table saw whose blade_height is at least {job.at_least(layup.saw_height)}, "
        "or a layup.plane with narrower strips",
    )


def _strips(job: Job, layups: Sequence[LayupPlan]) -> Iterator[Finding]:
    """Of several sizes the highest stack is told."""
    layup = max(layups, key=lambda layup: layup.stack_goes)
    strips, goes = layup.way.strips, layup.stack_goes
    if goes > 1:
        yield job.note(
            "many-strips",
            f"{strips} strips make a stack {job.show(strips * layup.layup.sheet)} high: {strips - 1} joints, "
            f"and {layup.batch} close within the glue's open time, so it is glued in {goes} goes",
            key="layup.plies",
            remedy="a thicker sheet takes fewer strips",
        )


def _seams(job: Job, layup: LayupPlan) -> Iterator[Finding]:
    if layup.seams.broken:
        rings = ", ".join(map(str, layup.rings))
        better = '"left and right"' if layup.plane == "face" or layup.mirrored == "none" else '"both"'
        yield job.warning(
            "odd-count",
            f"ring {rings}: segments alternate left and right hand, and an odd count leaves one joint a ring at which "
            "the plies do not meet",
            key="layup.mirrored",
            remedy=f"an even count of segments, or mirrored = {better}",
        )
    if layup.shown_farthest > layup.shown_across and layup.plane != "end":
        least, most = (job.show(mm) for mm in (layup.shown_across, layup.shown_farthest))
        yield job.note(
            "seams-unequal",
            f"round an elliptical tube the seams lie {least} to {most} apart: plies meet there, but no pattern ends "
            "whole at all of them",
            key="form.tube_height",
        )


def _steps(job: Job, wish: LayupWish, layup: LayupPlan) -> Iterator[Finding]:
    """How far stripes of one hand are from meeting at the joints between segments, along the outer flat."""
    columns, _ = columns_and_rows(layup)
    if not wish.one_hand or layup.plane != "flat" or columns > 1 or isinf(layup.layup.period_a):
        return
    repeats = (shown / layup.layup.period_a for shown in (layup.shown_across, layup.shown_farthest))
    step = max(abs(count - round(count)) for count in repeats) * layup.layup.period_a
    if step >= SEEN_STEP:
        yield job.note(
            "stripes-step",
            f"ring {', '.join(map(str, layup.rings))}: all of one hand, the plies are {job.show(step)} off meeting "
            "at each joint between segments",
            key="layup.angle",
            remedy="take an angle or a ply thickness from the table of what ends the pattern whole at the seams"
            if layup.closings
            else "",
        )
