import type { HowCleaned } from "../pieces/piece-entries.ts";
import type { ContaminantRule, Sourced } from "./contaminant-rule.ts";

/**
 * What a department starts with. A value is confirmed where a law, an agency, a union's guide or a trade article says
 * it; what is only common practice or an inference is proposed, says so, and waits for the department.
 */

const COMMON_PRACTICE = "common practice; no source found";

function from<Value>(source: string, says: Value, caution?: string): Sourced<Value> {
  return { says, source, confirmed: true, ...(caution ? { caution } : {}) };
}

function proposed<Value>(
  says: Value | null,
  caution?: string,
  source = COMMON_PRACTICE,
): Sourced<NonNullable<Value>> {
  return { says: says ?? null, source, confirmed: false, ...(caution ? { caution } : {}) };
}

const FIRE = "Washington State Council of Fire Fighters, Healthy In Healthy Out (union guide)";
const REVISION_2020 =
  "FireRescue1, what changed in the 2020 revision of NFPA 1851 (committee member's article)";
const HOODS = "J. Occup. Environ. Hyg. 2019, doi 10.1080/15459624.2018.1540877 (research)";
const ASBESTOS = "FireRescue1, asbestos (committee member's article)";
const BLOOD = "29 CFR 1910.1030(d)(4)(iv) (law)";
const DRUGS = "NIOSH, decontamination after illicit drugs (agency page, read in a copy)";
const PESTS = "IAFF bed-bug note; Lancaster FD G.O.G. 3.11 (union and department)";
const UNUSUAL = "maker's user guide; FireRescue1, contaminated clothing (trade)";
const NO_NORMAL_LOAD = "Do not wash such gear in a normal load. Do not mix it with unrelated loads.";
const MAKERS_WORD =
  "The department's procedure, the adopted edition, the maker and a verified provider decide.";
const NO_ENDING = "No source says which cleaning ends it.";

const ADVANCED: readonly HowCleaned[] = ["advanced cleaning", "specialised cleaning"];
const SPECIALISED: readonly HowCleaned[] = ["specialised cleaning"];

export const STARTING_CONTAMINANTS: readonly ContaminantRule[] = [
  {
    code: "fire-products",
    name: "Fire products",
    asks: {
      isolate: from(FIRE, "yes", "No contaminated gear in a cab."),
      specialist: from(FIRE, "no"),
      "share a load": proposed(
        "yes",
        "Hoods washed with heavily exposed ones took over some flame retardants: a shared load is a way of transfer.",
        HOODS,
      ),
      dispose: proposed("no", MAKERS_WORD),
    },
    endedBy: from(
      REVISION_2020,
      ADVANCED,
      "Washed does not say free of everything. Verified for shell organics and metals, not for every compound.",
    ),
    handling: from(FIRE, "Rinse, bag (42 gallon, 2 to 3 mil), wash. Open the bag outside, to let it air."),
  },
  {
    code: "blood-or-body-fluid",
    name: "Blood or body fluid",
    asks: {
      isolate: from(BLOOD, "yes", "A labelled or colour-coded bag, leak-proof if wet."),
      specialist: proposed("yes", NO_NORMAL_LOAD),
      "share a load": proposed("no", NO_NORMAL_LOAD),
      dispose: proposed(null, MAKERS_WORD),
    },
    endedBy: proposed(SPECIALISED, `${NO_ENDING} Sanitisation and disinfection have separate targets.`),
    handling: from(
      BLOOD,
      "Handle as little as possible. Bag it where it was used; do not sort or rinse there. Wear gloves.",
      "Blood-wet gear that is kept as evidence counts as a specimen: closed container before storage or transport.",
    ),
  },
  {
    code: "asbestos",
    name: "Asbestos",
    asks: {
      isolate: from(ASBESTOS, "yes", "Fibres lodge in cloth: a risk to anyone who handles it."),
      specialist: from(ASBESTOS, "yes", "A specialised route, or disposal."),
      "share a load": from(ASBESTOS, "no", NO_NORMAL_LOAD),
      dispose: from(ASBESTOS, "yes", "Where the specialised route cannot take it."),
    },
    endedBy: proposed(SPECIALISED, NO_ENDING),
    handling: proposed(
      "Bag it closed and labelled. Whoever launders it is told in writing.",
      "The duties of 29 CFR 1910.1001(h) were not read: look them up.",
      "from memory",
    ),
  },
  {
    code: "drugs",
    name: "Drugs",
    asks: {
      isolate: from(DRUGS, "yes"),
      specialist: proposed("yes", NO_NORMAL_LOAD),
      "share a load": from(DRUGS, "no", "Kept from other laundry."),
      dispose: proposed(null, MAKERS_WORD),
    },
    endedBy: proposed(SPECIALISED, `${NO_ENDING} It is cleaned as its maker says.`),
    handling: from(DRUGS, "A labelled bag of 6 mil polyethylene. No bleach or alcohol on skin."),
  },
  {
    code: "chemical",
    name: "Chemical",
    asks: {
      isolate: from(UNUSUAL, "yes"),
      specialist: from(UNUSUAL, "yes", "The specialist decides; not worn until then."),
      "share a load": proposed("no", NO_NORMAL_LOAD),
      dispose: proposed(null, MAKERS_WORD),
    },
    endedBy: from(UNUSUAL, [], "No cleaning ends it by itself: a specialist decides."),
  },
  {
    code: "pests",
    name: "Pests",
    asks: {
      isolate: from(PESTS, "yes", "Treated before it comes into living areas."),
      specialist: proposed(
        "yes",
        "Heat that kills bed bugs is over the drying limit of 105 °F: only with the maker's consent.",
      ),
      "share a load": proposed("no", NO_NORMAL_LOAD),
      dispose: proposed("no", MAKERS_WORD),
    },
    endedBy: proposed(SPECIALISED, NO_ENDING),
  },
  {
    code: "cbrn",
    name: "CBRN",
    asks: {
      isolate: from(UNUSUAL, "yes"),
      specialist: from(UNUSUAL, "yes", "The specialist decides; not worn until then."),
      "share a load": proposed("no", NO_NORMAL_LOAD),
      dispose: proposed(null, MAKERS_WORD),
    },
    endedBy: from(UNUSUAL, [], "No cleaning ends it by itself: a specialist decides."),
  },
  {
    code: "unknown",
    name: "Unknown",
    asks: {
      isolate: proposed("yes", "Until somebody knows what it is."),
      specialist: proposed("yes", MAKERS_WORD),
      "share a load": proposed("no", NO_NORMAL_LOAD),
      dispose: proposed(null, MAKERS_WORD),
    },
    endedBy: proposed([], `${NO_ENDING} It is not known what there was.`),
  },
];

/** Puts the department's own rules in the place of those that it started with, and its own kinds after them. */
export function rulesInForce(ruled: readonly ContaminantRule[]): readonly ContaminantRule[] {
  const own = new Map(ruled.map((rule) => [rule.code, rule]));
  const started = STARTING_CONTAMINANTS.map((rule) => own.get(rule.code) ?? rule);
  const startedCodes = new Set(started.map(({ code }) => code));
  return [...started, ...ruled.filter(({ code }) => !startedCodes.has(code))];
}
