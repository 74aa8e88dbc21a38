"""Where a layup's pattern shows on a segment, and about which of its middle lines it is mirrored."""

from __future__ import annotations

from typing import Literal

Plane = Literal["flat", "end", "face"]
Mirrored = Literal["none", "left and right", "up and down", "both"]
