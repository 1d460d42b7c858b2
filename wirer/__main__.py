"""Decide which of the two faces is meant: the window, or a command.

``wirer [FILE...]`` opens the window; an option or a command's name goes to the command line.
Neither face is imported before it is known to be the one.
"""

import os
import sys
from pathlib import PurePath

NO_DISPLAY = (
    "wirer: there is no display to open a window on (neither DISPLAY nor WAYLAND_DISPLAY is set);"
    " what works without one is listed by: wirer --help"
)


def main() -> int:
    """Run ``wirer`` with the process's own arguments.

    Returns
    -------
    int
        The exit status of the window. A command ends the process with its own.
    """
    arguments = sys.argv[1:]
    if arguments and _means_command(arguments[0]):
        from wirer.command.main import cli

        cli(prog_name="wirer")
    if _lacks_display():
        print(NO_DISPLAY, file=sys.stderr)
        return 2
    from wirer.window.run import run

    return run(arguments)


def _means_command(word: str) -> bool:
    """Tell a command's name or an option from a file: a bare word that is no file is a command.

    So a mistyped command is answered by the command line, which knows the near names.
    """
    if word.startswith("-"):
        return True
    if PurePath(word).name != word or PurePath(word).suffix:
        return False
    from wirer.command.main import cli

    return word in cli.commands or not os.path.lexists(word)


def _lacks_display() -> bool:
    """Tell whether Qt would end the process for want of a display."""
    names = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    return sys.platform.startswith("linux") and not any(os.environ.get(name) for name in names)


if __name__ == "__main__":
    sys.exit(main())
