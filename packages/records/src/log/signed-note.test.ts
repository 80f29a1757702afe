import { describe, expect, it } from 'vitest'
import { keyOf } from '../../fixtures/plant.js'
import { privateKeyFrom } from '../key-file.js'
import { publicBytesOf, thumbprint } from '../public-key.js'
import { formatCheckpoint, originOf, parseCheckpoint, signCheckpoint } from './checkpoint.js'
import { formatNoteKey, openNote, parseNoteKey, signNote } from './signed-note.js'
import { emptyRoot } from './tree-hash.js'

// The worked example of the documentation of golang.org/x/mod/sumdb/note (package comment and example_test.go), which
// C2SP signed-note describes. Ed25519 has no chance in it (RFC 8032), so signing gives the same bytes.
const seed = Buffer.from('AYEKFALVFGyNhPJEMzD1QIDr+Y7hfZx09iUvxdXHKDFz', 'base64').subarray(1)
const key = 'PeterNeumann+c74f20a3+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW'
const text = "If you think cryptography is the answer to your problem,\nthen you don't know what your problem is.\n"
const note = `${text}\n— PeterNeumann x08go/ZJkuBS9UG/SffcvIAQxVBtiFupLLr8pAcElZInNIuGUgYN1FFYC2pZSNXgKvqfqdngotpRZb6KE6RyyBwJnAM=\n`
const known = parseNoteKey(key)

describe('a signed note', () => {
  it('is signed and opened as the published example', () => {
    if (known === null) return expect.fail('the key is not read')
    expect(signNote(text, 'PeterNeumann', privateKeyFrom(seed))).toBe(note)
    expect(formatNoteKey({ name: 'PeterNeumann', key: publicBytesOf(privateKeyFrom(seed)) })).toBe(key)
    expect(openNote(note, [known])).toEqual({ ok: true, text, by: [known] })
  })

  it('is refused with any byte of it changed, and cut anywhere', () => {
    if (known === null) return expect.fail('the key is not read')
    const bytes = Buffer.from(note)
    for (let at = 0; at < bytes.length; at += 1) {
      for (const bit of [1, 0x20, 0x80]) {
        const changed = Buffer.from(bytes)
        changed[at] = (changed[at] ?? 0) ^ bit
        expect(openNote(changed.toString('utf8'), [known]).ok).toBe(false)
      }
      expect(openNote(bytes.subarray(0, at).toString('utf8'), [known]).ok).toBe(false)
    }
  })

  it('passes over unknown signers, and believes no note that only they signed', () => {
    if (known === null) return expect.fail('the key is not read')
    const other = { name: 'example.org/other', key: publicBytesOf(keyOf('other')) }
    const second = signNote(text, other.name, keyOf('other')).split('\n\n')[1] ?? ''
    expect(openNote(`${note}${second}`, [known])).toMatchObject({ ok: true, by: [known] })
    expect(openNote(`${note}${second}`, [known, other])).toMatchObject({ ok: true, by: [known, other] })
    expect(openNote(note, [other])).toMatchObject({ ok: false, signers: ['PeterNeumann'] })
    // A known signer whose signature does not fit spoils it, though another one's does.
    const spoiled = `${note}${second.replace(/.=\n$/, (end) => `${end.startsWith('A') ? 'B' : 'A'}=\n`)}`
    expect(openNote(spoiled, [known, other]).ok).toBe(false)
  })

  it('is not read with control characters, with no signature, or under a name with a blank', () => {
    const keys = known === null ? [] : [known]
    for (const wrong of [
      text,
      `${text}\n`,
      note.replace('you', 'y\u0007u'),
      note.replace('— ', '- '),
      note.trimEnd()
    ]) {
      expect(openNote(wrong, keys)).toMatchObject({ ok: false, why: 'it is not a signed note' })
    }
    expect(() => signNote(text, 'two words', keyOf('other'))).toThrow()
    expect(() => signNote(text, 'a+b', keyOf('other'))).toThrow()
    expect(() => signNote('no line end', 'name', keyOf('other'))).toThrow()
  })
})

describe('the key of a note', () => {
  it('is read in its one form, with the key id that is its own', () => {
    // note_test.go of the same: a key of wrong length, and one of an unknown algorithm, each with a fitting key id.
    for (const wrong of [
      'PeterNeumann+cc469956+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TWBADKEY==',
      'PeterNeumann+173116ae+ZRpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW',
      key.replace('c74f20a3', 'c74f20a4'),
      key.slice(0, -1),
      'PeterNeumann',
      ''
    ]) {
      expect(parseNoteKey(wrong)).toBeNull()
    }
  })
})

describe('a checkpoint', () => {
  it('is read back, in one spelling, with lines behind it passed over', () => {
    // The body of the example in C2SP tlog-checkpoint.
    const body = 'example.com/behind-the-sofa\n20852163\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n'
    const read = parseCheckpoint(body)
    expect(read).toMatchObject({ origin: 'example.com/behind-the-sofa', size: 20_852_163 })
    expect(read === null ? '' : formatCheckpoint(read)).toBe(body)
    expect(parseCheckpoint(`${body}an extension\n`)).toEqual(read)
    for (const wrong of [
      body.slice(0, -1),
      body.replace('20852163', '020852163'),
      body.replace('20852163', '-1'),
      body.replace('=\n', '\n'),
      `${body}\n`,
      body.replace('example.com/behind-the-sofa', '')
    ]) {
      expect(parseCheckpoint(wrong)).toBeNull()
    }
  })

  it('bears a name that stands for the site and its root key, whatever the site is called', () => {
    const root = publicBytesOf(keyOf('root'))
    expect(originOf('Sandholm waterworks', root)).toBe(`lockwright/sandholm-waterworks/${thumbprint(root)}`)
    expect(originOf('Wasserwerk Süd + Öl (2)', root)).toBe(`lockwright/wasserwerk-sud-ol-2/${thumbprint(root)}`)
    expect(originOf('水道局', root)).toBe(`lockwright/site/${thumbprint(root)}`)
    const signed = signCheckpoint({ origin: originOf('水道局', root), size: 0, root: emptyRoot() }, keyOf('root'))
    expect(signed).toContain('\n0\n47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=\n\n— lockwright/site/')
  })
})
