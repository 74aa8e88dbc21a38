"""Rings glued of segments."""
