import { unbroken } from './say.js'

/** Seconds as a person reads them, never shorter than they are: `45 s`, `15 min`, `8 min 44 s`, `2 h 5 min`. */
export function duration(seconds: number): string {
  const whole = Math.ceil(seconds)
  const hours = Math.floor(whole / 3600)
  const minutes = Math.floor((whole % 3600) / 60)
  const rest = whole % 60
  const parts = [
    hours > 0 ? `${hours} h` : '',
    minutes > 0 ? `${minutes} min` : '',
    rest > 0 || whole === 0 ? `${rest} s` : ''
  ]
  return unbroken(parts.filter((part) => part !== '').join(' '))
}
