"""Fails at import."""

import tundish_no_such_module  # noqa: F401
