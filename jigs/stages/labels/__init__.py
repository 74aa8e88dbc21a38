"""Labels on what could be turned the wrong way."""
