"""A value that does not do, before it is known where it stands."""

from __future__ import annotations

RANGE = "out-of-range"


class Wrong(ValueError):
    """A value that its key does not take."""

    def __init__(self, code: str, message: str, remedy: str) -> None:
        self.code, self.message, self.remedy = code, message, remedy
        super().__init__(f"{message}. {remedy}")
