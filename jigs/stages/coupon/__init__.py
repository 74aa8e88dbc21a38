"""The coupon made and read: what the machines do to sizes."""
