/** Lets go of photos and sounds that the workshop holds, once their card is signed off and they are old enough. */
import type { Api } from "../api/api";
import { stageOf } from "../journal/stage";
import { standing } from "../journal/standing";
import type { BlobLine, Server, SyncStore } from "../store/types";
import type { Outcome, Step } from "./state";

type Tools = { store: SyncStore; api: Api };

/** One card at a time, each after the server has said anew which of its blobs it holds. Raises StoreError. */
export async function tidy({ store, api }: Tools, step: Step & { do: "tidy" }): Promise<Outcome> {
  const lines = await store.sentBlobs(step.sent_before);
  const card = await firstSigned(store, lines, step.done);
  if (card === null) return { of: "tidy", card };
  const answer = await api.digest(card);
  // Any doubt leaves them where they are; the next day asks again.
  if (answer.is !== "ok" || !isSame(answer.server, await store.server())) return { of: "tidy", card: null };
  const held = new Set(answer.value.blobs.filter((blob) => blob.held).map((blob) => blob.sha256));
  await store.dropBlobs(lines.map((line) => line.sha256).filter((name) => held.has(name)));
  return { of: "tidy", card };
}

function isSame(a: Server | null, b: Server | null): boolean {
  return a !== null && a.instance === b?.instance && a.epoch === b.epoch;
}

async function firstSigned(store: SyncStore, lines: BlobLine[], done: string[]): Promise<string | null> {
  const cards = new Set(lines.map((line) => line.card));
  for (const card of cards) if (!done.includes(card) && (await isClosed(store, card))) return card;
  return null;
}

/** Signed off, and nothing came after. */
async function isClosed(store: SyncStore, card: string): Promise<boolean> {
  const entries = await store.entriesOf(card);
  const stage = stageOf(standing(entries), entries);
  return stage.is === "signed" && !stage.changedSince;
}
