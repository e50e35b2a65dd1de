/** The VIN: read by camera or typed; wrong characters pointed at, check digit, region and model year told at once. */
import { useState } from "preact/hooks";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { lazily } from "../../ui/lazily";
import { useBay } from "./context";
import { say } from "./say";
import { readVin, type VinReading } from "./vin";

const VinScan = lazily(() => import("./vin-scan").then((file) => file.VinScan));

type Props = { value: string; onLeave: (vin: string) => void; onType: (vin: string) => void };

export function VinField({ value, onLeave, onType }: Props) {
  const { nowMs } = useBay();
  const [typed, setTyped] = useState<string | null>(null);
  const [scanning, setScanning] = useState(false);
  const read = (text: string) => readVin(text, new Date(nowMs()).getFullYear());
  const vin = read(typed ?? value);
  const scanned = (found: string) => {
    setScanning(false);
    setTyped(found);
    onLeave(found);
  };
  return (
    <>
      <Field
        label={say("vin")}
        figure
        value={value}
        onType={(text) => {
          setTyped(text);
          onType(text);
        }}
        onLeave={(text) => onLeave(read(text).text)}
        hint={say("vin-count", { n: vin.text.length })}
        told={vin.text === "" ? null : <VinTold vin={vin} />}
        beside={
          <Button name={say("vin-scan")} onTap={() => setScanning(true)}>
            {say("scan")}
          </Button>
        }
      />
      {scanning ? <VinScan onFound={scanned} onClose={() => setScanning(false)} /> : null}
    </>
  );
}

function VinTold({ vin }: { vin: VinReading }) {
  if (vin.wrong.length > 0)
    return (
      <p class="told">
        <span class="figure vin-signs" aria-hidden="true">
          {[...vin.text].map((sign, at) =>
            vin.wrong.includes(at + 1) ? <mark key={at}>{sign}</mark> : sign,
          )}
        </span>
        {say("vin-wrong", { what: vin.wrong.map((at) => `${vin.text[at - 1]} (${at})`).join(", ") })}
      </p>
    );
  if (vin.text.length !== 17) return vin.text.length > 17 ? <p class="told">{say("vin-long")}</p> : null;
  return (
    <>
      {vin.digit === "right" ? <p>{say("vin-right")}</p> : <p class="told">{say("vin-odd")}</p>}
      <p>{originWords(vin)}</p>
    </>
  );
}

/** "Europe. Model year by position 10: 2017 or 1987; …" */
function originWords({ region, years }: VinReading): string {
  const from = region ? `${say(`region-${region}`)}. ` : "";
  const what = years.map(String).join(` ${say("or")} `);
  if (what === "") return from;
  return from + say(region === "north-america" ? "vin-year" : "vin-year-maybe", { what });
}
