"""The look: colours, type, palette and the filled-in style sheet."""

from dataclasses import asdict, dataclass
from enum import IntEnum, StrEnum
from pathlib import Path
from string import Template

import fontpkg_lato
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication

from benchassist.assets import asset
from benchassist.ui.stylesheet import SHEET
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
    close="#8f6200",
    outside="#9c1420",
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
        return Template(SHEET).substitute(asdict(self.colours) | icons)

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
