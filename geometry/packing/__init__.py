"""Pieces out of strips out of boards."""
