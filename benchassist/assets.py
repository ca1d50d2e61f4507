"""The one place that knows where the files of resources/ are."""

import sys
from pathlib import Path

from benchassist.wrong import BenchError


def resources() -> Path:
    """The resources folder, in a checkout, an installed wheel or a frozen program.

    Raises:
        BenchError: no such folder; the installation is damaged.
    """
    here = Path(__file__).resolve().parent
    frozen = Path(getattr(sys, "_MEIPASS", here)) / "resources"
    for folder in (here / "resources", here.parent / "resources", frozen):
        if folder.is_dir():
            return folder
    raise BenchError(
        "Benchassist cannot find its resources folder: the installation is damaged. "
        "Install it again; the jobs are kept in another place and are safe."
    )


def asset(*parts: str) -> Path:
    """The path of one file or folder below resources/.

    Raises:
        BenchError: it is not there; the installation is damaged.
    """
    path = resources().joinpath(*parts)
    if not path.exists():
        raise BenchError(
            f"The file resources/{'/'.join(parts)} is missing: the installation is damaged. "
            "Install Benchassist again; the jobs are kept in another place and are safe."
        )
    return path
