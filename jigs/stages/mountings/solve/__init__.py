"""Mountings, channel and retainer, worked out."""
