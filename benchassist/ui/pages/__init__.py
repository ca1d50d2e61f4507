"""One page a file; no page knows another."""
