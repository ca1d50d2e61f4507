"""What the ask page shows besides its input: the order in words, and the scene."""
