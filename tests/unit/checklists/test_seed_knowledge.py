"""What the checklists that come with Baycard promise: honest sources, both sides, and sums that come out right."""

import re
from collections.abc import Iterator

import pytest

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book, Check, Checklist, ChoiceAnswer, Limit, Option, WorkedOutAnswer
from baycard.journal.entry import Body, Entry
from baycard.journal.standing import standing
from baycard.journal.steps import steps
from baycard.journal.types import StepOutcome
from baycard.journal.verdicts import outcome_of

BOOK: Book = load_book(seed_folder())
CHECKLISTS = [pytest.param(one, id=one.id) for one in BOOK.checklists]
FACTS = ("vehicle/", "card/")
FAKE = "0" * 8 + "-0000-7000-8000-" + "0" * 11


def raising(checklist: Checklist) -> Iterator[tuple[Check, Limit | Option]]:
    """Everything in the checklist that can raise a finding."""
    for check in checklist.checks:
        yield from ((check, limit) for limit in check.limits)
        if isinstance(check.answer, ChoiceAnswer):
            yield from ((check, option) for option in check.answer.options if option.means == "beyond")


def outcomes(checklist: str, answers: dict[str, Body], ask: str) -> StepOutcome:
    """The outcome of the step `check/place` in round 1 when only these answers stand."""
    chosen = next(one for one in BOOK.checklists if one.id == checklist)
    entries = [
        Entry(
            f"{FAKE}{number}",
            FAKE,
            slot,
            "fact" if slot.startswith(("vehicle", "card")) else "answer",
            body,
            (),
            "a",
            "d",
            "",
        )
        for number, (slot, body) in enumerate(answers.items())
    ]
    step = next(one for one in steps(chosen, BOOK) if f"{one.check.id}/{one.place.id}" == ask)
    return outcome_of(step, 1, standing(entries), chosen, BOOK)


def number(value: float, unit: str) -> Body:
    return {"is": "number", "value": value, "unit": unit, "typed": str(value)}


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_every_check_says_how_and_tells_a_layman_what_it_is_for(checklist: Checklist) -> None:
    assert [check.id for check in checklist.checks if not check.how or len(check.plain) < 25] == []


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_whatever_raises_a_finding_has_words_for_the_customer_and_a_source(checklist: Checklist) -> None:
    poor = [(check.id, one.id) for check, one in raising(checklist) if not (one.title and one.plain and one.source)]
    assert poor == []


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_nothing_from_memory_or_habit_alone_is_called_published(checklist: Checklist) -> None:
    named = [(check.id, one.id, one.source or "") for check, one in raising(checklist) if one.basis == "published"]
    assert [one for one in named if not re.search(r"\d", one[2]) or "from memory" in one[2]] == []


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_what_is_done_on_one_side_is_done_on_the_other(checklist: Checklist) -> None:
    pairs = [(check.id, at, BOOK.places[at].pair, check.at) for check in checklist.checks for at in check.at]
    assert [(check, at) for check, at, pair, places in pairs if pair is not None and pair not in places] == []


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_every_sum_rests_on_a_worked_example(checklist: Checklist) -> None:
    sums = {check.answer.method for check in checklist.checks if isinstance(check.answer, WorkedOutAnswer)}
    assert [method for method in sums if not BOOK.methods[method].examples] == []


def test_no_two_checks_of_a_checklist_ask_the_same_question_at_the_same_place() -> None:
    for checklist in BOOK.checklists:
        asked = [(check.ask, at) for check in checklist.checks for at in check.at if check.only_if is None]
        assert len(asked) == len(set(asked)), checklist.id


def pad(then_mm: float, now_mm: float, then_km: float = 10_000) -> StepOutcome:
    """The distance left to a pad of 2 mm at 20,000 km."""
    return outcomes(
        "brakes",
        {
            "vehicle/odometer": {"value": 20_000, "unit": "km"},
            "vehicle/maker/brake-pad-minimum": {"value": 2, "unit": "mm"},
            "brakes/odometer-then/vehicle/1": number(then_km, "km"),
            "brakes/pad-then/front-left/1": number(then_mm, "mm"),
            "brakes/pad/front-left/1": {"is": "spread", "values": {"inner": now_mm, "outer": now_mm}, "unit": "mm"},
        },
        "pad-distance-left/front-left",
    )


def test_a_pad_goes_as_far_as_it_wore_and_a_worn_out_one_nowhere() -> None:
    assert pad(8, 5).value == pytest.approx(10_000)
    assert pad(8, 1.5).value == 0


@pytest.mark.parametrize(("then_mm", "now_mm", "then_km"), [(4, 8, 10_000), (5, 5, 10_000), (8, 5, 30_000)])
def test_no_distance_is_told_for_a_pad_that_grew_or_an_odometer_that_ran_back(
    then_mm: float, now_mm: float, then_km: float
) -> None:
    told = pad(then_mm, now_mm, then_km)
    assert told.value is None and told.lacks


def test_a_pressure_run_names_the_hole_that_made_it() -> None:
    run = {"is": "run", "samples": [[0, 50.0], [19.62689575, 10.0]], "unit": "kPa"}
    found = outcomes(
        "intake-pressure",
        {
            "intake-pressure/system-volume/intake/1": number(20, "L"),
            "intake-pressure/ambient-pressure/intake/1": number(101.325, "kPa"),
            "intake-pressure/temperature-start/intake/1": number(20, "Cel"),
            "intake-pressure/pressure-run/intake/1": run,
        },
        "equivalent-hole/intake",
    )
    assert found.value == pytest.approx(2.0, rel=1e-6)


def test_a_suspect_is_asked_about_only_when_there_is_one() -> None:
    slot = "intake-pressure/suspect-joint/suspect-2/1"
    states = [
        outcomes("intake-pressure", {slot: {"is": "choice", "choice": choice}}, "suspect-run/suspect-2").state
        for choice in ("no-more", "cold-hose")
    ]
    assert states == ["not-asked", "open"]


@pytest.mark.parametrize(("fluid", "state"), [("engine-oil", "open"), ("petrol", "not-asked")])
def test_nobody_is_asked_to_run_an_engine_over_a_petrol_leak(fluid: str, state: str) -> None:
    answers: dict[str, Body] = {"fluid-leaks/which-fluid/leak-1/1": {"is": "choice", "choice": fluid}}
    asked = ("cleaned/leak-1", "grade-of-wetness/leak-1")
    assert [outcomes("fluid-leaks", answers, one).state for one in asked] == [state, state]
    for running in ("drip-count/leak-1", "pool-wait/leak-1"):
        assert outcomes("fluid-leaks", answers, running).state == "not-asked"


@pytest.mark.parametrize(("before", "state"), [("ready", "open"), ("not-ready", "not-asked")])
def test_nothing_of_the_road_is_asked_while_something_is_open_before_leaving(before: str, state: str) -> None:
    answers: dict[str, Body] = {"final-road-test/before-leaving/vehicle/1": {"is": "choice", "choice": before}}
    asked = ("brake-first/road", "wheel-heat/road", "after-below/under-engine")
    assert {outcomes("final-road-test", answers, one).state for one in asked} == {state}


def test_a_pool_of_eighty_millimetres_in_five_minutes_is_a_major_finding() -> None:
    found = outcomes(
        "fluid-leaks",
        {
            "fluid-leaks/grade-of-wetness/leak-1/1": {"is": "choice", "choice": "drips"},
            "fluid-leaks/pool-wait/leak-1/1": {"is": "run", "samples": [[0, 0], [300, 80]], "unit": "mm"},
        },
        "pool-wait/leak-1",
    )
    assert (found.state, found.grade) == ("beyond", "major")


def test_a_hub_thirty_degrees_above_its_partner_is_pointed_out() -> None:
    found = outcomes(
        "bearing-play",
        {
            "bearing-play/hub-temperature/rear-left/1": number(68, "Cel"),
            "bearing-play/hub-temperature/rear-right/1": number(38, "Cel"),
        },
        "hub-temperature/rear-left",
    )
    assert (found.state, found.because) == ("beyond", "hotter-than-other-side")


def test_the_drips_of_oil_give_a_loss_over_a_thousand_kilometres() -> None:
    drops = {"is": "run", "samples": [[0, 0], [30, 5], [60, 10]], "unit": "{drop}"}
    found = outcomes(
        "fluid-leaks",
        {
            "fluid-leaks/which-fluid/leak-1/1": {"is": "choice", "choice": "engine-oil"},
            "fluid-leaks/grade-of-wetness/leak-1/1": {"is": "choice", "choice": "drips"},
            "fluid-leaks/drip-count/leak-1/1": drops,
        },
        "loss-oily/leak-1",
    )
    assert found.value == pytest.approx(0.3)


def test_a_tyre_of_sixteen_years_is_advised_against() -> None:
    found = outcomes(
        "tyres-wheels",
        {
            "card/opened": {"value": "2026-11-20"},
            "tyres-wheels/date-code/rear-left/1": number(4710, "1"),
        },
        "tyre-age/rear-left",
    )
    assert found.value == pytest.approx(16.0, abs=0.01)
    assert (found.state, found.grade) == ("beyond", "advice")


def test_without_the_makers_figure_a_reading_of_play_is_recorded_and_not_passed() -> None:
    reading = {"bearing-play/rim-movement/rear-left/1": number(0.4, "mm")}
    limit = {"vehicle/maker/bearing-play-at-rim": {"value": 0.2, "unit": "mm"}}
    states = [outcomes("bearing-play", one, "rim-movement/rear-left").state for one in (reading, reading | limit)]
    assert states == ["recorded", "beyond"]
