"""Turning: mountings, channels and retainers, what gauges reach, what abrasives take off."""
