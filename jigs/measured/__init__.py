"""What the turner's readings say of the work, and what to do."""
