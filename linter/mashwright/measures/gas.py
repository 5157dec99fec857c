"""Which gas lies on the beer: how much of a mixture is carbon dioxide.

What is taken: ``CO2``, ``30 % CO2``, ``70 % nitrogen``, ``30 % CO2 and 70 % N2``. Two numbers alone are asked about:
one page of the trade writes 70/30 for 70 % of carbon dioxide, others for 70 % of nitrogen [mixed-gas-pages].
"""

from mashwright.measures.refusals import SHOWN, QuantityError
from mashwright.patterns import pattern

_CO2, _N2 = "co2", "n2"
_NAMES = (("carbon dioxide", _CO2), ("carbonic acid", _CO2), ("nitrogen", _N2), ("co₂", _CO2), ("n₂", _N2))
_PART = r"(\d+(?:\.\d+)?) ?(?:%|percent|per cent)? ?(?:of )?(co2|n2)"
_PARTS = pattern(rf"{_PART}(?: ?(?:,|/|\+|and|in|with|-|:)? ?{_PART})?")
_NUMBER = pattern(r"\d+(?:\.\d+)?")


def co2_percent(text: str) -> float:
    """How much of a gas is carbon dioxide, % by volume.

    Raises:
        QuantityError: it does not say which gas is meant, or how much of it; says what to write instead.
    """
    plain = " ".join(text.casefold().split())
    for name, short in _NAMES:
        plain = plain.replace(name, short)
    bare = plain.removeprefix("pure ").removesuffix(" gas").strip()
    if bare in (_CO2, _N2):
        return 100.0 if bare == _CO2 else 0.0
    parts = _PARTS().fullmatch(plain)
    if parts is None:
        raise _which(text, plain)
    first, gas, second, other = parts.groups()
    share = float(first)
    if other is not None and (other == gas or abs(share + float(second) - 100) > 0.5):
        raise _refused(text, "does not add up to 100 % of CO2 and nitrogen", "write for instance 30 % CO2")
    if share > 100:
        raise _refused(text, "is more than all of the gas", "write for instance 30 % CO2")
    return share if gas == _CO2 else 100.0 - share


def _which(text: str, plain: str) -> QuantityError:
    """What to ask of a text that names no gas, or not how much of it."""
    numbers = _NUMBER().findall(plain)
    shares = [float(one) for one in numbers if 0 < float(one) < 100]
    if shares and len(shares) == len(numbers) <= 2:
        first, other = f"{shares[0]:g}", f"{100 - shares[0]:g}"
        return _refused(text, "does not say which part is CO2", f"write {first} % CO2 or {other} % CO2")
    return _refused(text, "does not say how much of it is CO2", "write for instance 30 % CO2, or CO2 where it is pure")


def _refused(text: str, fault: str, advice: str) -> QuantityError:
    return QuantityError(f'the gas "{text[:SHOWN]}" {fault}; {advice}', advice=advice)
