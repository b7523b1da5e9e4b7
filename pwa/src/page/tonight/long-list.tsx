/** A list of rows. Where there are many, only those near the screen are there. */

import type { ComponentChildren } from "preact";
import { later } from "../way/later";

export interface LongListProps<Item> {
  name: string;
  items: readonly Item[];
  keyOf(item: Item): string;
  children(item: Item): ComponentChildren;
}

/** What follows the scrolling is large, and below the first screen. */
const NearList = later(() => import("./near-list").then((file) => file.NearList<unknown>));

/** Shorter lists are simply there. */
const FEW = 60;

export function LongList<Item>(props: LongListProps<Item>) {
  return props.items.length <= FEW ? <WholeList {...props} /> : <NearList {...(props as LongListProps<unknown>)} />;
}

function WholeList<Item>({ name, items, keyOf, children }: LongListProps<Item>) {
  return (
    <ol class="rows" data-list={name}>
      {items.map((item) => (
        <li key={keyOf(item)}>{children(item)}</li>
      ))}
    </ol>
  );
}
