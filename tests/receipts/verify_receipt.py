#!/usr/bin/env python3
"""Checks a receipt without the program that wrote it: python3 verify_receipt.py FILE.receipt KEY

Needs Python 3.8 and nothing else. Signatures are checked when the package `cryptography` is there; when it is not, that is said,
and then nobody has vouched for the checkpoint. Written from the section on receipts in DEVELOPERS.md, apart from the program.
"""
import base64
import hashlib
import json
import re
import sys

try:
    from cryptography.exceptions import InvalidSignature
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey
except ImportError:
    Ed25519PublicKey = None


class Wrong(Exception):
    pass


def need(fine, message):
    if not fine:
        raise Wrong(message)


def sha256(*parts):
    return hashlib.sha256(b"".join(parts)).digest()


def unbase64(text):
    try:
        data = base64.b64decode(text, validate=True)
    except ValueError:
        raise Wrong("base64 is damaged")
    need(base64.b64encode(data).decode() == text, "base64 is damaged")
    return data


def read_key(word):
    name, key_id, encoded = (word.strip().split("+", 2) + ["", ""])[:3]
    typed = unbase64(encoded)
    need(len(typed) == 33 and typed[0] == 1, "the key is no Ed25519 key")
    need(sha256(name.encode(), b"\n", typed)[:4].hex() == key_id, "the key was mistyped")
    return name, bytes.fromhex(key_id), typed[1:]


def open_note(what, note, key):
    """The signed text above the last empty line, when the key signed it."""
    name, key_id, public = key
    text, empty, below = note.rpartition("\n\n")
    text += "\n"
    need(empty and below.endswith("\n") and not re.search("[\0-\t\x0b-\x1f]", note), what + " is cut off or no signed text")
    signatures = []
    for line in below[:-1].split("\n"):
        found = re.fullmatch("— ([^ +]+) ([^ ]+)", line)
        need(found, what + " has a damaged signature")
        data = unbase64(found[2])
        if found[1] == name and data[:4] == key_id:
            signatures.append(data[4:])
    need(signatures, what + " is signed with another key")
    for signature in signatures if Ed25519PublicKey else []:
        try:
            Ed25519PublicKey.from_public_bytes(public).verify(signature, text.encode())
        except InvalidSignature:
            raise Wrong(what + " was changed after it was signed")
    return text


def root_of(seq, size, leaf, path):
    """RFC 9162 section 2.1.3.2; None for a path of the wrong length."""
    last = size - 1
    for beside in path:
        if last == 0:
            return None
        if seq % 2 == 1 or seq == last:
            leaf = sha256(b"\1", beside, leaf)
            while seq % 2 == 0 and seq != 0:
                seq, last = seq // 2, last // 2
        else:
            leaf = sha256(b"\1", leaf, beside)
        seq, last = seq // 2, last // 2
    return leaf if last == 0 else None


def check(receipt, key):
    lines = receipt[: receipt.rfind("\n\n") + 1].split("\n")
    need(lines.pop(0) == "walkfoot receipt 1", "this is no receipt of version 1")
    need(lines[0].startswith("ticket ") and lines[1].startswith("entries "), "the receipt is cut off")
    ticket = json.loads(lines.pop(0)[7:])
    listed = [int(seq) for seq in lines.pop(0)[8:].split(" ")]
    need(listed == sorted(set(listed)), "the list of entries is out of order")
    texts = []
    while lines[0].startswith("text "):
        texts.append(lines.pop(0)[5:])
    head = lines.index("checkpoint")
    grew = head - 1 if lines[head - 1].startswith("grew ") else head
    note = open_note("the checkpoint", "\n".join(lines[head + 1 :]), key)
    origin, size, root = note.split("\n")[:3]
    size, root = int(size), unbase64(root)
    need(origin == key[0], "the checkpoint is of another ledger")
    need(grew == 2 * len(listed), "an entry is missing or was added")
    played = set()
    for at, seq in enumerate(listed):
        name = "entry %d " % seq
        text, path = lines[2 * at], lines[2 * at + 1].split(" ")
        need(text.startswith("entry ") and path.pop(0) == "path", name + "is damaged")
        entry = json.loads(text[6:])
        need(type(entry["seq"]) is int and entry["seq"] == seq, name + "is not in its place")
        need(entry["station"] == origin, name + "is of another station")
        need(entry["body"].get("ticket") == ticket, name + "is of another bundle")
        need(entry["body"].get("nth") == (at or None), "an entry before " + name + "was left out")
        leaf = sha256(b"\0", text[6:].encode())
        path = [unbase64(one) for one in path]
        need(seq < size and root_of(seq, size, leaf, path) == root, name + "does not lead to the checkpoint")
        for digest in (entry["body"].get("digest"), entry["body"].get("sheet")):
            if isinstance(digest, str) and re.fullmatch("[0-9a-f]{64}", digest):
                played.add(digest)
    need(texts == sorted(played), "the list of texts is wrong")
    open_note("the receipt", receipt, key)
    return "%d entries of %s, in a ledger of %d entries of %s" % (len(listed), ticket, size, origin)


def main(file, word):
    try:
        with open(file, "rb") as opened:
            found = check(opened.read().decode("utf-8"), read_key(word))
    except Wrong as wrong:
        return "wrong: %s" % wrong
    except (ValueError, KeyError, IndexError, TypeError, AttributeError, RecursionError) as error:
        return "wrong: the receipt cannot be read (%s)" % error
    print("intact: " + found)
    if not Ed25519PublicKey:
        print("SIGNATURES NOT CHECKED: install the package cryptography, or nobody has vouched for this")


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]) if len(sys.argv) == 3 else __doc__)
