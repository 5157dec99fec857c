"""Does what the recipe claims, or leaves unsaid, agree with those who must avoid something?

A name or a note that says free of gluten, vegan, vegetarian, free of milk or of alcohol is believed by people who
fall ill if it is wrong, or who hold to it for their faith or their conscience. And lactose, nuts or sulfite in a beer
hurt those who are allergic, when nobody tells them: nothing of it is seen in the glass.

What is checked: the recipe's name, style and notes are read for claims; those with a "not" before them are left out. A
claim is held against the cereals of the grist, the additions, and the alcohol that the beer comes to. Claims of no
gluten are known in ten languages, as GF, and as a beer that is meant for coeliac drinkers.

- error: no gluten claimed beside barley, wheat, rye and their kin, whatever enzyme
  is used, since no test proves a fermented drink free of it
- warning: the same beside oats, or where no cereal is named
- warning: little gluten claimed (low, reduced, very low) beside such a cereal
- error: what is of animals beside "vegan"; what an animal is killed for (isinglass,
  gelatine), and not milk, eggs or honey, beside "vegetarian"
- error: a claim to be free of an allergen that is there; "nut-free" speaks of
  peanuts too
- warning: milk, nuts, peanuts, eggs, crustaceans, molluscs, soya and the like, and
  no word to drinkers
- warning: more than 10 mg/l of sulfite and no word; less is a note; what goes into
  brewing water counts only above 0.02 g/l of the salt
- error, warning or note: free of alcohol, by the alcohol that it comes to

A word to drinkers is the thing's own (hazelnut), its group's in name or style (milk stout), or that in a sentence of
the notes which says that the beer contains it or speaks of allergens. A nut brown ale tells of no nuts, and "contains
nuts" tells of no peanuts. What is offered to be written is only what is true of the recipe.

On the day: tell everybody what is in it before they drink, on the label or aloud, and let those who are allergic
decide. What is in the mill, the sacks, the yeast and the lines counts too. What may be claimed is law, and differs
from country to country; only tests by a competent laboratory and the local authority can settle it.

Sources: [codex-118] [eu-828-2014] [eu-828-2014-german] [gluten-poland-2019] [fda-85-fr-49240] [ttb-2020-2]
[oats-allergen-wiki] [ttb-notice-62] [fsanz-schedule-9] [eu-1333-2008] [us-sulfite-label] [from-memory]
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import Brew, number, table_entry, told
from mashwright.figures.beer import abv, sulfite
from mashwright.figures.mash import fermenter_volume
from mashwright.ingredients.allergens import GLUTEN_CEREALS, gluten_claims, groups_of
from mashwright.ingredients.allergens import Group as AllergenGroup
from mashwright.ingredients.sulfite_limits import label_mg_per_l as sulfite_label_mg_per_l
from mashwright.knobs import Knob, another_text
from mashwright.measures import Range
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Path, Settings, Unknown, above, row
from mashwright.words.tokens import words_of


class Limits(Settings):
    """What is compared with."""

    alcohol_percent = Limit(0.5, "% vol", low=0.05, high=1.2, source="from-memory")
    strictest_alcohol_percent = Limit(0.05, "% vol", low=0, high=0.5, source="from-memory")


_UNTOLD = "and no word in name, style or notes tells those who must avoid it"


class _Words(NamedTuple):
    """A place in which a recipe speaks to drinkers, in lower case, hyphens as spaces."""

    path: Path
    text: str


class _Thing(NamedTuple):
    """One thing that goes in, and where its name stands."""

    path: Path
    name: str


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    words = _words(brew)
    whole = " ".join(one.text for one in words)
    yield from _gluten(brew, words)
    if any(word in whole for word in ("vegan", "vegetarian", "veggie", "plant based", "animal", "meat free")):
        yield from _animals(brew, words)
    if "alcohol" in whole or "0.0 %" in whole or "0.0%" in whole:
        yield from _alcohol(brew, words, limits)
    yield from _allergens(brew, words)
    yield from _sulfites(brew, words, whole)


def _words(brew: Brew) -> tuple[_Words, ...]:
    recipe = brew.recipe
    places = ((recipe.name.path, recipe.name), (recipe.style.path, recipe.style), (recipe.notes.path, recipe.notes))
    return tuple(_Words(path, " ".join(_plain(text).split())) for path, text in places if text)


def _plain(text: str) -> str:
    return text.casefold().replace("-", " ").replace("\u2010", " ").replace("\u2011", " ")


def _claim(words: tuple[_Words, ...], *spellings: str) -> Path | None:
    """Where one of the spellings is claimed; not where a "not" stands before it, or a question is asked."""
    for place, text in words:
        for spelling in spellings:
            start = text.find(spelling)
            while start >= 0:
                end = start + len(spelling)
                alone = not text[start - 1 : start].isalnum() and not text[end : end + 1].isalnum()
                if alone and text[end : end + 1] != "?" and not _negated(text[:start]):
                    return place
                start = text.find(spelling, end)
    return None


_NEGATING = ("not", "never", "nor", "cannot", "hardly", "nicht", "kein", "pas", "niet", "ikke", "inte", "nie")


def _negated(before: str) -> bool:
    """Whether one of the four words before in the same clause takes the claim back."""
    for mark in ";:,":
        before = before.replace(mark, ".")
    near = before.rpartition(".")[2].split()[-4:]
    return (
        near[-1:] == ["non"]
        or "no longer" in " ".join(near)
        or any(word in _NEGATING or word.endswith(("n't", "n\u2019t")) for word in near)
    )


def _free_of(*names: str) -> tuple[str, ...]:
    """How a claim to be free of something is written."""
    before = ("free of", "free from", "free of any", "no", "without", "zero", "non")
    return tuple(
        spelling
        for name in names
        for spelling in (f"{name} free", f"{name}free", *(f"{word} {name}" for word in before))
    )


def _things(brew: Brew) -> Iterator[_Thing]:
    recipe = brew.recipe
    for line in recipe.grist:
        yield _Thing((*line.path, line.group), line.name)
    for one in recipe.additions:
        yield _Thing(one.what.path, one.what)
    priming = recipe.package.priming
    if priming.known and priming.name:
        yield _Thing((*priming.path, priming.group), priming.name)


_OF_ENZYMES = ("gluten reducing", "gluten removing", "gluten splitting")  # "no gluten-reducing enzyme" claims nothing
_COELIAC = re.compile(r"\b(?:c(?:o?e|œ)lia(?:c|qu|k)\w*|cel[ií]ac\w*|z(?:ö|oe)liaki\w*|glutenunverträglich\w*)")
_FOR_THEM = frozenset({
    "for", "our", "my", "his", "her", "their", "friendly", "suit", "suitable", "safe", "member", "friend", "für",
    "pour", "para", "voor",
})  # fmt: skip
_AGAINST = frozenset({
    "avoid", "not", "never", "unsuitable", "unfit", "warning", "beware", "cannot", "no", "nothing", "nicht", "allergen",
})  # fmt: skip


def _for_coeliacs(words: tuple[_Words, ...]) -> Path | None:
    """Where a beer is said to be meant for coeliac drinkers; not where they are warned."""
    for place, text in words:
        for clause in _CLAUSE_ENDS.split(text):
            said = words_of(clause)
            if _COELIAC.search(clause) and not said.isdisjoint(_FOR_THEM) and said.isdisjoint(_AGAINST):
                return place
    return None


def _short_claim(brew: Brew) -> Path | None:
    """Where "GF" stands for free of gluten, in capitals."""
    recipe = brew.recipe
    for path, text in (
        (recipe.name.path, recipe.name),
        (recipe.style.path, recipe.style),
        (recipe.notes.path, recipe.notes),
    ):
        if (found := re.search(r"\bGF\b", text)) is not None and not _negated(_plain(text[: found.start()])):
            return path
    return None


def _gluten(brew: Brew, words: tuple[_Words, ...]) -> Iterator[Finding]:
    spoken: dict[str, list[str]] = {}
    for one in gluten_claims():
        spoken.setdefault(one.claim, []).extend(one.words)
    whole = " ".join(one.text for one in words)
    place = None
    if "glut" in whole:
        place = _claim(_without(words, [*spoken["very low"], *spoken["loose"], *_OF_ENZYMES]), *spoken["free"])
    claimed = "claimed to be free of gluten"
    if place is None and (place := _for_coeliacs(words)) is not None:
        claimed = "meant for coeliac drinkers"
    place = place or _short_claim(brew)
    if place is None:
        if "glut" in whole and (place := _claim(words, *spoken["very low"], *spoken["loose"])) is not None:
            yield from _little_gluten(brew, place, very_low=_claim(words, *spoken["very low"]) == place)
        return
    cereals = list(_cereals(brew))
    holding = [(thing, cereal) for thing, cereal in cereals if cereal in GLUTEN_CEREALS]
    if holding:
        what = " and ".join(_of(thing, cereal) for thing, cereal in holding[:2])
        message = (
            f"{claimed}, but it holds {what}; coeliac drinkers fall ill from gluten, no enzyme makes"
            " the claim good, and food law forbids it"
        )
        yield Finding(place, Level.ERROR, message, gap=1.0, related=tuple(thing.path for thing, _ in holding))
        return
    doubtful = [(thing, cereal) for thing, cereal in cereals if cereal in ("oat", "unknown")]
    if doubtful:
        oats = [thing.name for thing, cereal in doubtful if cereal == "oat"]
        why = (
            f"it holds {oats[0]}, which depends on what was grown and milled beside the oats, and on the country"
            if oats
            else f"nothing names the cereal of {doubtful[0][0].name}"
        )
        message = f"{claimed}, but {why}; ask your supplier, a laboratory and the local authority"
        yield Finding(place, Level.WARNING, message, gap=1.0, related=tuple(thing.path for thing, _ in doubtful))
        return
    message = (
        f"{claimed}: no gluten cereal is named in this recipe; ask about cross-contact in mill,"
        " sacks, yeast and brewhouse, and what the local law wants for the claim"
    )
    yield Finding(place, Level.NOTE, message)


def _without(words: tuple[_Words, ...], spellings: list[str]) -> tuple[_Words, ...]:
    """The places less what is said of little gluten, so that nothing of it passes for a claim of none."""
    found = []
    for place, text in words:
        left = text
        for spelling in spellings:
            left = left.replace(spelling, ",")
        found.append(_Words(place, left))
    return tuple(found)


def _little_gluten(brew: Brew, place: Path, *, very_low: bool) -> Iterator[Finding]:
    """A claim of little gluten, of which only a test says how much, and of which law knows few words."""
    holding = [(thing, cereal) for thing, cereal in _cereals(brew) if cereal in GLUTEN_CEREALS]
    what = " and ".join(_of(thing, cereal) for thing, cereal in holding[:2])
    holds = f", but it holds {what}; coeliac drinkers can fall ill from it" if holding else ""
    law = "in the EU only a tested 100 mg/kg may be called very low"
    if not very_low:
        law = "in the EU such words are not among the two that may be used"
    yield Finding(
        place,
        Level.WARNING if holding else Level.NOTE,
        f"claimed to be low in gluten{holds}; {law}, so ask a laboratory and the local authority",
        gap=1.0,
        related=tuple(thing.path for thing, _ in holding),
    )


def _of(thing: _Thing, cereal: str) -> str:
    return f"{thing.name} ({cereal})" if cereal not in words_of(thing.name) else thing.name


def _cereals(brew: Brew) -> Iterator[tuple[_Thing, str]]:
    """Each thing with its cereal; ``none`` for what is of no cereal, ``unknown`` where nothing says it."""
    for line in brew.recipe.grist:
        thing = _Thing((*line.path, line.group), line.name)
        entry = table_entry(line, brew.brewhouse)
        described = brew.brewhouse.ingredients.get(line.name)
        cereal = line.cereal or (described.cereal if described is not None else "")
        cereal = cereal or (entry.cereal if entry is not None else "") or _named(line.name)
        yield thing, cereal if cereal or line.group == "fruit" else "unknown"
    for one in brew.recipe.additions:
        yield _Thing(one.what.path, one.what), _named(one.what)


def _named(name: str) -> str:
    """A gluten cereal or oats that a name holds, malt by itself being of barley; else nothing."""
    said = words_of(name)
    if named := sorted(said & (GLUTEN_CEREALS | {"oat"})):
        return named[0]
    return "barley" if "malt" in said and not said & {"rice", "sorghum", "millet", "maize", "corn", "buckwheat"} else ""


_VEGAN = ("vegan", "vegans", "plant based", "no animal products", "free of animal products")
_VEGETARIAN = ("vegetarian", "vegetarians", "veggie", "veggies", "meat free")


def _animals(brew: Brew, words: tuple[_Words, ...]) -> Iterator[Finding]:
    """Vegans leave all that is of animals; vegetarians what an animal is killed for, and not milk, eggs or honey."""
    place, claim = _claim(words, *_VEGAN), "vegan"
    if place is None:
        place, claim = _claim(words, *_VEGETARIAN), "vegetarian"
    if place is None:
        return
    found = [
        (thing, group)
        for thing in _things(brew)
        for group in groups_of(thing.name)
        if (group.animal if claim == "vegan" else group.killed)
    ]
    if found:
        what = ", and ".join(group.behind(thing.name) for thing, group in found[:2])
        yield Finding(
            place,
            Level.ERROR,
            f"claimed to be {claim}, but {what}",
            gap=1.0,
            related=tuple(thing.path for thing, _ in found),
        )


def _alcohol(brew: Brew, words: tuple[_Words, ...], limits: Limits) -> Iterator[Finding]:
    claims = (*_free_of("alcohol"), "non alcoholic", "nonalcoholic", "0.0 %", "0.0%")
    if (place := _claim(words, *claims)) is None:
        return
    stated = brew.recipe.targets.abv
    try:
        figure = abv(brew)
    except Unknown:
        figure = None
    value = stated.range if stated.known else figure.range if figure is not None else None
    if value is None:
        return
    level = above(value, limits.alcohol_percent, harm=True)
    if not level and above(value, limits.strictest_alcohol_percent):
        level = Level.NOTE
    if not level:
        return
    limit = limits.alcohol_percent if level > Level.NOTE else limits.strictest_alcohol_percent
    if level is Level.WARNING:
        much = f"may come to {told(value.high, limit)}"
    else:
        much = f"{'states' if stated.known else 'comes to about'} {told(value.typical, limit)}"
    taken_out = any("dealcohol" in one.text or "de alcohol" in one.text for one in words)
    line = f"{number(limits.strictest_alcohol_percent, 3)} to {number(limits.alcohol_percent, 3)} %"
    yield Finding(
        place,
        Level.NOTE if taken_out else level,
        f"claimed to be free of alcohol, but it {much} % vol; countries draw the line at"
        f" {line}, and some drinkers must avoid all of it",
        gap=1.0,
        evidence=(row(figure),) if figure is not None and not stated.known else (),
    )


def _allergens(brew: Brew, words: tuple[_Words, ...]) -> Iterator[Finding]:
    """A claim against a group, or a group of which drinkers are not told."""
    held: dict[str, list[_Thing]] = {}
    groups = {}
    for thing in _things(brew):
        for group in groups_of(thing.name):
            if group.must_tell:
                groups[group.name] = group
                held.setdefault(group.name, []).append(thing)
    for name, things in held.items():
        group, first = groups[name], things[0]
        claims = _free_of(*group.claims)
        if (place := _claim(words, *claims)) is not None:
            message = (
                f"claimed to be free of {group.of}, but it holds {first.name}; somebody who is allergic can be hurt"
            )
            yield Finding(place, Level.ERROR, message, gap=1.0, related=tuple(thing.path for thing in things))
            continue
        untold = [thing for thing in things if not _tells(words, group, thing)]
        if untold:
            first = untold[0]
            yield Finding(
                first.path,
                Level.WARNING,
                f"with {first.name} it holds {group.of}, {_UNTOLD}",
                gap=1.0,
                related=tuple(thing.path for thing in untold[1:]),
                knobs=_telling(brew, f"contains {group.of} ({first.name})"),
            )


_SAYING = frozenset({
    "contain", "containing", "with", "has", "have", "hold", "holding", "include", "including", "added", "warning",
    "beware", "caution", "made", "brewed", "there", "allergen",
})  # fmt: skip
_OTHERWISE = frozenset({
    "taste", "tasting", "flavour", "flavor", "flavoured", "flavored", "aroma", "hint", "nose", "finish", "like",
    "serve", "served", "pair", "match", "colour", "color",
})  # fmt: skip
_LOOSE = frozenset({"nut"})  # said of the taste or the colour of beers that hold none
_TOLD_OF_TOO = GLUTEN_CEREALS | {"gluten", "sulfite", "sulphite"}
_NEAR = 12  # words and marks before a thing in which a "not" is looked for; judgement
_CLAUSE_ENDS = re.compile(r"[.;!?](?:\s|$)")
_TOKEN = re.compile(r"[^\W_]+(?:['\u2019][^\W_]+)?|[^\w\s]")


def _tells(words: tuple[_Words, ...], group: AllergenGroup, thing: _Thing) -> bool:
    """Whether a drinker is told of a thing: by its own word, by that of its group, or by a word on allergens."""
    return any(
        _clause_tells(clause, group, words_of(thing.name), in_notes=place == ("notes",))
        for place, text in words
        for clause in _CLAUSE_ENDS.split(text)
    )


def _clause_tells(clause: str, group: AllergenGroup, name: frozenset[str], *, in_notes: bool) -> bool:
    written = _TOKEN.findall(clause)
    said = [next(iter(words_of(word)), "") for word in written]
    own, of_group = (name & group.own_words) - _LOOSE, {*group.told} | words_of(group.of)
    if any(word.startswith("allerg") for word in said):
        return _on_allergens(said, own | of_group, group.name)
    whole_name = name if len(name) > 1 and name <= {*said} else frozenset()
    saying = not _SAYING.isdisjoint(said) and _OTHERWISE.isdisjoint(said)
    for at, word in enumerate(said):
        told = word in of_group and (saying or not (in_notes or word in _LOOSE))
        if not (told or word in own or word in whole_name):
            continue
        other_thing = group.unless - {"ale"} if word in of_group else group.unless  # cream ale, but milk ale is of milk
        beside = {*said[max(0, at - 1) : at], *said[at + 1 : at + 2]}
        if beside.isdisjoint(other_thing) and not _negated(" ".join(written[max(0, at - _NEAR) : at])):
            return True
    return False


def _on_allergens(said: list[str], told: set[str] | frozenset[str], group: str) -> bool:
    """A clause on allergens or on those who are allergic tells of what it names, or of all where it names nothing."""
    named = {one.name for word in said for one in groups_of(word)}
    if group in named or not told.isdisjoint(said):
        return True
    if named or not _TOLD_OF_TOO.isdisjoint(said):
        return False
    of_things = any(word.startswith("allergen") for word in said)
    return not (of_things and not {"no", "free", "without", "not", "zero"}.isdisjoint(said))


def _telling(brew: Brew, sentence: str) -> tuple[Knob, ...]:
    """A note to drinkers, added or put behind the one that is there."""
    notes = brew.recipe.notes
    if "\n" in notes or '"' in notes or "\\" in notes:
        return ()
    text = f"{notes}; {sentence}" if notes else sentence
    return (another_text(brew.recipe.notes.path, f'"{text}"', f"say it in the notes: {sentence}"),)


def _sulfites(brew: Brew, words: tuple[_Words, ...], whole: str) -> Iterator[Finding]:
    claimed = _claim(words, *_free_of("sulfite", "sulfites", "sulphite", "sulphites"))
    doses = sulfite(brew)
    if claimed is not None and doses:
        message = (
            f"claimed to be free of sulfite, but it holds {doses[0].text}; some people with asthma must avoid that"
        )
        yield Finding(claimed, Level.ERROR, message, gap=1.0, related=tuple(one.path for one in doses))
    elif claimed is not None:
        message = "claimed to be free of sulfite, but yeast makes some itself, so only a laboratory can tell"
        yield Finding(claimed, Level.NOTE, message)
    if claimed is not None or not doses or "sulfite" in whole or "sulphite" in whole:
        return
    amounts = [one.so2_mg for one in doses if one.so2_mg is not None]
    known = len(amounts) == len(doses)
    much = Range.exact(sum(amounts) / fermenter_volume(brew)[0].typical) if known else None
    limit = sulfite_label_mg_per_l()
    over = much is None or bool(above(much, limit))
    dose = f"up to {told(much.typical, limit)} mg/l" if much is not None else "an unknown amount"
    why = f"most labels must declare it above {number(limit, 3)} mg/l"
    if not over:
        why = f"up to {number(limit, 3)} mg/l most labels need not declare it"
    yield Finding(
        doses[0].path,
        Level.WARNING if over else Level.NOTE,
        f"{doses[0].text}: {dose} of sulfite, {_UNTOLD}; {why}",
        gap=1.0,
        evidence=tuple(
            Evidence(one.text, one.so2_mg, "mg of SO2", one.path) for one in doses if one.so2_mg is not None
        ),
        related=tuple(one.path for one in doses[1:]),
        # what may be gone by the time that the beer is drunk is nothing that it contains
        knobs=_telling(brew, "contains sulfite") if over and not all(one.in_water for one in doses) else (),
    )


SOUND = """\
recipe: Ropewalk Milk Stout
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.5 kg}
  - {grain: chocolate malt, weight: 300 g}
  - {sugar: lactose, weight: 400 g}
notes: contains lactose, a milk sugar
"""
FAULTY = Example(
    """\
recipe: Ropewalk Sweet Stout
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.5 kg}
  - {grain: chocolate malt, weight: 300 g}
  - {sugar: lactose, weight: 400 g}
""",
    "warning",
    7,
    13,
    "with lactose it holds milk, and no word in name, style or notes tells those who must avoid it",
)
