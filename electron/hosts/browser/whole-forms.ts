import type { RPCHandlerOptions } from '@orpc/server/node'
import type { Services } from '../../api/services.ts'

type Interceptor = NonNullable<RPCHandlerOptions<Services>['rootInterceptors']>[number]

/**
 * An answer with bytes in it, such as a picture, is made whole before it is sent. Node writes such a form piece by piece, and
 * when the page leaves meanwhile (it does, picture by picture) its next piece ends the whole process: "ReadableStream is
 * already closed".
 */
export const wholeForms: Interceptor = async ({ next }) => {
  const result = await next()
  if (!result.matched || !(result.response.body instanceof FormData)) return result
  const form = new Response(result.response.body)
  const contentType = form.headers.get('content-type') ?? 'multipart/form-data'
  const whole = await form.blob()
  const headers = { ...result.response.headers, 'content-type': contentType }
  return { ...result, response: { ...result.response, headers, body: whole.stream() } }
}
