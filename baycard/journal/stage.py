"""How far a card has come."""

from collections.abc import Mapping, Sequence

from baycard.journal.digest import digest
from baycard.journal.entry import Entry
from baycard.journal.standing import Standing
from baycard.journal.types import Stage, StageIs

STAGES: Mapping[str, StageIs] = {"handed-in": "handed-in", "sent-back": "sent-back", "signed-off": "signed"}
"""The kinds that may stand in the slot `stage`."""


def stage_of(standing: Standing, entries: Sequence[Entry]) -> Stage:
    """The stage from what stands in the slot `stage`; a signed card also says whether its entries are still those."""
    stand = standing.get("stage", ())
    if len(stand) > 1:
        return Stage("disagreement", standing=stand)
    if not stand:
        return Stage("walking")
    entry = stand[0]
    changed_since = entry.kind == "signed-off" and _is_changed(entry, entries)
    return Stage(STAGES[entry.kind], entry, changed_since)


def _is_changed(sign_off: Entry, entries: Sequence[Entry]) -> bool:
    ids = {entry.id for entry in entries} - {sign_off.id}
    return (len(ids), digest(ids)) != (sign_off.body["count"], sign_off.body["digest"])
