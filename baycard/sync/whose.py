"""Whose a photo or sound is: it is taken where the entry that mentions it is taken, and nowhere else."""

from typing import Literal

from baycard.store.door import Store
from baycard.store.entries import owners_of_cards
from baycard.store.people import people_among

Objection = Literal["other-workshop", "unknown-author"]


def objection(store: Store, workshop: str, card: str, author: str) -> Objection | None:
    """Why this workshop does not take a photo or sound of this card; None when it does.

    author: of the entry that mentions it; as long as nobody knows the card, it belongs to that person's workshop.
    """
    with store.read() as tx:
        owner = owners_of_cards(tx, {card}).get(card)
        if owner is not None:
            return None if owner == workshop else "other-workshop"
        return None if people_among(tx, workshop, {author}) else "unknown-author"
