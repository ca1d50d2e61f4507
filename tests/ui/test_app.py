"""The composition root: from the door to the window, and what stands in the way."""

import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QMessageBox

from benchassist.store.jobs import JobStore
from benchassist.ui.app import UNUSABLE, run
from benchassist.ui.door import open_door
from benchassist.ui.draw import VIEWS
from benchassist.ui.theme import Scheme


def test_the_demo_is_drawn_into_files_where_there_is_no_display(
    qapp: QApplication, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(qapp, ["--demo", "--draw", str(tmp_path / "out")], None) == 0
    written = [Path(line) for line in capsys.readouterr().out.split()]
    assert len(written) == len(VIEWS) * len(Scheme)
    assert all(file.read_bytes().startswith(b"\x89PNG") for file in written)


_OPENING = """
import sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from benchassist import __main__

def look():
    print([type(one).__name__ for one in QApplication.topLevelWidgets() if one.isVisible()])
    for window in QApplication.topLevelWidgets():
        window.close()

def wait(app):
    QTimer.singleShot(0, look)
    return run()

run = QApplication.exec
QApplication.exec = wait
sys.argv = ["benchassist", "--data", sys.argv[1]]
sys.exit(__main__.main())
"""


def test_the_window_takes_the_place_of_the_door(tmp_path: Path) -> None:
    # In a process of its own: a QApplication whose loop has ended gives no focus any more.
    done = subprocess.run(
        [sys.executable, "-c", _OPENING, str(tmp_path / "data")],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout) == (0, "['Shell']\n"), done.stderr


def test_a_second_window_says_why_it_does_not_open(
    qapp: QApplication,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    told: list[str] = []
    monkeypatch.setattr(QMessageBox, "warning", lambda *args: told.append(args[2]))
    door = open_door(qapp)
    with JobStore(tmp_path / "data"):
        assert run(qapp, ["--data", str(tmp_path / "data")], door) == UNUSABLE
    assert "already open" in told[0]
    assert capsys.readouterr().err == f"{told[0]}\n"
    assert not door.isVisible()
