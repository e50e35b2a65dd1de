"""The technician and their phone: what they do, in sentences."""

import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Locator, Page, TimeoutError, expect

from baycard.checklists.types import (
    Book,
    Check,
    Checklist,
    ChoiceAnswer,
    CodesAnswer,
    NumberAnswer,
    PhotoAnswer,
    RunAnswer,
    SoundAnswer,
    SpreadAnswer,
    TextAnswer,
    WorkedOutAnswer,
)
from tests.support.server import secret_of

# A kept button is deaf for a moment, so that a slow finger records once.
QUIET_MS = 450
# How long the phone shows a kept answer before it goes on, and into how many looks the wait for that is cut.
SHOWN_MS = 700
TRIES = 15


@dataclass(frozen=True)
class Reading:
    """What the technician answers to one check where it is not the plain good case.

    choice: option id; numbers: as typed; samples: readings of a run in order; skip: label of the reason.
    """

    choice: str = ""
    numbers: tuple[str, ...] = ()
    samples: tuple[str, ...] = ()
    count: int = 0
    skip: str = ""
    note: str = ""
    photo: str = ""
    accept: bool = False
    words: str = ""


@dataclass
class Technician:
    """A person with a phone in one hand."""

    page: Page
    book: Book
    photos: Mapping[str, bytes]
    folder: Path
    answered: list[str] = field(default_factory=list)
    holds_time: bool = False

    def takes_time_in_hand(self) -> None:
        """From here on the page's timers run as told, so that a run of minutes takes none."""
        self.page.clock.install()
        self.holds_time = True

    def signs_in(self, name: str) -> None:
        """Sign in once, while there is a network."""
        self.page.goto("/")
        self.page.get_by_label("Name", exact=True).fill(name)
        self.page.get_by_label("Secret").fill(secret_of(name))
        self.page.get_by_role("button", name="Sign in").click()
        expect(self.page.get_by_role("heading", name="Cards")).to_be_visible()

    def is_ready_for_no_network(self) -> None:
        """The service worker has everything in its cache and rules the page after a reload."""
        ready = "navigator.serviceWorker.ready.then((registration) => registration.active !== null)"
        assert self.page.evaluate(ready)
        self.page.reload()
        expect(self.page.get_by_role("heading", name="Cards")).to_be_visible()
        assert self.page.evaluate("navigator.serviceWorker.controller !== null")

    def opens_a_new_card(self, facts: Mapping[str, str], complaints: list[str]) -> str:
        """Book in; gives the card's id."""
        self.page.get_by_role("button", name="New card").click()
        for label, text in facts.items():
            box = self.page.get_by_label(label, exact=True)
            box.fill(text)
            box.blur()
        for number, words in enumerate(complaints, start=1):
            self.page.get_by_label(f"Complaint {number}", exact=True).fill(words)
            self.page.get_by_role("button", name="Add another complaint").click()
        return self.page.url.split("/bay/")[1].split("/")[0]

    def chooses(self, *checklists: str) -> None:
        """Tick checklists on the book-in screen, then go to the card."""
        for wanted in checklists:
            title = self._checklist(wanted).title
            self.page.get_by_role("checkbox", name=re.compile(f"^{re.escape(title)}")).click()
        self.page.get_by_role("button", name="To the card").click()
        expect(self.page.get_by_role("heading", name="Complaints")).to_be_visible()

    def walks(self, card: str, checklist: str, readings: Mapping[str, Reading], round_: int = 1) -> None:
        """Answer every check of a checklist; `readings` by `check/place`, the plain good case for the rest."""
        self.page.goto(f"/bay/{card}/walk/{round_}/{checklist}")
        while True:
            self.reads_cautions()
            if self.page.get_by_role("heading", name="Nothing left on this walk").is_visible():
                return
            self._answers_this_check(readings)

    def accepts_every_proposal(self, card: str) -> int:
        """Turn the proposals still open into findings; gives how many."""
        self.page.goto(f"/bay/{card}/findings")
        expect(self.page.get_by_role("heading", name="Findings", exact=True)).to_be_visible()
        accept = self.page.get_by_role("button", name="Accept", exact=True)
        count = accept.count()
        for _ in range(count):
            before = accept.count()
            accept.first.click()
            expect(accept).to_have_count(before - 1)
            self.page.wait_for_timeout(QUIET_MS)
        return count

    def traces_complaint(self, card: str, number: int, outcome: str, finding: str = "", words: str = "") -> None:
        """Say what became of a complaint."""
        self.page.goto(f"/bay/{card}")
        self.page.locator("main button:has(.said)").nth(number - 1).click()
        self.page.get_by_role("radio", name=outcome).click()
        if finding:
            self.page.get_by_role("checkbox", name=re.compile(finding, re.IGNORECASE)).first.click()
        if words:
            self.page.get_by_label("In words").fill(words)
        self.page.get_by_role("button", name="Keep", exact=True).click()
        expect(self.page.get_by_text("Outcome kept")).to_be_visible()

    def hands_in(self, card: str, words: str) -> None:
        """Ready for the desk."""
        self.page.goto(f"/bay/{card}/hand-in")
        self.page.get_by_label("Words to the desk").fill(words)
        self.page.get_by_role("button", name="Hand in", exact=True).click()
        expect(self.page.get_by_text("Handed in").first).to_be_visible()

    def records_work(self, card: str, words: str, part: str) -> None:
        """Work on every finding, with one new part."""
        self.page.goto(f"/bay/{card}")
        self.page.get_by_role("button", name="Record work").click()
        expect(self.page.get_by_role("button", name="Keep work done")).to_be_visible()
        for tick in self.page.get_by_role("checkbox").all():
            tick.click()
        self.page.get_by_label("What was done").fill(words)
        self.page.get_by_label("Part", exact=True).fill(part)
        self.page.get_by_role("button", name="Add part").click()
        self.page.get_by_role("button", name="Keep work done").click()
        expect(self.page.get_by_text("Work kept")).to_be_visible()

    def _checklist(self, wanted: str) -> Checklist:
        return next(one for one in self.book.checklists if one.id == wanted)

    def reads_cautions(self) -> None:
        read = self.page.get_by_role("button", name="I have read this")
        step = self.page.locator("[data-step]")
        over = self.page.get_by_role("heading", name="Nothing left on this walk")
        expect(read.or_(step).or_(over).first).to_be_visible()
        if read.is_visible():
            read.click()
            expect(step.or_(over).first).to_be_visible()

    def _answers_this_check(self, readings: Mapping[str, Reading]) -> None:
        step = self.page.locator("[data-step]")
        slot = step.get_attribute("data-step") or ""
        checklist, check_id, place, _ = slot.split("/")
        check = next(one for one in self._checklist(checklist).checks if one.id == check_id)
        reading = readings.get(f"{check_id}/{place}") or readings.get(check_id) or Reading()
        self.answered.append(slot)
        assert self.answered.count(slot) < 4, f"the walk comes back to {slot} again and again"
        if check.photo == "required" and not reading.photo and not reading.skip:
            self.takes_a_photo(next(iter(self.photos)))
        if reading.photo:
            self.takes_a_photo(reading.photo)
        self._answers(step, check, reading)
        self._goes_on(slot, reading)

    def takes_a_photo(self, name: str) -> None:
        """A picture as this phone's camera would hand it over, picked as a file."""
        self.page.get_by_role("button", name="Photo", exact=True).first.click()
        path = self.folder / f"{name}.jpg"
        path.write_bytes(self.photos[name])
        self.page.get_by_role("dialog", name="Photo").get_by_label("From a file").set_input_files(path)
        expect(self.page.get_by_text("Photo kept").first).to_be_visible(timeout=30_000)

    def _answers(self, step: Locator, check: Check, reading: Reading) -> None:
        if reading.skip:
            self._skips(reading.skip, reading.words)
            return
        match check.answer:
            case ChoiceAnswer() as answer:
                self._chooses_option(check.ask, answer, reading)
            case SpreadAnswer() as answer:
                self._picks_an_instrument(step)
                self._types_points(answer, reading)
            case NumberAnswer() as answer:
                self._picks_an_instrument(step)
                self._types_repeats(answer, reading)
            case RunAnswer() as answer:
                self._picks_an_instrument(step)
                self._runs(answer, reading)
            case TextAnswer():
                self.page.get_by_label("In words").fill(reading.words or "nothing more to say")
                self.page.get_by_role("button", name="Keep", exact=True).click()
            case CodesAnswer():
                self.page.get_by_role("button", name="No codes stored").click()
            case SoundAnswer():
                self._records(step)
            case PhotoAnswer() as answer:
                self._photographs(step, answer)
            case WorkedOutAnswer():
                pass

    def _chooses_option(self, ask: str, answer: ChoiceAnswer, reading: Reading) -> None:
        good = next((one for one in answer.options if one.means == "in-order"), answer.options[-1])
        wanted = next((one for one in answer.options if one.id == reading.choice), good)
        button = self.page.get_by_role("group", name=ask).get_by_role("button", name=wanted.label, exact=True)
        expect(button).to_have_attribute("aria-disabled", "false")
        button.click()

    def _types_points(self, answer: SpreadAnswer, reading: Reading) -> None:
        plain = _typed(answer.range, answer.decimals)
        for number in reading.numbers or (plain,) * len(answer.points):
            self._types(number)
            self.page.locator(".pad .keep").click()
            self.page.wait_for_timeout(QUIET_MS)

    def _types_repeats(self, answer: NumberAnswer, reading: Reading) -> None:
        numbers = reading.numbers or (_typed(answer.range, answer.decimals),)
        for number in numbers[:-1]:
            self._types(number)
            self.page.get_by_role("button", name="Again").click()
        self._types(numbers[-1])
        self.page.locator(".pad .keep").click()

    def starts_a_run(self, first: str) -> None:
        """Pick the first instrument, start the stopwatch and enter a reading at once."""
        self._picks_an_instrument(self.page.locator("[data-step]"))
        self.page.get_by_role("button", name="Start", exact=True).click()
        self.enters(first)

    def enters(self, number: str) -> None:
        """A reading on the number pad, and its key."""
        self._types(number)
        self.page.locator(".pad .keep").click()

    def _runs(self, answer: RunAnswer, reading: Reading) -> None:
        self.page.get_by_role("button", name="Start", exact=True).click()
        if answer.shape == "count":
            for _ in range(reading.count):
                self.page.clock.fast_forward(2_000)
                self.page.get_by_role("button", name="Tap for each one").click()
            self.page.clock.fast_forward(int(answer.seconds * 1000))
        else:
            every = answer.every_s or answer.seconds
            for number in reading.samples or ("0", "0"):
                self._types(number)
                self.page.locator(".pad .keep").click()
                self.page.clock.fast_forward(int(every * 1000))
        self.page.get_by_role("button", name="Keep this run").click()

    def _photographs(self, step: Locator, answer: PhotoAnswer) -> None:
        """With the camera in the page, as many as the check wants; the last one leads to the next check."""
        slot = step.get_attribute("data-step")
        for taken in range(1, answer.least + 1):
            self.page.get_by_role("button", name="Photo", exact=True).first.click()
            self.page.get_by_role("dialog", name="Photo").get_by_role("button", name="Take photo").click()
            if taken < answer.least:
                expect(self.page.get_by_text(f"{taken} of {answer.least} photos")).to_be_visible()
        expect(self.page.locator(f'[data-step="{slot}"]')).to_have_count(0)

    def _records(self, step: Locator) -> None:
        self.page.get_by_role("button", name="Record", exact=True).click()
        stop = self.page.get_by_role("button", name="Stop", exact=True)
        expect(stop).to_be_visible()
        self.page.wait_for_timeout(700)
        stop.click()
        expect(step.get_by_text("1 recorded")).to_be_visible()

    def _skips(self, reason: str, words: str) -> None:
        self.page.get_by_role("button", name="Could not check").click()
        group = self.page.get_by_role("group", name="Could not check")
        group.get_by_role("button", name=reason, exact=True).click()
        if words:
            self.page.get_by_label("In words").fill(words)
            self.page.get_by_role("button", name="Keep", exact=True).click()

    def _picks_an_instrument(self, step: Locator) -> None:
        question = step.get_by_role("radiogroup", name="What do you measure with?")
        pad = step.locator(".pad")
        face = step.get_by_role("button", name="Start", exact=True)
        expect(question.or_(pad).or_(face).first).to_be_visible()
        if question.is_visible():
            question.get_by_role("radio").first.click()

    def _types(self, number: str) -> None:
        pad = self.page.locator(".pad")
        names = {",": "Comma", ".": "Dot", "-": "Plus or minus"}
        for sign in number:
            pad.get_by_role("button", name=names.get(sign, sign), exact=True).click()

    def _goes_on(self, slot: str, reading: Reading) -> None:
        """The next check comes by itself, unless this one asks for a look."""
        if reading.accept:
            self.page.get_by_role("button", name="Accept", exact=True).click()
        here = self.page.locator(f'[data-step="{slot}"]')
        on = self.page.get_by_role("button", name="Next check")
        for _ in range(8):
            for _ in range(TRIES):
                if self.holds_time:
                    self.page.clock.fast_forward(SHOWN_MS)
                with suppress(AssertionError):
                    expect(here).to_have_count(0, timeout=1_200 / TRIES)
                    return
            with suppress(TimeoutError):
                on.click(timeout=1_000)
        raise AssertionError(f"the walk does not go on from {slot}")


def _typed(bounds: tuple[float, float], decimals: int) -> str:
    """A number inside the range, as a thumb would type it."""
    low, high = bounds
    value = min(max(low, 1.0), high)
    return f"{value:.{decimals}f}"
