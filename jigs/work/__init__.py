"""The work: every operation from measuring the shop to the finished piece, as data that any telling renders."""
