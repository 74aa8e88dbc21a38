"""Rings flattened to their heights."""
