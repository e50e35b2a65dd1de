"""Promises of what the report says, before it is drawn."""

from dataclasses import fields, is_dataclass, replace

import pytest

from baycard.demo.estate import estate
from baycard.demo.pen import Pen, begin
from baycard.demo.pickup import pickup_as_found
from baycard.demo.van import van
from baycard.report.frozen import FrozenCard
from baycard.report.html import render_html
from baycard.report.mail import plain_summary
from baycard.report.page import assemble
from baycard.report.shapes import FindingView, Page, ReadingView
from baycard.report.words import Words
from tests.support.frozen_cards import (
    STAFF,
    START_MS,
    frozen,
    pickup_repaired,
    pickup_signed,
    seed_book,
    sign,
    small_card,
)

RIM = "bearing-play/rim-movement/rear-left"
FINDING = {"grade": "major", "title": "A crack", "plain": "It is cracked."}


def told(card: object) -> Page:
    return assemble(card, seed_book(), Words(), lambda sha256: f"photo:{sha256}")  # type: ignore[arg-type]


def texts(value: object) -> list[str]:
    """Every text in a page, however deep."""
    if isinstance(value, str):
        return [value]
    if isinstance(value, tuple | list):
        return [text for part in value for text in texts(part)]
    if is_dataclass(value):
        return [text for field in fields(value) for text in texts(getattr(value, field.name))]
    return []


def titled(findings: tuple[FindingView, ...]) -> list[str]:
    return [finding.title for finding in findings]


@pytest.fixture(scope="module")
def repaired() -> Page:
    return told(pickup_repaired())


@pytest.fixture(scope="module")
def van_page() -> Page:
    story = van(STAFF, seed_book(), START_MS)
    sign(story, "no")
    return told(frozen(story))


@pytest.mark.parametrize(
    ("drive", "answer"),
    [("yes", "Yes."), ("with-restrictions", "Yes, but only like this:"), ("no", "No."), ("not-judged", "Not judged.")],
)
def test_the_first_answer_is_the_one_that_was_signed(drive: str, answer: str) -> None:
    page = told(small_card(lambda pen: pen.finding(None, FINDING), drive=drive, restrictions="Slowly."))
    assert page.drive.answer == answer
    assert page.drive.restrictions == "Slowly."


def signed_without_the_photo() -> FrozenCard:
    story, _ = pickup_as_found(STAFF, seed_book(), START_MS)
    photo = next(entry for entry in story.entries if entry.kind == "photo")
    without = {"why": "The phone fell into the pit.", "missing": [photo.slot]}
    sign(story, "no", without_photos=without)  # type: ignore[arg-type]  # the one part of the body that is no text
    return frozen(story)


def test_a_photo_missing_at_the_signature_is_named_with_the_reason() -> None:
    page = told(signed_without_the_photo())
    assert page.not_arrived is not None
    assert page.not_arrived.said == "1 photo or sound had not arrived when this was signed."
    assert page.not_arrived.why == "The phone fell into the pit."
    assert len(page.not_arrived.what) == 1
    assert page.not_arrived.what[0].startswith("Photo: ")


def test_a_photo_that_arrives_after_the_signature_does_not_change_its_report() -> None:
    late, whole = told(signed_without_the_photo()), told(pickup_signed())
    shown = [photo.source for finding in late.findings for round in finding.rounds for photo in round.photos]
    full = [photo.source for finding in whole.findings for round in finding.rounds for photo in round.photos]
    sources = [*shown, *(photo.source for photo in late.other_photos)]
    assert sources.count(None) == 1
    assert None not in [*full, *(photo.source for photo in whole.other_photos)]


def test_a_report_signed_with_everything_says_nothing_of_missing_photos(repaired: Page) -> None:
    assert repaired.not_arrived is None


def test_no_page_ever_calls_a_vehicle_safe(repaired: Page, van_page: Page) -> None:
    for page in (repaired, van_page):
        said = [text for text in texts(replace(page, cautions=())) if "safe" in text.lower()]
        assert said == []


def test_dangerous_and_major_must_be_done_minor_and_advice_can_wait() -> None:
    def write(pen: Pen) -> None:
        for grade in ("advice", "dangerous", "minor", "major"):
            pen.finding(None, {"grade": grade, "title": grade, "plain": ""})

    page = told(small_card(write))
    assert titled(page.must) == ["dangerous", "major"]
    assert titled(page.can_wait) == ["minor", "advice"]
    assert titled(page.findings) == ["dangerous", "major", "minor", "advice"]


def test_a_repaired_finding_is_done_only_when_its_check_was_repeated_in_order(repaired: Page) -> None:
    assert {finding.title: finding.status for finding in repaired.findings} == {
        "Wheel bearing play above the maker's limit, read at the rim": "done",
        "Wheel bearing rumbles": "done",
        "Wet with fluid": "to-do",
    }
    assert repaired.must == ()
    assert titled(repaired.can_wait) == ["Wet with fluid"]


def worked_on(repeated: list[float] | None) -> FrozenCard:
    """A bearing that was replaced, its play measured again or not."""
    story = begin("recheck", START_MS)
    pen = Pen(story, STAFF.ines)
    pen.facts({"vehicle/maker/bearing-play-at-rim": (0.10, "mm")})
    pen.choose(seed_book(), "bearing-play")
    pen.number(RIM, [0.32], "mm", "dial-indicator-0.01")
    slot = pen.accept(seed_book(), RIM, "maker-rim-play")
    pen.work([slot], "Bearing replaced.")
    if repeated:
        pen.after_work().number(RIM, repeated, "mm", "dial-indicator-0.01")
    sign(story)
    return frozen(story)


@pytest.mark.parametrize(
    ("repeated", "status"), [([0.40], "still-beyond"), ([0.02], "done"), (None, "done-not-rechecked")]
)
def test_work_alone_does_not_make_a_finding_done(repeated: list[float] | None, status: str) -> None:
    page = told(worked_on(repeated))
    assert page.findings[0].status == status
    assert (page.findings[0] in page.must) == (status == "still-beyond")


def test_a_finding_shows_its_reading_beside_the_limit_and_its_source(van_page: Page) -> None:
    (reading,) = [one.reading for one in van_page.findings[0].rounds]
    assert reading is not None
    assert reading.value.startswith("0.32\N{NO-BREAK SPACE}mm, give or take 0.0")
    assert reading.limit == "limit: not more than 0.10\N{NO-BREAK SPACE}mm"
    assert reading.source == "maker's data for this vehicle"
    assert reading.recorded.startswith("Ines Varga, 20 November 2026")


def test_a_limit_in_other_units_is_said_in_the_units_of_the_reading_too(repaired: Page) -> None:
    reading = repaired.findings[0].rounds[0].reading
    assert reading is not None
    assert reading.value.startswith("0.0137\N{NO-BREAK SPACE}in")
    assert reading.limit == "limit: not more than 0.005\N{NO-BREAK SPACE}in (0.127\N{NO-BREAK SPACE}mm)"


def test_as_found_and_after_work_stand_side_by_side_with_their_photos(repaired: Page) -> None:
    before, after = repaired.findings[0].rounds
    assert (before.when, after.when) == ("As found", "After work")
    assert [photo.caption for photo in before.photos] == ["Front right, before"]
    assert [photo.caption for photo in after.photos] == ["Front right, after"]
    assert before.reading
    assert after.reading
    assert (before.reading.mark, after.reading.mark) == ("major", "in-order")


def test_every_photo_says_in_words_what_it_shows(van_page: Page) -> None:
    photos = [photo for finding in van_page.findings for one in finding.rounds for photo in one.photos]
    assert len(photos) == 3
    assert all(photo.alt.startswith("Photo: ") for photo in (*photos, *van_page.other_photos))
    assert [photo.caption for photo in van_page.other_photos] == ["The spots on the customer's yard, as she showed us"]


def test_each_complaint_says_what_came_of_it(van_page: Page) -> None:
    assert [one.outcome for one in van_page.complaints] == [
        "The cause was found.",
        "Being looked into.",
        "Being looked into.",
    ]
    assert van_page.complaints[0].findings == ("Wheel bearing play above the maker's limit, read at the rim",)


def test_an_unanswered_complaint_is_said_to_be_unanswered() -> None:
    page = told(small_card(lambda pen: pen.complaint("It squeaks.")))
    assert page.complaints[0].outcome == "Not answered yet."


def test_what_was_not_checked_says_why(van_page: Page) -> None:
    reading = van_page.points.not_checked[0]
    assert reading.mark == "not-checked"
    assert reading.value == "there was no time for it: to be done when the wheel is off"


def test_questions_nobody_answered_are_counted_and_named(van_page: Page) -> None:
    assert [one.ask for one in van_page.points.unanswered] == [
        "Wheel bearing play",
        "Fluid leaks",
        "Intake pressure and smoke test",
    ]
    assert any("questions were left open" in line for line in van_page.rests_on)


def test_a_reading_too_close_to_its_limit_is_not_called_in_order(van_page: Page) -> None:
    assert [(one.ask, one.place, one.mark) for one in van_page.points.too_close] == [
        ("How far does the rim move on the dial?", "Rear right", "too-close")
    ]


def test_a_reading_beyond_a_limit_that_nobody_judged_is_shown_as_such(van_page: Page) -> None:
    assert ("Rock the wheel at 12 and 6 o'clock. Is there play?", "Rear left") in [
        (one.ask, one.place) for one in van_page.points.undecided
    ]


def test_two_records_that_disagree_are_both_shown() -> None:
    story = estate(STAFF, seed_book(), START_MS)
    sign(story, "no")
    page = told(frozen(story))
    (torn,) = page.points.disagreements
    assert torn.value == ""
    assert [other.split(" (")[1] for other in torn.others] == [
        "Tom Abara, 20 November 2026)",
        "Ines Varga, 20 November 2026)",
    ]
    assert any("two people recorded different things" in line for line in page.rests_on)


def test_a_first_revision_has_no_changes_and_a_second_says_what_changed(repaired: Page) -> None:
    assert told(pickup_signed()).changes is None
    changes = repaired.changes
    assert changes is not None
    assert changes.since.startswith("Revision 1 was signed by Ruth Okello on 20 November 2026.")
    assert [(before.mark, after.mark) for before, after in changes.rechecked] == [
        ("major", "in-order"), ("recorded", "recorded"), ("major", "in-order")
    ]  # fmt: skip
    assert changes.left == ("Wet with fluid",)
    assert changes.improvised[0].startswith("Clip of the speed sensor cable was broken")
    assert changes.new_findings == ()


def test_a_finding_taken_back_after_the_first_signature_is_named() -> None:
    story = begin("taken back", START_MS)
    pen = Pen(story, STAFF.ines)
    slot = pen.finding(None, FINDING)
    sign(story)
    pen.write("retraction", slot, {})
    pen.finding(None, {**FINDING, "title": "A dent"})
    sign(story)
    changes = told(frozen(story)).changes
    assert changes is not None
    assert (changes.dropped_findings, changes.new_findings) == (("A crack",), ("A dent",))


def test_what_the_customer_answered_stands_with_the_finding(repaired: Page) -> None:
    leak = next(finding for finding in repaired.findings if finding.title == "Wet with fluid")
    assert leak.agreed == "Answer of Ellis by phone on 20 November 2026: not now."


def test_a_grade_other_than_the_limits_own_says_so() -> None:
    proposed = {"grade": "dangerous", "title": "A crack", "limit": "crack"}
    page = told(small_card(lambda pen: pen.finding(None, {**FINDING, "proposed": proposed})))
    assert page.findings[0].proposed.startswith("The limit alone would make this: dangerous.")


def test_an_author_nobody_knows_is_said_so_and_breaks_nothing() -> None:
    card = replace(small_card(lambda pen: pen.finding(None, FINDING)), names={})
    assert "a person no longer listed" in told(card).signed


def test_a_card_with_nothing_on_it_but_a_fact_still_makes_a_page() -> None:
    page = told(small_card(lambda pen: pen.facts({"vehicle/plate": "AB 1"})))
    assert page.vehicle.name == "Vehicle"
    assert page.findings == ()
    assert page.rests_on[0] == "Nothing was checked: no reading, no photo and no finding is recorded."
    assert page.nothing_to_do == "Nothing was checked, so this report cannot say whether something has to be done."


def test_cautions_and_sources_of_the_checklists_used_are_listed(van_page: Page) -> None:
    assert "Never under a vehicle held by a jack alone" in [caution.title for caution in van_page.cautions]
    assert "maker's data for this vehicle" in van_page.sources


def treads_told() -> list[ReadingView]:
    """The worked-out lowest tread of both front tyres, the right one worn far less than the left."""

    def write(pen: Pen) -> None:
        pen.choose(seed_book(), "tyres-wheels")
        for place, depth in (("front-left", 1.9), ("front-right", 7.0)):
            points = {"first": depth, "second": depth + 0.1, "third": depth + 0.2}
            pen.spread(f"tyres-wheels/tread-round/{place}", points, "mm", "tread-gauge-0.1")

    (checklist,) = told(small_card(write)).checklists
    readings = [reading for station in checklist.stations for reading in station.readings]
    return [reading for reading in readings if "/lowest-tread/" in reading.slot]


def test_a_worked_out_reading_says_its_own_number_and_the_difference_it_is_judged_by() -> None:
    left, right = treads_told()
    assert left.value.startswith("1.9\N{NO-BREAK SPACE}mm")
    assert right.value.startswith("7.0\N{NO-BREAK SPACE}mm")
    assert left.state == "beyond the limit (major)"
    assert left.limit.startswith("difference between left and right: 5.1\N{NO-BREAK SPACE}mm")
    assert left.limit.endswith("not more than 5.0\N{NO-BREAK SPACE}mm")


def test_a_reading_judged_by_the_other_side_says_how_far_off_it_is_itself(van_page: Page) -> None:
    warm = next(one for one in van_page.points.undecided if "/hub-temperature/" in one.slot)
    assert warm.value == "38\N{NO-BREAK SPACE}°C, give or take 2.3\N{NO-BREAK SPACE}°C"
    assert "left and right: 33\N{NO-BREAK SPACE}°C, give or take 3.3\N{NO-BREAK SPACE}°C" in warm.limit


def test_a_reading_nobody_judged_says_what_the_check_gave_after_work() -> None:
    story = begin("repeated", START_MS)
    pen = Pen(story, STAFF.ines)
    pen.choose(seed_book(), "bearing-play")
    pen.choice("bearing-play/spin-noise/rear-left", "rumble")
    pen.after_work().choice("bearing-play/spin-noise/rear-left", "quiet")
    sign(story)
    (noise,) = told(frozen(story)).points.undecided
    assert noise.value == "Rumble or grinding"
    assert noise.note == "After work · Quiet · in order"


def test_what_a_worked_out_answer_lacks_is_named_as_its_question() -> None:
    story = begin("lacking", START_MS)
    pen = Pen(story, STAFF.ines)
    pen.choose(seed_book(), "bearing-play")
    sign(story)
    pen.after_work().number("bearing-play/dial-radius/vehicle", [205], "mm", "steel-rule-0.5")
    pen.after_work().number(RIM, [0.02], "mm", "dial-indicator-0.01")
    sign(story)
    changes = told(frozen(story)).changes
    assert changes is not None
    (before,) = [before for before, _ in changes.rechecked if "/rim-angle/" in before.slot]
    assert "How far does the rim move on the dial? (Rear left)" in before.value
    assert "bearing-play/" not in before.value


def test_nothing_to_do_is_not_said_over_a_reading_that_nobody_judged() -> None:
    def write(pen: Pen) -> None:
        pen.choose(seed_book(), "bearing-play")
        pen.choice("bearing-play/spin-noise/rear-left", "rumble")

    def in_order(pen: Pen) -> None:
        pen.choose(seed_book(), "bearing-play")
        pen.choice("bearing-play/spin-noise/rear-left", "quiet")

    page = told(small_card(write))
    assert page.must == ()
    assert page.nothing_to_do.endswith("1 reading is beyond its limit and not judged yet.")
    assert told(small_card(in_order)).nothing_to_do == "Nothing in this report has to be done now."


def test_a_grade_of_what_was_repaired_says_that_it_is_how_it_was_found(repaired: Page) -> None:
    assert {finding.grade for finding in repaired.done} == {"As found: Major"}
    assert [finding.grade for finding in repaired.can_wait] == ["Minor"]


@pytest.mark.parametrize(
    ("repeated", "grade", "warns"),
    [([0.02], "As found: Major", False), (None, "As found: Major", True), ([0.4], "Major", True)],
)
def test_what_a_finding_means_stays_on_page_one_until_a_check_was_in_order(
    repeated: list[float] | None, grade: str, warns: bool
) -> None:
    card = worked_on(repeated)
    assert told(card).findings[0].grade == grade
    (first_page, _) = render_html(card, seed_book()).split('<section class="findings">')
    assert ("The wheel moves more than its maker allows." in first_page) == warns
    assert ("The wheel moves more than its maker allows." in plain_summary(told(card), Words())) == warns


def test_work_that_did_not_help_is_not_called_left_as_it_is() -> None:
    story = begin("did not help", START_MS)
    pen = Pen(story, STAFF.ines)
    pen.choose(seed_book(), "bearing-play")
    pen.choice("bearing-play/spin-noise/rear-left", "rumble")
    slot = pen.accept(seed_book(), "bearing-play/spin-noise/rear-left", "rumble")
    sign(story)
    pen.work([slot], "Greased.")
    pen.after_work().choice("bearing-play/spin-noise/rear-left", "rumble")
    sign(story)
    changes = told(frozen(story)).changes
    assert changes is not None
    assert (changes.still_beyond, changes.left) == (("Wheel bearing rumbles",), ())


def test_several_photos_of_one_check_are_no_disagreement() -> None:
    check = "underbody/overview/under-middle"

    def write(pen: Pen) -> None:
        pen.choose(seed_book(), "underbody")
        for name in ("yard", "tread", "brake"):
            pen.photo(name, f"{check}/1", name)

    (checklist,) = told(small_card(write)).checklists
    (reading,) = [one for station in checklist.stations for one in station.readings if one.slot.startswith(check)]
    assert (reading.value, reading.others) == ("3 photos", ())


def test_an_unanswered_question_names_its_places_only_where_others_were_answered(van_page: Page) -> None:
    note = next(one.note for one in van_page.points.unanswered if one.ask == "Wheel bearing play")
    assert "How is the speed sensor and its ring? ·" in note
    assert "Rock the wheel at 3 and 9 o'clock. Is there play? (Rear left)" in note


def test_nothing_to_do_is_not_said_over_work_that_nobody_checked() -> None:
    page = told(worked_on(None))
    assert page.must == ()
    assert page.nothing_to_do == "Work was done on 1 dangerous or major finding, but its check has not been repeated."
    assert told(worked_on([0.02])).nothing_to_do == "Nothing in this report has to be done now."
