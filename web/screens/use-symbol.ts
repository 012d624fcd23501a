import { useEffect, useState } from "preact/hooks";

/** A tag's symbol as its modules, dark ones true, row by row. */
export type SymbolModules = readonly (readonly boolean[])[];

/** Asks for the symbol of a number; until it is there, and without it, the tag shows its number alone. */
export function useSymbol(
  number: string | undefined,
  symbolOf: ((number: string) => Promise<SymbolModules | undefined>) | undefined,
): SymbolModules | undefined {
  const [modules, setModules] = useState<SymbolModules>();
  useEffect(() => {
    let isCurrent = true;
    setModules(undefined);
    if (number && symbolOf) void symbolOf(number).then((found) => isCurrent && setModules(found));
    return () => {
      isCurrent = false;
    };
  }, [number]);
  return modules;
}
