"""Every number of a vessel job: one file for each part of the plan."""

from jigs.plan.vessel.whole import VesselPlan

__all__ = ["VesselPlan"]
