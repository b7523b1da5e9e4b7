/** A long list that draws only what is in sight: smooth with thousands of rows, in the page or in a column of its own. */

import {
  elementScroll,
  observeElementOffset,
  observeElementRect,
  observeWindowOffset,
  observeWindowRect,
  Virtualizer,
  windowScroll,
} from "@tanstack/virtual-core";
import type { ComponentChildren } from "preact";
import { useLayoutEffect, useReducer, useRef } from "preact/hooks";

interface VirtualRowsProps {
  count: number;
  keyOf: (index: number) => string;
  draw: (index: number) => ComponentChildren;
  label: string;
  /** A row's height before it is measured. */
  estimate: number;
  /** The list scrolls within its own column; else with the page. */
  column: boolean;
}

export function VirtualRows({ count, keyOf, draw, label, estimate, column }: VirtualRowsProps) {
  const list = useRef<HTMLUListElement>(null);
  const rows = useVirtual({ count, keyOf, estimate, column, list });
  const margin = rows.options.scrollMargin;
  return (
    <ul
      class="virtual"
      ref={list}
      aria-label={label}
      style={{ blockSize: `${rows.getTotalSize()}px` }}
      onKeyDown={(event) => moveFocus(event, rows)}
    >
      {rows.getVirtualItems().map((item) => (
        <li
          key={item.key}
          class="virtual-row"
          data-index={item.index}
          aria-setsize={count}
          aria-posinset={item.index + 1}
          ref={rows.measureElement}
          style={{ transform: `translateY(${item.start - margin}px)` }}
        >
          {draw(item.index)}
        </li>
      ))}
    </ul>
  );
}

type Rows = Virtualizer<Element & Window, Element>;

interface Virtual extends Pick<VirtualRowsProps, "count" | "keyOf" | "estimate" | "column"> {
  list: { current: HTMLUListElement | null };
}

function useVirtual({ count, keyOf, estimate, column, list }: Virtual): Rows {
  const [, again] = useReducer((turn: number) => turn + 1, 0);
  const made = useRef<Rows | null>(null);
  const scroller = () => (column ? list.current?.closest(".stations-side") : window) as (Element & Window) | null;
  const options = {
    count,
    getItemKey: keyOf,
    estimateSize: () => estimate,
    overscan: 8,
    scrollMargin: marginOf(list.current, column),
    getScrollElement: scroller,
    observeElementRect: (column ? observeElementRect : observeWindowRect) as typeof observeElementRect,
    observeElementOffset: (column ? observeElementOffset : observeWindowOffset) as typeof observeElementOffset,
    scrollToFn: (column ? elementScroll : windowScroll) as typeof elementScroll,
    onChange: () => again(undefined as never),
  };
  made.current ??= new Virtualizer(options as never);
  const rows = made.current;
  rows.setOptions(options as never);
  useLayoutEffect(() => {
    const end = rows._didMount();
    again(undefined as never);
    return end;
  }, [rows]);
  useLayoutEffect(() => rows._willUpdate());
  return rows;
}

/** How far below the top of what scrolls the list begins. */
function marginOf(list: HTMLElement | null, column: boolean): number {
  if (!list) return 0;
  if (!column) return list.getBoundingClientRect().top + window.scrollY;
  const around = list.closest(".stations-side");
  return around ? list.getBoundingClientRect().top - around.getBoundingClientRect().top + around.scrollTop : 0;
}

/** The arrow keys lead from row to row, also to rows that are not drawn yet. */
function moveFocus(event: KeyboardEvent, rows: Rows): void {
  const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
  const from = (event.target as Element).closest("[data-index]")?.getAttribute("data-index");
  if (by === undefined || from === null || from === undefined) return;
  const to = Number(from) + by;
  if (to < 0 || to >= rows.options.count) return;
  event.preventDefault();
  rows.scrollToIndex(to, { align: "auto" });
  const list = event.currentTarget as Element;
  requestAnimationFrame(() => list.querySelector<HTMLElement>(`[data-index="${to}"] :is(button, input)`)?.focus());
}
