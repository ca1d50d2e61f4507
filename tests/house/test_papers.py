"""The papers beside the program say what is true."""

import ast
import os
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from benchassist.cli import main
from benchassist.ui.actions import ACTIONS

COMMAND = re.compile(r"(?m)^(?:\$ )?(python3 packaging/start\.py\b.*)$")
LINK = re.compile(r"\]\((?!https?:|#)([^)]+)\)")


def test_the_readme_has_two_commands_and_ci_ends_with_the_second(root: Path) -> None:
    readme = (root / "README.md").read_text(encoding="utf-8")
    commands = COMMAND.findall(readme)
    assert commands[:2] == ["python3 packaging/start.py", "python3 packaging/start.py test"]
    ci = (root / ".ci/run").read_text(encoding="utf-8").rstrip().splitlines()
    assert ci[0] == "#!/usr/bin/env bash"
    assert "set -euo pipefail" in ci
    assert ci[-1] == commands[1]


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such permission")
@pytest.mark.parametrize("script", [".ci/run", "packaging/start.py"])
def test_what_is_to_be_run_may_be_run(root: Path, script: str) -> None:
    assert os.access(root / script, os.X_OK)


@pytest.mark.parametrize("paper", ["README.md", "DEVELOPERS.md"])
def test_every_link_leads_to_a_file(root: Path, paper: str) -> None:
    links = LINK.findall((root / paper).read_text(encoding="utf-8"))
    assert [link for link in links if not (root / link.partition("#")[0]).exists()] == []


def test_developers_are_shown_files_that_exist(root: Path) -> None:
    text = (root / "DEVELOPERS.md").read_text(encoding="utf-8")
    named = re.findall(r"`((?:benchassist|tests|packaging|resources|\.ci)/[\w./-]+)`", text)
    assert named
    assert [path for path in named if not (root / path).exists()] == []


def test_developers_are_shown_the_floors_that_are_checked(root: Path) -> None:
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    layers = project["tool"]["importlinter"]["contracts"][0]["layers"]
    text = (root / "DEVELOPERS.md").read_text(encoding="utf-8")
    shown = dict(re.findall(r"(?m)^\| (\d) \| ((?:`\w+`(?:, )?)+) \|", text))
    checked = {
        # A room in brackets need not be there yet.
        str(floor): [room for room in re.split(r"[\s|]+", rooms) if "(" not in room]
        for floor, rooms in enumerate(reversed(layers), start=1)
    }
    assert {floor: re.findall(r"\w+", rooms) for floor, rooms in shown.items()} == checked


def test_the_readme_shows_every_command_of_the_shell_and_its_options(
    root: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def helped(*call: str) -> str:
        with pytest.raises(SystemExit):
            main([*call, "--help"])
        return capsys.readouterr().out

    readme = (root / "README.md").read_text(encoding="utf-8")
    shown = re.findall(r"(?m)^\| `benchassist (\w+)(.*?)` \|", readme)
    commands = re.findall(r"(?m)^    (\w+) ", helped())
    assert [name for name, _ in shown] == commands
    for name, rest in shown:
        known = helped(name)
        assert [option for option in re.findall(r"--\w+", rest) if option not in known] == []
    told = set(re.findall(r"`(--\w+)\b[^`]*`", readme))
    everywhere = helped() + "".join(helped(name) for name in commands)
    assert [option for option in sorted(told) if option not in everywhere] == []


def test_the_readme_shows_keys_that_the_window_knows(root: Path) -> None:
    readme = (root / "README.md").read_text(encoding="utf-8")
    known = {one.keys for one in ACTIONS} | {"Ctrl+1", "Ctrl+9"}
    keys = set(re.findall(r"\bCtrl\+(?:Shift\+)?[A-Z1-9]\b|\bF\d\b", readme))
    assert keys - known == set()


def pattern_of(text: ast.expr) -> str:
    """What a string of the program can say, as a pattern: anything where it is filled in."""
    if isinstance(text, ast.JoinedStr):
        return "".join(map(pattern_of, text.values))
    return re.escape(str(text.value)) if isinstance(text, ast.Constant) else ".+"


def names_of(function: ast.FunctionDef, name: str) -> Iterator[ast.expr]:
    """What a name stands for in a function: assigned, or first in each item of a loop."""
    for node in ast.walk(function):
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == name:
            yield node.value
        if isinstance(node, ast.For) and isinstance(node.iter, ast.Tuple):
            yield from (row.elts[0] for row in node.iter.elts if isinstance(row, ast.Tuple))


def measured(text: str) -> Iterator[str]:
    """Patterns of the names of the rows that a file of benches makes."""
    functions = [f for f in ast.walk(ast.parse(text)) if isinstance(f, ast.FunctionDef)]
    for function in functions:
        for node in ast.walk(function):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == "Row" and node.args:
                what = node.args[0]
                known = names_of(function, what.id) if isinstance(what, ast.Name) else [what]
                yield from map(pattern_of, known)


def test_the_readme_shows_every_row_of_the_speed_table_and_no_other(root: Path) -> None:
    readme = (root / "README.md").read_text(encoding="utf-8")
    rows = re.findall(r"(?m)^\| ([^|]+?) \| [\d.,]+ (?:ms|MB) \|", readme)
    files = ("packaging/bench.py", "packaging/bench_desk.py")
    wanted = {one for name in files for one in measured((root / name).read_text("utf-8"))}
    assert len(wanted) > 10
    assert [row for row in rows if not any(re.fullmatch(one, row) for one in wanted)] == []
    assert [one for one in wanted if not any(re.fullmatch(one, row) for row in rows)] == []
