"""Clamping blocks, the truing carrier, the plate that checks halves."""
