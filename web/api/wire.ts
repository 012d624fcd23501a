/** Shapes of the server's answers that screens name. */
export type { MeOnWire } from "../../server/http/app-type.ts";
