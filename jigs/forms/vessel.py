"""A vessel: the stages of its work, in order."""

from __future__ import annotations

from jigs.plan.vessel import VesselPlan
from jigs.stages.boards.steps import STAGE as BOARDS
from jigs.work.model import Stage

STAGES: tuple[Stage[VesselPlan], ...] = (BOARDS,)
