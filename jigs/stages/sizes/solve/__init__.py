"""The sizes, worked out."""
