/** An effect as it stands: finish, picture, what fits no more, what moves; or why it is not known yet. */

import "../look/effect.css";
import { faultLine } from "../records/fault-words";
import { Records } from "../records/records";
import { copy } from "../store/queries";
import type { Change } from "../store/shapes";
import { t } from "../words/catalogue";
import type { Effect, EffectState } from "./effect";
import { EffectFigures } from "./effect-figures";
import { EffectMoves } from "./effect-moves";
import { EffectPicture } from "./effect-picture";
import { EffectRest } from "./effect-rest";
import { EffectShort } from "./effect-short";
import { EffectWaiting } from "./effect-waiting";
import { withChanges } from "./grounds";

interface EffectViewProps {
  state: EffectState;
  changes: readonly Change[];
  title: (night: string, tonight: boolean) => string;
  turn: string | null;
  /** A form shows what the engine finds wrong at its own fields. */
  faultsElsewhere?: boolean;
}

type Faults = EffectState & { is: "unsound" };

export function EffectView({ state, changes, title, turn, faultsElsewhere = false }: EffectViewProps) {
  if (state.is === "none") return null;
  const shown = state.is === "known" ? state.effect : state.is === "working" ? state.last : null;
  return (
    <section class="effect" aria-label={t("Effect")} aria-busy={state.is === "working"}>
      <p class="unseen" role="status">
        {spoken(state)}
      </p>
      {shown ? <Known effect={shown} title={title} turn={turn} working={state.is === "working"} /> : null}
      {state.is === "unsound" && !faultsElsewhere ? <FaultList faults={state.faults} changes={changes} /> : null}
      {shown || state.is === "unsound" ? null : <EffectWaiting state={state} />}
    </section>
  );
}

/** What a screen reader hears once the figures are there: the rest can be read. */
function spoken(state: EffectState): string {
  return state.is === "known" ? t("The effect is worked out.") : "";
}

interface KnownProps {
  effect: Effect;
  title: (night: string, tonight: boolean) => string;
  turn: string | null;
  working: boolean;
}

function Known({ effect, title, turn, working }: KnownProps) {
  const { before, after, night } = effect.comparison;
  return (
    <div class={`effect-known${working ? " effect-stale" : ""}`}>
      <div class="effect-slab">
        <EffectFigures title={title(night, effect.tonight)} before={before} after={after} clock={effect.clock} />
        <EffectPicture effect={effect} turn={turn} />
        {working ? <p class="effect-working">{t("Working it out…")}</p> : null}
      </div>
      <div class="effect-lists">
        <EffectShort effect={effect} />
        <EffectMoves effect={effect} />
        <EffectRest effect={effect} />
      </div>
    </div>
  );
}

interface FaultsProps {
  faults: Faults["faults"];
  changes: readonly Change[];
}

/** All at once, each with its record and field, in the site as it would be. */
function FaultList({ faults, changes }: FaultsProps) {
  const records = new Records(copy.value ? withChanges(copy.value, changes).records : []);
  return (
    <ul class="effect-faults">
      {faults.map((fault) => (
        <li key={`${fault.table}/${fault.record}/${fault.field}/${fault.code}`}>{faultLine(fault, records)}</li>
      ))}
    </ul>
  );
}
