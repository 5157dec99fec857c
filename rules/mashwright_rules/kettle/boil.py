"""Is the boil long enough for what it must do, and for its hop additions?

Boiling drives off dimethyl sulfide, a taste of cooked maize. It forms from what
malt contains, and malt kilned as gently as Pilsner malt contains most of that.
The boil also throws protein out of the wort, and makes hops bitter. No hops can
boil longer than the wort.

What is checked: the stated length of the boil, against each hop addition and
against the malt in the mash.

- error: a hop addition is longer than the boil; a warning where a stated
  range leaves it open. First-wort and mash hops do not count.
- warning: the wort of a mash is not boiled (0 min), so it keeps what lived on
  the malt; its hops give hardly any bitterness
- note: not boiled, but name, style, notes or yeast tell of a beer made so,
  such as raw ale, some sour beers and old ones
- note: not boiled, in a recipe with a `source` that is from before 1900, or
  whose source says "old" without a year
- note: no boil is stated, and all hops go into the mash or onto the beer
  (some of them into the mash)
- note: below 60 min, where more than 50 % of the mashed grain is Pilsner
  malt, or barley base malt below 2 °Lovibond. Some boil hard for half an
  hour, and cool quickly.
- note: below 20 min, for any wort from a mash
- skipped: no length of the boil is stated, apart from the case above; for
  wort without a mash all but the hop additions; a hop addition above 24 h (a
  slip)

On the day: boil with the lid off, and cool quickly afterwards. Watch the first
minutes and each hop addition: a boil-over scalds. After a short boil, keep
everything cleaner than ever. Wort that is not boiled: hold it above 75 °C for
at least 15 min. Pitch plenty of yeast the same day. Keep the beer cold and
drink it young. Before you give it to others, ask an expert and keep to local
food rules.

Sources: [common-practice] [oxford-evaporation] [home-brewery-hazards]
[judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, Part, number
from mashwright.ingredients.kinds import Cereal, Group, IngredientKind, Place
from mashwright.knobs import stated_instead
from mashwright.measures import Kind, Range, said
from mashwright.recipe.model import Hop
from mashwright.recipe.stated import Said
from mashwright.rule import Example, Finding, Level, Limit, Settings, above, below, gap, say
from mashwright.words.vocabulary import mentions


class Limits(Settings):
    """What is compared with."""

    pale_min = Limit(60, "min", low=15, high=120, source="common-practice")
    pale_share_percent = Limit(50, "%", low=10, high=100, source="judgement")
    palest_lovibond = Limit(2.0, "°Lovibond", low=1, high=4, source="judgement")
    shortest_min = Limit(20, "min", low=0, high=60, source="judgement")
    longest_min = Limit(1440, "min", low=300, high=10000, source="judgement")
    old_before = Limit(1900, "", low=1500, high=2000, source="judgement")


SAYS = {
    "short-for-pale": "a boil of {time} is short for {malt} and may leave a taste of"
    " cooked maize (dimethyl sulfide); {usual} is usual",
    "short": "a boil of {time} is short for wort from a mash, which needs at least {least} min; is this on purpose?",
    "no-boil": "with a boil of {time} the wort is not sterile, so it may spoil; is this on purpose?",
    "no-boil-for-hops": "with a boil of {time} the hops give hardly any bitterness and the wort is not sterile, so it"
    " may spoil; is this on purpose?",
    "never-boiled": "these hops go into the mash or onto the beer, and no boil is stated; unboiled wort is not"
    " sterile, and its hops give hardly any bitterness; is the wort boiled?",
    "hops-boil-longer": "{hop} cannot boil for {time} in a boil of {boil}",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    boil = brew.recipe.boil
    if not boil.known:
        yield from _never_boiled(brew)
        return
    if not boil.time.known:
        return
    minutes = boil.time.range
    for hop in brew.recipe.hops:
        if hop.boil.known and hop.boil.range.typical <= limits.longest_min and not hop.first_wort and not hop.mash:
            yield from _hop(hop, hop.boil, boil.time)
    malts = _malts(brew)
    if not malts:
        return
    path = boil.time.path
    if minutes.high <= 0:
        yield from _unboiled(brew, boil.time, limits)
        return
    pale = [part for part in malts if _is_pale(part, limits)]
    share = Range.exact(100 * sum(part.amount for part in pale) / sum(part.amount for part in malts))
    if above(share, limits.pale_share_percent) and below(minutes, limits.pale_min):
        usual = said(limits.pale_min, boil.time.unit, Kind.TIME)
        most = max(pale, key=lambda part: part.amount)
        message = say("short-for-pale", time=boil.time, malt=most.name, usual=usual)
        yield Finding(path, Level.NOTE, message, gap(minutes, limits.pale_min), related=tuple(one.path for one in pale))
    elif below(minutes, limits.shortest_min):
        message = say("short", time=boil.time, least=number(limits.shortest_min))
        yield Finding(path, Level.NOTE, message, gap(minutes, limits.shortest_min))


def _malts(brew: Brew) -> list[Part]:
    return [part for part in brew.placed(Place.MASH) if part.group == Group.GRAIN and not part.hulls]


def _unboiled(brew: Brew, time: Said, limits: Limits) -> Iterator[Finding]:
    """A stated boil of no time at all."""
    hops = [hop for hop in brew.recipe.hops if not hop.dry.known]
    if any(hop.boil.known and hop.boil.range.typical > 0 for hop in hops):
        return  # said of those hops
    message = say("no-boil-for-hops" if hops else "no-boil", time=time)
    level = Level.NOTE if _meant(brew, limits) else Level.WARNING
    yield Finding(time.path, level, message, gap=1.0, knobs=(stated_instead(time.path, time, _USUAL_MIN, "boil for"),))


_USUAL_MIN = 60.0  # what is offered in place of no boil; common practice


def _never_boiled(brew: Brew) -> Iterator[Finding]:
    """No boil is stated, and what is done with the hops speaks of none."""
    hops, boil = brew.recipe.hops, brew.recipe.boil
    if (boil.mentioned and not boil.known) or not any(hop.mash for hop in hops):
        return
    if all(hop.mash or hop.dry.known for hop in hops) and _malts(brew):
        yield Finding(brew.recipe.hops.path, Level.NOTE, say("never-boiled"), gap=1.0)


def _meant(brew: Brew, limits: Limits) -> bool:
    """Whether the recipe tells of a beer that is brewed without a boil, or of an old one."""
    return brew.intent.raw or brew.intent.old(limits.old_before)


def _is_pale(part: Part, limits: Limits) -> bool:
    """A base malt kilned as Pilsner malt is, by its name or its colour."""
    if part.kind != IngredientKind.BASE_MALT:
        return False
    if mentions("pale-as-pilsner", "ingredient", part.table_name):
        return True
    colour = part.line.colour
    return colour.known and colour.range.typical < limits.palest_lovibond and part.cereal == Cereal.BARLEY


def _hop(hop: Hop, time: Said, boil: Said) -> Iterator[Finding]:
    # the favourable end is the shorter addition in the longer boil
    if not (level := above(time.range, boil.range.high)):
        return
    path = hop.boil.path
    message = say("hops-boil-longer", hop=hop.name, time=time, boil=boil)
    longer = stated_instead(boil.path, boil, time.range.typical, "boil for")
    shorter = stated_instead(path, time, boil.range.typical, "boil the hops for")
    yield Finding(path, level, message, gap(time.range, boil.range.typical), (), (boil.path,), (longer, shorter))


SOUND = """\
recipe: Lighter Pilsner
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.5 kg}
boil: {for: 75 min}
hops:
  - {hop: Saaz, weight: 60 g, alpha: 3.5 %, boil: 60 min}
"""
FAULTY = Example(
    """\
recipe: Lighter Pilsner
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.5 kg}
boil: {for: 75 min}
hops:
  - {hop: Saaz, weight: 60 g, alpha: 3.5 %, boil: 90 min}
""",
    "error",
    8,
    51,
    "Saaz cannot boil for 90 min in a boil of 75 min",
)
