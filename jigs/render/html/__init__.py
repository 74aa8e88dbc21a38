"""The book as one HTML file that needs nothing else."""
