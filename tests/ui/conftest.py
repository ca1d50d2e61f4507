"""Qt without a display, one look for all, and no window left behind."""

import os

os.environ["QT_QPA_PLATFORM"] = "offscreen"

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
import shiboken6
from PySide6.QtWidgets import QApplication, QWidget

from benchassist.job.journal import Journal
from benchassist.records.demo import demo_files
from benchassist.store.files import load_job_file
from benchassist.store.jobs import JobStore
from benchassist.ui.demo import OPTICIAN
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


@pytest.fixture(scope="session")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with every demo job, to be copied."""
    folder = tmp_path_factory.mktemp("filled")
    with JobStore(folder) as store:
        for file in demo_files():
            job = load_job_file(file)
            store.append(Journal.start(job, OPTICIAN, job.created).entries, job)
    return folder


@pytest.fixture
def full(light: Theme, tmp_path: Path, filled: Path) -> Iterator[Workplace]:
    """A window on a tray with every demo job."""
    shutil.copytree(filled, tmp_path / "data")
    with workplace_in(tmp_path, light) as made:
        yield made


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
