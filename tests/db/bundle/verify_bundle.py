#!/usr/bin/env python3
"""Checks a signed bundle with nothing but Python's own library: another program, written from docs/record.md alone.

Usage: verify_bundle.py BUNDLE   prints one line of JSON; ends with 0 when the bundle is good and with 1 when it is not.
Ed25519 is written out here after RFC 8032, 5.1.7 and 6 (from memory), and checked by its first test vector (--self-test).
"""
import hashlib
import json
import re
import sys

P = 2**255 - 19
L = 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, P - 2, P) % P
ROOT = pow(2, (P - 1) // 4, P)


class Fault(Exception):
    pass


def recover_x(y, sign):
    if y >= P:
        return None
    x2 = (y * y - 1) * pow(D * y * y + 1, P - 2, P) % P
    if x2 == 0:
        return None if sign else 0
    x = pow(x2, (P + 3) // 8, P)
    if (x * x - x2) % P:
        x = x * ROOT % P
    if (x * x - x2) % P:
        return None
    return P - x if x & 1 != sign else x


def add(a, b):
    x1, y1, z1, t1 = a
    x2, y2, z2, t2 = b
    m, n = (y1 - x1) * (y2 - x2) % P, (y1 + x1) * (y2 + x2) % P
    c, d = 2 * t1 * t2 * D % P, 2 * z1 * z2 % P
    e, f, g, h = n - m, d - c, d + c, n + m
    return e * f % P, g * h % P, f * g % P, e * h % P


def times(k, point):
    total = (0, 1, 1, 0)
    while k:
        if k & 1:
            total = add(total, point)
        point = add(point, point)
        k >>= 1
    return total


def point_of(data):
    number = int.from_bytes(data, "little")
    y, sign = number & (2**255 - 1), number >> 255
    x = recover_x(y, sign)
    return None if x is None else (x, y, 1, x * y % P)


BASE_Y = 4 * pow(5, P - 2, P) % P
BASE_X = recover_x(BASE_Y, 0)
BASE = (BASE_X, BASE_Y, 1, BASE_X * BASE_Y % P)


def signature_is_good(key, message, signature):
    a, r = point_of(key), point_of(signature[:32])
    s = int.from_bytes(signature[32:], "little")
    if len(signature) != 64 or a is None or r is None or s >= L:
        return False
    h = int.from_bytes(hashlib.sha512(signature[:32] + key + message).digest(), "little") % L
    left, right = times(s, BASE), add(r, times(h, a))
    return not ((left[0] * right[2] - right[0] * left[2]) % P or (left[1] * right[2] - right[1] * left[2]) % P)


def sha(data):
    return hashlib.sha256(data).hexdigest()


def root_of(leaves):
    """RFC 6962, 2.1, as it is written there: recursion at the largest power of two below the number of leaves."""
    if not leaves:
        return hashlib.sha256(b"").digest()
    if len(leaves) == 1:
        return hashlib.sha256(b"\0" + leaves[0]).digest()
    split = 1 << (len(leaves) - 1).bit_length() - 1
    return hashlib.sha256(b"\1" + root_of(leaves[:split]) + root_of(leaves[split:])).digest()


def canonical(value):
    # Enough for what a manifest and a head hold: texts, whole numbers, lists, null.
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()


def header(name, size):
    block = bytearray(512)
    block[0 : len(name)] = name.encode()
    for at, text in (
        (100, b"0000644\0"),
        (108, b"0000000\0"),
        (116, b"0000000\0"),
        (124, b"%011o\0" % size),
        (136, b"00000000000\0"),
        (148, b" " * 8),
        (156, b"0"),
        (257, b"ustar\00000"),
    ):
        block[at : at + len(text)] = text
    block[148:156] = b"%06o\0 " % sum(block)
    return bytes(block)


class Reader:
    def __init__(self, data):
        self.data, self.at = data, 0

    def take(self, count):
        part = self.data[self.at : self.at + count]
        if len(part) < count:
            raise Fault("ends too early")
        self.at += count
        return part

    def member(self, name, size=None):
        block = self.take(512)
        if size is None:
            if not re.fullmatch(rb"[0-7]{11}\0", block[124:136]):
                raise Fault("no size")
            size = int(block[124:135], 8)
        if block != header(name, size):
            raise Fault(f"header of {name}")
        body = self.take(size)
        if any(self.take(-size % 512)):
            raise Fault(f"padding after {name}")
        return body


def check(data):
    reader = Reader(data)
    manifest_bytes = reader.member("manifest.json")
    head_bytes = reader.member("tree-head.json")
    signature = reader.member("tree-head.sig", 64)
    try:
        manifest, head = json.loads(manifest_bytes), json.loads(head_bytes)
    except (ValueError, RecursionError):
        raise Fault("not JSON") from None
    if canonical(manifest) != manifest_bytes or canonical(head) != head_bytes:
        raise Fault("not canonical")
    if (manifest["format"], head["format"]) != ("bayledger bundle", "bayledger tree head"):
        raise Fault("format")
    if (manifest["version"], head["version"]) != (1, 1):
        raise Fault("version")
    if sha(manifest_bytes) != head["manifestSha256"]:
        raise Fault("manifest")
    if not signature_is_good(bytes.fromhex(head["publicKey"]), head_bytes, signature):
        raise Fault("signature")
    names, entries = set(), None
    for line in manifest["members"]:
        name = line["name"]
        if not re.fullmatch(r"README\.txt|rules\.json|entries\.ndjson|(files|series|photos)/[0-9a-f]{64}", name):
            raise Fault("name")
        if name in names or ("/" in name and name.split("/")[1] != line["sha256"]):
            raise Fault("name")
        names.add(name)
        body = reader.member(name, line["bytes"])
        if sha(body) != line["sha256"]:
            raise Fault(name)
        if name == "entries.ndjson":
            entries = body
    if data[reader.at :] != bytes(1024):
        raise Fault("end")
    needed = follow(entries, manifest, head)
    if needed - names - {line["name"] for line in manifest["missing"]}:
        raise Fault("missing")
    return {"fingerprint": sha(head_bytes), **part_of(manifest)}


def part_of(manifest):
    """A bundle of some bays says of how many bays of the project it is a part."""
    scope = manifest["scope"]
    if scope["kind"] != "bays":
        return {}
    return {"part": {"bays": len(scope["bays"]), "of": scope.get("baysOfProject"), "leftOut": manifest["entries"]["leftOut"]}}


def follow(entries, manifest, head):
    if not entries.endswith(b"\n") and entries:
        raise Fault("last line")
    leaves, last, left_out, needed, given = [], {}, set(), set(), 0
    for line in entries.split(b"\n")[:-1]:
        said = json.loads(line)
        if isinstance(said, str):
            leaves.append(bytes.fromhex(said))
            left_out.add(said)
            continue
        given += 1
        own = sha(line)
        number, before = last.get(said["device"], (0, "0" * 64))
        follows = said["deviceSeq"] == number + 1 and said["prevHash"] == before
        jumps = said["deviceSeq"] > number + 1 and said["prevHash"] in left_out
        if not follows and not jumps:
            raise Fault("chain")
        last[said["device"]] = (said["deviceSeq"], own)
        leaves.append(bytes.fromhex(own))
        body = said["body"]
        if said["kind"] == "logger-imported" and said["corrects"] is None:
            needed.add("files/" + body["sha256"])
            needed.update("series/" + column["readingsSha256"] for column in body["columns"])
        if said["kind"] == "photo-added":
            needed.add("photos/" + body["sha256"])
    counts = {"given": given, "leftOut": len(leaves) - given}
    if counts != manifest["entries"] or len(leaves) != head["size"] or root_of(leaves).hex() != head["root"]:
        raise Fault("tree")
    return needed


def self_test():
    """RFC 8032, 7.1, TEST 1 (from memory; a wrong digit could not verify)."""
    key = bytes.fromhex("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a")
    signature = bytes.fromhex(
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b"
    )
    return signature_is_good(key, b"", signature) and not signature_is_good(key, b"x", signature)


def main():
    if sys.argv[1] == "--self-test":
        print(json.dumps({"good": self_test()}))
        return
    with open(sys.argv[1], "rb") as file:
        data = file.read()
    try:
        print(json.dumps({"good": True, **check(data)}))
    except (Fault, KeyError, TypeError, ValueError, AttributeError, RecursionError) as fault:
        print(json.dumps({"good": False, "fault": str(fault)}))
        sys.exit(1)


main()
