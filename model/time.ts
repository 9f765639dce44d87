import { millisecondsInDay, millisecondsInHour, millisecondsInMinute } from 'date-fns/constants'

/** Lengths of time in the epoch milliseconds that the model counts in. A day here is 24 hours, not a day of the calendar. */
export const minuteMs = millisecondsInMinute
export const hourMs = millisecondsInHour
export const dayMs = millisecondsInDay
