/** A new sender's token, told this once, and below it how it sends. */

import type { ComponentChildren } from "preact";
import { t } from "../words/catalogue";
import { CopyButton } from "./copy-button";

interface TokenCardProps {
  title: string;
  /** What whoever has the token can do. */
  caution: string;
  token: string;
  children: ComponentChildren;
  onDone: () => void;
}

export function TokenCard({ title, caution, token, children, onDone }: TokenCardProps) {
  return (
    <section class="sent-how" aria-label={title}>
      <h2 class="more-title">{title}</h2>
      <p>{caution}</p>
      <p class="sent-token">
        <bdi dir="ltr">{token}</bdi>
      </p>
      <CopyButton text={token} label={t("Copy the token")} />
      {children}
      <div class="code-ways">
        <button type="button" class="button button-strong" onClick={onDone}>
          {t("Done")}
        </button>
      </div>
    </section>
  );
}
