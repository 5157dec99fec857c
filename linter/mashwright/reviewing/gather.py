"""Beside the steps of a review: what rules about the collection want to know of one recipe."""

import sys
from collections.abc import Callable
from contextlib import redirect_stdout
from typing import Any, NamedTuple

from msgspec.structs import replace

from mashwright.brew.brew import Brew
from mashwright.recipe.stated import Unknown
from mashwright.reviewing.guard import Guard
from mashwright.reviewing.judge import Judged, LeftOpen, left_open_by
from mashwright.reviewing.settings import RunRule
from mashwright.reviewing.taking import small
from mashwright.reviewing.watch import Watch


class Gathered(NamedTuple):
    """What one rule about the collection wants to know of one recipe."""

    rule: str
    value: Any


def gather(judged: Judged, watch: Watch | None = None) -> tuple[Judged, tuple[Gathered, ...]]:
    """What the rules about the collection keep of a recipe; and the judgement, with those that could not look.

    Args:
        watch: over the rules at work; none where no rules of others are.
    """
    guard = Guard(watch, judged.read.path, judged.faults, judged.late)
    brew = judged.brew
    left_open: list[LeftOpen] = []

    def known(run_rule: RunRule, ask: Callable[[Brew], object]) -> object:
        try:
            return small(ask(brew))
        except Unknown as unknown:
            if brew.is_open(unknown):
                left_open.append(left_open_by(run_rule, unknown))
            return None

    gathered = []
    with redirect_stdout(sys.stderr):  # as in judging
        for run_rule in judged.house.rules:
            if (ask := run_rule.rule.gather) is not None and not guard.left_out(run_rule):
                value = guard.attempt(run_rule, known, run_rule, ask)
                if value is not None:
                    gathered.append(Gathered(run_rule.rule.id, value))
    with_open = replace(judged, open=(*judged.open, *left_open), faults=tuple(guard.faults), late=frozenset(guard.late))
    return with_open, tuple(gathered)
