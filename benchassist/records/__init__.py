"""The paper: the record as data, and as PDF."""
