/** The language the customer reads: the report and its mail are written in it. */
import type { CardState } from "../../journal/types";
import { Pick } from "../../ui/choice";
import { LANGUAGES } from "../../words/languages";
import { t } from "../../words/words";
import type { OpenCard } from "./open-card";
import { factText } from "./vehicle";

const SLOT = "customer/language";

/** Nothing is picked until somebody says it; the report is English then. */
export function CustomerLanguage({ card, state }: { card: OpenCard; state: CardState }) {
  return (
    <div class="pair">
      <Pick
        legend={t("customer-language")}
        picked={factText(state, SLOT)}
        options={LANGUAGES.map(({ id, name }) => ({ id, label: name }))}
        onPick={(value) => void card.keep("fact", SLOT, { value })}
      />
    </div>
  );
}
