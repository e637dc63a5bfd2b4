"""How many random plans a promise is tried on: few in the suite, thousands when asked (TRIES=100 make test ...)."""

import os


def tries(count: int) -> int:
    """Return the number of examples for a test that asks for so many in the suite."""
    return count * max(1, int(os.environ.get("TRIES", "1")))
