"""What is wrong or worth knowing, in one form for every stage."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from typing import Literal

from geometry.records import Record, replace

Severity = Literal["refused", "warning", "note"]


class Finding(Record):
    """One thing to tell the user: what is wrong, where it was asked for, and what would do."""

    code: str
    message: str
    remedy: str = ""
    key: str = ""
    file: str = ""
    line: int = 0
    severity: Severity = "refused"
    wants: Mapping[str, float] = field(
        default_factory=dict, compare=False
    )  # by key, values in mm that look as if they would do

    def __str__(self) -> str:
        place = self.file + (f":{self.line}" if self.line else "")
        head = ": ".join(part for part in (place, self.key) if part)
        return f"{head}: {self.said}" if head else self.said

    @property
    def said(self) -> str:
        """What is wrong and what would do, without the place in a file."""
        return f"{self.message}. {self.remedy[0].upper()}{self.remedy[1:]}" if self.remedy else self.message

    @property
    def told(self) -> str:
        """The finding behind its severity."""
        return f"{self.severity}: {self}"


class Refused(ValueError):
    """A job that cannot be made as asked; carries every finding, not only the first."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("\n".join(str(finding) for finding in self.findings))


class RefusedSoon(Refused):
    """A job that its shape alone refuses, before the saws, the wood and the rest are worked out."""


class RefusedJob(Refused):
    """A job that cannot be made, after looking for what would do: `advice` for people, `remedies` for scripts.

    `assumed` are warnings of what it was judged by and no file states. What the findings themselves would do is left
    out: it was not tried.
    """

    def __init__(
        self, findings: Iterable[Finding], advice: str, remedies: Sequence[object], assumed: Sequence[Finding]
    ) -> None:
        super().__init__(replace(finding, remedy="") for finding in findings)
        self.advice, self.remedies, self.assumed = advice, remedies, assumed


def refuse(findings: Iterable[Finding], soon: bool = False) -> None:
    """Raise Refused, or RefusedSoon, with those of the findings that refuse, where there are any."""
    refused = [finding for finding in findings if finding.severity == "refused"]
    if refused:
        raise RefusedSoon(refused) if soon else Refused(refused)


def near_names(name: str, known: Iterable[str], most: int = 1, cutoff: float = 0.6) -> list[str]:
    """Those of the known that a name is perhaps a slip of, the likeliest first."""
    from difflib import get_close_matches  # a job without a slip has no use for it

    return get_close_matches(name, list(known), most, cutoff)
