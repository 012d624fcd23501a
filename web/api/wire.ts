/** Shapes of the server's answers that screens name. */
export type { MeOnWire } from "../../server/http/app-type.ts";

import type { Api } from "../../server/http/app-type.ts";

export type JobOnWire = Api["get"]["/api/jobs/{id}"]["answer"];
export type ImportOnWire = Api["get"]["/api/imports/{id}"]["answer"];
export type PreviewOnWire = NonNullable<ImportOnWire["preview"]>;
export type BroughtInOnWire = Api["get"]["/api/imports"]["answer"]["files"][number];
export type ProblemLineOnWire = Api["get"]["/api/imports/{id}/problems"]["answer"]["problems"][number];
export type PrintOptionsOnWire = Api["get"]["/api/print-options"]["answer"];
export type PrintRunOnWire = Api["get"]["/api/print-runs/{id}"]["answer"];
export type UntaggedOnWire = Api["get"]["/api/untagged-pieces"]["answer"];
