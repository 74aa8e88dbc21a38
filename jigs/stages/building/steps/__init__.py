"""Every sled, carrier and board put together: the operations."""
