"""What the work asks of the lathe, whatever is turned on it."""
