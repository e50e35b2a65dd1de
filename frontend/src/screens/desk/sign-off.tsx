/** The sign-off form. The server signs exactly what this desk saw: count and digest go along. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { SignOff } from "../../api/api";
import { digest } from "../../journal/digest";
import type { CardState } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import type { OpenCard } from "../bay/open-card";
import { useDesk } from "./context";
import { failureWords } from "./failure";
import { needsOf } from "./needs";
import { NeedLines } from "./needs-lines";
import { tell } from "./tell";

type Drive = SignOff["drive"];
type Wording = Pick<SignOff, "restrictions" | "look_again" | "words"> & { without_photos: string };
type Props = { card: OpenCard; state: CardState; photosWaiting: number; onDone: () => void };

const DRIVES: readonly Drive[] = ["yes", "with-restrictions", "no", "not-judged"];
const NO_WORDS: Wording = { restrictions: "", look_again: "", words: "", without_photos: "" };

export function SignOffForm({ state, photosWaiting, onDone }: Props) {
  const [drive, setDrive] = useState<Drive | null>(null);
  const [wording, setWording] = useState<Wording>(NO_WORDS);
  const { sign, busy, trouble, photosMissing } = useSigning(state, onDone);
  const missing = Math.max(photosWaiting, photosMissing);
  const lacks = lackOf(drive, wording, missing, state);
  const set = (name: keyof Wording) => (text: string) => setWording((last) => ({ ...last, [name]: text }));
  return (
    <div class="stack">
      <Heading state={state} />
      <NeedLines state={state} photosWaiting={missing} linked />
      <p class="soft">{tell("sign-open")}</p>
      <fieldset class="stack">
        <legend class="pick-legend">{tell("drive-question")}</legend>
        {DRIVES.map((one) => (
          <Button key={one} wide pressed={drive === one} onTap={() => setDrive(one)}>
            {tell(`drive-${one}`)}
          </Button>
        ))}
      </fieldset>
      <Words drive={drive} missing={missing} wording={wording} set={set} />
      <p class="soft">{tell("legal")}</p>
      {trouble ? (
        <p class="told" role="alert">
          {trouble}
        </p>
      ) : null}
      {lacks ? <p class="soft">{lacks}</p> : null}
      <div class="row">
        <Button
          look="strong"
          calm
          disabled={lacks !== null || busy}
          onTap={() => void (drive && sign(drive, wording))}
        >
          {busy ? tell("signing") : tell("sign")}
        </Button>
        <Button onTap={onDone}>{tell("cancel")}</Button>
      </div>
    </div>
  );
}

/** Takes the focus, so that a keyboard goes on inside the form. */
function Heading({ state }: { state: CardState }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <h3 ref={heading} tabIndex={-1}>
      {tell("sign-off-title", { n: nextRevision(state) })}
    </h3>
  );
}

type WordsProps = {
  drive: Drive | null;
  missing: number;
  wording: Wording;
  set: (name: keyof Wording) => (text: string) => void;
};

function Words({ drive, missing, wording, set }: WordsProps) {
  const field = (name: keyof Wording, lines: boolean, hint?: string) => (
    <Field
      label={tell(`words-${name}`)}
      hint={hint}
      value={wording[name]}
      onType={set(name)}
      onLeave={set(name)}
      lines={lines}
    />
  );
  return (
    <>
      {drive === "with-restrictions" || drive === "no"
        ? field("restrictions", true, drive === "no" ? undefined : tell("restrictions-needed"))
        : null}
      {field("look_again", false)}
      {field("words", true)}
      {missing > 0 ? field("without_photos", true, tell("without-photos-says", { count: missing })) : null}
    </>
  );
}

/** What still has to be said before it can be signed, or null. */
function lackOf(drive: Drive | null, wording: Wording, missing: number, state: CardState): string | null {
  if (needsOf(state, 0).disagreements > 0) return tell("lacks-settling");
  if (drive === null) return tell("lacks-drive");
  if (drive === "with-restrictions" && wording.restrictions.trim() === "") return tell("restrictions-needed");
  if (missing > 0 && wording.without_photos.trim() === "") return tell("lacks-photos", { count: missing });
  return null;
}

function nextRevision({ entries }: CardState): number {
  const signed = entries.map((entry) => (entry.kind === "signed-off" ? entry.body.revision : 0));
  return Math.max(0, ...signed) + 1;
}

function useSigning(state: CardState, onDone: () => void) {
  const { api, pull } = useDesk();
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [photosMissing, setPhotosMissing] = useState(0);
  const sign = async (drive: Drive, wording: Wording) => {
    setBusy(true);
    const ids = state.entries.map((entry) => entry.id);
    const { without_photos: why, ...words } = wording;
    const without = why.trim() === "" ? {} : { without_photos: why.trim() };
    const seen = { count: ids.length, digest: digest(ids) };
    const answer = await api.signOff(state.card, { ...seen, drive, ...words, ...without });
    setBusy(false);
    pull();
    if (answer.is === "ok") return onDone();
    setTrouble(failureWords(answer));
    if (answer.is === "problem" && answer.code === "photos-missing")
      setPhotosMissing(Number(answer.details["count"]) || 1);
  };
  return { sign, busy, trouble, photosMissing };
}
