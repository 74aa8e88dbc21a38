"""Segments, sawn from strips."""
