/** Below the next water: what interrupts tonight, and what may become of its rest. */

import "../look/catch-up.css";
import "../look/effect.css";
import { useEffect } from "preact/hooks";
import { followJournal } from "../journal/following";
import type { LoadedNight } from "../night/night";
import { timeAt } from "../night/reading";
import { mayNote } from "../store/queries";
import { t } from "../words/catalogue";
import { dismiss } from "./accepting";
import { GoingOn } from "./going-on";
import { OfferView } from "./offer-view";
import { accepted } from "./queries";
import { followRests, goingOn, offered } from "./rests";
import { useSaying } from "./use-saying";
import { wayWords } from "./words";

export function CatchUp({ night }: { night: LoadedNight }) {
  const saying = useSaying();
  useEffect(() => followJournal(), []);
  useEffect(followRests, []);
  if (!mayNote.value) return null;
  const state = offered.value;
  if (state.is === "none" && goingOn.value.length === 0 && accepted.value.length === 0) return null;
  return (
    <section class="catch-up" aria-label={t("The rest of tonight")}>
      <Accepted night={night} />
      {goingOn.value.map((one) => (
        <GoingOn key={one.key} one={one} night={night} saying={saying} />
      ))}
      <p role="status" class="catch-up-state">
        {state.is === "working" ? t("The rest of the night is being worked out…") : ""}
        {state.is === "absent" ? t("This phone cannot work out the rest of the night.") : ""}
      </p>
      {state.is === "known" && state.offer.rests.length > 0 ? <OfferView offer={state.offer} /> : null}
      <p role="status" class="catch-up-fault">
        {saying.fault}
      </p>
    </section>
  );
}

/** What was accepted here and is not the server's yet, or was turned away. */
function Accepted({ night }: { night: LoadedNight }) {
  return (
    <>
      {accepted.value.map(({ given, fault }) => (
        <div key={given.id} class="catch-up-kept" role="status">
          <p>
            {t("Accepted at {time}: {way}.", { time: timeAt(night.clock, given.at), way: wayWords(given.way) })}{" "}
            {fault ?? t("Unsent; it is safe on this phone.")}
          </p>
          {fault ? (
            <button type="button" class="button" onClick={() => void dismiss(given.id)}>
              {t("I have read it")}
            </button>
          ) : null}
        </div>
      ))}
    </>
  );
}
