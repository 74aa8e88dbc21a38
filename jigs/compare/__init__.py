"""Other counts of rings and segments, and other boards, for the same torus: side by side, each tried first."""
