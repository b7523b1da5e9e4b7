/** Both rests of tonight side by side, the picture of the one that is looked at, and the button that accepts it. */

import { useState } from "preact/hooks";
import { KeepFault } from "../edits/fault";
import { EffectPicture } from "../effect/effect-picture";
import { arrow } from "../effect/phrases";
import { timeAt } from "../night/reading";
import { keepFaultWords } from "../records/fault-words";
import { mayEdit, site } from "../store/queries";
import { t } from "../words/catalogue";
import { accept } from "./accepting";
import type { Offer, Rest, Way } from "./rests";
import { figureWords, ruleWords, wayAbout, wayWords } from "./words";

export function OfferView({ offer }: { offer: Offer }) {
  const [way, setWay] = useState<Way>("recover");
  const shown = offer.rests.find((rest) => rest.way === way) ?? offer.rests[0];
  if (!shown) return null;
  const rule = ruleWords(site.value?.all("site")[0]?.catch_up_by_itself);
  return (
    <div class="catch-up-offer">
      <h3>{t("What becomes of the rest of tonight?")}</h3>
      {rule ? <p class="catch-up-rule">{rule}</p> : null}
      <div class="catch-up-ways">
        {offer.rests.map((rest) => (
          <WayCard key={rest.way} rest={rest} pressed={rest === shown} onLook={() => setWay(rest.way)} />
        ))}
      </div>
      <EffectPicture effect={shown.effect} turn={null} />
      <p class="catch-up-caution">
        {t(
          "Caution: before water runs again, make sure that nobody works on pipes, heads or cabinets or stands in the spray, and that the fault is mended. Follow local codes and licensed practice.",
        )}
      </p>
      {mayEdit.value ? <AcceptButton offer={offer} rest={shown} /> : <p>{t("A lead or a manager accepts it.")}</p>}
    </div>
  );
}

interface WayCardProps {
  rest: Rest;
  pressed: boolean;
  onLook: () => void;
}

function WayCard({ rest, pressed, onLook }: WayCardProps) {
  return (
    <button type="button" class="catch-up-way" aria-pressed={pressed} onClick={onLook}>
      <strong>{wayWords(rest.way)}</strong>
      <span class="catch-up-finish">
        <Finishes rest={rest} />
      </span>
      <span>{wayAbout(rest.way)}</span>
      {figureWords(rest).map((line) => (
        <span key={line} class="catch-up-figure">
          {line}
        </span>
      ))}
    </button>
  );
}

function Finishes({ rest }: { rest: Rest }) {
  const { finish_before, finish_after } = rest.figures;
  const [before, after] = [finish_before, finish_after].map((at) =>
    at === null ? "–" : timeAt(rest.effect.clock, at),
  );
  return (
    <>
      <span class="unseen">
        {t("Finish before {before}, after {after}.", { before: before ?? "", after: after ?? "" })}
      </span>
      <span aria-hidden="true">
        <bdi>{before}</bdi> {arrow()} <bdi>{after}</bdi>
      </span>
    </>
  );
}

function AcceptButton({ offer, rest }: { offer: Offer; rest: Rest }) {
  const [state, setState] = useState({ busy: false, fault: "" });
  const press = async () => {
    setState({ busy: true, fault: "" });
    try {
      await accept(offer, rest);
      setState({ busy: false, fault: "" });
    } catch (fault) {
      if (!(fault instanceof KeepFault)) throw fault;
      setState({ busy: false, fault: keepFaultWords(fault.why) });
    }
  };
  return (
    <>
      <button type="button" class="button button-strong" disabled={state.busy} onClick={() => void press()}>
        {rest.way === "keep" ? t("Accept: keep to the clock") : t("Accept: make up for it")}
      </button>
      <p role="status" class="catch-up-fault">
        {state.fault}
      </p>
    </>
  );
}
