// Written by `npm run schema` from the migrated database. Do not edit.
import type { ColumnType, Generated, GeneratedAlways, Selectable } from "kysely";

/** jsonb goes in as JSON text, so that a list is not taken for a PostgreSQL array. */
type Json = ColumnType<unknown, string, string>;
/** An instant; a text that goes in carries its offset. */
type Timestamp = ColumnType<Date, Date | string, Date | string>;

export interface AcceptanceTable {
  id: string;
  scope: Json;
  said_by: "maker" | "provider";
  said_by_name: string;
  document: string;
  said_on: string;
  withdrawn: boolean;
  version: number;
}
export type AcceptanceRow = Selectable<AcceptanceTable>;

export interface AccountTable {
  id: string;
  role: "technician" | "inspector" | "program manager" | "company officer" | "member" | "reader";
  member: string | null;
  station: string | null;
  badge: string | null;
  closed: boolean;
  version: number;
}
export type AccountRow = Selectable<AccountTable>;

export interface ActTable {
  id: string;
  command: string;
  command_hash: Buffer;
  by: string;
  device: string;
  device_seq: number;
  app_build: string;
  at: Timestamp;
  at_offset_min: number;
  sent_at: Timestamp;
  entry_count: number;
  digest: Buffer;
  position: number;
  prev: Buffer;
  hash: Buffer;
  recorded_at: Timestamp;
}
export type ActRow = Selectable<ActTable>;

export interface BenchDeviceTable {
  id: string;
  token_hash: Buffer;
  enrolled_by: string;
  enrolled_at: Timestamp;
}
export type BenchDeviceRow = Selectable<BenchDeviceTable>;

export interface ByEyeTable {
  layer: string;
  n: number;
  shell: string;
  compared_by: string;
  compared_at: Timestamp;
}
export type ByEyeRow = Selectable<ByEyeTable>;

export interface ContaminantTable {
  code: string;
  policy: string;
  rule: Json;
  version: number;
}
export type ContaminantRow = Selectable<ContaminantTable>;

export interface ContaminationEventTable {
  id: string;
  name: string;
  from_at: Timestamp;
  to_at: Timestamp;
  place: string | null;
  where_told: string | null;
  incident: string | null;
  kinds: string[];
  version: number;
}
export type ContaminationEventRow = Selectable<ContaminationEventTable>;

export interface CredentialTable {
  account: string;
  passphrase: ColumnType<unknown, string | null, string | null>;
  pin: ColumnType<unknown, string | null, string | null>;
  failed_tries: Generated<number>;
  locked_until: ColumnType<Date | null, Date | string | null, Date | string | null>;
  sign_in_name: string | null;
}
export type CredentialRow = Selectable<CredentialTable>;

export interface EntryTable {
  subject: string;
  version: number;
  subject_kind: "piece" | "tag" | "place" | "member" | "provider" | "outside" | "kind" | "model" | "acceptance" | "load" | "machine" | "notice" | "contamination-event" | "policy" | "account" | "trace";
  act: string;
  n: number;
  kind: string;
  bytes: Buffer;
  hash: GeneratedAlways<Buffer>;
  prior: GeneratedAlways<number | null>;
}
export type EntryRow = Selectable<EntryTable>;

export interface EntryTextTable {
  subject: string;
  version: number;
  name: string;
  salt: Buffer;
  body: string | null;
}
export type EntryTextRow = Selectable<EntryTextTable>;

export interface EventMemberTable {
  event: string;
  member: string;
  set_name: string | null;
  evidence: string;
  version: number;
}
export type EventMemberRow = Selectable<EventMemberTable>;

export interface FittingTable {
  layer: string;
  n: number;
  layer_kind: string;
  shell: string;
  from_at: Timestamp;
  to_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  verdict: string;
  evidence: string;
  from_version: number;
  to_version: number | null;
}
export type FittingRow = Selectable<FittingTable>;

export interface ForeignCodeTable {
  code: string;
  piece: string;
  version: number;
}
export type ForeignCodeRow = Selectable<ForeignCodeTable>;

export interface FoundPropertyTable {
  receipt: string;
  piece: string;
  version: number;
  found_at: Timestamp;
  given_back_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  given_back_to: string | null;
}
export type FoundPropertyRow = Selectable<FoundPropertyTable>;

export interface HoldTable {
  piece: string;
  version: number;
  hold_kind: string;
  with_piece: string | null;
  placed_at: Timestamp;
  placed_by: string;
  lifted_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  lifted_version: number | null;
  event: string | null;
}
export type HoldRow = Selectable<HoldTable>;

export interface ImportFileTable {
  sha256: Buffer;
  name: string;
  what: string;
  brought_in_at: ColumnType<Date, Date | string | undefined, Date | string>;
  by: string;
  accepted: number;
  parked: Generated<number>;
  parked_csv: string | null;
  act: string | null;
}
export type ImportFileRow = Selectable<ImportFileTable>;

export interface ImportProblemTable {
  upload: string;
  n: number;
  row_number: number;
  column_number: number | null;
  header: string | null;
  code: string;
  value: string | null;
  says: string;
}
export type ImportProblemRow = Selectable<ImportProblemTable>;

export interface ImportUploadTable {
  id: string;
  what: "pieces" | "models" | "members";
  name: string;
  by: string;
  made_at: ColumnType<Date, Date | string | undefined, Date | string>;
  sha256: Buffer;
  bytes: Buffer | null;
  columns: ColumnType<unknown, string | undefined, string>;
  preview: ColumnType<unknown, string | null, string | null>;
  parked_csv: string | null;
  accepted_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
}
export type ImportUploadRow = Selectable<ImportUploadTable>;

export interface JobTable {
  id: string;
  lane: "import" | "print";
  what: string;
  about: string;
  by: string;
  state: "waiting" | "running" | "done" | "refused" | "cancelled" | "failed";
  step: string;
  done: Generated<number>;
  total: Generated<number>;
  reasons: ColumnType<unknown, string | undefined, string>;
  made_at: ColumnType<Date, Date | string | undefined, Date | string>;
  beat_at: ColumnType<Date, Date | string | undefined, Date | string>;
  ended_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  cancel_asked: Generated<boolean>;
}
export type JobRow = Selectable<JobTable>;

export interface KindTable {
  id: string;
  code: string;
  name: string;
  family: "structural" | "proximity" | "wildland" | "technical rescue" | "other";
  garment: "coat" | "pants" | "coverall" | null;
  layer: "shell" | "liner" | "thermal-layer" | "moisture-layer" | "winter-liner" | "drd" | null;
  counted: boolean;
  positions: string[];
  version: number;
}
export type KindRow = Selectable<KindTable>;

export interface LedgerHeadTable {
  single: Generated<boolean>;
  position: number;
  hash: Buffer;
  recorded_at: Timestamp;
}
export type LedgerHeadRow = Selectable<LedgerHeadTable>;

export interface LoadTable {
  id: string;
  machine: string | null;
  place: string | null;
  programme: string | null;
  provider: string | null;
  document: string | null;
  how: string | null;
  started_at: Timestamp;
  ended_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  outcome: "as programmed" | "aborted" | null;
  about_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  about_minutes: number | null;
  despite: string[];
  evidence: string;
  read: number | null;
  read_scale: "F" | "C" | null;
  version: number;
}
export type LoadRow = Selectable<LoadTable>;

export interface MachineTable {
  id: string;
  name: string;
  what: "washer-extractor" | "dryer" | "cabinet" | "by hand";
  place: string;
  drum_diameter_mm: number | null;
  most_garments: number | null;
  closed: boolean;
  version: number;
}
export type MachineRow = Selectable<MachineTable>;

export interface MachineCheckTable {
  machine: string;
  version: number;
  checked_at: Timestamp;
  outcome: "in order" | "faulty";
}
export type MachineCheckRow = Selectable<MachineCheckTable>;

export interface MemberTable {
  id: string;
  number: string;
  station: string | null;
  shift: string | null;
  left_on: string | null;
  card: string | null;
  version: number;
}
export type MemberRow = Selectable<MemberTable>;

export interface ModelTable {
  id: string;
  maker: string;
  name: string;
  kind: string;
  layers: string[];
  wash: string | null;
  source: string;
  source_by: string;
  source_on: string | null;
  version: number;
}
export type ModelRow = Selectable<ModelTable>;

export interface ModelTakesTable {
  model: string;
  n: number;
  layer_kind: string;
  takes_model: string | null;
  takes_code: string | null;
}
export type ModelTakesRow = Selectable<ModelTakesTable>;

export interface NamedTable {
  id: string;
  kind: "place" | "member" | "provider" | "outside" | "account" | "model" | "contamination-event" | "machine" | "trace";
  name: string | null;
  detail: string | null;
  up: string | null;
  version: number;
}
export type NamedRow = Selectable<NamedTable>;

export interface NumberedTable {
  number: string;
  names: "tag" | "place" | "member" | "badge" | "action";
  subject: string;
  version: number;
}
export type NumberedRow = Selectable<NumberedTable>;

export interface OneTimeLinkTable {
  token_hash: Buffer;
  purpose: "first manager" | "join" | "new passphrase";
  account: string | null;
  role: string | null;
  expires_at: Timestamp;
  used_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  made_by: string | null;
}
export type OneTimeLinkRow = Selectable<OneTimeLinkTable>;

export interface OutsideTable {
  id: string;
  name: string;
  what: string;
  version: number;
  closed: Generated<boolean>;
}
export type OutsideRow = Selectable<OutsideTable>;

export interface PersonTable {
  id: string;
  name: string;
}
export type PersonRow = Selectable<PersonTable>;

export interface PieceTable {
  id: string;
  kind: string;
  model: string | null;
  maker: string | null;
  model_name: string | null;
  size: string | null;
  pattern: string | null;
  liner_code: string | null;
  serial: string | null;
  lot: string | null;
  cut_number: string | null;
  made_on: string | null;
  materials: string | null;
  label_reading: "not yet read" | "read" | "not legible";
  owner_kind: "department" | "member" | "provider" | "other department" | "maker";
  owner: string | null;
  funding: string | null;
  purchase_order: string | null;
  price_cents: number | null;
  in_service_on: string | null;
  holder_kind: "place" | "member" | "provider" | "outside" | "in transit" | "whereabouts unknown";
  holder: string | null;
  held_since: Timestamp;
  member: string | null;
  set_name: string | null;
  soiled: boolean;
  washes: number;
  fitted_in: string | null;
  held: boolean;
  retired_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  registered_at: Timestamp;
  version: number;
  seen_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  wet: boolean;
  soiled_since: ColumnType<Date | null, Date | string | null, Date | string | null>;
}
export type PieceRow = Selectable<PieceTable>;

export interface PieceCleanedTable {
  piece: string;
  n: number;
  cleaned_at: Timestamp;
  how: string;
  evidence: string;
  version: number;
}
export type PieceCleanedRow = Selectable<PieceCleanedTable>;

export interface PieceMetTable {
  piece: string;
  n: number;
  event: string;
  met_from: Timestamp;
  met_to: Timestamp;
  evidence: string;
  version: number;
}
export type PieceMetRow = Selectable<PieceMetTable>;

export interface PinTriesTable {
  account: string;
  device: string;
  failed_tries: number;
  locked_until: ColumnType<Date | null, Date | string | null, Date | string | null>;
}
export type PinTriesRow = Selectable<PinTriesTable>;

export interface PlaceTable {
  id: string;
  name: string;
  what: string;
  carries: "closed" | "shared" | "apart";
  side: "soiled" | "clean" | null;
  within: string | null;
  number: string | null;
  closed: boolean;
  version: number;
}
export type PlaceRow = Selectable<PlaceTable>;

export interface PlaceCleanedTable {
  place: string;
  n: number;
  cleaned_at: Timestamp;
}
export type PlaceCleanedRow = Selectable<PlaceCleanedTable>;

export interface PrintFileTable {
  run: string;
  n: number;
  label_count: number;
  bytes: Buffer;
  made_at: ColumnType<Date, Date | string | undefined, Date | string>;
}
export type PrintFileRow = Selectable<PrintFileTable>;

export interface PrintRunTable {
  id: string;
  made_at: ColumnType<Date, Date | string | undefined, Date | string>;
  by: string;
  stock: string;
  dpi: number;
  label_count: number;
  what: Generated<"tags" | "cards">;
  media: ColumnType<unknown, string | undefined, string>;
  words: Generated<string>;
  numbers: Generated<string[]>;
}
export type PrintRunRow = Selectable<PrintRunTable>;

export interface ProgrammeTable {
  id: string;
  machine: string;
  name: string;
  how: string | null;
  temperature: number | null;
  temperature_scale: "F" | "C" | null;
  detergent_ph_tenths: number | null;
  extraction_rpm: number | null;
  minutes: number | null;
  usual: boolean;
  ended: boolean;
}
export type ProgrammeRow = Selectable<ProgrammeTable>;

export interface ProviderTable {
  id: string;
  name: string;
  verified_until: string | null;
  closed: boolean;
  version: number;
  verified_by: string | null;
}
export type ProviderRow = Selectable<ProviderTable>;

export interface ScanTable {
  id: GeneratedAlways<number>;
  at: ColumnType<Date, Date | string | undefined, Date | string>;
  by: string;
  device: string;
  via: "wedge" | "camera" | "typed";
  mode: string;
  text: string;
  names: string | null;
  subject: string | null;
  act: string | null;
  answer: Generated<string[]>;
}
export type ScanRow = Selectable<ScanTable>;

export interface SessionTable {
  token_hash: Buffer;
  account: string;
  device: string;
  strength: "full" | "badge";
  started_at: Timestamp;
  seen_at: Timestamp;
  expires_at: Timestamp;
  ended_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
}
export type SessionRow = Selectable<SessionTable>;

export interface SettingTable {
  name: string;
  policy: string;
  value: Json;
  version: number;
}
export type SettingRow = Selectable<SettingTable>;

export interface StayTable {
  piece: string;
  n: number;
  holder_kind: string;
  holder: string | null;
  from_at: Timestamp;
  to_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  evidence: string;
  from_version: number;
  to_version: number | null;
  load: string | null;
}
export type StayRow = Selectable<StayTable>;

export interface TagTable {
  id: string;
  number: string;
  state: "reserved" | "printed" | "attached" | "superseded" | "lost" | "destroyed" | "void";
  piece: string | null;
  meant_for: string | null;
  position: string | null;
  run: string | null;
  attached_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  superseded_by: string | null;
  version: number;
}
export type TagRow = Selectable<TagTable>;

export interface TraceTable {
  id: string;
  name: string;
  direction: "forward" | "backward";
  is_drill: boolean;
  read_position: number;
  kept_at: Timestamp;
  kept_by: string;
  contacts: number;
  facts: Json;
  closed_at: ColumnType<Date | null, Date | string | null, Date | string | null>;
  version: number;
}
export type TraceRow = Selectable<TraceTable>;

export interface TraceOutcomeTable {
  trace: string;
  piece: string;
  outcome: "found" | "isolated" | "sent to wash" | "cleared" | "retired" | "not found";
  outcome_at: Timestamp;
  outcome_by: string;
  evidence: string;
  version: number;
}
export type TraceOutcomeRow = Selectable<TraceOutcomeTable>;

export interface ViewingTable {
  id: GeneratedAlways<number>;
  at: ColumnType<Date, Date | string | undefined, Date | string>;
  member: string;
  by: string;
  event: string | null;
}
export type ViewingRow = Selectable<ViewingTable>;

export interface Database {
  acceptance: AcceptanceTable;
  account: AccountTable;
  act: ActTable;
  bench_device: BenchDeviceTable;
  by_eye: ByEyeTable;
  contaminant: ContaminantTable;
  contamination_event: ContaminationEventTable;
  credential: CredentialTable;
  entry: EntryTable;
  entry_text: EntryTextTable;
  event_member: EventMemberTable;
  fitting: FittingTable;
  foreign_code: ForeignCodeTable;
  found_property: FoundPropertyTable;
  hold: HoldTable;
  import_file: ImportFileTable;
  import_problem: ImportProblemTable;
  import_upload: ImportUploadTable;
  job: JobTable;
  kind: KindTable;
  ledger_head: LedgerHeadTable;
  load: LoadTable;
  machine: MachineTable;
  machine_check: MachineCheckTable;
  member: MemberTable;
  model: ModelTable;
  model_takes: ModelTakesTable;
  named: NamedTable;
  numbered: NumberedTable;
  one_time_link: OneTimeLinkTable;
  outside: OutsideTable;
  person: PersonTable;
  piece: PieceTable;
  piece_cleaned: PieceCleanedTable;
  piece_met: PieceMetTable;
  pin_tries: PinTriesTable;
  place: PlaceTable;
  place_cleaned: PlaceCleanedTable;
  print_file: PrintFileTable;
  print_run: PrintRunTable;
  programme: ProgrammeTable;
  provider: ProviderTable;
  scan: ScanTable;
  session: SessionTable;
  setting: SettingTable;
  stay: StayTable;
  tag: TagTable;
  trace: TraceTable;
  trace_outcome: TraceOutcomeTable;
  viewing: ViewingTable;
}
