"""The mountings, and the turned fixtures."""
