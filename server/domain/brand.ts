declare const brand: unique symbol;

/**
 * Marks a primitive with a name, so that two kinds of text or number cannot be exchanged by mistake. Marks add up: a
 * piece's id is also a UUID. (One string as mark would make a marked mark `never`, which goes anywhere.)
 */
export type Brand<Base, Name extends string> = Base & { readonly [brand]: { readonly [Each in Name]: true } };
