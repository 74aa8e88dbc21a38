"""The wood of a vessel."""
