/** What the server said against it, or that there is no line. Told to screen readers as it comes. */

import type { LineFault } from "../line/fetching";
import { faultWords } from "./doing";

export function FaultLine({ fault }: { fault: LineFault | null }) {
  const general = fault?.fields.filter((one) => !one.field) ?? [];
  return (
    <div role="alert">
      {fault ? <p class="more-alert">{faultWords(fault)}</p> : null}
      {general.map((one) => (
        <p key={one.code} class="more-alert">
          {one.detail}
        </p>
      ))}
    </div>
  );
}
