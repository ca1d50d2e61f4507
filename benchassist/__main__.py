"""The one way in: a command of the shell, or the window."""

import importlib
import sys

_FOR_SHELL = frozenset({"-h", "--help", "--version"})


def main() -> int:
    """Runs the command named first on the command line; opens the window when there is none."""
    arguments = sys.argv[1:]
    is_word = bool(arguments) and not arguments[0].startswith("-")
    is_for_shell = is_word or not _FOR_SHELL.isdisjoint(arguments[:1])
    # By name, so that the shell starts without Qt, and the window without what it needs later.
    face = importlib.import_module("benchassist.cli" if is_for_shell else "benchassist.ui.door")
    code: int = face.main(arguments)
    return code


if __name__ == "__main__":
    sys.exit(main())
