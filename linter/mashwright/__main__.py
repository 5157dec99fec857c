"""The command ``mashwright``, also as ``python -m mashwright``."""

import os
import signal
import sys
from typing import NoReturn


def main() -> NoReturn:
    """Run the command line; interrupted or with its pipe closed it ends quietly, by the signal."""
    from mashwright.cli.command import run

    try:
        status = run(sys.argv[1:])
        sys.stdout.flush()
    except KeyboardInterrupt:
        _end_by("SIGINT")
    except BrokenPipeError:
        _end_by("SIGPIPE")
    sys.exit(status)


def _end_by(name: str) -> NoReturn:
    """End as a process ends that does not catch the signal, so that a shell sees why."""
    # what is still buffered for a pipe that is closed would complain once more at exit
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    number = getattr(signal, name, None)
    if number is not None and os.name == "posix":
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)
    sys.exit(130 if name == "SIGINT" else 141)


if __name__ == "__main__":
    main()
