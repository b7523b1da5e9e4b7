/** A long list of rows: only those near the screen are there; the others are empty height. */

import {
  elementScroll,
  observeElementOffset,
  observeElementRect,
  observeWindowOffset,
  observeWindowRect,
  Virtualizer,
  windowScroll,
} from "@tanstack/virtual-core";
import { useLayoutEffect, useReducer, useRef } from "preact/hooks";
import type { LongListProps } from "./long-list";

const ROW_PX = 72;

export function NearList<Item>({ name, items, keyOf, children }: LongListProps<Item>) {
  const list = useRef<HTMLOListElement>(null);
  const near = useNear(list, items.length);
  const rows = near?.getVirtualItems() ?? [];
  const first = rows[0]?.start ?? 0;
  const margin = near?.options.scrollMargin ?? 0;
  const height = near?.getTotalSize() ?? items.length * ROW_PX;
  return (
    <ol class="rows" data-list={name} ref={list} style={{ blockSize: `${height}px` }}>
      {rows.map(({ index }, place) => {
        const item = items[index];
        return item === undefined ? null : (
          <li
            key={keyOf(item)}
            data-index={index}
            aria-setsize={items.length}
            aria-posinset={index + 1}
            ref={near ? near.measureElement : null}
            style={{ marginBlockStart: place === 0 ? `${first - margin}px` : "0" }}
          >
            {children(item)}
          </li>
        );
      })}
    </ol>
  );
}

type Near = Virtualizer<Window, Element> | Virtualizer<Element, Element>;

/** Follows the page's own scrolling, or that of the column the list stands in. */
function useNear(list: { current: HTMLElement | null }, count: number): Near | null {
  const near = useRef<Near | null>(null);
  const [, redraw] = useReducer<number, void>((drawn) => drawn + 1, 0);
  useLayoutEffect(() => {
    const element = list.current;
    if (!element) return;
    const made = nearOf(element, count, () => redraw());
    near.current = made;
    made._willUpdate();
    redraw();
    return made._didMount();
  }, [count]);
  return near.current;
}

function nearOf(list: HTMLElement, count: number, onChange: () => void): Near {
  const column = list.closest(".lists");
  const shared = { count, estimateSize: () => ROW_PX, overscan: 8, onChange };
  const top = list.getBoundingClientRect().top;
  if (column && getComputedStyle(column).overflowY === "auto") {
    return new Virtualizer<Element, Element>({
      ...shared,
      getScrollElement: () => column,
      scrollMargin: top - column.getBoundingClientRect().top + column.scrollTop,
      observeElementRect,
      observeElementOffset,
      scrollToFn: elementScroll,
    });
  }
  return new Virtualizer<Window, Element>({
    ...shared,
    getScrollElement: () => window,
    scrollMargin: top + window.scrollY,
    observeElementRect: observeWindowRect,
    observeElementOffset: observeWindowOffset,
    initialOffset: () => window.scrollY,
    scrollToFn: windowScroll,
  });
}
