/** A check that is answered by a recorded sound, or by a sound file where the phone cannot record. */
import { useState } from "preact/hooks";
import type { Recorded } from "../../../capture/sound";
import type { AnswerSpec } from "../../../measure/book";
import { Button } from "../../../ui/button";
import { clockText, Face } from "../../../ui/clock";
import { readSoundFile } from "../../../capture/sound-file";
import { captureWords } from "../capture-words";
import { useBay } from "../context";
import type { OpenCard } from "../open-card";
import { say } from "../say";
import { useRecorder } from "../recorder";
import { keepOrHold } from "../unkept";
import { SoundCompare } from "../sound-compare";
import { sidesOf } from "../sound-sides";
import type { AnswerProps } from "./answer";

type Props = AnswerProps & { spec: Extract<AnswerSpec, { kind: "sound" }> };

export function SoundAnswer({ card, state, step, outcome, round, spec, onKept }: Props) {
  const { hash } = useBay();
  const taken = state.sounds.filter((sound) => sound.body.about === outcome.slot);
  const keep = async ({ bytes, mime, seconds }: Recorded) => {
    const id = card.newId();
    const body = {
      blob: await hash(bytes),
      mime,
      bytes: bytes.byteLength,
      seconds,
      about: outcome.slot,
      round,
      caption: "",
    };
    const keepIt = (now: OpenCard) => now.keepWithBlob("sound", `sound/${id}`, body, bytes);
    const entry = await keepOrHold(card, id, () => null, keepIt);
    if (entry) onKept(entry, null);
  };
  const { ms, level, running, refusal, start, stop } = useRecorder(spec.seconds, keep);
  return (
    <div class="stack">
      <p class="label">{say("sounds-n", { n: taken.length })}</p>
      <Face
        text={clockText(ms, true)}
        name={say("sound-length", { s: spec.seconds })}
        progress={Math.min(1, ms / (spec.seconds * 1000))}
      />
      <Button look="strong" wide calm onTap={running ? stop : start}>
        {say(running ? "sound-stop" : "sound-start")}
      </Button>
      {running ? (
        <progress class="sent-bytes" max={1} value={Math.min(1, level * 4)} aria-label={say("sound-level")} />
      ) : null}
      {running ? null : <SoundCompare sides={sidesOf(state, step, round)} />}
      {refusal ? (
        <>
          <p class="told" role="alert">
            {captureWords(refusal)}
          </p>
          <SoundPick onPicked={keep} />
        </>
      ) : null}
    </div>
  );
}

/** A sound file instead, where the phone cannot record. */
function SoundPick({ onPicked }: { onPicked: (sound: Recorded) => Promise<void> }) {
  const [isWrong, setWrong] = useState(false);
  const pick = async (file: File | undefined) => {
    if (!file) return;
    const sound = await readSoundFile(file);
    setWrong(sound === null);
    if (sound) await onPicked(sound);
  };
  return (
    <>
      <label class="button photo-button">
        <span>{say("sound-file")}</span>
        <input
          class="hidden-words"
          type="file"
          accept="audio/*"
          aria-label={say("sound-file")}
          onChange={(event) => {
            void pick(event.currentTarget.files?.[0]);
            event.currentTarget.value = "";
          }}
        />
      </label>
      {isWrong ? (
        <p class="told" role="alert">
          {say("sound-file-wrong")}
        </p>
      ) : null}
    </>
  );
}
