"""What each role may do, in one table."""

from typing import Literal

from baycard.store.values import Role

Deed = Literal["record", "send-back", "sign-off", "send-report", "take-in", "manage-devices", "manage-people"]

MAY: dict[Deed, frozenset[Role]] = {
    "record": frozenset({"technician", "foreman", "owner"}),
    "send-back": frozenset({"foreman", "owner"}),
    "sign-off": frozenset({"foreman", "owner"}),
    "send-report": frozenset({"foreman", "owner"}),
    "take-in": frozenset({"foreman", "owner"}),
    "manage-devices": frozenset({"foreman", "owner"}),
    "manage-people": frozenset({"owner"}),
}


def may(role: Role, deed: Deed) -> bool:
    """Whether a role may do a deed."""
    return role in MAY[deed]
