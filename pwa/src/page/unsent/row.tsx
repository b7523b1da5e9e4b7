/** One thing on this phone that is not the server's yet: what it is, when it was made, why it waits, what can be done. */

import type { ComponentChildren } from "preact";
import { whenWords } from "../changes/when";
import { t } from "../words/catalogue";

interface UnsentRowProps {
  id: string;
  what: string;
  /** Whole seconds since 1970. */
  made: number;
  why: string;
  /** What the server said against it; empty: it only waits. */
  faults: readonly string[];
  /** Buttons. */
  children?: ComponentChildren;
}

export function UnsentRow({ id, what, made, why, faults, children }: UnsentRowProps) {
  return (
    <li class="change-act" data-unsent={id}>
      <div class="change-what">
        <p>
          <bdi>{what}</bdi>
        </p>
        <p class="row-under">
          {t("Made {when}.", { when: whenWords(made) })} {faults.length ? null : why}
        </p>
        {faults.map((fault) => (
          <p key={fault} class="ahead-short">
            <bdi>{fault}</bdi>
          </p>
        ))}
      </div>
      {children}
    </li>
  );
}
