/** Recorded sounds: those of one check in one round, such as left and right, are laid over each other and played. */
import type { CardState, EntryOf } from "../../journal/types";
import { SoundCompare, type Side } from "../bay/sound-compare";
import { roundName } from "../bay/vehicle";
import { stepOfSlot } from "./evidence-of";
import { tell } from "./tell";
import { Who } from "./trail";
import "../bay/check.css";

type Sound = EntryOf<"sound">;
type Props = { sounds: readonly Sound[]; state: CardState };
type Heard = { sound: Sound; side: string; place: string; group: string };

/** As many as the comparison tells apart by their lines. */
const AT_ONCE = 2;

export function Sounds({ sounds, state }: Props) {
  if (sounds.length === 0) return null;
  return (
    <div class="desk-sounds">
      {together(sounds, state).map((few) => (
        <div key={few[0]?.sound.id}>
          <p class="label">{few[0]?.group}</p>
          <SoundCompare sides={few.map(sideOf)} />
          {few.map(({ sound }) => (
            <p key={sound.id} class="soft">
              <Who entry={sound} state={state} />
            </p>
          ))}
        </div>
      ))}
    </div>
  );
}

function sideOf({ sound, place }: Heard): Side {
  return { name: sound.body.caption || place, sound };
}

/** Check by check and round by round, the left one first, two at a time. */
function together(sounds: readonly Sound[], state: CardState): Heard[][] {
  const groups = new Map<string, Heard[]>();
  for (const sound of sounds) {
    const heard = hear(sound, state);
    groups.set(heard.group, [...(groups.get(heard.group) ?? []), heard]);
  }
  return [...groups.values()].flatMap((group) => {
    const sorted = group.sort((a, b) => (a.side < b.side ? -1 : 1));
    return sorted.flatMap((_, at) => (at % AT_ONCE === 0 ? [sorted.slice(at, at + AT_ONCE)] : []));
  });
}

function hear(sound: Sound, state: CardState): Heard {
  const { about, round } = sound.body;
  const step = about === null ? undefined : stepOfSlot(state, about)?.step;
  return {
    sound,
    side: `${step?.place.side ?? "none"}/${sound.id}`,
    place: step?.place.title ?? tell("entry-sound"),
    group: `${step?.check.ask ?? tell("entry-sound")} · ${roundName(round)}`,
  };
}
