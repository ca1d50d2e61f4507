"""Every prompt of every demo job: shown, nothing changed, every input named."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QApplication,
    QComboBox,
    QLineEdit,
    QWidget,
)

from benchassist.records.demo import demo_files
from benchassist.store.files import load_job_file
from tests.ui.workplace import Workplace


def nameless(root: QWidget) -> list[str]:
    """Widgets that take the focus and that a screen reader could not name."""
    return [
        f"{type(widget).__name__} {widget.objectName()}"
        for widget in root.findChildren(QWidget)
        if widget.isVisible()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not isinstance(widget, QAbstractScrollArea)
        and not widget.accessibleName()
        and not (isinstance(widget, QAbstractButton) and widget.text())
    ]


VARIED = tuple(file for file in demo_files() if file.name[0] in "1347")
"""A progressive, a bifocal, a strong single-vision and a prism pair: every prompt there is."""


@pytest.mark.parametrize("file", VARIED, ids=lambda file: file.stem)
def test_every_prompt_is_shown_and_changes_nothing(workplace: Workplace, file: Path) -> None:
    job = load_job_file(file)
    workplace.put(job)
    workplace.shell.open_job(job.number)
    journal = workplace.desk.session.journal
    for item in workplace.standing.prompts:
        workplace.shell.go_to(item.prompt.id)
        QApplication.processEvents()
        assert QApplication.focusWidget() is not None, item.prompt.id
        assert nameless(workplace.shell) == [], item.prompt.id
    assert workplace.desk.session.journal == journal
    assert workplace.job == job


def test_the_tab_key_goes_round_and_back(workplace: Workplace) -> None:
    job = load_job_file(demo_files()[0])
    workplace.put(job)
    workplace.shell.open_job(job.number)
    workplace.shell.go_to("right.distance")
    start = workplace.hands.focus
    seen = []
    for _ in range(40):
        workplace.hands.press(Qt.Key.Key_Tab)
        seen.append(workplace.hands.focus)
        if workplace.hands.focus is start:
            break
    assert seen[-1] is start
    kinds = (QLineEdit, QAbstractButton, QComboBox, QAbstractItemView)
    assert sum(isinstance(widget, kinds) for widget in seen) > 3
