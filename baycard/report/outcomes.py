"""What a check gave, put into words: its mark, its state, its value, what it is held against."""

from collections.abc import Iterable, Sequence

from baycard.checklists.types import Check, MakerSource, WorkedOutAnswer
from baycard.journal.entry import Entry
from baycard.journal.types import CardState, LimitOutcome, StepOutcome, StepState
from baycard.report.numbers import option_of, say_answer, say_limit, say_number
from baycard.report.shapes import Mark
from baycard.report.sources import say_source
from baycard.report.telling import Telling

LIMITS_SAID = 3


def steps_of(state: CardState) -> Iterable[StepState]:
    """Every step of every checklist of the card."""
    return (step for checklist in state.checklists for step in checklist.steps)


def mark_of(outcome: StepOutcome) -> Mark:
    """The mark beside it; a reading beyond its limit carries its grade."""
    if outcome.state == "beyond":
        return outcome.grade or "minor"
    return "open" if outcome.state == "not-asked" else outcome.state


def say_state(outcome: StepOutcome, telling: Telling) -> str:
    """What it means: in order, beyond the limit, not checked."""
    say = telling.words.say
    if outcome.state == "beyond":
        grade = telling.graded(outcome.grade or "minor")
        return say("beyond the limit (%(grade)s)", grade=grade) if outcome.limits else grade
    return {
        "in-order": say("in order"),
        "recorded": say("recorded, no limit known"),
        "too-close": say("too close to call"),
        "not-checked": say("not checked"),
        "disagreement": say("two different records, not settled"),
        "open": say("no answer was recorded"),
        "not-asked": say("not asked"),
    }[outcome.state]


def say_value(outcome: StepOutcome, check: Check, telling: Telling) -> str:
    """What was found, or why nothing was; empty where two records differ."""
    if len(outcome.standing) > 1 and outcome.state == "disagreement":
        return ""
    for entry in outcome.standing[:1]:
        if entry.kind in ("answer", "not-checked"):
            return _version_value(entry, check, telling, outcome.own.u if outcome.own else None)
        if entry.kind in ("photo", "sound"):
            return _media(outcome, telling)
    if outcome.own:
        return say_number(outcome.own.value, outcome.own.unit, outcome.own.u, check, telling.voice)
    if outcome.lacks:
        what = "; ".join(_lacking(lack, check, telling) for lack in outcome.lacks)
        return telling.words.say("not worked out, as this is missing: %(what)s", what=what)
    return ""


def _lacking(lack: str, check: Check, telling: Telling) -> str:
    """The question behind a slot that a worked-out answer lacks; other words stay."""
    for step in steps_of(telling.state):
        if lack.startswith(f"{step.step.checklist}/{step.step.check.id}/{step.step.place.id}/"):
            return f"{step.step.check.ask} ({step.step.place.title})"
    sources = check.answer.inputs.values() if isinstance(check.answer, WorkedOutAnswer) else ()
    asked = (one.ask for one in sources if isinstance(one, MakerSource) and lack == f"vehicle/maker/{one.maker}")
    return next(asked, lack)


def _media(outcome: StepOutcome, telling: Telling) -> str:
    number = len(outcome.standing)
    if outcome.standing[0].kind == "photo":
        return telling.words.count("%(num)s photo", "%(num)s photos", number)
    return telling.words.count("%(num)s sound recording", "%(num)s sound recordings", number)


def say_version(entry: Entry, check: Check, telling: Telling) -> str:
    """One of several records of the same check, with who wrote it."""
    return f"{_version_value(entry, check, telling, None)} ({telling.recorded(entry)})"


def _version_value(entry: Entry, check: Check, telling: Telling, u: float | None) -> str:
    if entry.kind == "not-checked":
        return say_reason(entry, telling)
    return say_answer(entry.body, check, telling.voice, u)


def say_reason(entry: Entry, telling: Telling) -> str:
    """Why a step was not checked."""
    say = telling.words.say
    reason = {
        "no-access": say("could not be reached"),
        "not-fitted": say("this vehicle does not have it"),
        "no-tool": say("the tool for it was not at hand"),
        "unsafe": say("it would not have been safe to check"),
        "no-time": say("there was no time for it"),
        "customer-declined": say("you did not want it checked"),
        "other": say("other reason"),
    }[entry.body["reason"]]
    detail = str(entry.body.get("words", ""))
    if detail and entry.body["reason"] == "other":
        return detail
    return say("%(reason)s: %(detail)s", reason=reason, detail=detail) if detail else reason


def say_limits(outcome: StepOutcome, check: Check, telling: Telling) -> str:
    """The limit that decided, else all there are; and the difference, where one is judged."""
    shown = _shown(outcome)
    said = [say_limit(one.limit, one.bound, check, outcome.unit, telling.voice) for one in shown]
    return "; ".join(dict.fromkeys([*_difference(outcome, shown, check, telling), *said]))


def _shown(outcome: StepOutcome) -> Sequence[LimitOutcome]:
    return ([one for one in outcome.limits if one.limit.id == outcome.because] or outcome.limits)[:LIMITS_SAID]


def _difference(outcome: StepOutcome, shown: Sequence[LimitOutcome], check: Check, telling: Telling) -> list[str]:
    """How far two sides or readings are apart, where that is what the limits are held against."""
    held = {one.limit.of for one in shown if one.state != "unknown"}
    lead = {
        frozenset({"side-difference"}): telling.words.say("difference between left and right:"),
        frozenset({"range"}): telling.words.say("difference between highest and lowest:"),
    }.get(frozenset(held))
    if not lead or outcome.value is None or outcome.unit is None:
        return []
    return [f"{lead} {say_number(outcome.value, outcome.unit, outcome.u, check, telling.voice)}"]


def say_basis(outcome: StepOutcome, check: Check, telling: Telling) -> str:
    """Where the limits said come from, or the option that was chosen."""
    shown = [say_source(one.limit.source, one.limit.basis, telling.words) for one in _shown(outcome)]
    if shown:
        return "; ".join(dict.fromkeys(shown))
    option = option_of(check, outcome.because) if outcome.because else None
    return say_source(option.source, option.basis, telling.words) if option and option.source else ""
