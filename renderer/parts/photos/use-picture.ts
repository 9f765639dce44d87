import { useQuery } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import type { PictureSize } from '#model/contract/index.ts'
import { client } from '../../app/client.ts'
import type { Photo } from './use-photos.ts'

const keptMs = 60_000

export interface Picture {
  /** An address that an image element can show; null while it is coming. */
  url: string | null
  error: Error | null
}

/**
 * The picture of a photo. The page carries no password in an address, so the bytes come by a call and are shown from
 * memory; the same bytes never change, so they are asked for once.
 * @param wanted false leaves it alone, and stops one that is on its way
 */
export function usePicture({ body }: Photo, size: PictureSize, wanted = true): Picture {
  const { sha256, format } = body
  const { data, error } = useQuery({
    queryKey: ['picture', sha256, size],
    queryFn: async ({ signal }) =>
      (await client.photos.picture({ sha256, format, size }, { signal })).picture,
    enabled: wanted,
    staleTime: 'static',
    gcTime: keptMs,
    retry: false,
  })
  const [url, setUrl] = useState<string | null>(null)
  useEffect(() => {
    if (data === undefined || !wanted) return
    const address = URL.createObjectURL(data)
    setUrl(address)
    return () => {
      setUrl(null)
      URL.revokeObjectURL(address)
    }
  }, [data, wanted])
  return { url, error }
}
