"""The hint panel: picture, how, why, what a fault looks like, caution."""

from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from benchassist.guide.prompts import Prompt
from benchassist.limits.rule import Rule
from benchassist.ui.drawings.hint import HintPicture
from benchassist.ui.labels import say, text_label
from benchassist.ui.theme import Theme
from benchassist.verdicts.finding import Finding

_HEADINGS = (
    ("How", "how"),
    ("What a fault looks like", "fault"),
    ("Still good", "limit"),
    ("Why", "why"),
    ("How we know", "evidence"),
)


class HintPanel(QFrame):
    """Explains the present prompt to somebody who has never done it."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "hint")
        self.setFixedWidth(296)
        self.setAccessibleName("Hint")
        self._picture = HintPicture(theme)
        self._texts = {
            name: text_label("caption" if name == "evidence" else "sentence")
            for _, name in _HEADINGS
        }
        self._headings = {
            name: text_label("heading", title, wraps=False) for title, name in _HEADINGS
        }
        self._caution = _Caution()
        self._slips = text_label("sentence")
        self._slips_heading = text_label("heading", "What may have happened", wraps=False)
        self._rules = text_label("caption")
        self._rules_heading = text_label("heading", "Judged by", wraps=False)
        self._lay_out()

    def _lay_out(self) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(20, 24, 20, 24)
        column.setSpacing(8)
        column.addWidget(self._picture)
        column.addWidget(self._slips_heading)
        column.addWidget(self._slips)
        for _, name in _HEADINGS[:-1]:
            column.addWidget(self._headings[name])
            column.addWidget(self._texts[name])
            column.addSpacing(8)
        column.addWidget(self._caution)
        column.addSpacing(8)
        column.addWidget(self._rules_heading)
        column.addWidget(self._rules)
        column.addSpacing(8)
        column.addWidget(self._headings["evidence"])
        column.addWidget(self._texts["evidence"])
        column.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setWidget(inside)
        scroll.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)
        outside = QVBoxLayout(self)
        outside.setContentsMargins(0, 0, 0, 0)
        outside.addWidget(scroll)

    def show_prompt(self, prompt: Prompt, more_cautions: tuple[str, ...] = ()) -> None:
        """Shows the texts of a prompt, and cautions that follow from the materials."""
        self._picture.set_picture(prompt.picture)
        for _, name in _HEADINGS:
            text = str(getattr(prompt, name))
            say(self._texts[name], text)
            self._headings[name].setVisible(bool(text))
        cautions = [text for text in (prompt.caution, *more_cautions) if text]
        self._caution.set_text("\n\n".join(cautions))

    def show_slips(self, sentences: tuple[str, ...]) -> None:
        """Shows which simple slips would explain what is outside; none hides the part."""
        say(self._slips, "\n\n".join(sentences))
        self._slips_heading.setVisible(bool(sentences))

    def show_rules(self, findings: tuple[Finding, ...]) -> None:
        """Shows the rule behind each limit: title, edition, clause and how it is known."""
        rules = dict.fromkeys(one.rule for one in findings if one.rule is not None)
        say(self._rules, "\n\n".join(_rule_words(rule) for rule in rules))
        self._rules_heading.setVisible(bool(rules))


def _rule_words(rule: Rule) -> str:
    sources = "; ".join(source.title for source in rule.sources)
    note = f" {rule.note}" if rule.note else ""
    return (
        f"{rule.title}. {rule.edition}, row {rule.row}, {rule.clause}. "
        f"Evidence: {rule.evidence} ({sources}).{note}"
    )


class _Caution(QFrame):
    """A caution with a bar at its left."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("role", "caution")
        self._title = text_label("heading", "Caution", wraps=False)
        self._text = text_label("sentence")
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 10, 12, 10)
        column.setSpacing(4)
        column.addWidget(self._title)
        column.addWidget(self._text)

    def set_text(self, text: str) -> None:
        """Shows the caution; an empty one hides the frame."""
        self._text.setText(text)
        self.setVisible(bool(text))
