import type { Garment, KindFacts, LayerRole, RuleFamily } from "./kind.ts";

const SINGLE = ["main", "second"];
const PAIR = ["left", "right"];

/**
 * The kinds that a department starts with; it changes and adds to them by entries.
 * Source: separable parts of a coat and pants as in the 2008 routine inspection sheet (facts S5), common practice else.
 */
export const STANDARD_KINDS: readonly KindFacts[] = [
  ...garmentKinds("structural", ""),
  alone("hood", "Hood", "structural"),
  alone("helmet", "Helmet", "structural"),
  alone("glove-pair", "Gloves", "structural", PAIR),
  alone("boot-pair", "Boots", "structural", PAIR),
  { ...alone("suspenders", "Suspenders", "structural"), counted: true, positions: [] },
  ...garmentKinds("proximity", "proximity-"),
  alone("proximity-hood", "Proximity hood and shroud", "proximity"),
  alone("proximity-helmet", "Proximity helmet", "proximity"),
  alone("proximity-glove-pair", "Proximity gloves", "proximity", PAIR),
  alone("proximity-boot-pair", "Proximity boots", "proximity", PAIR),
  shell("wildland-coat", "Wildland coat", "wildland", "coat"),
  shell("wildland-pants", "Wildland pants", "wildland", "pants"),
  shell("wildland-coverall", "Wildland coverall", "wildland", "coverall"),
  alone("wildland-helmet", "Wildland helmet", "wildland"),
  alone("wildland-glove-pair", "Wildland gloves", "wildland", PAIR),
  alone("wildland-boot-pair", "Wildland boots", "wildland", PAIR),
  shell("rescue-coat", "Technical rescue coat", "technical rescue", "coat"),
  shell("rescue-pants", "Technical rescue pants", "technical rescue", "pants"),
  shell("rescue-coverall", "Technical rescue coverall", "technical rescue", "coverall"),
  alone("rescue-helmet", "Technical rescue helmet", "technical rescue"),
  alone("rescue-glove-pair", "Technical rescue gloves", "technical rescue", PAIR),
  alone("rescue-boot-pair", "Technical rescue boots", "technical rescue", PAIR),
];

function garmentKinds(family: RuleFamily, prefix: string): KindFacts[] {
  const word = prefix ? "Proximity " : "";
  const named = (name: string) => (word ? word + name.toLowerCase().replace(/^drd/, "DRD") : name);
  return [
    layer(`${prefix}coat-shell`, named("Coat shell"), family, "coat", "shell"),
    layer(`${prefix}coat-liner`, named("Coat liner"), family, "coat", "liner"),
    layer(`${prefix}drd`, named("DRD"), family, "coat", "drd"),
    layer(`${prefix}pants-shell`, named("Pants shell"), family, "pants", "shell"),
    layer(`${prefix}pants-liner`, named("Pants liner"), family, "pants", "liner"),
    ...(prefix ? [] : [layer("winter-liner", "Winter liner", family, "coat", "winter-liner")]),
  ];
}

function layer(code: string, name: string, family: RuleFamily, garment: Garment, role: LayerRole): KindFacts {
  return { code, name, family, garment, layer: role, counted: false, positions: SINGLE };
}

function shell(code: string, name: string, family: RuleFamily, garment: Garment): KindFacts {
  return layer(code, name, family, garment, "shell");
}

function alone(code: string, name: string, family: RuleFamily, positions = SINGLE): KindFacts {
  return { code, name, family, counted: false, positions };
}

/** Layers that a complete garment of a shell kind needs, where its model does not say otherwise. Common practice. */
export function usualLayers(shellKind: string): readonly string[] {
  const prefix = shellKind.startsWith("proximity-") ? "proximity-" : "";
  if (shellKind.endsWith("coat-shell")) return [`${prefix}coat-liner`, `${prefix}drd`];
  return shellKind.endsWith("pants-shell") ? [`${prefix}pants-liner`] : [];
}
