"""Cut parts nested on the sheets of the bed."""
