declare const brand: unique symbol;

/** Marks a primitive with a name, so that two kinds of text or number cannot be exchanged by mistake. */
export type Brand<Base, Name extends string> = Base & { readonly [brand]: Name };
