/** The first screen: tonight. Slab above (or beside, at a desk) with the picture, pale stone with the lists. */

import { useEffect, useState } from "preact/hooks";
import { asked, busy, fault, type LoadedNight, load, loaded, TONIGHT } from "../night/night";
import { now } from "../night/now";
import { NightPicture } from "../picture/night-picture";
import { Patterns } from "../picture/patterns";
import { t } from "../words/catalogue";
import { Finish } from "./finish";
import { Header } from "./header";
import { Legend } from "./legend";
import { MissingList } from "./missing-list";
import { NextWater } from "./next-water";
import { NightSteps } from "./night-steps";
import { NightTable } from "./night-table";
import { Notices } from "./notices";
import { RunLists } from "./run-lists";
import { WhyPanel } from "./why-panel";

const TABLET = "(min-width: 40rem)";
const DESK = "(min-width: 60rem)";

export function Screen() {
  const night = loaded.value;
  return (
    <>
      <Patterns />
      {fault.value ? <Fault detail={fault.value.detail} /> : null}
      {night ? <Night night={night} /> : <p class="waiting">{busy.value ? t("Fetching tonight…") : ""}</p>}
    </>
  );
}

function Night({ night }: { night: LoadedNight }) {
  const wide = useMedia(DESK);
  const roomy = useMedia(TABLET);
  const instant = asked.value === TONIGHT ? now.value : null;
  return (
    <div class="page">
      <Header night={night}>{roomy ? <NightSteps night={night} /> : null}</Header>
      <main class="main">
        <div class="picture-side">
          <div class="slab">
            <NextWater night={night} instant={instant} />
            <Legend night={night} />
            <NightPicture night={night} instant={instant} wide={wide} />
            <Finish night={night} />
            {roomy ? null : <NightSteps night={night} />}
          </div>
          <WhyPanel night={night} />
        </div>
        <div class="lists">
          <RunLists night={night} instant={instant} />
          <MissingList night={night} />
          <Notices night={night} />
        </div>
        <NightTable night={night} />
      </main>
    </div>
  );
}

function Fault({ detail }: { detail: string }) {
  return (
    <div class="fault" role="alert">
      <p>{detail || t("The server does not answer. What you see may be old.")}</p>
      <button type="button" class="button" onClick={() => void load(asked.value)}>
        {t("Try again")}
      </button>
    </div>
  );
}

function useMedia(query: string): boolean {
  const [holds, setHolds] = useState(() => matchMedia(query).matches);
  useEffect(() => {
    const media = matchMedia(query);
    const look = () => setHolds(media.matches);
    media.addEventListener("change", look);
    return () => media.removeEventListener("change", look);
  }, [query]);
  return holds;
}
