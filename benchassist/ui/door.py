"""The door: a plain window that is painted at once, while the program behind it is fetched."""

import importlib
import os

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QMainWindow

from benchassist.ui.extent import SMALLEST


def main(arguments: list[str]) -> int:
    """Opens the window and gives the exit code."""
    is_drawn = "--draw" in arguments
    if is_drawn:
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    app = QApplication(["benchassist"])
    app.setApplicationName("Benchassist")
    door = None if is_drawn else open_door(app)
    # By name, because what this loads takes several times as long as the door itself.
    code: int = importlib.import_module("benchassist.ui.app").run(app, arguments, door)
    return code


def open_door(app: QApplication) -> QMainWindow:
    """The door, painted."""
    door = QMainWindow()
    door.setWindowTitle("Benchassist")
    words = QLabel("Opening the tray …")
    words.setAlignment(Qt.AlignmentFlag.AlignCenter)
    door.setCentralWidget(words)
    door.resize(SMALLEST)
    door.show()
    app.processEvents()
    return door
