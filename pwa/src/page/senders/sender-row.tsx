/** One sender: its name, when it was heard, and a way to end it. */

import { faultWords, useDoing } from "../more/doing";
import { PutOffButton } from "../more/put-off-button";
import { whenHere } from "../shell/line-words";
import { t } from "../words/catalogue";
import type { Sender } from "./sender-api";

interface SenderRowProps {
  sender: Sender;
  facts: readonly string[];
  end: () => Promise<unknown>;
  onEnded: () => void;
}

export function SenderRow({ sender: { name, heard_at }, facts, end, onEnded }: SenderRowProps) {
  const doing = useDoing();
  const act = async () => {
    if (await doing.run(end)) onEnded();
  };
  const heard =
    heard_at === null ? t("Not heard yet") : t("Last heard {time}", { time: whenHere(heard_at, Date.now()) });
  return (
    <li class="more-row">
      <span class="more-row-what">
        <span class="more-row-name">
          <bdi>{name}</bdi>
        </span>
        {[heard, ...facts].map((words) => (
          <span key={words} class="more-row-under sender-line">
            {words}
          </span>
        ))}
        {doing.fault ? <span class="more-fault">{faultWords(doing.fault)}</span> : null}
      </span>
      <PutOffButton
        label={t("End")}
        name={t("End {device}", { device: name })}
        waiting={t("{device} is about to be ended.", { device: name })}
        disabled={doing.busy}
        act={() => void act()}
      />
    </li>
  );
}
