/** First steps on an empty site, ticked off from what the site has. */

import { mayEdit, site } from "../store/queries";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { figure } from "../words/figures";
import "../look/help.css";
import { nextStep, type Step, stepsOf } from "./steps";

export function FirstSteps() {
  const steps = stepsOf(site.value);
  const next = nextStep(steps);
  return (
    <>
      <p>{next ? t("In this order each record finds what it needs.") : t("Everything a night needs is there.")}</p>
      <ol class="steps-list">
        {steps.map((step, index) => (
          <StepRow key={step.table} step={step} number={index + 1} next={step.table === next} />
        ))}
      </ol>
      <p class="more-note">
        {t(
          "Does the office keep a spreadsheet? Whoever runs the server can take it over: {template} writes an empty book to fill in, {import} reads it, and {load} puts the site on the server.",
          { template: "pengan template", import: "pengan import", load: "pengan load" },
        )}
      </p>
    </>
  );
}

function StepRow({ step, number, next }: { step: Step; number: number; next: boolean }) {
  return (
    <li class={next ? "step step-next" : "step"}>
      <span class="step-sign" aria-hidden="true">
        {step.done ? "✓" : figure(number, 0)}
      </span>
      <span class="step-what">
        <span class="step-title">{step.title}</span>
        <span>{step.about}</span>
        <span class="step-count">
          {step.done ? tn("Done: {count} record", "Done: {count} records", step.count) : t("Not there yet")}
        </span>
      </span>
      {mayEdit.value ? (
        <button
          type="button"
          class={next ? "button button-brass" : "button"}
          aria-label={t("{step}: {act}", { step: step.title, act: actWords(step) })}
          onClick={() => go("site", ...step.way)}
        >
          {actWords(step)}
        </button>
      ) : null}
    </li>
  );
}

function actWords(step: Step): string {
  return step.table === "turns" ? t("Open the programs") : t("Add one");
}
