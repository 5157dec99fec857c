"""``mashwright amend``."""

import os
import sys
from typing import TYPE_CHECKING

import click

from mashwright.cli.arguments import TakesFiles
from mashwright.printable import complain, harmless, publish, say

if TYPE_CHECKING:
    from collections.abc import Callable

    from mashwright.brew.brew import Brew
    from mashwright.reviewing.altering import Altered
    from mashwright.reviewing.amending import Amended, Change, Choose
    from mashwright.reviewing.results import RemedyRow, Result, Reviewed


@click.command(cls=TakesFiles, short_help="Show how recipes would be mended, or mend them.")
@click.argument("paths", nargs=-1, type=click.Path())
@click.option("--write", is_flag=True, help="Write the changes into the files; without it nothing is changed.")
@click.option("--ask", is_flag=True, help="Ask at each finding which mend to take.")
@click.option("--rule", "rules", metavar="RULE", multiple=True, help="Mend only what this rule finds; may be repeated.")
@click.option("--only-slips", is_flag=True, help="Mend only slips of writing, and nothing of the beer.")
@click.option("--notes", is_flag=True, help="Mend what notes say, too.")
@click.option("--batch", metavar="VOLUME", help="Alter the recipe to this batch, such as 40 l.")
@click.option("--units", type=click.Choice(["metric", "US", "imperial"]), help="Turn the recipe's units into these.")
@click.option("--efficiency", metavar="SHARE", help="Keep the gravity at this efficiency, such as 68 %.")
@click.option("--alpha", metavar="HOP=SHARE", multiple=True, help="Keep the bitterness with these hops: Saaz=3.1 %.")
@click.option("--today", metavar="DATE", help="Date to use as today (YYYY-MM-DD); else today, UTC.")
def amend(
    paths: tuple[str, ...],
    write: bool,
    ask: bool,
    rules: tuple[str, ...],
    only_slips: bool,
    notes: bool,
    batch: str | None,
    units: str | None,
    efficiency: str | None,
    alpha: tuple[str, ...],
    today: str | None,
) -> int:
    """Show how the recipes in PATHS would be mended: the changes of their lines, with the reason above each.

    Each mend is one that the review offers; it is kept only if its finding is gone and nothing else is worse. PATHS are
    files or folders; with none, the current folder. Only --write changes files.

    With --batch, --units, --efficiency or --alpha the recipes are altered so, and not mended; comments stay, and what
    the review of the result finds anew is told.

    Exit status: 0 nothing to mend; 1 something to mend, or left; 2 it could not be done.
    """
    from mashwright.cli.review import day
    from mashwright.finding import Level
    from mashwright.reviewing.amending import amend as amended_text
    from mashwright.reviewing.amending import first_choice
    from mashwright.reviewing.collection import Collection, ConfigurationError
    from mashwright.reviewing.files import load
    from mashwright.reviewing.settings import Run

    if ask and not sys.stdin.isatty():
        raise click.ClickException("--ask asks at a terminal; leave it out here")
    ways = _ways(batch, units, efficiency, alpha)
    if ways and (ask or rules or only_slips):
        raise click.ClickException("a recipe is altered or mended; leave out --ask, --rule and --only-slips")
    _known(rules)
    run = Run(day(today))
    found = Collection(run)
    status = 0
    choose: Choose = _asked if ask else first_choice
    try:
        for candidate in found.find(paths or (".",)):
            loaded = load(candidate.path)
            if loaded.problem is not None:
                complain(f"{candidate.path}: {loaded.problem.message}")
                status = 2
                continue

            def review(text: str, path: str = candidate.path) -> "Reviewed | None":
                return next(iter(Collection(run).text(text, path)), None)

            if ways:
                status = max(status, _altered(candidate.path, loaded.text, ways, review, write=write))
                continue
            outcome = amended_text(
                loaded.text,
                review,
                level=Level.NOTE if notes else Level.WARNING,
                rules=frozenset(rules),
                only_slips=only_slips,
                choose=choose,
            )
            status = max(status, _told(candidate.path, loaded.text, outcome, write=write))
    except ConfigurationError as error:
        raise click.ClickException(str(error)) from None
    for path in found.search.missing:
        complain(f"{path}: there is no such file or folder")
        status = 2
    return status


def _ways(
    batch: str | None, units: str | None, efficiency: str | None, alpha: tuple[str, ...]
) -> "list[Callable[[Brew], Altered]]":
    """The alterations that were asked for, in the order in which they are done: units last."""
    if not (batch or units or efficiency or alpha):
        return []
    from functools import partial

    from mashwright.reviewing.altering import to_alpha, to_batch, to_efficiency, to_units

    ways: list[Callable[[Brew], Altered]] = []
    if batch is not None:
        ways.append(partial(to_batch, batch=batch))
    if efficiency is not None:
        ways.append(partial(to_efficiency, efficiency=efficiency))
    ways += [partial(to_alpha, hops=one) for one in alpha]
    if units is not None:
        ways.append(partial(to_units, system=units))
    return ways


def _altered(
    path: str,
    text: str,
    ways: "list[Callable[[Brew], Altered]]",
    review: "Callable[[str], Reviewed | None]",
    *,
    write: bool,
) -> int:
    """Alter one recipe; the status that it ends with."""
    from mashwright.brew.brew import Brew
    from mashwright.reviewing.altering import CannotAlterError, altered
    from mashwright.reviewing.houses import Houses
    from mashwright.reviewing.plugins import installed
    from mashwright.reviewing.read import read

    recipe = read(text, path)
    if recipe.judgeable is None:
        complain(f"{path}: this is not a recipe that can be read; mend it first")
        return 2
    houses = Houses(installed())
    file = houses.nearest(path)
    house = file.house if file is not None else houses.plain()
    try:
        after, remarks = altered(text, Brew(recipe.judgeable, house.brewhouse, recipe.document), ways)
    except CannotAlterError as error:
        complain(f"{path}: {error}")
        return 2
    for line in hunks(path, text, after, ()):
        publish(f"{line}\n", sys.stdout)
    for remark in remarks:
        say(f"{path}: {remark}", sys.stderr)
    before, then = review(text), review(after)
    known = {(one.rule, one.level) for one in before.results} if before is not None else set()
    for one in then.results if then is not None else ():
        if (one.rule, one.level) not in known and one.accepted is None:
            say(f"{path}:{one.place.line}: {one.level.word}: {one.rule}: {one.message}", sys.stderr)
    if text == after:
        return 0
    if write and (why := written(path, text, after)) is not None:
        complain(f"{path}: {why}; nothing is written")
        return 2
    return 0 if write else 1


def _known(rules: tuple[str, ...]) -> None:
    from mashwright.reviewing.plugins import installed
    from mashwright.reviewing.results import READING_RULES
    from mashwright.reviewing.settings import unknown_rule

    for rule in rules:
        if rule not in READING_RULES and rule not in installed().rules:
            raise click.ClickException(unknown_rule(rule, installed()))


def _told(path: str, before: str, outcome: "Amended", *, write: bool) -> int:
    """Show the changes of one file, and write them if that was asked for; the status that it ends with."""
    for line in hunks(path, before, outcome.text, outcome.changes):
        publish(f"{line}\n", sys.stdout)
    for result in outcome.left:
        where = f"{path}:{result.place.line}:{result.place.column}"
        say(f"{where}: {result.level.word}: {result.rule}: {result.message}", sys.stderr)
    if not outcome.changes:
        if any(result.rule == "unreadable" for result in outcome.left):
            return 2
        return 1 if outcome.left else 0
    if write:
        if (why := written(path, before, outcome.text)) is not None:
            complain(f"{path}: {why}; nothing is written")
            return 2
        return 1 if outcome.left else 0
    return 1


def hunks(path: str, before: str, after: str, changes: "tuple[Change, ...]") -> "list[str]":
    """A unified diff, as patch and git take it; behind a hunk's line numbers stands what its changes are for."""
    from difflib import SequenceMatcher

    old, new = before.splitlines(keepends=True), after.splitlines(keepends=True)
    if old == new:
        return []
    shown = harmless(path)
    lines = [f"--- {shown}", f"+++ {shown}"]
    for group in SequenceMatcher(None, old, new, autojunk=False).get_grouped_opcodes(3):
        first, last = group[0], group[-1]
        reasons = [one for one in changes if first[1] < one.line <= last[2]] or list(changes[:1])
        why = "; ".join(f"{harmless(one.rule)}: {harmless(one.text)}" for one in reasons)
        lines.append(f"@@ -{_range(first[1], last[2])} +{_range(first[3], last[4])} @@ {why}".rstrip())
        for tag, begin, end, there, until in group:
            if tag == "equal":
                lines += [f" {_shown(line)}" for line in old[begin:end]]
                continue
            lines += [f"-{_shown(line)}" for line in old[begin:end]]
            lines += [f"+{_shown(line)}" for line in new[there:until]]
    return lines


def _range(begin: int, end: int) -> str:
    length = end - begin
    return f"{begin + 1 if length else begin},{length}" if length != 1 else f"{begin + 1}"


def _shown(line: str) -> str:
    return harmless(line.rstrip("\r\n"))


def written(path: str, before: str, after: str) -> str | None:
    """Write a file anew: beside it, then in its place, so that at any moment the one or the other is there, whole.

    Args:
        path: a link's target is written, and the link stays.
        before: what was read; a file that holds anything else by now is left alone.
        after: what is to stand there.

    Returns:
        Why nothing was written, or None.
    """
    from tempfile import mkstemp

    target = os.path.realpath(path)
    mark = b"\xef\xbb\xbf"
    try:
        with open(target, "rb") as file:
            there = file.read()
            state = os.fstat(file.fileno())
        bom = mark if there.startswith(mark) else b""
        if there != bom + before.encode():
            return "it was changed meanwhile"
        if not os.access(target, os.W_OK):
            return "it may not be written"
        handle, beside = mkstemp(prefix=".mashwright-", dir=os.path.dirname(target))
        try:
            with os.fdopen(handle, "wb") as new:
                new.write(bom + after.encode())
                new.flush()
                os.fsync(new.fileno())
            os.chmod(beside, state.st_mode & 0o7777)
            if (state.st_uid, state.st_gid) != (os.stat(beside).st_uid, os.stat(beside).st_gid):
                os.chown(beside, state.st_uid, state.st_gid)
            with open(target, "rb") as file:
                if file.read() != there:
                    return "it was changed meanwhile"
            os.replace(beside, target)
        finally:
            if os.path.lexists(beside):
                os.unlink(beside)
    except OSError as error:
        return (error.strerror or str(error)).lower()
    return None


def _asked(text: str, result: "Result") -> "RemedyRow | None":
    """Ask at the terminal which mend of a finding to take; none is an answer too."""
    mends = [remedy for remedy in result.remedies if remedy.edits]
    if not mends:
        return None
    line = text.splitlines()[result.place.line - 1] if text else ""
    say(f"line {result.place.line}: {result.level.word}: {result.rule}: {result.message}", sys.stderr)
    say(f"    {line.strip()}", sys.stderr)
    for number, remedy in enumerate(mends, 1):
        say(f"  {number}  {remedy.text}", sys.stderr)
    while True:
        answer = click.prompt("which (0 for none)", default="1", err=True).strip()
        if answer.isdigit() and int(answer) <= len(mends):
            return mends[int(answer) - 1] if int(answer) else None
        say(f"write a number from 0 to {len(mends)}", sys.stderr)
