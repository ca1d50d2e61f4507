"""Painted pictures: spectacles, gauges, hints."""
