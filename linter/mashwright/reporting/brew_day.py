"""The brew day on paper: as text of 80 columns, and as Markdown; blanks for what is measured and for the clock."""

from collections.abc import Iterator

from mashwright.printable import harmless
from mashwright.reporting.words import wrapped
from mashwright.reviewing.brew_day import BrewDay, Part, Step

_TIMED = ("Mash", "Boil")
"""Parts in which the clock matters."""
OFF = "If the wort before the boil is not as planned"
DEFER = (
    "All figures are estimates: go by what you measure. The ratings of vessels, local codes and whoever is licensed for"
    " gas and electricity come first."
)


def clock(minutes: float) -> str:
    """Minutes of a day as a clock shows them."""
    whole = round(minutes) % 1440
    return f"{whole // 60:02d}:{whole % 60:02d}"


def day_text(day: BrewDay, width: int = 80, start: float | None = None) -> Iterator[str]:
    """The sheet as text, line by line.

    Args:
        day: what is to be done.
        width: in columns.
        start: minutes of the day at which the grain is stirred in; the clock of the mash is filled from there.
    """
    yield from wrapped(f"{day.name}: brew day", width)
    yield from wrapped(", ".join(filter(None, (day.batch, day.path, "date ____________"))), width)
    for part in day.parts:
        yield ""
        yield part.title
        yield "-" * len(part.title)
        for objection in part.objections:
            yield from wrapped(objection, width, "  !  ", "     ")
        for step, at in _clocked(part, start):
            yield from _step_text(step, at, width)
    if day.corrections:
        yield ""
        yield OFF
        yield "-" * len(OFF)
        for measured, do in day.corrections:
            yield from wrapped(f"{measured}: {do}", width, "  ", "      ")
    yield ""
    yield from wrapped(DEFER, width)


def _clocked(part: Part, start: float | None) -> Iterator[tuple[Step, str | None]]:
    """Each step with the time at which it begins, "" for a blank, None where the clock is of no use."""
    now = start if part.title == "Mash" else None
    for step in part.steps:
        timed = part.title.endswith(_TIMED) and step.minutes is not None
        if part.title == "Mash" and step.do.startswith("stir"):
            timed = True
        yield step, (clock(now) if now is not None else "") if timed else None
        if now is not None and step.minutes is not None:
            now += step.minutes


def _step_text(step: Step, at: str | None, width: int) -> Iterator[str]:
    blanks = [f"clock {at or '__:__'}"] if at is not None else []
    blanks += [f"______ {unit}".rstrip() for unit in step.measure]
    right = "  ".join(blanks)
    said = f"{step.do}: {step.planned}" if step.planned else step.do
    lines = list(wrapped(said, width - len(right) - 2 if len(right) < width // 2 else width, "  __ ", "     "))
    if right:
        last = lines[-1]
        if len(last) + len(right) + 2 <= width:
            lines[-1] = last + " " * (width - len(last) - len(right)) + right
        else:
            lines.append(" " * max(width - len(right), 5) + right)
    yield from lines
    for sentence in step.assumed:
        yield from wrapped(sentence, width, "       assumed: ", "         ")
    for objection in step.objections:
        yield from wrapped(objection, width, "     ! ", "       ")
    if step.caution:
        yield from wrapped(step.caution, width, "     caution: ", "       ")


def day_markdown(day: BrewDay, start: float | None = None) -> Iterator[str]:
    """The sheet as Markdown, a table for each part; a recipe's own words cannot become markup."""
    yield f"# {_plain(day.name)}: brew day"
    yield ""
    yield f"{_plain(day.batch)}, {_plain(day.path)}"
    for part in day.parts:
        yield ""
        yield f"## {part.title}"
        yield ""
        for objection in part.objections:
            yield f"**{_plain(objection)}**"
            yield ""
        if not part.steps:
            continue
        yield "| done | step | planned | clock | measured |"
        yield "|---|---|---|---|---|"
        for step, at in _clocked(part, start):
            under = [f"assumed: {one}" for one in step.assumed] + list(step.objections)
            under += [f"caution: {step.caution}"] if step.caution else []
            do = "<br>".join(_plain(one) for one in (step.do, *under))
            measured = " ".join(f"\\_\\_\\_\\_ {_plain(unit)}".rstrip() for unit in step.measure)
            when = "" if at is None else at or "\\_\\_:\\_\\_"
            yield f"| ☐ | {do} | {_plain(step.planned)} | {when} | {measured} |"
    if day.corrections:
        yield ""
        yield f"## {OFF}"
        yield ""
        yield "| measured | do |"
        yield "|---|---|"
        for measured, do in day.corrections:
            yield f"| {_plain(measured)} | {_plain(do)} |"
    yield ""
    yield DEFER


def _plain(text: str) -> str:
    """A text that no Markdown reads as anything else."""
    return "".join(f"\\{sign}" if sign in "\\`*_{}[]()#+!|<>&~@" else sign for sign in harmless(text))
