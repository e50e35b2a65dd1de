"""Which language a report is written in: the one the card says its customer reads, where the report has it."""

from baycard.journal.standing import standing
from baycard.report.frozen import FrozenCard
from baycard.report.words import Words

SLOT = "customer/language"
LANGUAGES = ("en", "de", "es", "fr")


def language_of(frozen: FrozenCard) -> str:
    """The language of the fact `customer/language` (BCP 47, such as de or de-AT).

    English when it is not written down, not one of the report's, or two people wrote different ones.
    """
    said = {
        str(entry.body["value"]).partition("-")[0].strip().lower()
        for entry in standing(frozen.entries).get(SLOT, ())
        if entry.kind == "fact"
    }
    found = said.pop() if len(said) == 1 else ""
    return found if found in LANGUAGES else "en"


def words_for(frozen: FrozenCard) -> Words:
    """The words this card's report is said in."""
    return Words(language_of(frozen))
