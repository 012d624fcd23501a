/** A tag's symbol as its modules, dark ones true, row by row. */
export type SymbolModules = readonly (readonly boolean[])[];
