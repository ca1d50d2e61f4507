"""Benchassist: verify, align, fit, hand over and record a finished pair of spectacles."""
