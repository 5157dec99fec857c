"""Parts of a recipe from the hops on: yeast, fermentation, package, what the author says it gives."""

from mashwright.budgets import PACKAGES
from mashwright.measures.quantity import Kind, QuantityError
from mashwright.measures.range import Range
from mashwright.reading.nodes import Mapping, Scalar, Sequence
from mashwright.recipe.build_mash import amounts, build_batch
from mashwright.recipe.cursor import Cursor
from mashwright.recipe.model import (
    Accepted,
    Addition,
    Aeration,
    Amount,
    Batch,
    BrewDay,
    Chill,
    FermentStep,
    Hop,
    Package,
    Priming,
    Souring,
    Spund,
    Targets,
    Yeast,
)
from mashwright.recipe.stated import Lines, Said, Stated, Text

_VESSELS = {"bottle": "bottles"}


def hop_addition(hop: Cursor) -> Hop:
    return Hop(
        hop.path,
        name=hop.text("hop"),
        weight=hop.quantity("weight", Kind.MASS),
        alpha_units=hop.quantity("alpha-units", Kind.ALPHA_UNITS),
        bitterness=hop.quantity("bitterness", Kind.BITTERNESS),
        alpha=hop.quantity("alpha", Kind.SHARE),
        lot=hop.text("lot"),
        form=_singular(hop.choice("form", "hop")),
        age=hop.quantity("age", Kind.TIME),
        harvest=hop.text("harvest"),
        mash=hop.flag("mash") is True,
        first_wort=hop.flag("first-wort") is True,
        boil=hop.quantity("boil", Kind.TIME),
        whirlpool=hop.quantity("whirlpool", Kind.TIME),
        at=hop.quantity("at", Kind.TEMPERATURE),
        to=hop.quantity("to", Kind.TEMPERATURE),
        dry=hop.quantity("dry", Kind.TIME),
    )


def _singular(form: Text) -> Text:
    return Text(form.removesuffix("s"), form.path) if form.endswith("s") else form


def addition(addition: Cursor) -> Addition:
    return Addition(
        addition.path,
        what=addition.text("what"),
        weight=addition.quantity("weight", Kind.MASS, addition.text("what")),
        volume=addition.quantity("volume", Kind.VOLUME),
        count=addition.quantity("count", Kind.COUNT),
        when=addition.text("when"),
    )


def chilled(chill: Cursor) -> Chill:
    return Chill(*chill.section, by=chill.choice("by", "chill"), time=chill.quantity("for", Kind.TIME))


def soured(souring: Cursor) -> Souring:
    return Souring(
        *souring.section,
        culture=souring.text("with"),
        place=souring.choice("in", "souring"),
        at=souring.quantity("at", Kind.TEMPERATURE),
        time=souring.quantity("for", Kind.TIME),
        start_ph=souring.quantity("start-ph", Kind.PH),
        ph=souring.quantity("ph", Kind.PH),
    )


def yeasts(top: Cursor) -> Lines[Yeast]:
    found = top.find("yeast")
    if found is not None and isinstance(found[1], Mapping):
        return Lines.at((*top.path, "yeast"), (_yeast(top.inside("yeast")),))
    return top.items("yeast", _yeast)


def _yeast(yeast: Cursor) -> Yeast:
    return Yeast(
        yeast.path,
        kind=yeast.text("kind"),
        attenuation=yeast.quantity("attenuation", Kind.SHARE),
        tolerance=yeast.quantity("tolerance", Kind.SHARE),
        flocculation=yeast.choice("flocculation", "yeast-fields"),
        diastatic=yeast.flag("diastatic"),
        pitch=yeast.quantity("pitch", Kind.PITCH),
        viability=yeast.quantity("viability", Kind.SHARE),
        starter=yeast.quantity("starter", Kind.VOLUME),
        at=yeast.quantity("at", Kind.TEMPERATURE),
    )


def aerated(aeration: Cursor) -> Aeration:
    return Aeration(
        *aeration.section,
        by=aeration.choice("by", "aeration"),
        oxygen=aeration.quantity("oxygen", Kind.CONCENTRATION),
        times=aeration.quantity("times", Kind.COUNT),
    )


def ferment_step(step: Cursor) -> FermentStep:
    return FermentStep(
        step.path,
        at=step.quantity("at", Kind.TEMPERATURE),
        to=step.quantity("to", Kind.TEMPERATURE),
        time=step.quantity("for", Kind.TIME),
        enzymes=amounts(step, "enzymes", ""),
    )


def first_package(top: Cursor) -> Package:
    """The package; of several the first."""
    return _packaged(top.item("package", 0))


def other_packages(top: Cursor) -> Lines[Package]:
    """The packages behind the first; of more than there can be none is judged."""
    found = top.find("package")
    if found is None or not isinstance(found[1], Sequence):
        return Lines.at(("package",))
    if len(found[1].items) > PACKAGES:
        return top.too_many("package")
    return top.items("package", _packaged, 1)


def _packaged(package: Cursor) -> Package:
    return Package(
        *package.section,
        vessel=_vessel(package.text("in")),
        share=package.quantity("share", Kind.SHARE),
        volume=package.quantity("volume", Kind.VOLUME),
        count=package.quantity("count", Kind.COUNT),
        size=package.quantity("size", Kind.VOLUME),
        carbonation=package.quantity("carbonation", Kind.CARBONATION),
        priming=_priming(package.inside("priming")),
        spund=_spund(package.inside("spund")),
        gas=_gas(package),
        pressure=package.quantity("pressure", Kind.PRESSURE),
        at=package.quantity("at", Kind.TEMPERATURE),
        bottle_rating=package.quantity("bottle-rating", Kind.BOTTLE_RATING),
        gravity=package.quantity("gravity", Kind.GRAVITY),
    )


def _gas(package: Cursor) -> Stated:
    found = package.scalar("gas")
    if not isinstance(found, tuple):
        return found
    from mashwright.measures.gas import co2_percent  # few recipes say which gas

    path, scalar = found
    try:
        percent = co2_percent(scalar.text)
    except QuantityError as error:
        return package.refused(path, scalar, error.message)
    return Said(Kind.SHARE, Range.exact(percent), "%", scalar.text, path=path)


def _vessel(text: Text) -> Text:
    return Text(_VESSELS[text], text.path) if text in _VESSELS else text


def _priming(priming: Cursor) -> Priming:
    group = next((key for key in ("sugar", "extract", "wort") if priming.has(key)), "")
    return Priming(
        *priming.section,
        name=priming.text(group) if group else Text("", priming.path),
        group=group,
        weight=priming.quantity("weight", Kind.MASS, "sugar"),
        rate=priming.quantity("rate", Kind.DOSE),
        each=priming.quantity("each", Kind.MASS, "sugar"),
        bottle=priming.quantity("bottle", Kind.VOLUME),
        volume=priming.quantity("volume", Kind.VOLUME),
        gravity=priming.quantity("gravity", Kind.GRAVITY),
        attenuation=priming.quantity("attenuation", Kind.SHARE),
    )


def _spund(spund: Cursor) -> Spund:
    return Spund(
        *spund.section,
        gravity=spund.quantity("gravity", Kind.GRAVITY),
        pressure=spund.quantity("pressure", Kind.PRESSURE),
        at=spund.quantity("at", Kind.TEMPERATURE),
    )


def stated_targets(targets: Cursor) -> Targets:
    return Targets(
        *targets.section,
        og=targets.quantity("og", Kind.GRAVITY),
        fg=targets.quantity("fg", Kind.GRAVITY),
        abv=targets.quantity("abv", Kind.SHARE),
        bitterness=targets.quantity("bitterness", Kind.BITTERNESS),
        colour=targets.quantity("colour", Kind.BEER_COLOUR),
        pre_boil_gravity=targets.quantity("pre-boil-gravity", Kind.GRAVITY),
        first_wort_gravity=targets.quantity("first-wort-gravity", Kind.GRAVITY),
        attenuation=targets.quantity("attenuation", Kind.SHARE),
    )


def brew_day(day: Cursor) -> BrewDay:
    found = day.find("batch")
    if found is not None and isinstance(found[1], Scalar):
        batch = Batch((*day.path, "batch"), fermenter=day.quantity("batch", Kind.VOLUME))
    else:
        batch = build_batch(day.inside("batch"))
    return BrewDay(day.path, day.text("date"), stated_targets(day), batch, _temperatures(day))


def _temperatures(day: Cursor) -> Lines[Amount]:
    inner = day.inside("temperatures")
    names = [name.text for name, _ in inner.node.entries] if inner.node is not None else []
    return inner.lines(
        Amount((*inner.path, name), Text(name, (*inner.path, name)), inner.quantity(name, Kind.TEMPERATURE))
        for name in names
    )


def build_accepted(item: Cursor) -> Accepted:
    """A suppression, in a recipe or a brewhouse."""
    return Accepted(
        item.path, rule=item.text("rule"), reason=item.text("reason"), until=item.text("until"), where=item.text("in")
    )
