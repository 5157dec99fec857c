"""The command ``mashwright``, also as ``python -m mashwright``."""

# ruff: noqa: E402 -- nothing may be imported before the current folder is kept out
from mashwright.import_path import keep_out_here

keep_out_here()

import os
import signal
import sys
from typing import NoReturn


def main() -> NoReturn:
    """Run the command line; interrupted or with its pipe closed it ends quietly, by the signal."""
    try:
        from mashwright.cli.command import run

        _open_all()
        status = run(sys.argv[1:])
        sys.stdout.flush()
    except KeyboardInterrupt:
        _end_by("SIGINT")
    except BrokenPipeError:
        _end_by("SIGPIPE")
    except OSError as error:
        _drop_output()
        from mashwright.printable import complain

        complain(f"the results cannot be written: {error.strerror or error}")
        sys.exit(2)
    sys.exit(status)


def _open_all() -> None:
    """A standard stream that the caller has closed reads as empty, and takes what is written to it."""
    if sys.stdin is None:
        sys.stdin = open(os.devnull, encoding="utf-8")  # noqa: SIM115
    if sys.stdout is None:
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    if sys.stderr is None:
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115


def _drop_output() -> None:
    """What is still buffered for an output that takes no more would complain once more at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _end_by(name: str) -> NoReturn:
    """End as a process ends that does not catch the signal, so that a shell sees why."""
    _drop_output()
    number = getattr(signal, name, None)
    if number is not None and os.name == "posix":
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)
    sys.exit(130 if name == "SIGINT" else 141)


if __name__ == "__main__":
    main()
