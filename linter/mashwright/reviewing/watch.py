"""Keeps watch while rules are at work: over their time, what they raise, and the state of the process they share.

Rules are programs that somebody installed and trusts: this is against mistakes, not against malice. Time is told by an
alarm that ticks ten times in the time allowed and charges whoever is at work, so that a run costs one timer, a rule
nothing, and a machine that slept is not held against anybody. Where there is no such alarm (another system, another
thread, somebody else's alarm) a second thread ticks; it cannot end a rule that waits in a call of the system.
"""

import _thread
import os
import signal
import sys
from contextlib import suppress
from math import inf
from types import FrameType
from typing import Any, Self

from mashwright import budgets
from mashwright.signals import ENDING

_TICKS = 10
_AGAIN_S = (0.05, 0.005, 0.0005, 0.0001)
"""After which a rule that has swallowed the end of its time is told again; the last of them over and over, since a bare
``except`` can only be passed where it does not stand."""
_GUARDS = {f"mashwright.reviewing.{name}" for name in ("guard", "in_step", "together", "watch")}
"""Modules that have the rule's end in hand already when they are met."""


class OvertimeError(BaseException):
    """Raised inside a rule whose time is over; no Exception, so that a rule does not catch it by mistake."""

    def __str__(self) -> str:
        """For the place where it is not told by a rule's name."""
        return "not through in time"


class Watch:
    """Watches over whatever is at work within a ``with``, one recipe after the other.

    Args:
        strangers: whether rules of others are at work, which may raise and change anything.
        seconds: allowed to each rule for one recipe, and to the program itself; else as budgeted.

    Attributes:
        at: id of the rule at work; "" where it is the program itself, None where nobody is.
        overdue: on how many recipes each rule was not through in time.
    """

    __slots__ = (
        *("_alarm", "_asked", "_handlers", "_here", "_spent", "_thread", "_ticks", "_told"),
        *("at", "overdue", "seconds", "strangers"),
    )

    def __init__(self, *, strangers: bool, seconds: float | None = None) -> None:
        self.at: str | None = None
        self.overdue: dict[str, int] = {}
        self.seconds = seconds or budgets.RULE_SECONDS
        self.strangers = strangers
        self._spent: dict[str, int] = {}
        self._handlers: dict[int, Any] = {}
        self._asked: int | None = None
        self._alarm: Any = None
        self._thread = 0
        self._told = 0
        self._ticks: float = _TICKS
        self._here: tuple[str, int] = ("", 0)

    def __enter__(self) -> Self:
        """Take up the watch."""
        if self.strangers:
            self._listen()
        if self.seconds < inf and not self._takes_alarm():
            self._thread = _patrolled(self)
        return self

    def __exit__(self, *_: object) -> None:
        """Give everything back."""
        self.at = None
        if self._thread:
            _off_patrol(self._thread)
        with suppress(ValueError):  # given up half done, and closed by another thread
            if self._alarm is not None:
                signal.setitimer(signal.ITIMER_REAL, 0)
                signal.signal(signal.SIGALRM, self._alarm)
            for number, handler in self._handlers.items():
                signal.signal(number, handler)

    def begin(self, times: float = 1.0) -> None:
        """A recipe begins, or something that may take so many times as long: everybody has all the time again."""
        self._spent.clear()
        self._ticks = _TICKS * times
        if self.strangers:
            self._here = _where_we_are()
        self.at = ""

    def resume(self, spent: dict[str, int]) -> None:
        """A recipe goes on that was left alone for a while, or is to begin.

        Args:
            spent: what each rule has spent on it; filled from now on.
        """
        self._spent = spent
        self.at = ""

    def pause(self) -> None:
        """A recipe is left alone for a while."""
        self.at = None

    @property
    def is_alarm(self) -> bool:
        """Whether an alarm of the system tells the time, so that a rule's end never comes up in our own hands."""
        return self._alarm is not None

    def rest(self) -> None:
        """A recipe is through.

        Raises:
            BaseException: what the handler of a signal raises that a rule has swallowed; mostly a KeyboardInterrupt.
        """
        self.at = None
        if self.strangers:
            self.put_back()
            for number in self._handlers:
                signal.signal(number, self._heard)
            if self._alarm is not None:
                signal.signal(signal.SIGALRM, self._tick)
                self._wind()
            self._ask_again()

    def contains(self, error: BaseException) -> bool:
        """Whether what was raised is the affair of the rule at work; if not it must go on up.

        Raises:
            BaseException: as by ``rest``.
        """
        self.at = ""
        if isinstance(error, OvertimeError) and self._alarm is not None:
            self._wind()
        self._ask_again()
        return self.strangers or isinstance(error, (Exception, SystemExit, OvertimeError))

    def left_out(self, rule_id: str) -> bool:
        """Whether a rule has been too slow so often that it is asked no more."""
        return self.overdue.get(rule_id, 0) >= budgets.OVERDUE_RECIPES

    def put_back(self) -> str:
        """Undo what a rule has changed of the process; what that was, or ""."""
        folder, depth = self._here
        changed = ""
        if sys.getrecursionlimit() != depth:
            sys.setrecursionlimit(depth)
            changed = "sys.setrecursionlimit"
        if _where_we_are()[0] != folder:
            with suppress(OSError):
                os.chdir(folder)
            changed = "os.chdir"
        return changed

    def late(self) -> bool:
        """Charge who is at work with one tick more; whether that is past all the time it had."""
        if self.at is None:
            return False
        spent = self._spent[self.at] = self._spent.get(self.at, 0) + 1
        return spent > self._ticks

    def _takes_alarm(self) -> bool:
        try:
            if signal.getitimer(signal.ITIMER_REAL)[0]:
                return False
            self._alarm = signal.signal(signal.SIGALRM, self._tick) or signal.SIG_DFL
        except (AttributeError, ValueError):  # a system without alarms; a thread that gets no signals
            return False
        self._wind()
        return True

    def _wind(self) -> None:
        self._told = 0
        tick = self.seconds / _TICKS
        signal.setitimer(signal.ITIMER_REAL, tick, tick)

    def _tick(self, _number: int, frame: FrameType | None) -> None:
        if self.late() and frame is not None and frame.f_globals.get("__name__") not in _GUARDS:
            again = _AGAIN_S[min(self._told, len(_AGAIN_S) - 1)]
            self._told += 1
            signal.setitimer(signal.ITIMER_REAL, again, again)
            raise OvertimeError

    def _listen(self) -> None:
        """Take note of signals that end a run, so that a rule's own KeyboardInterrupt is not taken for one."""
        for name in ENDING:
            number = getattr(signal, name, None)
            handler = signal.getsignal(number) if number is not None else None
            if number is not None and callable(handler):
                try:
                    signal.signal(number, self._heard)
                except ValueError:  # not the main thread, which alone gets signals
                    return
                self._handlers[number] = handler

    def _heard(self, number: int, frame: FrameType | None) -> None:
        self._asked = number
        self._handlers[number](number, frame)

    def _ask_again(self) -> None:
        number, self._asked = self._asked, None
        if number is not None:
            self._handlers[number](number, None)


def _where_we_are() -> tuple[str, int]:
    try:
        return os.getcwd(), sys.getrecursionlimit()
    except OSError:
        return "", sys.getrecursionlimit()


_patrol: dict[int, Watch] = {}
_LOCK = _thread.allocate_lock()
_patrolling = 0
"""The process in which the second thread is at work; a child has none of its parent's threads."""


def _patrolled(watch: Watch) -> int:
    """Have the second thread watch over this one.

    Returns:
        This thread's number.
    """
    global _patrolling  # noqa: PLW0603  (one thread for the whole process)
    number = _thread.get_ident()
    with _LOCK:
        _patrol[number] = watch
        if _patrolling != os.getpid():
            _thread.start_new_thread(_walk_the_beat, ())
            _patrolling = os.getpid()
    return number


def _off_patrol(number: int) -> None:
    with _LOCK:
        _patrol.pop(number, None)


def _walk_the_beat() -> None:
    """Tick for every thread that is watched; ends when there has been none for a tick."""
    global _patrolling  # noqa: PLW0603
    import ctypes
    from time import sleep

    end = ctypes.pythonapi.PyThreadState_SetAsyncExc
    while True:
        sleep(min((watch.seconds for watch in tuple(_patrol.values())), default=budgets.RULE_SECONDS) / _TICKS)
        with _LOCK:
            if not _patrol:
                _patrolling = 0
                return
            for number, watch in _patrol.items():
                if watch.late():
                    end(ctypes.c_ulong(number), ctypes.py_object(OvertimeError))
