/** The one message that the preload script may send. */
export const connectChannel = 'bayledger:connect'
