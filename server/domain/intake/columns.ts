/** One column that an intake file can have: its header in our templates, other headers that mean it, how to fill it. */
export interface Column<Field extends string = string> {
  readonly field: Field;
  readonly header: string;
  /** Headers as US and international departments write them, folded to words. Common practice. */
  readonly alsoCalled: readonly string[];
  readonly isRequired: boolean;
  readonly howToWrite: string;
}

function column<Field extends string>(
  field: Field,
  header: string,
  howToWrite: string,
  alsoCalled: readonly string[],
  isRequired = false,
): Column<Field> {
  return { field, header, alsoCalled, isRequired, howToWrite };
}

const DAY = "2024-03-05";
const DAY_OR_MONTH = "2024-03-05, or 2024-03 when only the month is known";

/** Columns of a file of pieces, in the order of the template. */
export const PIECE_COLUMNS = [
  column(
    "kind",
    "Kind",
    "coat shell, coat liner, DRD, pants shell, …",
    [
      "type",
      "piece",
      "item",
      "item type",
      "gear type",
      "gear",
      "element",
      "component",
      "layer",
      "description",
      "equipment",
      "category",
      "article",
    ],
    true,
  ),
  column("maker", "Maker", "as the label says", [
    "manufacturer",
    "make",
    "mfr",
    "mfg",
    "manufacturer name",
    "mfr name",
    "brand",
  ]),
  column("modelName", "Model", "as the label says", [
    "model name",
    "model no",
    "model number",
    "model name design",
    "style",
    "style no",
    "style number",
  ]),
  column("size", "Size", "as printed: 46 32 R", ["size as printed", "label size", "garment size"]),
  column("pattern", "Pattern", "men's, women's, … as printed", [
    "gender",
    "gender cut",
    "sex",
    "mens womens",
    "fit",
  ]),
  column("linerCode", "Liner code", "as printed", [
    "liner",
    "liner pattern",
    "liner no",
    "liner number",
    "lining code",
  ]),
  column("serial", "Serial", "as printed", [
    "serial no",
    "serial number",
    "serial num",
    "sn",
    "s n",
    "ser no",
    "serial id",
  ]),
  column("lot", "Lot", "as printed", ["lot no", "lot number", "batch", "batch no", "batch number"]),
  column("cutNumber", "Cut number", "as printed; kept, never compared", ["cut", "cut no"]),
  column("madeOn", "Made", DAY_OR_MONTH, [
    "manufacture date",
    "manufactured",
    "date of manufacture",
    "date manufactured",
    "mfg date",
    "mfr date",
    "manufacturing date",
    "manufactured date",
    "dom",
    "made on",
    "date made",
    "production date",
    "build date",
    "month and year of manufacture",
    "year of manufacture",
  ]),
  column("materials", "Materials", "as printed", ["material", "fabric", "composition", "shell material"]),
  column("labelReading", "Label read", "read, not yet read, or not legible", [
    "label",
    "label reading",
    "label legible",
  ]),
  column("owner", "Owner", "department, member 1042, provider NAME, other department, or maker", [
    "owned by",
    "property of",
  ]),
  column("funding", "Funding line", "", [
    "funding",
    "fund",
    "grant",
    "funding source",
    "budget line",
    "account",
    "cost centre",
    "cost center",
  ]),
  column("purchaseOrder", "Purchase order", "", [
    "po",
    "po no",
    "po number",
    "purchase order no",
    "purchase order number",
    "order no",
    "order number",
  ]),
  column("price", "Price", "1234.50", [
    "cost",
    "unit cost",
    "unit price",
    "purchase price",
    "purchase cost",
    "amount",
  ]),
  column("inServiceOn", "In service", DAY, [
    "in service date",
    "in service on",
    "date in service",
    "service date",
    "placed in service",
    "date placed in service",
  ]),
  column("place", "Place", "name of a place in the register", [
    "location",
    "where",
    "stored",
    "stored at",
    "storage location",
    "rack",
    "shelf",
  ]),
  column("member", "Member", "member number", [
    "member no",
    "member number",
    "issued to",
    "assigned to",
    "employee no",
    "employee number",
    "employee id",
    "personnel number",
    "ff number",
    "service number",
  ]),
  column("set", "Set", "front-line, second, …", ["set name"]),
  column("foreignCode", "Maker's barcode or old number", "", [
    "barcode",
    "makers barcode",
    "bar code",
    "old number",
    "old tag",
    "asset",
    "asset no",
    "asset number",
    "asset tag",
    "inventory no",
    "inventory number",
    "tag",
    "tag no",
  ]),
  column("note", "Note", "", ["notes", "comment", "comments", "remark", "remarks"]),
] as const satisfies readonly Column[];
export type PieceField = (typeof PIECE_COLUMNS)[number]["field"];

/** Columns of the model table: one row for each layer that a model takes. */
export const MODEL_COLUMNS = [
  column("maker", "Maker", "as the label says", ["manufacturer", "make", "mfr", "mfg", "brand"], true),
  column(
    "name",
    "Model",
    "as the label says",
    ["model name", "model no", "model number", "style", "shell model"],
    true,
  ),
  column("kind", "Kind", "kind of piece", ["type", "piece", "item type"], true),
  column("layers", "Layers of a complete garment", "coat liner + DRD", ["layers", "needs", "complete with"]),
  column("takesKind", "Takes layer", "kind of the layer that this row names", [
    "takes kind",
    "layer",
    "takes",
  ]),
  column("takesModel", "Takes model", "model name of that layer", [
    "liner model",
    "layer model",
    "drd model",
  ]),
  column("takesMaker", "Takes maker", "only if the layer has another maker", ["liner maker", "layer maker"]),
  column("takesCode", "Takes liner code", "liner code or DRD code of that layer", [
    "liner code",
    "takes code",
    "drd code",
    "liner",
  ]),
  column("wash", "Wash", "machine; machine, in a mesh bag; by hand; or not at all", [
    "washing",
    "how to wash",
    "cleaning",
  ]),
  column("source", "Source", "maker's letter or worn-together label", ["said by", "according to"]),
  column("sourceOn", "Source day", DAY, ["source date", "letter date"]),
] as const satisfies readonly Column[];
export type ModelField = (typeof MODEL_COLUMNS)[number]["field"];

/** Columns of a roster. A name is kept apart from the record and can be corrected or removed. */
export const MEMBER_COLUMNS = [
  column(
    "number",
    "Number",
    "member number",
    [
      "no",
      "member number",
      "member no",
      "member",
      "employee no",
      "employee number",
      "employee id",
      "id",
      "personnel number",
      "service number",
      "badge",
      "badge number",
      "ff number",
    ],
    true,
  ),
  column("name", "Name", "as it should show", [
    "full name",
    "member name",
    "employee name",
    "firefighter",
    "employee",
  ]),
  column("firstName", "First name", "only without a name column", [
    "first",
    "given name",
    "forename",
    "given names",
  ]),
  column("lastName", "Last name", "only without a name column", ["last", "surname", "family name"]),
  column("station", "Station", "name of a station in the register", [
    "house",
    "company",
    "assigned station",
    "fire station",
    "location",
  ]),
  column("shift", "Shift", "", ["platoon", "watch", "group", "crew"]),
] as const satisfies readonly Column[];
export type MemberField = (typeof MEMBER_COLUMNS)[number]["field"];
