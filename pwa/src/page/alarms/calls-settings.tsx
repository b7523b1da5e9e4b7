/** Being called when something is wrong: whether this device is, from which gravity on, and when rather not. */

import "../look/alarms.css";
import { useEffect, useState } from "preact/hooks";
import { LineFault } from "../line/fetching";
import { faultWords } from "../more/doing";
import { knownAnswer } from "../more/known-list";
import { NeedsSignal } from "../more/needs-signal";
import { useKnown } from "../more/use-known";
import { person } from "../store/queries";
import { t } from "../words/catalogue";
import { beCalled, beCalledNoMore, type Calls, callsNow, WISHES, type Wishes } from "./calling";
import { WishesForm } from "./wishes-form";

export function CallsSettings() {
  const answer = knownAnswer<Wishes>(person.value?.id ?? "", WISHES);
  const known = useKnown(answer, person.value !== null);
  return (
    <section class="calls" aria-label={t("Being called")}>
      <h2 class="more-title">{t("Being called when something is wrong")}</h2>
      <ThisDevice />
      <NeedsSignal known={known} reload={() => void answer.load()} />
      {known.items ? <WishesForm wishes={known.items} reload={() => void answer.load()} /> : null}
    </section>
  );
}

function ThisDevice() {
  const [calls, setCalls] = useState<Calls | null>(null);
  const [fault, setFault] = useState("");
  const act = async (work: () => Promise<Calls>) => {
    setFault("");
    try {
      setCalls(await work());
    } catch (error) {
      setFault(wordsOf(error));
    }
  };
  useEffect(() => void act(callsNow), []);
  return (
    <div class="calls-device">
      <p role="status">{calls ? callsWords(calls) : ""}</p>
      {fault ? <p class="more-fault">{fault}</p> : null}
      {calls === "on" ? (
        <button type="button" class="button" onClick={() => void act(beCalledNoMore)}>
          {t("Call this device no more")}
        </button>
      ) : null}
      {calls === "off" || (calls === null && fault) ? (
        <button type="button" class="button button-strong" onClick={() => void act(beCalled)}>
          {t("Call this device")}
        </button>
      ) : null}
    </div>
  );
}

function callsWords(calls: Calls): string {
  const words: Record<Calls, () => string> = {
    on: () => t("This device is called when something is wrong."),
    off: () => t("This device is not called. Alarms stand in the app all the same."),
    denied: () => t("This browser was told not to let the app call. Its own settings can allow it again."),
    cannot: () => t("This browser cannot be called. On an iPhone, put the app on the Home Screen and open it there."),
  };
  return words[calls]();
}

function wordsOf(fault: unknown): string {
  if (fault instanceof LineFault) return faultWords(fault);
  if (fault instanceof DOMException) return t("The browser’s push service did not answer. Try again later.");
  throw fault;
}
