"""Where a value, a formula or a rule comes from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final

KINDS: Final = (
    "standard",
    "regulation",
    "official-guidance",
    "handbook",
    "textbook",
    "worked-example",
    "dataset",
    "library",
    "derivation",
    "common-practice",
)
CONFIRMED: Final = ("seen", "seen-reproduced", "computed", "derived", "memory", "disputed")
UNCONFIRMED: Final = frozenset({"memory", "disputed"})


@dataclass(frozen=True)
class Source:
    """A citation: the document, its edition, the place in it, and how far we have confirmed it."""

    id: str
    kind: str
    document: str
    edition: str
    locator: str
    confirmed: str
    seen_in: str | None = None
    computed_with: str | None = None
    url: str | None = None

    def __post_init__(self) -> None:
        """Refuse a kind or a degree of confirmation outside the vocabulary."""
        if self.kind not in KINDS:
            message = f"source {self.id}: kind {self.kind!r} is not one of {KINDS}"
            raise ValueError(message)
        if self.confirmed not in CONFIRMED:
            message = f"source {self.id}: confirmed {self.confirmed!r} is not one of {CONFIRMED}"
            raise ValueError(message)

    def as_json(self) -> dict[str, Any]:
        """Return the citation as it stands in a result; absent members are left out."""
        return self._json.copy()

    @cached_property
    def _json(self) -> dict[str, Any]:
        members = {
            "id": self.id,
            "kind": self.kind,
            "document": self.document,
            "edition": self.edition,
            "locator": self.locator,
            "confirmed": self.confirmed,
            "seen_in": self.seen_in,
            "computed_with": self.computed_with,
            "url": self.url,
        }
        return {key: value for key, value in members.items() if value is not None}
