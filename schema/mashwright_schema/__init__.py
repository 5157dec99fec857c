"""The JSON Schemas of a recipe and of a brewhouse (draft 2020-12), for the program and for editors.

Beside the standard keywords a subschema may carry ``errorMessage``, an annotation that editors show: the sentence for
a value that breaks the keywords next to it.
"""

from functools import cache
from importlib.util import find_spec
from typing import Any
