"""Where the files of resources/ are, and how a file of tables is read."""

import sys
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

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


def read_toml(
    path: Path, what: str, parse_float: Callable[[str], Any] = float
) -> dict[str, Any]:
    """The table in a TOML file.

    Args:
        path: the file.
        what: the file as the sentence about it begins, such as 'The file en/fit.toml'.
        parse_float: what makes a number of a figure with a point.

    Raises:
        BenchError: it cannot be read, or it is no TOML.
    """
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"), parse_float=parse_float)
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise BenchError(f"{what} cannot be read: {error}.") from error
