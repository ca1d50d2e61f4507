"""How large the window is."""

from PySide6.QtCore import QSize

SMALLEST = QSize(1280, 800)
"""The smallest window that is supported, and the size in which it opens, px at 100 %."""
