"""The locks hold what pyproject.toml asks for, pinned and hashed."""

import re
import tomllib
from pathlib import Path

import pytest

PIN = re.compile(r"^([\w.-]+)==([\w.]+)(?: ; ([^\\]*\S))? \\$")
HASH = re.compile(r"^    --hash=sha256:[0-9a-f]{64}( \\)?$")
WISH = re.compile(r"^([\w.-]+)(==|>=)([\w.]+)$")


def plain(name: str) -> str:
    """A package's name as locks write it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def pins(lock: str) -> dict[str, set[str]]:
    """The versions of each package of a lock, one for each kind of computer or Python.

    Every line of it is a pin or a hash.
    """
    found: dict[str, set[str]] = {}
    hashed: set[tuple[str, str]] = set()
    name = version = ""
    for line in lock.splitlines():
        if pin := PIN.match(line):
            name, version = plain(pin[1]), pin[2]
            found.setdefault(name, set()).add(version)
        else:
            assert HASH.match(line), line
            hashed.add((name, version))
    assert hashed == {
        (name, version) for name, versions in found.items() for version in versions
    }
    return found


def is_met(sign: str, version: str, wished: str) -> bool:
    """Whether a version is the one wished, or at least it."""
    if sign == "==":
        return version == wished
    return [int(part) for part in version.split(".")] >= [int(p) for p in wished.split(".")]


@pytest.mark.parametrize(("lock", "extras"), [("run", ()), ("dev", ("dev",))])
def test_a_lock_holds_what_is_asked_for(root: Path, lock: str, extras: tuple[str, ...]) -> None:
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wishes = list(project["dependencies"])
    for extra in extras:
        wishes += project["optional-dependencies"][extra]
    found = pins((root / f"packaging/lock/{lock}.txt").read_text(encoding="utf-8"))
    for wish in wishes:
        asked = WISH.match(wish)
        assert asked, wish
        for version in found[plain(asked[1])]:
            assert is_met(asked[2], version, asked[3]), wish


def test_the_development_lock_holds_the_whole_running_lock(root: Path) -> None:
    run, dev = (
        (root / f"packaging/lock/{name}.txt").read_text(encoding="utf-8")
        for name in ("run", "dev")
    )
    assert pins(run).items() <= pins(dev).items()


def test_no_lock_that_records_addresses_is_kept(root: Path) -> None:
    assert not (root / "uv.lock").exists()
