"""Glue, bands, batches, and the truing carrier, worked out."""
