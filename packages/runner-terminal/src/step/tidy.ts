/** A typed line with single spaces and none at its ends; what cannot be seen is gone. */
export function tidy(typed: string): string {
  return typed.replace(/[\p{Cc}\p{Cf}\p{Cs}\s]+/gu, ' ').trim()
}
