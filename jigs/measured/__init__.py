"""What the turner measures, read from a file beside the job; what it says of the work, and what to do."""
