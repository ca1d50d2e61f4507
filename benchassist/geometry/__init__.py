"""Frames, boxes and angles: millimetres and degrees in, frozen values out."""
