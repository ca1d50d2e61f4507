#!/usr/bin/env python3
"""Set up Benchassist in this checkout, then open or test it; standard library only."""

# An older Python must be able to read this file, to say in a sentence that it is too old.
from __future__ import annotations

import ctypes
import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
OUT = ROOT / "out"
OLDEST_PYTHON = (3, 11)

USAGE = """\
Usage: python3 packaging/start.py [WORD] [ARGUMENTS]

  (no word)   set up, then open the window on a copy of the demo jobs;
              without a display, draw it into files instead
  test        set up, then pass the tests; ARGUMENTS go to pytest
  draw        set up, then draw the window and write the demo records into out/
  bench       set up, then measure the speed; --quick for small sizes
  confusion   set up, then judge simulated pairs; --help for its sizes
  blindfold   set up, then put simulated frames right; --help for its sizes
  setup       set up for development, and nothing else
"""

DRAWING_LIBRARIES = (
    ("libGL.so.1", "libgl1"),
    ("libEGL.so.1", "libegl1"),
    ("libxkbcommon.so.0", "libxkbcommon0"),
    ("libfontconfig.so.1", "libfontconfig1"),
    ("libdbus-1.so.3", "libdbus-1-3"),
    ("libglib-2.0.so.0", "libglib2.0-0"),
)
"""System libraries without which not even a file is drawn, and their Debian packages."""

WINDOW_LIBRARIES = (
    ("libxcb-cursor.so.0", "libxcb-cursor0"),
    ("libxcb-icccm.so.4", "libxcb-icccm4"),
    ("libxcb-keysyms.so.1", "libxcb-keysyms1"),
    ("libxcb-image.so.0", "libxcb-image0"),
    ("libxcb-render-util.so.0", "libxcb-render-util0"),
    ("libxcb-xkb.so.1", "libxcb-xkb1"),
    ("libxcb-shape.so.0", "libxcb-shape0"),
    ("libxcb-util.so.1", "libxcb-util1"),
    ("libxkbcommon-x11.so.0", "libxkbcommon-x11-0"),
)
"""System libraries that a window on an X display needs besides, and their Debian packages."""

DISK_FULL = "The disk is full: some 700 MB are needed. Make room, then start again."
CHANGED = "A package is not the one named in packaging/lock, so it was not installed."
NO_NETWORK = (
    "The network does not answer. It is needed once, for the first start; try again later."
)
NOT_ALLOWED = "The folder .venv cannot be written. Start as the person who owns this checkout."
NO_PACKAGE = "A package in packaging/lock does not exist for this computer or this Python."

CAUSES = (
    ("No space left on device", DISK_FULL),
    ("DO NOT MATCH THE HASHES", CHANGED),
    ("Temporary failure in name resolution", NO_NETWORK),
    ("Name or service not known", NO_NETWORK),
    ("Failed to establish a new connection", NO_NETWORK),
    ("timed out", NO_NETWORK),
    ("Cannot connect to proxy", NO_NETWORK),
    ("Network is unreachable", NO_NETWORK),
    ("Permission denied", NOT_ALLOWED),
    ("Access is denied", NOT_ALLOWED),
    ("Read-only file system", NOT_ALLOWED),
    ("No matching distribution found", NO_PACKAGE),
)
"""What Python or pip writes when it fails, and the sentence for it; the first match counts."""


class SetUpError(Exception):
    """The computer lacks something; the text is a sentence for the person."""


def check_python() -> None:
    """Refuse a Python that is too old.

    Raises:
        SetUpError: it is.
    """
    present = sys.version_info[:2]
    if present < OLDEST_PYTHON:
        raise SetUpError(
            "Benchassist needs Python {}.{} or newer; this is Python {}.{}. With a newer one, "
            "start again: python3.11 packaging/start.py".format(*OLDEST_PYTHON, *present)
        )


def has_display() -> bool:
    """Whether a window can be opened here."""
    if sys.platform in {"win32", "darwin"}:
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def missing_libraries(libraries: tuple[tuple[str, str], ...]) -> list[str]:
    """The Debian packages of those system libraries that the loader does not find."""
    missing = []
    for library, package in libraries:
        try:
            ctypes.CDLL(library)
        except OSError:
            missing.append(package)
    return missing


def add_system_packages(packages: list[str], purpose: str) -> None:
    """Install Debian packages as root; as anybody else, say which command would.

    Raises:
        SetUpError: they are not there and cannot be installed from here.
    """
    command = ["apt-get", "install", "--yes", "--no-install-recommends", *packages]
    if shutil.which("apt-get") is None:
        raise SetUpError(
            f"{purpose} needs system libraries that are missing. Debian calls them "
            f"{' '.join(packages)}; install what your system calls them, then start again."
        )
    wish = f"{purpose} needs system packages. Install them with: sudo {' '.join(command)}"
    if os.geteuid() != 0:
        raise SetUpError(wish)
    say(f"Installing {' '.join(packages)} ...")
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for step in (command, ["apt-get", "update"], command):
        done = subprocess.run(step, env=quiet, capture_output=True, text=True, check=False)
        if step is command and done.returncode == 0:
            return
    raise SetUpError(f"{wish}\napt-get said: {last_line(done.stderr or done.stdout)}")


def check_libraries(*, window: bool) -> None:
    """Make sure of the system libraries that Qt needs on Linux.

    Raises:
        SetUpError: some are missing and cannot be installed from here.
    """
    if not sys.platform.startswith("linux"):
        return
    on_x = window and bool(os.environ.get("DISPLAY"))
    missing = missing_libraries(DRAWING_LIBRARIES + (WINDOW_LIBRARIES if on_x else ()))
    if missing:
        add_system_packages(missing, "The window" if on_x else "Drawing")


def python_of(venv: Path) -> Path:
    """The interpreter inside a virtual environment."""
    return venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def is_sound(venv: Path) -> bool:
    """Whether the environment has an interpreter that runs and is of this Python's version."""
    ask = "import sys; print(*sys.version_info[:2], sys.prefix != sys.base_prefix)"
    try:
        answer = subprocess.run(
            [python_of(venv), "-I", "-c", ask], capture_output=True, text=True, check=False
        )
    except OSError:
        return False
    return answer.stdout.split() == [*map(str, sys.version_info[:2]), "True"]


def stamp(lock: Path) -> str:
    """What changes when the packages of a lock must be installed anew."""
    digest = hashlib.sha256(lock.read_bytes()).hexdigest()
    return f"{lock.stem} {digest}"


def set_up(lock_name: str) -> Path:
    """The interpreter of .venv with the packages of one lock in it, made or mended if need be.

    The list of what is installed is written last, so an environment without one is half made
    and is made anew. The lock for development holds all that the lock for running holds.

    Raises:
        SetUpError: something is missing.
    """
    venv, locks = ROOT / ".venv", ROOT / "packaging" / "lock"
    lock, installed = locks / f"{lock_name}.txt", venv / "installed.txt"
    whole = installed.exists() and is_sound(venv)
    if whole and stamp(lock) in installed.read_text(encoding="utf-8").splitlines():
        return python_of(venv)
    say("Setting up in .venv, once: some 300 MB from the network, half a minute to two.")
    try:
        if not whole:
            make_environment(venv)
        installed.unlink(missing_ok=True)
        install(python_of(venv), lock)
        done = [lock] if lock_name == "run" else [lock, locks / "run.txt"]
        installed.write_text("\n".join(map(stamp, done)), encoding="utf-8")
    except OSError as error:
        raise SetUpError(explain(str(error))) from error
    return python_of(venv)


def make_environment(venv: Path) -> None:
    """Make .venv without any package, in place of whatever is there.

    Raises:
        SetUpError: Python cannot make one here.
    """
    command = [sys.executable, "-m", "venv", "--clear", "--without-pip", str(venv)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode:
        raise SetUpError(explain(done.stdout + done.stderr))


def install(python: Path, lock: Path) -> None:
    """Install a lock, every package checked against its hash: with uv if there is one, or pip.

    Raises:
        SetUpError: it cannot be done; the sentence says why.
    """
    uv = shutil.which("uv")
    if uv:
        options = ["--quiet", "--require-hashes", "--requirement", str(lock)]
        command = [uv, "pip", "install", "--python", str(python), *options]
        if subprocess.run(command, capture_output=True, check=False).returncode == 0:
            return
    add_pip(python)
    options = [
        "--quiet",
        "--no-input",
        "--no-compile",
        "--retries=2",
        "--no-deps",
        "--require-hashes",
    ]
    command = [str(python), "-m", "pip", "install", *options, "--requirement", str(lock)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode:
        raise SetUpError(explain(done.stdout + done.stderr))


def add_pip(python: Path) -> None:
    """Put pip into the environment, from the copy that Python carries.

    Raises:
        SetUpError: this Python carries none.
    """
    if runs(python, "import pip") or runs(python, "import ensurepip; ensurepip.bootstrap()"):
        return
    if not (sys.platform.startswith("linux") and shutil.which("apt-get")):
        raise SetUpError("This Python has no ensurepip module: install a complete Python 3.11.")
    version = f"{sys.version_info[0]}.{sys.version_info[1]}"
    add_system_packages([f"python{version}-venv"], "Setting up")
    if not runs(python, "import ensurepip; ensurepip.bootstrap()"):
        raise SetUpError("This Python cannot install pip: install a complete Python 3.11.")


def runs(python: Path, code: str) -> bool:
    """Whether a line of Python runs through."""
    done = subprocess.run([python, "-I", "-c", code], capture_output=True, check=False)
    return done.returncode == 0


def explain(output: str) -> str:
    """The sentence for what an installer wrote when it failed."""
    for sign, sentence in CAUSES:
        if sign in output:
            return sentence
    return f"Setting up failed. The last word was: {last_line(output)}"


def last_line(output: str) -> str:
    """The last line that says something."""
    return next((line for line in reversed(output.splitlines()) if line.strip()), "nothing")


def say(sentence: str) -> None:
    """Tell the person, at once."""
    print(sentence, flush=True)


def run(python: Path, *arguments: str, offscreen: bool = False) -> int:
    """Run something in the environment, from the checkout; its exit status."""
    surroundings = {**os.environ, "PYTHONPATH": str(ROOT)}
    if offscreen:
        surroundings["QT_QPA_PLATFORM"] = "offscreen"
    return subprocess.run(
        [python, *arguments], cwd=ROOT, env=surroundings, check=False
    ).returncode


def open_window() -> int:
    """Open the window on a copy of the demo jobs, or draw it where there is no display."""
    if not has_display():
        say("There is no display here, so the window is drawn into files.")
        return draw()
    check_libraries(window=True)
    return run(set_up("run"), "-m", "benchassist", "--demo")


def draw() -> int:
    """Draw the window into PNG files and write the records of the demo jobs as PDF files."""
    check_libraries(window=False)
    python = set_up("run")
    status = run(python, "-m", "benchassist", "--demo", "--draw", str(OUT), offscreen=True)
    status = status or run(python, "-m", "benchassist", "demo", "--out", str(OUT))
    if status == 0:
        say(f"The window as pictures and the demo records as PDF files are in {OUT}")
    return status


def test(arguments: list[str]) -> int:
    """Pass the tests, without a display."""
    check_libraries(window=False)
    python = set_up("dev")
    workers = () if arguments else ("-n", "auto", "--dist", "worksteal")
    return run(python, "-m", "pytest", *workers, *arguments, offscreen=True)


def bench(arguments: list[str]) -> int:
    """Measure the speed, without a display."""
    check_libraries(window=False)
    return run(set_up("run"), "packaging/bench.py", *arguments, offscreen=True)


def confusion(arguments: list[str]) -> int:
    """Judge simulated pairs and say how often that goes wrong."""
    return run(set_up("run"), "packaging/confusion.py", *arguments)


def blindfold(arguments: list[str]) -> int:
    """Put simulated frames right and say how many corrections it takes."""
    return run(set_up("run"), "packaging/blindfold.py", *arguments)


def set_up_only() -> int:
    """Set up everything that development needs."""
    check_libraries(window=False)
    say(f"Ready: {set_up('dev')}")
    return 0


def do(word: str, rest: list[str]) -> int:
    """Do what the first word asks for; the exit status."""
    with_arguments = {
        "test": test, "bench": bench, "confusion": confusion, "blindfold": blindfold,
    }  # fmt: skip
    without = {"": open_window, "draw": draw, "setup": set_up_only}
    if word in with_arguments:
        return with_arguments[word](rest)
    if word in without and not rest:
        return without[word]()
    asked = word in {"-h", "--help"}
    print(USAGE, end="", file=sys.stdout if asked else sys.stderr)
    return 0 if asked else 2


def main(arguments: list[str]) -> int:
    """Check Python and do what the words ask for; the exit status."""
    try:
        check_python()
        return do(arguments[0] if arguments else "", arguments[1:])
    except SetUpError as error:
        print(error, file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
