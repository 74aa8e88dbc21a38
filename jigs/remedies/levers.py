"""Which levers are tried for a finding."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from jigs.asked.job import TorusJob
from jigs.asked.jobfile import AnyJob
from jigs.remedies.floating import FLOATING
from jigs.remedies.ladder import ALL
from jigs.remedies.lever import Lever, down, others_of, up, without
from jigs.remedies.shared import OTHER_UNITS
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
    rounds = _ROUNDS[:2] if isinstance(job, TorusJob) else _ROUNDS
    return next((number for number, codes in enumerate(rounds) if code in codes), LATEST)


def levers_for(job: AnyJob, finding: Finding) -> Iterator[Lever]:
    """Other units where they are asked about; those for its code and key, else its own key and any."""
    if job.questions:
        yield OTHER_UNITS
    table = _by_code(job)
    known = table.get(f"{finding.code} {finding.key}") or table.get(finding.code)
    if known is not None:
        yield from known
        return
    yield from _of_key(finding.key)
    yield from _any(job)


def _by_code(job: AnyJob) -> Mapping[str, Sequence[Lever]]:
    if isinstance(job, TorusJob):
        from jigs.remedies import torus

        return torus.LEVERS
    from jigs.remedies import vessel

    return vessel.LEVERS


def _any(job: AnyJob) -> Sequence[Lever]:
    if isinstance(job, TorusJob):
        from jigs.remedies import torus

        return torus.ANY
    from jigs.remedies import vessel

    return vessel.ANY


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
