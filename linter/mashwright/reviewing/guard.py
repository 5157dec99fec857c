"""Lets rules work under a watch: one that crashes or does not end is a fault with its name, and the others go on.

This module and the watch have the end of a rule's time in hand: here it is not raised but waited for.
"""

from collections.abc import Callable, Iterable
from typing import ParamSpec, TypeVar

from mashwright.brew.brew import Brew
from mashwright.crash import in_words
from mashwright.finding import Finding
from mashwright.reviewing.ask import found_by
from mashwright.reviewing.plugins import Rule
from mashwright.reviewing.results import Fault
from mashwright.reviewing.settings import RunRule
from mashwright.reviewing.taking import UnfitError
from mashwright.reviewing.watch import OvertimeError, Watch

_T = TypeVar("_T")
_P = ParamSpec("_P")


class Guard:
    """Lets the rules work on one recipe, in one step of its review.

    Args:
        watch: over the rules; none where nobody is to be watched.
        path: of the recipe, for faults.
        faults: of the steps before.
        late: rules that were not through in time in the steps before.

    Attributes:
        faults: what failed as a program up to now, each rule told once.
        late: rules that were not through in time; the recipe goes on without them.
    """

    __slots__ = ("faults", "late", "path", "watch")

    def __init__(self, watch: Watch | None, path: str, faults: Iterable[Fault] = (), late: Iterable[str] = ()) -> None:
        self.watch = watch or Watch(strangers=False)
        self.path = path
        self.faults = list(faults)
        self.late = set(late)

    def attempt(self, run_rule: RunRule, work: Callable[_P, _T], *args: _P.args, **kwargs: _P.kwargs) -> _T | None:
        """What a rule's work gives; a rule that crashes becomes a tool fault with its name, told once, and None."""
        watch = self.watch
        before, watch.at = watch.at, run_rule.rule.id
        try:
            return work(*args, **kwargs)
        except BaseException as error:  # noqa: BLE001  (here a crash becomes a tool fault)
            self._failed(run_rule, error)
            return None
        finally:
            watch.at = before

    def found_by(self, run_rule: RunRule, brew: Brew) -> list[Finding] | None:
        """What a rule finds, else as ``attempt``; spelt out, since it runs for every rule of every recipe."""
        watch = self.watch
        before, watch.at = watch.at, run_rule.rule.id
        try:
            return found_by(run_rule, brew)
        except BaseException as error:  # noqa: BLE001  (here too)
            self._failed(run_rule, error)
            return None
        finally:
            watch.at = before

    def _failed(self, run_rule: RunRule, error: BaseException) -> None:
        """Tell of a rule's crash, once.

        Raises:
            BaseException: the error itself, where it is not the rule's: an interrupt, mostly.
        """
        rule, watch = run_rule.rule, self.watch
        if not watch.contains(error):
            raise error
        if isinstance(error, OvertimeError) and rule.id not in self.late:
            self.late.add(rule.id)
            watch.overdue[rule.id] = watch.overdue.get(rule.id, 0) + 1
        self._tell(run_rule, failure(rule, error, watch.seconds))

    def left_out(self, run_rule: RunRule) -> bool:
        """Whether a rule is asked no more, since it was too slow too often; the recipe then says so."""
        rule_id = run_rule.rule.id
        if not self.watch.left_out(rule_id):
            return False
        times = self.watch.overdue[rule_id]
        self._tell(run_rule, f"it was too slow on {times} recipes, so it was not asked about this one")
        return True

    def put_back(self, run_rule: RunRule) -> None:
        """What a rule of others changed for everybody is undone, and told as its fault."""
        if changed := self.watch.put_back():
            message = (
                f"it called {changed}, which was undone; please report it to those who make {run_rule.rule.origin}"
            )
            self.faults.append(Fault(run_rule.rule.id, self.path, message))

    def _tell(self, run_rule: RunRule, message: str) -> None:
        if all(fault.rule != run_rule.rule.id for fault in self.faults):
            self.faults.append(Fault(run_rule.rule.id, self.path, message))


def failure(rule: Rule, error: BaseException, seconds: float) -> str:
    """What is told of a rule that failed as a program, and to whom to report it.

    Args:
        seconds: that it had.
    """
    if isinstance(error, OvertimeError):
        why = f"it was not through after {seconds:g} s"
    else:
        why = str(error) if isinstance(error, UnfitError) else in_words(error)
    return f"{why}; the other rules went on; please report it to those who make {rule.origin}"
