"""The files that the house rules are about, and the scripts beside the program."""

import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

NOT_OURS = {"__pycache__", "build", "dist", "out"}
"""Folders that tools make; like every hidden folder but .ci, nobody writes in them."""

TEXT = {".py", ".toml", ".md", ".txt", ".json", ".svg", ".ts", ".sh", ""}


def is_ours(folder: Path) -> bool:
    """Whether people write in a folder."""
    hidden = folder.name.startswith(".") and folder.name != ".ci"
    return not hidden and folder.name not in NOT_OURS


def files_below(folder: Path) -> Iterator[Path]:
    """Every file that somebody wrote, in a fixed order."""
    for path in sorted(folder.iterdir()):
        if path.is_file():
            yield path
        elif is_ours(path):
            yield from files_below(path)


@pytest.fixture(scope="session")
def root() -> Path:
    """The checkout."""
    return Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def texts(root: Path) -> dict[str, str]:
    """Every text file of the project: its path from the checkout, and what it says."""
    return {
        path.relative_to(root).as_posix(): path.read_text(encoding="utf-8")
        for path in files_below(root)
        if path.suffix in TEXT
    }


@pytest.fixture(scope="session")
def program(texts: dict[str, str]) -> dict[str, str]:
    """The Python files of the program and of its packaging."""
    return {
        path: text
        for path, text in texts.items()
        if path.startswith(("benchassist/", "packaging/")) and path.endswith(".py")
    }


@pytest.fixture
def simulated(root: Path) -> Callable[..., str]:
    """Runs a simulation of packaging/: what it prints, without the time it took."""

    def run(script: str, *options: str) -> str:
        done = subprocess.run(
            [sys.executable, str(root / "packaging" / script), *options],
            cwd=root,
            env={"PYTHONPATH": str(root)},
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout.rstrip().rpartition("\n")[0]

    return run
