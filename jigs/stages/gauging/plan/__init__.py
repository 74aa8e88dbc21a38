"""The profile gauges of either form."""
