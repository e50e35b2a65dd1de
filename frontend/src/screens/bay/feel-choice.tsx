/** The choices of how the app feels, on "This phone". */
import { Pick } from "../../ui/choice";
import { buzz } from "../../ui/buzz";
import { useBay } from "./context";
import { BUZZES, changeFeel, feel, HANDS, TEXTS, THEMES, type Feel } from "./feel";
import { say } from "./say";

export function FeelChoice() {
  const { store } = useBay();
  const { hand, text, theme, buzz: shakes } = feel.value;
  const change = (one: Partial<Feel>) => void changeFeel(one, store, document.documentElement);
  return (
    <section class="stack feel">
      <h2>{say("feel")}</h2>
      <Pick
        legend={say("feel-theme")}
        picked={theme}
        options={THEMES.map((id) => ({ id, label: say(`theme-${id}`) }))}
        onPick={(next) => change({ theme: next })}
      />
      <Pick
        legend={say("feel-text")}
        picked={text}
        options={TEXTS.map((id) => ({ id, label: say("percent", { n: Number(id) }) }))}
        onPick={(next) => change({ text: next })}
      />
      <Pick
        legend={say("feel-hand")}
        picked={hand}
        options={HANDS.map((id) => ({ id, label: say(`hand-${id}`) }))}
        onPick={(next) => change({ hand: next })}
      />
      <Pick
        legend={say("feel-buzz")}
        picked={shakes}
        options={BUZZES.map((id) => ({ id, label: say(`buzz-${id}`) }))}
        onPick={(next) => {
          change({ buzz: next });
          buzz();
        }}
      />
    </section>
  );
}
