"""Bolts, and the small mechanisms of the sleds."""
