"""The plug that holds a vessel by its mouth, worked out."""
