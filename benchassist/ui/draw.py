"""The window drawn into picture files, where there is no display."""

import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtWidgets import QApplication

from benchassist.guide.prompts import StepId
from benchassist.ui.extent import SMALLEST
from benchassist.ui.shell import Shell
from benchassist.ui.theme import Scheme, Theme
from benchassist.wrong import BenchError


@dataclass(frozen=True, slots=True)
class View:
    """One picture: its name, and how to get there from the tray."""

    name: str
    go: Callable[[Shell], object]


VIEWS = (
    View("tray", lambda shell: shell.to_tray()),
    View("order", lambda shell: shell.show_step(0, StepId.ORDER)),
    View("lens", lambda shell: shell.show_step(1, StepId.RIGHT)),
    View("frame", lambda shell: shell.show_step(2, StepId.BENCH)),
    View("record", lambda shell: shell.show_step(0, StepId.RECORD)),
)


def draw_window(shell: Shell, theme: Theme, folder: Path) -> int:
    """Draws the tray and some steps, light and dark, and prints where the pictures are.

    Raises:
        BenchError: a picture could not be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise BenchError(f"The folder {folder} cannot be made: {error.strerror}.") from error
    shell.resize(SMALLEST)
    shell.show()
    for scheme in Scheme:
        theme.set_scheme(scheme)
        for view in VIEWS:
            view.go(shell)
            QApplication.processEvents()
            target = folder / f"window-{view.name}-{scheme}.png"
            if not shell.grab().save(str(target)):
                raise BenchError(f"The picture {target} could not be written.")
            sys.stdout.write(f"{target}\n")
    shell.close()
    return 0
