"""Judging a job: order and readings in, findings out."""
