"""The start script: what it makes, mends and says."""

import ast
import importlib.util
import os
import sys
from pathlib import Path
from types import ModuleType

import pytest


@pytest.fixture
def start(root: Path) -> ModuleType:
    """The start script as a fresh module."""
    spec = importlib.util.spec_from_file_location("start", root / "packaging/start.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def checkout(start: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty checkout with two locks."""
    locks = tmp_path / "packaging/lock"
    locks.mkdir(parents=True)
    (locks / "run.txt").write_text("one==1 \\\n")
    (locks / "dev.txt").write_text("one==1 \\\ntwo==2 \\\n")
    monkeypatch.setattr(start, "ROOT", tmp_path)
    return tmp_path


@pytest.fixture
def installed(start: ModuleType, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The locks that were installed, in turn; nothing is fetched."""
    done: list[str] = []
    monkeypatch.setattr(start, "install", lambda _python, lock: done.append(lock.stem))
    return done


def test_it_needs_nothing_but_python(root: Path) -> None:
    text = (root / "packaging/start.py").read_text(encoding="utf-8")
    for node in ast.walk(ast.parse(text, feature_version=(3, 8))):
        if isinstance(node, ast.Import):
            assert {name.name for name in node.names} <= sys.stdlib_module_names
        if isinstance(node, ast.ImportFrom):
            assert node.module in sys.stdlib_module_names


def test_the_second_start_installs_nothing(
    start: ModuleType, checkout: Path, installed: list[str]
) -> None:
    python = start.set_up("run")
    assert start.set_up("run") == python
    assert python.is_relative_to(checkout / ".venv")
    assert installed == ["run"]


def test_the_tests_packages_serve_the_program_too(
    start: ModuleType, checkout: Path, installed: list[str]
) -> None:
    start.set_up("dev")
    start.set_up("run")
    assert installed == ["dev"]
    assert start.is_sound(checkout / ".venv")


def test_a_changed_lock_is_installed_into_the_same_environment(
    start: ModuleType, checkout: Path, installed: list[str]
) -> None:
    start.set_up("run")
    kept = checkout / ".venv/kept"
    kept.touch()
    (checkout / "packaging/lock/run.txt").write_text("one==2 \\\n")
    start.set_up("run")
    assert installed == ["run", "run"]
    assert kept.exists()


def test_a_half_made_environment_is_made_anew(
    start: ModuleType, checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def cut_short(python: Path, _lock: Path) -> None:
        (python.parent / "half").touch()
        raise start.SetUpError(start.NO_NETWORK)

    monkeypatch.setattr(start, "install", cut_short)
    with pytest.raises(start.SetUpError, match="network"):
        start.set_up("run")
    half = start.python_of(checkout / ".venv").parent / "half"
    assert half.exists()
    monkeypatch.setattr(start, "install", lambda _python, _lock: None)
    start.set_up("run")
    assert not half.exists()


@pytest.mark.skipif(os.name == "nt", reason="links need a right of their own on Windows")
def test_an_environment_whose_python_is_gone_is_made_anew(
    start: ModuleType, checkout: Path, installed: list[str]
) -> None:
    python = start.set_up("run")
    python.unlink()
    python.symlink_to(checkout / "no-such-python")
    assert not start.is_sound(checkout / ".venv")
    assert start.is_sound(start.set_up("run").parent.parent)
    assert installed == ["run", "run"]


def test_a_file_in_place_of_the_environment_gets_a_sentence(
    start: ModuleType, checkout: Path, installed: list[str]
) -> None:
    (checkout / ".venv").write_text("not a folder")
    with pytest.raises(start.SetUpError, match="Setting up failed"):
        start.set_up("run")
    assert installed == []


def test_every_cause_of_failure_has_its_sentence(start: ModuleType) -> None:
    for sign, sentence in start.CAUSES:
        assert start.explain(f"WARNING: first\nERROR: {sign} (x)\n") == sentence
    assert start.explain("one\ntwo\n\n").endswith("The last word was: two")


def test_an_old_python_gets_a_sentence(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start, "OLDEST_PYTHON", (99, 0))
    assert start.main([]) == 2
    assert capsys.readouterr().err.startswith("Benchassist needs Python 99.0 or newer")


@pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="Linux has a choice of displays"
)
def test_a_display_is_one_that_is_named(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    assert not start.has_display()
    monkeypatch.setenv("DISPLAY", ":0")
    assert start.has_display()


def test_a_missing_system_library_is_found_out(start: ModuleType) -> None:
    assert start.missing_libraries((("libnosuchthing.so.7", "libnosuchthing7"),)) == [
        "libnosuchthing7"
    ]


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="only Unix knows root")
def test_who_may_not_install_is_told_the_command(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(start.os, "geteuid", lambda: 1000)
    monkeypatch.setattr(start.shutil, "which", lambda name: name)
    with pytest.raises(start.SetUpError, match=r"sudo apt-get install .* libegl1 libgl1$"):
        start.add_system_packages(["libegl1", "libgl1"], "Drawing")
    monkeypatch.setattr(start.shutil, "which", lambda _name: None)
    with pytest.raises(start.SetUpError, match="what your system calls them"):
        start.add_system_packages(["libegl1"], "Drawing")


@pytest.mark.parametrize(
    ("words", "status"), [(["--help"], 0), (["tset"], 2), (["draw", "more"], 2)]
)
def test_words_it_does_not_know_get_the_usage(
    start: ModuleType, words: list[str], status: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert start.main(words) == status
    shown = capsys.readouterr()
    assert (shown.out if status == 0 else shown.err).startswith(
        "Usage: python3 packaging/start.py"
    )
