"""The papers beside the program say what is true."""

import os
import re
from pathlib import Path

import pytest

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
