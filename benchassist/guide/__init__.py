"""What to do next, in words: the nine steps and their prompts."""
