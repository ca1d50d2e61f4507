"""Ophthalmic optics: numbers in, frozen values out."""
