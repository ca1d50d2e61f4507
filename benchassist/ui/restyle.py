"""Changing a property that the style sheet looks at."""

from PySide6.QtWidgets import QWidget


def restyle(widget: QWidget, name: str, value: str) -> None:
    """Sets a dynamic property and dresses the widget anew, only when it changed."""
    if widget.property(name) == value:
        return
    widget.setProperty(name, value)
    widget.style().unpolish(widget)
    widget.style().polish(widget)
