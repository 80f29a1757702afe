import { Option } from 'commander'

/** Where the passphrase of the root key stands. */
export const rootFile = (): Option =>
  new Option(
    '--root-passphrase-file <file>',
    "file with the passphrase of the site's root key, eight characters or more (else LOCKWRIGHT_ROOT_PASSPHRASE, else it is asked for)"
  )

/** Where the passphrase of a person's new key stands. */
export const ownFile = (): Option =>
  new Option(
    '--passphrase-file <file>',
    "file with the passphrase of the person's new key, eight characters or more (else LOCKWRIGHT_PASSPHRASE, else it is asked for)"
  )

/** Where the passphrase stands that a key is to have from now on. */
export const newFile = (): Option =>
  new Option(
    '--new-passphrase-file <file>',
    'file with the new passphrase, eight characters or more (else LOCKWRIGHT_NEW_PASSPHRASE, else it is asked for twice)'
  )
