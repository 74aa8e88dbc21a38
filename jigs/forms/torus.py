"""A torus: the stages of its work, in order."""

from __future__ import annotations

from jigs.plan.torus import TorusPlan
from jigs.stages.boards.steps import STAGE as BOARDS
from jigs.stages.segments.steps import STAGE as SEGMENTS
from jigs.work.model import Stage

STAGES: tuple[Stage[TorusPlan], ...] = (BOARDS, SEGMENTS)
