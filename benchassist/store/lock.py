"""One window at a time: who holds the data folder."""

import json
import os
import platform
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from filelock import FileLock, Timeout

from benchassist.store.files import write_whole
from benchassist.wrong import BenchError


@contextmanager
def only_writer(folder: Path) -> Iterator[None]:
    """Holds the folder for this process; a killed process lets go of it by itself.

    Raises:
        BenchError: another window holds it, and since when; or the folder cannot be written or
            locked.
    """
    file = folder / "benchassist.lock"
    lock = FileLock(file, timeout=0, mode=0o600)
    try:
        lock.acquire()
    except Timeout as error:
        if not file.exists():
            raise BenchError(
                f"The data folder {folder} cannot be written: nothing can be made in it."
            ) from error
        raise BenchError(
            f"Benchassist is already open in another window{_holder(folder)}. "
            "Go on there, or close that window first."
        ) from error
    except (OSError, NotImplementedError) as error:
        raise BenchError(
            f"The data folder {folder} cannot be held for this window alone: {error}."
        ) from error
    try:
        _note(folder)
        yield
    finally:
        _note_file(folder).unlink(missing_ok=True)
        lock.release()


def _note_file(folder: Path) -> Path:
    return folder / "open-window.json"


def _note(folder: Path) -> None:
    who = {"computer": platform.node(), "process": os.getpid()}
    write_whole(_note_file(folder), json.dumps(who).encode())


def _holder(folder: Path) -> str:
    """Where and since when the folder is held, as part of a sentence; empty when not known."""
    try:
        note = _note_file(folder)
        who = json.loads(note.read_text("utf-8"))
        since = datetime.fromtimestamp(note.stat().st_mtime, UTC).astimezone()
        return f" on {who['computer']} since {since:%H:%M on %d %B %Y}"
    except (OSError, ValueError, TypeError, KeyError):
        return ""
