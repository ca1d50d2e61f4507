"""The one way in: a command of the shell, or the window."""

import importlib
import sys

_FOR_SHELL = frozenset({"-h", "--help", "--version"})
_WITH_FOLDER = frozenset({"--data", "--draw"})
_UNUSABLE = 2


def main() -> int:
    """Runs the command named first on the command line; opens the window when there is none."""
    arguments = sys.argv[1:]
    is_word = bool(arguments) and not arguments[0].startswith("-")
    is_for_shell = is_word or not _FOR_SHELL.isdisjoint(arguments[:1])
    if not is_for_shell and (word := _stray_word(arguments)):
        sys.stderr.write(
            f"benchassist: The options beside '{word}' are the window's, which takes no "
            "command. See 'benchassist --help'.\n"
        )
        return _UNUSABLE
    # By name, so that the shell starts without Qt, and the window without what it needs later.
    face = importlib.import_module("benchassist.cli" if is_for_shell else "benchassist.ui.door")
    code: int = face.main(arguments)
    return code


def _stray_word(arguments: list[str]) -> str:
    """The first word among options of the window that is no option's folder; or nothing."""
    rest = iter(arguments)
    for argument in rest:
        if argument in _WITH_FOLDER:
            next(rest, None)
        elif not argument.startswith("-"):
            return argument
    return ""


if __name__ == "__main__":
    sys.exit(main())
