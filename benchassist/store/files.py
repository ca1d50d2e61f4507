"""Files written whole or not at all, and job files."""

import os
import tempfile
from pathlib import Path

from benchassist.job.document import Job
from benchassist.job.upgrade import read, write
from benchassist.wrong import BenchError

LARGEST_JOB_FILE = 20_000_000
"""Bytes: our own bound; a job with a thousand readings is well under a tenth of it."""


def write_whole(path: Path, content: bytes) -> None:
    """Puts the content on disk under this name, or leaves what was there; owner-only.

    Raises:
        BenchError: the disk is full, the folder is missing or may not be written.
    """
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        part = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            part.replace(path)
        except BaseException:
            part.unlink(missing_ok=True)
            raise
        settle_folder(path.parent)
    except OSError as error:
        raise BenchError(
            f"The file {path} could not be written: {error.strerror}. "
            "What was there before is unchanged."
        ) from error


def settle_file(file: Path) -> None:
    """Waits until the content of a file is on disk."""
    handle = os.open(file, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def settle_folder(folder: Path) -> None:
    """Makes a rename in the folder outlast a power cut, where the system offers that."""
    if os.name == "posix":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def save_job_file(path: Path, job: Job) -> None:
    """Writes a job file.

    Raises:
        BenchError: it could not be written; what was there before is unchanged.
    """
    write_whole(path, write(job).encode())


def load_job_file(path: Path) -> Job:
    """The job in a file.

    Raises:
        BenchError: missing, unreadable, too large, or not a job this program can read.
    """
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_JOB_FILE + 1)
    except OSError as error:
        raise BenchError(f"The file {path} cannot be read: {error.strerror}.") from error
    if len(content) > LARGEST_JOB_FILE:
        raise BenchError(f"The file {path} is too large to be a job file.")
    return read(content)
