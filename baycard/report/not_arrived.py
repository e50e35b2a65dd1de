"""Photos and sounds that had not arrived when the card was signed; the report of that revision never shows them."""

from baycard.journal.entry import Entry
from baycard.journal.types import CardState
from baycard.report.frozen import FrozenCard
from baycard.report.outcomes import steps_of
from baycard.report.shapes import NotArrived
from baycard.report.telling import PhotoSource, Telling


def only_arrived(photo_source: PhotoSource, frozen: FrozenCard, state: CardState) -> PhotoSource:
    """The source without what was missing at the signature, so that a report does not change when it arrives later."""
    missing = {str(entry.body["blob"]) for entry in _missing(frozen, state)}
    return lambda sha256: None if sha256 in missing else photo_source(sha256)


def not_arrived(frozen: FrozenCard, telling: Telling) -> NotArrived | None:
    """What was missing and why it was signed all the same, or None when everything was there."""
    without = frozen.signed_off.body.get("without_photos")
    if not without:
        return None
    said = telling.words.count(
        "%(num)s photo or sound had not arrived when this was signed.",
        "%(num)s photos or sounds had not arrived when this was signed.",
        len(without["missing"]),
    )
    what = tuple(_what(entry, telling) for entry in _missing(frozen, telling.state))
    return NotArrived(said, what, str(without["why"]))


def _missing(frozen: FrozenCard, state: CardState) -> list[Entry]:
    named = set((frozen.signed_off.body.get("without_photos") or {}).get("missing", ()))
    return [entry for entry in (*state.photos, *state.sounds) if entry.slot in named]


def _what(entry: Entry, telling: Telling) -> str:
    about = _about(entry, telling) or str(entry.body["caption"]) or telling.words.say("taken on arrival")
    kind = telling.words.say("Photo") if entry.kind == "photo" else telling.words.say("Sound")
    return f"{kind}: {about} ({telling.recorded(entry)})"


def _about(entry: Entry, telling: Telling) -> str:
    about = str(entry.body["about"] or "")
    for step in steps_of(telling.state):
        check = f"{step.step.checklist}/{step.step.check.id}/{step.step.place.id}"
        if about == check or about.startswith(f"{check}/"):
            return f"{step.step.check.ask} ({step.step.place.title})"
    return ""
