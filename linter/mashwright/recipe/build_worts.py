"""The worts of one mash, where it gives several; and all of them together, as the mash sees them."""

import re

from mashwright.budgets import WORTS
from mashwright.measures.quantity import Kind
from mashwright.reading.nodes import Mapping, Node, Scalar
from mashwright.recipe.build_beer import (
    addition,
    aerated,
    brew_day,
    chilled,
    ferment_step,
    first_package,
    hop_addition,
    other_packages,
    soured,
    stated_targets,
    yeasts,
)
from mashwright.recipe.build_mash import boiled, grist_line, summed, topped_up, whole_batch
from mashwright.recipe.cursor import Cursor
from mashwright.recipe.model import ORDER, Batch, Take, Wort
from mashwright.recipe.stated import Lines, Said, Stated, Unreadable, UnreadableLines, Unsaid

WHICH = (*ORDER, "all", "rest")
"""Words for what a wort takes."""
_SHORT = {"1st": "first", "2nd": "second", "3rd": "third", "4th": "fourth", "5th": "fifth"}
_AROUND = re.compile(r"^(?:the )?(.*?)(?: (?:runnings?|worts?|mash|gyle))?$")


def worts_of(top: Cursor) -> Lines[Wort]:
    """The worts that a recipe lists; none where it gives one beer."""
    return top.items("worts", _wort)


def _wort(wort: Cursor) -> Wort:
    return Wort(
        wort.path,
        name=wort.text("wort"),
        style=wort.text("style"),
        runnings=_runnings(wort),
        batch=whole_batch(wort),
        grist=wort.items("grist", grist_line),
        top_up=topped_up(wort.inside("top-up")),
        boil=boiled(wort.inside("boil")),
        chill=chilled(wort.inside("chill")),
        souring=soured(wort.inside("souring")),
        hops=wort.items("hops", hop_addition),
        additions=wort.items("additions", addition),
        yeast=yeasts(wort),
        aeration=aerated(wort.inside("aeration")),
        ferment=wort.items("ferment", ferment_step),
        package=first_package(wort),
        beside=other_packages(wort),
        targets=stated_targets(wort.inside("targets")),
        measured=wort.items("measured", brew_day),
    )


def _runnings(wort: Cursor) -> Lines[Take]:
    """What a wort takes: a word, an amount of what comes next, or an amount of each of several runnings."""
    found = wort.find("runnings")
    path = (*wort.path, "runnings")
    if found is not None and isinstance(found[1], Scalar) and found[1].text:
        name = which(found[1].text)
        amount: Stated = Unsaid(path) if name else _amount(wort, path, found[1])
        return Lines.at(path, (Take(path, name, amount),))
    inner = wort.inside("runnings")
    if not isinstance(inner.node, Mapping):
        return inner.lines(())
    return inner.lines(_of_one(inner, key.text, value) for key, value in inner.node.entries)


def _of_one(inner: Cursor, key: str, value: Node) -> Take:
    path = (*inner.path, key)
    amount: Stated = Unsaid(path)
    if isinstance(value, Scalar) and value.text and value.text.casefold() != "all":
        amount = _amount(inner, path, value)
    return Take(path, which(key), amount)


def _amount(owner: Cursor, path: tuple[str | int, ...], value: Scalar) -> Stated:
    if not any(sign.isdecimal() for sign in value.text):
        words = ", ".join(WHICH)
        return owner.refused(
            path, value, f'runnings of "{value.text}" are not known; write {words}, a volume or a share'
        )
    return owner.read(path, value, Kind.SHARE if "%" in value.text else Kind.VOLUME, "amount of the runnings")


def which(text: str) -> str:
    """The runnings that a text names, as one of ``WHICH``; "" for an amount."""
    bare = " ".join(text.casefold().replace("-", " ").split())
    match = _AROUND.match(bare)
    word = match[1] if match is not None else bare
    word = _SHORT.get(word, word)
    return word if word in WHICH else ""


def of_all(worts: Lines[Wort], path: tuple[str | int, ...]) -> Batch:
    """The batches of all worts as one, at their list; each counted where it is, where they are all counted alike."""
    if isinstance(worts, UnreadableLines):
        return Batch(path, fermenter=Unreadable(worts.unread, worts.asked))
    batches = [wort.batch for wort in worts[:WORTS]]
    together = summed([batch.stated for batch in batches], path)
    if not isinstance(together, Said):
        return Batch(path, fermenter=together)
    if all(batch.fermenter.known or not batch.kettle.known for batch in batches):
        packaged = not any(batch.fermenter.known for batch in batches)
        return Batch(path, package=together) if packaged else Batch(path, fermenter=together)
    counted_hot = not any(batch.fermenter.known for batch in batches)
    return Batch(path, kettle=together) if counted_hot else Batch(path, fermenter=together)
