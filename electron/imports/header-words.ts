import type { SeriesQuantity } from '#model/record/climate.ts'
import type { LoggerUnit } from './convert.ts'
import { withoutAccents } from './wall-clock.ts'

/** What the name of a column tells. */
export interface HeaderMeaning {
  quantity: SeriesQuantity | null
  unit: LoggerUnit | null
  /** `clear`: the words name this quantity; `likely`: a usual word that fits several; `none`: nothing is told. */
  certainty: 'clear' | 'likely' | 'none'
}

/** Columns that hold no reading of the air or the screed, in English, German and French. */
const notAReading =
  /dew|taupunkt|rosee|batter|akku|pile\b|press|druck|return|ruck|retour|lux|co2|voltage|spannung|status|alarm|seri(?:al|en)|serie\b|index|^(?:no|nr|n°|#|lfd)\b|absol|\bmin(?:\b|_)|_min\b|\bmax(?:\b|_)|_max\b|target|soll|consigne|set ?point/

const outside = /outs|outdoor|extern|\bext\b|exter|ausse|draussen|dehors/
const surface = /surface|oberflach|boden|\bsol\b|floor/
const screed = /screed|estrich|chape|\bcore\b|slab|embedded|kern/
const flow = /\bflow\b|vorlauf|depart|supply/
const humidity = /humid|feucht|hygro|\brh\b|r\.h\.|\brf\b|\brel\b|\bhr\b|humidite|%\s?rh/
const airSpeed = /air ?speed|wind|velocit|geschwindigkeit|vitesse|\bvent\b|m\/s|km\/h/
const temperature = /temp|\bt\b|celsius|fahrenheit|kelvin|°\s?c|°\s?f|\bdeg ?[cf]\b|luftwarme/

/** Returns what a column holds, judged by its name alone. */
export function meaningOfHeader(name: string): HeaderMeaning {
  const words = withoutAccents(name).replace(/ß/g, 'ss')
  const unit = unitIn(name)
  const none: HeaderMeaning = { quantity: null, unit, certainty: 'none' }
  if (words.trim() === '' || notAReading.test(words)) return none
  if (unit === '%' || humidity.test(words)) {
    if (unit !== null && unit !== '%') return none
    const likely = !humidity.test(words)
    return {
      quantity: outside.test(words) ? 'outsideRhPercent' : 'rhPercent',
      unit: '%',
      certainty: likely ? 'likely' : 'clear',
    }
  }
  if (airSpeed.test(words)) {
    return { quantity: 'airSpeedMs', unit: unit ?? 'm/s', certainty: unit === null ? 'likely' : 'clear' }
  }
  const isTemperature = temperature.test(words) || unit === '°C' || unit === '°F' || unit === 'K'
  const place = temperaturePlace(words)
  if (!isTemperature && place === null) return none
  const certainty = isTemperature && unit !== null ? 'clear' : 'likely'
  return { quantity: place ?? 'airC', unit: unit ?? '°C', certainty }
}

function temperaturePlace(words: string): SeriesQuantity | null {
  if (outside.test(words)) return 'outsideC'
  if (flow.test(words)) return 'flowC'
  if (screed.test(words)) return 'screedC'
  if (surface.test(words)) return 'surfaceC'
  return null
}

function unitIn(name: string): LoggerUnit | null {
  if (/km\s?\/\s?h|kmh/i.test(name)) return 'km/h'
  if (/m\s?\/\s?s/i.test(name)) return 'm/s'
  if (/[°º]\s?F|fahrenheit|deg\s?F\b|[[(_ ]F[\])]?$/i.test(name)) return '°F'
  if (/[°º]\s?C|celsius|deg\s?C\b|[[(]C[\])]|[_ ]C$/i.test(name)) return '°C'
  if (/kelvin|[[(]K[\])]/i.test(name)) return 'K'
  if (/%/.test(name)) return '%'
  return null
}

/** Returns the fixed offset or UTC that the name of a time column states, such as "Time, GMT+01:00"; else null. */
export function timeZoneInHeader(name: string): string | null {
  const match = /\b(?:GMT|UTC)\s*(?:([+-])\s?(\d{1,2})(?::?(\d{2}))?)?/i.exec(name)
  if (match === null) return null
  const [, sign, hours, minutes = '00'] = match
  if (sign === undefined || hours === undefined) return 'UTC'
  return Number(hours) === 0 && minutes === '00' ? 'UTC' : `${sign}${hours.padStart(2, '0')}:${minutes}`
}
