"""The sizes of either form by stages, and which of them share a gauge."""
