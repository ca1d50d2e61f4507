"""Qt without a display, one look for all, and no window left behind."""

import os

os.environ["QT_QPA_PLATFORM"] = "offscreen"

from collections.abc import Iterator
from pathlib import Path

import pytest
import shiboken6
from PySide6.QtWidgets import QApplication, QWidget

from benchassist.records.demo import demo_files
from benchassist.store.files import load_job_file
from benchassist.ui.theme import Scheme, Theme
from tests.ui.workplace import Workplace, workplace_in


@pytest.fixture(params=list(Scheme))
def theme(qapp: QApplication, request: pytest.FixtureRequest) -> Theme:
    """The look, in each scheme in turn."""
    theme = Theme(request.param)
    theme.apply(qapp)
    return theme


@pytest.fixture
def light(qapp: QApplication) -> Theme:
    """The look in the light scheme, for tests that do not depend on the scheme."""
    theme = Theme(Scheme.LIGHT)
    theme.apply(qapp)
    return theme


@pytest.fixture
def workplace(light: Theme, tmp_path: Path) -> Iterator[Workplace]:
    """A window on an empty store."""
    with workplace_in(tmp_path, light) as made:
        yield made


@pytest.fixture
def full(workplace: Workplace) -> Workplace:
    """A window on a tray with every demo job."""
    for file in demo_files():
        workplace.put(load_job_file(file))
    workplace.shell.to_tray()
    return workplace


@pytest.fixture(autouse=True)
def no_window_left(qapp: QApplication) -> Iterator[None]:
    """Fails a test after which a new top-level widget is still alive and shown."""
    before = {id(widget) for widget in qapp.topLevelWidgets()}
    yield
    qapp.processEvents()
    left: list[QWidget] = [
        widget
        for widget in qapp.topLevelWidgets()
        if id(widget) not in before and widget.isVisible()
    ]
    assert not left, f"left behind: {left}"
    for widget in qapp.topLevelWidgets():
        if shiboken6.isValid(widget) and id(widget) not in before and not widget.parent():
            shiboken6.delete(widget)
