/** The frame of every bay screen: where you are, the way back, and what is kept, sent and waits. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { Waiting } from "../../store/types";
import type { SyncStatus } from "../../sync/status";
import { lazily } from "../../ui/lazily";
import { UndoBar } from "../../ui/undo";
import { go, goBack, type Route } from "../route";
import { blurredOf } from "./blurred";
import { useBay } from "./context";
import type { OpenCard } from "./open-card";
import { TimeIsUp } from "./ringing";
import { say } from "./say";
import { useUndo } from "./undo";
import { unkeptOf } from "./unkept";

const BlurredPhoto = lazily(() => import("./blurred-photo").then((file) => file.BlurredPhoto));
const UnkeptPhotos = lazily(() => import("./unkept-photos").then((file) => file.UnkeptPhotos));

type ScreenProps = {
  title: string;
  kicker?: string;
  /** stands behind the kicker and is never shortened */
  round?: string;
  back?: Route;
  card?: OpenCard;
  aside?: ComponentChildren;
  foot?: ComponentChildren;
  look?: string;
  /** the screen shows the undo itself, in its own place */
  ownUndo?: boolean;
  /** what stands above the title */
  lead?: ComponentChildren;
  children: ComponentChildren;
};

/** Announces its title by moving focus to it when the screen changes. */
export function Screen({
  title,
  kicker,
  round,
  back,
  card,
  aside,
  foot,
  look = "",
  ownUndo = false,
  lead,
  children,
}: ScreenProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · Baycard`;
    heading.current?.focus({ preventScroll: true });
  }, [title]);
  return (
    <div class={`screen ${look}`}>
      <header class="top">
        {back ? (
          <button type="button" class="top-back" aria-label={say("back")} onClick={() => goBack(back)}>
            ‹
          </button>
        ) : null}
        <KeptLine kicker={kicker ?? say("app")} round={round} />
        {aside}
      </header>
      <main>
        {lead}
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        <TimeIsUp />
        {card ? <Fault card={card} /> : null}
        {card && unkeptOf(card).value.length > 0 ? <UnkeptPhotos card={card} /> : null}
        {children}
      </main>
      <Foot card={card} ownUndo={ownUndo}>
        {foot}
      </Foot>
    </div>
  );
}

/** How many things wait to be sent, and how many were refused. */
export function counts(waiting: Waiting): { toSend: number; refused: number } {
  const all = [...waiting.entries, ...waiting.blobs];
  return {
    toSend: all.filter((line) => line.state === "waiting").length,
    refused: all.filter((line) => line.state === "refused").length,
  };
}

/** The same in a sentence; photos that wait for a better link are named apart from what is on its way. */
export function keptWords(waiting: Waiting, { photos_wait, blobs }: SyncStatus): string {
  const { toSend, refused } = counts(waiting);
  const later = photos_wait === null ? 0 : blobs;
  const sent =
    later > 0 && later === toSend
      ? say("photos-later", { count: later })
      : toSend === 0
        ? say("all-sent")
        : say("to-send", { n: toSend });
  return refused === 0 ? sent : `${sent} · ${say("refused", { n: refused })}`;
}

function KeptLine({ kicker, round }: { kicker: string; round: string | undefined }) {
  const { services, waiting } = useBay();
  return (
    <a
      class="kept"
      href="/bay/phone"
      onClick={(event) => {
        event.preventDefault();
        go({ at: "phone" });
      }}
    >
      <span class="kept-where">
        <span class="kept-name">{kicker}</span>
        {round === undefined ? null : <span class="kept-round"> · {round}</span>}
      </span>
      <span class="kept-line" role="status">
        {keptWords(waiting.value, services.sender.status.value)}
      </span>
    </a>
  );
}

function Fault({ card }: { card: OpenCard }) {
  const fault = card.fault.value;
  const refusal = card.refusal.value;
  if (fault === null && refusal === null) return null;
  return (
    <p class="told" role="alert">
      {fault ? say(`fault-${fault}`) : `${refusal?.title ?? ""}. ${refusal?.do ?? ""}`}
    </p>
  );
}

type FootProps = { card: OpenCard | undefined; ownUndo: boolean; children: ComponentChildren };

/** The acts of the screen, within the thumb's reach; what was just kept can be taken back above them. */
function Foot({ card, ownUndo, children }: FootProps) {
  const blurred = card && blurredOf(card).value;
  if (!blurred && (!card || ownUndo) && !children) return null;
  return (
    <footer class="foot">
      {card && blurred ? <BlurredPhoto key={blurred.id} card={card} photo={blurred} /> : null}
      {card && !ownUndo ? <Undoing card={card} /> : null}
      {children}
    </footer>
  );
}

function Undoing({ card }: { card: OpenCard }) {
  const { shown, undo } = useUndo(card);
  return shown ? <UndoBar words={shown.words} undo={say("undo")} onUndo={undo} /> : null;
}
