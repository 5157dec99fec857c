"""What a review found, whoever made its sentences."""

from mashwright.finding import Level
from mashwright.reading.document import Place
from mashwright.reviewing.results import Acceptance, EvidenceRow, Fault, RemedyRow, Result, Review


def test_each_sentence_is_one_line_in_which_all_can_be_seen() -> None:
    told = Result(
        "lot", Level.ERROR, "/a\nb", Place(1, 1, 1, 1), "the lot\r\n\u202eB-7 is unknown",
        evidence=(EvidenceRow("a\nb", "\x1b[2J", "\u200bkg", "/a\nb", 1), EvidenceRow("°", 1.5, "°", None, None)),
        remedies=(RemedyRow("leave\nit out", ()),), accepted=Acceptance("ran off\0well", ""),
    )  # fmt: skip
    assert told.message == "the lot\\r\\n\\u202eB-7 is unknown"
    assert told.evidence == (
        EvidenceRow("a\\nb", "\\x1b[2J", "\\u200bkg", "/a\nb", 1),
        EvidenceRow("°", 1.5, "°", None, None),
    )
    assert told.remedies == (RemedyRow("leave\\nit out", ()),)
    assert told.accepted == Acceptance("ran off\\x00well", "")
    assert told.pointer == "/a\nb"  # a fact, which each report writes in its own way
    assert Fault("run-off", "a.yaml", "ValueError: \n::x").message == "ValueError: \\n::x"
    assert Review((), remarks=("git is not\tfound",)).remarks == ("git is not\\tfound",)
