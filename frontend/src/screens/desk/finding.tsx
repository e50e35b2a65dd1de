/** One finding as the foreman reads it: grade, words, what it rests on, photos, the work, the customer's answer. */
import type { CardState, EntryOf, Finding } from "../../journal/types";
import { GradeMark } from "../bay/marks";
import { useBay } from "../bay/context";
import type { OpenCard } from "../bay/open-card";
import { say } from "../bay/say";
import { Agreed } from "./agreed";
import { Rounds } from "./evidence";
import { mediaOf, stepAbout } from "./evidence-of";
import { PhotoRow } from "./photos";
import { Sounds } from "./sounds";
import { tell } from "./tell";
import { Trail } from "./trail";

type Props = { card: OpenCard; state: CardState; finding: Finding };

export function FindingSheet({ card, state, finding }: Props) {
  const { book } = useBay();
  const { body } = finding.entry;
  const step = stepAbout(state, body.about);
  const place = body.place ? book.places[body.place]?.title : null;
  return (
    <article class="desk-finding" id={finding.slot} aria-label={body.title}>
      <header>
        <GradeMark grade={body.grade} />
        <h3 dir="auto">{body.title}</h3>
        {place ? <p class="desk-place">{tell("at-place", { place })}</p> : null}
        <Trail state={state} slot={finding.slot} />
      </header>
      <p dir="auto">{body.plain}</p>
      {body.note ? <p dir="auto">{tell("note", { words: body.note })}</p> : null}
      {body.proposed && body.proposed.grade !== body.grade ? (
        <p class="soft">{tell("proposed-was", { grade: say(`grade-${body.proposed.grade}`) })}</p>
      ) : null}
      {step ? <Rounds step={step} state={state} /> : null}
      <ComplaintLines state={state} ids={body.complaints} />
      <PhotoRow photos={mediaOf(state.photos, finding)} state={state} />
      <Sounds sounds={mediaOf(state.sounds, finding)} state={state} />
      <WorkLines work={finding.work} state={state} />
      <Agreed card={card} finding={finding} state={state} />
    </article>
  );
}

function ComplaintLines({ state, ids }: { state: CardState; ids: readonly string[] }) {
  return (
    <>
      {state.complaints
        .filter((complaint) => ids.includes(complaint.id))
        .map((complaint) => (
          <p key={complaint.id} dir="auto">
            {tell("answers-complaint", { words: complaint.words })}
          </p>
        ))}
    </>
  );
}

function WorkLines({ work, state }: { work: readonly EntryOf<"work-done">[]; state: CardState }) {
  return (
    <>
      {work.map(({ id, slot, body }) => (
        <div key={id} class="desk-work">
          <p class="label">{tell("work-done")}</p>
          <p dir="auto">{body.words}</p>
          {body.parts.length > 0 ? (
            <p>
              {body.parts
                .map((part) => `${part.count} × ${part.name} (${say(`part-${part.state}`)})`)
                .join(", ")}
            </p>
          ) : null}
          {body.torque ? <p dir="auto">{tell("torque", { words: body.torque })}</p> : null}
          {body.improvised ? <p dir="auto">{tell("improvised", { words: body.improvised })}</p> : null}
          <Trail state={state} slot={slot} />
        </div>
      ))}
    </>
  );
}
