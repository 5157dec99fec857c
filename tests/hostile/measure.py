"""Reviews files one after the other, each in a process of its own, and prints what each cost, as JSON.

In a process between the tests and the reviews, since a child's peak of memory begins at that of the one that started it.
"""

# ruff: noqa: E501, PLW1509 -- its own process only sets a limit

import json
import os
import signal
import subprocess
import sys

SLOWEST_S = 20
"""Of CPU; past that a review is ended and counts as so long."""


def cost(command: list[str]) -> tuple[float, float, int]:
    """CPU seconds, MiB and status of a command, all of it counted: the interpreter, imports, reading, telling."""
    from resource import RLIMIT_CPU, setrlimit

    running = subprocess.Popen(
        command,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        preexec_fn=lambda: setrlimit(RLIMIT_CPU, (SLOWEST_S, SLOWEST_S + 1)),
    )
    _, status, usage = os.wait4(running.pid, 0)
    code = -signal.SIGXCPU if os.WIFSIGNALED(status) else os.waitstatus_to_exitcode(status)
    return usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, code


if __name__ == "__main__":
    told = [cost([sys.executable, "-m", "mashwright", "review", "--notes", path]) for path in sys.argv[1:]]
    print(json.dumps(told))
