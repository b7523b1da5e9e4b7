/** What a person may say in the middle of a night: no power, a supply that is shut, or that all watering has to stop. */

import "../look/catch-up.css";
import { useState } from "preact/hooks";
import { PickList } from "../controls/pick-list";
import type { Telling } from "../journal/telling";
import type { LoadedNight } from "../night/night";
import type { SiteDocument } from "../site/document";
import { mayEdit } from "../store/queries";
import { t } from "../words/catalogue";
import { type Saying, useSaying } from "./use-saying";

const WHOLE_SITE = "";

export function SaySo({ night }: { night: LoadedNight }) {
  const [open, setOpen] = useState(false);
  const saying = useSaying();
  if (!mayEdit.value) return null;
  return (
    <div class="catch-up-say">
      <button type="button" class="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {t("Something stops the water")}
      </button>
      {open ? <What document={night.document} saying={saying} onSaid={() => setOpen(false)} /> : null}
      <p role="status" class="catch-up-fault">
        {saying.fault}
      </p>
    </div>
  );
}

interface WhatProps {
  document: SiteDocument;
  saying: Saying;
  onSaid: () => void;
}

function What({ document, saying, onSaid }: WhatProps) {
  const [controller, setController] = useState(WHOLE_SITE);
  const supplies = [...document.supplies.keys()];
  const [supply, setSupply] = useState(supplies[0] ?? "");
  const say = async (telling: Telling) => {
    if (await saying.say(telling)) onSaid();
  };
  const lost: Telling = controller === WHOLE_SITE ? { kind: "power_lost" } : { kind: "power_lost", controller };
  return (
    <div class="catch-up-what">
      <Act saying={saying} words={t("Rain, or another reason: stop tonight")} onSay={() => say(stopped())} />
      <PickList
        label={t("Where the power is gone")}
        value={controller}
        options={[{ value: WHOLE_SITE, label: t("The whole site") }, ...cabinets(document)]}
        onChange={setController}
      />
      <Act saying={saying} words={t("No power there")} onSay={() => say(lost)} />
      <PickList
        label={t("What gives no water")}
        value={supply}
        options={supplies.map((id) => ({ value: id, label: document.nameOf("supply", id) }))}
        onChange={setSupply}
      />
      <Act saying={saying} words={t("It is shut")} onSay={() => say({ kind: "shut", supply })} />
    </div>
  );
}

function stopped(): Telling {
  return { kind: "stopped", text: t("Stopped by hand on Tonight") };
}

function cabinets(document: SiteDocument): { value: string; label: string }[] {
  return document.all("controllers").map(({ id }) => ({ value: id, label: document.nameOf("controller", id) }));
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
