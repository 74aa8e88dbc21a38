"""The profile gauges, worked out."""
