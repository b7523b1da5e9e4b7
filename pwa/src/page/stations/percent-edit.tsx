/** New run times for all chosen stations at once: one edit set, with its effect before it is kept. */

import { useState } from "preact/hooks";
import { KeepBar } from "../edits/keep-bar";
import { EffectView } from "../effect/effect-view";
import { nightTitle } from "../effect/phrases";
import { useEffectOf } from "../effect/watching";
import { effectWords } from "../records/effect-words";
import type { SiteDocument } from "../site/document";
import { refine } from "../way/way";
import { t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { chosen, endChoosing } from "./choosing";
import { Detail } from "./detail";
import { linesOf } from "./list";
import { NewTimes } from "./new-times";
import { changesFor, newTimes, total, type Way } from "./run-times";
import { WayOfChange } from "./way-of-change";
import { WhoMay } from "./who-may";

export function PercentEdit({ document }: { document: SiteDocument }) {
  const [way, setWay] = useState<Way>("percent");
  const [by, setBy] = useState<Record<Way, number>>({ percent: 0, minutes: 0, same: 20 });
  const [fault, setFault] = useState<string | null>(null);
  const lines = linesOf(document).filter((line) => chosen.value.has(line.id));
  const turns = lines.flatMap((line) => line.turns);
  const times = newTimes(turns, way, by[way]);
  const changes = changesFor(times);
  const effect = useEffectOf(changes, null);
  const put = (value: number) => setBy((all) => ({ ...all, [way]: value }));
  const stations = tn("{count} station", "{count} stations", lines.length);
  return (
    <Detail title={t("Run times of several")} sub={stations}>
      <div class="turn-edit">
        <div class="turn-values">
          <WhoMay />
          {lines.length === 0 ? <p class="list-none">{t("No station is chosen. Go back and choose some.")}</p> : null}
          <WayOfChange way={way} by={by[way]} onWay={setWay} onBy={put} onFault={setFault} />
          <p class="turn-hints">
            {t("All together {before}, then {after}.", {
              before: duration(total(turns)),
              after: duration(total(turns) + times.reduce((sum, { turn, run_s }) => sum + run_s - turn.run_s, 0)),
            })}
          </p>
          <NewTimes document={document} lines={lines} times={times} />
        </div>
        {times.length > 0 ? (
          <>
            <div class="turn-effect">
              <EffectView state={effect} changes={changes} title={nightTitle} turn={null} />
            </div>
            <KeepBar
              changes={changes}
              gist={effectWords(effect)}
              said={() =>
                tn("Kept a new run time for {count} turn.", "Kept new run times for {count} turns.", times.length)
              }
              back={t("Put all back")}
              onBack={() => setBy({ percent: 0, minutes: 0, same: by.same })}
              keep={tn("Keep {count} new time", "Keep {count} new times", times.length)}
              onKept={() => {
                endChoosing();
                refine("stations");
              }}
              faults={fault ? [fault] : []}
            />
          </>
        ) : null}
      </div>
    </Detail>
  );
}
