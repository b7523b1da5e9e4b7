/** Step two: where the cans stand, and what each has caught. */

import { useState } from "preact/hooks";
import { putDraft } from "../../records/desk";
import { withRecord } from "../../records/draft";
import type { Form } from "../../records/form";
import type { SiteRecord } from "../../site/document";
import { t, tn } from "../../words/catalogue";
import { CanGrid } from "./can-grid";
import { CanReading } from "./can-reading";
import { aCan, withGrid, withPlace } from "./drafting";
import { type Can, type Extent, extentOf, MOST_PLACES, type Place } from "./grid";
import type { Measure } from "./measure";
import { SetOut } from "./set-out";

interface CansSectionProps {
  form: Form;
  audit: SiteRecord;
  cans: readonly Can[];
  measure: Measure;
}

export function CansSection({ form, audit, cans, measure }: CansSectionProps) {
  const [chosen, setChosen] = useState<string | null>(null);
  const [moving, setMoving] = useState(false);
  const [least, setLeast] = useState<Extent>({ columns: 0, rows: 0 });
  const extent = extentOf(cans, least);
  const can = cans.find((one) => one.id === chosen);
  const choose = (id: string | null) => {
    setChosen(id);
    setMoving(false);
  };
  const place = (at: Place) => {
    const record = moving && can ? can : aCan(audit.id, at);
    putDraft(
      form.name,
      moving && can ? withPlace(form.draft, can.id, at) : withRecord(form.draft, record as SiteRecord),
    );
    choose(record.id);
  };
  return (
    <section class="record-section" aria-labelledby="audit-cans">
      <h2 id="audit-cans">{t("Cans")}</h2>
      {cans.length === 0 && form.mayEdit ? (
        <SetOut onSetOut={(to) => putDraft(form.name, withGrid(form.draft, audit.id, cans, to))} />
      ) : null}
      {cans.length === 0 ? null : (
        <>
          <p class="record-note" role="status">
            {moving ? t("Tap the empty place where this can stands now.") : readWords(cans)}
          </p>
          <CanGrid
            cans={cans}
            extent={extent}
            measure={measure}
            chosen={chosen}
            mayPlace={form.mayEdit}
            onChoose={(one) => choose(one.id)}
            onPlace={place}
          />
          {can && form.mayEdit ? (
            <CanReading
              form={form}
              can={can}
              cans={cans}
              measure={measure}
              moving={moving}
              onMove={setMoving}
              onGo={choose}
            />
          ) : null}
          {form.mayEdit ? <Wider extent={extent} onWider={setLeast} /> : null}
        </>
      )}
    </section>
  );
}

function readWords(cans: readonly Can[]): string {
  const left = cans.filter((can) => can.catch === null).length;
  if (left === 0) return tn("{count} can, read.", "{count} cans, all read.", cans.length);
  return tn("{count} can is still to be read. Tap a can.", "{count} cans are still to be read. Tap a can.", left);
}

function Wider({ extent, onWider }: { extent: Extent; onWider: (extent: Extent) => void }) {
  const { columns, rows } = extent;
  return (
    <div class="audit-acts">
      <button
        type="button"
        class="button"
        disabled={columns >= MOST_PLACES}
        onClick={() => onWider({ columns: columns + 1, rows })}
      >
        {t("Room for one more in a row")}
      </button>
      <button
        type="button"
        class="button"
        disabled={rows >= MOST_PLACES}
        onClick={() => onWider({ columns, rows: rows + 1 })}
      >
        {t("Room for one more row")}
      </button>
    </div>
  );
}
