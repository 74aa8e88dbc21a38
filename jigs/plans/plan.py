"""Every number of a job, solved once and frozen: one file for each part of the plan."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

Plan: TypeAlias = "TorusPlan | VesselPlan"
