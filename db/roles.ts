/** The role that owns the tables and runs migrations. */
export const OWNER_ROLE = "layertrail_owner";
/** The role that the running server has. Migrations grant it what it may do, table by table. */
export const APP_ROLE = "layertrail_app";
