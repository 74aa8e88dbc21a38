"""The rings, from the foot up, worked out."""
