import { crc32, deflateRawSync, inflateRawSync } from 'node:zlib'

export interface Packed {
  name: string
  bytes: Uint8Array
}

const local = 0x04034b50
const central = 0x02014b50
const endOfCentral = 0x06054b50
const deflated = 8
const utf8Names = 0x0800

/**
 * Packs files into one zip archive. The same files and date give the same bytes, which no general library promises.
 * @param at the date that every file carries [epoch ms], in UTC; two seconds is as fine as the format goes
 * @throws RangeError for 65 535 files or 4 GB and more, which would need the larger form of the format
 * @source PKWARE APPNOTE.TXT 6.3, 4.3.7 (local header), 4.3.12 (central directory), 4.3.16 (end) @provenance from memory, checked by reading the archives with other programs
 */
export function zipOf(files: readonly Packed[], at: number): Buffer {
  if (files.length >= 0xffff) throw new RangeError('A zip archive of this form holds less than 65 535 files.')
  const { date, time } = dosTime(at)
  const parts: Buffer[] = []
  const directory: Buffer[] = []
  let offset = 0
  for (const { name, bytes } of files) {
    const title = Buffer.from(name, 'utf8')
    const packed = deflateRawSync(bytes, { level: 6 })
    const common = Buffer.alloc(26)
    common.writeUInt16LE(20, 0)
    common.writeUInt16LE(utf8Names, 2)
    common.writeUInt16LE(deflated, 4)
    common.writeUInt16LE(time, 6)
    common.writeUInt16LE(date, 8)
    common.writeUInt32LE(crc32(bytes), 10)
    common.writeUInt32LE(packed.length, 14)
    common.writeUInt32LE(bytes.length, 18)
    common.writeUInt16LE(title.length, 22)
    parts.push(signed(local), common, title, packed)
    const tail = Buffer.alloc(14)
    tail.writeUInt32LE(offset, 10)
    directory.push(signed(central), u16(20), common, tail, title)
    offset += 30 + title.length + packed.length
    if (offset > 0xffffffff) throw new RangeError('A zip archive of this form holds less than 4 GB.')
  }
  const list = Buffer.concat(directory)
  const end = Buffer.alloc(18)
  end.writeUInt16LE(files.length, 4)
  end.writeUInt16LE(files.length, 6)
  end.writeUInt32LE(list.length, 8)
  end.writeUInt32LE(offset, 12)
  return Buffer.concat([...parts, list, signed(endOfCentral), end])
}

/** The files of an archive that this program or a library of it made, in the order of its directory. */
export function unzipped(archive: Buffer): Packed[] {
  const end = archive.lastIndexOf(signed(endOfCentral))
  if (end === -1) throw new RangeError('This is no whole zip archive.')
  const count = archive.readUInt16LE(end + 10)
  const files: Packed[] = []
  let at = archive.readUInt32LE(end + 16)
  for (let i = 0; i < count; i++) {
    const method = archive.readUInt16LE(at + 10)
    const size = archive.readUInt32LE(at + 20)
    const [nameLength, extra, comment] = [28, 30, 32].map((place) => archive.readUInt16LE(at + place)) as [
      number,
      number,
      number,
    ]
    const start = archive.readUInt32LE(at + 42)
    const body = start + 30 + archive.readUInt16LE(start + 26) + archive.readUInt16LE(start + 28)
    const packed = archive.subarray(body, body + size)
    files.push({
      name: archive.toString('utf8', at + 46, at + 46 + nameLength),
      bytes: method === deflated ? inflateRawSync(packed) : packed,
    })
    at += 46 + nameLength + extra + comment
  }
  return files
}

function signed(signature: number): Buffer {
  const bytes = Buffer.alloc(4)
  bytes.writeUInt32LE(signature)
  return bytes
}

function u16(value: number): Buffer {
  const bytes = Buffer.alloc(2)
  bytes.writeUInt16LE(value)
  return bytes
}

function dosTime(at: number): { date: number; time: number } {
  const day = new Date(at)
  return {
    date: ((day.getUTCFullYear() - 1980) << 9) | ((day.getUTCMonth() + 1) << 5) | day.getUTCDate(),
    time: (day.getUTCHours() << 11) | (day.getUTCMinutes() << 5) | (day.getUTCSeconds() >> 1),
  }
}
