"""Do the recipe's claims agree with what those must know who avoid something?

A name or note that says free of gluten, vegan, vegetarian, free of milk or of
alcohol is believed. People fall ill if it is wrong, or hold to it for their
faith or conscience. Lactose, nuts or sulfite hurt those who are allergic, when
nobody tells them: nothing of it is seen in the glass.

What is checked: the claims in name, style and notes, without those that have a
"not" before them. They are compared with the cereals of the grist, the
additions, and the alcohol of the beer. Claims of no gluten are known in ten
languages, as GF, and as a beer that is meant for coeliac drinkers.

- error: no gluten claimed beside barley, wheat, rye and their kin, whatever
  enzyme is used; no test proves a fermented drink free of it
- warning: the same beside oats, or where the cereal of a grain is not named
- note: the same where no gluten cereal is named
- warning: little gluten claimed (low, reduced, very low) beside a gluten
  cereal; a note without one
- error: something of animals beside "vegan"; beside "vegetarian" what an
  animal is killed for (isinglass, gelatine), not milk, eggs or honey
- error: a claim to be free of an allergen that is there, sulfite too;
  "nut-free" speaks of peanuts too
- note: a claim to be free of sulfite where none is added; yeast makes some
- warning: milk, nuts, peanuts, eggs, crustaceans, molluscs, soya and the
  like, and no word to drinkers
- warning: more than 10 mg/l of sulfite, or an unknown amount, and no word;
  less is a note. In brewing water it counts only above 0.02 g/l of the salt.
- free of alcohol claimed: error above 0.5 % vol, warning if that is possible,
  note above 0.05 % vol or where the recipe says dealcoholised

A word to drinkers is the thing's own (hazelnut), its group's in name or style
(milk stout), or that in a sentence of the notes which says that the beer
contains it or speaks of allergens. A nut brown ale tells of no nuts, and
"contains nuts" tells of no peanuts. Only what is true of the recipe is offered
to be written.

On the day: tell everybody what is in it before they drink, on the label or
aloud, and let those who are allergic decide. What is in the mill, the sacks,
the yeast and the lines counts too. What may be claimed is law, and differs from
country to country; only tests by a competent laboratory and the local authority
can settle it.

Sources: [codex-118] [eu-828-2014] [eu-828-2014-german] [gluten-poland-2019]
[fda-85-fr-49240] [ttb-2020-2] [oats-allergen-wiki] [ttb-notice-62]
[fsanz-schedule-9] [eu-1333-2008] [us-sulfite-label] [from-memory]
"""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import Brew, described_by, kind_of, number, table_entry, told
from mashwright.figures.beer import abv, sulfite
from mashwright.figures.mash import fermenter_volume
from mashwright.ingredients.allergens import GLUTEN_CEREALS, cereal_named, groups_of
from mashwright.ingredients.allergens import Group as Allergens
from mashwright.ingredients.allergens_told import is_told
from mashwright.ingredients.kinds import Cereal, Group, Sort
from mashwright.ingredients.sulfite_limits import label_mg_per_l as sulfite_label_mg_per_l
from mashwright.knobs import Knob, another_text
from mashwright.measures import Range
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Path, Settings, Unknown, above, row, say
from mashwright.words.claims import COELIAC, LOW, VERY_LOW
from mashwright.words.tokens import words_of


class Limits(Settings):
    """What is compared with."""

    alcohol_percent = Limit(0.5, "% vol", low=0.05, high=1.2, source="from-memory")
    strictest_alcohol_percent = Limit(0.05, "% vol", low=0, high=0.5, source="from-memory")


class _Thing(NamedTuple):
    """One thing that goes in, and where its name stands."""

    path: Path
    name: str


SAYS = {
    "coeliac": "meant for coeliac drinkers",
    "no-gluten-claimed": "claimed to be free of gluten",
    "holds-gluten": ", but it contains {what}; gluten makes coeliac drinkers ill, no"
    " enzyme changes that, and food law forbids the claim",
    "holds-oats": ", but it contains {oats}; whether oats may carry that claim depends on what was grown and milled"
    " beside them, and on the country; ask your supplier, a laboratory and the local authority",
    "nameless-cereal": ", but the cereal of {grain} is not named; ask your"
    " supplier, a laboratory and the local authority",
    "no-gluten-cereal": ": this recipe names no gluten cereal; ask about cross-contact in mill, sacks, yeast and"
    " brewhouse, and what the local law needs for the claim",
    "low-gluten": "claimed to be low in gluten",
    "low-gluten-holds": "claimed to be low in gluten, but it contains {what}; coeliac drinkers can fall ill from it",
    "very-low-in-law": "in the EU only a tested 100 mg/kg may be called very low, so"
    " ask a laboratory and the local authority",
    "low-in-law": "in the EU these are not among the two terms allowed, so ask a laboratory and the local authority",
    "of-animals": "claimed to be {claim}, but {what}",
    "may-hold-alcohol": "claimed to be free of alcohol, but it may contain {alcohol} % vol",
    "states-alcohol": "claimed to be free of alcohol, but it states {alcohol} % vol",
    "holds-alcohol": "claimed to be free of alcohol, but it contains about {alcohol} % vol",
    "alcohol-in-law": "countries draw the line at {least} to {most} %, and some drinkers must avoid all of it",
    "free-of": "claimed to be free of {group}, but it contains {thing}; someone who is allergic can be hurt",
    "untold": "with {thing} it contains {group}; name, style and notes do not warn of it",
    "sulfite-free": "claimed to be free of sulfite, but it contains {dose}; some people with asthma must avoid it",
    "sulfite-of-yeast": "claimed to be free of sulfite, but yeast makes some itself, so"
    " only a laboratory can measure it",
    "sulfite": "{dose}: up to {sulfite} mg/l of sulfite; name, style and notes do not warn of it",
    "unknown-sulfite": "{dose}: an unknown amount of sulfite; name, style and notes do not warn of it",
    "must-declare": "most labels must declare it above {limit} mg/l",
    "need-not-declare": "up to {limit} mg/l most labels need not declare it",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from _gluten(brew)
    yield from _animals(brew)
    yield from _alcohol(brew, limits)
    yield from _allergens(brew)
    yield from _sulfites(brew)


def _place(brew: Brew, where: str) -> Path:
    """Where a text that speaks to drinkers stands."""
    recipe = brew.recipe
    return {"name": recipe.name, "style": recipe.style, "notes": recipe.notes}[where].path


def _things(brew: Brew) -> Iterator[_Thing]:
    recipe = brew.recipe
    for line in recipe.grist:
        yield _Thing((*line.path, line.group), line.name)
    for one in recipe.additions:
        yield _Thing(one.what.path, one.what)
    if recipe.souring.known and recipe.souring.culture:
        yield _Thing(recipe.souring.culture.path, recipe.souring.culture)
    for priming in (one.priming for one in recipe.packages):
        if priming.known and priming.name:
            yield _Thing((*priming.path, priming.group), priming.name)


def _groups(brew: Brew, thing: _Thing) -> tuple[Allergens, ...]:
    """What some drinkers must avoid in a thing, by its name and by what the brewhouse says it is."""
    kind = kind_of(brew.brewhouse, Sort.GRIST, thing.name)
    return tuple(dict.fromkeys((*groups_of(thing.name), *groups_of(kind))))


def _gluten(brew: Brew) -> Iterator[Finding]:
    if (claim := brew.intent.to_drinkers.gluten()) is None:
        return
    what, place = claim[0], _place(brew, claim[1])
    if what in (VERY_LOW, LOW):
        yield from _little_gluten(brew, place, very_low=what == VERY_LOW)
        return
    claimed = say("coeliac" if what == COELIAC else "no-gluten-claimed")
    cereals = list(_cereals(brew))
    holding = [(thing, cereal) for thing, cereal in cereals if cereal in GLUTEN_CEREALS]
    if holding:
        what = " and ".join(_of(thing, cereal) for thing, cereal in holding[:2])
        message = claimed.and_then(say("holds-gluten", what=what))
        yield Finding(place, Level.ERROR, message, gap=1.0, related=tuple(thing.path for thing, _ in holding))
        return
    doubtful = [(thing, cereal) for thing, cereal in cereals if cereal in (Cereal.OAT, Cereal.UNKNOWN)]
    if doubtful:
        oats = [thing.name for thing, cereal in doubtful if cereal == Cereal.OAT]
        why = say("holds-oats", oats=oats[0]) if oats else say("nameless-cereal", grain=doubtful[0][0].name)
        message = claimed.and_then(why)
        yield Finding(place, Level.WARNING, message, gap=1.0, related=tuple(thing.path for thing, _ in doubtful))
        return
    yield Finding(place, Level.NOTE, claimed.and_then(say("no-gluten-cereal")))


def _little_gluten(brew: Brew, place: Path, *, very_low: bool) -> Iterator[Finding]:
    """A claim of little gluten, of which only a test says how much, and of which law knows few words."""
    holding = [(thing, cereal) for thing, cereal in _cereals(brew) if cereal in GLUTEN_CEREALS]
    what = " and ".join(_of(thing, cereal) for thing, cereal in holding[:2])
    message = say("low-gluten-holds", what=what) if holding else say("low-gluten")
    yield Finding(
        place,
        Level.WARNING if holding else Level.NOTE,
        message.and_then(say("very-low-in-law" if very_low else "low-in-law")),
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
        described = described_by(line, brew.brewhouse)
        cereal = line.cereal or (described.cereal if described is not None else "")
        cereal = cereal or (entry.cereal if entry else "") or cereal_named(line.name)
        yield thing, cereal if cereal or line.group == Group.FRUIT else Cereal.UNKNOWN
    for one in brew.recipe.additions:
        kind = kind_of(brew.brewhouse, Sort.GRIST, one.what)
        yield _Thing(one.what.path, one.what), cereal_named(one.what) or cereal_named(kind)


def _animals(brew: Brew) -> Iterator[Finding]:
    """Vegans leave all that is of animals; vegetarians what an animal is killed for, and not milk, eggs or honey."""
    claims = ((brew.intent.to_drinkers.claims(claim), claim) for claim in ("vegan", "vegetarian"))
    where, claim = next((one for one in claims if one[0]), ("", ""))
    if not where:
        return
    found = [
        (thing, group)
        for thing in _things(brew)
        for group in _groups(brew, thing)
        if (group.animal if claim == "vegan" else group.killed)
    ]
    if found:
        what = ", and ".join(group.behind(thing.name) for thing, group in found[:2])
        yield Finding(
            _place(brew, where),
            Level.ERROR,
            say("of-animals", claim=claim, what=what),
            gap=1.0,
            related=tuple(thing.path for thing, _ in found),
        )


def _alcohol(brew: Brew, limits: Limits) -> Iterator[Finding]:
    if not (where := brew.intent.to_drinkers.claims("alcohol-free")):
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
        message = say("may-hold-alcohol", alcohol=told(value.high, limit))
    else:
        message = say("states-alcohol" if stated.known else "holds-alcohol", alcohol=told(value.typical, limit))
    taken_out = brew.intent.to_drinkers.mentions("dealcoholised")
    least, most = number(limits.strictest_alcohol_percent, 3), number(limits.alcohol_percent, 3)
    yield Finding(
        _place(brew, where),
        Level.NOTE if taken_out else level,
        message.and_then(say("alcohol-in-law", least=least, most=most)),
        gap=1.0,
        evidence=(row(figure),) if figure is not None and not stated.known else (),
    )


def _allergens(brew: Brew) -> Iterator[Finding]:
    """A claim against a group, or a group of which drinkers are not told."""
    held: dict[str, list[_Thing]] = {}
    groups = {}
    for thing in _things(brew):
        for group in _groups(brew, thing):
            if group.must_tell:
                groups[group.name] = group
                held.setdefault(group.name, []).append(thing)
    for name, things in held.items():
        group, first = groups[name], things[0]
        if where := brew.intent.to_drinkers.claims_free_of(group.claims):
            message = say("free-of", group=group.of, thing=first.name)
            related = tuple(thing.path for thing in things)
            yield Finding(_place(brew, where), Level.ERROR, message, gap=1.0, related=related)
            continue
        untold = [thing for thing in things if not is_told(brew.intent.to_drinkers, group, thing.name)]
        if untold:
            first = untold[0]
            yield Finding(
                first.path,
                Level.WARNING,
                say("untold", thing=first.name, group=group.of),
                gap=1.0,
                related=tuple(thing.path for thing in untold[1:]),
                knobs=_telling(brew, f"contains {group.of} ({first.name})"),
            )


def _telling(brew: Brew, sentence: str) -> tuple[Knob, ...]:
    """A note to drinkers, added or put behind the one that is there."""
    notes = brew.recipe.notes
    if "\n" in notes or '"' in notes or "\\" in notes:
        return ()
    text = f"{notes}; {sentence}" if notes else sentence
    return (another_text(brew.recipe.notes.path, f'"{text}"', f"add to the notes: {sentence}"),)


def _sulfites(brew: Brew) -> Iterator[Finding]:
    claimed, doses = brew.intent.to_drinkers.claims("sulfite-free"), sulfite(brew)
    if claimed and doses:
        message = say("sulfite-free", dose=doses[0].text)
        related = tuple(one.path for one in doses)
        yield Finding(_place(brew, claimed), Level.ERROR, message, gap=1.0, related=related)
    elif claimed:
        yield Finding(_place(brew, claimed), Level.NOTE, say("sulfite-of-yeast"))
    if claimed or not doses or brew.intent.to_drinkers.mentions("speaks-of-sulfite"):
        return
    amounts = [one.so2_mg for one in doses if one.so2_mg is not None]
    known = len(amounts) == len(doses)
    much = Range.exact(sum(amounts) / fermenter_volume(brew)[0].typical) if known else None
    limit = sulfite_label_mg_per_l()
    over = much is None or bool(above(much, limit))
    if much is not None:
        message = say("sulfite", dose=doses[0].text, sulfite=told(much.typical, limit))
    else:
        message = say("unknown-sulfite", dose=doses[0].text)
    why = say("must-declare" if over else "need-not-declare", limit=number(limit, 3))
    yield Finding(
        doses[0].path,
        Level.WARNING if over else Level.NOTE,
        message.and_then(why),
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
    "with lactose it contains milk; name, style and notes do not warn of it",
)
