"""Which limit holds for an ordered lens, and where it comes from."""
