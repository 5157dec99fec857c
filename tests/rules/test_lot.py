"""Lots: unknown ones, those of something else, and certificates that cannot be true."""

from collections.abc import Callable

import pytest

import mashwright
from mashwright.brew.brew import Brew
from mashwright.reading.document import read_document
from mashwright.recipe.build import build_recipe
from mashwright.recipe.build_brewhouse import build_brewhouse
from mashwright.words.sentences import spoken
from mashwright_rules.grist import lot

Found = Callable[..., list[str]]

HOUSE = """\
lots:
  PM-0388: {of: two-row pale malt, diastatic-power: 112 °Lintner, extract-fine-dry: 80.9 %, moisture: 4.1 %}
  CM-0419: {of: caramel malt 40, colour: 41 °Lovibond, moisture: 4.6 %}
  EKG-25: {of: East Kent Golding, alpha: 5.2 %}
"""

PALE = "  - {grain: two-row pale malt, weight: 4 kg, lot: PM-0388}\n"


def recipe(*lines: str, hops: str = "") -> str:
    return f"recipe: Test Brew\nbatch: 20 l\ngrist:\n{''.join(lines)}{hops}"


def certified(of: str, certificate: str) -> str:
    return f"lots:\n  L1: {{of: {of}, {certificate}}}\n"


def test_lots_that_are_there_and_fit(found: Found) -> None:
    text = recipe(
        PALE,
        "  - {grain: crystal 40, weight: 300 g, lot: CM-0419}\n",
        hops="hops:\n  - {hop: East Kent Goldings, weight: 30 g, lot: EKG-25, boil: 60 min}\n",
    )
    assert found("lot", text, HOUSE) == []


def test_a_slip_in_the_number_names_the_nearest(found: Found) -> None:
    text = recipe(PALE, "  - {grain: caramel malt 40, weight: 300 g, lot: CM-0491}\n")
    assert found("lot", text, HOUSE) == [
        "5:50: warning: brewhouse.yaml has no lot CM-0491; did you mean CM-0419, of caramel malt 40?"
    ]


def test_a_number_like_no_other_is_not_guessed_at(found: Found) -> None:
    text = recipe("  - {grain: pale malt two row, weight: 4 kg, lot: 7}\n")
    assert found("lot", text, HOUSE) == [
        "4:51: warning: brewhouse.yaml has no lot 7; of pale malt two row it has PM-0388"
    ]
    text = recipe("  - {grain: two-row pale malt, weight: 4 kg, lot: XX-999}\n")
    assert found("lot", text, HOUSE) == [
        "4:51: warning: brewhouse.yaml has no lot XX-999; of two-row pale malt it has PM-0388"
    ]
    (finding,) = [one for one in mashwright.review_text(text).recipes[0].results if one.rule == "lot"]
    assert finding.remedies == ()


def test_a_number_like_nothing_at_all_lists_what_there_is(found: Found) -> None:
    text = recipe("  - {grain: raw wheat, weight: 4 kg, lot: X}\n")
    assert found("lot", text, HOUSE) == ["4:43: warning: brewhouse.yaml has no lot X; it has PM-0388, CM-0419, EKG-25"]


def test_the_slip_of_the_same_malt_comes_first(found: Found) -> None:
    house = "lots:\n  MU-12: {of: dark Munich malt}\n  PA-12: {of: pale ale malt}\n"
    assert found("lot", recipe("  - {grain: pale ale malt, weight: 4 kg, lot: PU-12}\n"), house) == [
        (
            "4:47: warning: brewhouse.yaml has no lot PU-12; did you mean PA-12, of pale ale malt or MU-12, of"
            " dark Munich malt?"
        )
    ]


def test_without_any_lots_it_is_a_note(found: Found) -> None:
    assert found("lot", recipe(PALE)) == [
        "4:51: note: no brewhouse.yaml here records lot PM-0388, so the tables' values are used for its analysis"
    ]


def test_of_another_malt(found: Found) -> None:
    text = recipe(PALE, "  - {grain: caramel malt 60, weight: 300 g, lot: CM-0419}\n")
    assert found("lot", text, HOUSE) == [
        "5:50: warning: lot CM-0419 is of caramel malt 40, but this line says caramel malt 60"
    ]


def test_of_a_base_malt_near_it_is_a_note(found: Found) -> None:
    text = recipe("  - {grain: pale malt, weight: 4 kg, lot: PM-0388}\n")
    assert found("lot", text, HOUSE) == [
        "4:43: note: lot PM-0388 is of two-row pale malt, but this line says pale malt"
    ]


@pytest.mark.parametrize(
    ("line", "of", "level"),
    [
        ("pale ale malt", "dark Munich malt", "warning"),
        ("pale ale malt", "light Munich malt", "warning"),
        ("dark Munich malt", "pale ale malt", "warning"),
        ("Pilsner malt", "smoked malt", "warning"),
        ("peated malt", "pale malt", "warning"),
        ("pale ale malt", "wheat malt", "warning"),
        ("pale ale malt", "Vienna malt", "note"),
        ("Pilsner malt", "two-row pale malt", "note"),
        ("light Munich malt", "dark Munich malt", "note"),
    ],
)
def test_of_another_base_malt(found: Found, line: str, of: str, level: str) -> None:
    text = recipe(f"  - {{weight: 4 kg, lot: L1, grain: {line}}}\n")
    assert found("lot", text, f"lots:\n  L1: {{of: {of}}}\n") == [
        f"4:25: {level}: lot L1 is of {of}, but this line says {line}"
    ]


def test_a_hop_that_names_another_hop_or_malt(found: Found) -> None:
    hops = "hops:\n  - {hop: Fuggle, lot: EKG-25, dry: 4 d}\n  - {hop: Fuggle, lot: PM-0388, dry: 4 d}\n"
    assert found("lot", recipe(PALE, hops=hops), HOUSE) == [
        "6:24: warning: lot EKG-25 is of East Kent Golding, but this line says Fuggle",
        "7:24: warning: lot PM-0388 is of two-row pale malt, but this line says Fuggle",
    ]


def test_a_malt_that_names_a_lot_of_hops(found: Found) -> None:
    assert found("lot", recipe("  - {grain: pale malt, weight: 4 kg, lot: EKG-25}\n"), HOUSE) == [
        "4:43: warning: lot EKG-25 is of East Kent Golding, but this line says pale malt"
    ]


def test_a_name_of_the_houses_own(found: Found) -> None:
    assert found("lot", recipe("  - {grain: Jetty pale, weight: 4 kg, lot: PM-0388}\n"), HOUSE) == []


CERTIFICATES = {
    "enzymes on caramel malt": (
        ("caramel malt 40", "diastatic-power: 100 °Lintner"),
        "warning: lot L1 has 100 °Lintner of diastatic power, but caramel malt has almost none; is it its colour?",
    ),
    "a little of it, as a laboratory may find": (("caramel malt 40", "diastatic-power: 12 °Lintner"), ""),
    "°WK for °Lintner": (
        ("two-row pale malt", "diastatic-power: 320 °Lintner"),
        "warning: lot L1 has 320 °Lintner of diastatic power, more than any malt; did you mean 320 °WK?",
    ),
    "hardly any on pale malt": (
        ("two-row pale malt", "diastatic-power: 20 °Lintner"),
        "warning: lot L1 has 20 °Lintner of diastatic power, but two-row pale malt has 100-160 °Lintner",
    ),
    "wet": (
        ("two-row pale malt", "moisture: 40 %"),
        "warning: lot L1 has 40 % of moisture; above 15 % grain goes mouldy, and mould can poison",
    ),
    "damp, but as raw grain is sold": (("raw wheat", "moisture: 14 %"), ""),
    "malt as damp as raw grain": (
        ("pale ale malt", "moisture: 14 %"),
        "warning: lot L1 has 14 % of moisture, but malt is sold with at most 6 %; this damp it goes slack and mouldy",
    ),
    "a sack that stood open": (("pale ale malt", "moisture: 7.5 %"), ""),
    "caramel malt, which is sold damper": (("caramel malt 20", "moisture: 8.5 %"), ""),
    "sorghum malt, dried in the sun": (("sorghum malt", "moisture: 12 %"), ""),
    "roasted malt out of the drum": (("black malt", "moisture: 1.5 %"), ""),
    "drier than a kiln": (
        ("pale ale malt", "moisture: 0.4 %"),
        "warning: lot L1 has 0.4 % of moisture, drier than a kiln leaves any malt",
    ),
    "extract that no malt gives, dry": (
        ("pale ale malt", "extract-fine-dry: 95 %"),
        "warning: lot L1 has 95 % of fine-grind extract dry, but pale ale malt has 80.5-83 %",
    ),
    "extract that no malt gives, as is": (
        ("pale ale malt", "extract-fine-as-is: 95 %"),
        "warning: lot L1 has 95 % of fine-grind extract as is, but pale ale malt has 77.3-80.9 %",
    ),
    "the same in litre-degrees": (
        ("pale ale malt", "extract-coarse-as-is: 365 l°/kg"),
        "warning: lot L1 has 365 l°/kg of coarse-grind extract as is, but pale ale malt has 298-312 l°/kg",
    ),
    "two extracts too high are one complaint": (
        ("pale ale malt", "extract-fine-dry: 95 %, extract-coarse-dry: 94 %"),
        "warning: lot L1 has 95 % of fine-grind extract dry, but pale ale malt has 80.5-83 %",
    ),
    "extract of half a malt": (
        ("pale ale malt", "extract-fine-dry: 60 %"),
        "warning: lot L1 has 60 % of fine-grind extract dry, but pale ale malt has 80.5-83 %",
    ),
    "a very good harvest": (("pale ale malt", "extract-fine-dry: 85 %, extract-fine-as-is: 82 %"), ""),
    "a poor harvest, coarsely ground": (("two-row pale malt", "extract-coarse-dry: 74 %"), ""),
    "English sheets": (("pale ale malt", "extract-fine-as-is: 308 l°/kg, moisture: 3.2 %"), ""),
    "rice, which is nearly all starch": (("rice", "extract-fine-dry: 95 %, moisture: 12 %"), ""),
    "EBC for °Lovibond": (
        ("caramel malt 40", "colour: 105 °Lovibond"),
        "warning: lot L1 has a colour of 105 °Lovibond, but caramel malt 40 has 35-45 °Lovibond; did you mean 105 EBC?",
    ),
    "colour of another malt": (
        ("chocolate malt", "colour: 40 °Lovibond"),
        "warning: lot L1 has a colour of 40 °Lovibond, but chocolate malt has 300-490 °Lovibond",
    ),
    "more as is than dry": (
        ("two-row pale malt", "extract-fine-dry: 77 %, extract-fine-as-is: 81 %"),
        "error: lot L1 has 81 % of fine-grind extract as is and 77 % dry, which is not possible",
    ),
    "as is and moisture disagree": (
        ("two-row pale malt", "extract-fine-dry: 81 %, extract-fine-as-is: 74 %, moisture: 4 %"),
        "warning: lot L1 has 74 % of fine-grind extract as is, but 81 % dry at 4 % of moisture gives 77.8 %",
    ),
    "as is and moisture agree": (
        ("two-row pale malt", "extract-fine-dry: 81 %, extract-fine-as-is: 77.5 %, moisture: 4 %"),
        "",
    ),
    "coarse above fine": (
        ("two-row pale malt", "extract-fine-dry: 79 %, extract-coarse-dry: 81 %"),
        "warning: lot L1 gives more in the coarse grind, 81 % dry, than in the fine, 79 %",
    ),
    "alpha acid in malt": (
        ("two-row pale malt", "alpha: 5 %"),
        "warning: lot L1 has 5 % of alpha acid, which only hops have",
    ),
    "two at once are one finding": (
        ("caramel malt 40", "diastatic-power: 100 °Lintner, moisture: 40 %"),
        (
            "warning: lot L1 has 100 °Lintner of diastatic power, but caramel malt has almost none; is it its"
            " colour?; and it has 40 % of moisture; above 15 % grain goes mouldy, and mould can poison"
        ),
    ),
}


@pytest.mark.parametrize("case", CERTIFICATES)
def test_certificates(found: Found, case: str) -> None:
    (of, certificate), message = CERTIFICATES[case]
    text = recipe(f"  - {{weight: 4 kg, lot: L1, grain: {of}}}\n", f"  - {{weight: 1 kg, lot: L1, grain: {of}}}\n")
    assert found("lot", text, certified(of, certificate)) == ([f"4:25: {message}"] if message else [])


@pytest.mark.parametrize(
    ("certificate", "message"),
    [
        ("alpha: 5.2 %", ""),
        ("alpha: 52 %", "warning: lot L1 has 52 % of alpha acid, more than any hop"),
        ("alpha: 14 %", "warning: lot L1 has 14 % of alpha acid, but Saaz has 2.5-4.5 %"),
        ("diastatic-power: 5 °Lintner", "warning: lot L1 has 5 °Lintner of diastatic power, which only malt has"),
    ],
)
def test_certificates_of_hops(found: Found, certificate: str, message: str) -> None:
    text = recipe("  - {grain: pale malt, weight: 4 kg}\n", hops="hops:\n  - {lot: L1, hop: Saaz, dry: 4 d}\n")
    assert found("lot", text, certified("Saaz", certificate)) == ([f"6:11: {message}"] if message else [])


def test_the_lots_own_word_is_used(found: Found) -> None:
    text = recipe("  - {grain: pale malt, weight: 4 kg}\n", hops="hops:\n  - {lot: L1, hop: Golding, dry: 4 d}\n")
    assert found("lot", text, certified("Golding", "alpha: 15 %")) == [
        "6:11: warning: lot L1 has 15 % of alpha acid, but Golding has 4-6 %"
    ]


@pytest.mark.parametrize("of", ["Cashmere", "Styrian Fox"])
def test_a_certificate_is_not_doubted_from_memory(found: Found, of: str) -> None:
    hops = f"hops:\n  - {{lot: L1, hop: {of}, dry: 4 d}}\n"
    text = recipe("  - {grain: pale malt, weight: 4 kg}\n", hops=hops)
    assert found("lot", text, certified(of, "alpha: 3 %")) == []


@pytest.mark.parametrize(
    ("dates", "today", "message"),
    [
        ("expires: 2026-06-30", "2026-06-30", ""),
        (
            "expires: 2026-06-30",
            "2026-07-01",
            "expired on 2026-06-30; taste it before weighing, and expect less than its certificate says",
        ),
        ("expires: 2026-06-30", "", ""),
        ("analysed: 2026-09-02", "2026-06-01", "was analysed on 2026-09-02, which is in the future"),
        (
            "analysed: 2026-09-02, expires: 2026-06-30",
            "2026-10-01",
            "was analysed on 2026-09-02, after it had expired on 2026-06-30",
        ),
    ],
)
def test_dates_against_the_day_of_the_review(dates: str, today: str, message: str) -> None:
    document = read_document(recipe("  - {grain: two-row pale malt, weight: 4 kg, lot: L1}\n"))
    house = build_brewhouse(read_document(certified("two-row pale malt", dates)))[0]
    brew = Brew(build_recipe(document)[0], house, document, today=today)
    said = [spoken(lot.SAYS, finding.message) for finding in lot.check(brew, lot.Limits())]
    assert said == ([f"lot L1 {message}"] if message else [])


def test_a_hops_lot_is_never_offered_for_grain(found: Found) -> None:
    """Nor is it accepted there, whatever the line is called."""
    wrong = recipe("  - {grain: two-row pale malt, weight: 4 kg, lot: EKG-24}\n")
    (told,) = found("lot", wrong, HOUSE)
    assert "did you mean" not in told
    for name in ("two-row pale malt", "Wharf Red Special", "Wharf Red Special, kind: base malt"):
        line = f"  - {{grain: {name}, weight: 4 kg, lot: EKG-25}}\n"
        (told,) = found("lot", recipe(line), HOUSE)
        assert "warning: lot EKG-25 is of East Kent Golding, but this line says" in told


def test_the_number_of_a_hops_lot_is_no_grain(found: Found) -> None:
    text = recipe("  - {grain: EKG-25, weight: 4 kg}\n")
    assert [one.split(": ")[1] for one in found("unknown_ingredient", text, HOUSE)] == ["warning"]
