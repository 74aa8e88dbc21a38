"""Every number of a job, solved once and frozen: one file for each part of the plan."""

from jigs.plan.whole import Plan

__all__ = ["Plan"]
