"""The floors: who may import whom, and that each module stands alone."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOM_BY_ROOM = """
import importlib, sys, traceback
room = ""
for name in sys.argv[1:]:
    if name.rpartition(".")[0] != room:
        room = name.rpartition(".")[0]
        for other in [o for o in sys.modules if o.partition(".")[0] == "benchassist"]:
            del sys.modules[other]
    try:
        importlib.import_module(name)
    except Exception:
        print(name, traceback.format_exc(limit=-1))
"""
"""Import each room with no other room of ours loaded before it, and print what fails.

Within a room the order cannot matter: no import goes in a circle.
"""

HEAVY = ("PySide6", "reportlab", "segno", "numpy")


def python(root: Path, *arguments: str) -> str:
    """What a fresh interpreter prints."""
    done = subprocess.run(
        [sys.executable, *arguments], cwd=root, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def module_of(path: str) -> str:
    """The name under which a file is imported."""
    return path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")


def test_every_import_goes_down(root: Path) -> None:
    command = shutil.which("lint-imports", path=Path(sys.executable).parent)
    assert command
    done = subprocess.run(
        [command, "--no-cache"], cwd=root, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout


def test_every_room_imports_alone(root: Path, program: dict[str, str]) -> None:
    modules = [module_of(path) for path in program if path.startswith("benchassist/")]
    assert python(root, "-c", ROOM_BY_ROOM, *modules) == ""


@pytest.mark.parametrize("module", ["benchassist.cli", "benchassist.verdicts.judge"])
def test_the_shell_starts_without_what_it_does_not_need(root: Path, module: str) -> None:
    code = f"import sys, {module}; print(*sorted(set({HEAVY}) & set(sys.modules)))"
    assert python(root, "-c", code).split() == []


def test_a_package_file_says_what_it_holds_and_nothing_else(program: dict[str, str]) -> None:
    for path, text in program.items():
        if path.endswith("__init__.py"):
            assert text.count('"""') == 2, path
            assert text.strip().startswith('"""'), path
            assert text.strip().endswith('"""'), path
