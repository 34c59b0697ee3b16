"""Quantities: numbers that know their kind and unit, read strictly and converted exactly.

Two JSON forms are read: ``{"value": 18, "unit": "kW"}`` and ``"18 kW"``. Nothing else: an assumed
unit is how people get hurt.
"""

from tundish.quantities.kinds import (
    KINDS,
    Kind,
    UnknownSpellingError,
    add_spelling,
    conversion,
    from_si,
    kind,
    rounded_bound,
    to_si,
)
from tundish.quantities.reading import QuantityError, read_quantity, read_text

__all__ = [
    "KINDS",
    "Kind",
    "QuantityError",
    "UnknownSpellingError",
    "add_spelling",
    "conversion",
    "from_si",
    "kind",
    "read_quantity",
    "read_text",
    "rounded_bound",
    "to_si",
]
