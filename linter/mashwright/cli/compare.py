"""``mashwright compare``."""

import os
from typing import TYPE_CHECKING

import click

from mashwright.cli.arguments import TakesFiles
from mashwright.cli.output import opened, width
from mashwright.printable import complain, publish, say

if TYPE_CHECKING:
    from mashwright.reviewing.comparing import Compared


@click.command(cls=TakesFiles, short_help="Show what a change does to the beer.")
@click.argument("old")
@click.argument("new", required=False)
@click.option("--only", metavar="PATH", multiple=True, help="Compare only this file or folder; may be repeated.")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "markdown", "json"]),
    default="text",
    show_default=True,
    help="Report format.",
)
@click.option("--output", metavar="FILE", type=click.Path(), help="Write the comparison to this file.")
def compare(old: str, new: str | None, only: tuple[str, ...], form: str, output: str | None) -> int:
    """Show what changed from OLD to NEW: the lines of each recipe, the figures that moved, findings that came or went.

    OLD and NEW are two files, two folders, or two revisions of this repository: a branch, a tag or a commit. Without
    NEW, the files as they are now.

    Exit status: 0 nothing changed in the beer; 1 something did; 2 it could not be done.
    """
    from mashwright.reviewing.plugins import ConfigurationError
    from mashwright.reviewing.revisions import NoRevisionError

    try:
        before, after = _both(old, new, only)
        recipes = _changed(before, after)
    except (ConfigurationError, NoRevisionError) as error:
        raise click.ClickException(str(error)) from None
    with opened(output, "comparison") as out:
        if form == "json":
            from mashwright.reporting.comparing import compared_document
            from mashwright.reporting.machine import dump

            publish(dump(compared_document(recipes)), out)
        else:
            from mashwright.reporting.comparing import compared_markdown, compared_text

            lines = compared_markdown(recipes) if form == "markdown" else compared_text(recipes, width(out))
            for line in lines:
                say(line, out)
    return 1 if any(one.of_the_beer for one in recipes) else 0


Texts = dict[str, str]
"""Recipes by their paths."""


def _both(old: str, new: str | None, only: tuple[str, ...]) -> tuple[Texts, Texts]:
    """The recipes that differ, before and after."""
    for missing in (old, new):
        if missing is not None and missing.lower().endswith((".yaml", ".yml")) and not os.path.lexists(missing):
            raise click.ClickException(f"{missing}: there is no such file or folder")
    if new is not None and os.path.lexists(old) and os.path.lexists(new):
        if os.path.isdir(old) is not os.path.isdir(new):
            raise click.ClickException(f"{old} and {new} are a file and a folder; name two of a kind")
        if not os.path.isdir(old):
            return {new: _text(old)}, {new: _text(new)}
        before, after = _in_folder(old, new, only), _in_folder(new, new, only)
    else:
        before, after = _at_revisions(old, new, only)
    same = {path for path, text in before.items() if after.get(path) == text}
    return (
        {path: text for path, text in before.items() if path not in same},
        {path: text for path, text in after.items() if path not in same},
    )


def _text(path: str) -> str:
    from mashwright.reviewing.files import load

    loaded = load(path)
    if loaded.problem is not None:
        raise click.ClickException(f"{path}: {loaded.problem.message}")
    from mashwright.reviewing.read import read

    found = read(loaded, path)
    if found.recipe is None and found.misread:
        raise click.ClickException(f"{path}: {found.misread[0].message}")
    return loaded.text


def _in_folder(folder: str, shown: str, only: tuple[str, ...]) -> Texts:
    from mashwright.reviewing.find import Search

    found = {}
    for candidate in Search().find((folder,)):
        inside = os.path.relpath(candidate.path, folder)
        if _wanted(inside, only):
            found[os.path.join(shown, inside)] = _text(candidate.path)
    return found


def _wanted(path: str, only: tuple[str, ...]) -> bool:
    here = os.path.normpath(path)
    return not only or any(here == one or here.startswith(f"{one}{os.sep}") for one in map(os.path.normpath, only))


def _at_revisions(old: str, new: str | None, only: tuple[str, ...]) -> tuple[Texts, Texts]:
    """The recipes of two revisions, or of one and the files as they are; only what differs is read."""
    from mashwright.reviewing.files import ENDINGS, decode
    from mashwright.reviewing.repository import Git
    from mashwright.reviewing.revisions import NoRevisionError, bytes_of, commit_of, content_of, files_at

    git = Git()
    repository = git.above(os.curdir)
    if repository is None:
        raise NoRevisionError(f"{old} is not a file here, and no repository is either; name two files or two folders")

    def listed(revision: str) -> dict[str, str]:
        files = files_at(git, repository, commit_of(repository, revision), ENDINGS)
        return {one.path: one.content for one in files if _wanted(one.path, only)}

    before = listed(old)
    now: dict[str, bytes] = {}
    if new is not None:
        after = listed(new)
    else:
        like = next(iter(before.values()), "0" * 40)
        names = {*git.tracked(repository, repository.top), *before}
        after = {}
        for name in sorted(names):
            file = os.path.join(repository.top, name)
            hidden = any(part.startswith(".") for part in name.split("/"))
            ordinary = os.path.isfile(file) and not os.path.islink(file) and name.lower().endswith(ENDINGS)
            if ordinary and not hidden and _wanted(name, only):
                with open(file, "rb") as opened_file:
                    now[name] = opened_file.read()
                after[name] = content_of(now[name], like)
    differing = {name for name in {*before, *after} if before.get(name) != after.get(name)}

    def shown(name: str) -> str:
        return os.path.relpath(os.path.join(repository.top, name))

    def text(name: str, data: bytes) -> str:
        loaded = decode(data)
        if loaded.problem is not None:
            raise NoRevisionError(f"{shown(name)}: {loaded.problem.message}")
        return loaded.text

    old_texts = {shown(n): text(n, bytes_of(git, repository, before[n])) for n in sorted(differing) if n in before}
    new_texts = {}
    for name in sorted(differing):
        if name in after:
            new_texts[shown(name)] = text(name, now[name] if name in now else bytes_of(git, repository, after[name]))
    return old_texts, new_texts


def _changed(before: Texts, after: Texts) -> "list[Compared]":
    """What changed in each recipe; what is no recipe on either side is left out."""
    from mashwright.reviewing.collection import Collection
    from mashwright.reviewing.comparing import Compared, compared, renamed
    from mashwright.reviewing.figuring import sheet_of_loaded
    from mashwright.reviewing.read import read
    from mashwright.reviewing.results import Reviewed
    from mashwright.reviewing.revisions import NoRevisionError
    from mashwright.reviewing.settings import Run
    from mashwright.reviewing.sheet import Sheet

    def review(text: str, path: str) -> Reviewed | None:
        return next(iter(Collection(Run("", remedies=False)).text(text, path)), None)

    def figures(text: str, path: str) -> Sheet:
        return sheet_of_loaded(text, path)

    def is_recipe(text: str, path: str) -> bool:
        found = read(text, path)
        if found.recipe is None and found.misread:  # a file that is no recipe at all is no fault
            raise NoRevisionError(f"{path}: {found.misread[0].message}")
        return found.judgeable is not None

    old = {path: text for path, text in before.items() if is_recipe(text, path)}
    new = {path: text for path, text in after.items() if is_recipe(text, path)}
    for path in sorted((before.keys() - old.keys()) & (after.keys() - new.keys())):
        if os.path.basename(path) not in ("brewhouse.yaml", "brewhouse.yml"):
            continue
        complain(f"{path} changed; what it means for recipes that did not change is for a review to say")
    was = renamed(old, new)
    found = []
    for path, text in new.items():
        there = was.get(path, path)
        if there in old:
            one = compared(old[there], text, path, there, review, figures)
            if one.of_the_beer or one.was:
                found.append(one)
        else:
            found.append(Compared(path, figures(text, path).name, "new"))
    moved = set(was.values())
    gone = (path for path in old if path not in new and path not in moved)
    found += [Compared(path, figures(old[path], path).name, "gone") for path in gone]
    return sorted(found, key=lambda one: one.path)
