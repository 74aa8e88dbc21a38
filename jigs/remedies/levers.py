"""Which levers are tried for a finding."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from jigs.asked.by_job import by_job
from jigs.asked.jobfile import AnyJob
from jigs.remedies.ladder import ALL
from jigs.remedies.lever import Lever, down, others_of, up, without
from jigs.remedies.shared import OTHER_UNITS
from jigs.remedies.vessel import FLOATING
from jigs.words.findings import Finding

# What is told before there is a blank or a stack, in rounds: nothing of a later round can be told then.
_ROUNDS: Sequence[frozenset[str]] = (
    frozenset(("fault",)),
    frozenset(("hole-closed", "stage-over-allowance", "blade-over-half", "folds", "no-foot",
               "no-staves")),
    frozenset(("no-inside", "tight-corner", "too-tight")),
    frozenset(("thin-wall", "thin-floor")),
    frozenset(FLOATING),
    frozenset(("no-boards", "too-many", "no-ring")),
)  # fmt: skip


LATEST = len(_ROUNDS)


def round_of(job: AnyJob, code: str) -> int:
    """In which round a finding is told; a torus has one before all that needs its blank."""
    rounds = by_job(job, torus=lambda _: _ROUNDS[:2], vessel=lambda _: _ROUNDS)
    return next((number for number, codes in enumerate(rounds) if code in codes), LATEST)


def levers_for(job: AnyJob, finding: Finding) -> Iterator[Lever]:
    """Other units where they are asked about; those for its code and key, else its own key and any."""
    if job.questions:
        yield OTHER_UNITS
    table = _of_form(job)[0]
    known = table.get(f"{finding.code} {finding.key}") or table.get(finding.code)
    if known is not None:
        yield from known
        return
    yield from _of_key(finding.key)
    yield from _of_form(job)[1]


def _of_form(job: AnyJob) -> tuple[Mapping[str, Sequence[Lever]], Sequence[Lever]]:
    """Its levers by code, and those for any finding."""

    def of_torus(_: object) -> tuple[Mapping[str, Sequence[Lever]], Sequence[Lever]]:
        from jigs.remedies import torus

        return torus.LEVERS, torus.ANY

    def of_vessel(_: object) -> tuple[Mapping[str, Sequence[Lever]], Sequence[Lever]]:
        from jigs.remedies import vessel

        return vessel.LEVERS, vessel.ANY

    return by_job(job, torus=of_torus, vessel=of_vessel)


def _of_key(key: str) -> Iterator[Lever]:
    own = ALL.get(key)
    if own is None:
        return
    if own.kind in ("length", "number", "count", "counts", "heights"):
        yield from (down(key), up(key))
    elif own.kind == "choice":
        yield others_of(key)
    if not own.required:
        yield without(key)
