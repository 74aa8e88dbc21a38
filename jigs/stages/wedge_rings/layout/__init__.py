"""Where everything stands on the wedge-ring sled."""
