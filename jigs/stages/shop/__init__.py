"""The shop measured: what the jigs are cut to."""
