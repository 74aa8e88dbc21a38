"""Diameters and widths, stage by stage, and what measures them."""
