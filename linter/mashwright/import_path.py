"""Keeps the current folder out of what the program imports: it is the folder under review, and nothing in it may run.

Python puts the current folder in front of everything where it is started with ``-m`` or ``-c``, and where PYTHONPATH
has an entry that is empty or counts from there. What it imports before the first line of a program (``sitecustomize``,
and with ``-m`` the package itself) no program can undo. Without such an entry, ``mashwright`` and ``python -P -m
mashwright`` never look there at all.

Imports nothing that is not loaded at every start of Python.
"""

import os
import sys


def keep_out_here() -> None:
    """Take the current folder out of the import path of this process, and of every Python that it starts."""
    try:
        here = os.getcwd()
    except OSError:  # it was deleted
        here = ""
    if not sys.flags.safe_path and sys.path[:1] == [here]:
        del sys.path[0]  # by -m
    entries = os.environ.get("PYTHONPATH", "").split(os.pathsep)
    absolute = [entry for entry in entries if os.path.isabs(entry)]
    if here:
        strays = {os.path.normpath(os.path.join(here, entry)) for entry in entries if not os.path.isabs(entry)}
        strays -= {os.path.normpath(entry) for entry in absolute}
        if "PYTHONPATH" in os.environ and not sys.flags.ignore_environment:
            sys.path[:] = [entry for entry in sys.path if os.path.normpath(entry) not in strays]
    sys.path[:] = [entry for entry in sys.path if os.path.isabs(entry)]
    os.environ["PYTHONSAFEPATH"] = "1"
    if absolute:
        os.environ["PYTHONPATH"] = os.pathsep.join(absolute)
    else:
        os.environ.pop("PYTHONPATH", None)
