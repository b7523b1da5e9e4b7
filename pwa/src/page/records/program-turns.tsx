/** A program's turns in their order: moved, added and taken away here; how long each runs is set on its own page. */

import { useState } from "preact/hooks";
import { newId } from "../store/ids";
import { t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { Chooser } from "./chooser";
import { putDraft } from "./desk";
import { without, withRecord } from "./draft";
import type { Form } from "./form";
import { lastPosition, turnsOf, withMove } from "./order";
import { recordLine, recordTitle } from "./record-words";
import { numberOf, textOf } from "./records";
import { TurnRow } from "./turn-row";
import { usualRun } from "./usual-run";

export function ProgramTurns({ form }: { form: Form }) {
  const [at, setAt] = useState<string | null>(null);
  const [spoken, setSpoken] = useState("");
  if (!form.record) return null;
  const turns = turnsOf(form.records, form.record.id);
  const listed = textOf(form.record, "order") === "listed";
  return (
    <section class="record-section" aria-labelledby="section-turns">
      <h2 id="section-turns">{t("Turns")}</h2>
      <p class="record-note">{summary(turns.map((turn) => numberOf(turn, "run_s") ?? 0))}</p>
      <p class="field-hint">
        {listed
          ? t("Stations run in this order.")
          : t("Stations run in any order that fits best, whatever this order.")}
      </p>
      <ol class="turns">
        {turns.map((turn, place) => (
          <TurnRow
            key={turn.id}
            form={form}
            turn={turn}
            place={listed ? place + 1 : null}
            last={turns.length}
            open={at === turn.id}
            onOpen={() => setAt(at === turn.id ? null : turn.id)}
            onMove={(by) => {
              putDraft(form.name, withMove(form.draft, turns, place, place + by));
              setSpoken(placeWords(place + by, turns.length));
            }}
            onRemove={() => putDraft(form.name, without(form.draft, "turns", turn.id))}
          />
        ))}
      </ol>
      <p class="unseen" role="status">
        {spoken}
      </p>
      {form.mayEdit ? <AddStation form={form} onAdded={setAt} /> : null}
    </section>
  );
}

/** What a screen reader hears once a turn was moved. */
function placeWords(place: number, of: number): string {
  const at = Math.min(of - 1, Math.max(0, place)) + 1;
  return t("Now place {place} of {count}.", { place: at, count: of });
}

function summary(runs: readonly number[]): string {
  if (!runs.length) return t("No station has a turn in this program yet.");
  const together = duration(runs.reduce((sum, run) => sum + run, 0));
  return tn("{count} turn, {duration}", "{count} turns, {duration}", runs.length, { duration: together });
}

/** Stations that have no turn in it yet. A new turn begins with the run time most of its turns have. */
function AddStation({ form, onAdded }: { form: Form; onAdded: (turn: string) => void }) {
  const program = form.record?.id ?? "";
  const turns = turnsOf(form.records, program);
  const taken = new Set(turns.map((turn) => turn.station));
  const free = form.records.of("stations").filter((station) => !taken.has(station.id));
  const add = (station: string) => {
    const turn = { table: "turns", id: newId(), program, station, position: lastPosition(turns), ...usualRun(turns) };
    putDraft(form.name, withRecord(form.draft, turn));
    onAdded(turn.id);
  };
  return (
    <Chooser
      label={t("Add a station")}
      hint={t("It gets a turn at the end of the list.")}
      chosen={t("Choose a station")}
      verb={t("Search")}
      options={free.map((station) => ({
        value: station.id,
        label: recordTitle(station, form.records),
        about: recordLine(station, form.records),
      }))}
      onChoose={add}
    />
  );
}
