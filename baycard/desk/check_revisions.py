"""Proves that no signed revision has changed since it was signed."""

from baycard.desk.sign_off import pinned_checklists
from baycard.journal.freeze import freeze
from baycard.journal.standing import standing
from baycard.store.door import Store
from baycard.store.entries import entries_of_card
from baycard.store.revisions import all_revisions


def check_revisions(store: Store) -> list[str]:
    """What is wrong, one sentence each; an empty list when every freeze comes out as it was signed."""
    faults = []
    with store.read() as tx:
        for made in all_revisions(tx):
            entries = [kept.entry for kept in entries_of_card(tx, made.workshop, made.card, made.arrival)]
            if freeze(made.card, pinned_checklists(standing(entries)), entries) != made.sha256:
                faults.append(f"Revision {made.revision} of card {made.card} is not what was signed.")
    return faults
