"""The form after turning: whether it can be at all."""
