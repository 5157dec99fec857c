"""How tests run here: hypothesis takes the same examples each time, without a clock, since others may slow a machine;
and an interrupt reaches the processes of a test, also where a shell has started the tests behind itself, deaf to it.
"""

import gc
import signal

from hypothesis import settings

settings.register_profile("repeatable", deadline=None, derandomize=True)
settings.load_profile("repeatable")
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)


def pytest_collection_finish() -> None:
    """What all the tests' own libraries hold is not searched for rubbish while one of them is timed."""
    gc.collect()
    gc.freeze()
