"""The one way in: a command of the shell, or the window."""

import importlib
import sys
from pathlib import Path

from benchassist import cli

_FOR_SHELL = (*cli.COMMANDS, "-h", "--help", "--version")


def main() -> int:
    """Runs the command named first on the command line; opens the window when there is none."""
    arguments = sys.argv[1:]
    if arguments and (arguments[0] in _FOR_SHELL or _is_unknown_word(arguments[0])):
        return cli.main(arguments)
    # By name, so that the commands of the shell start without Qt, and run where there is none.
    code: int = importlib.import_module("benchassist.ui.app").run(arguments)
    return code


def _is_unknown_word(argument: str) -> bool:
    """Whether it is neither an option of the window nor a file, and so a mistyped command."""
    return not argument.startswith("-") and not Path(argument).exists()


if __name__ == "__main__":
    sys.exit(main())
