"""How a site's meters stand above one another."""

from __future__ import annotations

from collections.abc import Iterable

from ..document.document import Document
from .outages import path_of


class Tree:
    """The supplies of a document, for questions about what lies above and below what."""

    def __init__(self, document: Document) -> None:
        self.paths = {supply: path_of(document, supply) for supply in document.supplies}

    def is_below(self, supply: str, other: str) -> bool:
        """Whether water of `supply` comes through `other`, and they are not the same."""
        return supply != other and other in self.paths[supply]

    def source(self, supply: str) -> str:
        return self.paths[supply][-1]

    def shared(self, supplies: Iterable[str]) -> str | None:
        """The lowest supply that feeds or is each of these; None where they have different sources."""
        first, *others = supplies
        return next((node for node in self.paths[first] if all(node in self.paths[other] for other in others)), None)

    def highest(self, supplies: Iterable[str], below: str) -> list[str]:
        """Those of the supplies that lie below one, without those that lie below another of them."""
        found = {supply for supply in supplies if self.is_below(supply, below)}
        return sorted(one for one in found if not any(self.is_below(one, other) for other in found))

    def nearest(self, supply: str, metered: Iterable[str]) -> str | None:
        """The first of the metered supplies above this one."""
        known = set(metered)
        return next((node for node in self.paths[supply][1:] if node in known), None)

    def below(self, supply: str, metered: Iterable[str]) -> list[str]:
        """The metered supplies right below this one, with no meter between."""
        return self.highest(metered, supply)
