/** What a person may say in the middle of a night: no power, a supply that is shut, or that all watering has to stop. */

import { useState } from "preact/hooks";
import type { SiteDocument } from "../site/document";
import { t } from "../words/catalogue";
import { goingOn } from "./rests";
import type { Saying } from "./use-saying";

interface SaySoProps {
  document: SiteDocument;
  saying: Saying;
}

export function SaySo(props: SaySoProps) {
  const [open, setOpen] = useState(false);
  return (
    <div class="catch-up-say">
      <button type="button" class="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {t("Something stops the water")}
      </button>
      {open ? <What {...props} onSaid={() => setOpen(false)} /> : null}
    </div>
  );
}

function What({ document, saying, onSaid }: SaySoProps & { onSaid: () => void }) {
  const say = async (telling: Parameters<Saying["say"]>[0]) => {
    await saying.say(telling);
    onSaid();
  };
  const known = new Set(goingOn.value.map(({ key }) => key));
  return (
    <div class="catch-up-acts">
      {known.has("stopped") ? null : (
        <Act
          saying={saying}
          onSay={() => say({ kind: "stopped", text: t("Stopped by hand on Tonight") })}
          words={t("Rain, or another reason: stop tonight")}
        />
      )}
      {known.has("power/") ? null : (
        <Act saying={saying} onSay={() => say({ kind: "power_lost" })} words={t("No power at the whole site")} />
      )}
      {document
        .all("controllers")
        .map(({ id }) =>
          known.has(`power/${id}`) ? null : (
            <Act
              key={id}
              saying={saying}
              onSay={() => say({ kind: "power_lost", controller: id })}
              words={t("No power at {controller}", { controller: document.nameOf("controller", id) })}
            />
          ),
        )}
      {[...document.supplies.keys()].map((id) =>
        known.has(`shut/${id}`) ? null : (
          <Act
            key={id}
            saying={saying}
            onSay={() => say({ kind: "shut", supply: id })}
            words={t("{supply} is shut", { supply: document.nameOf("supply", id) })}
          />
        ),
      )}
    </div>
  );
}

interface ActProps {
  saying: Saying;
  onSay: () => Promise<void>;
  words: string;
}

function Act({ saying, onSay, words }: ActProps) {
  return (
    <button type="button" class="button" disabled={saying.busy} onClick={() => void onSay()}>
      {words}
    </button>
  );
}
