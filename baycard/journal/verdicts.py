"""What is known of one step in one round."""

from dataclasses import replace

from baycard.checklists.types import (
    Book,
    Checklist,
    ChoiceAnswer,
    Option,
    PhotoAnswer,
    SoundAnswer,
    WorkedOutAnswer,
)
from baycard.journal.entry import Body
from baycard.journal.limits import Subject, deciding, judge_limits, settling
from baycard.journal.reading import Reading, is_numeric, reading_of
from baycard.journal.records import Records, answer_up_to, card_records, position_of, records_of
from baycard.journal.slots import check_slot
from baycard.journal.standing import Standing
from baycard.journal.types import Step, StepOutcome
from baycard.journal.worked import worked_out


def outcome_of(step: Step, round: int, standing: Standing, checklist: Checklist, book: Book) -> StepOutcome:
    """What is known of a step in a round (1 = as found), from what stands on the card."""
    return outcome_in(step, round, records_of(card_records(standing), checklist, book))


def outcome_in(step: Step, round: int, records: Records) -> StepOutcome:
    """`outcome_of` with the records of the checklist at hand."""
    slot = check_slot(step.checklist, step.check.id, step.place.id, round)
    standing = records.standing.get(slot, ())
    known = StepOutcome(slot, standing=standing)
    if len(standing) > 1:
        return replace(known, state="disagreement")
    kind = standing[0].kind if standing else None
    if kind == "not-checked":
        return replace(known, state="not-checked")
    if kind == "answer":
        return _answered(Subject(step, round, answer=standing[0].body), known, records)
    return _unanswered(step, round, known, records)


def _unanswered(step: Step, round: int, known: StepOutcome, records: Records) -> StepOutcome:
    """A step without an entry of its own: answered by photos or sounds, worked out, not asked, or open."""
    spec = step.check.answer
    if isinstance(spec, PhotoAnswer | SoundAnswer):
        about = tuple(entry for entry in records.card.media.get(known.slot, ()) if entry.kind == spec.kind)
        if len(about) >= (spec.least if isinstance(spec, PhotoAnswer) else 1):
            return replace(known, state="recorded", standing=about)
    if not _is_asked(step, round, records):
        return replace(known, state="not-asked")
    return _computed(step, round, known, records) if isinstance(spec, WorkedOutAnswer) else known


def _is_asked(step: Step, round: int, records: Records) -> bool:
    condition = step.check.only_if
    if condition is None:
        return True
    other = records.checks.get(condition.check)
    at = position_of(other, step.place.id) if other else step.place.id
    found = answer_up_to(records, condition.check, at, round)
    return found is not None and found.answer["is"] == "choice" and found.answer["choice"] in condition.is_


def _computed(step: Step, round: int, known: StepOutcome, records: Records) -> StepOutcome:
    """In rounds after the first a worked-out answer stays open until an input was read again."""
    found = worked_out(step.check, step.place.id, round, records)
    if round > 1 and found.newest < round:
        return known
    if found.reading is None:
        return replace(known, lacks=found.lacks)
    return _measured(Subject(step, round, worked=found.reading), found.reading, known, records)


def _answered(subject: Subject, known: StepOutcome, records: Records) -> StepOutcome:
    answer, spec = subject.answer or {}, subject.step.check.answer
    if answer["is"] == "choice" and isinstance(spec, ChoiceAnswer):
        return _chosen(next((option for option in spec.options if option.id == answer["choice"]), None), known)
    if not is_numeric(answer):
        return replace(known, state="recorded")
    return _measured(subject, _plain_reading(answer, records), known, records)


def _chosen(option: Option | None, known: StepOutcome) -> StepOutcome:
    if option is None or option.means != "beyond":
        return replace(known, state=option.means if option else "recorded")
    return replace(
        known,
        state="beyond",
        grade=option.grade or "minor",
        title=option.title or option.label,
        plain=option.plain,
        because=option.id,
    )


def _measured(subject: Subject, plain: Reading | None, known: StepOutcome, records: Records) -> StepOutcome:
    limits = judge_limits(subject, records)
    decided = deciding(limits)
    readings = [one.reading for one in ([decided] if decided else []) + limits]
    reading = next((one for one in readings if one), plain)
    outcome = replace(
        known,
        state="recorded",
        value=reading.value if reading else None,
        u=reading.u if reading else None,
        unit=reading.unit if reading else None,
        own=plain,
        limits=tuple(one.outcome for one in limits),
    )
    if decided is None or decided.outcome.state == "unknown":
        return outcome
    outcome = replace(outcome, state=decided.outcome.state)
    if decided.outcome.state == "in-order":
        return outcome
    limit = decided.outcome.limit
    settle = settling(decided, subject, records) if decided.outcome.state == "too-close" else None
    return replace(outcome, grade=limit.grade, title=limit.title, plain=limit.plain, because=limit.id, settle=settle)


def _plain_reading(answer: Body, records: Records) -> Reading | None:
    """The number shown for an answer that no limit decides."""
    take = "mean" if answer["is"] == "spread" else "value"
    return reading_of(answer, take, records.book.instruments, records.units)
