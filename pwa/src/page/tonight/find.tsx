/** Finds a station or a part of the grounds, and tells when each gets water this night, or why it gets none. */

import { useState } from "preact/hooks";
import { find } from "../night/finding";
import type { LoadedNight } from "../night/night";
import { later } from "../way/later";
import { t, tn } from "../words/catalogue";
import "../look/controls.css";
import { FoundPart, FoundStation } from "./found-rows";
import { LongList } from "./long-list";
import { subject } from "./subject";

const DryPanel = later(() => import("./dry-panel").then((file) => file.DryPanel));

interface FindProps {
  night: LoadedNight;
  instant: number | null;
}

export function Find({ night, instant }: FindProps) {
  const [typed, type] = useState("");
  const asked = typed.trim() !== "";
  return (
    <section class="find" aria-labelledby="find-label">
      <search>
        <label id="find-label" class="find-label" for="find">
          {t("Find a station or part of the grounds")}
        </label>
        <div class="find-box">
          <input
            id="find"
            class="field-input"
            type="search"
            dir="auto"
            autocomplete="off"
            enterkeyhint="search"
            value={typed}
            onInput={(event) => type(event.currentTarget.value)}
          />
          {asked ? (
            <button type="button" class="button" onClick={() => type("")}>
              {t("Clear")}
            </button>
          ) : null}
        </div>
      </search>
      {subject.value ? <DryPanel night={night} instant={instant} subject={subject.value} /> : null}
      {asked ? <Results night={night} instant={instant} typed={typed} /> : null}
    </section>
  );
}

function Results({ night, instant, typed }: FindProps & { typed: string }) {
  const { parts, stations } = find(night.document, typed);
  const count = stations.length;
  return (
    <>
      <p class="find-count" role="status">
        {count === 0 ? t("No station of that number, name or part.") : tn("{count} station", "{count} stations", count)}
      </p>
      {parts.length > 0 ? (
        <ul class="rows" data-list="found-parts">
          {parts.map((part) => (
            <FoundPart key={part} night={night} part={part} />
          ))}
        </ul>
      ) : null}
      <LongList name="found" items={stations} keyOf={(station) => station.id}>
        {(station) => <FoundStation night={night} station={station} instant={instant} />}
      </LongList>
    </>
  );
}
