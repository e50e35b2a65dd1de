/** Timed readings: a stopwatch with an entry at each beep, a count of taps, or a countdown. */
import { useEffect, useRef } from "preact/hooks";
import { press } from "../../../capture/numberpad";
import { unlockSound } from "../../../ui/beep";
import { Button } from "../../../ui/button";
import { Pad } from "../../../ui/pad";
import { formatNumber } from "../../../words/words";
import { here, pathOf } from "../../route";
import { useAlarms, useBay } from "../context";
import { useDraft, type SetDraft } from "../draft";
import { say } from "../say";
import { keepAnswer, type AnswerProps } from "./answer";
import { ReadingLine, useEntryUnit } from "./entry-unit";
import { useInstrument } from "./instrument";
import { padWords } from "./pad-words";
import { AskToNotify, RunFace, useLitScreen, useTicking } from "./run-face";
import { RunPlot } from "./run-plot";
import { AskOnce, useSecondTap } from "./second-tap";
import {
  addReading,
  asRun,
  countOne,
  ends,
  NO_RUN,
  samples,
  startRun,
  type Run,
  type RunSpec,
} from "./run-clock";

type Props = AnswerProps & { spec: RunSpec };

export function RunAnswer(props: Props) {
  const { spec, card, outcome } = props;
  const { nowMs } = useBay();
  const alarms = useAlarms();
  const own = pathOf(here.value);
  const { check, place } = props.step.step;
  const words = `${place.title}: ${check.ask}`;
  const [held, setDraft] = useDraft(`${card.id}/${outcome.slot}`, asRun);
  const { picked, control, missing } = useInstrument(card.id, spec.instruments);
  const run = held ?? NO_RUN;
  const ms = useTicking(run, spec);
  const keep = async () => {
    const kept = await keepAnswer(props, {
      is: "run",
      samples: samples(spec, run, nowMs()),
      unit: run.unit ?? spec.unit,
      ...(picked ? { instrument: picked } : {}),
    });
    if (!kept) return;
    setDraft(null);
    alarms.drop(own);
  };
  const begin = () => {
    unlockSound();
    const next = started ? null : startRun(run, nowMs());
    setDraft(next);
    if (next && spec.shape === "countdown") alarms.set({ path: own, ends_at: ends(next, spec), words });
    else alarms.drop(own);
  };
  const started = run.watch.started_at !== null;
  const enough = spec.shape === "count" ? started && ms > 0 : run.watch.laps.length >= 2;
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // Clock and number pad on one screen: what is read at the beep is typed without scrolling.
    if (started) top.current?.scrollIntoView({ block: "start" });
  }, [started]);
  useLitScreen(started && ms < spec.seconds * 1000);
  if (missing) return control;
  return (
    <div class="stack" ref={top}>
      <RunFace spec={spec} run={run} ms={ms} />
      {started && spec.shape === "countdown" ? <AskToNotify /> : null}
      <RunActs started={started} canKeep={enough} onStart={begin} onKeep={() => void keep()} />
      {started ? <RunEntry card={card.id} spec={spec} run={run} ms={ms} onRun={setDraft} /> : null}
      {started ? (
        <RunPlot
          samples={samples(spec, run, nowMs())}
          seconds={spec.seconds}
          now_s={ms / 1000}
          unit={run.unit ?? spec.unit}
        />
      ) : null}
      {control}
    </div>
  );
}

type ActsProps = { started: boolean; canKeep: boolean; onStart: () => void; onKeep: () => void };

function RunActs({ started, canKeep, onStart, onKeep }: ActsProps) {
  if (!started)
    return (
      <Button wide look="strong" calm onTap={onStart}>
        {say("run-start")}
      </Button>
    );
  return (
    <div class="pair">
      <Button calm onTap={onStart}>
        {say("run-restart")}
      </Button>
      <Button look="strong" calm disabled={!canKeep} onTap={onKeep}>
        {say("run-keep")}
      </Button>
    </div>
  );
}

type EntryProps = { card: string; spec: RunSpec; run: Run; ms: number; onRun: SetDraft<Run> };

function RunEntry({ card, spec, run, ms, onRun }: EntryProps) {
  const { nowMs } = useBay();
  if (spec.shape === "count") {
    const count = () => onRun((now) => countOne(now ?? run, nowMs()));
    return <Counting run={run} over={ms >= spec.seconds * 1000} onCount={count} />;
  }
  const read = (value: number) => onRun((now) => addReading(spec, now ?? run, value, nowMs()));
  return <Readings card={card} spec={spec} run={run} onRun={onRun} onRead={read} />;
}

function Counting({ run, over, onCount }: { run: Run; over: boolean; onCount: () => void }) {
  const count = run.watch.laps.at(-1)?.value ?? 0;
  return (
    <button type="button" class="count" disabled={run.watch.started_at === null || over} onClick={onCount}>
      <span class="figure">{count}</span>
      <span>{say("count-one")}</span>
    </button>
  );
}

type ReadingsProps = {
  card: string;
  spec: RunSpec;
  run: Run;
  onRun: SetDraft<Run>;
  onRead: (value: number) => void;
};

function Readings({ card, spec, run, onRun, onRead }: ReadingsProps) {
  const entry = useEntryUnit(card, spec, {
    unit: run.unit,
    isFixed: run.watch.laps.length > 0,
    onChange: (unit) => onRun((now) => ({ ...(now ?? run), unit })),
  });
  const tap = useSecondTap();
  const value = entry.read(run.typed);
  const taken = run.watch.laps
    .map(({ at, value: read }) => `${Math.round(at / 100) / 10} s: ${formatNumber(read)}`)
    .join("  ");
  const read = () => {
    if (value !== null && tap.pass(run.typed, entry.isPossible(value))) onRead(value);
  };
  return (
    <div>
      <ReadingLine entry={entry} typed={run.typed} before={taken} />
      {tap.isAsking(run.typed) ? <AskOnce typed={run.typed} entry={entry} /> : null}
      <Pad
        onKey={(key) =>
          onRun((now) => ({ ...(now ?? run), unit: entry.unit, typed: press(now?.typed ?? "", key) }))
        }
        onKeep={read}
        signed={entry.range[0] < 0}
        calm={false}
        canKeep={value !== null}
        words={padWords(say("run-enter"))}
      />
    </div>
  );
}
