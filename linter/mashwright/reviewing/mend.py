"""The third step of a review: for each finding, the changes that mend it are looked for and tried."""

import sys
from collections.abc import Iterator
from contextlib import redirect_stdout
from functools import partial

from msgspec.structs import replace

from mashwright.brew.brew import Brew
from mashwright.finding import Finding, Level
from mashwright.reviewing.ask import check_one
from mashwright.reviewing.guard import Guard
from mashwright.reviewing.judge import Found, Judged
from mashwright.reviewing.remedies import Trials, remedies, worst
from mashwright.reviewing.watch import Watch


def mend(judged: Judged, watch: Watch | None = None) -> Judged:
    """The same judgement, its findings with what mends them, or with what speaks against that.

    Args:
        watch: over the rules at work, which are asked about each change; none where no rules of others are.
    """
    guard = Guard(watch, judged.read.path, judged.faults, judged.late)
    trials = Trials()
    before = worst(one.finding for one in judged.found)

    def check_all(changed: Brew) -> Iterator[Finding]:
        for run_rule in judged.answered:
            if run_rule.rule.id not in guard.late:
                yield from guard.found_by(run_rule, changed) or ()

    def mended(one: Found) -> Found:
        run_rule, finding, _ = one
        if finding.level <= Level.NOTE or not finding.knobs or finding.rule in guard.late:
            return one
        trials.refused = ()
        check = partial(check_one, run_rule)
        changes = guard.attempt(run_rule, remedies, finding, judged.brew, check, check_all, before, trials)
        return Found(run_rule, replace(finding, remedies=changes or ()), trials.refused)

    with redirect_stdout(sys.stderr):  # as in judging
        found = tuple([mended(one) for one in judged.found])
    return replace(
        judged,
        found=found,
        faults=tuple(guard.faults),
        late=frozenset(guard.late),
        unsearched=trials.unsearched,
    )
