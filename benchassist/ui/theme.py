"""The look: colours, type, palette and the one style sheet."""

from dataclasses import asdict, dataclass
from enum import IntEnum, StrEnum
from pathlib import Path
from string import Template

import fontpkg_lato
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication

from benchassist.assets import asset
from benchassist.verdicts.finding import State


class Scheme(StrEnum):
    """Light or dark ground."""

    LIGHT = "light"
    DARK = "dark"


@dataclass(frozen=True, slots=True)
class Colours:
    """Each colour by what it is for, as '#rrggbb'.

    Text (`ink`, `ink_soft`, `accent` and the states) has a contrast of at least 4.5 to 1 on
    `paper`, `panel` and `raised`; `outline`, `frame_edge` and `lens_edge` at least 3 to 1.
    `line` is a hairline that only divides and carries no meaning. The states start from the
    colour-blind-safe set of Okabe and Ito, Color Universal Design, 2008
    (https://jfly.uni-koeln.de/color/), darkened or lightened until they can be read as text.
    """

    paper: str
    panel: str
    raised: str
    ink: str
    ink_soft: str
    line: str
    outline: str
    accent: str
    accent_soft: str
    on_accent: str
    lens: str
    lens_edge: str
    frame: str
    frame_edge: str
    frame_glow: str
    within: str
    close: str
    outside: str
    missing: str
    none: str
    caution_ground: str
    caution_bar: str
    instrument: str
    instrument_line: str
    instrument_soft: str

    def of_state(self, state: State) -> str:
        """The colour of a state."""
        return str(getattr(self, state.value))


LIGHT = Colours(
    paper="#f5f2eb",
    panel="#faf8f3",
    raised="#fffefb",
    ink="#1c2530",
    ink_soft="#565f68",
    line="#dfd9cd",
    outline="#857f73",
    accent="#0d5c6b",
    accent_soft="#d9e8e8",
    on_accent="#ffffff",
    lens="#e8f1f0",
    lens_edge="#6f8b8b",
    frame="#8a8174",
    frame_edge="#5a5248",
    frame_glow="#b5ada0",
    within="#00705a",
    close="#8a5a00",
    outside="#b0260f",
    missing="#59636d",
    none="#63676b",
    caution_ground="#fbf0d9",
    caution_bar="#b07400",
    instrument="#10202a",
    instrument_line="#bdf5cf",
    instrument_soft="#5f827b",
)

DARK = Colours(
    paper="#14191d",
    panel="#191f24",
    raised="#212a30",
    ink="#ede9e0",
    ink_soft="#aab2b6",
    line="#333d43",
    outline="#7b868d",
    accent="#63c3cf",
    accent_soft="#1d3f47",
    on_accent="#0c1a1e",
    lens="#1c2b31",
    lens_edge="#6d8b8e",
    frame="#857c70",
    frame_edge="#c9bfb0",
    frame_glow="#a89e90",
    within="#41c99f",
    close="#f2b544",
    outside="#ff8f78",
    missing="#9aa5ad",
    none="#949da3",
    caution_ground="#32291a",
    caution_bar="#d99a2b",
    instrument="#0b1419",
    instrument_line="#bdf5cf",
    instrument_soft="#5f827b",
)


class Size(IntEnum):
    """Sizes of type, in px at 100 %."""

    SMALL = 12
    CAPTION = 13
    BODY = 15
    LEAD = 17
    TITLE = 22
    READING = 30


class Theme(QObject):
    """Hands out the look in the chosen scheme; needs a QApplication.

    Signals:
        changed: another scheme was chosen and everything should be painted again.
    """

    changed = Signal()

    def __init__(self, scheme: Scheme = Scheme.LIGHT, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._scheme = scheme
        self._family = _load_family()

    @property
    def scheme(self) -> Scheme:
        """The scheme in use."""
        return self._scheme

    @property
    def colours(self) -> Colours:
        """The colours of the scheme in use."""
        return DARK if self._scheme is Scheme.DARK else LIGHT

    def set_scheme(self, scheme: Scheme) -> None:
        """Choose the scheme; `changed` follows only when it is another one."""
        if scheme is not self._scheme:
            self._scheme = scheme
            self.changed.emit()

    def state_colour(self, state: State) -> QColor:
        """The colour of a state."""
        return QColor(self.colours.of_state(state))

    def font(self, size: Size = Size.BODY, *, strong: bool = False) -> QFont:
        """The one family, in its regular or semi-bold weight, with digits of equal width."""
        font = QFont(self._family)
        font.setPixelSize(size)
        font.setWeight(QFont.Weight.DemiBold if strong else QFont.Weight.Normal)
        font.setFeature(QFont.Tag("tnum"), 1)
        return font

    def palette(self) -> QPalette:
        """The palette for what the style sheet does not reach."""
        colours = self.colours
        role = QPalette.ColorRole
        palette = QPalette()
        for roles, colour in (
            ((role.Window, role.AlternateBase), colours.paper),
            ((role.Base, role.Button, role.ToolTipBase), colours.raised),
            ((role.WindowText, role.Text, role.ButtonText, role.ToolTipText), colours.ink),
            ((role.PlaceholderText,), colours.ink_soft),
            ((role.Highlight, role.Link, role.LinkVisited, role.Accent), colours.accent),
            ((role.HighlightedText, role.BrightText), colours.on_accent),
            ((role.Mid, role.Dark), colours.outline),
            ((role.Light, role.Midlight, role.Shadow), colours.line),
        ):
            for each in roles:
                palette.setColor(each, QColor(colour))
        for each in (role.WindowText, role.Text, role.ButtonText):
            palette.setColor(QPalette.ColorGroup.Disabled, each, QColor(colours.none))
        return palette

    def stylesheet(self) -> str:
        """The style sheet of the scheme in use."""
        icons = {
            name: asset("icons", f"{name}-{self._scheme}.svg").as_posix()
            for name in ("chevron", "tick", "dot")
        }
        return Template(_SHEET).substitute(asdict(self.colours) | icons)

    def apply(self, app: QApplication) -> None:
        """Dress the whole application in the scheme in use."""
        app.setFont(self.font())
        app.setPalette(self.palette())
        app.setStyleSheet(self.stylesheet())


def _load_family() -> str:
    """The family of the font package, or the system's own where its files are missing."""
    files = Path(fontpkg_lato.ROOT) / "files"
    family = QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont).family()
    for name in ("Lato-SemiBold.ttf", "Lato-Regular.ttf"):
        number = QFontDatabase.addApplicationFont(str(files / name))
        family = next(iter(QFontDatabase.applicationFontFamilies(number)), family)
    return family


_SHEET = """
QMainWindow, QDialog { background: $paper; }
QToolTip { background: $raised; color: $ink; border: 1px solid $outline; padding: 6px 8px; }

QFrame[role="panel"] { background: $panel; border: none; }
QFrame[role="strip"] { background: $paper; border: none; border-bottom: 1px solid $line; }
QFrame[role="rail"] { background: $paper; border: none; border-right: 1px solid $line; }
QFrame[role="ask"] { background: $raised; border: none; border-top: 1px solid $line; }
QFrame[role="hint"] { background: $panel; border: none; border-left: 1px solid $line; }
QFrame[role="caution"] { background: $caution_ground; border: none; }
QFrame[role="caution"] { border-left: 4px solid $caution_bar; }
QFrame[role="line"] { background: $line; border: none; min-height: 1px; max-height: 1px; }

QLabel { background: transparent; color: $ink; }
QLabel[role="title"] { font-size: 22px; font-weight: 600; }
QLabel[role="lead"] { font-size: 17px; font-weight: 600; }
QLabel[role="heading"] { font-size: 15px; font-weight: 600; }
QLabel[role="caption"], QLabel[role="unit"] { font-size: 13px; color: $ink_soft; }
QLabel[role="sentence"] { font-size: 15px; color: $ink; }
QLabel[role="error"] { font-size: 13px; color: $outside; }
QLabel[verdict="outside"] { color: $outside; }
QLabel[verdict="close"] { color: $close; }
QLabel[role="accent"] { color: $accent; font-weight: 600; }
QLabel:disabled { color: $none; }

QLineEdit, QPlainTextEdit, QTextEdit, QComboBox, QDateEdit {
  background: $raised; color: $ink; border: 1px solid $outline; border-radius: 6px;
  padding: 6px 9px; selection-background-color: $accent; selection-color: $on_accent;
}
QLineEdit:focus, QPlainTextEdit:focus, QTextEdit:focus, QComboBox:focus, QDateEdit:focus {
  border: 2px solid $accent; padding: 5px 8px;
}
QLineEdit:disabled, QComboBox:disabled { background: $paper; color: $none; }
QLineEdit:read-only { background: $panel; border-color: $line; }
QLineEdit[role="reading"] {
  font-size: 30px; font-weight: 600; border-radius: 8px; padding: 5px 11px;
  qproperty-alignment: "AlignRight | AlignVCenter";
}
QLineEdit[role="reading"]:focus { padding: 4px 10px; }
QLineEdit[state="bad"] { border: 2px solid $outside; padding: 5px 8px; }
QLineEdit[role="reading"][state="bad"] { padding: 4px 10px; }

QPushButton {
  background: $raised; color: $ink; border: 1px solid $outline; border-radius: 6px;
  padding: 6px 15px; min-height: 22px;
}
QPushButton:hover { background: $accent_soft; }
QPushButton:pressed { border-color: $accent; }
QPushButton:focus { border: 2px solid $accent; padding: 5px 14px; }
QPushButton:disabled { background: $paper; color: $none; border-color: $line; }
QPushButton[role="primary"] {
  background: $accent; color: $on_accent; border: 1px solid $accent; font-weight: 600;
}
QPushButton[role="primary"]:focus { border: 2px solid $ink; }
QPushButton[role="primary"]:disabled { background: $paper; color: $none; border-color: $line; }
QPushButton[role="quiet"] {
  background: transparent; color: $accent; border: 1px solid transparent; padding: 6px 9px;
}
QPushButton[role="quiet"]:hover { background: $accent_soft; }
QPushButton[role="quiet"]:focus { border: 2px solid $accent; padding: 5px 8px; }
QPushButton[role="quiet"]:disabled { color: $none; }
QPushButton[role="choice"]:checked {
  background: $accent_soft; color: $ink; border: 2px solid $accent; font-weight: 600;
  padding: 5px 14px;
}
QPushButton[role="choice"]:checked:focus { border: 2px solid $ink; }

QCheckBox, QRadioButton { spacing: 8px; color: $ink; padding: 2px; border-radius: 4px; }
QCheckBox:focus, QRadioButton:focus { border: 2px solid $accent; padding: 0px; }
QCheckBox:disabled, QRadioButton:disabled { color: $none; }
QCheckBox::indicator, QRadioButton::indicator {
  width: 16px; height: 16px; background: $raised; border: 1px solid $outline;
}
QCheckBox::indicator { border-radius: 4px; }
QRadioButton::indicator { border-radius: 9px; }
QCheckBox::indicator:checked, QRadioButton::indicator:checked {
  background: $accent; border-color: $accent;
}
QCheckBox::indicator:checked { image: url("$tick"); }
QRadioButton::indicator:checked { image: url("$dot"); }
QCheckBox::indicator:disabled, QRadioButton::indicator:disabled { background: $line; }

QComboBox::drop-down { border: none; width: 24px; subcontrol-position: center right; }
QComboBox::down-arrow { image: url("$chevron"); width: 16px; height: 16px; }
QAbstractItemView {
  background: $raised; color: $ink; border: 1px solid $line; outline: none;
  selection-background-color: $accent_soft; selection-color: $ink;
}
QAbstractItemView:focus { border: 2px solid $accent; }
QListView::item { padding: 6px 8px; }
QAbstractItemView::item:selected { background: $accent_soft; color: $ink; }
QListView[role="rail"] { background: transparent; border: none; }
QHeaderView::section { background: $paper; color: $ink_soft; padding: 6px 8px; }
QHeaderView::section { border: none; border-bottom: 1px solid $line; }

QScrollArea { background: transparent; border: none; }
QScrollBar:vertical { background: transparent; width: 12px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 12px; margin: 0; }
QScrollBar::handle { background: $outline; border-radius: 4px; margin: 2px; }
QScrollBar::handle:vertical { min-height: 32px; }
QScrollBar::handle:horizontal { min-width: 32px; }
QScrollBar::handle:hover { background: $accent; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; border: none; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QSplitter::handle { background: $line; }
QSplitter::handle:hover { background: $accent; }
QMenu { background: $raised; color: $ink; border: 1px solid $outline; padding: 4px; }
QMenu::item { padding: 6px 24px 6px 12px; border-radius: 4px; }
QMenu::item:selected { background: $accent_soft; }
QMenu::separator { height: 1px; background: $line; margin: 4px 8px; }
"""
