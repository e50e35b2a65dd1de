/** One finding, by hand or changed from a proposal: grade, title, words, complaints, photos. */
import type { CardState, Entry, FindingBody } from "../../journal/types";
import { Button } from "../../ui/button";
import { Pick, Tick } from "../../ui/choice";
import { Field } from "../../ui/field";
import { Sign } from "../../ui/mark";
import { goBack, type Route } from "../route";
import { useCameFrom } from "./came-from";
import { useBay } from "./context";
import { BLANK_FINDING, useFindingDraft } from "./finding-draft";
import { GRADES, gradeShape } from "./marks";
import type { OpenCard } from "./open-card";
import { PhotoButton, Picture } from "./photos";
import { idOf, proposedBody } from "./proposal";
import { say, type BayKey } from "./say";
import { Screen } from "./shell";
import { toldBody } from "./told-finding";
import { offerUndo } from "./undo";
import { vehicleName } from "./vehicle";

type Props = { card: OpenCard; state: CardState; slot: string };

export function FindingScreen({ card, state, slot }: Props) {
  const back = useCameFrom(card.id, { at: "findings", card: card.id });
  const { body, was, ready, change, keep, remove } = useFinding({ card, state, slot, back });
  const { book } = useBay();
  if (!ready) return null;
  return (
    <Screen
      title={say(was)}
      kicker={vehicleName(state)}
      back={back}
      card={card}
      foot={
        <Button look="strong" wide calm disabled={body.title.trim() === ""} onTap={() => void keep()}>
          {say("finding-keep")}
        </Button>
      }
    >
      {body.place ? (
        <p class="check-place">
          <span class="place">{book.places[body.place]?.title ?? body.place}</span>
        </p>
      ) : null}
      <div class="stack-wide form">
        <FindingFields body={body} onChange={change} />
        <Ties card={card} state={state} body={body} onChange={change} />
        {was === "finding" ? (
          <Button calm onTap={() => void remove()}>
            {say("finding-remove")}
          </Button>
        ) : null}
      </div>
    </Screen>
  );
}

/** The finding as it is being written, and what keeping and taking it back do. */
function useFinding({ card, state, slot, back }: Props & { back: Route }) {
  const { book, nowMs } = useBay();
  const [draft, setDraft, ready] = useFindingDraft(card.id, slot);
  const finding = state.findings.find((one) => one.slot === slot);
  const proposal = state.proposals.find((one) => one.slot === slot);
  const start = finding?.entry.body ?? (proposal ? proposedBody(proposal, state) : BLANK_FINDING);
  const body = toldBody(book, state, draft ?? start);
  const leave = (words: string, entry: Entry, before: Entry | null) => {
    setDraft(null);
    offerUndo(card, words, { entry, before }, nowMs());
    goBack(back);
  };
  const keep = async () => {
    const before = card.standing(slot);
    const whole = { ...body, title: body.title.trim(), plain: body.plain.trim() };
    const entry = await card.keep("finding", slot, whole);
    if (entry) leave(say("finding-kept"), entry, before);
  };
  const remove = async () => {
    const before = card.standing(slot);
    const entry = before ? await card.takeBack(before, null) : null;
    if (entry) leave(say("finding-removed"), entry, before);
  };
  const was: BayKey = finding ? "finding" : proposal ? "proposed-finding" : "finding-by-hand";
  const change = (part: Partial<FindingBody>) => setDraft((now) => ({ ...(now ?? start), ...part }));
  return { body, was, ready, change, keep, remove };
}

type FieldsProps = { body: FindingBody; onChange: (part: Partial<FindingBody>) => void };

function FindingFields({ body, onChange }: FieldsProps) {
  return (
    <>
      <Field
        label={say("finding-title")}
        value={body.title}
        lines
        onType={(title) => onChange({ title: title.replace(/\s*\n\s*/g, " ") })}
      />
      <Pick
        legend={say("grade")}
        picked={body.grade}
        options={GRADES.map((grade) => ({
          id: grade,
          label: `${say(`grade-${grade}`)}: ${say(`grade-${grade}-says`)}`,
          children: <Sign shape={gradeShape(grade)} />,
        }))}
        onPick={(grade) => onChange({ grade })}
      />
      {body.proposed ? (
        <p class="soft">
          {say("was-proposed", { grade: say(`grade-${body.proposed.grade}`), title: body.proposed.title })}
        </p>
      ) : null}
      <Field
        label={say("finding-plain")}
        hint={say("finding-plain-hint")}
        value={body.plain}
        lines
        onType={(plain) => onChange({ plain })}
      />
      <Field label={say("note-words")} value={body.note} lines onType={(note) => onChange({ note })} />
    </>
  );
}

type TiesProps = {
  card: OpenCard;
  state: CardState;
  body: FindingBody;
  onChange: (part: Partial<FindingBody>) => void;
};

/** Which complaints it explains and which photos show it. */
function Ties({ card, state, body, onChange }: TiesProps) {
  return (
    <>
      {state.complaints.length > 0 ? <h2>{say("finding-complaints")}</h2> : null}
      {state.complaints.map(({ id, words }) => (
        <Tick
          key={id}
          label={words}
          ticked={body.complaints.includes(id)}
          onTick={(on) => onChange({ complaints: toggled(body.complaints, id, on) })}
        />
      ))}
      <h2>{say("finding-photos")}</h2>
      <div class="photo-ticks">
        {state.photos.map((photo, at) => {
          const id = idOf(photo.slot);
          return (
            <button
              key={id}
              type="button"
              class="choice photo-tick"
              role="checkbox"
              aria-checked={body.photos.includes(id)}
              aria-label={say("photo-n", { n: at + 1 })}
              onClick={() => onChange({ photos: toggled(body.photos, id, !body.photos.includes(id)) })}
            >
              <span class="choice-box" aria-hidden="true" />
              <Picture photo={photo} name="" />
            </button>
          );
        })}
      </div>
      <PhotoButton
        card={card}
        about={body.about ? `${body.about}/${state.round}` : null}
        round={state.round}
        onKept={(entry) => onChange({ photos: [...body.photos, idOf(entry.slot)] })}
      />
    </>
  );
}

export function toggled(list: readonly string[], id: string, on: boolean): string[] {
  const others = list.filter((one) => one !== id);
  return on ? [...others, id] : others;
}
