"""What is sawn from which boards, in which order, and what it comes to."""
