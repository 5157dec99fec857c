import pytest

from mashwright.finding import Level
from mashwright.reading.document import Place
from mashwright.reading.editing import Replacement
from mashwright.reading.nodes import Span
from mashwright.reviewing.results import (
    Acceptance,
    Counts,
    EditRow,
    EvidenceRow,
    Fault,
    RemedyRow,
    Result,
    Review,
    Reviewed,
    RuleInfo,
    SaidRow,
)

PAGE = """Is there enough enzyme in the mash to turn its starch into sugar?

Only malts that were kilned gently keep the enzymes
that split starch.

On the day: a drop of iodine.
"""


@pytest.fixture
def enzymes() -> Result:
    """A warning with a sum, two remedies and a further place."""
    weight = EditRow("/grist/0/weight", "1.62 kg", Replacement(Span(80, 86), "1.62 kg"), Place(9, 13, 9, 19))
    rest = EditRow("/mash/rests/0/for", "90 min", Replacement(Span(200, 206), "90 min"), Place(17, 22, 17, 28))
    return Result(
        "enzyme-sufficiency",
        Level.WARNING,
        "/grist",
        Place(7, 1, 7, 6),
        "the mash averages 24 °Lintner; below 30 its starch does not convert",
        gap=0.2000004,
        said=(SaidRow("hopeless", {"power": {"text": "24", "value": 24.0000004, "unit": "°Lintner"}, "limit": "30"}),),
        evidence=(
            EvidenceRow("two-row pale malt, 1.2 kg", 110.0, "°Lintner", "/grist/0", 8),
            EvidenceRow("raw wheat, 3.5 kg", 0.0, "°Lintner", "/grist/1", 10),
            EvidenceRow("what enters the mash", "4.7 kg", "", None, None),
        ),
        remedies=(
            RemedyRow("1.62 kg of two-row pale malt instead of 1.2 kg; OG 1.048 to 1.052", (weight,)),
            RemedyRow("rest 90 min instead of 60 and weigh 1.62 kg of two-row pale malt", (rest, weight)),
        ),
        related=(("/mash/rests/0", 17), ("/grist/0", 8)),
        identity="enzyme-sufficiency /grist",
    )


@pytest.fixture
def doubt() -> Result:
    """A note that nobody has accepted."""
    message = "raw wheat is 42 % of the grist; above 40 % the run-off is slow"
    return Result("adjunct-share", Level.NOTE, "/grist/1", Place(10, 5, 10, 10), message, gap=0.05, state="new")


@pytest.fixture
def accepted() -> Result:
    """An error that somebody accepted."""
    return Result(
        "original-gravity",
        Level.ERROR,
        "/targets/og",
        Place(30, 7, 30, 12),
        "this grist gives 1.048 at most; 1.090 is stated",
        gap=0.875,
        accepted=Acceptance("the old book counts its gravities so", "2027-12-31"),
        state="unchanged",
        identity="original-gravity /targets/og",
    )


@pytest.fixture
def review(enzymes: Result, doubt: Result, accepted: Result) -> Review:
    """Three recipes, one of them clean, and a rule that failed."""
    return Review(
        (
            Reviewed("house/harbour wheat.yaml", "Harbour Wheat", (enzymes, doubt)),
            Reviewed("house/mild.yaml", "Marsh Mild", ()),
            Reviewed("old/größe.yaml", "", (accepted,)),
        ),
        faults=(Fault("run-off", "house/mild.yaml", "division by zero"),),
        counts=Counts(reviewed=3, skipped=1, warnings=1, notes=1, accepted=1),
        rules=(
            RuleInfo("enzyme-sufficiency", PAGE.partition("\n")[0], PAGE),
            RuleInfo("run-off", "does it run off?", ""),
        ),
    )
