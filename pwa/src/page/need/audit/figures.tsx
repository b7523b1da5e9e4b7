/** What the engine makes of the readings: how even, how much, how fast, and what the unevenness costs in water. */

import type { ComponentChildren } from "preact";
import { faultLine } from "../../records/fault-words";
import type { Form } from "../../records/form";
import { site } from "../../store/queries";
import { t } from "../../words/catalogue";
import { figure } from "../../words/figures";
import { say } from "../../words/say";
import { amount, volume } from "../../words/units";
import type { Cost, Told, Wetting, WettingState } from "./asking";
import { percent } from "./can-words";

export function Figures({ form, state }: { form: Form; state: WettingState }) {
  return (
    <section class="record-section audit-figures" aria-labelledby="audit-figures" aria-busy={state.is === "working"}>
      <h2 id="audit-figures">{t("How even it is")}</h2>
      {state.is === "known" ? <Known told={state.told} /> : <Waiting form={form} state={state} />}
    </section>
  );
}

function Waiting({ form, state }: { form: Form; state: Exclude<WettingState, { is: "known" }> }) {
  if (state.is === "faulty") {
    const lines = form.faults.map((fault) => faultLine(fault, form.records));
    return (
      <div class="audit-waiting" role="status">
        <p>{t("The figures come once the audit is whole:")}</p>
        <ul>
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
    );
  }
  return (
    <p class="audit-waiting" role="status">
      {waitingWords(state)}
    </p>
  );
}

function waitingWords(state: Exclude<WettingState, { is: "known" | "faulty" }>): string {
  if (state.is === "working") return t("Working it out…");
  if (state.is === "absent") {
    return t("This browser cannot work the figures out. Readings are kept; another device shows what they say.");
  }
  return t("Worked out once the planner is ready: {percent} %. Go on reading the cans meanwhile.", {
    percent: figure(state.progress * 100, 0),
  });
}

function Known({ told }: { told: Told }) {
  const names = { name: (kind: string, id: string) => site.value?.nameOf(kind, id) ?? id, time: String };
  return (
    <>
      {told.wetting ? <Evenness wetting={told.wetting} /> : null}
      {told.wetting && told.cost ? <CostOf cost={told.cost} /> : null}
      {told.messages.map((message) => (
        <p key={message.code} class="audit-said" role="status">
          {say(message, names)}
        </p>
      ))}
      <p class="record-note">{t("These figures are planning aids. Local rules on water use stand above them.")}</p>
    </>
  );
}

function Evenness({ wetting }: { wetting: Wetting }) {
  return (
    <dl class="audit-facts">
      <Fact name={t("Lower-quarter uniformity")} value={percent(wetting.uniformity_lq)} large>
        {t("So much of the mean the driest quarter of the cans caught.")}
      </Fact>
      <Fact name={t("Christiansen’s coefficient")} value={percent(wetting.christiansen)}>
        {t("How little all cans stray from the mean.")}
      </Fact>
      <Fact name={t("Mean depth")} value={amount("depth", wetting.mean_mm)} />
      <Fact name={t("Application rate")} value={t("{depth} an hour", { depth: amount("depth", wetting.rate_mm_h) })} />
      <Fact name={t("Run-time multiplier")} value={t("× {figure}", { figure: figure(wetting.multiplier, 2) })}>
        {t("So much longer it runs, for the dry parts to get enough.")}
      </Fact>
    </dl>
  );
}

interface FactProps {
  name: string;
  value: string;
  large?: boolean;
  children?: ComponentChildren;
}

function Fact({ name, value, large = false, children }: FactProps) {
  return (
    <div class={large ? "audit-fact audit-fact-large" : "audit-fact"}>
      <dt>{name}</dt>
      <dd>
        <bdi>{value}</bdi>
        {children ? <span class="audit-fact-about">{children}</span> : null}
      </dd>
    </div>
  );
}

function CostOf({ cost }: { cost: Cost }) {
  const aim = percent(cost.aim_lq);
  return (
    <>
      <h3 class="audit-cost">{t("What the unevenness costs in water")}</h3>
      {cost.share === 0 ? (
        <p>{t("Nothing: these heads reach {aim}, which well-kept heads on a sound layout do.", { aim })}</p>
      ) : (
        <>
          <p>
            {t("Heads that reach {aim} would do with {share} less water.", {
              aim,
              share: percent(cost.share),
            })}
          </p>
          <ul class="audit-costs">
            {cost.runs.map((run) => (
              <li key={run.turn}>{runWords(run)}</li>
            ))}
            {cost.season ? <li>{seasonWords(cost.season)}</li> : null}
          </ul>
        </>
      )}
    </>
  );
}

function runWords({ turn, run_l, extra_l }: Cost["runs"][number]): string {
  const record = site.value?.record("turns", turn);
  const program = site.value?.nameOf("program", String(record?.program ?? "")) ?? "";
  return t("A run in {program}: {extra} of {volume}.", { program, extra: volume(extra_l), volume: volume(run_l) });
}

function seasonWords({ extra_l, season_l, area_m2 }: NonNullable<Cost["season"]>): string {
  return t("A year of usual weather, on {area}: {extra} of {volume}.", {
    area: amount("area", area_m2),
    extra: volume(extra_l),
    volume: volume(season_l),
  });
}
