/** The first screen: tonight. Slab above (or beside, at a desk) with the picture, pale stone with the lists. */

import { type LoadedNight, loaded } from "../night/night";
import { now } from "../night/now";
import { askedNight, nightFrom, tonightBy, turnTo } from "../night/turning";
import { NightPicture } from "../picture/night-picture";
import { Patterns } from "../picture/patterns";
import { mayNote, openAlarms } from "../store/queries";
import { later } from "../way/later";
import { usePaints } from "../way/paints";
import { RoomHead } from "../way/room-head";
import { nightSpan } from "../words/moments";
import { Cautions } from "./cautions";
import { Empty } from "./empty";
import { Fault } from "./fault";
import { Find } from "./find";
import { Finish } from "./finish";
import { Legend } from "./legend";
import { MissingList } from "./missing-list";
import { NextWater } from "./next-water";
import { NightStrip } from "./night-strip";
import { NightTable } from "./night-table";
import { Notices } from "./notices";
import { RunLists } from "./run-lists";
import { Standing } from "./standing";
import { useMedia } from "./use-media";
import { useNightKeys } from "./use-night-keys";
import { usePrintLight } from "./use-print-light";
import { WhyPanel } from "./why-panel";

const AlarmStrip = later(() => import("../alarms/strip").then((file) => file.AlarmStrip));
const CatchUp = later(() => import("../catch-up/strip").then((file) => file.CatchUp));
const SaySo = later(() => import("../catch-up/say-so").then((file) => file.SaySo));
const TABLET = "(min-width: 40rem)";
const DESK = "(min-width: 60rem)";

export function Screen() {
  const night = loaded.value;
  return (
    <>
      <Patterns />
      <Fault />
      {night && night.document.stations.size > 0 ? <Night night={night} /> : <Empty />}
    </>
  );
}

function Night({ night }: { night: LoadedNight }) {
  const shown = night.sheet.night;
  const base = tonightBy(night);
  useNightKeys(base);
  usePrintLight();
  const instant = shown === base ? now.value : null;
  const paints = usePaints(3);
  return (
    <div class="page">
      <RoomHead title={<bdi>{night.document.name}</bdi>} sub={nightSpan(shown)} />
      <main class="main">
        <div class="picture-side">
          <Slab night={night} instant={instant} base={base} whole={paints >= 1} />
          {paints >= 1 ? <WhyPanel night={night} /> : null}
        </div>
        {paints >= 2 ? <Lists night={night} instant={instant} /> : null}
        {paints >= 3 ? <NightTable night={night} /> : null}
      </main>
    </div>
  );
}

interface ListsProps {
  night: LoadedNight;
  instant: number | null;
}

function Lists({ night, instant }: ListsProps) {
  return (
    <div class="lists">
      <Cautions night={night} />
      <Find night={night} instant={instant} />
      <RunLists night={night} instant={instant} />
      <MissingList night={night} />
      <Notices night={night} />
    </div>
  );
}

interface SlabProps extends ListsProps {
  base: string;
  /** With its picture and what stands below it. */
  whole: boolean;
}

function Slab({ night, instant, base, whole }: SlabProps) {
  const wide = useMedia(DESK);
  const roomy = useMedia(TABLET);
  const shown = night.sheet.night;
  const turn = (by: -1 | 1) => {
    const wanted = nightFrom(base, askedNight(base), by);
    if (wanted) turnTo(wanted);
  };
  return (
    <div class="slab">
      <Standing night={shown} />
      {roomy ? <NightStrip base={base} /> : null}
      <NextWater night={night} instant={instant} />
      {openAlarms.value && instant !== null ? <AlarmStrip /> : null}
      {mayNote.value && instant !== null && whole ? <CatchUp night={night} /> : null}
      {wide ? <Finish night={night} /> : null}
      {whole ? (
        <>
          <NightPicture night={night} instant={instant} wide={wide} onTurn={turn} />
          {wide ? null : <Finish night={night} />}
          {roomy ? null : <NightStrip base={base} />}
          <Legend night={night} folded={!roomy} />
          {mayNote.value && instant !== null ? <SaySo night={night} /> : null}
        </>
      ) : null}
    </div>
  );
}
