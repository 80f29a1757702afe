export { type Migrated, migrate } from './migrate.js'
export { postgresStore } from './postgres-store.js'
