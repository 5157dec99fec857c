"""The end of a run by a signal: SIGTERM and SIGHUP end it as an interrupt from the keyboard does, and no process of it
outlives the first one.

Imports nothing of ours.
"""

import signal
from contextlib import suppress
from types import FrameType
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

ENDING = ("SIGINT", "SIGTERM", "SIGHUP")
"""What asks a run to end; not every system has the last."""


class EndedError(BaseException):
    """A signal asked the run to end; no Exception, so that nobody takes it for a fault.

    Attributes:
        name: of the signal.
    """

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.name = name


def listen() -> None:
    """From now on SIGTERM and SIGHUP raise in the main thread, so that what is half written is cleared away.

    One that the caller had ignored, as nohup does, stays ignored.
    """
    for name in ENDING[1:]:
        number = getattr(signal, name, None)
        if number is not None and signal.getsignal(number) is signal.SIG_DFL:
            with suppress(ValueError):  # not the main thread, which alone gets signals
                signal.signal(number, _end)


def _end(number: int, _frame: FrameType | None) -> NoReturn:
    raise EndedError(signal.Signals(number).name)


def heed_no_more() -> None:
    """Such a signal ends the process at once again, as where a run is on its last way out."""
    for name in ENDING:
        number = getattr(signal, name, None)
        if number is not None and callable(signal.getsignal(number)):
            with suppress(ValueError):
                signal.signal(number, signal.SIG_DFL)


_over = False
"""Whether nobody wants an answer from this process any more."""


def is_over() -> bool:
    """Whether the first process has said that nobody waits for what this one does."""
    return _over


def begin_worker(asked: "Connection") -> None:
    """In a process that works for the first one: leave signals to that one, and end when it has ended, however.

    SIGTERM ends it, since with that the first one does away with the others where one of them has failed.

    Args:
        asked: can be read from as soon as nobody waits for this process any more; it is left unread for the others.
    """
    for name in ENDING:
        number = getattr(signal, name, None)
        if number is not None:
            # one from the keyboard or of a terminal that is closed reaches all; each would complain
            signal.signal(number, signal.SIG_DFL if name == "SIGTERM" else signal.SIG_IGN)
    from multiprocessing import parent_process
    from threading import Thread

    if (parent := parent_process()) is not None:
        Thread(target=_heed, args=(parent.sentinel, asked), daemon=True).start()


def _heed(sentinel: int, asked: "Connection") -> None:
    """Wait until the first process asks for no more, or is there no more, which closes its end of a pipe."""
    global _over  # noqa: PLW0603  (one thread for the whole process)
    import os
    from multiprocessing.connection import wait

    with suppress(OSError):  # this process is ending by itself
        if sentinel not in wait([sentinel, asked]):
            _over = True
            wait([sentinel])
        os._exit(1)
