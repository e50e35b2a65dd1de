/** One card on the desk: what is to decide and the findings on the left, the decision, complaints and vehicle on the right. */
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { CardState } from "../../journal/types";
import { useBay } from "../bay/context";
import { openCard, type OpenCard } from "../bay/open-card";
import { vehicleName } from "../bay/vehicle";
import { go } from "../route";
import { useDesk } from "./context";
import { Decide } from "./decide";
import { Declined } from "./declined";
import { Complaints, Facts } from "./facts";
import { FindingSheet } from "./finding";
import { Fault } from "./fault";
import { NeedLines } from "./needs-lines";
import { OtherMedia } from "./other-media";
import { EveryReading } from "./readings";
import { Rechecks } from "./rechecks";
import { StageLine } from "./stage-line";
import { tell } from "./tell";
import { ToSettle } from "./to-settle";
import { NotChecked, StillOpen } from "./unchecked";
import { UnknownLimits } from "./unknown-limits";

export function CardPage({ id }: { id: string }) {
  const bay = useBay();
  const card = useMemo(() => openCard(bay, id), [bay, id]);
  useEffect(() => () => card.close(), [card]);
  const state = card.state.value;
  return (
    <>
      <a
        class="desk-back"
        href="/desk"
        onClick={(event) => {
          event.preventDefault();
          go({ at: "desk", rest: "/desk" });
        }}
      >
        ‹ {tell("back-to-cards")}
      </a>
      {state === null ? <p class="soft">{tell("loading")}</p> : <Sheet card={card} state={state} />}
    </>
  );
}

function Sheet({ card, state }: { card: OpenCard; state: CardState }) {
  const photosWaiting = usePhotosWaiting(state);
  const name = vehicleName(state);
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${name} · Baycard`;
  }, [name]);
  useEffect(() => title.current?.focus({ preventScroll: true }), []);
  if (state.entries.length === 0) return <NoSuchCard />;
  return (
    <>
      <header class="desk-title">
        <h1 ref={title} tabIndex={-1} dir="auto">
          {name}
        </h1>
        <StageLine state={state} />
        <NeedLines state={state} photosWaiting={photosWaiting} linked />
        <a class="desk-to-decision" href="#sign-off">
          {tell("to-decision")}
        </a>
      </header>
      <Fault card={card} />
      <div class="desk-sheet">
        <div class="stack-wide">
          <ToSettle card={card} state={state} />
          <section class="stack" aria-labelledby="findings">
            <h2 id="findings">{tell("findings")}</h2>
            {state.findings.length === 0 ? <p class="soft">{tell("no-findings")}</p> : null}
            {state.findings.map((finding) => (
              <FindingSheet key={finding.slot} card={card} state={state} finding={finding} />
            ))}
          </section>
          <Rechecks state={state} />
          <Declined state={state} />
          <NotChecked state={state} />
          <StillOpen state={state} />
          <UnknownLimits card={card} state={state} />
          <OtherMedia state={state} />
          <EveryReading state={state} />
        </div>
        <aside class="stack-wide" aria-label={tell("decide")}>
          <Decide card={card} state={state} photosWaiting={photosWaiting} />
          <Complaints state={state} />
          <Facts state={state} />
        </aside>
      </div>
    </>
  );
}

function NoSuchCard() {
  return (
    <>
      <h1 class="hidden-words">{tell("cards-title")}</h1>
      <p class="told plain">{tell("no-such-card")}</p>
    </>
  );
}

/** How many photos and sounds of the card the server does not hold yet; 0 while it cannot be asked. */
function usePhotosWaiting(state: CardState): number {
  const { api } = useDesk();
  const [waiting, setWaiting] = useState(0);
  const count = state.photos.length + state.sounds.length;
  useEffect(() => {
    let gone = false;
    void (count === 0 ? Promise.resolve(null) : api.digest(state.card)).then((answer) => {
      if (gone) return;
      if (answer === null) setWaiting(0);
      else if (answer.is === "ok") setWaiting(standingOf(state, answer.value.blobs));
    });
    return () => {
      gone = true;
    };
  }, [api, state.card, state.entries.length, count]);
  return waiting;
}

/** Photos that were taken back hold nothing up. */
function standingOf(
  { photos, sounds }: CardState,
  blobs: readonly { sha256: string; held: boolean }[],
): number {
  const missing = new Set(blobs.filter((blob) => !blob.held).map((blob) => blob.sha256));
  return [...photos, ...sounds].filter((one) => missing.has(one.body.blob)).length;
}
