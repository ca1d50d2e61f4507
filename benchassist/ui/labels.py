"""Words on the window: a label in its role, alone or over the field that it names."""

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget


def text_label(role: str, words: str = "", *, wraps: bool = True) -> QLabel:
    """Words in a role of the stylesheet, such as 'caption'; what people typed stays plain."""
    made = QLabel(words)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setProperty("role", role)
    made.setWordWrap(wraps)
    return made


def led_text(lead: str, words: str) -> QLabel:
    """A sentence after a strong word that leads to it."""
    made = text_label("sentence", f"<b>{escape(lead)}</b>  {escape(words)}")
    made.setTextFormat(Qt.TextFormat.RichText)
    return made


def caption(words: str, field: QWidget) -> QLabel:
    """The name of a field; a letter after '&' in it leads there."""
    made = text_label("caption", words, wraps=False)
    made.setBuddy(field)
    return made


def captioned(words: str, field: QWidget) -> QVBoxLayout:
    """A field under its name."""
    column = QVBoxLayout()
    column.setSpacing(4)
    column.addWidget(caption(words, field))
    column.addWidget(field)
    return column


def say(of: QLabel, words: str) -> None:
    """Shows words; none take no room."""
    of.setText(words)
    of.setVisible(bool(words))
