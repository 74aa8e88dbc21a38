"""A lid's knob, turned on its own."""
