/** A picture that was looked at and may be printed. Sizes in pixels; of a drawing, in the units of its view box. */
export type Picture =
  /** Three bytes a pixel, red, green and blue, row by row. */
  | { readonly kind: 'pixels'; readonly width: number; readonly height: number; readonly data: Uint8Array }
  /** A whole JPEG file with one component (grey) or three. */
  | {
      readonly kind: 'jpeg'
      readonly width: number
      readonly height: number
      readonly components: 1 | 3
      readonly data: Uint8Array
    }
  | { readonly kind: 'drawing'; readonly width: number; readonly height: number; readonly text: string }

/** Why a picture is not printed, and what to do about it. */
export interface PictureFault {
  /** As the procedure names it. */
  readonly source: string
  readonly what: string
  readonly mend: string
}

export type Loaded =
  | { readonly ok: true; readonly picture: Picture }
  | { readonly ok: false; readonly fault: PictureFault }

/** Finds a picture by the name that the procedure gives it. The same name gives the same picture. */
export type LoadImage = (source: string) => Loaded

/** A refusal before it is known of which picture it is. */
export type Refused = Omit<PictureFault, 'source'>

export type Read = { readonly ok: true; readonly picture: Picture } | ({ readonly ok: false } & Refused)

export function refused(what: string, mend: string): Read {
  return { ok: false, what, mend }
}

/** Beyond these a picture is refused before it is unpacked. */
export const pictureLimits = { bytes: 8 * 1024 * 1024, drawingBytes: 512 * 1024, pixels: 40_000_000 } as const
