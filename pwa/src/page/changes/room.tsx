/** The room of changes: what waits for a person, what is unsent, what others did, and the way back in time. */

import { useEffect } from "preact/hooks";
import "../look/changes.css";
import { useMedia } from "../ahead/use-media";
import { Patterns } from "../picture/patterns";
import { copy, unsentCount, waitingCount } from "../store/queries";
import { RoomHead } from "../way/room-head";
import { t, tn } from "../words/catalogue";
import { readNews } from "./book";
import { sets, setWith } from "./ground";
import { HistoryPage } from "./history-page";
import { Overview } from "./overview";
import { enter, leave } from "./seen";
import { ThenPage } from "./then-page";
import { trayTitle } from "./tray-words";
import { WaitingPage } from "./waiting-page";

const DESK = "(min-width: 60rem)";

export function Room({ words }: { words: string[] }) {
  const wide = useMedia(DESK);
  const site = copy.value?.site;
  useEffect(() => {
    if (!site) return;
    enter();
    void readNews();
    return leave;
  }, [site]);
  const [kind] = words;
  return (
    <div class="changes">
      <Patterns />
      <Head words={words} wide={wide} />
      <main class="changes-main">
        {wide || !kind ? <Overview /> : null}
        {wide || kind ? (
          <div class="changes-page">
            <Page words={words} />
          </div>
        ) : null}
      </main>
    </div>
  );
}

function Page({ words: [kind, id] }: { words: string[] }) {
  if (kind === "waiting" && id) return <WaitingPage id={id} />;
  return kind === "then" ? <ThenPage /> : <HistoryPage />;
}

function Head({ words: [kind, id], wide }: { words: string[]; wide: boolean }) {
  const set = kind === "waiting" && id ? setWith(id) : undefined;
  if (wide || !kind) return <RoomHead title={t("Changes")} sub={summary()} />;
  if (!set) return <RoomHead title={t("Changes")} back="changes" />;
  const alike = sets.value.filter((other) => other.tray === set.tray);
  const place = alike.findIndex((other) => other.id === set.id) + 1;
  return (
    <RoomHead
      title={trayTitle(set.tray)}
      sub={t("{place} of {count}", { place, count: alike.length })}
      back="changes"
    />
  );
}

function summary(): string {
  if (unsentCount.value === 0 && waitingCount.value === 0) return t("Nothing to do");
  const parts = {
    waits: tn("{count} waits", "{count} wait", waitingCount.value),
    unsent: tn("{count} unsent", "{count} unsent", unsentCount.value),
  };
  return t("{waits}, {unsent}", parts);
}
