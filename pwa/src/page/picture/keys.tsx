/** How to read the picture: how large two cubic metres are in it, what holds the finish, and the clock that leaps. */

import { holdingChain } from "../night/chain";
import type { LoadedNight } from "../night/night";
import { valvesTold } from "../store/queries";
import { later } from "../way/later";
import { t } from "../words/catalogue";
import { volume } from "../words/units";
import { leapWords } from "./leaps";
import type { Scene } from "./scene";

const RanKey = later(() => import("../journal/ran-layer").then((file) => file.RanKey));

export function Keys({ night, scene }: { night: LoadedNight; scene: Scene }) {
  return (
    <ul class="keys">
      {night.clock.changes.map((change) => (
        <li key={change.at} class="key-leap">
          {leapWords(change).long}
        </li>
      ))}
      {holdingChain(night.sheet, night.document).size > 0 ? <ChainKey /> : null}
      {valvesTold.value ? <RanKey /> : null}
      <VolumeKey pxPerLitre={scene.pxPerLpm * scene.pxPerMinute} />
    </ul>
  );
}

function ChainKey() {
  return (
    <li>
      <svg width="26" height="16" aria-hidden="true">
        <path class="key-square" d="M1 1H25V15H1Z" />
        <path class="chain-base" d="M1 11H25V15H1Z" />
      </svg>
      {t("holds the finish")}
    </li>
  );
}

/** Area is volume everywhere in the picture: this square says how much. */
const KEY_L = 2000;

function VolumeKey({ pxPerLitre }: { pxPerLitre: number }) {
  const side = Math.sqrt(KEY_L * pxPerLitre);
  return (
    <li class="volume-key">
      <svg width={side + 2} height={side + 2} aria-hidden="true">
        <rect class="key-square" x="1" y="1" width={side} height={side} />
      </svg>
      {t("this area is {volume}", { volume: volume(KEY_L) })}
    </li>
  );
}
