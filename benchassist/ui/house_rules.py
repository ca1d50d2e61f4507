"""The house rules of the workshop: which limits it tightens or does not judge, and why."""

from collections.abc import Mapping
from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QListWidget, QWidget

from benchassist.limits.house import HouseRule, HouseRuleError, HouseRules, with_house_rules
from benchassist.limits.reading import LimitsFile
from benchassist.limits.words import cell_words
from benchassist.ui.house_rule_form import HouseRuleForm
from benchassist.ui.labels import text_label
from benchassist.ui.raised import RaisedSheet, button

_PURPOSE = (
    "A workshop may ask for more than its rule set does, or leave a limit unjudged, with a "
    "reason that stands on every record. It cannot loosen one."
)
_LIST_HEIGHT = 136
"""Room for three rules of two lines, px."""

_NONE_YET = "None yet: every limit is that of its rule set."


class HouseRulesSheet(RaisedSheet):
    """The rules in force, and the form of one more.

    Signals:
        changed: the HouseRules as they are to be from now on; none of them loosens a limit.
    """

    changed = Signal(object)

    def __init__(
        self,
        house: HouseRules,
        tables: Mapping[str, LimitsFile],
        refusal: str | None,
        parent: QWidget | None = None,
    ) -> None:
        """Makes the sheet.

        Args:
            house: the rules in force.
            tables: the limits they may tighten, by id.
            refusal: why this person may only read them; None when they may be changed.
            parent: the window below.
        """
        super().__init__("House rules", "House rules", parent)
        self.setMinimumWidth(720)
        self._house = house
        self._tables = tables
        self._may_change = refusal is None
        self._list = QListWidget()
        self._list.setAccessibleName("House rules in force")
        self._list.setWordWrap(True)
        self._list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._list.setMinimumHeight(_LIST_HEIGHT)
        self._none_yet = text_label("caption", _NONE_YET)
        self._away = button("&Take this rule away", self._take_away)
        self._away.setAutoDefault(False)
        self._form = HouseRuleForm(tables)
        self._form.typed.connect(self._add)
        self._form.setVisible(self._may_change)
        purpose = text_label("sentence", _PURPOSE)
        for part in (purpose, self._list, self._none_yet, self._away):
            self.column.addWidget(part)
        if refusal:
            self.column.addWidget(text_label("sentence", refusal))
        self.column.addWidget(self._form)
        self._show_rules()

    def _show_rules(self) -> None:
        self._list.clear()
        self._list.addItems([self._words(rule) for rule in self._house.rules])
        has_some = bool(self._house.rules)
        self._list.setVisible(has_some)
        self._none_yet.setVisible(not has_some)
        self._away.setVisible(has_some and self._may_change)
        if has_some:
            self._list.setCurrentRow(len(self._house.rules) - 1)

    def _add(self, rule: HouseRule) -> None:
        if self._is_taken((*self._house.rules, rule)):
            self._form.clear()

    def _take_away(self) -> None:
        at = self._list.currentRow()
        rules = self._house.rules
        self._is_taken((*rules[:at], *rules[at + 1 :]))

    def _is_taken(self, rules: tuple[HouseRule, ...]) -> bool:
        """Whether these rules can hold; they are then shown and told to the window."""
        house = replace(self._house, rules=rules)
        try:
            with_house_rules(self._tables, house)
        except HouseRuleError as error:
            self._form.say(f"This rule {error}.")
            return False
        self._house = house
        self._show_rules()
        self.changed.emit(house)
        return True

    def _words(self, rule: HouseRule) -> str:
        file = self._tables.get(rule.rule_set)
        row = file.row(rule.row) if file else None
        if file is None or row is None:
            return f"{rule.rule_set}, {rule.row}"
        title = f"{file.title}, {row.id} {row.bands[0].rule.title}"
        meant = [band for band in row.bands if rule.spans and rule.spans == set(band.spans)]
        cell = f", {cell_words(meant[0])}" if meant else ""
        return f"{title}{cell}: {_instead(rule)}. Reason: {rule.reason}"


def _instead(rule: HouseRule) -> str:
    if rule.percent is not None:
        return f"{rule.percent.normalize():f} % of what the table allows"
    return "not judged" if rule.limit is None else f"{rule.limit} {rule.unit}"
