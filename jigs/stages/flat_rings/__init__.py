"""The rings of a vessel, glued from segments."""
