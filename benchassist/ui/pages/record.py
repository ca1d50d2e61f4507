"""The record page: what is out, what becomes of the pair, the names, the papers."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from benchassist.guide.flow import Standing
from benchassist.guide.prompts import Prompt
from benchassist.job.base import LONGEST_REMARK
from benchassist.job.document import Job
from benchassist.job.paths import with_value_at
from benchassist.job.signing import decide
from benchassist.job.signoff import Ask, Outcome, Signature, SignOff
from benchassist.people.roles import Act
from benchassist.records.return_slip import no_slip
from benchassist.ui.actions import Command
from benchassist.ui.inputs.segments import Segments
from benchassist.ui.inputs.several import SeveralInput
from benchassist.ui.inputs.text import TextInput
from benchassist.ui.labels import led_text, say, text_label
from benchassist.ui.pages.base import Page
from benchassist.ui.state_mark import StateMark
from benchassist.ui.theme import Theme
from benchassist.verdicts.diagnose.telling import SlipQuestion
from benchassist.verdicts.finding import Finding, State

_WIDEST = 1000
"""Beyond this a line is too long to be read at a glance, px."""

_PRESSING = (State.OUTSIDE, State.CLOSE)
_OUTCOMES = tuple((one.value, one.value.capitalize()) for one in Outcome)
_ACTS = (
    (Act.PREPARE, "Prepared by &me"),
    (Act.DISPENSE, "&Sign the outcome"),
    (Act.COUNTERSIGN, "&Countersign"),
    (Act.SEND_BACK, "Send &back"),
    (Act.NEW_ATTEMPT, "Back from the &lab: new attempt"),
)
_PAPERS = (
    (Command.EXPORT, "Write the &record as PDF"),
    (Command.SHEET, "Wearer's s&heet as PDF"),
    (Command.SLIP, "Return sli&p as PDF"),
)


class RecordPage(Page):
    """The end of a job.

    Signals:
        signed: the Act that the person wants to carry out.
        paper_asked: the Command that writes a paper as PDF.
    """

    signed = Signal(object)
    paper_asked = Signal(object)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._standing: Standing | None = None
        self._summary = text_label("sentence")
        self._pressing, self._slips, self._noted = _Listed(), _Listed(), _Listed()
        self._outcome = Segments(_OUTCOMES)
        self._outcome.chosen.connect(lambda key: self._propose("outcome", Outcome(key)))
        self._reason = TextInput("Reason, for anything but a plain release", LONGEST_REMARK)
        self._reason.value_changed.connect(lambda text: self._propose("reason", text))
        self._reason.finished.connect(self._leave_reason)
        self._asks = _Asks()
        self._asks.chosen.connect(self._ask_for)
        self._asks.finished.connect(self.next_asked)
        self._asks.stepped_back.connect(self._reason.setFocus)
        self._names = text_label("sentence")
        self._buttons = {act: _button(title) for act, title in _ACTS}
        self._refusals = {act: text_label("caption") for act in self._buttons}
        for act, button in self._buttons.items():
            button.clicked.connect(lambda _=False, a=act: self.signed.emit(a))
        self._problem = text_label("error")
        self._problem.hide()
        self._papers = _Papers()
        self._papers.asked.connect(self.paper_asked)
        self._lay_out()

    def _lay_out(self) -> None:
        inside = QWidget()
        inside.setMaximumWidth(_WIDEST)
        column = QVBoxLayout(inside)
        column.setContentsMargins(32, 24, 32, 24)
        column.setSpacing(12)
        column.addWidget(text_label("lead", "Before you sign", wraps=False))
        column.addWidget(self._summary)
        for listed in (self._pressing, self._slips, self._noted):
            column.addWidget(listed)
        column.addSpacing(8)
        column.addWidget(text_label("lead", "What becomes of the pair", wraps=False))
        column.addWidget(self._outcome)
        column.addWidget(self._reason)
        column.addWidget(self._asks)
        column.addSpacing(8)
        column.addWidget(text_label("lead", "Names", wraps=False))
        column.addWidget(self._names)
        grid = QGridLayout()
        grid.setSpacing(8)
        for row, (act, button) in enumerate(self._buttons.items()):
            grid.addWidget(button, row, 0)
            grid.addWidget(self._refusals[act], row, 1)
        grid.setColumnStretch(1, 1)
        column.addLayout(grid)
        column.addWidget(self._problem)
        column.addSpacing(8)
        column.addWidget(self._papers)
        column.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setWidget(inside)
        outside = QVBoxLayout(self)
        outside.setContentsMargins(0, 0, 0, 0)
        outside.addWidget(scroll)

    @override
    def show_standing(self, standing: Standing, prompt: Prompt) -> None:
        self._standing = standing
        signoff = standing.job.now.signoff
        self._summary.setText(_summary(standing))
        self._show_findings(standing)
        self._outcome.set_value(signoff.outcome or "")
        self._reason.set_value(signoff.reason)
        self._asks.show_signoff(signoff)
        self._names.setText(_names(signoff))
        self._papers.show_job(standing.job)

    def show_problem(self, sentence: str) -> None:
        """Shows why an act was not carried out."""
        say(self._problem, sentence)

    def show_acts(self, refusals: dict[Act, str]) -> None:
        """Shows which acts the person at the bench may carry out, and why not the others."""
        for act, button in self._buttons.items():
            refusal = refusals.get(act, "")
            button.setEnabled(not refusal)
            self._refusals[act].setText(refusal)

    def show_slips(self, asked: tuple[SlipQuestion, ...]) -> None:
        """Shows what may have happened where something is outside; none hides the part."""
        lines = [led_text(one.about, one.sentence) for one in asked]
        self._slips.show_lines("What may have happened (questions, not causes)", lines)

    def _show_findings(self, standing: Standing) -> None:
        pressing = [one for one in standing.findings if one.state in _PRESSING]
        noted = [one for one in standing.findings if one.is_told and one not in pressing]
        self._pressing.show_lines("", [self._line_of(standing, one) for one in pressing])
        self._noted.show_lines("Noted", [self._line_of(standing, one) for one in noted])

    def _line_of(self, standing: Standing, finding: Finding) -> QWidget:
        eye = f"{finding.eye.capitalize()} lens: " if finding.eye else ""
        title = f"{eye}{_title_of(standing, finding.prompt)}"
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(StateMark(self._theme, finding.state))
        row.addWidget(led_text(title, finding.sentence), 1)
        return line

    @override
    def take_focus(self) -> None:
        waits = self._standing is not None and self._standing.job.now.signoff.dispensed
        if waits and self._buttons[Act.COUNTERSIGN].isEnabled():
            self._buttons[Act.COUNTERSIGN].setFocus()
        else:
            self._outcome.focus_chosen()

    def _propose(self, field: str, value: object) -> None:
        if self._standing is not None:
            job = self._standing.job
            self.proposed.emit(job.with_now(with_value_at(job.now, f"signoff.{field}", value)))

    def _ask_for(self, asks: tuple[Ask, ...]) -> None:
        if self._standing is not None:
            job = self._standing.job
            signoff = job.now.signoff
            self.proposed.emit(decide(job, signoff.outcome, signoff.reason, asks))

    def _leave_reason(self) -> None:
        if self._asks.isVisible() and self._asks.isEnabled():
            self._asks.setFocus()
        else:
            self.next_asked.emit()


class _Asks(QWidget):
    """What the lab is asked for; shown while the pair goes back, fixed once that is signed.

    Signals:
        chosen: every Ask that is ticked, in their own order.
        finished: Enter was pressed.
        stepped_back: Shift+Enter was pressed.
    """

    chosen = Signal(tuple)
    finished = Signal()
    stepped_back = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._boxes = SeveralInput(tuple(one.value for one in Ask))
        self._boxes.value_changed.connect(
            lambda keys: self.chosen.emit(tuple(Ask(key) for key in keys))
        )
        self._boxes.finished.connect(self.finished)
        self._boxes.stepped_back.connect(self.stepped_back)
        self.setFocusProxy(self._boxes)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        asked = "What the lab is asked for, one or several"
        column.addWidget(text_label("caption", asked, wraps=False))
        column.addWidget(self._boxes)
        self.hide()

    def show_signoff(self, signoff: SignOff) -> None:
        """Shows what is asked for."""
        self._boxes.set_value(tuple(one.value for one in signoff.asks))
        self.setVisible(signoff.outcome is Outcome.RETURN)
        self.setEnabled(signoff.dispensed is None)


class _Papers(QWidget):
    """A button for each paper, and why a job has no return slip.

    Signals:
        asked: the Command that writes the paper.
    """

    asked = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._why = text_label("caption")
        self._buttons = {command: _button(title) for command, title in _PAPERS}
        self._buttons[Command.EXPORT].setProperty("role", "primary")
        line = QHBoxLayout()
        line.setSpacing(8)
        for command, button in self._buttons.items():
            button.clicked.connect(lambda _=False, one=command: self.asked.emit(one))
            line.addWidget(button)
        line.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(line)
        column.addWidget(self._why)

    def show_job(self, job: Job) -> None:
        """Shows which papers there are."""
        refusal = no_slip(job)
        self._buttons[Command.SLIP].setEnabled(not refusal)
        say(self._why, refusal)


class _Listed(QWidget):
    """Lines one below the other under a quiet heading; hidden while there are none."""

    def __init__(self) -> None:
        super().__init__()
        self._lines = QVBoxLayout(self)
        self._lines.setContentsMargins(0, 0, 0, 0)
        self._lines.setSpacing(6)
        self.hide()

    def show_lines(self, heading: str, lines: Sequence[QWidget]) -> None:
        """Shows these lines instead of those before, and the heading unless it is empty."""
        while taken := self._lines.takeAt(0):
            if (widget := taken.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        if heading and lines:
            self._lines.addWidget(text_label("caption", heading, wraps=False))
        for line in lines:
            self._lines.addWidget(line)
        self.setVisible(bool(lines))


def _title_of(standing: Standing, prompt_id: str) -> str:
    found = standing.prompt(prompt_id)
    return found.prompt.title if found else ""


def _summary(standing: Standing) -> str:
    outside = len(standing.outside)
    todo = standing.todo
    again = sum(one.state is State.CLOSE for one in standing.findings)
    parts = [
        f"{outside} outside" if outside else "nothing outside",
        f"{again} to read again" if again else "",
        f"{todo} still to do" if todo else "everything answered",
    ]
    return f"{', '.join(part for part in parts if part).capitalize()}."


def _names(signoff: SignOff) -> str:
    named = (
        ("Prepared by", signoff.prepared),
        ("Outcome signed by", signoff.dispensed),
        ("Countersigned by", signoff.countersigned),
        ("Sent back by", signoff.sent_back),
    )
    lines = [_signed(words, one) for words, one in named if one is not None]
    return "\n".join(lines) or "Nobody has put a name to this attempt yet."


def _signed(words: str, signature: Signature) -> str:
    when = f"{signature.at.astimezone():%d %b %Y, %H:%M}"
    remark = f": {signature.remark}" if signature.remark else ""
    return f"{words} {signature.person.name}, {signature.person.role}, {when}{remark}"


def _button(title: str) -> QPushButton:
    button = QPushButton(title)
    button.setAutoDefault(True)
    return button
