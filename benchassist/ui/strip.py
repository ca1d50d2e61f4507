"""The top strip: which job, whose, which lenses, by which rules, and who is at the bench."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QWidget

from benchassist.guide.flow import Standing
from benchassist.job.order import Order
from benchassist.job.signoff import Person
from benchassist.limits.load import Limits
from benchassist.limits.rule import Evidence
from benchassist.ui.inputs import specs
from benchassist.ui.inputs.parsing import plain_text
from benchassist.ui.labels import text_label

_WIDEST = 320
"""The most room for the wearer, and for the lenses, px."""


class TopStrip(QFrame):
    """What the work is about, always in sight.

    Signals:
        tray_asked: back to the tray.
        person_asked: somebody else wants to work at the bench.
    """

    tray_asked = Signal()
    person_asked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "strip")
        self.setFixedHeight(56)
        self._job = text_label("lead", wraps=False)
        self._wearer = text_label("sentence", wraps=False)
        self._lenses = text_label("caption", wraps=False)
        self._rules = text_label("caption", wraps=False)
        self._modes = text_label("accent", wraps=False)
        self._person = _quiet("Who is at the bench")
        self._person.clicked.connect(self.person_asked)
        tray = _quiet("Tray")
        tray.clicked.connect(self.tray_asked)
        line = QHBoxLayout(self)
        line.setContentsMargins(16, 0, 16, 0)
        line.setSpacing(20)
        line.addWidget(tray)
        for label in (self._job, self._wearer, self._lenses):
            line.addWidget(label)
        line.addStretch(1)
        line.addWidget(self._modes)
        line.addWidget(self._rules)
        line.addWidget(self._person)

    def show_standing(self, standing: Standing) -> None:
        """Shows the job."""
        job = standing.job
        attempt = f", attempt {len(job.attempts)}" if len(job.attempts) > 1 else ""
        self._job.setText(f"Job {job.number}{attempt}")
        _fit(self._wearer, job.order.wearer)
        _fit(self._lenses, _lenses(job.order))

    def show_rules(self, limits: Limits) -> None:
        """Shows by which edition the job is judged, and whether the house has tightened it."""
        rule_set = limits.rule_set
        house = ", house rules" if _has_house_rules(limits) else ""
        self._rules.setText(f"limits: {rule_set.edition}{house}")
        known = (f"{rule_set.title}.", f"{rule_set.evidence}.", rule_set.caution)
        about = "\n".join(text for text in known if text)
        self._rules.setToolTip(about)
        self._rules.setAccessibleDescription(about)

    def show_modes(self, *, reads_first: bool, guarded: bool) -> None:
        """Shows what is switched on or off against the usual."""
        modes = ("read first" if reads_first else "", "" if guarded else "no guard band")
        self._modes.setText(", ".join(mode for mode in modes if mode))

    def show_person(self, person: Person) -> None:
        """Shows who is at the bench."""
        self._person.setText(f"{person.name}, {person.role}")


def _has_house_rules(limits: Limits) -> bool:
    """Whether any limit of the pair, or of the bench, is one of the house."""
    rows = (*limits.rules.rows, *limits.bench.rows)
    rules = (band.rule for row in rows for band in row.bands)
    return any(rule.evidence is Evidence.HOUSE or rule.off for rule in rules)


def _lenses(order: Order) -> str:
    """The lenses and the frame in a few words, such as 'progressive, 1.60, acetate 52□18'."""
    frame = order.frame
    index = plain_text(order.index, specs.index("")) if order.index else ""
    size = ""
    if frame.a is not None and frame.dbl is not None:
        millimetre = specs.millimetre("")
        size = f"A {plain_text(frame.a, millimetre)} DBL {plain_text(frame.dbl, millimetre)} mm"
    parts = (order.design or "", f"index {index}" if index else "", frame.material or "", size)
    return ", ".join(part for part in parts if part)


def _fit(label: QLabel, text: str) -> None:
    """Shows a text, cut with an ellipsis where it is too long and whole in its tooltip."""
    cut = label.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, _WIDEST)
    label.setText(cut)
    label.setToolTip(text if cut != text else "")


def _quiet(title: str) -> QPushButton:
    button = QPushButton(title)
    button.setProperty("role", "quiet")
    return button
