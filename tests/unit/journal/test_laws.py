"""Two to four phones write apart and hand their entries round in every which way; they must agree in the end."""

from dataclasses import dataclass, field
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from baycard.journal.entry import Entry, EntryContext, new_entry
from baycard.journal.standing import standing
from tests.unit.journal.laws import assert_converges, assert_nothing_comes_back

SLOTS = ("a/b/c/1", "a/b/c/2", "vehicle/vin")


@dataclass
class Phone:
    """A phone with a clock of its own, what it holds, and what it has received in order."""

    name: str
    skew_ms: int
    received: list[Entry] = field(default_factory=list)

    def write(self, slot: str, tick: int, random: Random) -> Entry:
        context = EntryContext("card", self.name, self.name, lambda: 10**12 + tick + self.skew_ms, random.randbytes)
        seen = [one.id for one in standing(self.received).get(slot, ())]
        entry = new_entry("answer", slot, {"is": "text", "words": str(tick)}, seen, context)
        self.received.append(entry)
        return entry


@dataclass
class Story:
    """What was written in all, and by whom it was received."""

    phones: list[Phone]
    written: list[Entry]


def told(phones: int, steps: list[tuple[int, int, int]], seed: int) -> Story:
    """Each step writes an entry, or sends a batch from one phone to another: any part, any order, again and again."""
    random = Random(seed)
    story = Story([Phone(f"p{n}", random.choice([-(10**9), 0, 10**9])) for n in range(phones)], [])
    for tick, (who, act, whom) in enumerate(steps):
        phone, other = story.phones[who % phones], story.phones[whom % phones]
        if act < len(SLOTS):
            story.written.append(phone.write(SLOTS[act], tick, random))
        elif phone.received:
            batch = random.choices(phone.received, k=min(4, len(phone.received)))
            lost = act % 2 == 0
            other.received.extend(batch * (0 if lost else 1 + act % 3))
    return story


STORIES = st.builds(
    told,
    st.integers(2, 4),
    st.lists(st.tuples(st.integers(0, 3), st.integers(0, 8), st.integers(0, 3)), max_size=40),
    st.integers(0, 10**6),
)


@settings(max_examples=150)
@given(STORIES)
def test_phones_that_have_everything_agree_whatever_the_way_it_came(story: Story) -> None:
    assert_converges([phone.received for phone in story.phones], story.written)


@settings(max_examples=100)
@given(STORIES)
def test_what_was_replaced_never_comes_back(story: Story) -> None:
    for phone in story.phones:
        assert_nothing_comes_back(phone.received)


@settings(max_examples=100)
@given(STORIES, st.randoms(use_true_random=False))
def test_after_loss_a_resend_of_everything_settles_every_phone_alike(story: Story, random: Random) -> None:
    for phone in story.phones:
        everything = [*story.written, *random.choices(story.written, k=3)] if story.written else []
        random.shuffle(everything)
        phone.received.extend(everything)
        assert standing(phone.received) == standing(story.written)


@settings(max_examples=100)
@given(STORIES)
def test_someone_who_sees_a_disagreement_can_settle_it(story: Story) -> None:
    phone = story.phones[0]
    phone.received.extend(story.written)
    for slot in SLOTS:
        entry = phone.write(slot, 10**6, Random(slot))
        assert standing(phone.received)[slot] == (entry,)
