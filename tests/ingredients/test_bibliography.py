import re
from pathlib import Path

import pytest

from mashwright.ingredients import tables
from mashwright.ingredients.bibliography import Source, source, sources


def test_a_source_whole() -> None:
    assert source("cutaia-2009") == Source(
        "cutaia-2009",
        "A. J. Cutaia, A.-J. Reid, R. A. Speers, Examination of the relationships between original, real and apparent "
        "extracts, and alcohol, J. Inst. Brew. 115(4) (2009) 318-327, tables III and VI",
        "https://www.scribd.com/document/855181129",
    )


def test_a_key_that_is_not_there() -> None:
    with pytest.raises(KeyError):
        source("no-such-source")


@pytest.mark.parametrize("key", ["common-practice", "from-memory", "by-definition", "judgement", "jcgm-100-2008"])
def test_the_keys_that_name_no_page_are_there(key: str) -> None:
    assert source(key).citation


def test_each_stands_once_in_order_and_says_something() -> None:
    keys = [one.key for one in sources()]
    assert keys == sorted(keys)
    assert len(keys) == len(tables.lines("sources")) > 300
    for one in sources():
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", one.key), one
        assert len(one.citation) > 8, one
        assert '"' not in one.citation, one
        assert one.where == "" or re.fullmatch(r"https?://\S+", one.where), one
    assert len({one.citation for one in sources()}) == len(keys), "no source stands under two keys"


def test_nothing_stands_there_that_nobody_cites() -> None:
    top = Path(__file__).parent.parent.parent
    files = [one for folder in ("linter", "rules", "tests") for one in (top / folder).rglob("*.*")]
    files = [one for one in files if one.suffix in (".py", ".csv") and one.stem != "sources"]
    texts = (one.read_text(encoding="utf-8") for one in files)
    cited = {word for text in texts for word in re.findall(r"[a-z0-9]+(?:-[a-z0-9]+)*", text)}
    assert [one.key for one in sources() if one.key not in cited] == []
