/** Sounds laid over each other on the same axes: level, crest factor, levels by pitch; each can be played. */
import { useEffect, useState } from "preact/hooks";
import { decodeSound } from "../../capture/decode";
import { bandsOf, levelOf, type Band } from "../../capture/sound-bands";
import { soundFigures } from "../../capture/sound-figures";
import type { EntryOf } from "../../journal/types";
import { formatNumber } from "../../words/words";
import { useBay } from "./context";
import { say } from "./say";

export type Side = { name: string; sound: EntryOf<"sound"> };
type Heard = { url: string; level_db: number; crest: number; bands: Band[] };
/** "waits": its bytes are not here; "unreadable": they are, but not as a sound this browser knows */
type Listened = Heard | "waits" | "unreadable";

/** `sides`: at most two are drawn apart, the first with a whole line, the second with a dashed one. */
export function SoundCompare({ sides }: { sides: readonly Side[] }) {
  const heard = useHeard(sides);
  return (
    <section class="sounds stack" aria-label={say("sounds")}>
      {sides.map((side, at) => (
        <One key={side.sound.id} side={side} heard={heard[at]} at={at} />
      ))}
      <Spectrum sides={sides} heard={heard} />
    </section>
  );
}

function One({ side, heard, at }: { side: Side; heard: Listened | undefined; at: number }) {
  const name = (
    <p class="row">
      <svg class="sound-key" viewBox="0 0 40 8" aria-hidden="true">
        <line class={`sound-line line-${at}`} x1="0" x2="40" y1="4" y2="4" />
      </svg>
      <strong>{side.name}</strong>
    </p>
  );
  if (typeof heard !== "object")
    return (
      <div>
        {name}
        <p class="soft">{say(heard === undefined ? "photo-busy" : `sound-${heard}`)}</p>
      </div>
    );
  return (
    <div class="stack">
      {name}
      <p class="figure">
        {say("sound-figures", {
          db: formatNumber(heard.level_db, 1),
          crest: formatNumber(heard.crest, 1),
          hz: formatNumber(Number(loudestOf(heard.bands).toPrecision(2))),
        })}
      </p>
      <audio controls preload="metadata" src={heard.url} aria-label={side.name} />
    </div>
  );
}

/** The pitch of the loudest band, Hz. */
function loudestOf(bands: readonly Band[]): number {
  return bands.reduce((best, band) => (band.db > best.db ? band : best), { hz: 0, db: -Infinity }).hz;
}

const WIDTH = 300;
const HEIGHT = 120;
const TICKS_HZ = [50, 200, 1000, 5000];

type Range = { lo: number; hi: number };

/** The same floor and ceiling for all, to the next ten dB. */
export function sharedRange(all: readonly (readonly Band[])[]): Range {
  const levels = all.flat().map((band) => band.db);
  const hi = Math.ceil(Math.max(-60, ...levels) / 10) * 10;
  return { hi, lo: Math.max(hi - 60, Math.min(hi - 50, Math.floor(Math.min(...levels, hi) / 10) * 10)) };
}

/** Points of a line: pitch to the right on a scale of octaves, level upwards. */
export function lineOf(bands: readonly Band[], { lo, hi }: Range): string {
  return bands
    .map(({ db }, at) => {
      const x = (at / Math.max(1, bands.length - 1)) * WIDTH;
      const y = HEIGHT - ((Math.max(lo, db) - lo) / (hi - lo)) * HEIGHT;
      return `${Math.round(x * 10) / 10},${Math.round(y * 10) / 10}`;
    })
    .join(" ");
}

function Spectrum({ sides, heard }: { sides: readonly Side[]; heard: readonly (Listened | undefined)[] }) {
  const drawn = heard.map((one) => (typeof one === "object" ? one.bands : []));
  if (drawn.every((bands) => bands.length === 0)) return null;
  const range = sharedRange(drawn);
  return (
    <figure class="spectrum">
      <svg
        viewBox={`0 -2 ${WIDTH} ${HEIGHT + 4}`}
        preserveAspectRatio="none"
        role="img"
        aria-label={say("spectrum-says", { what: sides.map((side) => side.name).join(", ") })}
      >
        {TICKS_HZ.map((hz) => (
          <line key={hz} class="plot-now" x1={xOf(hz)} x2={xOf(hz)} y1="0" y2={HEIGHT} />
        ))}
        {drawn.map((bands, at) => (
          <polyline key={at} class={`sound-line line-${at}`} points={lineOf(bands, range)} />
        ))}
      </svg>
      <figcaption class="spectrum-ends soft">
        <span>25 Hz</span>
        <span>{say("spectrum-range", { lo: range.lo, hi: range.hi })}</span>
        <span>10 kHz</span>
      </figcaption>
    </figure>
  );
}

function xOf(hz: number): number {
  return Math.round(((3 * Math.log2(hz / 1000) + 16) / 26) * WIDTH);
}

/** Reads and measures one sound after the other, so that the screen stays alive between them. */
function useHeard(sides: readonly Side[]): readonly (Listened | undefined)[] {
  const { store } = useBay();
  const [heard, setHeard] = useState<readonly (Listened | undefined)[]>([]);
  const key = sides.map((side) => side.sound.body.blob).join(" ");
  useEffect(() => {
    let gone = false;
    const urls: string[] = [];
    const read = async () => {
      const found: Listened[] = [];
      for (const { sound } of sides) {
        const bytes = await bytesOf(sound.body.blob, () => store.blob(sound.body.blob));
        const one = bytes ? await listen(bytes, sound.body.mime, urls) : "waits";
        if (gone) return;
        found.push(one);
        setHeard([...found]);
      }
    };
    setHeard([]);
    void read();
    return () => {
      gone = true;
      for (const url of urls) URL.revokeObjectURL(url);
    };
  }, [store, key]);
  return heard;
}

async function listen(bytes: ArrayBuffer, mime: string, urls: string[]): Promise<Listened> {
  const sound = await decodeSound(bytes);
  if (sound === null) return "unreadable";
  const { rms, crest } = soundFigures(sound.samples, sound.rate_hz);
  const url = URL.createObjectURL(new Blob([bytes], { type: mime }));
  urls.push(url);
  return { url, level_db: levelOf(rms), crest, bands: bandsOf(sound.samples, sound.rate_hz) };
}

/** From this phone, else from the workshop; null when neither has them now. */
async function bytesOf(
  sha256: string,
  here: () => Promise<{ bytes: ArrayBuffer } | null>,
): Promise<ArrayBuffer | null> {
  const held = await here();
  if (held) return held.bytes;
  try {
    const answer = await fetch(`/api/blobs/${sha256}`);
    return answer.ok ? await answer.arrayBuffer() : null;
  } catch {
    return null;
  }
}
