"""The waste block that a vessel is turned on."""
