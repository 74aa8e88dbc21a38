"""Labels and tape layouts to print."""
