import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mashwright.ingredients import styles
from mashwright.ingredients.fermentables import Fermentable, everything
from mashwright.ingredients.hops import Hop
from mashwright.ingredients.kinds import YeastSort
from mashwright.ingredients.lookup import (
    fermentable,
    hop,
    hop_alpha,
    nearest,
    normalised,
    style,
    unknown,
    yeast,
)
from mashwright.ingredients.styles import Bounds, OtherEdition, Style
from mashwright.ingredients.tables import blocks
from mashwright.ingredients.yeasts import Yeast
from mashwright.measures.range import Range


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Two-Row Pale Malt", "pale malts, 2 row"),
        ("Kölsch malt", "koelsch-malt"),
        ("flaked corn", "MAIZE FLAKES"),
        ("brewer's malt", "Brewers’ malts"),
        ("raspberries", "raspberry"),
        ("rice husks", "hulls of rice"),
        ("caramel malt 60L", "60 °L caramel malt"),
        ("potatoes", "potato"),
    ],
)
def test_ways_to_write_one_name(one: str, other: str) -> None:
    assert normalised(one) == normalised(other) != ""


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=40))
def test_any_text_is_looked_up_without_complaint(name: str) -> None:
    for look_up, table in ((fermentable, "fermentables"), (hop, "hops"), (yeast, "yeasts"), (style, "styles")):
        found = look_up(name)
        assert found is None or look_up(found.name) == found
        assert set(nearest(name, table, 1)) <= set(blocks(table))


def test_a_key_is_the_sorted_set_of_words() -> None:
    assert normalised("Malted Wheat (malt), unmalted corn") == "maize malt raw wheat"


@pytest.mark.parametrize("name", ["", " ", "°", "of the", "no such thing", "porter", "60", "\U0001f37a", "x" * 9999])
def test_a_name_that_none_claims_is_not_found(name: str) -> None:
    assert fermentable(name) is None


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("wheat", "raw wheat"),
        ("hulls", "rice hulls"),
        ("chocolate", "chocolate malt"),
        ("crystal wheat", "caramel wheat malt"),
        ("oats", "flaked oats"),
        ("light Munich", "light Munich malt"),
        ("Munich malt", "light Munich malt"),
        ("English chocolate malt", "chocolate malt"),
        ("german vienna", "Vienna malt"),
        ("pale crystal malt", "caramel malt 20"),
        ("pale caramel malt", "caramel malt 10"),
        ("crystal malt (60 Lovibond)", "caramel malt 60"),
        ("caramel 60 °L", "caramel malt 60"),
        ("C-60", "caramel malt 60"),
        ("crystal malt 150 EBC", "caramel malt 60"),
        ("corn grits", "maize grits"),
        ("white table sugar", "table sugar"),
    ],
)
def test_a_name_finds_the_entry_that_a_brewer_means(name: str, found: str) -> None:
    entry = fermentable(name)
    assert entry is not None
    assert entry.name == found


def test_a_caramel_malt_between_two_is_on_the_line() -> None:
    pale, dark, between = fermentable("crystal 60"), fermentable("caramel malt 75"), fermentable("Crystal 65L")
    assert pale is not None
    assert dark is not None
    assert between is not None
    assert between.name == "caramel malt 65"
    assert between.kind == "caramel malt"
    assert between.power_lintner == Range.exact(0)
    assert between.colour_lovibond is not None
    assert between.colour_lovibond.typical == pytest.approx(65)
    assert set(dict(between.sources)["colour"]) == set(dict(pale.sources)["colour"]) | set(dict(dark.sources)["colour"])
    assert fermentable("caramel malt 5") is None
    assert fermentable("crystal 200") is None


def test_an_entry_whole() -> None:
    assert fermentable("raw wheat") == Fermentable(
        name="raw wheat",
        kind="raw grain",
        cereal="wheat",
        malted=False,
        pregelatinised=False,
        husk=False,
        needs_mash="yes",
        extract_dry=Range(76, 80, 85),
        moisture=Range(9.6, 12, 13.5),
        power_lintner=Range(0, 0, 0),
        colour_lovibond=Range(low=1.0, typical=1.5, high=2.0),
        gelatinises_c=Range(52, 58.5, 65),
        max_share=50,
        protein=11.5,
        fermentable=None,
        sources=(
            ("kind", ("by-definition",)),
            ("cereal", ("by-definition",)),
            ("malted", ("by-definition",)),
            ("pregelatinised", ("common-practice",)),
            ("husk", ("common-practice",)),
            ("needs-mash", ("common-practice",)),
            ("extract", ("palmer-2001", "from-memory")),
            ("moisture", ("usda-sr28", "from-memory")),
            ("diastatic-power", ("trade-dp-list", "common-practice")),
            ("colour", ("from-memory",)),
            ("gelatinises", ("iob-gel", "faltermaier-2014")),
            ("max-share", ("common-practice", "allaboutbeer-grain")),
            ("protein", ("usda-sr28",)),
        ),
    )


def test_a_hop_a_yeast_and_a_style_whole() -> None:
    assert hop("us cascades") == Hop(
        name="Cascade",
        origin="United States",
        status="public breeding programme",
        alpha=Range(low=4.5, typical=6.7, high=8.9),
        beta=Range(low=3.6, typical=5.55, high=7.5),
        storage_loss=Range(low=48.0, typical=54.0, high=60.0),
        sources=(
            ("origin", ("by-definition",)),
            ("status", ("common-practice",)),
            ("alpha", ("usda-21092", "hbd-profiles")),
            ("beta", ("usda-21092",)),
            ("storage-loss", ("usda-21092", "hbd-profiles")),
        ),
    )
    assert yeast("English bitter yeast") == Yeast(
        name="English ale",
        species="Saccharomyces cerevisiae",
        sort=YeastSort.ALE,
        quick=False,
        attenuation=Range(low=65.0, typical=71.0, high=77.0),
        tolerance=Range(low=8.0, typical=9.0, high=10.0),
        temperature_c=Range(low=18.0, typical=20.0, high=22.0),
        flocculation="medium to high",
        splits="no",
        sources=(
            ("species", ("by-definition",)),
            ("sort", ("by-definition",)),
            ("attenuation", ("yeast-supplier-pages", "from-memory")),
            ("tolerance", ("yeast-supplier-pages",)),
            ("temperature", ("ale-lager-temp", "yeast-supplier-pages")),
            ("flocculation", ("byo-yeast",)),
            ("quick", ("from-memory",)),
            ("splits", ("from-memory",)),
        ),
    )
    assert style("US pale ale") == Style(
        name="American pale ale",
        edition="judge programme 2021",
        code="18B",
        og=Bounds(low=1.045, high=1.06),
        fg=Bounds(low=1.01, high=1.015),
        abv=Bounds(low=4.5, high=6.2),
        ibu=Bounds(low=30.0, high=50.0),
        srm=Bounds(low=5.0, high=10.0),
        others=(
            OtherEdition(
                edition="trade association 2026",
                bounds=(
                    ("og", Bounds(low=1.044, high=1.05)),
                    ("fg", Bounds(low=1.008, high=1.014)),
                    ("abv", Bounds(low=4.4, high=5.4)),
                    ("ibu", Bounds(low=30.0, high=50.0)),
                    ("srm", Bounds(low=4.0, high=7.0)),
                ),
                sources=(
                    ("og", ("trade-2026",)),
                    ("fg", ("trade-2026",)),
                    ("abv", ("trade-2026",)),
                    ("ibu", ("trade-2026",)),
                    ("srm", ("trade-2026",)),
                ),
            ),
        ),
        sources=(
            ("edition", ("judge-2021-text", "judge-2021-data", "judge-2021-pt")),
            ("code", ("judge-2021-text", "judge-2021-data", "judge-2021-pt")),
            ("og", ("judge-2021-text", "judge-2021-data", "judge-2021-pt")),
            ("fg", ("judge-2021-text", "judge-2021-data", "judge-2021-pt")),
            ("abv", ("judge-2021-text", "judge-2021-data", "judge-2021-pt")),
            ("ibu", ("judge-2021-text", "judge-2021-data", "judge-2021-pt")),
            ("srm", ("judge-2021-text", "judge-2021-data", "judge-2021-pt")),
        ),
    )


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("POR", "Pride of Ringwood"),
        ("WGV", "Whitbread Golding Variety"),
        ("EKG", "East Kent Golding"),
        ("US Golding", "US Golding"),
        ("OR55", "Keyworth's Midseason"),
        ("huell melon", "Hüll Melon"),
        ("Mt. Rainier", "Mount Rainier"),
        ("NZ Cascade", "Taiheke"),
        ("nelson", "Nelson Sauvin"),
    ],
)
def test_a_cultivar_by_the_letters_that_brewers_write(name: str, found: str) -> None:
    entry = hop(name)
    assert entry is not None
    assert entry.name == found


def test_a_name_without_a_figure_is_known_all_the_same() -> None:
    entry = hop("Styrian Fox")
    assert entry is not None
    assert (entry.alpha, entry.beta, entry.storage_loss) == (None, None, None)


def test_what_is_lost_in_storage_is_the_rest_of_what_is_kept() -> None:
    """USDA, accession 21287 (Banner): 43 % of the alpha acids were left after six months."""
    banner = hop("Banner")
    assert banner is not None
    assert banner.storage_loss == Range.exact(57)


def test_memory_alone_is_not_compared_with() -> None:
    remembered, printed, partly = hop("Cashmere"), hop("Banner"), hop("Glacier")
    assert remembered is not None
    assert printed is not None
    assert partly is not None
    assert (remembered.alpha, remembered.alpha_to_compare) == (Range(7.5, 8.5, 9.5), None)
    assert printed.alpha_to_compare == printed.alpha == Range(8.4, 10.7, 13)
    assert partly.alpha_to_compare == Range(5, 6, 7)


def test_what_an_unknown_hop_may_have_is_what_more_than_memory_says() -> None:
    """The lowest is that of old aroma hops, the highest that of Polaris by its breeding institute [lfl-hochalpha]."""
    alpha = hop_alpha()
    assert (alpha.low, alpha.high) == (2, 21.3)
    assert 6 < alpha.typical < 10


def test_what_is_open_upwards_has_no_high() -> None:
    porter = style("imperial porter")
    assert porter is not None
    assert porter.srm == Bounds(40, None)


def test_carbonation_spans_its_sources() -> None:
    kind = styles.carbonation("witbier")
    assert kind is not None
    assert (kind.kind, kind.volumes, kind.by_source) == (
        "Witbier",
        Range(2.1, 2.35, 2.6),
        (("co2-style-list", Range(2.1, 2.35, 2.6)),),
    )
    assert styles.carbonation("grape ale") is None


@pytest.mark.parametrize(
    ("name", "table", "first"),
    [
        ("flacked maize", "fermentables", "flaked maize"),
        ("pale mlat two-row", "fermentables", "two-row pale malt"),
        ("choclate malt", "fermentables", "chocolate malt"),
        ("Vienna mlt", "fermentables", "Vienna malt"),
        ("caramel malt 200", "fermentables", "caramel malt 150"),
        ("crystal 5", "fermentables", "caramel malt 10"),
        ("East Kent Goulding", "hops", "East Kent Golding"),
        ("Cascad", "hops", "Cascade"),
        ("saisson", "yeasts", "saison"),
        ("Belgian duble", "styles", "Belgian dubbel"),
    ],
)
def test_the_nearest_name(name: str, table: str, first: str) -> None:
    names = nearest(name, table)
    assert names[0] == first
    assert len(names) <= 3


def test_nothing_is_near_to_nonsense() -> None:
    assert nearest("qqqqqq", "fermentables") == ()


def test_a_stand_in_spans_its_kind() -> None:
    grits = unknown("grits", "corn")
    assert (grits.name, grits.kind, grits.cereal, grits.malted, grits.husk, grits.needs_mash) == (
        "grits (maize)", "grits", "maize", False, False, "yes",
    )  # fmt: skip
    malt = unknown("base-malts")
    assert malt.power_lintner == Range(15, 90, 233)
    for one in everything():
        if one.kind == "base malt":
            assert one.power_lintner is not None
            assert one.power_lintner.low >= 15
            assert one.power_lintner.high <= 233
    assert unknown("raw grain").cereal == "unknown"
    assert unknown("raw grain").husk is None
    assert unknown("sugar").cereal == "none"
    assert not malt.from_memory("extract")


def test_a_stand_in_needs_a_kind_that_exists() -> None:
    with pytest.raises(ValueError, match="'heavy malt' is no kind; known are base malt, "):
        unknown("heavy malt")
    with pytest.raises(ValueError, match="'barleycorn' is no cereal; known are barley, "):
        unknown("raw grain", "barleycorn")
