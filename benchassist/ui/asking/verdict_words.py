"""What is said beside an input: the verdict, where to ask further, and what is noted."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from benchassist.guide.flow import PromptStanding
from benchassist.guide.prompts import Prompt
from benchassist.ui.actions import ACTIONS, Command
from benchassist.ui.labels import text_label
from benchassist.ui.restyle import restyle
from benchassist.ui.state_mark import StateMark
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import Finding, State, worst

_METER = ".meter"
"""The end of the keys of what is told about the lens meter, which has a line of its own."""

_KEY = next(one.keys for one in ACTIONS if one.command is Command.HINT)
_ASKED = f"What may have happened: {_KEY}"


class VerdictWords(QWidget):
    """What is outside or to be read again; takes no room while there is nothing to say."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._verdict = text_label("sentence")
        self._verdict.hide()
        self._asked = text_label("caption")
        self._asked.setText(_ASKED)
        self._asked.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self._verdict)
        column.addWidget(self._asked)

    def show_findings(self, now: PromptStanding, *, keeps_quiet: bool) -> None:
        """Shows the worst, and how many more there are.

        With `keeps_quiet` nothing is said: the reading is to be taken unled.
        """
        told = [] if keeps_quiet else [_told(one, now.prompt) for one in _pressing(now)]
        more = f" And {len(told) - 1} more." if len(told) > 1 else ""
        self._verdict.setText(f"{told[0]}{more}" if told else "")
        self._verdict.setToolTip("\n".join(told))
        self._verdict.setVisible(bool(told))
        restyle(self._verdict, "verdict", worst([one.state for one in now.findings]).value)
        self._settle()

    def show_asked(self, *, is_asked: bool) -> None:
        """Shows by which key one finds what may have happened."""
        self._asked.setVisible(is_asked)
        self._settle()

    def _settle(self) -> None:
        self.setVisible(not (self._verdict.isHidden() and self._asked.isHidden()))


class Notes(QWidget):
    """What is told though nothing is asked for; takes no room while there is nothing."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._surface = text_label("caption")
        self._lines = QVBoxLayout()
        self._lines.setSpacing(4)
        self._noted: tuple[tuple[State, str], ...] = ()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self._surface)
        column.addLayout(self._lines)

    def show_notes(self, now: PromptStanding, surface: str, *, keeps_quiet: bool) -> None:
        """Shows with which surface an addition is read, and each finding that is to be told.

        With `keeps_quiet` the findings wait until the reading is in.
        """
        self._surface.setText(surface)
        self._surface.setVisible(bool(surface))
        noted = () if keeps_quiet else _noted(now, _pressing(now)[:1])
        if noted != self._noted:
            self._noted = noted
            self._show_lines()
        self.setVisible(bool(surface or noted))

    def _show_lines(self) -> None:
        while taken := self._lines.takeAt(0):
            if (line := taken.widget()) is not None:
                line.hide()
                line.deleteLater()
        for state, text in self._noted:
            self._lines.addWidget(_note(self._theme, state, text))


def _pressing(now: PromptStanding) -> tuple[Finding, ...]:
    """The findings in the worst state of an answered prompt, where that asks for something."""
    state = worst([one.state for one in now.findings])
    if not now.is_done or state not in {State.OUTSIDE, State.CLOSE}:
        return ()
    return tuple(one for one in now.findings if one.state is state)


def _noted(now: PromptStanding, said: Sequence[Finding]) -> tuple[tuple[State, str], ...]:
    """What is to be told besides what is said already, each with its state."""
    return tuple(
        (one.state, _told(one, now.prompt))
        for one in now.findings
        if one.is_told and one not in said and not one.key.endswith(_METER)
    )


def _told(finding: Finding, prompt: Prompt) -> str:
    """The sentence of a finding, with its eye where the prompt is about both."""
    eye = "" if finding.eye is None or prompt.eye else f"{finding.eye.capitalize()} lens: "
    return f"{eye}{finding.sentence}"


def _note(theme: Theme, state: State, text: str) -> QWidget:
    line = QWidget()
    row = QHBoxLayout(line)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(8)
    row.addWidget(StateMark(theme, state), 0, Qt.AlignmentFlag.AlignTop)
    label = text_label("caption")
    label.setText(f"Noted: {text}")
    row.addWidget(label, 1)
    return line
