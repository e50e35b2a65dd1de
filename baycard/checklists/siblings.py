"""The other checks of the checklist, as a check sees them."""

from collections.abc import Sequence
from dataclasses import dataclass

from baycard.checklists.types import Check


@dataclass(frozen=True, slots=True)
class Siblings:
    """All sound checks in walking order; `written` holds the ids of the broken ones too."""

    stations: Sequence[str]
    checks: Sequence[Check]
    written: Sequence[str]

    def find(self, id: str) -> Check | None:
        """The sound check of this id."""
        return next((check for check in self.checks if check.id == id), None)

    def comes_before(self, id: str, other: str) -> bool:
        """Whether the check `id` is written above the check `other`."""
        return self.written.index(id) < self.written.index(other)
