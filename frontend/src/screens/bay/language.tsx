/** The language of this phone, each offered under its own name. */
import { useState } from "preact/hooks";
import { LANGUAGES, type Language } from "../../words/languages";
import { chooseLanguage, spoken, surroundings } from "../../words/spoken";
import { t } from "../../words/words";

/** Changes the language at once; says so when its texts are not on this phone. */
export function LanguageChoice() {
  const [missing, setMissing] = useState(false);
  const pick = async (language: Language) => setMissing(!(await chooseLanguage(language, surroundings())));
  return (
    <section class="stack">
      <h2 id="language">{t("language")}</h2>
      <div class="stack" role="radiogroup" aria-labelledby="language">
        {LANGUAGES.map(({ id, name }) => (
          <button
            key={id}
            type="button"
            class="choice"
            role="radio"
            aria-checked={spoken.value === id}
            onClick={() => void pick(id)}
          >
            <span class="choice-box" aria-hidden="true" />
            <span lang={id}>{name}</span>
          </button>
        ))}
      </div>
      {missing ? (
        <p class="told" role="alert">
          {t("language-not-here")}
        </p>
      ) : null}
      <p class="soft">{t("language-checklists")}</p>
    </section>
  );
}
