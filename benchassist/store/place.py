"""Where the data of this machine's user lives."""

from collections.abc import Mapping
from pathlib import Path

import platformdirs

from benchassist.wrong import BenchError

VARIABLE = "BENCHASSIST_DATA"
"""The environment variable that moves the data folder."""


def data_folder(chosen: Path | None, environment: Mapping[str, str]) -> Path:
    """The folder of the jobs: the chosen one, else the environment's, else the user's own."""
    if chosen is not None:
        return chosen.expanduser().absolute()
    if named := environment.get(VARIABLE, "").strip():
        return Path(named).expanduser().absolute()
    return platformdirs.user_data_path("benchassist", appauthor=False)


def private_folder(folder: Path) -> Path:
    """The folder, made for its owner alone when it was not there.

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
    return folder
