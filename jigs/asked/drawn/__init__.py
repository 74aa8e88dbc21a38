"""Drawings of a profile, read: DXF and SVG files to lines in mm."""
