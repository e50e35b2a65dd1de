/** The list of cards on this phone, and the way to a new one. */
import { useLayoutEffect, useState } from "preact/hooks";
import { cardState } from "../../journal/card";
import type { CardState } from "../../journal/types";
import { RANDOM_BYTES, uuid7 } from "../../journal/uuid7";
import { Button } from "../../ui/button";
import { go } from "../route";
import { Cleared } from "./cleared";
import { useBay, type Bay } from "./context";
import { DoorClosed } from "./door-closed";
import { GradeMark } from "./marks";
import { Renewal } from "./renewal";
import { RoomNotice } from "./room-notice";
import { say } from "./say";
import { Screen } from "./shell";
import { factText } from "./vehicle";

export function Cards() {
  const bay = useBay();
  const cards = useCards(bay);
  const [signed, unsigned] = split(cards ?? []);
  return (
    <Screen
      title={say("cards")}
      kicker={`${bay.me.workshop.name} · ${bay.me.person.name}`}
      foot={
        <Button look="strong" wide calm onTap={() => startCard(bay)}>
          {say("new-card")}
        </Button>
      }
    >
      <Cleared services={bay.services} />
      <DoorClosed services={bay.services} />
      <Renewal services={bay.services} />
      <RoomNotice />
      {cards && unsigned.length === 0 ? <p class="told plain">{say("no-cards")}</p> : null}
      <CardList cards={unsigned} />
      {signed.length > 0 ? (
        <section class="stack">
          <h2>{say("cards-signed")}</h2>
          <CardList cards={signed} />
        </section>
      ) : null}
    </Screen>
  );
}

/** Opens the book-in of a card that does not exist yet; it begins with the first thing kept on it. */
export function startCard(bay: Bay, instead = false): void {
  go({ at: "book-in", card: uuid7(bay.nowMs(), bay.randomBytes(RANDOM_BYTES)) }, instead);
}

function split(cards: CardState[]): [CardState[], CardState[]] {
  const isSigned = (card: CardState) => card.stage.is === "signed";
  return [cards.filter(isSigned), cards.filter((card) => !isSigned(card))];
}

/** Every card of this phone, newest first; null until read. */
export function useCards(bay: Bay): CardState[] | null {
  const [cards, setCards] = useState<CardState[] | null>(null);
  useLayoutEffect(() => {
    let gone = false;
    const read = async () => {
      const ids = await bay.store.cards();
      const all = await Promise.all(ids.map((id) => bay.store.entriesOf(id)));
      const states = all.map((entries) => cardState(entries, bay.book));
      if (!gone) setCards(states.sort((a, b) => (a.card < b.card ? 1 : -1)));
    };
    void read();
    const stop = bay.store.watch(() => void read());
    return () => {
      gone = true;
      stop();
    };
  }, [bay]);
  return cards;
}

function CardList({ cards }: { cards: CardState[] }) {
  return (
    <ul class="stack">
      {cards.map((card) => (
        <li key={card.card}>
          <Ticket card={card} />
        </li>
      ))}
    </ul>
  );
}

/** A card as a ticket: the stub with the plate, the vehicle, and what is left. */
function Ticket({ card }: { card: CardState }) {
  const left = card.checklists.reduce((sum, one) => sum + one.open, 0);
  const worst = card.findings[0]?.entry.body.grade;
  const make = [factText(card, "vehicle/make"), factText(card, "vehicle/model")].filter(Boolean).join(" ");
  return (
    <a
      class="ticket"
      href={`/bay/${card.card}`}
      onClick={(event) => {
        event.preventDefault();
        go({ at: "card", card: card.card });
      }}
    >
      <span class="stub figure">{factText(card, "vehicle/plate") || "–"}</span>
      <span class="ticket-body">
        <span class="ticket-name">{make || say("card-without-vehicle")}</span>
        <span class="soft">{factText(card, "customer/name") || card.complaints[0]?.words}</span>
        <span class="row">
          <span>{stageWords(card, left)}</span>
          {worst ? <GradeMark grade={worst} /> : null}
        </span>
      </span>
    </a>
  );
}

/** Where the card is, in words. */
export function stageWords(card: CardState, left: number): string {
  if (card.stage.is === "walking")
    return left > 0 ? say("checks-left", { count: left }) : say("stage-walking");
  return say(`stage-${card.stage.is}`);
}
