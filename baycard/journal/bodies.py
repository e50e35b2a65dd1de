"""The rules for the body of every kind of entry (docs/formats.md section 1)."""

from baycard.journal.answers import ID, ROUND, answer
from baycard.journal.refusal import Refusal
from baycard.journal.rules import (
    LARGEST_NUMBER,
    Rule,
    form,
    list_of,
    number,
    one_of,
    or_null,
    shape,
    text,
    text_for,
    unit,
    whole,
)
from baycard.journal.slots import UUID, Slot, about_check, parse_slot

MOST_NAMED = 500
LARGEST_BLOB = 1_000_000_000
GRADE = one_of("advice", "minor", "major", "dangerous")
SHA256 = form(r"[0-9a-f]{64}", "a SHA-256 in hex")
A_UUID = form(UUID.pattern, "a UUID")
ATOM = r"[^\x00-\x20\x7f-\xa0@<>\"(),;:\\."
EMAIL = form(rf"(?=.{{3,254}}$){ATOM}]+(\.{ATOM}]+)*@{ATOM}]+(\.{ATOM}]+)+", "an e-mail address")
SOUND_MIME = form(r"audio/(webm|mp4|ogg|wav|mpeg|aac)(; ?codecs=[a-z0-9.\"]{1,20})?", "a kind of sound file")
MEDIA_SLOT = text_for(lambda slot: _is(slot, "photo", "sound"), "the slot of a photo or sound")
FINDING_SLOT = text_for(lambda slot: _is(slot, "finding", "finding-at"), "the slot of a finding")
ANY_SLOT = text_for(lambda slot: parse_slot(slot) is not None, "a slot")
CHECK_ABOUT = text_for(lambda about: about_check(about) is not None, "a check's slot without its round")
ABOUT = text_for(lambda about: (parse_slot(about) or about_check(about)) is not None, "a slot")
TEXT = text()
NUMBER = number()
WRITTEN_YEAR = form(r"[12][0-9]{3}", "a year")
YEAR = whole(1850, 2250)
LINE = text(500, lines=False)
WORDS = shape({"words": text()})
SOME_WORDS = shape({"words": text(filled=True)})


def _is(slot: str, *names: str) -> bool:
    parsed = parse_slot(slot)
    return parsed is not None and parsed.is_ in names


def _value(value: object, path: str) -> Refusal | None:
    return TEXT(value, path) if isinstance(value, str) else NUMBER(value, path)


def _year(value: object, path: str) -> Refusal | None:
    return WRITTEN_YEAR(value, path) if isinstance(value, str) else YEAR(value, path)


ANY_FACT = shape({"value": _value}, {"unit": unit()})
FACTS: dict[str, Rule] = {
    "vehicle/vin": shape({"value": text(40, filled=True, lines=False)}),
    "vehicle/plate": shape({"value": text(40, filled=True, lines=False)}),
    "vehicle/make": shape({"value": LINE}),
    "vehicle/model": shape({"value": LINE}),
    "vehicle/year": shape({"value": _year}),
    "vehicle/fuel": shape({"value": LINE}),
    "vehicle/odometer": shape({"value": number(0, 10_000_000), "unit": unit("km", "[mi_i]")}),
    "vehicle/modifications": shape({"value": text()}),
    "customer/name": shape({"value": LINE}),
    "customer/email": shape({"value": EMAIL}),
    "card/planned-use": shape({"value": text()}),
    "card/title": shape({"value": LINE}),
    "card/opened": shape(
        {"value": form(r"[0-9]{4}-[0-9]{2}-[0-9]{2}([T ][0-9:.]{5,12}Z?)?", "a date such as 2026-11-20")}
    ),
}
MAKER_FACT = shape({"value": number(), "unit": unit()})
BLOB: dict[str, Rule] = {
    "blob": SHA256,
    "bytes": whole(1, LARGEST_BLOB),
    "about": or_null(ABOUT),
    "round": ROUND,
    "caption": text(),
}
PART = shape(
    {"name": LINE, "state": one_of("new", "re-used", "repaired"), "count": number(0, 100_000)},
)

BODIES: dict[str, Rule] = {
    "complaint": SOME_WORDS,
    "complaint-outcome": shape(
        {
            "outcome": one_of("cause-found", "ruled-out", "not-traced"),
            "findings": list_of(FINDING_SLOT, MOST_NAMED),
            "words": text(),
        }
    ),
    "checklist-chosen": shape({"version": whole(1, 1_000_000), "sha256": SHA256}),
    "answer": answer,
    "not-checked": shape(
        {
            "reason": one_of("no-access", "not-fitted", "no-tool", "unsafe", "no-time", "customer-declined", "other"),
            "words": text(),
        }
    ),
    "finding": shape(
        {
            "title": text(500, filled=True, lines=False),
            "plain": text(),
            "grade": GRADE,
            "about": or_null(CHECK_ABOUT),
            "place": or_null(ID),
            "complaints": list_of(A_UUID, MOST_NAMED),
            "photos": list_of(A_UUID, MOST_NAMED),
            "proposed": or_null(shape({"grade": GRADE, "title": text(500), "limit": ID})),
            "note": text(),
        }
    ),
    "finding-declined": WORDS,
    "photo": shape(
        {**BLOB, "mime": one_of("image/jpeg"), "width": whole(1, 100_000), "height": whole(1, 100_000)},
    ),
    "sound": shape({**BLOB, "mime": SOUND_MIME, "seconds": number(0, 86_400)}),
    "work-done": shape(
        {
            "findings": list_of(FINDING_SLOT, MOST_NAMED),
            "words": text(),
            "parts": list_of(PART, MOST_NAMED),
            "torque": text(),
            "improvised": text(),
        }
    ),
    "agreed": shape(
        {
            "answer": one_of("go-ahead", "not-now", "no"),
            "by": LINE,
            "how": one_of("in person", "by phone", "in writing"),
        }
    ),
    "handed-in": WORDS,
    "sent-back": shape({"words": text(), "slots": list_of(ANY_SLOT, MOST_NAMED)}),
    "signed-off": shape(
        {
            "revision": whole(1, 1_000_000),
            "count": whole(0, int(LARGEST_NUMBER)),
            "digest": SHA256,
            "arrival": whole(0, int(LARGEST_NUMBER)),
            "sha256": SHA256,
            "drive": one_of("yes", "with-restrictions", "no", "not-judged"),
            "restrictions": text(),
            "look_again": text(),
            "words": text(),
        },
        {"without_photos": shape({"why": text(filled=True), "missing": list_of(MEDIA_SLOT, MOST_NAMED, 1)})},
    ),
    "retraction": shape({}),
}


def body_rule(kind: str, slot: Slot) -> Rule:
    """The rule for the body of a known kind in a slot it may stand in; facts go by their field."""
    if kind != "fact":
        return BODIES[kind]
    return MAKER_FACT if slot.is_ == "maker" else FACTS.get(f"{slot.of}/{slot.name}", ANY_FACT)
