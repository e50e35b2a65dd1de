"""An answer held against itself and the folder: options, ranges, units, instruments."""

from collections.abc import Sequence

from baycard.checklists.check_worked_out import check_worked_out
from baycard.checklists.known import Known, check_range
from baycard.checklists.problems import Spot
from baycard.checklists.siblings import Siblings
from baycard.checklists.types import (
    Check,
    ChoiceAnswer,
    NumberAnswer,
    Option,
    PhotoAnswer,
    RunAnswer,
    SoundAnswer,
    SpreadAnswer,
    WorkedOutAnswer,
)

MOST_DECIMALS = 6


def check_answer(check: Check, siblings: Siblings, spot: Spot, known: Known) -> None:
    """Reports everything in the answer that does not fit."""
    answer = check.answer
    if isinstance(answer, ChoiceAnswer):
        _check_options(answer.options, spot.down("options"))
    if isinstance(answer, NumberAnswer | SpreadAnswer | RunAnswer):
        _check_reading(answer, spot, known)
    if isinstance(answer, SpreadAnswer):
        _check_ids([point.id for point in answer.points], "point", 2, spot.down("points"))
    if isinstance(answer, RunAnswer):
        _check_above_zero("seconds", answer.seconds, spot)
        _check_above_zero("every_s", answer.every_s, spot)
    if isinstance(answer, SoundAnswer):
        _check_above_zero("seconds", answer.seconds, spot)
    if isinstance(answer, PhotoAnswer):
        _check_above_zero("least", answer.least, spot)
    if isinstance(answer, WorkedOutAnswer):
        check_worked_out(check, answer, siblings, spot, known)


def _check_options(options: Sequence[Option], spot: Spot) -> None:
    _check_ids([option.id for option in options], "option", 2, spot)
    for number, option in enumerate(options):
        at = spot.down(number)
        if option.means == "beyond":
            for key in ("grade", "title", "plain"):
                if getattr(option, key) is None:
                    at.report(
                        f"{key} is missing: option {option.id} means beyond, so it proposes a finding", _advice(key)
                    )
        elif option.grade is not None:
            at.down("grade").report(f"option {option.id} has a grade but does not mean beyond", "leave the grade out")


def _advice(key: str) -> str:
    return {
        "grade": "one of advice, minor, major, dangerous",
        "title": "the finding in the trade's words",
        "plain": "one sentence for a layman",
    }[key]


def _check_reading(answer: NumberAnswer | SpreadAnswer | RunAnswer, spot: Spot, known: Known) -> None:
    known.check_unit(answer.unit, spot.down("unit"))
    check_range(answer.range, spot.down("range"))
    if not 0 <= answer.decimals <= MOST_DECIMALS:
        spot.down("decimals").report(f"decimals must be from 0 to {MOST_DECIMALS}")
    for number, id in enumerate(answer.instruments):
        at = spot.down("instruments", number)
        if known.check_name("instrument", id, known.instruments, at):
            known.check_same_quantity(known.instruments[id].unit, answer.unit, "the answer", at)


def _check_above_zero(name: str, value: float | None, spot: Spot) -> None:
    if value is not None and value <= 0:
        spot.down(name).report(f"{name} must be above 0")


def _check_ids(ids: Sequence[str], what: str, least: int, spot: Spot) -> None:
    if len(ids) < least:
        spot.report(f"needs at least {least} {what}s")
    for number, id in enumerate(ids):
        if id in ids[:number]:
            spot.down(number, "id").report(f"{what} {id} is written twice", "choose another id")
