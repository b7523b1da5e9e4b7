/** A value once it has stood for a while, so that a flicker is not told. */

import { useEffect, useState } from "preact/hooks";

const STANDS_MS = 1500;

export function useSettled<Value>(value: Value): Value {
  const [settled, settle] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => settle(value), STANDS_MS);
    return () => clearTimeout(timer);
  }, [value]);
  return settled;
}
