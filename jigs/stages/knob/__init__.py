"""A lid's knob, turned apart."""
