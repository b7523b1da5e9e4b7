/** A station's number on a pierced plate, as it hangs on the valve. Brass only for what is next or selected. */

interface StationTagProps {
  number: string;
  brass?: boolean;
  large?: boolean;
}

export function StationTag({ number, brass = false, large = false }: StationTagProps) {
  return (
    <span dir="ltr" class={`tag${brass ? " tag-brass" : ""}${large ? " tag-large" : ""}`}>
      <span class="tag-hole" aria-hidden="true" />
      {number}
    </span>
  );
}
