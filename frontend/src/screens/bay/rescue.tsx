/** What waits, carried to the desk by hand: saved to a file, and said plainly when the server has long been silent. */
import "./card-words";
import { useEffect, useState } from "preact/hooks";
import { StoreError, type StoreFault } from "../../store/errors";
import { saveWaiting, type Saved } from "../../sync/rescue";
import type { Services } from "../../sync/services";
import { Button } from "../../ui/button";
import { say } from "./say";

const DAY_MS = 86_400_000;
/** A weekend and a day: a phone left in the bay over that is nothing to speak of. */
export const SILENT_DAYS = 3;

/** Needs nobody to be signed in and no server; shows nothing while nothing waits. */
export function Rescue({ services }: { services: Services }) {
  const { entries, blobs } = services.waiting.value;
  const saving = useSaving(services, saveWaiting);
  if (entries.length + blobs.length === 0 && saving.saved === null) return null;
  return (
    <section class="stack">
      <h2>{say("rescue")}</h2>
      <Silent services={services} />
      <p>{say("rescue-says")}</p>
      <Button calm disabled={saving.busy} onTap={saving.save}>
        {say(saving.busy ? "rescue-saving" : "rescue-save")}
      </Button>
      <SavedFile saving={saving} />
      <p class="soft">{say("rescue-care")}</p>
    </section>
  );
}

/** What became of saving: the file, or why there is none. */
export function SavedFile({ saving: { saved, fault } }: { saving: Saving }) {
  return (
    <>
      {fault ? (
        <p class="told" role="alert">
          {say(`fault-${fault}`)}
        </p>
      ) : null}
      {saved ? <Done saved={saved} /> : null}
    </>
  );
}

type Saving = { saved: Saved | null; busy: boolean; fault: StoreFault | null; save: () => void };

/** `write` makes the file. */
export function useSaving({ store, now }: Services, write: typeof saveWaiting): Saving {
  const [saved, setSaved] = useState<Saved | null>(null);
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState<StoreFault | null>(null);
  const save = async () => {
    setBusy(true);
    setFault(null);
    try {
      setSaved(await write(store, now()));
    } catch (error) {
      if (!(error instanceof StoreError)) throw error;
      setFault(error.fault);
    } finally {
      setBusy(false);
    }
  };
  return { saved, busy, fault, save: () => void save() };
}

/** The browser is told to download at once; where it wants a tap of its own for that, the link is there. */
function Done({ saved }: { saved: Saved }) {
  const url = useUrlOf(saved.file);
  useEffect(() => {
    if (url !== null) download(url, saved.name);
  }, [url, saved]);
  const { entries, blobs, lacking } = saved;
  const file = new File([saved.file], saved.name, { type: saved.file.type });
  return (
    <>
      <p class="told plain" role="status">
        {say("rescue-done", { entries, photos: blobs })}
      </p>
      {lacking > 0 ? <p class="told">{say("rescue-lacking", { count: lacking })}</p> : null}
      {url === null ? null : (
        <a class="button plain" href={url} download={saved.name}>
          {say("rescue-again")}
        </a>
      )}
      {canShare(file) ? <Button onTap={() => void share(file)}>{say("rescue-share")}</Button> : null}
    </>
  );
}

function useUrlOf(file: Blob): string | null {
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    const made = URL.createObjectURL(file);
    setUrl(made);
    return () => URL.revokeObjectURL(made);
  }, [file]);
  return url;
}

function download(url: string, name: string): void {
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
}

function canShare(file: File): boolean {
  const { canShare: can } = navigator as Partial<Navigator>;
  return can?.call(navigator, { files: [file] }) ?? false;
}

/** A person who changes their mind, or a browser that will not, leaves the download. */
function share(file: File): Promise<void> {
  return navigator.share({ files: [file] }).catch(() => undefined);
}

function Silent({ services }: { services: Services }) {
  const days = silentDays(services);
  return days < SILENT_DAYS ? null : <p class="told">{say("rescue-silent", { days })}</p>;
}

/** For how many days the server has taken nothing that waits here, as far as this phone knows. */
function silentDays({ sender, waiting, now }: Services): number {
  const { last_contact } = sender.status.value;
  const { entries, blobs } = waiting.value;
  const kept = [...entries, ...blobs].filter((line) => line.state === "waiting").map((line) => line.kept_at);
  const since = Math.max(last_contact ?? 0, Math.min(...kept));
  return kept.length === 0 ? 0 : Math.floor((now() - since) / DAY_MS);
}
