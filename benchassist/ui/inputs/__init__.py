"""Inputs: value(), set_value(), value_changed, of a domain type."""
