"""Where the data of this machine's user lives."""

import os
import stat
import sys
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

import platformdirs

from benchassist.wrong import BenchError

VARIABLE = "BENCHASSIST_DATA"
"""The environment variable that moves the data folder."""


def data_folder(chosen: Path | None, environment: Mapping[str, str]) -> Path:
    """The folder of the jobs: the chosen one, else the environment's, else the user's own.

    Raises:
        BenchError: it begins with the name of a user who is not there.
    """
    if chosen is not None:
        return _absolute(chosen)
    if named := environment.get(VARIABLE, "").strip():
        return _absolute(Path(named))
    return platformdirs.user_data_path("benchassist", appauthor=False)


def _absolute(folder: Path) -> Path:
    try:
        return folder.expanduser().absolute()
    except RuntimeError as error:
        raise BenchError(
            f"The data folder {folder} cannot be found: there is no such user."
        ) from error


def private_folder(folder: Path) -> Path:
    """The folder, made when it was not there; for its owner alone where that can be had.

    Raises:
        BenchError: it cannot be made or is not a folder.
    """
    try:
        if not folder.exists():
            folder.parent.mkdir(parents=True, exist_ok=True)
            folder.mkdir(mode=0o700, exist_ok=True)
    except OSError as error:
        raise BenchError(
            f"The data folder {folder} cannot be made: {error.strerror}. "
            f"Choose another place with the environment variable {VARIABLE}."
        ) from error
    if not folder.is_dir():
        raise BenchError(
            f"The data folder {folder} is a file, not a folder. "
            f"Choose another place with the environment variable {VARIABLE}."
        )
    _keep_private(folder)
    return folder


def _keep_private(folder: Path) -> None:
    """Closes our own folder to others; one that is somebody else's or shared stays."""
    if sys.platform == "win32":
        return
    found = folder.stat()
    is_shared = found.st_mode & stat.S_ISVTX
    if found.st_uid == os.getuid() and found.st_mode & 0o077 and not is_shared:
        # Some disks know no owners: there is nothing to close then.
        with suppress(OSError):
            folder.chmod(0o700)
