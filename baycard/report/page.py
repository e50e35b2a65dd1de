"""From a frozen card to everything the templates print. Pure: no file, no clock, no network."""

from dataclasses import replace

from baycard.checklists.translations import in_language, told
from baycard.checklists.types import Book
from baycard.journal.card import card_state
from baycard.journal.entry import Entry
from baycard.measure.units import Units
from baycard.report import first_page
from baycard.report.changes import changes_since
from baycard.report.findings import finding_view, photos_of
from baycard.report.frozen import FrozenCard
from baycard.report.missed import missed
from baycard.report.not_arrived import not_arrived, only_arrived
from baycard.report.open_points import open_points
from baycard.report.outcomes import steps_of
from baycard.report.readings import asked_rounds, checklist_view, reading_view
from baycard.report.shapes import CautionView, FindingView, Page, PhotoView
from baycard.report.telling import PhotoSource, Telling
from baycard.report.words import Words

MUST = ("dangerous", "major")


def assemble(frozen: FrozenCard, book: Book, words: Words, photo_source: PhotoSource) -> Page:
    """The whole report of one revision, ready to print."""
    pinned = in_language(replace(book, checklists=frozen.checklists), words.language)
    state = card_state(_in_words(frozen.entries, words), pinned)
    arrived = only_arrived(photo_source, frozen, state)
    telling = Telling(state, pinned, frozen.names, words, arrived, Units(book.units))
    say = words.say
    findings = tuple(finding_view(finding, n, telling) for n, finding in enumerate(state.findings, start=1))
    open_findings = [finding for finding in findings if not finding.settled]
    vehicle, points = first_page.vehicle(telling), open_points(telling)
    signed_on = words.date(frozen.signed_off.made_at)
    return Page(
        language=words.language,
        workshop=frozen.workshop,
        title=say("Report on %(what)s", what=" ".join(filter(None, (vehicle.name, vehicle.plate)))),
        revision=frozen.revision,
        signed=say("Signed by %(who)s, %(day)s", who=telling.name(frozen.signed_off.author), day=signed_on),
        signed_by=telling.name(frozen.signed_off.author),
        signed_on=signed_on,
        foot=_foot(frozen, vehicle.plate or vehicle.name, signed_on, words),
        vehicle=vehicle,
        drive=first_page.drive(frozen.signed_off, telling),
        must=tuple(finding for finding in open_findings if finding.mark in MUST),
        can_wait=tuple(finding for finding in open_findings if finding.mark not in MUST),
        nothing_to_do=first_page.nothing_to_do(points, _unproved(findings), telling),
        done=tuple(finding for finding in findings if finding.settled),
        complaints=tuple(first_page.complaint_view(one, _titles(findings), telling) for one in state.complaints),
        rests_on=first_page.rests_on(_count_readings(telling), points, telling),
        changes=changes_since(
            frozen.earlier, card_state(_in_words(frozen.earlier.entries, words), pinned), findings, telling
        )
        if frozen.earlier
        else None,
        findings=findings,
        points=points,
        missed=missed(points, telling),
        not_arrived=not_arrived(frozen, telling),
        checklists=tuple(checklist_view(checklist, telling) for checklist in state.checklists),
        other_photos=_other_photos(telling),
        cautions=_cautions(telling),
        sources=_sources(telling),
        card=frozen.card,
        fingerprint=str(frozen.signed_off.body["sha256"]),
    )


def _unproved(findings: tuple[FindingView, ...]) -> int:
    return sum(finding.mark in MUST and finding.status == "done-not-rechecked" for finding in findings)


def _in_words(entries: tuple[Entry, ...], words: Words) -> tuple[Entry, ...]:
    """The entries with what findings took from a checklist in the report's language, whatever the technician's was."""
    return tuple(_finding_in_words(one, words) if one.kind == "finding" else one for one in entries)


def _finding_in_words(entry: Entry, words: Words) -> Entry:
    said = {name: told(str(entry.body[name]), words.language) for name in ("title", "plain")}
    return replace(entry, body={**entry.body, **said})


def _foot(frozen: FrozenCard, what: str, signed_on: str, words: Words) -> str:
    """What stands at the foot of every page, so that a single sheet can be told from any other."""
    revision = words.say("revision %(n)s", n=frozen.revision)
    return " · ".join((frozen.workshop, what, signed_on, revision))


def _titles(findings: tuple[FindingView, ...]) -> dict[str, str]:
    return {finding.slot: finding.title for finding in findings}


def _count_readings(telling: Telling) -> int:
    return sum(entry.kind == "answer" for entries in telling.state.standing.values() for entry in entries)


def _other_photos(telling: Telling) -> tuple[PhotoView, ...]:
    """Photos that no finding shows."""
    shown = {entry.id for finding in telling.state.findings for entry in photos_of(finding, telling.state.photos)}
    return tuple(telling.photo(entry, "") for entry in telling.state.photos if entry.id not in shown)


def _cautions(telling: Telling) -> tuple[CautionView, ...]:
    ids: dict[str, None] = {}
    for checklist in telling.state.checklists:
        ids.update(dict.fromkeys(checklist.checklist.cautions))
        for check in checklist.checklist.checks:
            ids.update(dict.fromkeys(check.cautions))
    held = (telling.book.cautions[id] for id in ids if id in telling.book.cautions)
    return tuple(CautionView(caution.title, caution.says, caution.source) for caution in held)


def _sources(telling: Telling) -> tuple[str, ...]:
    readings = (
        reading_view(step, round, telling).source for step in steps_of(telling.state) for round in asked_rounds(step)
    )
    return tuple(sorted({source for source in readings if source}))
