"""The order form: its fields and how they map onto an order."""
