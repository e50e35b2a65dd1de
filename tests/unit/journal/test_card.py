"""A card's state follows from its entries and the book alone, the same on the phone and on the server."""

import math
from random import Random
from typing import Any

import pytest

from baycard.checklists.from_json import book_from_json
from baycard.checklists.types import Book, Checklist
from baycard.journal.card import card_state
from baycard.journal.entry import Entry, entry_from_json
from baycard.journal.judge import judge
from baycard.journal.records import Worked, card_records, records_of
from baycard.journal.steps import steps
from baycard.journal.types import CardState, StepOutcome
from baycard.journal.verdicts import outcome_of
from baycard.journal.worked import worked_out
from tests.unit.journal.projection import project
from tests.unit.journal.vectors import vectors

VECTORS = vectors("journal-card")
BOOK: Book = book_from_json(VECTORS["book"])
WALK = next(one for one in BOOK.checklists if one.version == 2)
AS_FOUND = "a whole walk as found"
CLOSE = "readings too close to call say what would settle them"
AFTER_WORK = "after work each round stands beside the one before, and worked-out answers take the newest input"


def close(found: Any, expected: Any) -> bool:
    """Equal, with numbers to 1e-9."""
    if isinstance(expected, dict):
        return found.keys() == expected.keys() and all(close(found[key], expected[key]) for key in expected)
    if isinstance(expected, list):
        return len(found) == len(expected) and all(map(close, found, expected))
    if isinstance(expected, int | float) and not isinstance(expected, bool):
        return math.isclose(found, expected, rel_tol=1e-9, abs_tol=1e-12)
    return bool(found == expected)


def entries(says: str) -> list[Entry]:
    case = next(one for one in VECTORS["cases"] if one["says"] == says)
    return [entry_from_json(entry) for entry in case["entries"]]


def outcome(says: str, slot: str) -> StepOutcome:
    state = card_state(entries(says), BOOK)
    found = [one for step in state.checklists[0].steps for one in step.rounds if one.slot == f"walk/{slot}"]
    return found[0]


def bounds(state: StepOutcome) -> dict[str, tuple[str, float | None]]:
    return {one.limit.id: (one.state, one.bound) for one in state.limits}


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["says"])
def test_the_state_is_that_of_the_vectors(case: dict[str, Any]) -> None:
    found = project(card_state([entry_from_json(entry) for entry in case["entries"]], BOOK))
    for name, expected in case["expected"].items():
        assert close(found[name], expected), (name, found[name], expected)


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["says"])
def test_the_state_does_not_depend_on_the_order_of_the_entries(case: dict[str, Any]) -> None:
    held = [entry_from_json(entry) for entry in case["entries"]]
    shuffled = Random(7).sample(held, len(held)) + held[:3]
    assert project(card_state(shuffled, BOOK)) == project(card_state(held, BOOK))


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["says"])
def test_every_entry_of_the_vectors_would_be_taken(case: dict[str, Any]) -> None:
    assert [judge(entry) for entry in case["entries"]] == [None] * len(case["entries"])


def test_repeats_and_limits_of_error_make_the_uncertainty_of_jcgm_100() -> None:
    play = outcome(AS_FOUND, "play/front-left/1")
    scatter = 0.0141421356 / math.sqrt(2)  # standard deviation of 0.20 and 0.22, over the root of two readings
    assert play.value == pytest.approx(0.21)
    assert play.u == pytest.approx(math.hypot(scatter, 0.012 / math.sqrt(3)))
    assert (play.state, play.grade, play.because) == ("beyond", "minor", "play-minor")


def test_the_worst_crossed_limit_gives_the_grade() -> None:
    play = outcome(
        "findings come worst first with what was agreed; declined ones propose nothing more", "play/front-left/1"
    )
    assert {name: state for name, (state, _) in bounds(play).items()} == {
        "play-minor": "beyond",
        "play-dangerous": "beyond",
        "play-sides": "beyond",
    }
    assert (play.grade, play.because) == ("dangerous", "play-dangerous")


def test_the_difference_between_the_sides_carries_both_uncertainties() -> None:
    play = outcome(AS_FOUND, "play/front-right/1")
    right = math.hypot(0.01 / math.sqrt(12), 0.012 / math.sqrt(3))
    left = math.hypot(0.01, 0.012 / math.sqrt(3))
    assert play.value == pytest.approx(0.21 - 0.09)
    assert play.u == pytest.approx(math.hypot(left, right))


def test_a_makers_figure_is_converted_into_the_unit_of_the_limit() -> None:
    state, bound = bounds(outcome(AS_FOUND, "tread/front-left/1"))["tread-maker"]
    assert state == "in-order"
    assert bound == pytest.approx(0.15 * 25.4)


def test_a_makers_figure_that_nobody_typed_says_nothing() -> None:
    tread = outcome(CLOSE, "tread/front-right/1")
    assert bounds(tread)["tread-maker"] == ("unknown", None)


def test_what_would_settle_a_close_call_is_named() -> None:
    settle = outcome(CLOSE, "play/front-left/1").settle
    assert settle is not None
    # needed: 2u <= 0.018 with s = 0.0163 and 0.0069 from the limits of error, so (0.0163 / 0.0057)^2 = 8.1 readings
    assert (settle.repeats, settle.instrument) == (9, "dial-0.001")


def test_a_rate_is_worked_out_from_a_run_with_its_uncertainty() -> None:
    fall = outcome(AS_FOUND, "fall/line/1")
    one = math.hypot(0.1 / math.sqrt(12), 0.5 / math.sqrt(3))
    assert fall.value == pytest.approx((100 - 96) / 60 * 60)
    assert fall.u == pytest.approx(one * math.sqrt(2) / 60 * 60)


def test_a_rise_in_temperature_has_no_zero_point() -> None:
    assert outcome(AS_FOUND, "rise/line/1").value == pytest.approx(100 - 20)  # 212 degF is 100 Cel


def test_a_worked_out_answer_takes_each_input_from_the_newest_round_that_has_one() -> None:
    assert outcome(AFTER_WORK, "rise/line/3").value == pytest.approx(80 - 20)
    assert outcome(AFTER_WORK, "fall/line/2").value == pytest.approx(0.5)
    assert outcome(AFTER_WORK, "rise/line/2").state == "open"


def test_a_worked_out_answer_says_which_slots_it_lacks() -> None:
    just_chosen = "a checklist just chosen has every step open or not yet asked"
    assert outcome(just_chosen, "tread-left/front-left/1").lacks == (
        "walk/tread/front-left/1",
        "vehicle/maker/tread-new",
    )


def test_only_worked_out_checks_are_worked_out() -> None:
    records = records_of(card_records({}), WALK, BOOK)
    assert worked_out(WALK.checks[0], "front-left", 1, records) == Worked()


def test_one_outcome_alone_is_that_of_the_card() -> None:
    state = card_state(entries(AS_FOUND), BOOK)
    for step, known in zip(steps(WALK, BOOK), state.checklists[0].steps, strict=True):
        assert outcome_of(step, 1, state.standing, WALK, BOOK) == known.rounds[0]


def test_a_version_is_looked_up_where_the_caller_says() -> None:
    def elsewhere(id: str, version: int) -> Checklist | None:
        return WALK if (id, version) == ("walk", 2) else None

    bare = book_from_json({**VECTORS["book"], "checklists": []})
    found: CardState = card_state(entries(AS_FOUND), bare, elsewhere)
    assert [one.checklist for one in found.checklists] == [WALK]
    assert card_state(entries(AS_FOUND), bare).missing_checklists[0].id == "walk"
