"""Parts off the printer."""
