/** One turn of a program: a row that opens to what can be done with it. */

import { DurationField } from "../controls/duration-field";
import type { SiteRecord } from "../site/document";
import { StationTag } from "../tonight/station-tag";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { putDraft } from "./desk";
import { withValues } from "./draft";
import { fieldHelp } from "./field-helps";
import { fieldLabel } from "./field-labels";
import { fieldOf } from "./fields";
import { type Form, reportUnread } from "./form";
import { numberOf, textOf } from "./records";

interface TurnRowProps {
  form: Form;
  turn: SiteRecord;
  /** Its place in a listed order; null where the order is free. */
  place: number | null;
  last: number;
  open: boolean;
  onOpen: () => void;
  onMove: (by: number) => void;
  onRemove: () => void;
}

export function TurnRow(props: TurnRowProps) {
  const { form, turn, place, open, onOpen, onMove } = props;
  const station = form.records.get("stations", textOf(turn, "station"));
  const name = textOf(station, "name") || turn.id;
  const byKey = (event: KeyboardEvent) => {
    const by = { ArrowUp: -1, ArrowDown: 1 }[event.key];
    if (!by || !event.altKey || place === null || !form.mayEdit) return;
    event.preventDefault();
    onMove(by);
  };
  return (
    <li class={open ? "turn turn-open" : "turn"}>
      <button type="button" class="turn-row" aria-expanded={open} onClick={onOpen} onKeyDown={byKey}>
        {place === null ? null : <span class="turn-place">{place}</span>}
        <StationTag number={textOf(station, "number")} />
        <span class="row-name">
          <bdi>{name}</bdi>
        </span>
        <span class="turn-run">{runWords(turn)}</span>
      </button>
      {open ? <TurnActions {...props} station={name} /> : null}
    </li>
  );
}

function runWords(turn: SiteRecord): string {
  const run = duration(numberOf(turn, "run_s") ?? 0);
  const cycles = numberOf(turn, "cycles") ?? 1;
  return cycles > 1 ? tn("{run} in {count} cycle", "{run} in {count} cycles", cycles, { run }) : run;
}

function TurnActions(props: TurnRowProps & { station: string }) {
  const { form, turn, place, last, station, onMove, onRemove } = props;
  const isNew = form.draft.get(`turns/${turn.id}`)?.is === "added";
  return (
    <div class="turn-actions">
      {isNew ? (
        <NewRun form={form} turn={turn} />
      ) : (
        <button type="button" class="button" onClick={() => go("stations", textOf(turn, "station"), "turn", turn.id)}>
          {t("Run time")}
        </button>
      )}
      {place !== null && form.mayEdit ? (
        <>
          <button type="button" class="button" disabled={place === 1} onClick={() => onMove(-1)}>
            {t("Earlier")}
          </button>
          <button type="button" class="button" disabled={place === last} onClick={() => onMove(1)}>
            {t("Later")}
          </button>
        </>
      ) : null}
      {form.mayEdit ? (
        <button type="button" class="button button-away" onClick={onRemove}>
          {t("Take {station} out", { station })}
        </button>
      ) : null}
    </div>
  );
}

/** A turn that is not kept yet has no page of its own. */
function NewRun({ form, turn }: { form: Form; turn: SiteRecord }) {
  const { least, most } = fieldOf("turns", "run_s") ?? {};
  return (
    <DurationField
      label={fieldLabel("turns", "run_s")}
      hint={fieldHelp("turns", "run_s")}
      value={numberOf(turn, "run_s")}
      least={least}
      most={most}
      required
      onFault={(words) => reportUnread(form, `turns/${turn.id}`, words)}
      onChange={(run_s) => putDraft(form.name, withValues(form.draft, "turns", turn.id, { run_s }))}
    />
  );
}
