"""Labels on the rings of a vessel."""
