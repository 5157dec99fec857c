"""How hypothesis runs here: the same examples each time, and no clock, since other work may slow a machine down."""

from hypothesis import settings

settings.register_profile("repeatable", deadline=None, derandomize=True)
settings.load_profile("repeatable")
