/** Whether a turn's run time is set by hand or worked out from the need; what a change does to tonight; keeping it. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { KeepBar } from "../../edits/keep-bar";
import { EffectPanel } from "../../effect/effect-panel";
import type { SiteDocument } from "../../site/document";
import { mayEdit } from "../../store/queries";
import type { Change } from "../../store/shapes";
import { t } from "../../words/catalogue";

type Mode = "hand" | "need";

export function ModeChange({ document, turn }: { document: SiteDocument; turn: string }) {
  const record = document.record("turns", turn);
  const now: Mode = record?.mode === "need" ? "need" : "hand";
  const [wanted, want] = useState<Mode>(now);
  if (!record || !mayEdit.value) return null;
  const station = document.nameOf("turn", turn);
  const changes: Change[] =
    wanted === now ? [] : [{ kind: "set", table: "turns", record: turn, field: "mode", now: wanted }];
  return (
    <section class="mode-change">
      <Choice label={t("Run time comes from")} value={wanted} options={options()} onChange={want} />
      {changes.length > 0 ? (
        <>
          <EffectPanel changes={changes} />
          <KeepBar
            changes={changes}
            said={() =>
              wanted === "need"
                ? t("{station} runs by need from now on.", { station })
                : t("{station} runs as set by hand from now on.", { station })
            }
            back={t("Put back")}
            onBack={() => want(now)}
            keep={wanted === "need" ? t("Run it by need") : t("Run it as set by hand")}
            onKept={() => {}}
          />
        </>
      ) : null}
    </section>
  );
}

function options(): { value: Mode; label: string; about: string }[] {
  return [
    { value: "hand", label: t("Set by hand"), about: t("The run time that stands in the turn.") },
    { value: "need", label: t("Worked out by need"), about: t("From weather, soil and plants, anew for every night.") },
  ];
}
