"""Regular expressions that are compiled when they are first needed.

To compile one takes as long as reading twenty recipes, and most are for what few recipes have. Imports nothing of ours.
"""

import re
from collections.abc import Callable
from functools import cache


def pattern(expression: str, flags: re.RegexFlag = re.NOFLAG) -> Callable[[], re.Pattern[str]]:
    """What gives the compiled expression, each time the same; made of a constant of a module."""

    @cache
    def compiled() -> re.Pattern[str]:
        return re.compile(expression, flags)

    return compiled
